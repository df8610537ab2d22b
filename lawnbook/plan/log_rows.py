"""Everything that was recorded, newest first: what it was, where, and in which words.

Rows are cheap: their words are made when they are looked at, so that decades of waterings are
listed without a wait.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from operator import attrgetter
from types import MappingProxyType
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import MOWING, WHOLE_YARD, care_kind
from lawnbook.plan.checklists import step_words
from lawnbook.plan.due import names_told
from lawnbook.plan.quick_days import take_spans
from lawnbook.plan.quick_text import GAP, Line
from lawnbook.plan.record_names import product_name, spot_name, zone_name
from lawnbook.plan.roots import zone_of_spot
from lawnbook.reading import tr
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, inches, minutes, plain
from lawnbook.yard.records import Care

LogKind = str
KINDS: tuple[LogKind, ...] = (
    "watering", "feeding", "plug", "mowing", "care", "rain", "catch test", "soil test", "checklist",
)  # fmt: skip
"""Every kind of entry, in the order in which it is offered."""

SEVERAL: Mapping[LogKind, str] = MappingProxyType(
    {
        "watering": tr("Waterings"),
        "feeding": tr("Feedings"),
        "plug": tr("Plugs"),
        "mowing": tr("Mowings"),
        "care": tr("Care"),
        "rain": tr("Rain gauge"),
        "catch test": tr("Catch tests"),
        "soil test": tr("Soil tests"),
        "checklist": tr("Checklists"),
    }
)
_TABLES: Mapping[str, LogKind] = MappingProxyType(
    {
        "waterings": "watering", "feedings": "feeding", "cores": "plug", "care": "care",
        "weather": "rain", "catch_tests": "catch test", "soil_tests": "soil test",
        "ticks": "checklist",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class LogRow:
    """One entry: its table and id, its day, and of which kind it is."""

    on: date
    rank: int
    table: str
    record_id: str
    kind: LogKind


@dataclass(frozen=True, slots=True)
class LogWords:
    """An entry in words: what it was, where, and all else."""

    what: str
    where: str
    more: str


def log_of(notebook: Notebook, on: date) -> list[LogRow]:
    """Every entry up to a day, newest first; of a day the last one kept comes first."""
    rows = [
        LogRow(record.date, record.rank, table, record_id, kind)
        for table, kind in _TABLES.items()
        if table not in ("care", "weather")
        for record_id, record in _held(notebook, table).items()
        if record.date <= on
    ]
    rows += [
        LogRow(each.date, each.rank, "care", each.id, _kind_of(each))
        for each in notebook.care.values()
        if each.date <= on
    ]
    rows += [
        LogRow(each.date, each.rank, "weather", each.id, "rain")
        for each in notebook.weather.values()
        if each.gauge_in is not None and each.date <= on
    ]
    # In two passes, each by one plain value: a good deal quicker than by pairs.
    rows.sort(key=attrgetter("rank"), reverse=True)
    rows.sort(key=attrgetter("on"), reverse=True)
    return rows


def zones_of(notebook: Notebook, row: LogRow) -> tuple[str, ...]:
    """The ids of the zones an entry is about; () for the whole yard, and for rain."""
    record = _held(notebook, row.table)[row.record_id]
    if row.table == "feedings":
        return tuple(record.pounds)
    if row.table == "care":
        return tuple(record.zones)
    if row.table == "cores":
        spot = notebook.spots.get(record.spot)
        zone = zone_of_spot(notebook, spot) if spot is not None else ""
        return (zone,) if zone else ()
    if row.table == "weather":
        return ()
    return (record.zone,) if record.zone else ()


def is_in(notebook: Notebook, row: LogRow, zone_id: str) -> bool:
    """Whether an entry is about a zone; what was done on the whole yard is about each."""
    zones = zones_of(notebook, row)
    return not zones or zone_id in zones


def words_of(notebook: Notebook, row: LogRow) -> LogWords:
    """An entry in words. KeyError for one that is gone."""
    return _WORDS[row.table](notebook, _held(notebook, row.table)[row.record_id])


def spoken(notebook: Notebook, row: LogRow) -> str:
    """An entry as one sentence for tooltips and screen readers."""
    words = words_of(notebook, row)
    return ", ".join(each for each in (day(row.on), words.what, words.where, words.more) if each)


def label_of(notebook: Notebook, row: LogRow) -> str:
    """What undo calls an entry that is taken out."""
    return tr("{what} of {on}", what=words_of(notebook, row).what.lower(), on=day(row.on))


def _held(notebook: Notebook, table: str) -> Mapping[str, Any]:
    # The tables share no type but Record, and every one of these has a date.
    held: Mapping[str, Any] = getattr(notebook, table)
    return held


def _kind_of(care: Care) -> LogKind:
    return "mowing" if care_kind(care) == MOWING else "care"


def _zone(notebook: Notebook, zone_id: str | None) -> str:
    return zone_name(notebook, zone_id) if zone_id else WHOLE_YARD


def _watering(notebook: Notebook, record: Any) -> LogWords:
    ran = minutes(record.minutes) if record.minutes is not None else ""
    depth = inches(record.depth_in) if record.depth_in is not None else ""
    cycles = tr("in {cycles} cycles", cycles=record.cycles) if record.cycles else ""
    more = " ".join(each for each in (ran or depth, cycles) if each)
    return LogWords(tr("Watering"), _zone(notebook, record.zone), more)


def _feeding(notebook: Notebook, record: Any) -> LogWords:
    name = product_name(notebook, record.product)
    pounds = sum(record.pounds.values())
    where = names_told([_zone(notebook, each) for each in record.pounds])
    return LogWords(
        tr("Feeding"), where, tr("{trimmed} of {name}", trimmed=trimmed(pounds, 2, "lb"), name=name)
    )


def _plug(notebook: Notebook, record: Any) -> LogWords:
    said: list[str] = []
    if record.thatch_in:
        said.append(
            tr(
                "thatch {thatch_in}",
                thatch_in=inches(sum(record.thatch_in) / len(record.thatch_in)),
            )
        )
    if record.root_depth_in is not None:
        said.append(tr("roots {root_depth_in}", root_depth_in=inches(record.root_depth_in, 1)))
    more = "; ".join([*said, record.note] if record.note else said)
    return LogWords(tr("Plug"), spot_name(notebook, record.spot), more)


def _care(notebook: Notebook, record: Any) -> LogWords:
    where = names_told([_zone(notebook, each) for each in record.zones]) or WHOLE_YARD
    cost = tr("cost {cost}", cost=plain(record.cost)) if record.cost is not None else ""
    kind = tr(record.kind.strip())
    more = "; ".join(each for each in (cost, record.note) if each)
    return LogWords(kind[:1].upper() + kind[1:], where, more)


def _rain(_notebook: Notebook, record: Any) -> LogWords:
    return LogWords(tr("Rain gauge"), "", inches(record.gauge_in or 0.0))


def _catch_test(notebook: Notebook, record: Any) -> LogWords:
    cans = len(record.volumes_ml or record.depths_in)
    more = tr("{cans} cans, {run_minutes} min", cans=cans, run_minutes=plain(record.run_minutes))
    return LogWords(tr("Catch test"), _zone(notebook, record.zone), more)


_SOIL_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "ph": "pH {value}",
        "om_pct": "organic matter {value} %",
        "p_ppm": "P {value} ppm",
        "k_ppm": "K {value} ppm",
    }
)


def _soil_test(notebook: Notebook, record: Any) -> LogWords:
    said = {name: getattr(record, name) for name in _SOIL_WORDS}
    told = [
        tr(words, value=plain(said[name]))
        for name, words in _SOIL_WORDS.items()
        if said[name] is not None
    ]
    return LogWords(tr("Soil test"), _zone(notebook, record.zone), ", ".join(told))


def _tick(notebook: Notebook, record: Any) -> LogWords:
    name = tr(record.checklist)
    what = f"{name[:1].upper()}{name[1:]}"
    done = step_words(record.checklist, record.step)
    more = tr("{done}; found: {found}", done=done, found=record.found) if record.found else done
    return LogWords(what, _zone(notebook, record.zone), more)


_WORDS: Mapping[str, Callable[[Notebook, Any], LogWords]] = MappingProxyType(
    {
        "waterings": _watering, "feedings": _feeding, "cores": _plug, "care": _care,
        "weather": _rain, "catch_tests": _catch_test, "soil_tests": _soil_test, "ticks": _tick,
    }
)  # fmt: skip


def found_in(notebook: Notebook, rows: list[LogRow], text: str) -> Iterator[LogRow]:
    """The entries whose words hold every word of a text, whatever its capitals.

    A day or month with its year ("2 jun 2026", "2026-06-02", "jun 2026") is that day or month.
    """
    line = Line(text)
    spans = take_spans(line)
    wanted = line.text.replace(GAP, " ").casefold().split()
    for row in rows:
        if not all(first <= row.on <= last for first, last in spans):
            continue
        told = spoken(notebook, row).casefold() if wanted else ""
        if all(each in told for each in wanted):
            yield row
