"""What changed when: the trend before and after a day, and treated spots against untreated ones.

A change after a day is not a change by what was done on it: the words on proof say so each time.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.slope_change import (
    ChangeFit,
    slope_change,
)
from lawnbook.agronomy.spot_lines import LEAST_SPAN_DAYS
from lawnbook.agronomy.spots_trend import FEWEST_DATES, Fit
from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import done_in, zone_of_place
from lawnbook.plan.evidence_words import A_YEAR, between_a_year, may_be_none, signed
from lawnbook.plan.plug_model import Interval, Place, SlopeChange
from lawnbook.plan.plug_series import Compared, compared_plugs, years_since
from lawnbook.plan.plug_workings import difference_working
from lawnbook.plan.roots import cores_of_spot, zone_of_spot
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import and_joined, counted
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Care, Spot
from lawnbook.yard.table import until

NO_STRIP = tr(
    "One lawn without an untreated comparison strip is not proof: weather and all "
    "else that changed about that day would show just the same."
)
SEE_STRIP = tr(
    "Before and after are not proof by themselves: read them beside the untreated "
    "comparison, which had the same weather."
)
NOTHING_BEYOND_CHANCE = tr(
    "Without a difference beyond chance, nothing is shown for what was done, and nothing against."
)
BY_WHAT_WAS_DONE = tr("Choose the day by what was done, not by where the trend seems to turn.")

CARE_TOLD = 3


def change_at(notebook: Notebook, on: date, place: Place, split: date) -> SlopeChange:
    """The trend of a place before a day and from it on, by what is known on the day `on`.

    Untreated comparison spots are left out of a zone's and the yard's, as in their evidence.
    """
    known = known_on(notebook, on)
    compared = _compared(known, _spots_of(known, place))
    split_year = years_since(compared.origin, split) if compared.spots else 0.0
    fit = slope_change(compared.series, split_year) if compared.spots else None
    before, after = _sides(compared, split)
    fits = (fit.before, fit.after, fit.difference) if fit else (None, None, None)
    values, intervals = [_value(each) for each in fits], [_interval(each) for each in fits]
    return SlopeChange(
        on=split,
        plugs_before=fit.plugs_before if fit else before,
        plugs_after=fit.plugs_after if fit else after,
        before_in_per_year=values[0],
        before_ci95=intervals[0],
        after_in_per_year=values[1],
        after_ci95=intervals[1],
        difference_in_per_year=values[2],
        difference_ci95=intervals[2],
        words=_change_words(fit, (before, after), split),
        proof=_change_proof(known, place, split),
        working=_change_working(fit),
    )


def known_on(notebook: Notebook, on: date) -> Notebook:
    """The notebook with the plugs and the care up to a day: nothing else that is dated tells."""
    return replace(notebook, cores=until(notebook.cores, on), care=until(notebook.care, on))


@dataclass(frozen=True, slots=True)
class Parts:
    """The spots that are set against each other."""

    treated: tuple[Spot, ...]
    untreated: tuple[Spot, ...]


def _spots_of(notebook: Notebook, place: Place) -> tuple[Spot, ...]:
    """The spots of a place's trend: a spot itself, else those that are no comparison."""
    spots = notebook.spots.values()
    if place.kind == "spot":
        return tuple(spot for spot in spots if spot.id == place.id)
    treated = (spot for spot in spots if not spot.comparison)
    if place.kind == "yard":
        return tuple(treated)
    return tuple(spot for spot in treated if zone_of_spot(notebook, spot) == place.id)


def _compared(notebook: Notebook, spots: Iterable[Spot]) -> Compared:
    return compared_plugs([(spot, cores_of_spot(notebook, spot.id)) for spot in spots])


def _sides(compared: Compared, split: date) -> tuple[int, int]:
    """How many plugs there are before a day, and from it on."""
    days = [each.date for spot in compared.spots for each in spot.days]
    before = sum(each < split for each in days)
    return before, len(days) - before


def _value(fit: Fit | None) -> float | None:
    return fit.value if fit else None


def _interval(fit: Fit | None) -> Interval | None:
    return fit.ci95 if fit else None


