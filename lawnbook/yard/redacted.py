"""A notebook for strangers' eyes: without the owner's names, or without the place.

Both give a new notebook that passes every check and gives the same plan in numbers. What is kept
is said here beside what goes; `handed_over` (the plan) reckons what must be known before the
place is gone.
"""

import hashlib
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from lawnbook.agronomy.dormancy import BY_SPECIES
from lawnbook.agronomy.salinity import SALT_BORNE_DS_PER_M
from lawnbook.agronomy.turf import SPECIES
from lawnbook.yard.codec import settled_id
from lawnbook.yard.fields import choices_of, field_of
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.records import (
    SINGLES,
    TABLES,
    Backdrop,
    Care,
    Feature,
    Feeding,
    Record,
    SpreaderRun,
    Zone,
)
from lawnbook.yard.references import Reference, with_references

A_YARD = "A yard"
"""What a yard without its name is called."""

LOCAL_RULE = "Local rule"
"""What the owner's rule of feeding is called: its own name tells the town."""

COARSE_LATITUDE_DEG = 5.0
"""A latitude is kept to this much: 345 miles (555 km), enough for the seasons and for no more."""

_WATERS = (
    "reclaimed",
    "recycled",
    "grey",
    "gray",
    "effluent",
    "city",
    "well",
    "ditch",
    "pond",
    "rain",
)
"""Words on a water's source that name no place; the first ones decide a caution."""

_SPECIES = frozenset(each.casefold() for each in (*SPECIES, *BY_SPECIES, *SALT_BORNE_DS_PER_M))
_SOILS = frozenset(each.casefold() for each in choices_of(field_of(Zone, "soil").type))
_PLAIN_SETTING = re.compile(r"[0-9][0-9 ./,½¼¾-]{0,7}|[A-Za-z]")
_A_STEP = "step"
_OTHER_SOIL = "another soil"
_MARK_LETTERS = 10


def without_names(
    notebook: Notebook, kinds: Collection[str], steps: Collection[str] = ()
) -> Notebook:
    """The notebook without what its owner called things, and without free notes.

    Zones, spots, features, spreaders and the like get neutral names with numbers, ids too. `kinds`
    are the kinds of care that are the trade's words and stay; others become "Other care 1" and so
    on; `steps` are those of checklists, which stay in the same way. Products and what they are
    made of keep their names, which are labels. Words written on photographs go; what is to be seen
    on them stays.
    """
    tools, dial = _tools(notebook), _dial(notebook)
    changed: dict[str, list[Record]] = {
        **{table: list(notebook.table(table).values()) for table in TABLES},
        "yard": [replace(notebook.yard, name=A_YARD, water_source=_water_of(notebook))],
        "n_rules": [replace(notebook.n_rules, name=_rule_name(notebook))],
        "n_budgets": _numbered(notebook.n_budgets.values(), "Budget"),
        "zones": _zones(notebook),
        "features": _features(notebook.features.values()),
        "spots": _numbered(notebook.spots.values(), "Spot"),
        "cores": [replace(each, note="") for each in notebook.cores.values()],
        "feedings": [
            replace(
                each,
                spreader=tools.get(_folded(each.spreader), ""),
                setting=dial.get(_folded(each.setting), each.setting),
            )
            for each in notebook.feedings.values()
        ],
        "spreader_runs": [
            replace(
                each,
                spreader=tools[_folded(each.spreader)],
                setting=dial.get(_folded(each.setting), each.setting),
            )
            for each in notebook.spreader_runs.values()
        ],
        "sprayer_runs": [
            replace(each, sprayer=tools[_folded(each.sprayer)])
            for each in notebook.sprayer_runs.values()
        ],
        "care": _cares(notebook.care.values(), {each.casefold() for each in kinds}),
        "ticks": [
            replace(each, found="", step=each.step if each.step in steps else _A_STEP)
            for each in notebook.ticks.values()
        ],
        "photos": [replace(each, marks=()) for each in notebook.photos.values()],
        "backdrops": _backdrops(notebook.backdrops.values()),
    }
    return with_tables(notebook, _with_numbers_for_ids(changed))


def without_place(notebook: Notebook, eto_in: Mapping[str, float]) -> Notebook:
    """The notebook without what tells where on the Earth the yard lies.

    Longitude, elevation, time zone, the sketch's zero point on the map, pictures under the sketch,
    the names of the water's source, the feeding rule and the sod's grower go. The latitude is
    kept to the nearest 5°, never across the equator. `eto_in` gives the ETo, in a day, that was
    reckoned of the exact place, by the ids of the days of weather: it stands in the days from now
    on as if a station had reported it, so that the plan stays the same.
    """
    yard = replace(
        notebook.yard,
        latitude_deg=coarse_latitude_deg(notebook.yard.latitude_deg),
        longitude_deg=None,
        elevation_ft=None,
        time_zone=None,
        origin_latitude_deg=None,
        origin_longitude_deg=None,
        water_source=_water_of(notebook),
    )
    most = field_of(TABLES["weather"], "reported_eto_in").rule.high or 0.0
    days = [
        replace(each, reported_eto_in=eto)
        if each.reported_eto_in is None
        and (eto := eto_in.get(each.id)) is not None
        and 0 <= eto <= most
        else each
        for each in notebook.weather.values()
    ]
    return with_tables(
        notebook,
        {
            "yard": [yard],
            "n_rules": [replace(notebook.n_rules, name=_rule_name(notebook))],
            "zones": [_without_grower(each) for each in notebook.zones.values()],
            "weather": days,
            "backdrops": [],
        },
    )


