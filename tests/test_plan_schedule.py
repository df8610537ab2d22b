"""The night's timetable: valves one at a time, soaks kept, done by sunrise, within the rule."""

import re
from datetime import UTC, date, datetime, timedelta

import pytest
from astral import Observer
from astral.sun import sunrise as reference_sunrise
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.water_model import ProgramRun
from lawnbook.yard.records import WaterRules
from tests.night_yard import (
    DENVER,
    FAST,
    MINUTE,
    MONDAY,
    PLACE,
    SLOW,
    TUESDAY,
    ends,
    lawn,
    placed,
    programs,
    rule,
)

# The night without a rule


def test_a_night_by_hand() -> None:
    """Two zones of 2 cycles, one after the other, the last valve closed at sunrise.

    0.4 in × 1.266 (DU 0.65) at 1.4 in/h takes 21.7 min: two of 10.85, told as 11, soaking
    10.85 × (1.4 ÷ 0.35 − 1) = 32.6, told as 33.
    """
    (program,) = programs(placed(lawn("Front"), lawn("Back")), [TUESDAY, TUESDAY])
    assert program.morning == TUESDAY
    assert program.sunrise is not None
    assert program.ends == program.sunrise
    # Front 11, Back 11, the soak of Front until minute 44, Front 11, Back 11: 66 min.
    assert program.elapsed_minutes == 66
    first = program.sunrise - 66 * MINUTE
    offsets = [(each.zone, each.cycle, each.starts) for each in program.timer]
    assert offsets == [
        ("Front", 1, first),
        ("Back", 1, first + 11 * MINUTE),
        ("Front", 2, first + 44 * MINUTE),
        ("Back", 2, first + 55 * MINUTE),
    ]
    assert {each.minutes for each in program.timer} == {11}
    assert (program.allowed_minutes, program.shortfall_minutes) == (None, 0)
    assert program.words == f"Done by sunrise at {program.sunrise:%H:%M}."


@pytest.mark.parametrize("on", [date(2026, month, 12) for month in range(1, 13)])
def test_sunrise_is_that_of_the_morning_by_the_yards_clocks(on: date) -> None:
    """astral, an independent open-source library, in the yard's own time."""
    (program,) = programs(placed(lawn("Front")), [on + timedelta(days=1)], on=on)
    observer = Observer(PLACE["latitude_deg"], PLACE["longitude_deg"], 0.0)
    expected = reference_sunrise(observer, date=program.morning, tzinfo=DENVER)
    assert program.sunrise is not None
    assert program.sunrise.date() == program.morning == on + timedelta(days=1)
    assert abs(program.sunrise - expected.replace(tzinfo=None)) < 2 * MINUTE


@pytest.mark.parametrize(
    ("place", "name"),
    [
        ((1.9, -157.4), "Pacific/Kiritimati"),
        ((-13.8, -171.8), "Pacific/Apia"),
        ((52.0, 178.0), "America/Adak"),
        ((-31.8, 116.2), "Australia/Perth"),
    ],
)
def test_near_the_date_line_the_calendar_is_the_yards(
    place: tuple[float, float], name: str
) -> None:
    book = placed(lawn("Front"), latitude_deg=place[0], longitude_deg=place[1], time_zone=name)
    (program,) = programs(book, [TUESDAY])
    assert program.sunrise is not None
    assert program.sunrise.date() == TUESDAY
    assert 3 <= program.sunrise.hour <= 9


@pytest.mark.parametrize(
    ("morning", "hours_by_clock"), [(date(2026, 3, 8), 7), (date(2026, 11, 1), 5)]
)
def test_a_night_in_which_the_clocks_change_is_as_long_as_it_is(
    morning: date, hours_by_clock: int
) -> None:
    """United States: on at 2:00 on the second Sunday of March, off on the first of November.

    Some six hours end at sunrise, so that the change lies within; the clocks show one more or
    one less than has passed.
    """
    (program,) = programs(
        placed(lawn("Front", 0.35)), [morning], depth_in=1.66, on=morning - timedelta(days=1)
    )
    assert program.elapsed_minutes == 361
    assert program.starts is not None
    assert program.ends is not None
    assert program.ends - program.starts == hours_by_clock * 60 * MINUTE + MINUTE
    passed = (program.ends.replace(tzinfo=DENVER).astimezone(UTC)) - (
        program.starts.replace(tzinfo=DENVER).astimezone(UTC)
    )
    assert passed == 361 * MINUTE


def test_a_program_longer_than_the_night_starts_before_sunset_and_says_so() -> None:
    """A June night at 41° N has some nine hours."""
    (program,) = programs(placed(lawn("Front", 0.3)), [TUESDAY], depth_in=2.6)
    assert program.allowed_minutes is None
    assert program.elapsed_minutes == 659
    assert program.starts is not None
    assert program.starts.date() == MONDAY
    assert 90 < program.shortfall_minutes < 150
    assert re.search(
        r"It takes 10 h 59 min, \d h \d+ min more than the night leaves. It starts at 18:5\d, "
        r"before sunset \(21:0\d\), when wind and sun take more of the water: half on each of ",
        program.words,
    )
    assert program.ends == program.sunrise


