"""The sketch as GeoJSON (RFC 7946): zones and features as polygons, heads and spots as points."""

import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import write_text_whole
from lawnbook.store.outlines_laid import is_drawn
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, signed_area_sqft, yard_bounds_ft, zone_area_sqft
from lawnbook.yard.local_plane import LocalPlane
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Head, Spot, Zone

DECIMALS = 8
"""Of a degree: a millimetre."""
GEOJSON = ".geojson"
NOT_PLACED = tr("The middle of what is drawn was taken for the yard's latitude and longitude.")


@dataclass(frozen=True, slots=True)
class Written:
    """The text of a file, and what is to be told of it; "" for nothing."""

    text: str
    told: str = ""


def geojson_of(notebook: Notebook) -> Written:
    """Everything drawn, in longitude and latitude, right-hand rings, one feature a line.

    The place is that of the sketch's zero point, else the yard's own for the middle of what is
    drawn. OwnerError where neither is known, or nothing is drawn.
    """
    refuse_undrawn(notebook)
    placing, told = _placing(notebook)
    lines = [json.dumps(each, ensure_ascii=False) for each in _features(notebook, placing)]
    inside = ",\n".join(lines)
    return Written(f'{{"type": "FeatureCollection", "features": [\n{inside}\n]}}\n', told)


def write_geojson(
    notebook: Notebook, path: Path, between: Callable[[], None] = lambda: None
) -> str:
    """Write a notebook's sketch as GeoJSON, whole or not at all; what is to be told of it.

    `between` is called before the file is written; what it raises leaves it unwritten.
    """
    written = geojson_of(notebook)
    between()
    write_text_whole(path, written.text)
    return written.told


def refuse_undrawn(notebook: Notebook) -> None:
    """OwnerError where there is nothing to write."""
    if not is_drawn(replace(notebook, backdrops={})):
        raise OwnerError(tr("nothing is drawn yet; draw a zone first."))


class _Placing:
    """Points of the page as longitude and latitude to a millimetre."""

    def __init__(self, plane: LocalPlane, by: Point) -> None:
        self.north_deg = plane.north_deg
        self._plane, self._by = plane, by

    def point(self, at: Point) -> list[float]:
        lon, lat = self._plane.to_degrees((at[0] - self._by[0], at[1] - self._by[1]))
        return [round(lon, DECIMALS), round(lat, DECIMALS)]

    def ring(self, outline: Outline, *, counter_clockwise: bool) -> list[list[float]]:
        runs = signed_area_sqft(outline) > 0
        turned = outline if runs == counter_clockwise else outline[::-1]
        return [self.point(each) for each in (*turned, *turned[:1])]


def _placing(notebook: Notebook) -> tuple[_Placing, str]:
    yard = notebook.yard
    if yard.origin_latitude_deg is not None and yard.origin_longitude_deg is not None:
        plane = LocalPlane(yard.origin_latitude_deg, yard.origin_longitude_deg, yard.north_deg)
        return _Placing(plane, (0.0, 0.0)), ""
    if yard.latitude_deg is None or yard.longitude_deg is None:
        raise OwnerError(
            tr(
                "where the sketch lies on earth is not known; enter the yard's latitude "
                "and longitude, or take in outlines of a map first."
            )
        )
    west, south, east, north = yard_bounds_ft(notebook)
    plane = LocalPlane(yard.latitude_deg, yard.longitude_deg, yard.north_deg)
    return _Placing(plane, ((west + east) / 2, (south + north) / 2)), NOT_PLACED


def _features(notebook: Notebook, placing: _Placing) -> Iterator[dict[str, Any]]:
    for zone in notebook.zones.values():
        yield _feature("zones", zone.id, _zone_fields(zone), _polygon(zone, placing))
    for feature in notebook.features.values():
        fields = {
            "name": feature.name,
            "kind": feature.kind,
            "area_sqft": round(area_sqft(feature.outline_ft), 2),
            "no_spread_ft": feature.no_spread_ft,
        }
        yield _feature("features", feature.id, fields, _polygon(feature, placing))
    for head in notebook.heads.values():
        fields = _head_fields(head, notebook, placing.north_deg)
        yield _feature("heads", head.id, fields, _point(head.at_ft, placing))
    for spot in notebook.spots.values():
        if spot.at_ft is not None:
            yield _feature("spots", spot.id, _spot_fields(spot), _point(spot.at_ft, placing))


def _zone_fields(zone: Zone) -> dict[str, Any]:
    return {
        "name": zone.name,
        "area_sqft": round(zone_area_sqft(zone), 2),
        "grass": zone.grass,
        "species": zone.species or None,
        "soil": zone.soil,
        "irrigated": zone.irrigated,
    }


def _head_fields(head: Head, notebook: Notebook, north_deg: float) -> dict[str, Any]:
    """Of a head; its arc begins at a bearing from true north, not from the top of the page."""
    zone = notebook.zones.get(head.zone)
    return {
        "zone": zone.name if zone is not None else None,
        "radius_ft": head.radius_ft,
        "start_deg": round((head.start_deg - north_deg) % 360, 2),
        "sweep_deg": head.sweep_deg,
        "flow_gpm": head.flow_gpm,
    }


def _spot_fields(spot: Spot) -> dict[str, Any]:
    return {"name": spot.name, "comparison": spot.comparison}


def _feature(
    table: str, record_id: str, fields: dict[str, Any], geometry: dict[str, Any]
) -> dict[str, Any]:
    told = {key: value for key, value in fields.items() if value is not None}
    return {
        "type": "Feature",
        "id": record_id,
        "properties": {"table": table, **told},
        "geometry": geometry,
    }


def _polygon(record: Zone | Feature, placing: _Placing) -> dict[str, Any]:
    holes = record.holes_ft if isinstance(record, Zone) else ()
    rings = [placing.ring(record.outline_ft, counter_clockwise=True)]
    rings += [placing.ring(hole, counter_clockwise=False) for hole in holes]
    return {"type": "Polygon", "coordinates": rings}


def _point(at: Point, placing: _Placing) -> dict[str, Any]:
    return {"type": "Point", "coordinates": placing.point(at)}