def without_pictures(notebook: Notebook) -> Notebook:
    """The notebook without photographs of plugs and pictures under the sketch."""
    return with_tables(notebook, {"photos": [], "backdrops": []})


def coarse_latitude_deg(latitude_deg: float | None) -> float | None:
    """A latitude to the nearest 5°, on its own side of the equator; None stays None."""
    if latitude_deg is None:
        return None
    steps = max(1, round(abs(latitude_deg) / COARSE_LATITUDE_DEG))
    side = -1.0 if latitude_deg < 0 else 1.0
    return side * steps * COARSE_LATITUDE_DEG


def _water_of(notebook: Notebook) -> str:
    words = notebook.yard.water_source.casefold()
    return " ".join(each for each in _WATERS if each in words)


def _rule_name(notebook: Notebook) -> str:
    return LOCAL_RULE if notebook.n_rules.name.strip() else ""


def _numbered(records: Iterable[Record], called: str) -> list[Record]:
    return [_named(each, f"{called} {n}") for n, each in enumerate(records, start=1)]


def _named(record: Record, name: str) -> Record:
    # The records that come here all have a name.
    changed: dict[str, Any] = {"name": name}
    return replace(record, **changed)


def _zones(notebook: Notebook) -> list[Record]:
    programs: dict[str, str] = {}
    zones: list[Record] = []
    for number, zone in enumerate(notebook.zones.values(), start=1):
        program = zone.program.strip()
        if program:
            programs.setdefault(program, _letter(len(programs)))
        bare = _without_grower(zone)
        known = zone.species.strip().casefold() in _SPECIES
        zones.append(
            replace(
                bare,
                name=f"Zone {number}",
                program=programs.get(program, ""),
                species=zone.species if known else "",
            )
        )
    return zones


def _letter(place: int) -> str:
    return chr(ord("A") + place) if place < 26 else f"P{place + 1}"


def _without_grower(zone: Zone) -> Zone:
    """A zone without the words on its sod: a soil that is none of ours is "another soil"."""
    sod = zone.established
    if sod is None:
        return zone
    grown_on = sod.sod_soil.strip()
    kept = grown_on if not grown_on or grown_on.casefold() in _SOILS else _OTHER_SOIL
    return replace(zone, established=replace(sod, sod_from="", sod_soil=kept))


def _features(features: Iterable[Feature]) -> list[Record]:
    return [
        replace(each, name=f"{each.kind.capitalize()} {n}") if each.name.strip() else each
        for n, each in enumerate(features, start=1)
    ]


def _folded(name: str) -> str:
    return " ".join(name.split()).casefold()


def _tools(notebook: Notebook) -> dict[str, str]:
    """Neutral names of spreaders and sprayers by the owner's, whatever its capitals and spaces."""
    sprayers = dict.fromkeys(_folded(each.sprayer) for each in notebook.sprayer_runs.values())
    others = dict.fromkeys(_folded(each.spreader) for each in _spread(notebook))
    spreaders = [each for each in others if each and each not in sprayers]
    return {
        **{each: f"Sprayer {n}" for n, each in enumerate(sprayers, start=1)},
        **{each: f"Spreader {n}" for n, each in enumerate(spreaders, start=1)},
    }


def _spread(notebook: Notebook) -> Iterator[SpreaderRun | Feeding]:
    yield from notebook.spreader_runs.values()
    yield from notebook.feedings.values()


def _dial(notebook: Notebook) -> dict[str, str]:
    """Neutral settings by the owner's own words for them; a dial's figure or letter stays."""
    told = dict.fromkeys(_folded(each.setting) for each in _spread(notebook))
    words = [each for each in told if each and not _PLAIN_SETTING.fullmatch(each)]
    return {each: f"Setting {_letter(n)}" for n, each in enumerate(words)}


def _cares(cares: Iterable[Care], kinds: Collection[str]) -> list[Record]:
    others: dict[str, str] = {}
    listed: list[Record] = []
    for each in cares:
        kind = _folded(each.kind)
        if kind not in kinds:
            others.setdefault(kind, f"Other care {len(others) + 1}")
        listed.append(replace(each, kind=others.get(kind, each.kind), note=""))
    return listed


def _backdrops(backdrops: Iterable[Backdrop]) -> list[Record]:
    return [
        replace(each, name=f"Picture {n}", note="") for n, each in enumerate(backdrops, start=1)
    ]


def _with_numbers_for_ids(tables: Mapping[str, list[Record]]) -> dict[str, list[Record]]:
    """The rows with numbers for ids: a yard file's ids may be names as well.

    The numbers begin with the yard's own mark: an adviser's notebooks and calendars hold records
    of several yards, and must not take one for another.
    """
    mark = _mark(tables)
    ids = {
        table: MappingProxyType(
            {
                each.id: settled_id(each) or f"{mark}-{table}-{n:05d}"
                for n, each in enumerate(rows, 1)
            }
        )
        for table, rows in tables.items()
        if table not in SINGLES
    }

    def renamed(reference: Reference) -> str:
        return ids[reference.table].get(reference.target, "")

    return {
        table: [
            with_references(
                each if table in SINGLES else replace(each, id=ids[table][each.id]), renamed
            )
            for each in rows
        ]
        for table, rows in tables.items()
    }


def _mark(tables: Mapping[str, list[Record]]) -> str:
    """A few letters that differ from yard to yard, made of the zones' outlines, which stay."""
    outlines = [each.outline_ft for each in tables["zones"] if isinstance(each, Zone)]
    return hashlib.sha256(repr(outlines).encode("ascii")).hexdigest()[:_MARK_LETTERS]
