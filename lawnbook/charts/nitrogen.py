"""Nitrogen month by month: put down as slow and quick, brought by water, against the budget."""

from lawnbook.charts.marks import (
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Words,
    diagonals,
    level_strokes,
    rectangle,
    rough_width,
)
from lawnbook.charts.profile_hits import Hit
from lawnbook.charts.scales import round_step, tick_told, ticks
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import LawnNitrogen
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.season import month_in_full
from lawnbook.plan.workings import LEAST_TOLD_LB
from lawnbook.reading import is_metric, reading, tr
from lawnbook.yard.amounts import RATE_UNIT, bare, told, unit_shown
from lawnbook.yard.numbers import MONTHS

Nitrogen = ZoneNitrogen | LawnNitrogen
"""What is drawn: one zone, or all of them together."""

_LEFT_PT, _RIGHT_PT, _FOOT_PT = 34.0, 8.0, 33.0
_UNIT_LINE_PT, _KEY_LINE_PT, _LABEL_PT = 17.0, 15.0, 14.0
_LOW_PT = 170.0
"""In a picture lower than this the line of the unit makes room for the columns."""
_LEAST_SCALE_LB = 0.5
_MOST_TICKS = 5
_STEPS_LB = (0.25, 0.5, *(first * 10.0**zeros for zeros in range(12) for first in (1, 2, 5)))
"""From one tick to the next; the highest are for amounts that were typed wrong."""
_WATER_GAP_PT = 2.6
_NARROW_PT, _ROOMY_PT = 22.0, 27.0
"""Rooms of a month below which its name is one letter, and from which pounds keep their nought."""
WATER = tr("water’s")
"""What the nitrogen of irrigation water is called."""
_HEAD = ("lb of nitrogen per 1,000 sq ft", "{put} of {budget} lb in {year}")
_METRIC_HEAD = ("nitrogen, {unit}", "{put} of {budget} {unit} in {year}")


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where the twelve months stand, in points. `order` lists the months as the year runs."""

    frame: Frame
    order: tuple[int, ...]
    most_lb: float

    @property
    def base(self) -> float:
        """The line of no nitrogen."""
        return self.frame.height - _FOOT_PT

    @property
    def key_at(self) -> float:
        """The upper edge of the key, below the line of the unit where there is one."""
        return 3.0 if self.is_low else 3.0 + _UNIT_LINE_PT

    @property
    def top(self) -> float:
        """Where the most that is drawn ends: below the key, and below its own label."""
        return self.key_at + _KEY_LINE_PT + (_LABEL_PT if self.is_low else 11.0)

    @property
    def is_low(self) -> bool:
        """Whether there is no room for the line of the unit."""
        return self.frame.height < _LOW_PT

    @property
    def slot(self) -> float:
        """The room of one month."""
        return (self.frame.width - _LEFT_PT - _RIGHT_PT) / 12

    def height(self, pounds: float) -> float:
        """Where an amount lies on the page."""
        return self.base - pounds / self.most_lb * (self.base - self.top)

    def pounds(self, pounds: float) -> str:
        """Pounds as they are written at a month: with their nought where it has room."""
        return signed_pounds(pounds) if self.slot >= _ROOMY_PT else short_pounds(pounds)

    def middle(self, place: int) -> float:
        """The middle of a month's room."""
        return _LEFT_PT + self.slot * (place + 0.5)

    def bar(self, place: int, low: float, high: float, share: float) -> tuple[float, ...]:
        """Left, top, right and bottom of a bar `share` of its room wide."""
        half = self.slot * share / 2
        x = self.middle(place)
        return (x - half, self.height(high), x + half, self.height(low))


def nitrogen_marks(
    zone: Nitrogen,
    frame: Frame,
    ghost_lb_per_1000: float = 0.0,
    ghost_month: int | None = None,
) -> Picture:
    """Twelve months of a zone or the lawn, nitrogen by the ground, as its year runs.

    The outline is the month's budget, the solid bar what was put down: quick nitrogen hatched,
    slow plain, irrigation water's on top in the colour of water. A proposed spread in
    `ghost_month` (1 to 12) stands on it in dashes. Below stands what the month has left then. A low
    picture leaves out the line of the unit and the year's sum: they stand beside it then.
    """
    ghosts = [0.0] * 12
    if ghost_month is not None and ghost_lb_per_1000 > 0:
        ghosts[ghost_month - 1] = ghost_lb_per_1000
    heights = [put + ghost for put, ghost in zip(zone.applied_by_month, ghosts, strict=True)]
    most = 1.12 * max(_LEAST_SCALE_LB, *zone.budget_by_month, *heights)
    layout = _Layout(frame, months_in_order(zone), most)
    marks: list[Mark] = [*_scale(layout), *_key(layout, zone, any(ghosts))]
    for place, month in enumerate(layout.order):
        marks += _month(layout, place, zone, ghosts[month])
    base = (((_LEFT_PT - 4, layout.base), (frame.width - _RIGHT_PT + 4, layout.base)),)
    marks.append(Polyline(lines=base, role="ink", width=0.9))
    return Picture(frame, tuple(marks))


