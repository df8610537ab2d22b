"""Is it working, and how sure are we: verdicts, errors, what is left out, and what is missing."""

import importlib
import statistics
from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.evidence_words import signed_interval
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Evidence
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Core
from tests.plan_yards import core, spot, yard, zone
from tests.strategies import notebooks

NOW = date(2026, 6, 15)
DATES = tuple(date(2023, 4, 10) + timedelta(days=182 * n) for n in range(7))
THINNING = (1.15, 1.08, 1.00, 0.91, 0.85, 0.77, 0.70)
UNEVEN = (0.6, 0.7, 0.5, 0.7, 0.6, 0.55, 0.65)


def plugs(name: str, values: Sequence[float], dates: Sequence[date] = DATES) -> list[Core]:
    """One plug of a spot a date, of a single reading by a ruler of 1/16 in."""
    return [
        core(on, value, id=f"{name}{on}", spot=name, resolution_in=0.0625)
        for on, value in zip(dates, values, strict=False)
    ]


def plan_of(*spots: tuple[str, Sequence[Core]], comparison: tuple[str, ...] = ()) -> Plan:
    """The plan of a zone with these spots."""
    return make_plan(
        yard(
            spots=[
                spot(id=n, name=n, rank=i, comparison=n in comparison)
                for i, (n, _) in enumerate(spots)
            ],
            cores=[each for _, cores in spots for each in cores],
        ),
        NOW,
    )


def spot_shown(cores: Sequence[Core]) -> Evidence:
    """The evidence of one spot's plugs."""
    evidence = plan_of(("s1", cores)).thatch[0].evidence
    assert evidence is not None
    return evidence


def zone_shown(plan: Plan) -> Evidence:
    """The evidence of a plan's one zone."""
    (only,) = plan.zone_thatch
    return only.evidence


def test_a_verdict_names_slope_interval_and_plugs() -> None:
    shown = spot_shown(plugs("s1", THINNING))
    assert shown.slope_in_per_year is not None
    assert shown.ci95 is not None
    low, high = shown.ci95
    assert shown.verdict == (
        f"Thinning: {-shown.slope_in_per_year:.2f} in a year (95\u00a0%: {-high:.2f} to "
        f"{-low:.2f}). From 7 plugs."
    )
    assert (shown.reason, shown.spots, shown.plugs) == ("", 1, 7)
    assert [point.date for point in shown.points] == list(DATES)
    assert spot_shown(plugs("s1", UNEVEN)).verdict.startswith("No change that these plugs can show")
    assert spot_shown(plugs("s1", THINNING[::-1])).verdict.startswith("Thickening")


@pytest.mark.parametrize("count", range(5))
def test_under_five_plugs_there_is_no_interval_band_or_day(count: int) -> None:
    shown = spot_shown(plugs("s1", THINNING[:count]))
    assert shown.verdict == f"Cannot say yet: {shown.reason}."
    assert (shown.ci95, shown.band, shown.half_inch) == (None, (), None)
    assert shown.half_inch_words == f"Cannot say yet when half an inch is reached: {shown.reason}."
    assert ("no plug" in shown.reason) is (count == 0)


def test_the_band_holds_the_line_and_runs_from_first_to_last_plug() -> None:
    shown = spot_shown(plugs("s1", THINNING))
    (start, start_in), (end, end_in) = shown.line
    assert (start, end) == (DATES[0], DATES[-1]) == (shown.band[0][0], shown.band[-1][0])
    for on, low, high in shown.band:
        share = (on - start) / (end - start)
        assert low <= start_in + share * (end_in - start_in) <= high


def test_replicates_of_a_day_are_pooled_and_make_the_error() -> None:
    """Against the textbook's one-way analysis: equal plugs of one reading, between plugs only."""
    offs = (0.06, -0.02, 0.05, 0.03, -0.04, 0.01, 0.02)
    twice = [
        core(on, value + sign * off, id=f"{on}{sign}", resolution_in=0.001)
        for on, value, off in zip(DATES, THINNING, offs, strict=True)
        for sign in (-1, 1)
    ]
    shown = spot_shown(twice)
    assert [point.plugs for point in shown.points] == [2] * 7
    assert [point.thatch_in for point in shown.points] == pytest.approx(list(THINNING))
    assert shown.plugs_a_date == 2
    assert shown.error is not None
    assert shown.error.replicates == 7
    pooled = statistics.fmean((2 * off) ** 2 / 2 for off in offs) ** 0.5
    assert shown.error.plug_in == pytest.approx(pooled, rel=1e-3)


