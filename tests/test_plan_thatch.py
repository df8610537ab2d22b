"""Thatch by spot: columns, trend against scipy, and a verdict only when the plugs allow one."""

import importlib
import statistics
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import Core, Photo
from tests.plan_yards import core, spot, yard

NOW = date(2027, 6, 15)
DATES = tuple(date(2023, 9, 1) + timedelta(days=180 * n) for n in range(8))


def thatch(cores: Sequence[Core], on: date = NOW) -> SpotThatch:
    """What the plugs of the spot show."""
    return make_plan(yard(spots=[spot()], cores=cores), on).thatch[0]


def plugs(*thatch_in: float) -> list[Core]:
    """One plug of one reading every 180 days."""
    return [core(on, value) for on, value in zip(DATES, thatch_in, strict=False)]


def test_no_plug_says_so() -> None:
    figures = thatch([])
    assert figures.plugs == 0
    assert figures.latest_in is figures.first_in is figures.change_in is None
    assert figures.verdict.startswith("Cannot say yet: no plug")


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ((1.0,), "1 plug so far; 4 more dates are needed"),
        ((1.0, 0.9, 0.8), "plugs of 3 dates so far; 2 more dates are needed"),
        ((1.0, 0.9, 0.8, 0.7), "plugs of 4 dates so far; one more date is needed"),
    ],
)
def test_under_five_dates_there_is_no_verdict(values: tuple[float, ...], words: str) -> None:
    """The rank interval's true cover at 3 or 4 plugs is 67 % and 92 %: none is given."""
    figures = thatch(plugs(*values))
    assert words in figures.verdict
    assert figures.ci95 is None
    assert (figures.slope_in_per_year is None) is (len(values) < 3)
    assert (figures.line is None) is (len(values) < 3)
    assert figures.half_inch_between is None


def test_five_plugs_against_scipy() -> None:
    values = (1.15, 1.10, 1.00, 0.90, 0.70)
    figures = thatch(plugs(*values))
    years = [(on - DATES[0]).days / 365.25 for on in DATES[:5]]
    theirs = importlib.import_module("scipy.stats").theilslopes(values, years)
    assert figures.slope_in_per_year == pytest.approx(theirs.slope)
    assert figures.ci95 == pytest.approx((theirs.low_slope, theirs.high_slope))
    assert figures.verdict.startswith(f"Thinning: {-theirs.slope:.2f} in a year (95\u00a0%: ")
    assert figures.change_in == pytest.approx(-0.45)
    assert figures.line is not None
    (first, start_in), (last, end_in) = figures.line
    assert (first, last) == (DATES[0], DATES[4])
    assert (end_in - start_in) / years[-1] == pytest.approx(theirs.slope)
    # Its level is the Hodges-Lehmann centre: the median of the means of all pairs.
    left = [value - theirs.slope * year for value, year in zip(values, years, strict=True)]
    centre = statistics.median((a + b) / 2 for n, a in enumerate(left) for b in left[n:])
    assert start_in == pytest.approx(centre)


def test_the_verdict_speaks_plainly() -> None:
    assert thatch(plugs(0.4, 0.5, 0.6, 0.7, 0.8)).verdict.startswith("Thickening: 0.20 in a year")
    uneven = thatch(plugs(0.6, 0.7, 0.5, 0.7, 0.6))
    assert uneven.verdict.startswith("No change that these plugs can show (95\u00a0%: −")
    assert uneven.half_inch_between is None


def test_nothing_has_no_sign() -> None:
    flat = thatch(plugs(0.6, 0.6, 0.6, 0.6, 0.6)).verdict
    # Not "0.00 to 0.00": their ruler could hide a change of less than a mark.
    assert flat == "No change that these plugs can show (95\u00a0%: −0.04 to +0.04 in a year)."
    fine = [replace(each, resolution_in=0.001) for each in plugs(0.6, 0.6, 0.6, 0.6, 0.6)]
    assert "(95\u00a0%: 0.00 to 0.00 in a year)" in thatch(fine).verdict
    assert "−0.06 to +" in thatch(plugs(0.6, 0.57, 0.62, 0.6, 0.63)).verdict


STEADY = (1.25, 1.18, 1.10, 1.02, 0.95, 0.86, 0.79, 0.71)
"""Plugs so near to a line that the half inch can be told."""


def test_the_half_inch_lies_between_two_days() -> None:
    figures = thatch(plugs(*STEADY))
    assert figures.half_inch_between is not None
    assert figures.line is not None
    first, last = figures.half_inch_between
    assert NOW <= first < last
    # The line itself, drawn on, meets half an inch between the two.
    (start, start_in), (end, end_in) = figures.line
    met = start + (end - start) * (start_in - 0.5) / (start_in - end_in)
    assert first < met < last


def test_under_eight_plugs_of_one_spot_there_is_no_day_for_half_an_inch() -> None:
    """Simulated, crossings told from fewer held too seldom."""
    figures = thatch(plugs(*STEADY[:7]))
    assert figures.verdict.startswith("Thinning")
    assert figures.half_inch_between is None
    assert figures.evidence is not None
    assert figures.evidence.half_inch_words == (
        "Cannot say yet when half an inch is reached: a day needs at least 8 plugs at one spot, "
        "and there are 7."
    )


