"""What plugs show, as sentences: verdict, what is missing, the half inch, the season, and notes.

A verdict is given with an interval only; without one it is "cannot say yet", with what is missing.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from lawnbook.agronomy.dates_to_add import dates_to_add
from lawnbook.agronomy.spot_lines import LEAST_SPAN_DAYS
from lawnbook.agronomy.spots_trend import FEWEST_TO_SPARE, MeanTrend
from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.plan.limit_words import half_inch, half_inch_first
from lawnbook.plan.plug_model import Interval, PlaceKind
from lawnbook.plan.plug_series import HALF_INCH, Compared, SpotDays
from lawnbook.plan.workings import PERCENT, and_joined, counted, told, told_small
from lawnbook.reading import is_metric
from lawnbook.yard.amounts import bare, places_shown, shown, unit_shown
from lawnbook.yard.numbers import day

A_YEAR = "in a year"
"""The unit of a trend."""

LATE_DAYS = 60
"""A spot whose first plug comes so long after the first of all has begun late (our choice)."""

SHARED_FROM = 5
"""From so many spots on the errors that a day's plugs share are told of."""

METHODS = {
    "ranks": "the median of the slopes between every two plugs; its interval by ranks",
    "permutation": (
        "the mean of the two spots' median slopes; its interval holds that by ranks and Student's"
    ),
    "spots": "the mean of the spots' own slopes; its interval by how they differ and scatter",
}
"""How a trend was found, by the name of its method."""


def verdict_of(slope: float, ci95: Interval) -> str:
    """Thinning, thickening, or no change that these plugs can show, with the interval."""
    low, high = ci95
    if high < 0:
        return f"Thinning: {told_small(-slope, 2, A_YEAR)} ({_between(-high, -low)})."
    if low > 0:
        return f"Thickening: {told_small(slope, 2, A_YEAR)} ({_between(low, high)})."
    return f"No change that these plugs can show ({signed_between(ci95)} {unit_shown(A_YEAR)})."


def basis_words(kind: PlaceKind, trend: MeanTrend, pulled: int | None = None) -> str:
    """What a verdict rests on: "From 10 plugs of 8 days." or "From 15 plugs of 3 spots.".

    The trend counts a spot's plugs of one day as one; `pulled` is how many plugs they are, as many
    as the days where it is not given.
    """
    count = trend.plugs if pulled is None else pulled
    plugs = counted(count, "plug")
    if kind == "spot":
        return f"From {plugs}." if count == trend.plugs else f"From {plugs} of {trend.plugs} days."
    return f"From {plugs} of {counted(trend.spots, 'spot')}."


def missing_words(kind: PlaceKind, compared: Compared) -> str:
    """Why there is no interval yet, from the plugs that there are; empty where they are enough."""
    if not compared.spot_days:
        return "no plug with a thatch reading has been pulled here"
    longest = max(each.span_days for each in compared.spots)
    if 0 < longest < LEAST_SPAN_DAYS:
        return (
            f"the plugs of a spot lie within {counted(longest, 'day')} so far, and a trend needs "
            f"them {LEAST_SPAN_DAYS} days apart or more"
        )
    if kind == "spot" or len(compared.spots) == 1:
        return _missing_dates(len(compared.dates))
    if all(len(each.days) == 1 for each in compared.spots):
        return (
            f"{counted(compared.spot_days, 'plug')} so far, and no spot has plugs of two dates; "
            "pull again at the same spots"
        )
    return _missing_at_spots(compared.in_trend)


def too_unsure(plugs: int, spots: int) -> str:
    """Why a trend is not drawn on to half an inch: plugs are missing, or it is too unsure."""
    needed = 2 * spots + FEWEST_TO_SPARE
    if plugs < needed:
        where = "at one spot" if spots == 1 else f"of {spots} spots"
        return f"a day needs at least {needed} plugs {where}, and there are {plugs}"
    return "the trend is not sure enough to be drawn on so far"


def signed(value: float) -> str:
    """A length in inches with its sign, of the unit that is read: "+0.05", "−0.10", "0.00"."""
    number = bare(value, 2, "in").replace("-", "−")
    is_more = round(shown(value, "in"), places_shown(2, "in")) > 0
    return f"+{number}" if is_more else number