def test_the_smallest_change_is_that_of_the_scatter_about_the_line() -> None:
    """Its power is 80 % at 5 %, by scipy's noncentral t and least squares."""
    shown = spot_shown(plugs("s1", UNEVEN))
    stats = importlib.import_module("scipy.stats")
    years = [(on - DATES[0]).days / 365.25 for on in DATES]
    fit = stats.linregress(years, UNEVEN)
    off = [v - fit.intercept - fit.slope * y for v, y in zip(UNEVEN, years, strict=True)]
    sd = (sum(each**2 for each in off) / 5) ** 0.5
    assert shown.detectable_in is not None
    shift, beyond = shown.detectable_in / (sd * 2**0.5), stats.t.ppf(0.975, 5)
    power = stats.nct.sf(beyond, 5, shift) + stats.nct.cdf(-beyond, 5, shift)
    assert power == pytest.approx(0.8, abs=1e-6)
    needed = shown.plugs_a_date + (shown.more_for_tenth or 0)
    assert shown.detectable_in / needed**0.5 <= 0.1 < shown.detectable_in / (needed - 1) ** 0.5


def test_plugs_on_one_line_are_not_better_than_their_ruler() -> None:
    shown = spot_shown(plugs("s1", [1.0 - 0.0625 * n for n in range(7)]))
    assert shown.error is not None
    assert shown.error.plug_in == pytest.approx(0.0625 / 12**0.5)
    assert shown.detectable_in is not None
    assert shown.detectable_in > shown.error.plug_in


def test_without_spare_plugs_or_replicates_no_smallest_change_is_told() -> None:
    shown = spot_shown(plugs("s1", THINNING[:2]))
    assert (shown.detectable_in, shown.more_for_tenth) == (None, None)
    pair = [*plugs("s1", THINNING[:1]), core(DATES[0], 1.0, id="again")]
    assert spot_shown(pair).detectable_in is not None


def test_a_zone_is_the_mean_of_its_spots_without_the_comparison() -> None:
    spots = [
        (name, plugs(name, [v - less for v in THINNING]))
        for name, less in (("a", 0.0), ("b", 0.05), ("c", 0.1))
    ]
    plan = plan_of(*spots, ("strip", plugs("strip", UNEVEN)), comparison=("strip",))
    shown = zone_shown(plan)
    assert (shown.kind, shown.place, shown.spots, shown.plugs) == ("zone", "Front", 3, 21)
    assert shown.plugs_a_date == 3
    assert shown.verdict.endswith("From 21 plugs of 3 spots.")
    assert any("comparison, left out of this mean: strip" in note for note in shown.notes)
    assert {point.spot_id for point in shown.points} == {"a", "b", "c"}
    assert plan.yard_thatch is not None
    assert plan.yard_thatch.evidence.slope_in_per_year == shown.slope_in_per_year
    assert plan.thatch[3].evidence is not None
    assert plan.thatch[3].evidence.plugs == 7
    assert [column.of_spots for column in plan.zone_thatch[0].columns] == [3] * 7


def test_a_zone_of_comparison_spots_only_says_so() -> None:
    plan = plan_of(("strip", plugs("strip", UNEVEN)), comparison=("strip",))
    shown = zone_shown(plan)
    assert "every spot here is an untreated comparison" in shown.verdict
    assert (shown.plugs, shown.points) == (0, ())


def test_notes_say_what_the_mean_stands_for() -> None:
    one = zone_shown(plan_of(("a", plugs("a", THINNING))))
    assert any(note.startswith("One spot only, a:") for note in one.notes)
    late = plugs("b", THINNING[:5], DATES[2:])
    two = zone_shown(plan_of(("a", plugs("a", THINNING)), ("b", late)))
    assert any("these two spots only, a and b" in note for note in two.notes)
    assert any(note.startswith("Begun later: b (8 Apr 2024)") for note in two.notes)
    single = zone_shown(plan_of(("a", plugs("a", THINNING)), ("b", late[:1])))
    assert any("for want of a second date: b." in note for note in single.notes)


def test_plugs_of_a_few_days_are_no_trend() -> None:
    """At the spot it is said how near they lie; in the zone that the spot is not in the mean."""
    near = [date(2025, 10, 3) + timedelta(days=n) for n in range(3)]
    shown = spot_shown(plugs("s1", (0.5, 0.9, 1.1), near))
    assert shown.slope_in_per_year is None
    assert not shown.line
    assert "lie within 2 days so far" in shown.verdict
    assert "60 days apart" in shown.reason
    book = plan_of(("a", plugs("a", THINNING)), ("b", plugs("b", (0.5, 0.9, 1.1), near)))
    mean = zone_shown(book)
    alone = zone_shown(plan_of(("a", plugs("a", THINNING))))
    assert mean.slope_in_per_year == alone.slope_in_per_year
    assert "Not in the trend yet, for want of plugs 60 days apart: b." in mean.notes


