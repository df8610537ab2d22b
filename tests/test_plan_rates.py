"""The precipitation rate: the best evidence there is, and when a catch test has grown stale."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given as drawing
from hypothesis import strategies as st

from lawnbook.plan.model import RateSource
from lawnbook.plan.rates import Rate, coverage_note
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.plan.workings import given
from lawnbook.yard.records import CatchTest, Head
from tests.plan_yards import steady, water, yard, zone


def cans(
    on: date, volumes_ml: Iterable[float] = (20.0,) * 8, psi: float | None = None
) -> CatchTest:
    """A test of ten minutes with cans of 16.6 sq in."""
    return CatchTest(
        id=f"t{on}",
        zone="z1",
        date=on,
        run_minutes=10,
        can_mouth_sqin=16.6,
        volumes_ml=tuple(volumes_ml),
        pressure_psi=psi,
    )


def head(flow_gpm: float | None = 2.0, changed_on: date | None = None, name: str = "h1") -> Head:
    """A head of the plain zone."""
    return Head(id=name, zone="z1", at_ft=(1.0, 1.0), flow_gpm=flow_gpm, changed_on=changed_on)


def test_the_best_evidence_is_taken() -> None:
    heads = [head(name="h1"), head(name="h2")]
    everything = zone(flow_gpm=8.0, precipitation_in_per_h=1.5)
    tested = water(yard(everything, heads=heads, catch_tests=[cans(date(2026, 5, 1))]))
    metered = water(yard(everything, heads=heads))
    headed = water(yard(zone(precipitation_in_per_h=1.5), heads=heads))
    typed = water(yard(zone(precipitation_in_per_h=1.5)))
    assert [z.rate_source for z in (tested, metered, headed, typed)] == [
        "catch test", "meter", "heads", "typed"
    ]  # fmt: skip
    # Irrigation Association: 3.66 × mean volume ÷ (run × can mouth).
    assert tested.precipitation_rate_in_per_h == pytest.approx(3.66 * 20 / 166, rel=1e-3)
    # 10 gpm on 1,000 sq ft is 0.9625 in/h (a public utility district's page).
    assert metered.precipitation_rate_in_per_h == pytest.approx(0.77)
    assert headed.precipitation_rate_in_per_h == pytest.approx(0.385)
    assert typed.precipitation_rate_in_per_h == 1.5


def test_depths_give_the_rate_without_a_can_mouth() -> None:
    test = CatchTest(
        id="t", zone="z1", date=date(2026, 5, 1), run_minutes=15, depths_in=(0.2, 0.3, 0.25, 0.25)
    )
    figures = water(yard(catch_tests=[test]))
    assert figures.precipitation_rate_in_per_h == pytest.approx(1.0)
    assert figures.du_lq == pytest.approx(0.8)
    assert figures.multiplier == pytest.approx(1 / 0.88)


def test_the_newest_test_up_to_the_day_counts() -> None:
    tests = [
        cans(date(2025, 5, 1), (10.0,) * 4),
        cans(date(2026, 5, 1), (20.0,) * 4),
        cans(date(2026, 6, 16), (90.0,) * 4),
    ]
    rate = water(yard(catch_tests=tests)).precipitation_rate_in_per_h
    assert rate == pytest.approx(3.66 * 20 / 166, rel=1e-3)


def test_a_test_that_caught_nothing_gives_way() -> None:
    tests = [cans(date(2025, 5, 1)), cans(date(2026, 5, 1), (0.0, 0.0))]
    figures = water(yard(catch_tests=tests))
    assert figures.precipitation_rate_in_per_h == pytest.approx(3.66 * 20 / 166, rel=1e-3)


def test_one_can_gives_a_rate_and_no_evenness() -> None:
    figures = water(yard(catch_tests=[cans(date(2026, 5, 1), (20.0,))]))
    assert figures.rate_source == "catch test"
    assert figures.du_lq is None
    assert figures.multiplier == pytest.approx(1 / (0.4 + 0.6 * 0.65))


@pytest.mark.parametrize(
    ("changed_on", "stale"),
    [
        (date(2026, 4, 30), False),
        (date(2026, 5, 1), False),
        (date(2026, 5, 2), True),
        (None, False),
    ],
)
def test_a_test_older_than_a_change_of_heads_is_stale(changed_on: date | None, stale: bool) -> None:
    book = yard(catch_tests=[cans(date(2026, 5, 1))], heads=[head(changed_on=changed_on)])
    figures = water(book)
    assert figures.rate_stale is stale
    assert figures.rate_source == "catch test"
    assert any("older than a change of heads" in note for note in figures.notes) is stale


def test_a_head_changed_after_the_day_of_the_plan_is_not_known_then() -> None:
    changed = date(2026, 8, 1)
    book = yard(catch_tests=[cans(date(2026, 5, 1))], heads=[head(changed_on=changed)])
    assert not water(book).rate_stale
    assert water(book, changed).rate_stale


@pytest.mark.parametrize(("psi", "stale"), [(44.0, False), (55.0, True)])
def test_a_test_older_than_a_change_of_pressure_is_stale(psi: float, stale: bool) -> None:
    side = zone(id="z2", name="Side")
    tests = [
        cans(date(2026, 4, 1), psi=45.0),
        CatchTest(
            id="before", zone="z2", date=date(2026, 3, 1), run_minutes=9,
            depths_in=(0.2, 0.2), pressure_psi=43.0,
        ),
        CatchTest(
            id="after", zone="z2", date=date(2026, 5, 1), run_minutes=9,
            depths_in=(0.2, 0.2), pressure_psi=psi,
        ),
    ]  # fmt: skip
    assert water(yard(zone(), side, catch_tests=tests)).rate_stale is stale


def test_heads_count_only_when_every_flow_is_known() -> None:
    heads = [head(), head(None, name="h2")]
    figures = water(yard(heads=heads))
    assert figures.precipitation_rate_in_per_h is None
    assert "1 of 2 heads has no flow" in figures.reason
    assert water(yard(zone(precipitation_in_per_h=1.0), heads=heads)).rate_source == "typed"


@pytest.mark.parametrize("rate", [0.001, 31.0])
def test_a_rate_no_sprinkler_has_is_not_used(rate: float) -> None:
    figures = water(yard(zone(precipitation_in_per_h=rate)))
    assert figures.precipitation_rate_in_per_h is None
    assert "check its figures" in figures.reason


@pytest.mark.parametrize(
    ("changed_on", "stale"),
    [
        (None, False),
        (date(2026, 5, 1), False),
        (date(2026, 5, 2), True),
        (date(2026, 6, 15), True),
        (date(2026, 6, 16), False),
    ],
)
def test_a_test_older_than_the_change_of_pressure_typed_in_is_stale(
    changed_on: date | None, stale: bool
) -> None:
    """A change after the day of the plan, 15 June, is not known then."""
    book = yard(catch_tests=[cans(date(2026, 5, 1))])
    book = replace(book, yard=replace(book.yard, pressure_changed_on=changed_on))
    figures = water(book)
    assert figures.rate_stale is stale
    told = [note for note in figures.notes if "older than the change of pressure" in note]
    assert bool(told) is stale
    assert all("1 May 2026" in note and "set out the cans again" in note for note in told)


def test_a_new_test_after_the_change_of_pressure_is_not_stale() -> None:
    book = yard(catch_tests=[cans(date(2026, 5, 1)), cans(date(2026, 6, 1))])
    book = replace(book, yard=replace(book.yard, pressure_changed_on=date(2026, 5, 20)))
    assert not water(book).rate_stale


@pytest.mark.parametrize(
    ("values", "heads", "places"),
    [
        ({"hose_places": 4}, [2.0], 4),
        ({"hose_places": 4}, [2.0, 2.0, 2.0, 2.0], 4),
        ({"hose_places": 2, "flow_gpm": 2.0}, [], 2),
        ({"hose_places": None}, [2.0], 1),
        ({"sprinklers": "in-ground", "hose_places": 4}, [2.0], 1),
    ],
)
def test_a_hose_sprinkler_waters_one_place_at_a_time(
    values: dict[str, Any], heads: list[float], places: int
) -> None:
    """2 gpm on each place's share of 1,000 sq ft: 96.25 × 2 ÷ (1,000 ÷ places)."""
    moved = zone(**{"sprinklers": "hose", **values})
    drawn = [head(flow, name=f"h{i}") for i, flow in enumerate(heads)]
    figures = water(yard(moved, heads=drawn))
    assert figures.precipitation_rate_in_per_h == pytest.approx(96.25 * 2 * places / 1000)
    (working,) = [w for w in figures.workings if w.figure == "precipitation_rate_in_per_h"]
    assert ("places" in working.formula) is (places > 1)


