"""Edits that reach further than one record: taking one out with what hangs on it, new names."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import zone_area_sqft, zone_at
from lawnbook.yard.notebook import Change, Key, Notebook, put
from lawnbook.yard.photos import photos_of
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SINGLES, Feeding, Record, WeatherDay, Zone
from lawnbook.yard.table import grouped
from lawnbook.yard.weather_merge import is_blank

_GOES_WITH_ZONE = ("heads", "catch_tests", "waterings", "soil_tests", "ticks")


def remove(notebook: Notebook, table: str, record_id: str) -> Change:
    """The change that takes a record out with what cannot stand without it.

    A zone takes its heads, catch tests, waterings, soil tests and ticks along, leaves feedings
    (which go when no zone is left) and care, and its spots stay without a zone. A spot takes its
    plugs, a plug its photographs, a product its spreader's calibrations; zones lose a removed
    budget, ticks their care entry. A single record goes back to its defaults.

    Raises KeyError where there is no such record, OwnerError for a product still in use.
    """
    record = notebook.find(table, record_id)
    if record is None:
        raise KeyError((table, record_id))
    change: dict[Key, tuple[Record | None, Record | None]] = {(table, record_id): (record, None)}
    if table in SINGLES:
        return change
    for name, row, after in _follows(notebook, table, record_id):
        change[(name, row.id)] = (row, after)
    return change


def with_areas_kept(notebook: Notebook, change: Change) -> Change:
    """The change together with what keeps the past as it was fed.

    Where a zone is redrawn, feedings that took its area from its outline are given the area it
    had, in sq ft: the nitrogen that went down per 1,000 sq ft does not change with a new outline.
    """
    kept = dict(change)
    for before, after in change.values():
        if not isinstance(before, Zone) or not isinstance(after, Zone):
            continue
        area_sqft = zone_area_sqft(before)
        if area_sqft == zone_area_sqft(after):
            continue
        for key in _feedings_of(notebook, change, before.id):
            feeding = notebook.feedings[key[1]]
            fed = kept[key][1] if key in kept else feeding
            if isinstance(fed, Feeding) and _takes_outline(fed, before.id):
                areas = MappingProxyType({**fed.treated_area_sqft, before.id: area_sqft})
                kept[key] = (feeding, replace(fed, treated_area_sqft=areas))
    return kept


def rain_noted(notebook: Notebook, on: date, inches: float | None) -> Change:
    """The change that notes what the owner's rain gauge held on a day, or takes the note away.

    The station's weather of that day stays; a day that would hold nothing else goes.
    """
    held = notebook.weather.get(on.isoformat())
    if held is None:
        if inches is None:
            return {}
        fresh = WeatherDay(id=on.isoformat(), date=on, gauge_in=inches)
        return put(notebook, "weather", fresh)
    after = replace(held, gauge_in=inches)
    return {("weather", held.id): (held, None if is_blank(after) else after)}


def next_name(notebook: Notebook, table: str, stem: str) -> str:
    """A free name such as "Zone 3", counting on from how many records the table has."""
    rows = _rows(notebook, table)
    taken = {str(getattr(row, "name", "")).strip().casefold() for row in rows}
    number = len(rows) + 1
    while f"{stem} {number}".casefold() in taken:
        number += 1
    return f"{stem} {number}"


def default_spot_zone(notebook: Notebook, at_ft: Point | None) -> str | None:
    """The id of the zone a new spot belongs to: the one it lies in, or the only one."""
    found = zone_at(notebook, at_ft) if at_ft is not None else None
    if found is not None:
        return found.id
    return next(iter(notebook.zones)) if at_ft is None and len(notebook.zones) == 1 else None


def _feedings_of(notebook: Notebook, change: Change, zone_id: str) -> list[Key]:
    """The feedings of a zone, and those held that a change may make such."""
    spread = grouped(notebook.feedings, "pounds").get(zone_id, ())
    keys = [("feedings", feeding.id) for feeding in spread]
    keys += [key for key in change if key[0] == "feedings" and key[1] in notebook.feedings]
    return list(dict.fromkeys(keys))


def _takes_outline(feeding: Feeding, zone_id: str) -> bool:
    return zone_id in feeding.pounds and zone_id not in feeding.treated_area_sqft


def _rows(notebook: Notebook, table: str) -> tuple[Record, ...]:
    return tuple(notebook.table(table).values())


def _follows(
    notebook: Notebook, table: str, record_id: str
) -> Iterator[tuple[str, Record, Record | None]]:
    if table == "zones":
        yield from _without_zone(notebook, record_id)
    elif table == "spots":
        for core in grouped(notebook.cores, "spot").get(record_id, ()):
            yield "cores", core, None
            yield from _without_photos(notebook, core.id)
    elif table == "cores":
        yield from _without_photos(notebook, record_id)
    elif table in ("care", "n_budgets"):
        yield from _let_go(notebook, table, record_id)
    elif table == "products":
        _refuse_if_fed(notebook, record_id)
        for run in grouped(notebook.spreader_runs, "product").get(record_id, ()):
            yield "spreader_runs", run, None


def _let_go(
    notebook: Notebook, table: str, record_id: str
) -> Iterator[tuple[str, Record, Record | None]]:
    """What stays without the care entry, or the budget, that it led to."""
    if table == "care":
        for tick in grouped(notebook.ticks, "care").get(record_id, ()):
            yield "ticks", tick, replace(tick, care=None)
        return
    for zone in grouped(notebook.zones, "budget").get(record_id, ()):
        yield "zones", zone, replace(zone, budget=None)


def _without_zone(notebook: Notebook, zone_id: str) -> Iterator[tuple[str, Record, Record | None]]:
    for name in _GOES_WITH_ZONE:
        for row in grouped(notebook.table(name), "zone").get(zone_id, ()):
            yield name, row, None
    for spot in grouped(notebook.spots, "zone").get(zone_id, ()):
        yield "spots", spot, replace(spot, zone=None)
    spread = grouped(notebook.feedings, "pounds").get(zone_id, ())
    treated = grouped(notebook.feedings, "treated_area_sqft").get(zone_id, ())
    for feeding in {each.id: each for each in (*spread, *treated)}.values():
        yield "feedings", feeding, _feeding_without(feeding, zone_id)
    for care in grouped(notebook.care, "zones").get(zone_id, ()):
        left = tuple(each for each in care.zones if each != zone_id)
        yield "care", care, replace(care, zones=left)


def _feeding_without(feeding: Feeding, zone_id: str) -> Feeding | None:
    pounds = {key: lb for key, lb in feeding.pounds.items() if key != zone_id}
    areas = {key: each for key, each in feeding.treated_area_sqft.items() if key != zone_id}
    if not pounds:
        return None
    return replace(
        feeding, pounds=MappingProxyType(pounds), treated_area_sqft=MappingProxyType(areas)
    )


def _without_photos(
    notebook: Notebook, core_id: str
) -> Iterator[tuple[str, Record, Record | None]]:
    for photo in photos_of(notebook, core_id):
        yield "photos", photo, None


def _refuse_if_fed(notebook: Notebook, product_id: str) -> None:
    used = len(grouped(notebook.feedings, "product").get(product_id, ()))
    if used:
        name = notebook.products[product_id].name
        times = tr("a feeding") if used == 1 else tr("{used} feedings", used=used)
        raise OwnerError(
            tr(
                "{name} was spread in {times}, which would no longer add up; remove those "
                "first, or keep it on the shelf.",
                name=name,
                times=times,
            )
        )
