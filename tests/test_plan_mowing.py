"""Mowing of a zone: how often at the day's growth, by when next, and why it cannot be told."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.plan.mowing import NO_HEIGHT, NO_MORE_GROWTH, mowing_of, stand_of
from lawnbook.plan.season_model import Mowing
from lawnbook.plan.zone_facts import setting_of
from lawnbook.yard.notebook import Notebook, apply, as_of, put
from lawnbook.yard.records import Care, ClimateMonth, Established, Season
from tests.plan_yards import JUNE, climate, yard, zone


def warmth(tmean_f: float) -> list[ClimateMonth]:
    """A climate of one temperature all the year; at 68 °F cool-season grass grows at its best."""
    return climate((0.1,) * 12, (tmean_f,) * 12)


def mown(on: date, *zones: str, kind: str = "mowing") -> Care:
    """A mowing on record."""
    return Care(id=f"m{on}{kind}", date=on, kind=kind, zones=zones)


def mowing(book: Notebook, on: date = JUNE) -> Mowing:
    """The mowing of a yard's first zone."""
    setting = setting_of(as_of(book, on), on)
    return mowing_of(setting, next(iter(setting.notebook.zones.values())))


def lawn(height_in: float | None = 3.0, tmean_f: float = 68.0, **tables: Any) -> Notebook:
    """A zone cut to a height in a climate of one temperature."""
    return yard(zone(mow_height_in=height_in), climate=warmth(tmean_f), **tables)


@pytest.mark.parametrize(("height_in", "days"), [(3.0, 7), (2.0, 4), (1.5, 3)])
def test_at_its_best_a_lawn_is_mown_as_nebraska_says(height_in: float, days: int) -> None:
    """University of Nebraska 2019: every 7, 4 or 3 days at 1.5 in a week."""
    last = JUNE - timedelta(days=1)
    found = mowing(lawn(height_in, care=[mown(last)]))
    assert found.growth_in_per_week == pytest.approx(1.5)
    assert (found.every_days, found.last, found.next) == (days, last, last + timedelta(days=days))
    assert found.reason == ""


def test_the_zones_own_growth_goes_before_the_usual_one() -> None:
    book = yard(zone(mow_height_in=3.0, peak_growth_in_per_week=0.75), climate=warmth(68.0))
    found = mowing(book)
    assert found.growth_in_per_week == pytest.approx(0.75)
    assert found.every_days == 14
    peak = found.workings[0].inputs[1]
    told = (peak.value, peak.origin, peak.is_default)
    assert told == ("0.75 in a week", "typed in the zone", False)
    assert mowing(lawn()).workings[0].inputs[1].is_default


def test_without_a_mowing_on_record_the_day_of_the_plan_stands_in() -> None:
    found = mowing(lawn())
    assert found.last is None
    assert found.next == JUNE + timedelta(days=7)
    assert "as if mown on the day" in found.workings[2].inputs[1].origin


@pytest.mark.parametrize("kind", ["mowing", "Mowed", " mown "])
def test_mowings_are_found_by_any_of_their_names(kind: str) -> None:
    assert mowing(lawn(care=[mown(JUNE, kind=kind)])).last == JUNE


def test_a_mowing_of_other_zones_does_not_count_and_one_of_the_yard_does() -> None:
    book = lawn(care=[mown(date(2026, 6, 10)), mown(date(2026, 6, 12), "z2")])
    assert mowing(book).last == date(2026, 6, 10)


@pytest.mark.parametrize(
    ("book", "told"),
    [
        (lawn(None), NO_HEIGHT),
        (lawn(tmean_f=40.0), "hardly grows: growth potential is 2"),
        (yard(zone(mow_height_in=3.0), climate=[]), "No temperatures are known yet"),
        (
            yard(
                zone(
                    mow_height_in=3.0,
                    established=Established(date=date(2026, 6, 1), how="seed"),
                )
            ),
            "New seed is mown for the first time when it stands at 4.5 in",
        ),
        (
            replace(lawn(), yard=replace(lawn().yard, drought="survival")),
            "Let go dormant: no mowing",
        ),
    ],
)
def test_nothing_is_reckoned_without_growth_height_or_warmth(book: Notebook, told: str) -> None:
    found = mowing(book)
    assert told in found.reason
    assert found.next is None
    assert found.every_days is None


def test_a_dormant_lawn_is_mown_again_outside_of_the_season() -> None:
    book = lawn()
    spring = Season(start="07-01", end="09-30")
    settings = replace(book.yard, drought="survival", irrigation_season=spring)
    assert mowing(replace(book, yard=settings)).next is not None


def test_a_mowing_long_ago_is_no_start_to_reckon_from() -> None:
    """Five weeks at 1.5 in would be 7.5 in of growth on 3 in: somebody mowed and wrote nothing."""
    found = mowing(lawn(care=[mown(JUNE - timedelta(days=35))]))
    assert found.next is None
    assert "too long ago to reckon from" in found.reason
    assert found.every_days == 7
    years_ago = mowing(lawn(care=[mown(date(2020, 6, 1))]))
    assert "1 Jun 2020" in years_ago.reason


def test_winter_counts_nothing_between_autumn_and_spring() -> None:
    """The climate has months below 46 °F, in which potential is under a tenth."""
    book = yard(zone(mow_height_in=3.0), care=[mown(date(2025, 11, 10))])
    found = mowing(book, date(2026, 4, 20))
    assert found.next is not None
    assert date(2026, 4, 20) <= found.next <= date(2026, 5, 20)


def test_how_high_the_grass_stands_is_told_only_after_a_mowing() -> None:
    book = lawn(care=[mown(JUNE - timedelta(days=14))])
    setting = setting_of(as_of(book, JUNE), JUNE)
    (front,) = setting.notebook.zones.values()
    stand = stand_of(setting, front, mowing_of(setting, front))
    assert stand is not None
    assert stand.stands_in == pytest.approx(6.0)
    bare = setting_of(lawn(), JUNE)
    assert stand_of(bare, front, mowing_of(bare, front)) is None


@given(
    st.floats(0.3, 6.0),
    st.integers(0, 300),
    st.dates(date(2024, 1, 1), date(2028, 12, 31)),
    st.sampled_from(("cool", "warm")),
    st.sampled_from((41.0, -33.0)),
)
def test_the_next_mowing_never_comes_before_the_last(
    height_in: float, ago: int, on: date, grass: str, latitude_deg: float
) -> None:
    last = on - timedelta(days=ago)
    front = zone(mow_height_in=height_in, grass=grass)
    found = mowing(yard(front, latitude_deg=latitude_deg, care=[mown(last)]), on)
    assert found.last == last
    assert (found.next is None) == bool(found.reason)
    if found.next is not None:
        assert found.next > last
        assert found.every_days is not None
        assert found.every_days >= 1
        assert {each.figure for each in found.workings} >= {"next_mowing", "every_days"}


def test_grass_that_never_grows_so_high_is_not_due() -> None:
    book = lawn(6.0, 50.0, care=[mown(date(2026, 6, 1))])
    slow = replace(next(iter(book.zones.values())), peak_growth_in_per_week=0.1)
    book = apply(book, put(book, "zones", slow))
    assert mowing(book).reason == NO_MORE_GROWTH
    assert not [each for each in make_plan(book, JUNE).tasks if each.kind == "mow"]