def _change_words(fit: ChangeFit | None, sides: tuple[int, int], split: date) -> str:
    before, after = (fit.plugs_before, fit.plugs_after) if fit else sides
    counts = tr(
        "{plugs} before {split}, {after} from it on",
        plugs=counted(before, "plug"),
        split=day(split),
        after=after,
    )
    if fit is None:
        return tr(
            "Cannot say yet: {counts}. A slope needs plugs of two dates, {least_span_days} "
            "days apart or more, on each side at one spot.",
            counts=counts,
            least_span_days=LEAST_SPAN_DAYS,
        )
    if fit.difference.ci95 is None:
        # Only these tell a slope on either side: the count must not say more than was used.
        both = "" if (before, after) == sides else tr(" at spots with two dates on each side")
        return tr(
            "Cannot say yet whether the trend changed: {counts}{both}. An interval needs "
            "{fewest_for_interval} plugs of {fewest_dates} dates on each side, and a spot "
            "with three dates on one of them.",
            counts=counts,
            both=both,
            fewest_for_interval=FEWEST_FOR_INTERVAL,
            fewest_dates=FEWEST_DATES,
        )
    doubt = between_a_year(fit.difference.ci95)
    if may_be_none(fit.difference.ci95):
        return tr(
            "No change of the trend on {split} that these plugs can show ({doubt}).",
            split=day(split),
            doubt=doubt,
        )
    return tr(
        "The trend differs before and after {split}: {signed} {unit_shown} before, "
        "{after} from it on, a difference of {difference} ({doubt}).",
        split=day(split),
        signed=signed(fit.before.value),
        unit_shown=unit_shown(A_YEAR),
        after=signed(fit.after.value),
        difference=signed(fit.difference.value),
        doubt=doubt,
    )


def _change_proof(notebook: Notebook, place: Place, split: date) -> str:
    """What before and after can show here; care of the day that the strip's zone had as well."""
    strips = [spot for spot in notebook.spots.values() if spot.comparison]
    if not strips:
        return f"{NO_STRIP} {BY_WHAT_WAS_DONE}"
    zone_id = zone_of_place(notebook, place)
    done = [
        care
        for care in notebook.care.values()
        if care.date == split and (not zone_id or done_in(care, zone_id))
    ]
    shared = [care for care in done if on_strip(notebook, care, strips)]
    blurred = [shared_words(notebook, shared, strips)] if shared else []
    return " ".join([SEE_STRIP, BY_WHAT_WAS_DONE, *blurred])


def _change_working(fit: ChangeFit | None) -> Working | None:
    if fit is None:
        return None
    return difference_working(
        "slope_change_in_per_year",
        tr("Change of the trend"),
        (tr("slope after"), fit.after.value, tr("slope before"), fit.before.value),
        fit.difference.ci95,
    )


def parts_of(notebook: Notebook, place: Place) -> Parts | None:
    """The spots of a place on both sides; None without a comparison strip."""
    spots = tuple(notebook.spots.values())
    strips = tuple(spot for spot in spots if spot.comparison)
    if not strips:
        return None
    zone_id = zone_of_place(notebook, place)
    here = tuple(spot for spot in strips if zone_id and zone_of_spot(notebook, spot) == zone_id)
    asked = next((s for s in spots if place.kind == "spot" and s.id == place.id), None)
    if asked is not None and asked.comparison:
        return Parts(_neighbours(notebook, zone_id), (asked,))
    treated = _spots_of(notebook, place)
    if not treated and here:
        # A zone that is the comparison as a whole is set against the rest of the yard.
        treated = _neighbours(notebook, zone_id)
    return Parts(treated, here or strips)


def _neighbours(notebook: Notebook, zone_id: str) -> tuple[Spot, ...]:
    """The treated spots of a zone, or all of the yard's where it has none."""
    in_zone = _spots_of(notebook, Place("zone", zone_id)) if zone_id else ()
    return in_zone or _spots_of(notebook, Place("yard", ""))


def alike_in(notebook: Notebook, parts: Parts) -> tuple[Compared, Compared]:
    """Both sides' plugs, all unpressed or, where there are no such, all pressed."""
    both = _compared(notebook, (*parts.treated, *parts.untreated))
    names = {spot.id for spot in parts.untreated}
    treated = tuple(each for each in both.spots if each.spot.id not in names)
    untreated = tuple(each for each in both.spots if each.spot.id in names)
    return (
        Compared(treated, both.pressed, both.left_out),
        Compared(untreated, both.pressed, both.left_out),
    )


def on_strip(notebook: Notebook, care: Care, strips: Iterable[Spot]) -> bool:
    """Whether care is dated for a comparison spot's zone as well."""
    return any(done_in(care, zone_of_spot(notebook, spot)) for spot in strips)


def shared_words(notebook: Notebook, care: Sequence[Care], strips: Sequence[Spot]) -> str:
    """That care was done on the comparison strip too, which blurs the comparison."""
    done = [f"{tr(each.kind.strip())} ({day(each.date)})" for each in care[:CARE_TOLD]]
    if len(care) > CARE_TOLD:
        done.append(tr("{count} more", count=len(care) - CARE_TOLD))
    names = and_joined([spot.name for spot in strips if _any_care(notebook, care, spot)])
    return tr(
        "Dated for the zone of {names} too: {done}. If the comparison had it as well, "
        "what it did cannot be told apart here.",
        names=names,
        done=and_joined(done),
    )


def _any_care(notebook: Notebook, care: Iterable[Care], spot: Spot) -> bool:
    return any(done_in(each, zone_of_spot(notebook, spot)) for each in care)