def mapped(mean_in_per_h: float, **values: Any) -> ZoneCoverage:
    """A zone's coverage by the map, two heads of which a fifth is wasted."""
    figures: dict[str, Any] = {
        "heads": 2, "neighbours": 0, "without_flow": 0, "mean_in_per_h": mean_in_per_h,
        "du_lq": 0.583, "du_lh": 0.7, "cu": 0.7, "wasted_share": 0.2, "dry_share": 0.1,
        "wet_share": 0.1, "driest_at_ft": (0.0, 0.0), "wettest_at_ft": (1.0, 1.0),
    }  # fmt: skip
    return ZoneCoverage(**{**figures, **values})


def rate(source: RateSource = "heads", du_lq: float | None = 0.7) -> Rate:
    """A rate of 0.5 in/h."""
    return Rate(in_per_h=0.5, source=source, du_lq=du_lq, du_input=given("DU_LQ", "", ""))


def test_what_misses_the_zone_is_told_with_the_minutes_it_costs() -> None:
    note = coverage_note(rate(), mapped(0.4))
    assert note == (
        "By the map 80\u00a0% of the heads' water falls on the zone, 0.40 in/h in place of 0.50: "
        "minutes would have to grow by 25\u00a0%."
    )
    more = coverage_note(rate(), mapped(0.625))
    assert "neighbours' heads add to the zone, 0.62 in/h in place of 0.50" in more
    assert "20\u00a0% fewer" in more


