"""What the plugs of one spot say in words: thatch, roots, moisture, tread, worms, and doubts."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from statistics import fmean
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.plan.finding_rules import RULES
from lawnbook.plan.limit_words import half_inch, inch
from lawnbook.plan.plug_model import Finding
from lawnbook.plan.plug_series import SpotPlugs
from lawnbook.plan.roots import thatch_readings
from lawnbook.plan.workings import told, told_exactly
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core, Spot

HALF_INCH, INCH = 0.5, 1.0

RULER_IN = 1 / 16
"""The finest mark of a common ruler, where a plug does not say (common practice)."""

UNEVEN_IN = 3 / 8
ROOTS_APART_IN = 0.5
SAME_SEASON_DAYS = 45
"""How far from a whole number of years apart two plugs of one season may lie."""

SOON_DAYS = 1
"""Thatch that is dry so soon after a watering repels it."""

DAYS_ALWAYS = 3
"""Wet on so many plugging days in a row is always wet."""

MIXING = 2
MANY_WORMS = 3
SPRINGY, FIRM = 3, 1
_YEAR_DAYS = 365.25

Wetness = Literal["dry", "moist", "wet"]


@dataclass(frozen=True, slots=True)
class _Facts:
    """A spot, its plugs in date order, and whether water fell within a day of the last."""

    spot: Spot
    zone_id: str
    cores: tuple[Core, ...]
    wetted: bool

    def finds(self, key: str, sentence: str) -> Finding:
        """A finding about this spot."""
        return RULES[key].finds(self.zone_id, self.spot.id, f"{self.spot.name}: {sentence}")

    @property
    def latest(self) -> tuple[Core, ...]:
        """The plugs of the latest day."""
        on = self.cores[-1].date
        return tuple(core for core in self.cores if core.date == on)


@dataclass(frozen=True, slots=True)
class _Thatch:
    """The thatch of the latest day on which the compared plugs were read."""

    on: date
    value_in: float
    ruler_in: float
    pressed: bool


def spot_findings(plugs: SpotPlugs, zone_id: str, *, wetted: bool) -> Iterator[Finding]:
    """All that the plugs of a spot show; nothing of a spot without any.

    `wetted` tells whether rain or a watering fell within `SOON_DAYS` of the latest plug.
    """
    if not plugs.cores:
        return
    facts = _Facts(plugs.spot, zone_id, plugs.cores, wetted)
    thatch = _thatch(plugs)
    if thatch is not None:
        yield _of_thatch(facts, thatch)
        yield from _of_tread(facts, thatch)
    confined = list(_of_confined_roots(facts))
    yield from confined
    yield from _of_root_growth(facts, confined=bool(confined))
    yield from _of_soil(facts, thatch)
    yield from _of_moisture(facts)
    yield from _of_worms(facts)
    yield from _of_readings(facts)


def soon_days(latest: date) -> tuple[date, ...]:
    """The day of a spot's latest plug and those before it on which water still tells."""
    return tuple(latest - timedelta(days=n) for n in range(SOON_DAYS + 1))


def _thatch(plugs: SpotPlugs) -> _Thatch | None:
    if not plugs.compared.spots:
        return None
    (compared,) = plugs.compared.spots
    last = compared.days[-1]
    of_day = [core for core in compared.cores if core.date == last.date]
    ruler = max(core.resolution_in or RULER_IN for core in of_day)
    return _Thatch(last.date, last.value_in, ruler, of_day[0].pressed)


def _of_thatch(facts: _Facts, thatch: _Thatch) -> Finding:
    value, on = told(thatch.value_in, 2, "in"), day(thatch.on)
    if thatch.value_in > INCH:
        return facts.finds(
            "thatch-over-inch",
            tr("{value} of thatch on {on}, over {inch}.", value=value, on=on, inch=inch()),
        )
    if thatch.pressed and thatch.value_in <= HALF_INCH + thatch.ruler_in / 2:
        words = tr(
            "{value} of thatch on {on}, pressed: whether it is under {half_inch} is not known.",
            value=value,
            on=on,
            half_inch=half_inch(),
        )
        return facts.finds("thatch-pressed", words)
    if abs(thatch.value_in - HALF_INCH) <= thatch.ruler_in / 2:
        words = tr(
            "{value} of thatch on {on}: {half_inch}, as near as the ruler tells.",
            value=value,
            on=on,
            half_inch=half_inch(),
        )
        return facts.finds("thatch-half", words)
    if thatch.value_in > HALF_INCH:
        return facts.finds(
            "thatch-thick",
            tr(
                "{value} of thatch on {on}, over {half_inch}.",
                value=value,
                on=on,
                half_inch=half_inch(),
            ),
        )
    return facts.finds(
        "thatch-thin",
        tr(
            "{value} of thatch on {on}, under {half_inch}.",
            value=value,
            on=on,
            half_inch=half_inch(),
        ),
    )


