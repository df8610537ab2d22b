"""Two days of one spot side by side: what changed, and how far measuring alone may be off.

The doubt of the difference is that of the plugs' readings, their ruler and, where plugs of one
day at one spot are known, of the ground between them. It is not the doubt of a trend.
"""

import math
from collections.abc import Iterator, Sequence
from datetime import date
from statistics import fmean

from lawnbook.agronomy.plug_error import PlugSpread
from lawnbook.agronomy.student import student_t
from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import care_marks
from lawnbook.plan.evidence_words import signed
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.plug_columns import column_of
from lawnbook.plan.plug_model import CareMark, DayPlugs, Place, ThenNow
from lawnbook.plan.roots import cores_of_spot, zone_of_spot
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import PERCENT, counted, default, given, sources, told
from lawnbook.plan.yard_spread import YardSpread
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core, Spot
from lawnbook.yard.table import grouped

CONFIDENCE = 0.95

ONE_SPOT = tr(
    "It is one spot and two days: whether it is a trend, and what it comes from, "
    "the trend and a comparison strip say better."
)
NO_REPLICATES = tr(
    "How far two plugs pulled side by side differ is not known yet, so the doubt "
    "is at least this much: pull two on one day to learn it."
)


@dataclass(frozen=True, slots=True)
class _Doubt:
    """What measuring alone may set a difference off by (in), 95 of 100 times.

    `then_in` and `now_in` are the standard deviations of the two days' means, `whole` says that
    the difference between plugs of one day is in them.
    """

    then_in: float
    now_in: float
    t: float
    freedom: int
    whole: bool

    @property
    def reach_in(self) -> float:
        return self.t * math.sqrt(self.then_in**2 + self.now_in**2)


def plug_days(notebook: Notebook, spot_id: str, on: date) -> tuple[DayPlugs, ...]:
    """The days up to `on` with a plug at a spot, in order; none for a spot that is not there.

    A day's thatch is that of its unpressed plugs, or of the pressed where it has no others.
    """
    days = _cores_by_day(notebook, spot_id, on)
    return tuple(_day(notebook, of, cores) for of, cores in days.items())


def read_days(notebook: Notebook, spot_id: str, on: date) -> tuple[date, ...]:
    """The days up to `on` with a plug at a spot whose thatch was read, in order."""
    days = _cores_by_day(notebook, spot_id, on)
    return tuple(of for of, cores in days.items() if any(core.thatch_in for core in cores))


def _cores_by_day(notebook: Notebook, spot_id: str, on: date) -> dict[date, list[Core]]:
    days: dict[date, list[Core]] = {}
    for core in cores_of_spot(notebook, spot_id):
        if core.date <= on:
            days.setdefault(core.date, []).append(core)
    return days


def usual_then(days: Sequence[DayPlugs]) -> date:
    """The day a spot's latest is laid beside unless told: the first with thatch read.

    Of `days` in order, two or more; the first of all where no earlier one than the latest was read.
    """
    read = (each.date for each in days[:-1] if each.thatch_in is not None)
    return next(read, days[0].date)


class Spreads:
    """How far the plugs of a notebook are off, laid out once for all spots that ask."""

    def __init__(self, notebook: Notebook) -> None:
        """Of all plugs of the notebook."""
        self._cores = notebook.cores.values()
        self._held: dict[bool, YardSpread] = {}

    def of(self, *, pressed: bool) -> YardSpread:
        """The spread of the unpressed plugs, or of the pressed."""
        if pressed not in self._held:
            self._held[pressed] = YardSpread(self._cores, pressed=pressed)
        return self._held[pressed]


def then_and_now(
    notebook: Notebook, spot_id: str, then: date, now: date, spreads: Spreads | None = None
) -> ThenNow:
    """Two days of a spot side by side; both must have a plug there, `then` before `now`.

    OwnerError where the spot or one of the plugs is missing, or both days are the same. Who asks
    for many spots gives the `spreads` of the notebook.
    """
    spot = notebook.spots.get(spot_id)
    if spot is None:
        raise OwnerError(
            tr("Then and now: the spot is not in this notebook any more; choose another.")
        )
    days = _cores_by_day(notebook, spot_id, now)
    for asked in (then, now):
        if asked not in days:
            raise OwnerError(
                tr(
                    "Then and now: {name} has no plug of {asked}; choose a day with a plug.",
                    name=spot.name,
                    asked=day(asked),
                )
            )
    if then >= now:
        raise OwnerError(tr("Then and now: choose two different days, the earlier one first."))
    pair = _day(notebook, then, days[then]), _day(notebook, now, days[now])
    return _then_now(notebook, spot, pair, spreads or Spreads(notebook))