def signed_interval(interval: Interval) -> str:
    """Both ends with signs: "−0.10 to +0.02".

    Where zero lies outside, an end near it is not rounded to it: "−0.08 to −0.004".
    """
    low, high = interval
    if low <= 0 <= high:
        return f"{signed(low)} to {signed(high)}"
    sign = "+" if low > 0 else "−"
    return f"{sign}{_small(abs(low))} to {sign}{_small(abs(high))}"


def signed_between(interval: Interval) -> str:
    """An interval of 95 % with signs: "95 %: −0.10 to +0.02"."""
    return f"95{PERCENT}: {signed_interval(interval)}"


def season_words(spring_minus_autumn_in: float | None, ci95: Interval | None) -> str:
    """What spring and autumn plugs differ by, the trend taken out, or that it cannot be told."""
    if spring_minus_autumn_in is None:
        return (
            "Plugs of spring and autumn are compared; too few to tell what the season alone does."
        )
    side = "thicker" if spring_minus_autumn_in > 0 else "thinner"
    apart = (
        f"spring plugs are {told(abs(spring_minus_autumn_in), 2, 'in')} {side} than autumn plugs"
    )
    if ci95 is None:
        return f"The trend taken out, {apart}; too few plugs to say how sure that is."
    if ci95[0] <= 0 <= ci95[1]:
        return (
            "No effect of the season that these plugs can show: spring less autumn, the trend "
            f"taken out ({signed_between(ci95)} {unit_shown('in')})."
        )
    return (
        f"The trend taken out, {apart} ({signed_between(ci95)} {unit_shown('in')}): compare spring "
        "with spring, autumn with autumn."
    )


def half_inch_ahead(between: tuple[date, date], on: date) -> str:
    """Between which days half an inch is met, on what condition, and that it may be behind."""
    first, last = between
    behind = "; the trend may have met it already" if first < on else ""
    return (
        f"{half_inch_first()} between {day(first)} and {day(last)} (95{PERCENT}), if it goes on as "
        f"so far{behind}."
    )


def half_inch_disputed(kind: PlaceKind, latest_in: float) -> str:
    """That the trend has met half an inch, but the latest plugs have not."""
    latest = "the latest plug reads" if kind == "spot" else "the latest plugs read, in the mean,"
    return f"by the trend it has been, but {latest} {told(latest_in, 2, 'in')}"


def half_inch_passed(kind: PlaceKind, latest_in: float) -> str:
    """That the latest plugs lie under half an inch, or over it."""
    plugs = "plug is" if kind == "spot" else "plugs are, in the mean,"
    side = "under" if round(latest_in, 2) < HALF_INCH else "at or over"
    return f"The latest {plugs} {side} {half_inch()}: {told(latest_in, 2, 'in')}."


def half_inch_unknown(why: str) -> str:
    """That it cannot be said when half an inch is met, and why."""
    return f"Cannot say yet when {half_inch()} is reached: {why}."


def notes_of(
    kind: PlaceKind, compared: Compared, comparison: Sequence[str], *, assumed_ruler: bool
) -> Iterator[str]:
    """What to know beside the figures: what is left out, assumed, or speaks for few spots only.

    `comparison` names the untreated comparison spots that were left out.
    """
    if comparison:
        names = and_joined(comparison)
        many = len(comparison) > 1
        yield (
            f"Untreated comparison, left out of this mean: {names}; "
            f"{'they have their' if many else 'it has its'} own trend."
        )
    if compared.pressed:
        yield "These plugs were read pressed: they compare with pressed ones only."
    if compared.left_out:
        were = "was" if compared.left_out == 1 else "were"
        yield (
            f"{counted(compared.left_out, 'plug')} {were} read pressed and "
            f"{'is' if compared.left_out == 1 else 'are'} not compared with the others."
        )
    if assumed_ruler:
        fine = told(1 / 16, 2, "in") if is_metric() else "1/16 in"
        yield f"Some plugs do not say how fine the ruler was: {fine} is assumed."
    yield from _wetness(compared)
    if kind != "spot":
        yield from _few_spots(compared)
        yield from _late(compared)
        yield from _one_date(compared)
        yield from _shared_days(compared)


