"""What changed when, and treated against untreated: figures, words, and what is never claimed."""

from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.plug_model import Place, SlopeChange, StripComparison
from lawnbook.plan.slope_changes import (
    NO_STRIP,
    NOTHING_BEYOND_CHANCE,
    SEE_STRIP,
    change_at,
)
from lawnbook.plan.strip_comparison import against_strip
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care, Core, Spot
from tests.plan_yards import core, spot, yard, zone
from tests.strategies import notebooks
from tests.test_plan_workings import assert_comes_out

NOW = date(2026, 6, 15)
DATES = tuple(date(2021, 4, 10) + timedelta(days=182 * n) for n in range(10))
SPLIT = DATES[5]
YARD = Place("yard", "")
NOISE = (0.01, -0.012, 0.004, -0.008, 0.011, -0.004, 0.009, -0.011, 0.006, -0.005)
BACK = ((0.0, 50.0), (9.0, 50.0), (9.0, 70.0))


def plugs(name: str, values: Sequence[float]) -> list[Core]:
    """One plug of a spot a date."""
    return [core(on, v, id=f"{name}{on}", spot=name) for on, v in zip(DATES, values, strict=False)]


def steady(slope: float, *, after: float | None = None, level: float = 1.0) -> list[float]:
    """Thatch by date at a slope a year, another from the split on, with a little noise."""
    values = []
    for on, off in zip(DATES, NOISE, strict=True):
        early = (min(on, SPLIT) - DATES[0]).days / 365.25
        late = max(0.0, (on - SPLIT).days / 365.25)
        values.append(level + slope * early + (slope if after is None else after) * late + off)
    return values


def book(
    treated: dict[str, list[float]],
    untreated: dict[str, list[float]] | None = None,
    care: Sequence[Care] = (),
    strip_zone: str = "z1",
) -> Notebook:
    """Treated spots in the front zone, comparison spots in this or another, and care."""
    strip = untreated or {}
    spots: list[Spot] = [spot(id=name, name=name) for name in treated]
    spots += [spot(id=name, name=name, zone=strip_zone, comparison=True) for name in strip]
    cores = [each for name, values in {**treated, **strip}.items() for each in plugs(name, values)]
    return yard(
        zone(), zone(id="z2", name="Back", outline_ft=BACK), spots=spots, cores=cores, care=care
    )


def changed(notebook: Notebook, place: Place = YARD) -> SlopeChange:
    """Before and after the split."""
    return change_at(notebook, NOW, place, SPLIT)


def compared(notebook: Notebook, place: Place = YARD) -> StripComparison:
    """Treated against untreated; there must be a strip."""
    found = against_strip(notebook, NOW, place)
    assert found is not None
    return found


def test_a_turn_of_the_trend_is_found_and_told_with_both_slopes() -> None:
    change = changed(book({"a": steady(0.05, after=-0.25), "b": steady(0.05, after=-0.25)}))
    assert (change.plugs_before, change.plugs_after) == (10, 10)
    assert change.before_in_per_year == pytest.approx(0.05, abs=0.02)
    assert change.after_in_per_year == pytest.approx(-0.25, abs=0.02)
    assert change.difference_in_per_year == pytest.approx(-0.30, abs=0.03)
    assert change.difference_ci95 is not None
    assert change.difference_ci95[1] < 0
    assert change.words.startswith("The trend differs before and after")
    assert change.working is not None
    assert_comes_out(change.working)


def test_the_same_slope_all_along_is_no_change() -> None:
    change = changed(book({"a": steady(-0.1)}), Place("spot", "a"))
    assert change.difference_ci95 is not None
    assert change.difference_ci95[0] < 0 < change.difference_ci95[1]
    assert change.words.startswith("No change of the trend")


@pytest.mark.parametrize("count", [0, 1, 6, 9])
def test_too_few_plugs_on_a_side_say_so_and_give_no_interval(count: int) -> None:
    change = changed(book({"a": steady(-0.1)[:count]}), Place("zone", "z1"))
    assert change.difference_ci95 is None
    assert change.words.startswith("Cannot say yet")
    assert (change.difference_in_per_year is None) is (count < 7)
    assert change.plugs_before + change.plugs_after == count


FEW = "One or two spots speak for their own places, not for all turf that is kept like them."


def test_one_lawn_without_a_strip_is_said_not_to_be_proof() -> None:
    assert changed(book({"a": steady(0.1, after=-0.3)})).proof.startswith(NO_STRIP)
    with_strip = book({"a": steady(0.1, after=-0.3)}, {"strip": steady(0.1)})
    assert changed(with_strip).proof.startswith(SEE_STRIP)
    assert "Dated for" not in changed(with_strip).proof


def test_care_that_the_strip_had_as_well_is_named() -> None:
    care = [Care(id="c", date=SPLIT, kind="aeration", zones=("z1",))]
    both = book({"a": steady(0.1, after=-0.3)}, {"strip": steady(0.1)}, care)
    assert "Dated for the zone of strip too: aeration (" in changed(both).proof
    assert any("cannot be told apart" in note for note in compared(both).notes)
    apart = book({"a": steady(0.1, after=-0.3)}, {"strip": steady(0.1)}, care, "z2")
    assert "Dated for" not in changed(apart).proof
    assert compared(apart).notes == (
        "In another zone: strip. The places may differ by more than what was done.",
        f"Treated: a; untreated: strip. {FEW}",
    )