def _then_now(
    notebook: Notebook, spot: Spot, pair: tuple[DayPlugs, DayPlugs], spreads: Spreads
) -> ThenNow:
    then, now = pair
    zone = notebook.zones.get(zone_of_spot(notebook, spot))
    alike = then.pressed == now.pressed
    change = _change(then.thatch_in, now.thatch_in) if alike else None
    doubt = _doubt(spreads, then, now) if change is not None else None
    return ThenNow(
        spot=spot.name,
        spot_id=spot.id,
        zone=zone.name if zone else "",
        then=then,
        now=now,
        thatch_change_in=change,
        plus_minus_in=doubt.reach_in if doubt else None,
        root_change_in=_change(then.root_depth_in, now.root_depth_in),
        words=tuple(_words(then, now, change, doubt)),
        done_between=_done_between(notebook, spot, then.date, now.date),
        workings=tuple(_workings(then, now, change, doubt)),
    )


def _day(notebook: Notebook, of: date, cores: Sequence[Core]) -> DayPlugs:
    photos = grouped(notebook.photos, "core")
    ids = {core.id: tuple(photo.id for photo in photos.get(core.id, ())) for core in cores}
    pressed = not any(core.thatch_in and not core.pressed for core in cores)
    readings = [x for core in cores if core.pressed == pressed for x in core.thatch_in]
    roots = [core.root_depth_in for core in cores if core.root_depth_in is not None]
    return DayPlugs(
        date=of,
        columns=tuple(column_of(core, ids[core.id]) for core in cores),
        thatch_in=fmean(readings) if readings else None,
        root_depth_in=fmean(roots) if roots else None,
        photo_ids=tuple(photo for core in cores for photo in ids[core.id]),
        pressed=pressed and bool(readings),
    )


def _change(then: float | None, now: float | None) -> float | None:
    return None if then is None or now is None else now - then


def _doubt(spreads: Spreads, then: DayPlugs, now: DayPlugs) -> _Doubt | None:
    """What measuring may set the two days apart by; None where single readings cannot tell.

    The spread is that of all plugs of the yard up to the later day that were read in the same way:
    one hand and one ruler.
    """
    known = spreads.of(pressed=now.pressed).until(now.date)
    if known is None:
        return None
    spread, within = known
    if not (spread.replicates or within):
        return None
    whole = spread.plugs_in is not None
    freedom = spread.replicates if whole else within
    t = student_t(CONFIDENCE, freedom)
    return _Doubt(_day_in(spread, then), _day_in(spread, now), t, freedom, whole)


