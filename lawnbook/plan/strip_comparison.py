"""Treated spots against an untreated comparison strip, in words and with their working."""

from collections.abc import Iterator
from datetime import date

from lawnbook.agronomy.slope_change import (
    DifferenceFit,
    slope_difference,
)
from lawnbook.agronomy.spot_lines import LEAST_SPAN_DAYS
from lawnbook.agronomy.spots_trend import FEWEST_DATES
from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.plan.evidence_words import A_YEAR, between_a_year, may_be_none, signed
from lawnbook.plan.plug_model import Place, StripComparison
from lawnbook.plan.plug_series import Compared
from lawnbook.plan.plug_workings import difference_working
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.slope_changes import (
    NOTHING_BEYOND_CHANCE,
    Parts,
    alike_in,
    known_on,
    on_strip,
    parts_of,
    shared_words,
)
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import PERCENT, and_joined, counted, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

STRIP_PROOF = tr(
    "Treated and untreated had the same weather, so a difference beyond chance "
    "points to what was done or to the places themselves; a few spots of one yard "
    "cannot tell those apart."
)


APART_DAYS = 200
"""Plugs that begin or end further apart than about half a year are of other seasons and years."""


def against_strip(notebook: Notebook, on: date, place: Place) -> StripComparison | None:
    """The trend of a place's treated spots against that of the untreated comparison.

    The comparison spots are those of the place's zone, or all of the yard's where it has none;
    at a comparison spot the treated ones are those of its zone. None where no spot is an
    untreated comparison.
    """
    known = known_on(notebook, on)
    parts = parts_of(known, place)
    if parts is None:
        return None
    treated, untreated = alike_in(known, parts)
    fit = _difference(treated, untreated)
    return StripComparison(
        treated=tuple(spot.name for spot in parts.treated),
        untreated=tuple(spot.name for spot in parts.untreated),
        treated_in_per_year=fit.treated.value if fit else None,
        untreated_in_per_year=fit.untreated.value if fit else None,
        difference_in_per_year=fit.difference.value if fit else None,
        ci95=fit.difference.ci95 if fit else None,
        words=_strip_words(fit, treated, untreated),
        working=_strip_working(fit),
        proof=_strip_proof(fit),
        notes=tuple(_strip_notes(known, parts, treated, untreated)),
    )


def _difference(treated: Compared, untreated: Compared) -> DifferenceFit | None:
    if not treated.spots or not untreated.spots:
        return None
    return slope_difference(treated.series, untreated.series)


def _strip_words(fit: DifferenceFit | None, treated: Compared, untreated: Compared) -> str:
    counts = tr(
        "{plugs} of treated spots, {spot_days} of the untreated comparison",
        plugs=counted(treated.spot_days, "plug"),
        spot_days=untreated.spot_days,
    )
    if not treated.spots:
        return tr("Cannot say yet: no plug of a treated spot has been read here.")
    if fit is None:
        return tr(
            "Cannot say yet: {counts}. Each side needs at least 3 plugs for a slope, some "
            "of them {least_span_days} days apart.",
            counts=counts,
            least_span_days=LEAST_SPAN_DAYS,
        )
    side = tr(
        "treated {signed} {unit_shown}",
        signed=signed(fit.treated.value),
        unit_shown=unit_shown(A_YEAR),
    )
    sides = tr("{side}, untreated {signed}", side=side, signed=signed(fit.untreated.value))
    if fit.difference.ci95 is None:
        return tr(
            "Cannot say yet: {sides}, from {counts}. An interval needs "
            "{fewest_for_interval} plugs of {fewest_dates} dates on each side.",
            sides=sides,
            counts=counts,
            fewest_for_interval=FEWEST_FOR_INTERVAL,
            fewest_dates=FEWEST_DATES,
        )
    low, high = fit.difference.ci95
    doubt = between_a_year(fit.difference.ci95)
    if may_be_none(fit.difference.ci95):
        return tr(
            "No difference that these plugs can show ({doubt}): {sides}.", doubt=doubt, sides=sides
        )
    how, by = ("thinner", -fit.difference.value) if high < 0 else ("thicker", fit.difference.value)
    least, most = sorted((abs(low), abs(high)))
    return tr(
        "Treated spots grew {how} against the untreated, by {by} (95{percent}: {bare} "
        "to {bare_2}): {sides}.",
        how=how,
        by=told(by, 2, A_YEAR),
        percent=PERCENT,
        bare=bare(least, 2, A_YEAR),
        bare_2=bare(most, 2, A_YEAR),
        sides=sides,
    )


def _strip_proof(fit: DifferenceFit | None) -> str:
    interval = fit.difference.ci95 if fit else None
    if interval is not None and may_be_none(interval):
        return NOTHING_BEYOND_CHANCE
    return STRIP_PROOF


def _strip_working(fit: DifferenceFit | None) -> Working | None:
    if fit is None:
        return None
    return difference_working(
        "slope_difference_in_per_year",
        tr("Treated less untreated"),
        (tr("treated slope"), fit.treated.value, tr("untreated slope"), fit.untreated.value),
        fit.difference.ci95,
    )


def _strip_notes(
    notebook: Notebook, parts: Parts, treated: Compared, untreated: Compared
) -> Iterator[str]:
    zones = {zone_of_spot(notebook, spot) for spot in parts.treated}
    other = [s for s in parts.untreated if zones and zone_of_spot(notebook, s) not in zones]
    if other:
        names = and_joined([spot.name for spot in other])
        yield tr(
            "In another zone: {names}. The places may differ by more than what was done.",
            names=names,
        )
    if treated.spots and untreated.spots:
        yield from _span_notes(treated, untreated)
        care = [
            care
            for care in sorted(notebook.care.values(), key=lambda each: (each.date, each.rank))
            if care.date >= untreated.origin and on_strip(notebook, care, parts.untreated)
        ]
        if care:
            yield shared_words(notebook, care, parts.untreated)
        yield from _few_notes(treated, untreated)


def _few_notes(treated: Compared, untreated: Compared) -> Iterator[str]:
    """A side of one or two spots has the slope of those spots, not of a lawn they stand for."""
    sides = (("treated", treated.in_trend), ("untreated", untreated.in_trend))
    few = [
        f"{kind}: {and_joined([each.spot.name for each in spots])}"
        for kind, spots in sides
        if len(spots) < 3
    ]
    if few:
        told_of = "; ".join(few)
        yield (
            tr(
                "{sides}. One or two spots speak for their own places, not for "
                "all turf that is kept like them.",
                sides=told_of[:1].upper() + told_of[1:],
            )
        )


def _span_notes(treated: Compared, untreated: Compared) -> Iterator[str]:
    """Slopes of other years are no comparison: years differ in weather."""
    begun, ended = untreated.dates[0], untreated.dates[-1]
    early = (begun - treated.dates[0]).days > APART_DAYS
    late = abs((ended - treated.dates[-1]).days) > APART_DAYS
    if early or late or (treated.dates[0] - begun).days > APART_DAYS:
        yield (
            tr(
                "Not of the same time: treated plugs from {treated_first} to {treated_last}, "
                "untreated from {begun} to {ended}.",
                treated_first=day(treated.dates[0]),
                treated_last=day(treated.dates[-1]),
                begun=day(begun),
                ended=day(ended),
            )
        )