def test_the_days_of_half_an_inch_are_told_whole_while_they_may_lie_ahead() -> None:
    """Cut off at the day of the plan they would claim more than they hold."""
    at_once = thatch(plugs(*STEADY), DATES[7]).half_inch_between
    assert at_once is not None
    first, last = at_once
    assert DATES[7] < first
    between = thatch(plugs(*STEADY), first + (last - first) / 2)
    assert between.half_inch_between == at_once
    assert between.evidence is not None
    assert between.evidence.half_inch_words.endswith("; the trend may have met it already.")
    gone_by = thatch(plugs(*STEADY), last + timedelta(days=1))
    assert gone_by.half_inch_between is None
    assert gone_by.evidence is not None
    assert gone_by.evidence.half_inch_words == (
        "Cannot say yet when half an inch is reached: by the trend it has been, but the latest "
        "plug reads 0.71 in."
    )


@pytest.mark.parametrize("values", [(0.9, 0.8, 0.7, 0.6, 0.45), (0.2, 0.3, 0.4, 0.5, 0.6)])
def test_what_the_latest_plug_has_passed_does_not_lie_ahead(values: tuple[float, ...]) -> None:
    assert thatch(plugs(*values), DATES[4]).half_inch_between is None


def test_thickening_plugs_tell_when_half_an_inch_comes() -> None:
    ahead = thatch(
        plugs(0.20, 0.23, 0.25, 0.28, 0.30, 0.33, 0.35, 0.37), DATES[7]
    ).half_inch_between
    assert ahead is not None
    assert DATES[7] < ahead[0] < ahead[1]


def test_a_half_inch_beyond_a_lifetime_is_not_told() -> None:
    assert thatch(plugs(1.004, 1.003, 1.002, 1.001, 1.0)).half_inch_between is None


def test_pressed_and_unpressed_never_share_a_trend() -> None:
    mixed = [
        *plugs(1.0, 0.9, 0.8),
        core(date(2026, 1, 5), 0.1, id="p1", pressed=True),
        core(date(2026, 2, 5), 0.1, id="p2", pressed=True),
    ]
    figures = thatch(mixed)
    assert figures.plugs == 3
    assert figures.latest_in == 0.8
    assert [column.pressed for column in figures.columns] == [False, False, False, True, True]
    assert thatch(mixed[3:]).latest_in == pytest.approx(0.1)


def test_plugs_of_one_day_are_pooled_by_reading() -> None:
    twice = [core(DATES[0], 1.0, 1.2), core(DATES[0], 0.8, id="again"), *plugs(1.0, 0.9)[1:]]
    figures = thatch(twice)
    assert figures.first_in == pytest.approx(1.0)
    assert figures.slope_in_per_year is None
    assert len(figures.columns) == figures.plugs == 3


def test_a_plug_without_readings_is_a_column_only() -> None:
    figures = thatch([core(DATES[0], root_depth_in=4.0, sponge=2, note="dry")])
    assert figures.plugs == 0
    column = figures.columns[0]
    assert (column.thatch_in, column.spread_in, column.readings) == (None, None, 0)
    assert (column.root_depth_in, column.sponge, column.note) == (4.0, 2, "dry")


def test_a_column_tells_where_it_was_pulled_and_which_photographs_show_it() -> None:
    pulled = core(DATES[0], 0.5, clock=3, core_depth_in=4.0)
    picture = Picture.of(b"a picture")
    photos = [
        Photo(id=name, core=pulled.id, sha256=picture.sha256, data_b64=picture) for name in "ab"
    ]
    column = (
        make_plan(yard(spots=[spot()], cores=[pulled], photos=photos), NOW).thatch[0].columns[0]
    )
    assert (column.clock, column.core_depth_in, column.photo_ids) == (3, 4.0, ("a", "b"))


def test_a_column_tells_mean_and_spread() -> None:
    column = thatch([core(DATES[0], 0.625, 0.6875, 0.75)]).columns[0]
    assert column.thatch_in == pytest.approx(0.6875)
    assert column.spread_in == pytest.approx(0.0625)


def test_only_plugs_up_to_the_day_count_and_in_date_order() -> None:
    figures = thatch(plugs(1.0, 0.9, 0.8)[::-1], DATES[1])
    assert [column.date for column in figures.columns] == list(DATES[:2])
    assert figures.latest_in == 0.9


def test_a_spot_without_a_zone_takes_the_one_it_lies_in() -> None:
    inside, outside = spot(zone=None, at_ft=(5.0, 5.0)), spot(id="s2", zone=None, at_ft=(-9.0, 0.0))
    plan = make_plan(yard(spots=[inside, outside]), NOW)
    assert [each.zone for each in plan.thatch] == ["Front", ""]


@given(st.lists(st.floats(0, 3), min_size=5, max_size=9))
def test_the_interval_holds_the_slope_and_agrees_with_the_verdict(values: list[float]) -> None:
    dates = [date(2020, 4, 1) + timedelta(days=183 * n) for n in range(len(values))]
    figures = thatch([core(on, value) for on, value in zip(dates, values, strict=True)])
    assert figures.ci95 is not None
    assert figures.slope_in_per_year is not None
    low, high = figures.ci95
    assert low <= figures.slope_in_per_year <= high
    word = "Thinning" if high < 0 else "Thickening" if low > 0 else "No change"
    assert figures.verdict.startswith(word)