def _day_in(spread: PlugSpread, of: DayPlugs) -> float:
    """The standard deviation of a day's mean, by the plugs and readings that it is made of."""
    read = [each.readings for each in of.columns if each.readings and each.pressed == of.pressed]
    return spread.day_in(len(read), max(1, sum(read) // len(read)))


def _words(
    then: DayPlugs, now: DayPlugs, change: float | None, doubt: _Doubt | None
) -> Iterator[str]:
    if change is not None:
        yield _thatch_words(change, doubt)
        if doubt is not None and not doubt.whole:
            yield NO_REPLICATES
        yield ONE_SPOT
    elif then.thatch_in is not None and now.thatch_in is not None:
        yield tr("One day was read pressed, the other not: their thatch is not compared.")
    else:
        unread = then if then.thatch_in is None else now
        yield tr(
            "No thatch was read on {date}: there is nothing to compare.", date=day(unread.date)
        )
    roots = _change(then.root_depth_in, now.root_depth_in)
    if roots is not None:
        reached = told(now.root_depth_in or 0.0, 2, "in")
        moved = _signed_told(roots)
        yield tr(
            "Roots: {change}, to {reached}.",
            change=tr("as then") if moved == _signed_told(0.0) else moved,
            reached=reached,
        )
    if _seasons_apart(then.date, now.date):
        yield tr(
            "The two days lie in different seasons: part of the difference may be the season's."
        )


def _thatch_words(change: float, doubt: _Doubt | None) -> str:
    size = told(abs(change), 2, "in")
    if doubt is None:
        return tr(
            "Thatch: {signed_told}. How far measuring may be off cannot be said: read each "
            "plug at several places.",
            signed_told=_signed_told(change),
        )
    reach = told(doubt.reach_in, 2, "in")
    # Plugs side by side differ by more than their readings: without that, it is the least doubt.
    doubted = tr("± {reach} by measuring alone (95{percent})", reach=reach, percent=PERCENT)
    if not doubt.whole:
        doubted = tr(
            "at least ± {reach}, by readings and ruler alone (95{percent})",
            reach=reach,
            percent=PERCENT,
        )
    if abs(change) <= doubt.reach_in:
        moved = _signed_told(change)
        return tr(
            "Thatch: {moved}, {doubted}: no difference that these plugs can show.",
            moved=moved,
            doubted=doubted,
        )
    if not doubt.whole:
        return tr(
            "Thatch: {size} less, {doubted}: more than these explain."
            if change < 0
            else "Thatch: {size} more, {doubted}: more than these explain.",
            size=size,
            doubted=doubted,
        )
    return tr(
        "Thatch: {size} less, {doubted}: more than measuring explains."
        if change < 0
        else "Thatch: {size} more, {doubted}: more than measuring explains.",
        size=size,
        doubted=doubted,
    )


def _seasons_apart(then: date, now: date) -> bool:
    """Whether the days of the year lie more than three months from each other."""
    apart = abs(then.timetuple().tm_yday - now.timetuple().tm_yday)
    return min(apart, 365 - apart) > 91


def _done_between(notebook: Notebook, spot: Spot, then: date, now: date) -> tuple[CareMark, ...]:
    marks = care_marks(notebook, Place("spot", spot.id), now)
    return tuple(mark for mark in marks if then <= mark.date <= now)


def _workings(
    then: DayPlugs, now: DayPlugs, change: float | None, doubt: _Doubt | None
) -> Iterator[Working]:
    if change is not None:
        yield _difference(
            "thatch_change_in",
            tr("Change in thatch"),
            (then.date, then.thatch_in or 0.0),
            (now.date, now.thatch_in or 0.0),
        )
    if doubt is not None:
        yield _reach(then.date, now.date, doubt)
    if then.root_depth_in is not None and now.root_depth_in is not None:
        yield _difference(
            "root_change_in",
            tr("Change in root depth"),
            (then.date, then.root_depth_in),
            (now.date, now.root_depth_in),
        )


def _difference(
    figure: str, label: str, then: tuple[date, float], now: tuple[date, float]
) -> Working:
    formula = "{now} − {then}"
    inputs = tuple(
        numbered(
            given(day(of), told(value, 2, "in"), tr("plugs of {of} here, their mean", of=day(of))),
            symbol,
            value,
            "in",
        )
        for symbol, (of, value) in (("then", then), ("now", now))
    )
    return Working(
        figure,
        label,
        told(now[1] - then[1], 2, "in"),
        tr("now − then"),
        put_in(formula, inputs),
        inputs,
        sources(),
        reckons(formula, "in"),
    )


def _reach(then: date, now: date, doubt: _Doubt) -> Working:
    parts = (
        tr("readings, ruler and plugs of one day")
        if doubt.whole
        else tr("readings and ruler alone")
    )
    unknown = default(
        tr("Between plugs"), told(0.0, 3, "in"), tr("not known: no two plugs of one day")
    )
    formula = "{t:3} × √({then:4}² + {now:4}²)"
    of_t = given(
        "t", told(doubt.t), tr("{degrees} of freedom", degrees=counted(doubt.freedom, "degree"))
    )
    error_then = given(tr("Error {then}", then=day(then)), told(doubt.then_in, 3, "in"), parts)
    error_now = given(tr("Error {now}", now=day(now)), told(doubt.now_in, 3, "in"), parts)
    inputs = (
        numbered(of_t, "t", doubt.t),
        numbered(error_then, "then", doubt.then_in, "in"),
        numbered(error_now, "now", doubt.now_in, "in"),
        *(() if doubt.whole else (unknown,)),
    )
    return Working(
        "plus_minus_in",
        tr("Doubt of the difference, 95{percent}", percent=PERCENT),
        tr("{reach_in} either way", reach_in=told(doubt.reach_in, 3, "in")),
        tr("t × √(error then² + error now²)"),
        put_in(formula, inputs),
        inputs,
        sources("one-way-anova", "rounding", "student-t"),
        reckons(formula, "in", 3),
    )


def _signed_told(inches: float) -> str:
    return f"{signed(inches)} {unit_shown('in')}"
