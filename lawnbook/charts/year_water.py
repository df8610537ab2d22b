"""A zone's year of water: gallons month by month under the plan and under the old habit."""

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
from lawnbook.charts.profile_hits import Hit
from lawnbook.charts.scales import ticks
from lawnbook.frozen import dataclass
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_model import YearWater, ZoneYear
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import bare, shown, told, unit_shown
from lawnbook.yard.numbers import MONTHS

_LEFT_PT, _RIGHT_PT, _TOP_PT, _FOOT_PT = 44.0, 44.0, 38.0, 18.0
_LEAST_SCALE_GAL = 10.0
_MOST_TICKS = 4
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)

PLAN, HABIT, FULL = tr("plan"), tr("old habit"), tr("plan, no dry year")
"""What the bars are called."""


@dataclass(frozen=True, slots=True)
class _Months:
    """Where the twelve months stand, in points, on one scale of gallons."""

    frame: Frame
    most_gal: float

    @property
    def base(self) -> float:
        """The line of no water."""
        return self.frame.height - _FOOT_PT

    @property
    def right(self) -> float:
        """Where December ends."""
        return self.frame.width - _RIGHT_PT

    @property
    def slot(self) -> float:
        """The room of one month."""
        return (self.right - _LEFT_PT) / 12

    def height(self, gallons: float) -> float:
        """Where an amount lies on the page."""
        return self.base - gallons / self.most_gal * (self.base - _TOP_PT)

    def bar(self, month: int, gallons: float, place: int, of: int) -> tuple[float, ...]:
        """Left, top, right and bottom of the bar of a month (0 to 11), one of `of` side by side."""
        width = self.slot * 0.76 / of
        left = _LEFT_PT + self.slot * (month + 0.12) + place * width
        return (left, self.height(gallons), left + width, self.base)


def year_marks(year: ZoneYear, frame: Frame) -> Picture:
    """Gallons by month: the plan solid, the habit hatched beside it, the full plan as a line.

    A second scale at the right tells the money, where the water has a price.
    """
    kinds = _kinds(year)
    most = max(max(each.gallons_by_month) for _, each in kinds)
    months = _Months(frame, max(_LEAST_SCALE_GAL, 1.06 * most))
    marks: list[Mark] = [*_scale(months, year), *_key([name for name, _ in kinds])]
    side_by_side = [(name, each) for name, each in kinds if name != FULL]
    for place, (name, each) in enumerate(side_by_side):
        marks += _bars(months, name, each, (place, len(side_by_side)))
    if year.full is not None:
        marks.append(_full_line(months, year.full))
    base = (((_LEFT_PT, months.base), (months.right, months.base)),)
    marks.append(Polyline(lines=base, role="ink", width=0.9))
    marks += _month_names(months)
    return Picture(frame, tuple(marks))


def year_chart_words(year: ZoneYear) -> str:
    """What the picture shows, in words: totals, and the thirstiest month of each."""
    parts = []
    for name, each in _kinds(year):
        most = max(range(12), key=lambda month: each.gallons_by_month[month])
        words = tr("{name}: {amount} in the year", name=name, amount=_amount(each.gallons))
        if each.gallons > 0:
            highest = bare(each.gallons_by_month[most], 0, "gal")
            words += tr(
                ", most in {month_in_full}, {highest}",
                month_in_full=month_in_full(most + 1),
                highest=highest,
            )
        parts.append(words)
    return f"{'; '.join(parts)}."


def _amount(gallons: float) -> str:
    """Water in words: "1,204 gallons", "4,558 L"."""
    if is_metric():
        return told(gallons, 0, "gal")
    return tr("{number} gallons", number=told(gallons, 0))


def _kinds(year: ZoneYear) -> list[tuple[str, YearWater]]:
    held = ((PLAN, year.plan), (HABIT, year.habit), (FULL, year.full))
    return [(name, each) for name, each in held if each is not None]


