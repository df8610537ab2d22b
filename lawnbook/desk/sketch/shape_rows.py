"""Everything that is drawn as rows of words: for the list of shapes and for screen readers."""

from collections import Counter
from collections.abc import Iterator

from lawnbook.desk.sketch.choosing import is_locked
from lawnbook.desk.sketch.describing import area_spoken
from lawnbook.desk.sketch.operating import shape_area_sqft
from lawnbook.desk.telling import either
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import feet_inches, plain
from lawnbook.yard.records import Head, Record, Spot, Zone


@dataclass(frozen=True, slots=True)
class ShapeRow:
    """One shape in words: its name, its kind, its size, and all of it in one sentence."""

    key: Key
    name: str
    kind: str
    size: str
    locked: bool
    spoken: str


def shape_rows(notebook: Notebook) -> tuple[ShapeRow, ...]:
    """All zones, features, heads and spots, in the order in which Tab goes through them."""
    return (
        *_zone_rows(notebook),
        *_feature_rows(notebook),
        *_head_rows(notebook),
        *_spot_rows(notebook),
    )


def zone_words(number: int, zone: Zone) -> str:
    """A zone as it is read aloud: "Zone 1 Front, 600 square feet"."""
    return tr(
        "Zone {number} {name}, {area}",
        number=number,
        name=zone.name,
        area=area_spoken(shape_area_sqft(zone)),
    )


def _zone_rows(notebook: Notebook) -> Iterator[ShapeRow]:
    for number, zone in enumerate(notebook.zones.values(), 1):
        area = shape_area_sqft(zone)
        spoken = zone_words(number, zone)
        yield _row(
            "zones",
            zone,
            zone.name,
            tr("zone {number}", number=number),
            told(area, 0, "sq ft"),
            spoken,
        )


def _feature_rows(notebook: Notebook) -> Iterator[ShapeRow]:
    for each in notebook.features.values():
        area, kind = shape_area_sqft(each), each.kind
        name = each.name or tr(kind).capitalize()
        called = f"{tr(kind).capitalize()} {each.name}".rstrip()
        spoken = f"{called}, {area_spoken(area)}"
        yield _row("features", each, name, tr(kind), told(area, 0, "sq ft"), spoken)


def _head_rows(notebook: Notebook) -> Iterator[ShapeRow]:
    mates: Counter[str] = Counter()
    for head in notebook.heads.values():
        mates[head.zone] += 1
        zone = notebook.zones.get(head.zone)
        name = tr("Head {mates}", mates=mates[head.zone]) + (
            tr(" of {name}", name=zone.name) if zone else ""
        )
        radius, unit = plain(head.radius_ft, 2, "ft"), either(tr("feet"), tr("metres"))
        spoken = tr(
            "{name}, radius {radius} {unit}, arc {sweep_deg} degrees",
            name=name,
            radius=radius,
            unit=unit,
            sweep_deg=plain(head.sweep_deg),
        )
        yield _row("heads", head, name, tr("head"), _head_size(head), spoken)


def _head_size(head: Head) -> str:
    return f"{feet_inches(head.radius_ft)}, {plain(head.sweep_deg)}°"


def _spot_rows(notebook: Notebook) -> Iterator[ShapeRow]:
    for spot in notebook.spots.values():
        zone = notebook.zones.get(spot.zone or "")
        size = "" if spot.at_ft is not None else tr("no place yet")
        spoken = (
            tr("Spot {name} in {zone}", name=spot.name, zone=zone.name)
            if zone
            else tr("Spot {name}", name=spot.name)
        )
        spoken += f", {size}" if size else ""
        yield _row("spots", spot, spot.name, tr("spot"), size, spoken)


def _row(table: str, record: Record, name: str, kind: str, size: str, spoken: str) -> ShapeRow:
    locked = is_locked(record)
    words = tr("{spoken}, locked", spoken=spoken) if locked else spoken
    return ShapeRow((table, record.id), name, kind, size, locked, words)


def place_of(record: Record | None) -> tuple[float, float] | None:
    """Where a head or a spot stands; None for a shape, and for a spot without a place."""
    return record.at_ft if isinstance(record, Head | Spot) else None