def nitrogen_hits(zone: Nitrogen, frame: Frame) -> tuple[Hit, ...]:
    """A box for each month's room; the key is its number, the words what it may take and took."""
    layout = _Layout(frame, months_in_order(zone), 1.0)
    half = layout.slot / 2
    return tuple(
        Hit(
            left=layout.middle(place) - half,
            top=layout.key_at,
            right=layout.middle(place) + half,
            bottom=frame.height,
            key=str(month + 1),
            words=tr(
                "{month}: {put} put down of {budget}",
                month=month_in_full(month + 1),
                put=bare(zone.applied_by_month[month], 2, RATE_UNIT),
                budget=told(zone.budget_by_month[month], 2, RATE_UNIT),
            ),
        )
        for place, month in enumerate(layout.order)
    )


def months_in_order(zone: Nitrogen) -> tuple[int, ...]:
    """Month numbers from 0 as the zone's year runs: from July where its label spans two years."""
    first = 0 if zone.year_label == str(zone.year) else 6
    return tuple((first + place) % 12 for place in range(12))


def _scale(layout: _Layout) -> list[Mark]:
    step = round_step(RATE_UNIT, _STEPS_LB, lambda each: layout.most_lb / each <= _MOST_TICKS)
    marks: list[Mark] = []
    for pounds, number in ticks(RATE_UNIT, step, layout.most_lb):
        y = layout.height(pounds)
        text = tick_told(number)
        marks.append(Words(at=(_LEFT_PT - 8, y + 3.2), text=text, role="quiet", align="right"))
        if number:
            line = ((_LEFT_PT - 4, y), (layout.frame.width - _RIGHT_PT + 4, y))
            marks.append(Polyline(lines=(line,), role="rule", width=0.6))
    return marks


def _month(layout: _Layout, place: int, zone: Nitrogen, ghost: float) -> list[Mark]:
    month = layout.order[place]
    budget, put = zone.budget_by_month[month], zone.applied_by_month[month]
    marks: list[Mark] = []
    if budget > 0:
        box = rectangle(*_four(layout.bar(place, 0, budget, 0.82)))
        marks.append(Polygon(rings=(box,), fill="feed", alpha=0.13))
    marks += _put_down(layout, place, zone)
    marks += _ghost(layout, place, put, ghost)
    if budget > 0:
        marks.append(Polygon(rings=(box,), edge="ink", width=1.0))
    elif put + ghost <= 0:
        marks.append(
            Words(
                at=(layout.middle(place), layout.base - 4), text="0", role="quiet", align="center"
            )
        )
    if budget > 0 or put + ghost > 0:
        marks += _left(layout, place, budget - put - ghost)
    marks += _labels(layout, place, zone, ghost)
    return marks


def _put_down(layout: _Layout, place: int, zone: Nitrogen) -> list[Mark]:
    month = layout.order[place]
    put = zone.applied_by_month[month]
    if put <= 0:
        return []
    # Water's nitrogen is counted among what was put down, and all of it is quick.
    water = min(put, zone.water_by_month[month])
    fed = put - water
    quick = min(fed, max(0.0, zone.quick_by_month[month] - water))
    marks = _water_bar(_four(layout.bar(place, fed, put, 0.56))) if water > 0 else []
    if fed > 0:
        whole = rectangle(*_four(layout.bar(place, 0, fed, 0.56)))
        marks.append(Polygon(rings=(whole,), fill="feed", edge="feed", width=0.8))
    if quick > 0:
        quick_bar = _four(layout.bar(place, 0, quick, 0.56))
        marks.append(Polyline(lines=diagonals(*quick_bar, gap=3.4), role="paper", width=0.9))
    return marks


def _water_bar(bar: tuple[float, float, float, float]) -> list[Mark]:
    """Water's nitrogen: in its colour, and with level lines for a print without colour."""
    marks: list[Mark] = [
        Polygon(rings=(rectangle(*bar),), fill="water", edge="water", width=0.8),
    ]
    lines = level_strokes(*bar, gap=_WATER_GAP_PT)
    return [*marks, Polyline(lines=lines, role="paper", width=0.7)] if lines else marks


def _ghost(layout: _Layout, place: int, put: float, ghost: float) -> list[Mark]:
    if ghost <= 0:
        return []
    box = rectangle(*_four(layout.bar(place, put, put + ghost, 0.56)))
    return [
        Polygon(rings=(box,), fill="accent", alpha=0.22),
        Polygon(rings=(box,), edge="accent", width=1.3, dash=(3.0, 2.0)),
    ]


