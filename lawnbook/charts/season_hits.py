"""What lies under the pointer on the picture of the year, and the picture in words.

A mark's key holds its records as "table/id", parted by spaces. What leads nowhere has a key by
its kind and place in the year, "month:2", from which `part_of` finds it again.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from types import MappingProxyType
from urllib.parse import quote, unquote

from lawnbook.charts.marks import Frame
from lawnbook.charts.profile_hits import Hit
from lawnbook.charts.season import span_box
from lawnbook.charts.season_layout import (
    LEFT_PT,
    ROW_NAMES,
    ROW_PT,
    SeasonLayout,
    lay_out_season,
)
from lawnbook.plan.season import MONTHS_IN_FULL, month_in_full
from lawnbook.plan.season_year_marks import ROWS
from lawnbook.plan.season_year_model import (
    RecordKey,
    SeasonMark,
    SeasonMonth,
    SeasonSpan,
    SeasonYear,
)
from lawnbook.reading import tr
from lawnbook.yard.amounts import PERCENT, told
from lawnbook.yard.numbers import and_joined, counted, day

REACH_PT = 5.0
"""How far from a mark's middle the pointer still finds it, where no other is nearer."""

_NOUNS = {
    "water": ("day of watering", "days of watering"),
    "feed": ("day of feeding", "days of feeding"),
    "mow": ("mowing", "mowings"),
    "plug": ("day of plugs", "days of plugs"),
    "care": ("day of care", "days of care"),
    "check": ("day of checks", "days of checks"),
}


_PARTS: Mapping[str, Callable[[SeasonYear], Sequence[SeasonMonth | SeasonSpan | SeasonMark]]] = (
    MappingProxyType(
        {
            "month": lambda year: year.months,
            "span": lambda year: year.spans,
            "mark": lambda year: year.marks,
        }
    )
)
"""What a key that leads nowhere counts its places in."""


def season_hits(year: SeasonYear, frame: Frame) -> tuple[Hit, ...]:
    """The months, then the spans, then the marks row by row, each as the pointer finds it."""
    page = lay_out_season(year, frame)
    return (*_months(page), *_spans(page), *_marks(page))


def key_of(table: str, record_id: str) -> str:
    """A record as the keys of marks name it: an id of a yard file may hold spaces."""
    return f"{table}/{quote(record_id, safe='')}"


def record_of(key: str) -> RecordKey | None:
    """The first record of a mark's key; None where it leads nowhere."""
    first = key.split(" ", 1)[0]
    table, _, record_id = first.partition("/")
    return (table, unquote(record_id)) if record_id else None


def part_of(year: SeasonYear, key: str) -> SeasonMonth | SeasonSpan | SeasonMark | None:
    """The month, span or mark of the year that a hit's key names; None for ""."""
    kind, _, place = key.partition(":")
    if kind in _PARTS and place.isdigit():
        listed = _PARTS[kind](year)
        return listed[int(place)] if int(place) < len(listed) else None
    found = record_of(key)
    return next((mark for mark in year.marks if found in mark.records), None) if found else None


def season_words(year: SeasonYear) -> str:
    """What the picture shows, in words."""
    parts = [tr("The year {label} as of {on}.", label=year.label, on=day(year.on))]
    for number, curve in enumerate(year.growth):
        best = _highest([month.growth[number] for month in year.months], year)
        if best:
            parts.append(
                tr(
                    "Cool-season grass grows most in {best}."
                    if curve.grass == "cool"
                    else "Warm-season grass grows most in {best}.",
                    best=best,
                )
            )
    needs = [month.need_in_per_day for month in year.months]
    thirstiest = _highest(needs, year)
    if thirstiest:
        most = max(each for each in needs if each is not None)
        parts.append(
            tr(
                "It needs most water in {month}, {depth}.",
                month=thirstiest,
                depth=_in_a_day(most),
            )
        )
    for planned, verb in ((False, tr("Recorded")), (True, tr("Still to come"))):
        counts = [
            counted(number, *_NOUNS[row])
            for row in ROWS
            if (number := sum(m.row == row and m.planned is planned for m in year.marks))
        ]
        parts.append(f"{verb}: {and_joined(counts) if counts else tr('nothing')}.")
    return " ".join(parts)