def test_the_map_is_silent_where_it_adds_nothing() -> None:
    """Near the heads' rate, beside another source, without a map, or with a head missing in it."""
    assert coverage_note(rate(), mapped(0.48)) == ""
    assert coverage_note(rate("meter"), mapped(0.4)) == ""
    assert coverage_note(rate(du_lq=None), None) == ""
    assert coverage_note(rate(du_lq=None), mapped(0.4, without_flow=1)) == ""
    assert coverage_note(rate(du_lq=None), mapped(0.0)) == ""


def test_evenness_by_the_map_stands_beside_the_assumed() -> None:
    note = coverage_note(rate("typed", None), mapped(0.5, assumed_profiles=2))
    assert note == (
        "By the map evenness (DU) is 0.58 (2 heads taken to throw a cone), where 0.65 is assumed: "
        "set out cans to know it."
    )
    both = coverage_note(rate(du_lq=None), mapped(0.4))
    assert both.count("By the map") == 2
    assert "cone" not in both


@drawing(st.floats(0.2, 3.0), st.floats(1.0, 4.0))
def test_a_higher_rate_never_lengthens_the_run(in_per_h: float, times: float) -> None:
    def run(typed: float) -> float:
        found = water(yard(zone(precipitation_in_per_h=typed), climate=steady(0.2))).run_minutes
        assert found is not None
        return found

    assert run(in_per_h * times) <= run(in_per_h) + 1e-9
