"""How nitrogen becomes available: kinds of slow source, their weeks, warmth, and conservation."""

from typing import get_args

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.release import (
    QUICK_WEEKS,
    SLOW_SOURCES,
    microbial_pace,
    quick_share,
    release_weeks,
    released_share,
    slow_source_of,
)
from lawnbook.agronomy.sources import SOURCES
from lawnbook.yard.record_feed import SlowKind

WEEKS = st.floats(0, 104)
TEMPERATURES = st.lists(st.floats(-40, 120), min_size=1, max_size=400)


def test_every_kind_a_product_may_name_is_known_and_sourced() -> None:
    assert set(SLOW_SOURCES) == set(get_args(SlowKind))
    for name, source in SLOW_SOURCES.items():
        assert source.name == name
        assert source.source_key in SOURCES
        assert 0 < source.weeks_low <= source.weeks <= source.weeks_high


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    [
        # "8 to 10 weeks or more" (UC Cooperative Extension, Merced County 2014).
        ("sulfur-coated urea", 8, 10),
        ("isobutylidene diurea", 8, 10),
        ("natural organic", 8, 10),
        # "usually between 8 and 12 weeks" (SportsTurf, February 2016).
        ("methylene urea", 8, 12),
    ],
)
def test_published_release_weeks(kind: str, low: float, high: float) -> None:
    assert (SLOW_SOURCES[kind].weeks_low, SLOW_SOURCES[kind].weeks_high) == (low, high)


def test_microbes_free_organic_and_methylene_sources_only() -> None:
    microbial = {name for name, source in SLOW_SOURCES.items() if source.microbial}
    assert microbial == {"methylene urea", "ureaform", "natural organic"}


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("Polymer-coated urea", "polymer-coated urea"),
        ("PCU", "polymer-coated urea"),
        ("polymer coated sulfur coated urea", "sulfur-coated urea"),
        ("sulphur-coated urea", "sulfur-coated urea"),
        ("12 % methylene ureas", "methylene urea"),
        ("Ureaform (UF)", "ureaform"),
        ("IBDU", "isobutylidene diurea"),
        ("feather meal, composted poultry litter", "natural organic"),
    ],
)
def test_a_labels_words_name_the_source(words: str, kind: str) -> None:
    found = slow_source_of(None, words)
    assert found is not None
    assert found.name == kind


def test_the_kind_goes_before_the_words_and_unknown_is_none() -> None:
    found = slow_source_of("ureaform", "polymer-coated urea")
    assert found is not None
    assert found.name == "ureaform"
    assert slow_source_of(None, "") is None
    assert slow_source_of("hearsay", "a secret") is None


def test_typed_weeks_go_first_and_the_unknown_takes_eight_to_ten() -> None:
    assert release_weeks("ureaform", "", 26) == 26
    assert release_weeks("ureaform", "", None) == 20
    assert release_weeks(None, "polymer-coated", None) == 12
    assert release_weeks(None, "", None) == 9
    with pytest.raises(ValueError, match="typed_weeks"):
        release_weeks(None, "", -1)


def test_pace_doubles_for_each_ten_degrees_celsius() -> None:
    """Worked by hand: 50 °F is 10 °C, 68 is 20 and 86 is 30; none at 40, no faster past 86."""
    pace = microbial_pace(np.array([20.0, 40.0, 50.0, 68.0, 86.0, 104.0, np.nan]))
    assert pace == pytest.approx([0, 0, 0.5, 1, 2, 2, 1])


def test_quick_nitrogen_is_gone_after_two_weeks() -> None:
    shares = quick_share(20)
    assert shares[0] == pytest.approx(1 / 14)
    assert shares[6] == pytest.approx(0.5)
    assert shares[7 * QUICK_WEEKS - 1] == 1
    assert (shares[14:] == 1).all()


def test_slow_sources_take_their_weeks_by_the_calendar_and_in_warm_soil() -> None:
    even = released_share(9, np.ones(80))
    warm = released_share(9, microbial_pace(np.full(80, 68.0)))
    assert even == pytest.approx(warm)
    assert even[61] < 1
    assert even[62] == 1
    cool = released_share(9, microbial_pace(np.full(200, 50.0)))
    assert cool[62] == pytest.approx(0.5)
    assert (released_share(9, microbial_pace(np.full(200, 35.0))) == 0).all()
    assert (released_share(0, np.ones(3)) == 1).all()


@given(WEEKS, TEMPERATURES)
def test_a_share_only_grows_and_never_passes_one(weeks: float, tmean_f: list[float]) -> None:
    shares = released_share(weeks, microbial_pace(np.array(tmean_f)))
    assert (np.diff(shares, prepend=0.0) >= 0).all()
    assert (shares <= 1).all()


@given(WEEKS, TEMPERATURES, st.floats(0, 60))
def test_colder_never_releases_sooner(weeks: float, tmean_f: list[float], colder_f: float) -> None:
    days = np.array(tmean_f)
    warm = released_share(weeks, microbial_pace(days))
    assert (released_share(weeks, microbial_pace(days - colder_f)) <= warm + 1e-12).all()