def _scale(months: _Months, year: ZoneYear) -> list[Mark]:
    step = scale_step(shown(months.most_gal, "gal"))
    unit = tr("{unit} a month", unit=unit_shown("gal")) if is_metric() else tr("Gallons a month")
    price = None
    if year.plan.cost is not None and year.plan.gallons > 0:
        price = year.plan.cost / year.plan.gallons
    marks: list[Mark] = [Words(at=(2, 12), text=unit, role="quiet")]
    if price is not None:
        at = (months.frame.width - 4, 12.0)
        marks.append(Words(at=at, text=tr("at your price"), role="quiet", align="right"))
    scale = ticks("gal", step, months.most_gal)
    for gallons, number in scale:
        y = months.height(gallons)
        text = told(number, 0)
        marks.append(Words(at=(_LEFT_PT - 6, y + 3.2), text=text, role="quiet", align="right"))
        if number:
            line = ((_LEFT_PT, y), (months.right, y))
            marks.append(Polyline(lines=(line,), role="rule", width=0.6))
        if price is not None:
            places = _money_places(scale[1][0] * price) if number else 0
            cost = told(gallons * price, places)
            marks.append(Words(at=(months.right + 6, y + 3.2), text=cost, role="quiet"))
    return marks


def _money_places(step: float) -> int:
    """Decimals of the money scale: none where its steps are whole, or large."""
    return 0 if step >= 100 or abs(step - round(step)) < 0.005 else 2


def scale_step(most: float) -> float:
    """A round step that marks a scale from zero to `most` in at most four places."""
    size = 1.0
    while most / size > 10 * _MOST_TICKS:
        size *= 10
    return next(size * each for each in _STEPS if most / (size * each) <= _MOST_TICKS)


def year_hits(year: ZoneYear, frame: Frame) -> tuple[Hit, ...]:
    """A box for each month's bar, from the top of the picture to its foot: "plan:4", "habit:4"."""
    kinds = [(PLAN, "plan", year.plan)]
    if year.habit is not None:
        kinds.append((HABIT, "habit", year.habit))
    months = _Months(frame, 1.0)
    return tuple(
        Hit(
            left=box[0],
            top=_TOP_PT,
            right=box[2],
            bottom=months.base,
            key=f"{key}:{month + 1}",
            words=tr(
                "{month}, {way}: {gallons}",
                month=month_in_full(month + 1),
                way=tr(name),
                gallons=told(water.gallons_by_month[month], 0, "gal"),
            ),
        )
        for month in range(12)
        for place, (name, key, water) in enumerate(kinds)
        for box in (months.bar(month, 0.0, place, len(kinds)),)
    )


def _bars(months: _Months, name: str, water: YearWater, place: tuple[int, int]) -> list[Mark]:
    boxes = [
        months.bar(month, gallons, *place)
        for month, gallons in enumerate(water.gallons_by_month)
        if gallons > 0
    ]
    return _filled(name, boxes) if boxes else []


def _filled(name: str, boxes: list[tuple[float, ...]]) -> list[Mark]:
    """Boxes in the look of one kind: the plan solid, the habit hatched in its outline."""
    rings = tuple(rectangle(*_four(box)) for box in boxes)
    if name == PLAN:
        return [Polygon(rings=rings, fill="water")]
    hatching = tuple(line for box in boxes for line in diagonals(*_four(box), gap=3.2))
    return [
        Polyline(lines=hatching, role="quiet", width=0.7),
        Polygon(rings=rings, edge="quiet", width=0.9),
    ]


def _full_line(months: _Months, full: YearWater) -> Mark:
    """What the plan would take without its dry year: a stroke over each month."""
    strokes = tuple(
        (
            (_LEFT_PT + months.slot * (month + 0.08), months.height(gallons)),
            (_LEFT_PT + months.slot * (month + 0.92), months.height(gallons)),
        )
        for month, gallons in enumerate(full.gallons_by_month)
        if gallons > 0
    )
    return Polyline(lines=strokes, role="accent", width=1.6)


def _month_names(months: _Months) -> list[Mark]:
    return [
        Words(
            at=(_LEFT_PT + months.slot * (month + 0.5), months.base + 13),
            text=name if months.slot >= 22 else name[0],
            role="quiet",
            align="center",
        )
        for month, name in enumerate(MONTHS)
    ]


def _key(names: list[str]) -> list[Mark]:
    marks: list[Mark] = []
    x = 2.0
    for name in names:
        if name == FULL:
            line = ((x, 26.0), (x + 11, 26.0))
            marks.append(Polyline(lines=(line,), role="accent", width=1.6))
        else:
            marks += _filled(name, [(x, 21.0, x + 11, 30.0)])
        marks.append(Words(at=(x + 15, 29), text=name, role="quiet"))
        x += 15 + rough_width(name, 9.0) + 12
    return marks


def _four(box: tuple[float, ...]) -> tuple[float, float, float, float]:
    left, top, right, bottom = box
    return left, top, right, bottom