def test_a_program_longer_than_a_day_holds_what_fits_from_sunrise_to_sunrise() -> None:
    """Each of two zones: 3 in × 1.266 at 0.2 in/h take 1,140 min."""
    (program,) = programs(placed(lawn("Front", 0.2), lawn("Back", 0.2)), [TUESDAY] * 2, 3.0)
    assert program.elapsed_minutes == 2280
    assert program.allowed_minutes is None
    assert program.starts is not None
    assert program.ends is not None
    assert timedelta(hours=23) < program.ends - program.starts <= timedelta(hours=24)
    assert "It needs 38 h, a day from sunrise to sunrise leaves 23 h 59 min: 14 h 1 min of it" in (
        program.words
    )
    assert "its zones split over two nights" in program.words


@pytest.mark.parametrize("on", [date(2026, 6, 15), date(2026, 12, 15)])
def test_where_the_sun_does_not_rise_no_time_is_told(on: date) -> None:
    book = placed(
        lawn("Front"), latitude_deg=78.0, longitude_deg=15.0, time_zone="Arctic/Longyearbyen"
    )
    (program,) = programs(book, [on], on=on)
    assert (program.starts, program.ends, program.sunrise) == (None, None, None)
    assert program.elapsed_minutes > 0
    assert "The sun does not rise here on that day" in program.words


@pytest.mark.parametrize(
    ("missing", "words"),
    [
        (("longitude_deg",), "Enter the yard's longitude to see when it starts."),
        (("longitude_deg", "time_zone"), "the yard's longitude and time zone to see"),
        (tuple(PLACE), "the yard's latitude, longitude and time zone to see"),
    ],
)
def test_what_is_missing_for_times_is_named(missing: tuple[str, ...], words: str) -> None:
    book = placed(lawn("Front"), **dict.fromkeys(missing))
    (program,) = programs(book, [TUESDAY])
    assert (program.starts, program.ends, program.sunrise) == (None, None, None)
    assert [(each.starts, each.minutes) for each in program.timer] == [(None, 11), (None, 11)]
    assert program.elapsed_minutes == 55
    assert program.words.startswith("It takes 55 min. ")
    assert words in program.words


# The owner's rule


def clock_times(program: ProgramRun) -> tuple[str, str]:
    """Start and end as "15 22:30"."""
    assert program.starts is not None
    assert program.ends is not None
    return f"{program.starts:%d %H:%M}", f"{program.ends:%d %H:%M}"


RULES: list[tuple[WaterRules, date, date, str]] = [
    # The span that holds the latest time before sunrise (05:53 on these days).
    (rule("18:00-05:00"), TUESDAY, TUESDAY, "16 05:00"),
    (rule("18:00-22:00", "01:00-03:00"), TUESDAY, TUESDAY, "16 03:00"),
    (rule("18:00-22:00"), TUESDAY, TUESDAY, "15 22:00"),
    (rule("18:00-00:00", "00:00-10:00"), TUESDAY, TUESDAY, "16 05:5"),
    # A span over midnight belongs to the weekday of its evening.
    (rule("18:00-08:00", days=("Tue", "Sat")), TUESDAY, date(2026, 6, 17), "17 05:5"),
    (rule("18:00-08:00", days=("Mon",)), TUESDAY, TUESDAY, "16 05:5"),
    (rule("18:00-04:00", days=("Sat",)), date(2026, 6, 20), date(2026, 6, 21), "21 04:00"),
    # Days alone: every moment lies on an allowed day.
    (rule(days=("Tue",)), TUESDAY, TUESDAY, "16 05:5"),
    (rule(days=("Mon",)), MONDAY, TUESDAY, "16 00:00"),
    # No time between sunset and sunrise: the last span of the first allowed day.
    (rule("06:00-09:00", "11:00-14:00"), TUESDAY, TUESDAY, "16 14:00"),
]


@pytest.mark.parametrize(("rules", "due", "morning", "end"), RULES)
def test_the_span_that_a_night_takes(rules: WaterRules, due: date, morning: date, end: str) -> None:
    (program,) = programs(placed(lawn("Front"), rules=rules), [due])
    assert program.morning == morning
    assert clock_times(program)[1].startswith(end)
    over_midnight = bool(rules.days) and f"{morning:%a}" not in rules.days and end[3:] != "00:00"
    assert ("The hours after midnight are counted to " in program.words) == over_midnight
    assert program.shortfall_minutes == 0