def _of_tread(facts: _Facts, thatch: _Thatch) -> Iterator[Finding]:
    """A tread that belies the ruler, on the day of the reading and unpressed."""
    of_day = [c.sponge for c in facts.cores if c.date == thatch.on and c.sponge is not None]
    if not of_day or thatch.pressed:
        return
    value = told(thatch.value_in, 2, "in")
    if min(of_day) >= SPRINGY and thatch.value_in < HALF_INCH - thatch.ruler_in / 2:
        words = tr(
            "it is springy underfoot ({of_day} of 4), yet the ruler reads {value}.",
            of_day=min(of_day),
            value=value,
        )
        yield facts.finds("sponge-soft", words)
    if max(of_day) < FIRM and thatch.value_in > HALF_INCH + thatch.ruler_in / 2:
        words = tr(
            "it is firm underfoot ({of_day} of 4), yet the ruler reads {value}.",
            of_day=max(of_day),
            value=value,
        )
        yield facts.finds("sponge-firm", words)


def _of_confined_roots(facts: _Facts) -> Iterator[Finding]:
    """Roots that end in the thatch on the latest day on which both were read, unpressed."""
    both = [c for c in facts.cores if c.root_depth_in is not None and c.thatch_in and not c.pressed]
    if not both:
        return
    of_day = [core for core in both if core.date == both[-1].date]
    roots = fmean(core.root_depth_in or 0.0 for core in of_day)
    thatch = thatch_readings(of_day)[0].value_in
    ruler = max(core.resolution_in or RULER_IN for core in of_day)
    if thatch > 0 and roots <= thatch + ruler:
        words = tr(
            "roots end at {roots}, in or just below {thatch} of thatch ({date}).",
            roots=told(roots, 2, "in"),
            thatch=told(thatch, 2, "in"),
            date=day(of_day[0].date),
        )
        yield facts.finds("roots-in-thatch", words)


def _of_root_growth(facts: _Facts, *, confined: bool) -> Iterator[Finding]:
    """The latest roots against the earliest of the same season; and roots cut off by the plug."""
    read: dict[date, list[Core]] = {}
    for core in facts.cores:
        if core.root_depth_in is not None:
            read.setdefault(core.date, []).append(core)
    if not read:
        return
    depths = {on: fmean(c.root_depth_in or 0.0 for c in cores) for on, cores in read.items()}
    last = max(depths)
    then = next((on for on in depths if _one_season(on, last)), None)
    apart = 0.0 if then is None else depths[last] - depths[then]
    if then is not None and abs(apart) >= ROOTS_APART_IN:
        key = "roots-deeper" if apart > 0 else "roots-shallower"
        words = tr(
            "roots reach {depths} ({last}), {apart} deeper than on {then}, by these two days."
            if apart > 0
            else "roots reach {depths} ({last}), {apart} shallower than on {then}, by these two "
            "days.",
            depths=told(depths[last], 2, "in"),
            last=day(last),
            apart=told(abs(apart), 2, "in"),
            then=day(then),
        )
        # Roots that are still in the thatch have not come deeper to any use.
        if apart < 0 or not confined:
            yield facts.finds(key, words)
    cut = [c for c in read[last] if c.core_depth_in and (c.root_depth_in or 0) >= c.core_depth_in]
    if cut:
        words = tr(
            "roots reach the cut end of the plug ({last}): they may go deeper.", last=day(last)
        )
        yield facts.finds("roots-beyond", words)


