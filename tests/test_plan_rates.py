"""The precipitation rate: the best evidence there is, and when a catch test has grown stale."""

from collections.abc import Iterable
from datetime import date

import pytest

from lawnbook.yard.records import CatchTest, Head
from tests.plan_yards import water, yard, zone


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