def test_a_rule_that_leaves_too_little_is_told_with_what_does_not_fit() -> None:
    """Two zones at 0.35 in/h, 0.85 in × 1.266 each: 185 min each, 370 in all, four hours allowed.

    The soil keeps up with 0.35 in/h, so there is one cycle each. 240 min hold
    120 of each 185, so that of 0.85 in 0.85 × 65 ÷ 185 = 0.30 in stay off.
    """
    book = placed(lawn("Front", 0.35), lawn("Back", 0.35), rules=rule("00:00-04:00"))
    (program,) = programs(book, [TUESDAY, TUESDAY], depth_in=0.85)
    assert program.elapsed_minutes == 370
    assert (program.allowed_minutes, program.shortfall_minutes) == (240, 130)
    assert [each.minutes for each in program.timer] == [120, 120]
    assert clock_times(program) == ("16 00:00", "16 04:00")
    assert (
        "It needs 6 h 10 min, your rule leaves 4 h: 2 h 10 min of it, about 0.30 in on each zone, "
        "cannot be given. What would help: its zones split over two allowed nights, fewer zones "
        "in one program or more even sprinklers (runs are up to 1.27 times as long for unevenness)."
    ) in program.words


def test_the_rest_may_run_after_sunrise_where_the_rule_goes_on() -> None:
    book = placed(lawn("Front", 0.35), rules=rule("05:00-10:00"))
    (program,) = programs(book, [TUESDAY], depth_in=0.85)
    assert program.ends == program.sunrise
    assert program.allowed_minutes is not None
    assert 50 <= program.allowed_minutes <= 58
    assert program.shortfall_minutes == program.elapsed_minutes - program.allowed_minutes
    assert " min before sunrise: " in program.words
    assert "the rest after sunrise, until 10:00 by your rule." in program.words


def test_a_rule_without_a_minute_to_spare_gives_nothing_and_says_all_of_it() -> None:
    book = placed(*[lawn(name, 0.35) for name in "abcdef"], rules=rule("03:00-03:02"))
    (program,) = programs(book, [TUESDAY] * 6, depth_in=0.85)
    assert program.allowed_minutes == 2
    assert program.timer == ()
    assert (program.starts, program.ends) == (None, None)
    assert "about 0.85 in on each zone, cannot be given" in program.words


def test_by_day_is_told_where_the_rule_leaves_nothing_else() -> None:
    book = placed(lawn("Front"), rules=rule("10:00-14:00"))
    (program,) = programs(book, [TUESDAY])
    assert "Your rule leaves no time between sunset and sunrise" in program.words


SPANS = st.tuples(st.integers(0, 23), st.integers(1, 23)).map(
    lambda each: f"{each[0]:02}:00-{(each[0] + each[1]) % 24:02}:00"
)
DAYS = st.sets(st.sampled_from(("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")), max_size=3)


def is_allowed(rules: WaterRules, at: datetime) -> bool:
    """Whether the rule allows a moment: by its day, or by a span of the evening before."""
    hours = rules.hours or ("00:00-00:00",)
    for back in (0, 1):
        begun = at - timedelta(days=back)
        if rules.days and f"{begun:%a}" not in rules.days:
            continue
        for span in hours:
            start, end = (int(part[:2]) * 60 for part in span.split("-"))
            minute = at.hour * 60 + at.minute + back * 24 * 60
            if start <= minute < (end if end > start else end + 24 * 60):
                return True
    return False


@given(st.lists(SPANS, max_size=2), DAYS, st.integers(0, 6), st.floats(0.1, 1.5))
def test_no_valve_is_ever_open_outside_the_rule(
    hours: list[str], days: set[str], ahead: int, depth_in: float
) -> None:
    """Checked minute by minute against the rule read afresh."""
    rules = rule(*hours, days=tuple(sorted(days)))
    book = placed(lawn("Front", SLOW), lawn("Back", FAST), rules=rules)
    due = MONDAY + timedelta(days=ahead)
    (program,) = programs(book, [due, due], depth_in=depth_in)
    by_day = "no time between sunset" in program.words
    assert program.morning > MONDAY or by_day
    given_minutes = sum(each.minutes for each in program.timer)
    for each in program.timer:
        assert each.starts is not None
        if hours or days:
            for minute in range(each.minutes):
                assert is_allowed(rules, each.starts + minute * MINUTE)
        assert program.ends is not None
        assert ends(each) <= program.ends
    if program.shortfall_minutes == 0:
        assert given_minutes > 0
    if program.starts is not None and not by_day:
        assert program.ends is not None
        assert program.sunrise is not None
        assert program.ends <= program.sunrise or "midnight" in program.words


def test_words_stand_in_whole_sentences() -> None:
    zones = [lawn("Front", 0.35, program="A"), lawn("Back", 0.35, program="A")]
    for rules in (None, rule("00:00-01:00"), rule("10:00-14:00"), rule(days=("Mon",))):
        for each in programs(placed(*zones, rules=rules), [TUESDAY, TUESDAY]):
            assert re.fullmatch(r"([A-Z][^.]*(\d\.\d[^.]*)*\. ?)+", each.words), each.words