def _labels(layout: _Layout, place: int, zone: Nitrogen, ghost: float) -> list[Mark]:
    month = layout.order[place]
    budget, total = zone.budget_by_month[month], zone.applied_by_month[month] + ghost
    x = layout.middle(place)
    name = tr(MONTHS[month]) if layout.slot >= _NARROW_PT else tr(MONTHS[month])[0]
    marks: list[Mark] = [Words(at=(x, layout.base + 13), text=name, role="quiet", align="center")]
    if total > 0:
        over = total > budget + 1e-9
        y = layout.height(max(total, budget)) - 4
        role = "bad" if over else ("accent" if ghost > 0 else "ink")
        marks.append(
            Words(
                at=(x, y),
                text=layout.pounds(total),
                role=role,
                face="semibold",
                align="center",
                halo="paper",
            )
        )
    return marks


def _left(layout: _Layout, place: int, left_lb: float) -> list[Mark]:
    """What a month has left of its budget, below its name."""
    if layout.slot < _NARROW_PT:
        return []
    role = "bad" if left_lb < -LEAST_TOLD_LB else "quiet"
    at = (layout.middle(place), layout.base + 26)
    return [Words(at=at, text=layout.pounds(left_lb), role=role, align="center")]


def _key(layout: _Layout, zone: Nitrogen, has_ghost: bool) -> list[Mark]:
    marks: list[Mark] = [] if layout.is_low else _unit_line(layout, zone)
    names = [tr("budget"), tr("slow"), tr("quick")]
    names += [WATER] if any(zone.water_by_month) else []
    names += [tr("this spread")] if has_ghost else []
    x = 2.0
    for name in names:
        words = Words(at=(x + 15, layout.key_at + 9), text=name, role="quiet")
        marks += [*_swatch(name, x, layout.key_at), words]
        x += 15 + rough_width(name, 9.0) + 16
    if layout.slot >= _NARROW_PT:
        at = (_LEFT_PT - 8, layout.base + 26)
        marks.append(Words(at=at, text=tr("Left").lower(), role="quiet", align="right"))
    return marks


def _unit_line(layout: _Layout, zone: Nitrogen) -> list[Mark]:
    """What is counted, and the year's sum."""
    put, budget = (bare(each, 2, RATE_UNIT) for each in (zone.applied_year, zone.budget_year))
    texts = _METRIC_HEAD if is_metric() else _HEAD
    named = {"unit": unit_shown(RATE_UNIT), "put": put, "budget": budget, "year": zone.year_label}
    head, total = (tr(text, **named) for text in texts)
    right = layout.frame.width - _RIGHT_PT
    return [
        Words(at=(2, 12), text=head, role="quiet"),
        Words(at=(right, 12), text=total, face="medium", align="right"),
    ]


def _swatch(name: str, x: float, y: float) -> list[Mark]:
    box = rectangle(x, y, x + 11, y + 10)
    if name == tr("budget"):
        return [
            Polygon(rings=(box,), fill="feed", alpha=0.13),
            Polygon(rings=(box,), edge="ink", width=1.0),
        ]
    if name == tr("this spread"):
        return [
            Polygon(rings=(box,), fill="accent", alpha=0.22),
            Polygon(rings=(box,), edge="accent", width=1.3, dash=(3.0, 2.0)),
        ]
    if name == WATER:
        return _water_bar((x, y, x + 11, y + 10))
    marks: list[Mark] = [Polygon(rings=(box,), fill="feed", edge="feed", width=0.8)]
    if name == tr("quick"):
        marks.append(Polyline(lines=diagonals(x, y, x + 11, y + 10, 3.4), role="paper", width=0.9))
    return marks


def signed_pounds(pounds: float) -> str:
    """A rate of nitrogen: 0.45, 1.20, 0 (grams: 2.2, 5.9), with a true minus sign."""
    text = bare(abs(pounds), 2, RATE_UNIT)
    if abs(pounds) < LEAST_TOLD_LB or text == bare(0.0, 2, RATE_UNIT):
        return "0"
    return f"{'−' if pounds < 0 else ''}{text}"


def short_pounds(pounds: float) -> str:
    """A rate of nitrogen for a narrow place: .45, 1.20, 0, with a true minus sign.

    Grams keep their nought: they have a digit less.
    """
    text, nought = signed_pounds(pounds), f"0{reading().point}"
    if is_metric() or not text.lstrip("−").startswith(nought):
        return text
    return text.replace("0", "", 1)


def _four(bar: tuple[float, ...]) -> tuple[float, float, float, float]:
    left, top, right, bottom = bar
    return left, top, right, bottom