def test_treated_spots_against_the_untreated() -> None:
    strip = compared(book({"a": steady(-0.2), "b": steady(-0.22)}, {"strip": steady(0.05)}))
    assert (strip.treated, strip.untreated) == (("a", "b"), ("strip",))
    assert strip.difference_in_per_year == pytest.approx(-0.26, abs=0.03)
    assert strip.ci95 is not None
    assert strip.ci95[1] < 0
    value, (low, high) = -(strip.difference_in_per_year or 0.0), strip.ci95
    assert strip.words.startswith(
        f"Treated spots grew thinner against the untreated, by {value:.2f} in a year "
        f"(95\u00a0%: {-high:.2f} to {-low:.2f}): treated −0."
    )
    assert "places themselves" in strip.proof
    assert strip.notes == (f"Treated: a and b; untreated: strip. {FEW}",)
    assert strip.working is not None
    assert_comes_out(strip.working)


def test_only_a_side_of_one_or_two_spots_stands_for_those_alone() -> None:
    many = {name: steady(-0.2 - 0.01 * n) for n, name in enumerate("abc")}
    assert compared(book(many, {"strip": steady(0.05)})).notes == (f"Untreated: strip. {FEW}",)
    strips = {name: steady(0.01 * n) for n, name in enumerate("xyz")}
    assert compared(book(many, strips)).notes == ()


def test_no_difference_shows_nothing_for_or_against() -> None:
    strip = compared(book({"a": steady(-0.1)}, {"strip": steady(-0.1, level=0.8)}))
    assert strip.words.startswith("No difference that these plugs can show")
    assert strip.proof == NOTHING_BEYOND_CHANCE


def test_without_a_comparison_spot_there_is_no_comparison() -> None:
    assert against_strip(book({"a": steady(-0.1)}), NOW, YARD) is None


def test_a_strip_with_few_plugs_or_none_cannot_say_yet() -> None:
    few = compared(book({"a": steady(-0.1)}, {"strip": steady(0.0)[:4]}))
    assert few.words.startswith("Cannot say yet: treated −0.1")
    assert few.ci95 is None
    assert any(note.startswith("Not of the same time") for note in few.notes)
    none = compared(book({"a": steady(-0.1)}, {"strip": []}))
    assert none.words.startswith("Cannot say yet: 10 plugs of treated spots, 0 of the untreated")
    assert none.difference_in_per_year is None


def test_which_spots_are_set_against_each_other() -> None:
    front = book({"a": steady(-0.1)}, {"strip": steady(0.0)}, strip_zone="z2")
    at_strip = compared(front, Place("spot", "strip"))
    assert (at_strip.treated, at_strip.untreated) == (("a",), ("strip",))
    strip_zone = compared(front, Place("zone", "z2"))
    assert (strip_zone.treated, strip_zone.untreated) == (("a",), ("strip",))
    at_spot = compared(front, Place("spot", "a"))
    assert (at_spot.treated, at_spot.untreated) == (("a",), ("strip",))


def test_pressed_plugs_are_never_set_against_unpressed() -> None:
    notebook = book({"a": steady(-0.1)}, {})
    pressed = [core(on, 0.2, id=f"p{on}", spot="strip", pressed=True) for on in DATES]
    strip = spot(id="strip", name="strip", comparison=True)
    both = yard(spots=[*notebook.spots.values(), strip], cores=[*notebook.cores.values(), *pressed])
    assert compared(both).difference_in_per_year is None


def test_only_what_is_known_on_the_day_counts() -> None:
    early = change_at(book({"a": steady(-0.1)}), DATES[3], YARD, SPLIT)
    assert (early.plugs_before, early.plugs_after) == (4, 0)


@settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2026, 1, 1)), st.dates())
def test_any_notebook_any_place_and_day_gives_words(
    notebook: Notebook, on: date, split: date
) -> None:
    places = [YARD, *(Place("zone", each) for each in notebook.zones)]
    for place in [*places, *(Place("spot", each) for each in notebook.spots)]:
        change = change_at(notebook, on, place, split)
        assert change.words
        assert change.proof
        strip = against_strip(notebook, on, place)
        assert (strip is None) is not any(s.comparison for s in notebook.spots.values())
        for working in (change.working, strip.working if strip else None):
            if working is not None:
                assert_comes_out(working)


def test_only_plugs_that_tell_a_slope_are_counted_where_no_interval_is_given() -> None:
    """Spots plugged on one side alone bring the sides to five plugs, and no slope."""
    values = steady(-0.1)
    cores = [
        *plugs("both", values)[3:7],
        *(each for name in ("early", "older") for each in plugs(name, values)[:4]),
        *(each for name in ("late", "later") for each in plugs(name, values)[6:]),
    ]
    names = ("both", "early", "older", "late", "later")
    change = changed(yard(spots=[spot(id=name, name=name) for name in names], cores=cores))
    assert (change.plugs_before, change.plugs_after, change.difference_ci95) == (2, 2, None)
    assert "2 plugs before" in change.words
    assert "2 from it on at spots with two dates on each side. An interval needs 5" in change.words


def test_plugs_enough_on_both_sides_without_one_to_spare_are_told_as_such() -> None:
    """Three spots of two dates a side: six plugs of many dates, and no scatter about a line."""
    names = ("a", "b", "c")
    dates = [DATES[i + n] for n in (0, 5) for i in (0, 1, 2, 3)]
    pairs = (dates[0], dates[1], dates[5], dates[6]), (dates[1], dates[2], dates[5], dates[7])
    cores = [
        core(on, 1.0, id=f"{name}{on}", spot=name)
        for name, days in zip(names, (*pairs, pairs[0]), strict=True)
        for on in days
    ]
    change = changed(yard(spots=[spot(id=name, name=name) for name in names], cores=cores))
    assert (change.plugs_before, change.plugs_after, change.difference_ci95) == (6, 6, None)
    assert change.words.endswith("and a spot with three dates on one of them.")
