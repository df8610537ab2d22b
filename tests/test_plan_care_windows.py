"""The weeks for aeration and overseeding in a yard: by grass, hemisphere, label and new turf."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.care_windows import (
    care_windows,
    last_care,
    why_no_windows,
    windows_between,
)
from lawnbook.plan.season_model import CareWindow
from lawnbook.plan.window_workings import AERATION, OVERSEEDING
from lawnbook.plan.zone_facts import Setting, setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Care, Established
from tests.plan_yards import JUNE, TMEAN_F, climate, yard, zone

WARM_F = (46.0, 50.0, 57.0, 65.0, 73.0, 80.0, 84.0, 83.0, 77.0, 66.0, 56.0, 48.0)
SOUTH_F = (*TMEAN_F[6:], *TMEAN_F[:6])


def setting(book: Notebook, on: date = JUNE) -> Setting:
    """What the windows of a yard rest on."""
    return setting_of(as_of(book, on), on)


def of_kind(book: Notebook, kind: str, year: int = 2026, on: date = JUNE) -> list[CareWindow]:
    """The windows of a kind in a year."""
    return [each for each in care_windows(setting(book, on), year) if each.kind == kind]


def test_cool_season_turf_has_two_windows_for_coring_and_one_for_seed() -> None:
    spring, autumn = of_kind(yard(), AERATION)
    (sowing,) = of_kind(yard(), OVERSEEDING)
    assert spring.ends <= date(2026, 6, 15)
    assert autumn.starts >= date(2026, 8, 15)
    assert sowing.starts == autumn.starts
    assert sowing.ends < autumn.ends
    assert "late summer suits it better" in spring.why
    assert (autumn.zone_ids, autumn.zones) == (("z1",), ("Front",))
    working, last_day = sowing.workings
    assert "15 August" in working.source
    # By hand: potential is 0.10 at 46.5 °F, which 52 °F in mid October and 40 °F in mid November
    # put at 30 October; 45 days before.
    assert working.value == "15 Aug 2026 to 15 Sep 2026"
    assert last_day.value == "15 Sep 2026"


def test_warm_season_turf_is_cored_once_before_it_grows_best() -> None:
    book = yard(zone(grass="warm"), climate=climate(tmean_f=WARM_F))
    (coring,) = of_kind(book, AERATION)
    assert date(2026, 5, 1) <= coring.starts <= coring.ends <= date(2026, 7, 31)
    assert of_kind(book, OVERSEEDING)[0].starts == coring.starts


def test_south_of_the_equator_the_year_is_turned_round() -> None:
    """The same temperatures six months later: the same weeks, half a year off."""
    north = of_kind(yard(), OVERSEEDING)[0]
    south_yard = yard(latitude_deg=-41.0, climate=climate(tmean_f=SOUTH_F))
    south = of_kind(south_yard, OVERSEEDING)[0]
    assert abs((north.starts - south.starts).days - 182) <= 3
    assert abs((north.ends - south.ends).days - 182) <= 3


def test_a_southern_window_may_run_over_new_year() -> None:
    warm = (*WARM_F[6:], *WARM_F[:6])
    book = yard(zone(grass="warm"), latitude_deg=-31.0, climate=climate(tmean_f=warm))
    (coring,) = of_kind(book, AERATION)
    assert (coring.starts.year, coring.ends.year) == (2026, 2027)
    january = date(2027, 1, 5)
    found = windows_between(setting(book, january), january, january)
    assert AERATION in {each.kind for each in found}


def test_a_pre_emergent_keeps_seed_out_until_its_label_ends() -> None:
    first = of_kind(yard(), OVERSEEDING)[0]
    until = first.starts + timedelta(days=10)
    held = Care(id="c", date=date(2026, 4, 1), kind="pre-emergent", no_seed_until=until)
    two = yard(zone(), zone(id="z2", name="Side"), care=[replace(held, zones=("z2",))])
    free, waits = of_kind(two, OVERSEEDING)
    assert (free.zones, waits.zones) == (("Front",), ("Side",))
    assert (free.starts, waits.starts, waits.ends) == (first.starts, until, first.ends)
    assert "pre-emergent keeps seed out until" in waits.why
    late = replace(held, no_seed_until=first.ends + timedelta(days=1))
    assert of_kind(yard(care=[late]), OVERSEEDING) == []
    assert of_kind(yard(care=[late]), AERATION)


def test_new_turf_is_not_cored_in_its_first_year() -> None:
    sown = zone(established=Established(date=date(2026, 4, 20), how="seed"))
    assert of_kind(yard(sown), AERATION) == []
    assert of_kind(yard(sown), AERATION, 2027)[-1].starts >= date(2027, 8, 15)


def test_new_turf_is_not_sown_again_before_it_has_filled_in() -> None:
    sown = zone(established=Established(date=date(2026, 4, 20), how="seed"))
    assert of_kind(yard(sown), OVERSEEDING) == []
    early = zone(established=Established(date=date(2026, 3, 1), how="seed"))
    (window,) = of_kind(yard(early), OVERSEEDING)
    assert window.starts == date(2026, 8, 28)
    assert "left half a year to fill in" in window.why


def test_grass_that_is_only_laid_is_not_sown() -> None:
    laid = zone(grass="warm", species="St. Augustinegrass")
    book = yard(laid, climate=climate(tmean_f=WARM_F))
    assert of_kind(book, OVERSEEDING) == []
    assert of_kind(book, AERATION)


def test_without_temperatures_there_is_a_reason_and_no_window() -> None:
    bare = setting(yard(climate=[]))
    assert care_windows(bare, 2026) == ()
    assert why_no_windows(bare).startswith("No temperatures are known yet")
    rows = [replace(row, tmean_f=None) if row.month == 7 else row for row in climate()]
    some = setting(yard(climate=rows))
    assert care_windows(some, 2026) == ()
    assert "No temperature is known for July" in why_no_windows(some)
    assert why_no_windows(setting(yard())) == ""


@pytest.mark.parametrize("kind", ["aeration", "Coring", "core aeration"])
def test_care_is_found_by_any_of_its_names(kind: str) -> None:
    done = Care(id="c", date=date(2026, 5, 1), kind=kind)
    book = yard(care=[done, replace(done, id="d", zones=("z2",), date=date(2026, 6, 1))])
    assert last_care(book, AERATION, "z1") == done
    assert last_care(book, OVERSEEDING, "z1") is None


@given(
    st.lists(st.floats(-10.0, 100.0), min_size=12, max_size=12).map(tuple),
    st.sampled_from(("cool", "warm")),
    st.sampled_from((41.0, 0.0, -33.0)),
    st.integers(2020, 2030),
)
def test_windows_open_in_their_year_and_are_shorter_than_it(
    tmean_f: tuple[float, ...], grass: str, latitude_deg: float, year: int
) -> None:
    book = yard(zone(grass=grass), latitude_deg=latitude_deg, climate=climate(tmean_f=tmean_f))
    windows = care_windows(setting(book), year)
    assert [each.starts for each in windows] == sorted(each.starts for each in windows)
    for window in windows:
        assert window.starts.year == year
        assert timedelta(0) <= window.ends - window.starts < timedelta(days=366)
        assert window in windows_between(setting(book), window.ends, window.ends)