def _missing_at_spots(spots: Sequence[SpotDays]) -> str:
    """What the spots in the trend lack, the other spots of the place having one date each."""
    more, at = dates_to_add([len(each.days) for each in spots])
    if not more:
        return ""
    if len(spots) == 1:
        (only,) = spots
        return (
            f"only {only.spot.name} has plugs of several dates, {len(only.days)} so far, and one "
            f"spot alone needs {FEWEST_FOR_INTERVAL}; pull again at the other spots too"
        )
    wanted = "one more date" if more == 1 else f"{more} more dates"
    needed = f"{wanted} at {_one_of([spots[n].spot.name for n in at])} "
    needed += f"{'is' if more == 1 else 'are'} needed before a verdict"
    if len(spots) > 2:
        return f"these {len(spots)} spots have plugs of two dates each; {needed}"
    one, other = (f"{each.spot.name} has plugs of {len(each.days)}" for each in spots)
    return f"{one} dates, {other}; {needed}"


def _one_of(names: Sequence[str]) -> str:
    """One spot's name, or that it may be any of several."""
    if len(names) == 1:
        return names[0]
    return f"{names[0]} or {names[1]}" if len(names) == 2 else "any of them"


def _missing_dates(dates: int) -> str:
    if dates >= FEWEST_FOR_INTERVAL:
        return ""
    more = FEWEST_FOR_INTERVAL - dates
    had = "1 plug" if dates == 1 else f"plugs of {dates} dates"
    wanted = "one more date is" if more == 1 else f"{more} more dates are"
    return f"{had} so far; {wanted} needed before a verdict"


def _between(low: float, high: float) -> str:
    return f"95{PERCENT}: {_small(low)} to {_small(high)}"


def _small(inches: float) -> str:
    """A length as `told_small` tells it, without its unit."""
    return told_small(inches, 2, "in").rpartition(" ")[0]


def _wetness(compared: Compared) -> Iterator[str]:
    states = {core.thatch_moisture for core in compared.cores} & {"dry", "wet"}
    if len(states) > 1:
        yield (
            "Some plugs were read with the thatch wet, some with it dry: part of a difference may "
            "be that (common practice)."
        )


def _few_spots(compared: Compared) -> Iterator[str]:
    names = [each.spot.name for each in compared.in_trend]
    if len(names) == 1:
        yield f"One spot only, {names[0]}: it speaks for its own place."
    elif len(names) == 2:
        yield (
            f"The mean of these two spots only, {and_joined(names)}: what lies between them it "
            "cannot say."
        )


def _late(compared: Compared) -> Iterator[str]:
    late = [
        f"{each.spot.name} ({day(each.days[0].date)})"
        for each in compared.in_trend
        if (each.days[0].date - compared.origin).days > LATE_DAYS
    ]
    if late:
        yield (
            f"Begun later: {_listed(late)}. Each spot counts by its own slope, so a late one does "
            "not shift the trend by its level."
        )


def _one_date(compared: Compared) -> Iterator[str]:
    out = [each for each in compared.spots if not each.has_slope]
    if len(out) == len(compared.spots):
        return
    single = [each.spot.name for each in out if len(each.days) == 1]
    if single:
        yield f"Not in the trend yet, for want of a second date: {_listed(single)}."
    near = [each.spot.name for each in out if len(each.days) > 1]
    if near:
        yield (
            f"Not in the trend yet, for want of plugs {LEAST_SPAN_DAYS} days apart: "
            f"{_listed(near)}."
        )


def _shared_days(compared: Compared) -> Iterator[str]:
    """What the interval over many spots leaves out: with few its width holds that as well.

    Simulated with 0.06 in of error that all spots of a day share, intervals at six spots and eight
    rounds held in 90 % of yards, those at up to four spots in 95 %.
    """
    spots = compared.in_trend
    days = {day.date for each in spots for day in each.days}
    if len(spots) >= SHARED_FROM and len(days) < sum(len(each.days) for each in spots):
        yield (
            "Spots plugged on one day may err together, by that day's moisture or by the hand that "
            "read them: of so many spots the interval may then be too narrow."
        )


def _listed(names: Iterable[str], most: int = 5) -> str:
    told_of = list(names)
    if len(told_of) > most + 1:
        told_of = [*told_of[:most], f"{len(told_of) - most} more"]
    return and_joined(told_of)
