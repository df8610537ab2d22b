"""Each zone's soil by its tests: figures, the next test, phosphate, and notes on the sample."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.plan.feed_model import SoilState
from lawnbook.plan.soil_state import soil_states
from lawnbook.plan.workings import OWN, sources
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Established, SoilTest, Zone
from tests.plan_yards import JUNE, core, rules, spot, yard, zone


def sample(on: date, **values: Any) -> SoilTest:
    """A laboratory's test of the plain zone, sampled as it should be."""
    plain = SoilTest(id=f"t{on}", date=on, zone="z1", depth_in=4.0, thatch="off")
    return replace(plain, **values)


def book(*tests: SoilTest, turf: Zone | None = None, **limits: Any) -> Notebook:
    """One zone, its tests, and the owner's limits."""
    notebook = yard(turf or zone(), soil_tests=tests)
    return replace(notebook, n_rules=rules(**limits)[0])


def state(*tests: SoilTest, on: date = JUNE, **limits: Any) -> SoilState:
    """The soil of the plain zone."""
    return soil_states(book(*tests, **limits), on)["z1"]


def test_without_a_test() -> None:
    found = state()
    assert (found.zone, found.zone_id, found.tested, found.due) == ("Front", "z1", None, JUNE)
    assert found.ph is found.om_pct is found.p_ppm is found.k_ppm is None
    assert not found.phosphate_allowed
    assert "waits for a soil test: none" in found.phosphate_words
    assert found.phosphate_source == sources("soil-test-age")
    assert found.notes == ()


def test_the_latest_test_up_to_the_day() -> None:
    old = sample(date(2024, 5, 1), ph=6.2, p_ppm=30.0)
    new = sample(date(2026, 5, 1), ph=6.6, om_pct=4.1, p_ppm=60.0, k_ppm=110.0)
    later = sample(date(2026, 9, 1), ph=5.0, p_ppm=5.0)
    found = state(later, new, old)
    assert (found.tested, found.due) == (date(2026, 5, 1), date(2029, 5, 1))
    assert (found.ph, found.om_pct, found.p_ppm, found.k_ppm) == (6.6, 4.1, 60.0, 110.0)
    assert state(later, new, old, on=date(2025, 1, 1)).p_ppm == 30.0


def test_leap_day() -> None:
    assert state(sample(date(2024, 2, 29))).due == date(2027, 3, 1)


@pytest.mark.parametrize(
    ("p_ppm", "allowed"), [(44.9, True), (44.96, True), (45.0, False), (80.0, False)]
)
def test_phosphate_below_the_published_figure(p_ppm: float, allowed: bool) -> None:
    found = state(sample(date(2026, 5, 1), p_ppm=p_ppm))
    assert found.phosphate_allowed is allowed
    assert f"{p_ppm:g} ppm phosphorus" in found.phosphate_words
    assert "45 ppm (Mehlich-3, Pennsylvania)" in found.phosphate_words
    assert found.phosphate_source == sources("psu-p")


def test_phosphate_below_the_owners_figure() -> None:
    test = sample(date(2026, 5, 1), p_ppm=30.0)
    assert state(test, p_enough_ppm=31.0).phosphate_allowed
    refused = state(test, p_enough_ppm=30.0)
    assert not refused.phosphate_allowed
    assert "the 30 ppm that you entered as enough" in refused.phosphate_words
    assert refused.phosphate_source == OWN


@pytest.mark.parametrize(("on", "allowed"), [(date(2026, 6, 15), True), (date(2026, 6, 16), False)])
def test_a_test_holds_three_years(on: date, allowed: bool) -> None:
    found = state(sample(date(2023, 6, 15), p_ppm=10.0), on=on)
    assert found.phosphate_allowed is allowed
    if not allowed:
        assert "held until 15 Jun 2026" in found.phosphate_words
        assert any("more than three years old" in note for note in found.notes)


