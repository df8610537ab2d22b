"""What plugs show, as sentences: verdict, what is missing, the half inch and the season.

A verdict is given with an interval only; without one it is "cannot say yet", with what is missing.
"""

from collections.abc import Sequence
from datetime import date

from lawnbook.agronomy.dates_to_add import dates_to_add
from lawnbook.agronomy.spot_lines import LEAST_SPAN_DAYS
from lawnbook.agronomy.spots_trend import FEWEST_TO_SPARE, MeanTrend
from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.plan.limit_words import half_inch, half_inch_first
from lawnbook.plan.plug_model import Interval, PlaceKind
from lawnbook.plan.plug_series import HALF_INCH, Compared, SpotDays
from lawnbook.plan.workings import PERCENT, counted, told, told_small
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, places_shown, shown, unit_shown
from lawnbook.yard.numbers import day

A_YEAR = "in a year"
"""The unit of a trend."""


METHODS = {
    "ranks": tr("the median of the slopes between every two plugs; its interval by ranks"),
    "permutation": (
        tr(
            "the mean of the two spots' median slopes; its interval holds that by ranks and "
            "Student's"
        )
    ),
    "spots": tr("the mean of the spots' own slopes; its interval by how they differ and scatter"),
}
"""How a trend was found, by the name of its method."""


def verdict_of(slope: float, ci95: Interval) -> str:
    """Thinning, thickening, or no change that these plugs can show, with the interval."""
    low, high = ci95
    if high < 0:
        return tr(
            "Thinning: {slope} ({between}).",
            slope=told_small(-slope, 2, A_YEAR),
            between=_between(-high, -low),
        )
    if low > 0:
        return tr(
            "Thickening: {slope} ({between}).",
            slope=told_small(slope, 2, A_YEAR),
            between=_between(low, high),
        )
    return tr(
        "No change that these plugs can show ({signed_between} {unit_shown}).",
        signed_between=signed_between(ci95),
        unit_shown=unit_shown(A_YEAR),
    )


def basis_words(kind: PlaceKind, trend: MeanTrend, pulled: int | None = None) -> str:
    """What a verdict rests on: "From 10 plugs of 8 days." or "From 15 plugs of 3 spots.".

    The trend counts a spot's plugs of one day as one; `pulled` is how many plugs they are, as many
    as the days where it is not given.
    """
    count = trend.plugs if pulled is None else pulled
    plugs = counted(count, "plug")
    if kind == "spot":
        return (
            tr("From {plugs}.", plugs=plugs)
            if count == trend.plugs
            else tr("From {plugs} of {days} days.", plugs=plugs, days=trend.plugs)
        )
    return tr("From {plugs} of {spots}.", plugs=plugs, spots=counted(trend.spots, "spot"))


def missing_words(kind: PlaceKind, compared: Compared) -> str:
    """Why there is no interval yet, from the plugs that there are; empty where they are enough."""
    if not compared.spot_days:
        return tr("no plug with a thatch reading has been pulled here")
    longest = max(each.span_days for each in compared.spots)
    if 0 < longest < LEAST_SPAN_DAYS:
        return tr(
            "the plugs of a spot lie within {days} so far, and a trend needs them "
            "{least_span_days} days apart or more",
            days=counted(longest, "day"),
            least_span_days=LEAST_SPAN_DAYS,
        )
    if kind == "spot" or len(compared.spots) == 1:
        return _missing_dates(len(compared.dates))
    if all(len(each.days) == 1 for each in compared.spots):
        return tr(
            "{plugs} so far, and no spot has plugs of two dates; pull again at the same spots",
            plugs=counted(compared.spot_days, "plug"),
        )
    return _missing_at_spots(compared.in_trend)


def too_unsure(plugs: int, spots: int) -> str:
    """Why a trend is not drawn on to half an inch: plugs are missing, or it is too unsure."""
    needed = 2 * spots + FEWEST_TO_SPARE
    if plugs < needed:
        where = tr("at one spot") if spots == 1 else tr("of {spots} spots", spots=spots)
        return tr(
            "a day needs at least {needed} plugs {where}, and there are {plugs}",
            needed=needed,
            where=where,
            plugs=plugs,
        )
    return tr("the trend is not sure enough to be drawn on so far")


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
        return tr("{low} to {high}", low=signed(low), high=signed(high))
    sign = "+" if low > 0 else "−"
    return tr(
        "{sign}{low} to {sign}{high}",
        sign=sign,
        low=_small(abs(low)),
        high=_small(abs(high)),
    )


def signed_between(interval: Interval) -> str:
    """An interval of 95 % with signs: "95 %: −0.10 to +0.02"."""
    return f"95{PERCENT}: {signed_interval(interval)}"


def between_a_year(interval: Interval) -> str:
    """An interval of a change in a year, with its unit: "95 %: −0.10 to +0.02 in a year"."""
    return f"{signed_between(interval)} {unit_shown(A_YEAR)}"


def may_be_none(interval: Interval) -> bool:
    """Whether a change or a difference may as well be none."""
    low, high = interval
    return low <= 0 <= high


