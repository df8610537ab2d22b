"""What the trend section says of the evidence: figures, tables, and what it cannot say."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.desk.pages import trend_words
from lawnbook.plan.plug_model import (
    CareMark,
    Evidence,
    Interval,
    PlugError,
    SeasonEffect,
    SlopeChange,
    StripComparison,
    TrendPoint,
)
from lawnbook.plan.working_model import Working
from tests.trend_fixture import evidence_of

DATES = tuple(date(2022 + turn // 2, 5 if turn % 2 == 0 else 9, 10) for turn in range(8))
PERCENT = "\u00a0%"


def evidence(plugs: int = 8) -> Evidence:
    """A spot with so many plugs, half a year apart."""
    points = [TrendPoint(spot_id="s", date=on, thatch_in=1.0, plugs=1) for on in DATES[:plugs]]
    return evidence_of("spot", points, "s")


def said(held: Evidence, name: str) -> tuple[str, str]:
    """The value and the words of one of the six figures."""
    figure = trend_words.trend_figures(held)[trend_words.FIGURES.index(name)]
    return figure.value, figure.words


def done(on: date, kind: str = "aeration") -> CareMark:
    """Care on a day."""
    return CareMark(care_id=f"{kind}{on}", date=on, kind=kind, where="whole yard", note="")


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [(-0.12, "in", "−0.12 in"), (0.054, "", "+0.05"), (-0.004, "", "0.00"), (0.0, "in", "0.00 in")],
)
def test_a_change_bears_its_sign_and_nothing_bears_none(
    value: float, unit: str, words: str
) -> None:
    assert trend_words.signed(value, unit) == words


@pytest.mark.parametrize("plugs", [1, 2, 3, 4])
def test_no_interval_is_told_below_five_plugs(plugs: int) -> None:
    value, words = said(evidence(plugs), "slope")
    assert "95" not in words
    assert (value == trend_words.NOT_YET) == (plugs < 3)
    if plugs > 2:
        assert "no interval yet" in words


def test_with_no_more_than_the_points_five_figures_cannot_be_said() -> None:
    bare = replace(evidence(2), error=None)
    assert [each.value for each in trend_words.trend_figures(bare)] == [trend_words.NOT_YET] * 6


def test_the_slope_stands_beside_its_interval() -> None:
    assert said(evidence(), "slope") == (
        "−0.08 in",
        f"change of thatch in a year (95{PERCENT}: −0.12 to −0.04)",
    )


@pytest.mark.parametrize(("plugs_in", "alone"), [(None, True), (0.05, False)])
def test_an_error_without_replicates_says_what_it_rests_on(
    plugs_in: float | None, alone: bool
) -> None:
    error = PlugError(
        readings_in=0.06, plugs_in=plugs_in, ruler_in=0.02, readings=3, replicates=0, plug_in=0.0749
    )
    value, words = said(replace(evidence(), error=error), "error")
    assert value == "±0.07 in"
    assert words.endswith("alone") == alone


@pytest.mark.parametrize(
    ("more", "value", "words"),
    [
        (0, "no more", "plugs a date are needed to see a tenth of an inch"),
        (1, "1 more", "plug a date to see a tenth of an inch"),
        (1204, "1,204 more", "plugs a date to see a tenth of an inch"),
        (None, trend_words.NOT_YET, "plugs to add a date to see a tenth of an inch"),
    ],
)
def test_plugs_to_add_for_a_tenth_of_an_inch(more: int | None, value: str, words: str) -> None:
    assert said(replace(evidence(), more_for_tenth=more), "more") == (value, words)


def test_the_smallest_change_names_the_plugs_it_rests_on() -> None:
    held = replace(evidence(), detectable_in=0.186, plugs_a_date=2)
    value, words = said(held, "detectable")
    assert value == "0.19 in"
    assert words.endswith("with 2 plugs a date")


@pytest.mark.parametrize(
    ("between", "value"),
    [
        ((date(2027, 9, 21), date(2030, 2, 9)), "2027 to 2030"),
        ((date(2028, 3, 1), date(2028, 11, 9)), "Mar to Nov 2028"),
        ((date(2028, 3, 1), date(2028, 3, 30)), "Mar 2028"),
    ],
)
def test_half_an_inch_is_a_span_never_a_day(between: tuple[date, date], value: str) -> None:
    shown, words = said(replace(evidence(), half_inch=between), "half_inch")
    assert shown == value
    assert f"(95{PERCENT}: {between[0].day} " in words
    assert "at this pace" in words


@pytest.mark.parametrize(
    ("why", "none_ahead", "value", "words"),
    [
        (
            "Cannot say yet when half an inch is reached: no trend.",
            False,
            trend_words.NOT_YET,
            "when half an inch is reached: no trend",
        ),
        ("The latest plug is under it.", True, "none ahead", "the latest plug is under"),
        ("Nobody knows.", False, trend_words.NOT_YET, "nobody knows"),
    ],
)
def test_without_a_span_it_is_said_why(why: str, none_ahead: bool, value: str, words: str) -> None:
    held = replace(evidence(), half_inch_words=why, none_ahead=none_ahead)
    shown, told = said(held, "half_inch")
    assert shown == value
    assert told.startswith(words)
    assert not told.lower().startswith("cannot")


@pytest.mark.parametrize("ci95", [None, (-0.2, 0.14)])
def test_the_season_is_a_figure_and_named_in_the_notes(ci95: Interval | None) -> None:
    season = SeasonEffect(spring_minus_autumn_in=-0.03, ci95=ci95, words="Spring is thinner.")
    held = replace(evidence(), season=season, notes=("One spot only.",))
    value, words = said(held, "season")
    assert value == "−0.03 in"
    assert ("95" in words) == (ci95 is not None)
    assert trend_words.notes_told(held) == ("Spring is thinner.", "One spot only.")


def test_each_figure_opens_its_own_working() -> None:
    names = (
        "slope_in_per_year",
        "plug_in",
        "detectable_in",
        "more_for_tenth",
        "half_inch",
        "season_in",
    )
    workings = tuple(Working(each, each, "", "", "", (), "") for each in ("change_in", *names))
    shown = trend_words.trend_figures(replace(evidence(), workings=workings))
    assert [[w.figure for w in each.workings] for each in shown] == [[each] for each in names]


def test_how_says_the_reason_only_where_there_is_no_interval() -> None:
    held = replace(evidence(), how="median of slopes", reason="one more date is needed")
    assert trend_words.how_words(held) == "Median of slopes."
    held = replace(held, ci95=None)
    assert trend_words.how_words(held) == "Median of slopes. One more date is needed."
    held = replace(held, verdict="Cannot say yet: one more date is needed.")
    assert trend_words.how_words(held) == "Median of slopes."


def test_half_an_inch_does_not_tell_the_reason_again() -> None:
    why = "one more date is needed"
    words = f"Cannot say yet when half an inch is reached: {why}."
    held = replace(evidence(4), reason=why, half_inch_words=words)
    assert said(held, "half_inch")[1] == "when half an inch of thatch is reached"


def test_the_first_day_compared_has_the_most_plugs_on_its_poorer_side() -> None:
    care = (done(date(2021, 1, 1)), done(DATES[1]), done(DATES[4]), done(DATES[5]))
    assert trend_words.first_split(evidence(), care) == DATES[4]


def test_the_earlier_of_two_days_alike_is_compared_first() -> None:
    care = (done(date(2024, 4, 1)), done(date(2024, 3, 1)))
    assert trend_words.first_split(evidence(), care) == date(2024, 3, 1)


@pytest.mark.parametrize("on", [date(2020, 1, 1), DATES[0], date(2030, 1, 1)])
def test_no_day_is_compared_that_has_plugs_on_one_side_only(on: date) -> None:
    assert trend_words.first_split(evidence(), (done(on),)) is None


def test_the_day_compared_names_each_kind_once() -> None:
    care = (done(DATES[2]), done(DATES[2], "topdressing"), done(DATES[2]), done(DATES[3], "seed"))
    assert trend_words.done_on(care, DATES[2]) == "noted for this day: aeration and topdressing"
    assert trend_words.done_on(care, None) == ""


def test_a_slope_without_an_interval_says_that_plugs_are_too_few() -> None:
    change = SlopeChange(
        on=DATES[3],
        plugs_before=6,
        plugs_after=2,
        before_in_per_year=0.05,
        before_ci95=(-0.02, 0.12),
        after_in_per_year=-0.3,
        after_ci95=None,
        difference_in_per_year=None,
        difference_ci95=None,
        words="",
        proof="",
        working=None,
    )
    assert trend_words.change_rows(change) == (
        ("Before", ("+0.05 in", "−0.02 to +0.12", "6")),
        ("After", ("−0.30 in", "too few plugs", "2")),
        ("After less before", ("–", "–", "")),
    )


def test_the_strip_names_the_spots_on_both_sides() -> None:
    strip = StripComparison(
        treated=("gate", "lilac"),
        untreated=("shed",),
        treated_in_per_year=-0.1,
        untreated_in_per_year=0.02,
        difference_in_per_year=-0.12,
        ci95=(-0.2, -0.04),
        words="",
        working=None,
    )
    rows = trend_words.strip_rows(strip)
    assert [name for name, _ in rows] == [
        "Treated: gate, lilac",
        "Untreated: shed",
        "Treated less untreated",
    ]
    assert rows[2][1] == ("−0.12 in", "−0.20 to −0.04")