@pytest.mark.parametrize(("spots", "apart", "told"), [(4, 0, False), (5, 0, True), (5, 1, False)])
def test_errors_that_a_day_shares_are_told_of_many_spots(
    spots: int, apart: int, told: bool
) -> None:
    """Not where every spot was plugged on days of its own."""
    shown = zone_shown(
        plan_of(
            *(
                (name, plugs(name, THINNING, [on + timedelta(days=n * apart) for on in DATES]))
                for n, name in enumerate("abcdef"[:spots])
            )
        )
    )
    assert any("may err together" in note for note in shown.notes) == told


def test_pressed_and_unpressed_never_share_a_mean() -> None:
    pressed = [
        core(on, 0.1, id=f"p{on}", spot="b", pressed=True, resolution_in=0.05) for on in DATES
    ]
    shown = zone_shown(plan_of(("a", plugs("a", THINNING)), ("b", pressed)))
    assert (shown.spots, shown.plugs) == (1, 7)
    assert any(note.startswith("7 plugs were read pressed") for note in shown.notes)
    alone = zone_shown(plan_of(("b", pressed)))
    assert alone.plugs == 7
    assert any("pressed ones only" in note for note in alone.notes)


def test_an_assumed_ruler_and_wet_or_dry_thatch_are_told() -> None:
    told = plugs("s1", THINNING)
    assert spot_shown(told).notes == ()
    blank = [
        core(on, 1.0, thatch_moisture=state)
        for on, state in zip(DATES, ("wet", "dry", "moist"), strict=False)
    ]
    notes = " ".join(spot_shown(blank).notes)
    assert "1/16 in is assumed" in notes
    assert "thatch wet, some with it dry" in notes


def test_the_season_is_named_where_plugs_fall_in_both() -> None:
    """Spring plugs thicker by a step, on a straight trend: the step comes back."""
    years = [(on - DATES[0]).days / 365.25 for on in DATES]
    values = [
        1.0 - 0.1 * y + (0.2 if on.month < 7 else 0.0) for y, on in zip(years, DATES, strict=True)
    ]
    shown = spot_shown(plugs("s1", values))
    assert shown.season is not None
    assert shown.season.spring_minus_autumn_in == pytest.approx(0.2)
    assert "0.20 in thicker than autumn plugs" in shown.season.words
    springs = [date(2020 + n, 5, 1) for n in range(6)]
    assert spot_shown(plugs("s1", values, springs)).season is None
    south = yard(spots=[spot()], cores=plugs("s1", values), latitude_deg=-35.0)
    turned = make_plan(south, NOW).thatch[0].evidence
    assert turned is not None
    assert turned.season is not None
    assert turned.season.spring_minus_autumn_in == pytest.approx(-0.2)


def test_a_yard_without_spots_has_no_evidence() -> None:
    plan = make_plan(yard(), NOW)
    assert (plan.thatch, plan.zone_thatch, plan.yard_thatch) == ((), (), None)
    empty = make_plan(yard(spots=[spot()]), NOW)
    assert empty.yard_thatch is not None
    assert empty.yard_thatch.evidence.verdict.startswith("Cannot say yet: no plug")


def test_spots_outside_every_zone_count_in_the_yard() -> None:
    lane = spot(zone=None, at_ft=(900.0, 900.0))
    plan = make_plan(yard(zone(), spots=[lane], cores=plugs("s1", THINNING)), NOW)
    assert plan.zone_thatch == ()
    assert plan.yard_thatch is not None
    assert plan.yard_thatch.evidence.plugs == 7


@pytest.mark.parametrize(
    ("interval", "words"),
    [
        ((-0.10, 0.02), "−0.10 to +0.02"),
        ((-0.08, -0.004), "−0.08 to −0.004"),
        ((0.0004, 0.1), "+0.0004 to +0.10"),
        ((-0.0006, 0.0006), "0.00 to 0.00"),
    ],
)
def test_an_end_of_an_interval_keeps_the_side_of_zero_it_lies_on(
    interval: tuple[float, float], words: str
) -> None:
    assert signed_interval(interval) == words


@settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_evidence_of_any_notebook_agrees_with_itself(book: Notebook, on: date) -> None:
    plan = make_plan(book, on)
    means = [each.evidence for each in plan.zone_thatch]
    for shown in (*means, *(each.evidence for each in plan.thatch if each.evidence)):
        assert bool(shown.ci95) == (not shown.reason)
        assert shown.verdict.startswith("Cannot say yet") == (shown.ci95 is None)
        if shown.ci95 is not None and shown.slope_in_per_year is not None:
            assert shown.plugs >= 5
            assert shown.ci95[0] <= shown.slope_in_per_year <= shown.ci95[1]
        if shown.half_inch is not None:
            assert max(on, shown.half_inch[0]) <= shown.half_inch[1]
