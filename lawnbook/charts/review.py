"""Twelve months of a year beside those of the year before: narrow bars in pairs.

This year is solid, the year before hatched in its outline, so that both are told apart in grey
too. A short stroke over a month is what its budget allows.
"""

from collections.abc import Iterator, Sequence

from lawnbook.charts.marks import (
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Words,
    diagonals,
    rectangle,
    rough_width,
)
from lawnbook.charts.year_water import scale_step
from lawnbook.frozen import dataclass
from lawnbook.plan.season import month_in_full
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import MONTHS

_TOP_PT, _FOOT_PT, _RIGHT_PT = 20.0, 14.0, 1.0
_SIZE_PT = 8.0
_NAMES_FROM_PT = 24.0
_ROOM = 1.08
"""How much higher than the highest bar a scale reaches."""

_FINE = 10_000.0
_ALLOWED = 2
_SAMPLE_PT = (9.0, 7.0)
_NOTHING = tr("none on record")


@dataclass(frozen=True, slots=True, kw_only=True)
class PairedMonths:
    """What the bars show. Numbers run January to December; `order` is how the months stand.

    `names` are those of this year and the year before, `unit` what the scale and all numbers are
    in, as the owner reads them, `role` the palette's for this year. `allowed` are what months may
    have, with the `allowed_name`.
    """

    unit: str
    order: tuple[int, ...]
    names: tuple[str, str]
    now: tuple[float, ...]
    before: tuple[float, ...]
    role: str
    allowed: tuple[float, ...] = ()
    allowed_name: str = ""

    @property
    def highest(self) -> float:
        """The highest figure of all."""
        return max((*self.now, *self.before, *self.allowed))


@dataclass(frozen=True, slots=True)
class _Axes:
    """Where months and amounts lie on the frame."""

    frame: Frame
    left: float
    most: float

    @property
    def base(self) -> float:
        """The line of nothing."""
        return self.frame.height - _FOOT_PT

    @property
    def slot(self) -> float:
        """The room of a month."""
        return (self.frame.width - self.left - _RIGHT_PT) / 12

    def y(self, amount: float) -> float:
        """Where an amount lies."""
        return self.base - amount / self.most * (self.base - _TOP_PT)

    def bar(self, place: int, amount: float, second: bool) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of one of a month's two bars."""
        width = self.slot * 0.38
        left = self.left + self.slot * (place + 0.12) + width * second
        return left, self.y(amount), left + width, self.base


def paired_marks(months: PairedMonths, frame: Frame) -> Picture:
    """The pairs of bars with their scale, their months and a key above."""
    if months.highest <= 0:
        axes = _Axes(frame, 4.0, 1.0)
        at = (frame.width / 2, (_TOP_PT + axes.base) / 2)
        nothing = Words(
            at=at, text=_NOTHING, role="quiet", size=_SIZE_PT, face="italic", align="center"
        )
        return Picture(
            frame, (*_key(months, frame), nothing, _ground(axes), *_names(axes, months.order))
        )
    most = months.highest * _ROOM
    # Rates are small numbers: the steps of a scale begin at one.
    step = scale_step(most * _FINE) / _FINE
    ticks = [step * number for number in range(int(most / step) + 1)]
    numbers = [_number(each, step) for each in ticks]
    axes = _Axes(frame, max(rough_width(each, _SIZE_PT) for each in numbers) + 4, most)
    marks: list[Mark] = [*_key(months, frame), *_scale(axes, ticks, numbers)]
    in_order = [(place, month - 1) for place, month in enumerate(months.order)]
    marks += _solid([axes.bar(p, months.now[m], False) for p, m in in_order], months.role)
    marks += _hatched([axes.bar(p, months.before[m], True) for p, m in in_order])
    marks += _strokes(axes, [months.allowed[m] for _, m in in_order] if months.allowed else [])
    return Picture(frame, (*marks, _ground(axes), *_names(axes, months.order)))