def test_phosphorus_may_stand_in_an_earlier_test() -> None:
    full, brief = sample(date(2025, 5, 1), p_ppm=10.0), sample(date(2026, 5, 1), ph=6.5)
    found = state(full, brief)
    assert found.phosphate_allowed
    assert "1 May 2025" in found.phosphate_words
    assert (found.tested, found.p_ppm) == (date(2026, 5, 1), None)


def test_the_rule_switched_off() -> None:
    found = state(phosphorus_needs_test=False)
    assert found.phosphate_allowed
    assert "local law comes first" in found.phosphate_words
    assert found.phosphate_source == OWN


def test_new_turf_needs_no_test_and_local_law_decides() -> None:
    sown = zone(established=Established(date=date(2026, 6, 1), how="seed"))
    found = soil_states(book(turf=sown), JUNE)["z1"]
    assert found.phosphate_allowed
    assert "still rooting until 19 Jul 2026" in found.phosphate_words
    assert "Local law decides" in found.phosphate_words
    # Rooted by the calendar, by a plug, or not yet sown: a test is needed again.
    assert not soil_states(book(turf=sown), date(2026, 8, 1))["z1"].phosphate_allowed
    assert not soil_states(book(turf=sown), date(2026, 5, 1))["z1"].phosphate_allowed
    rooted = yard(sown, spots=[spot()], cores=[core(date(2026, 6, 12), 0.0, root_depth_in=4.0)])
    assert not soil_states(rooted, JUNE)["z1"].phosphate_allowed


def test_a_test_of_new_turf_is_told_beside_what_a_starter_may() -> None:
    sown = zone(established=Established(date=date(2026, 6, 1), how="seed"))
    for tested, p_ppm, told in (
        (date(2026, 4, 10), 60.0, "found 60 ppm phosphorus, not below"),
        (date(2026, 4, 10), 10.0, "found 10 ppm phosphorus, below"),
        (date(2020, 4, 10), 60.0, ""),
    ):
        found = soil_states(book(sample(tested, p_ppm=p_ppm), turf=sown), JUNE)["z1"]
        assert found.phosphate_allowed
        assert "needs no soil test here" in found.phosphate_words
        assert told in found.phosphate_words
        assert ("ppm" in found.phosphate_words) is bool(told)


def test_an_acid_soil_slows_the_decay_of_thatch() -> None:
    assert any("pH 5.8 is below 6" in note for note in state(sample(JUNE, ph=5.8)).notes)
    assert state(sample(JUNE, ph=6.0)).notes == ()


def test_depths_that_differ() -> None:
    first, second = sample(date(2023, 7, 1), depth_in=4.0), sample(JUNE, depth_in=6.0)
    (note,) = state(first, second).notes
    assert "Sampled to 6 in, to 4 in on 1 Jul 2023" in note
    assert state(first, sample(JUNE, depth_in=4.5)).notes == ()
    assert state(first, sample(JUNE)).notes == ()


def test_what_was_not_entered_of_the_sample() -> None:
    notes = state(sample(JUNE, depth_in=None, thatch=None)).notes
    assert any("How deep the sample was taken is not entered" in note for note in notes)
    assert any("Whether the thatch was taken off" in note for note in notes)
    (left_on,) = state(sample(JUNE, thatch="on")).notes
    assert "The thatch was left on the sample" in left_on


def test_each_zone_by_its_own_tests() -> None:
    other = zone(id="z2", name="Back")
    notebook = yard(zone(), other, soil_tests=[sample(date(2026, 5, 1), p_ppm=10.0)])
    states = soil_states(notebook, JUNE)
    assert list(states) == ["z1", "z2"]
    assert [each.phosphate_allowed for each in states.values()] == [True, False]


def test_nothing_else_is_advised() -> None:
    found = state(sample(JUNE, ph=5.0, om_pct=1.0, p_ppm=2.0, k_ppm=10.0))
    told = " ".join((found.phosphate_words, *found.notes)).lower()
    assert not any(word in told for word in ("lime", "sulfur", "potash", "compost"))