def _in_a_day(depth_in: float) -> str:
    return told(depth_in, 2, "in a day")


def _highest(values: Sequence[float | None], year: SeasonYear) -> str:
    """The month of the highest value; "" where there is none above zero."""
    known = [(value, place) for place, value in enumerate(values) if value]
    if not known:
        return ""
    _, place = max(known, key=lambda each: (each[0], -each[1]))
    return month_in_full(year.months[place].starts.month)


def _months(page: SeasonLayout) -> Iterator[Hit]:
    for place, month in enumerate(page.year.months):
        yield Hit(
            left=page.x(month.starts, 0),
            top=page.top,
            right=page.x(month.ends, 1),
            bottom=page.base,
            key=f"month:{place}",
            words=_month_words(page.year, month),
        )


def _month_words(year: SeasonYear, month: SeasonMonth) -> str:
    lines = [f"{MONTHS_IN_FULL[month.starts.month - 1]} {month.starts.year}"]
    for curve, growth in zip(year.growth, month.growth, strict=True):
        if growth is not None:
            lines.append(
                tr(
                    "growth {growth}{percent} of the most, {grass}",
                    growth=told(100 * growth, 0),
                    percent=PERCENT,
                    grass=tr(curve.grass),
                )
            )
    if month.need_in_per_day is not None:
        lines.append(tr("water need {depth}", depth=_in_a_day(month.need_in_per_day)))
    if month.watered_in_per_day:
        lines.append(tr("watered {depth}, net", depth=_in_a_day(month.watered_in_per_day)))
    return "\n".join(lines)


def _spans(page: SeasonLayout) -> Iterator[Hit]:
    for lane, spans in enumerate(page.lanes):
        for span in spans:
            left, top, right, bottom = span_box(page, span, lane)
            wide = max(right, left + 2.0)
            days = tr("{starts} to {ends}", starts=day(span.starts), ends=day(span.ends))
            words = f"{days}\n{span.words}"
            key = f"span:{page.year.spans.index(span)}"
            yield Hit(left=left, top=top, right=wide, bottom=bottom, key=key, words=words)


def _marks(page: SeasonLayout) -> Iterator[Hit]:
    for row in ROWS:
        marks = sorted(
            (mark for mark in page.year.marks if mark.row == row),
            key=lambda each: (each.date, each.planned),
        )
        y = page.row_y(row)
        for mark, left, right in _reaches(page, marks):
            yield Hit(
                left=left,
                top=y - ROW_PT / 2,
                right=right,
                bottom=y + ROW_PT / 2,
                key=" ".join(key_of(*each) for each in mark.records)
                or f"mark:{page.year.marks.index(mark)}",
                words=_mark_words(mark),
            )


def _reaches(
    page: SeasonLayout, marks: Sequence[SeasonMark]
) -> Iterator[tuple[SeasonMark, float, float]]:
    """Each mark of a row with the stretch that is its own: halfway to its neighbours at most."""
    if not marks:
        return
    xs = [page.x(mark.date) for mark in marks]
    between = [(one + other) / 2 for one, other in pairwise(xs)]
    edges = [LEFT_PT - REACH_PT, *between, page.right + REACH_PT]
    for mark, x, low, high in zip(marks, xs, edges[:-1], edges[1:], strict=True):
        yield mark, max(low, x - REACH_PT), min(high, x + REACH_PT)


def _mark_words(mark: SeasonMark) -> str:
    head = f"{ROW_NAMES[mark.row]}, {day(mark.date)}"
    return "\n".join(
        (tr("{head}, still to come", head=head) if mark.planned else head, *mark.words)
    )