def season_words(spring_minus_autumn_in: float | None, ci95: Interval | None) -> str:
    """What spring and autumn plugs differ by, the trend taken out, or that it cannot be told."""
    if spring_minus_autumn_in is None:
        return tr(
            "Plugs of spring and autumn are compared; too few to tell what the season alone does."
        )
    side = "thicker" if spring_minus_autumn_in > 0 else "thinner"
    apart = tr(
        "spring plugs are {spring_minus_autumn_in} {side} than autumn plugs",
        spring_minus_autumn_in=told(abs(spring_minus_autumn_in), 2, "in"),
        side=side,
    )
    if ci95 is None:
        return tr(
            "The trend taken out, {apart}; too few plugs to say how sure that is.", apart=apart
        )
    if may_be_none(ci95):
        return tr(
            "No effect of the season that these plugs can show: spring less autumn, the "
            "trend taken out ({signed_between} {unit_shown}).",
            signed_between=signed_between(ci95),
            unit_shown=unit_shown("in"),
        )
    return tr(
        "The trend taken out, {apart} ({signed_between} {unit_shown}): compare spring "
        "with spring, autumn with autumn.",
        apart=apart,
        signed_between=signed_between(ci95),
        unit_shown=unit_shown("in"),
    )


def half_inch_ahead(between: tuple[date, date], on: date) -> str:
    """Between which days half an inch is met, on what condition, and that it may be behind."""
    first, last = between
    behind = tr("; the trend may have met it already") if first < on else ""
    return tr(
        "{half_inch_first} between {first} and {last} (95{percent}), if it goes on as "
        "so far{behind}.",
        half_inch_first=half_inch_first(),
        first=day(first),
        last=day(last),
        percent=PERCENT,
        behind=behind,
    )


def half_inch_disputed(kind: PlaceKind, latest_in: float) -> str:
    """That the trend has met half an inch, but the latest plugs have not."""
    latest = (
        tr("the latest plug reads") if kind == "spot" else tr("the latest plugs read, in the mean,")
    )
    return tr(
        "by the trend it has been, but {latest} {latest_in}",
        latest=latest,
        latest_in=told(latest_in, 2, "in"),
    )


def half_inch_passed(kind: PlaceKind, latest_in: float) -> str:
    """That the latest plugs lie under half an inch, or over it."""
    plugs = tr("plug is") if kind == "spot" else tr("plugs are, in the mean,")
    side = "under" if round(latest_in, 2) < HALF_INCH else tr("at or over")
    return tr(
        "The latest {plugs} {side} {half_inch}: {latest_in}.",
        plugs=plugs,
        side=side,
        half_inch=half_inch(),
        latest_in=told(latest_in, 2, "in"),
    )


def half_inch_unknown(why: str) -> str:
    """That it cannot be said when half an inch is met, and why."""
    return tr("Cannot say yet when {half_inch} is reached: {why}.", half_inch=half_inch(), why=why)


def _missing_at_spots(spots: Sequence[SpotDays]) -> str:
    """What the spots in the trend lack, the other spots of the place having one date each."""
    more, at = dates_to_add([len(each.days) for each in spots])
    if not more:
        return ""
    if len(spots) == 1:
        (only,) = spots
        return tr(
            "only {name} has plugs of several dates, {count} so far, and one spot alone "
            "needs {fewest_for_interval}; pull again at the other spots too",
            name=only.spot.name,
            count=len(only.days),
            fewest_for_interval=FEWEST_FOR_INTERVAL,
        )
    wanted = tr("one more date") if more == 1 else tr("{more} more dates", more=more)
    needed = tr(
        "{dates} at {spots} is needed before a verdict"
        if more == 1
        else "{dates} at {spots} are needed before a verdict",
        dates=wanted,
        spots=_one_of([spots[n].spot.name for n in at]),
    )
    if len(spots) > 2:
        return tr(
            "these {count} spots have plugs of two dates each; {needed}",
            count=len(spots),
            needed=needed,
        )
    one, other = (
        tr("{name} has plugs of {count}", name=each.spot.name, count=len(each.days))
        for each in spots
    )
    return tr("{one} dates, {other}; {needed}", one=one, other=other, needed=needed)


def _one_of(names: Sequence[str]) -> str:
    """One spot's name, or that it may be any of several."""
    if len(names) == 1:
        return names[0]
    return (
        tr("{one} or {other}", one=names[0], other=names[1])
        if len(names) == 2
        else tr("any of them")
    )


def _missing_dates(dates: int) -> str:
    if dates >= FEWEST_FOR_INTERVAL:
        return ""
    more = FEWEST_FOR_INTERVAL - dates
    had = tr("1 plug") if dates == 1 else tr("plugs of {dates} dates", dates=dates)
    wanted = tr("one more date is") if more == 1 else tr("{more} more dates are", more=more)
    return tr("{had} so far; {wanted} needed before a verdict", had=had, wanted=wanted)


def _between(low: float, high: float) -> str:
    return tr(
        "95{percent}: {low} to {high}",
        percent=PERCENT,
        low=_small(low),
        high=_small(high),
    )


def _small(inches: float) -> str:
    """A length as `told_small` tells it, without its unit."""
    return told_small(inches, 2, "in").rpartition(" ")[0]