def paired_words(months: PairedMonths, places: int) -> str:
    """What the bars show, month by month in words; months with nothing in either are left out."""
    parts = [
        f"{month_in_full(month)} {told(months.now[month - 1], places)} "
        f"({told(months.before[month - 1], places)})"
        for month in months.order
        if months.now[month - 1] > 0 or months.before[month - 1] > 0
    ]
    listed = ", ".join(parts) or _NOTHING
    return tr(
        "{unit} by month, {names} ({names_before} in brackets): {listed}.",
        unit=months.unit,
        names=months.names[0],
        names_before=months.names[1],
        listed=listed,
    )


def _scale(axes: _Axes, ticks: Sequence[float], numbers: Sequence[str]) -> Iterator[Mark]:
    lines = tuple(
        ((axes.left, axes.y(each)), (axes.frame.width - _RIGHT_PT, axes.y(each)))
        for each in ticks[1:]
    )
    if lines:
        yield Polyline(lines=lines, role="rule", width=0.5)
    for each, words in zip(ticks, numbers, strict=True):
        at = (axes.left - 4, axes.y(each) + 2.9)
        yield Words(at=at, text=words, role="quiet", size=_SIZE_PT, align="right")


def _number(value: float, step: float) -> str:
    places = next((n for n in range(4) if abs(step * 10**n - round(step * 10**n)) < 1e-9), 4)
    return told(value, places)


def _solid(boxes: Sequence[tuple[float, float, float, float]], role: str) -> Iterator[Mark]:
    rings = tuple(rectangle(*box) for box in boxes if box[3] - box[1] > 0)
    if rings:
        yield Polygon(rings=rings, fill=role)


def _hatched(boxes: Sequence[tuple[float, float, float, float]]) -> Iterator[Mark]:
    seen = [box for box in boxes if box[3] - box[1] > 0]
    if not seen:
        return
    lines = tuple(line for box in seen for line in diagonals(*box, gap=2.6))
    if lines:
        yield Polyline(lines=lines, role="quiet", width=0.5)
    yield Polygon(rings=tuple(rectangle(*box) for box in seen), edge="quiet", width=0.6)


def _strokes(axes: _Axes, allowed: Sequence[float]) -> Iterator[Mark]:
    lines = tuple(
        (
            (axes.left + axes.slot * (place + 0.06), axes.y(each)),
            (axes.left + axes.slot * (place + 0.94), axes.y(each)),
        )
        for place, each in enumerate(allowed)
        if each > 0
    )
    if lines:
        yield Polyline(lines=lines, role="ink", width=1.2)


def _ground(axes: _Axes) -> Mark:
    line = ((axes.left, axes.base), (axes.frame.width - _RIGHT_PT, axes.base))
    return Polyline(lines=(line,), role="ink", width=0.8)


def _names(axes: _Axes, order: Sequence[int]) -> Iterator[Mark]:
    for place, month in enumerate(order):
        name = tr(MONTHS[month - 1])
        yield Words(
            at=(axes.left + axes.slot * (place + 0.5), axes.base + 10),
            text=name if axes.slot >= _NAMES_FROM_PT else name[0],
            role="quiet",
            size=_SIZE_PT,
            align="center",
        )


def _key(months: PairedMonths, frame: Frame) -> Iterator[Mark]:
    """The unit at the left, and samples of the bars at the right."""
    yield Words(at=(0.0, 8.0), text=months.unit, role="quiet", size=_SIZE_PT)
    wide, high = _SAMPLE_PT
    right = frame.width - _RIGHT_PT
    for number, name in reversed([*enumerate((*months.names, months.allowed_name))]):
        if not name:
            continue
        x = right - rough_width(name, _SIZE_PT) - wide - 4
        box = (x, 8.5 - high, x + wide, 8.5)
        if number == _ALLOWED:
            line = ((x, 8.5 - high / 2), (x + wide, 8.5 - high / 2))
            yield Polyline(lines=(line,), role="ink", width=1.2)
        else:
            yield from _hatched([box]) if number else _solid([box], months.role)
        yield Words(at=(x + wide + 4, 8.0), text=name, role="quiet", size=_SIZE_PT)
        right = x - 8
