"""What is missing before a verdict, by spot: as many plugs as the words ask for are enough."""

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.dates_to_add import dates_to_add
from lawnbook.agronomy.spots_trend import Series, mean_trend
from lawnbook.plan.evidence_words import basis_words
from lawnbook.plan.plug_model import Evidence
from tests.test_plan_evidence import DATES, THINNING, plan_of, plugs, zone_shown

NAMES = ("crest", "swale", "table", "verge")


def shown(*counts: int) -> Evidence:
    """The evidence of a zone whose spots have plugs of so many dates each."""
    spots = [(name, plugs(name, THINNING[:n])) for name, n in zip(NAMES, counts, strict=False)]
    return zone_shown(plan_of(*spots))


@pytest.mark.parametrize(
    ("counts", "reason"),
    [
        (
            (1, 1),
            "2 plugs so far, and no spot has plugs of two dates; pull again at the same spots",
        ),
        (
            (3, 1),
            (
                "only crest has plugs of several dates, 3 so far, and one spot alone needs 5; pull "
                "again at the other spots too"
            ),
        ),
        (
            (3, 3),
            (
                "crest has plugs of 3 dates, swale has plugs of 3; one more date at crest or swale "
                "is needed before a verdict"
            ),
        ),
        (
            (3, 2),
            (
                "crest has plugs of 3 dates, swale has plugs of 2; one more date at crest is "
                "needed before a verdict"
            ),
        ),
        (
            (2, 2, 1),
            (
                "crest has plugs of 2 dates, swale has plugs of 2; 2 more dates at crest or swale "
                "are needed before a verdict"
            ),
        ),
        (
            (2, 2, 2),
            (
                "these 3 spots have plugs of two dates each; one more date at any of them is "
                "needed before a verdict"
            ),
        ),
        ((4, 2), ""),
        ((5, 1), ""),
        ((3, 2, 2), ""),
    ],
)
def test_the_reason_says_what_is_missing_and_where(counts: Sequence[int], reason: str) -> None:
    evidence = shown(*counts)
    assert evidence.reason == reason
    assert (evidence.ci95 is None) == bool(reason)


def series(counts: Sequence[int]) -> list[Series]:
    """Spots plugged on the first dates of all, with a little noise."""
    years = [2020.3 + 0.5 * n for n in range(12)]
    return [
        Series(tuple(years[:n]), tuple(1.0 - 0.1 * k + 0.01 * ((k * 7 + at) % 3) for k in range(n)))
        for at, n in enumerate(counts)
    ]


def told(counts: Sequence[int]) -> bool:
    """Whether so many dates have an interval."""
    trend = mean_trend(series(counts))
    return trend is not None and trend.ci95 is not None


@given(st.lists(st.integers(2, 6), min_size=1, max_size=5))
def test_so_many_more_dates_give_an_interval_and_fewer_do_not(counts: list[int]) -> None:
    more, at = dates_to_add(counts)
    assert (more == 0) == told(counts) == (at == ())
    for spot in range(len(counts)):
        fewer, enough = list(counts), list(counts)
        fewer[spot] += max(more - 1, 0)
        enough[spot] += more
        assert more == 0 or not told(fewer)
        assert more == 0 or told(enough) == (spot in at)


@pytest.mark.parametrize("counts", [(), (3, 1)])
def test_a_spot_without_two_dates_is_refused(counts: tuple[int, ...]) -> None:
    with pytest.raises(ValueError, match="two dates or more"):
        dates_to_add(counts)


def test_plugs_of_one_day_are_told_apart_from_the_days() -> None:
    """Ten plugs pulled on eight days are not eight plugs."""
    line = [10.0 + 0.5 * n for n in range(8)]
    trend = mean_trend([Series(tuple(line), tuple(1.0 - 0.02 * n for n in range(8)))])
    assert trend is not None
    assert basis_words("spot", trend) == "From 8 plugs."
    assert basis_words("spot", trend, 8) == "From 8 plugs."
    assert basis_words("spot", trend, 10) == "From 10 plugs of 8 days."
    assert basis_words("zone", trend, 10) == "From 10 plugs of 1 spot."


def test_what_is_counted_is_what_the_trend_rests_on() -> None:
    evidence = shown(7, 7, 7, 1)
    assert (evidence.spots, evidence.plugs) == (3, 21)
    assert evidence.verdict.endswith("From 21 plugs of 3 spots.")
    assert len(evidence.points) == 22
    single = shown(7, 1)
    assert (single.spots, single.plugs) == (1, 7)
    assert single.verdict.endswith("From 7 plugs of 1 spot.")
    assert any(note.startswith("One spot only, crest:") for note in single.notes)
    assert (shown(1, 1).spots, shown(1, 1).plugs) == (2, 2)


def test_a_late_spot_without_a_slope_is_not_said_to_count_by_it() -> None:
    late = plugs("swale", THINNING[:1], [DATES[0] + timedelta(days=400)])
    notes = zone_shown(plan_of(("crest", plugs("crest", THINNING)), ("swale", late))).notes
    assert not any(note.startswith("Begun later") for note in notes)


def test_only_half_an_inch_passed_is_none_ahead() -> None:
    under = [value - 0.7 for value in THINNING]
    assert zone_shown(plan_of(("crest", plugs("crest", under)))).none_ahead
    assert not shown(7).none_ahead
    assert not shown(2).none_ahead