def _one_season(then: date, last: date) -> bool:
    """Whether two days lie a year or more apart and in the same season."""
    years = (last - then).days / _YEAR_DAYS
    return round(years) >= 1 and abs(years - round(years)) * _YEAR_DAYS <= SAME_SEASON_DAYS


def _of_soil(facts: _Facts, thatch: _Thatch | None) -> Iterator[Finding]:
    of_day = [core.soil_in_thatch for core in facts.latest if core.soil_in_thatch is not None]
    if not of_day:
        return
    share = fmean(of_day)
    mark, on = tr("{share} of 4", share=told_exactly(share, 0)), day(facts.cores[-1].date)
    if share >= MIXING:
        words = tr("soil mixes into the thatch ({mark} on {on}).", mark=mark, on=on)
        yield facts.finds("thatch-mixing", words)
    elif not share and thatch is not None and thatch.value_in > HALF_INCH + thatch.ruler_in / 2:
        yield facts.finds("thatch-bare", tr("no soil has come into the thatch yet ({on}).", on=on))


def _of_moisture(facts: _Facts) -> Iterator[Finding]:
    on = facts.cores[-1].date
    thatch = _agreed([core.thatch_moisture for core in facts.latest])
    soil = _agreed([core.soil_moisture for core in facts.latest])
    if thatch == "dry" and soil in ("moist", "wet"):
        yield facts.finds(
            "thatch-dry", tr("dry thatch lies over {soil} soil ({on}).", soil=soil, on=day(on))
        )
    elif thatch == "dry" and facts.wetted:
        words = tr("the thatch was dry on {on}, although water fell within a day.", on=day(on))
        yield facts.finds("thatch-dry", words)
    elif thatch == "wet" and soil == "dry":
        yield facts.finds(
            "thatch-holds-water", tr("wet thatch lies over dry soil ({on}).", on=day(on))
        )
    elif _always_wet(facts.cores):
        words = tr(
            "the thatch was wet on each of the last {days_always} days with a plug.",
            days_always=DAYS_ALWAYS,
        )
        yield facts.finds("always-wet", words)


def _agreed(felt: Sequence[Wetness | None]) -> Wetness | None:
    """What all plugs of a day that were felt agree on; None where they do not."""
    known = {each for each in felt if each is not None}
    return known.pop() if len(known) == 1 else None


def _always_wet(cores: Sequence[Core]) -> bool:
    felt: dict[date, list[bool]] = {}
    for core in cores:
        if core.thatch_moisture is not None:
            wet = core.thatch_moisture == "wet" and core.soil_moisture != "dry"
            felt.setdefault(core.date, []).append(wet)
    # A plug of the latest day that nobody felt leaves open how it is now.
    last = sorted(felt)[-DAYS_ALWAYS:]
    known = len(last) == DAYS_ALWAYS and last[-1] == cores[-1].date
    return known and all(all(felt[on]) for on in last)


def _of_worms(facts: _Facts) -> Iterator[Finding]:
    counted_on: dict[date, list[Core]] = {}
    for core in facts.cores:
        if core.worms is not None:
            counted_on.setdefault(core.date, []).append(core)
    days = sorted(counted_on)[-2:]
    if not days:
        return
    latest = fmean(core.worms or 0 for core in counted_on[days[-1]])
    two = [core for on in days for core in counted_on[on]]
    if latest >= MANY_WORMS:
        words = tr(
            "{latest} worms in a plug on {days}.",
            latest=told_exactly(latest, 0),
            days=day(days[-1]),
        )
        yield facts.finds("worms-many", words)
    elif len(days) == 2 and not any(c.worms or c.soil_moisture == "dry" for c in two):
        words = tr(
            "no worm in any plug of {first} and {last}.", first=day(days[0]), last=day(days[1])
        )
        yield facts.finds("worms-none", words)


def _of_readings(facts: _Facts) -> Iterator[Finding]:
    for core in facts.latest:
        low, high = min(core.thatch_in, default=0.0), max(core.thatch_in, default=0.0)
        if high - low >= UNEVEN_IN:
            words = tr(
                "readings of one plug lie between {bare} and {high} ({date}).",
                bare=bare(low, 2, "in"),
                high=told(high, 2, "in"),
                date=day(core.date),
            )
            yield facts.finds("uneven", words)
            return
