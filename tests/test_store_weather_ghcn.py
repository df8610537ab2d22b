"""NOAA's daily station tables, by the readme of GHCN-Daily (NOAA NCEI): wide and long.

The readme of the by-station files gives the long one's fields (ID, YYYYMMDD, element, value,
M-flag, Q-flag, S-flag, observation time); section III of readme.txt the elements' units (PRCP
tenths of mm, TMAX and TMIN tenths of °C, AWND tenths of m/s, TSUN minutes).
"""

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from lawnbook.agronomy.evapotranspiration import daylight_hours, extraterrestrial_radiation_mj
from lawnbook.store.weather_reading import weather_from_text
from lawnbook.store.weather_result import UnitChoice

FIRST = date(2024, 1, 1)
DAYS = 366
Turn = Callable[[float], str]


def year() -> list[tuple[float, float, float]]:
    """Low, high (°C) and rain (mm) of an invented year, all in whole tenths."""
    rows = []
    for n in range(DAYS):
        warm = 1 - abs(n - 195) / 97.5
        rain = round(3.1 + n % 17, 1) if n % 4 == 0 else 0.0
        rows.append((round(5 + 9 * warm, 1), round(16 + 12 * warm, 1), rain))
    return rows


HABITS: dict[str, tuple[Turn, Turn]] = {
    "°C in tenths": (lambda c: f"{c * 10:.0f}", lambda mm: f"{mm * 10:.0f}"),
    "°C and mm": (lambda c: f"{c:.1f}", lambda mm: f"{mm:.1f}"),
    "°F and inches": (lambda c: f"{c * 1.8 + 32:.0f}", lambda mm: f"{mm / 25.4:.2f}"),
}


def wide(habit: str, days: int = DAYS) -> str:
    """A wide table of the invented year in one of the three habits."""
    heat, depth = HABITS[habit]
    lines = ["STATION,NAME,DATE,PRCP,SNOW,TMAX,TMIN"]
    for n, (low, high, rain) in enumerate(year()[:days]):
        day = FIRST + timedelta(days=n)
        lines.append(f'US1XX000001,"HILL, US",{day},{depth(rain)},0,{heat(high)},{heat(low)}')
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("habit", HABITS)
def test_a_year_in_each_habit_is_understood_by_its_figures(habit: str) -> None:
    reading = weather_from_text(wide(habit))
    assert (reading.questions, reading.faults) == ((), ())
    assert reading.told == f"NOAA daily table of one station, {habit}; 366 days."
    slack = 0.51 if habit == "°F and inches" else 1e-3
    for day, (low, high, rain) in zip(reading.days, year(), strict=True):
        assert day.tmin_f == pytest.approx(low * 1.8 + 32, abs=slack)
        assert day.tmax_f == pytest.approx(high * 1.8 + 32, abs=slack)
        assert day.rain_in == pytest.approx(rain / 25.4, abs=0.0051)


def test_a_few_days_are_asked_about_with_a_value_to_show() -> None:
    text = "STATION,DATE,TMAX,TMIN\nUS1XX000001,2024-01-01,122,80\n"
    reading = weather_from_text(text)
    (question,) = reading.questions
    assert question.sentence == "TMAX 122: 12.2 °C, written in tenths, or 122 °F?"
    assert reading.days == ()
    days = weather_from_text(text, UnitChoice({"noaa": "tenths"})).days
    assert days[0].tmax_f == pytest.approx(12.2 * 1.8 + 32)


def test_quality_flags_leave_a_value_out_and_are_counted() -> None:
    text = (
        "STATION,DATE,PRCP,PRCP_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\n"
        'US1XX000001,2024-07-01,0,"T,,W,2400",301,",,W",150,",,W"\n'
        'US1XX000001,2024-07-02,5000,",K,W,2400",309,",S,W",150,",,W"\n'
    )
    reading = weather_from_text(text)
    assert [(day.rain_in, day.tmax_f) for day in reading.days] == [
        (0.0, pytest.approx(86.18)),
        (None, None),
    ]
    assert "2 values flagged by quality control left out" in reading.told


LONG = """\
USC00000001,20240701,TMAX,301,,,7,0700
USC00000001,20240701,TMIN,150,,,7,0700
USC00000001,20240701,PRCP,254,,,7,0700
USC00000001,20240701,SNOW,0,,,7,0700
USC00000001,20240702,TMAX,311,,S,7,0700
USC00000001,20240702,TMIN,160,,,7,0700
USC00000001,20240702,PRCP,0,T,,7,0700
USC00000001,20240703,TMAX,-9999,,,7,
"""


def test_the_long_list_is_always_in_tenths() -> None:
    reading = weather_from_text(LONG)
    assert (reading.questions, reading.faults) == ((), ())
    told = [(day.id, day.tmin_f, day.tmax_f, day.rain_in) for day in reading.days]
    assert told == [
        ("2024-07-01", pytest.approx(59.0), pytest.approx(86.18), pytest.approx(1.0)),
        ("2024-07-02", pytest.approx(60.8), None, 0.0),
        ("2024-07-03", None, None, None),
    ]
    assert reading.told == (
        "NOAA daily table of one station, °C in tenths; 3 days, 1 value flagged by quality control "
        "left out, 1 reading marked as missing."
    )


@pytest.mark.parametrize(
    "names",
    [
        "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME",
        '"STATION","DATE","ELEMENT","VALUE","M","Q","S","TIME"',
    ],
)
def test_a_line_of_names_above_the_long_list_changes_nothing_but_the_lines(names: str) -> None:
    # The first are the names NOAA's by-station tables carry in open storage (from memory).
    assert weather_from_text(f"{names}\n{LONG}") == weather_from_text(LONG)
    twice = weather_from_text(f"{names}\n{LONG}USC00000001,20240701,PRCP,10,,,7,0700\n")
    assert [fault.line for fault in twice.faults] == [10]


def test_an_element_told_twice_with_other_values_is_a_fault() -> None:
    reading = weather_from_text(LONG + "USC00000001,20240701,PRCP,10,,,7,0700\n")
    (fault,) = reading.faults
    assert (fault.line, len(reading.days)) == (9, 3)
    assert "2024-07-01 stands twice" in fault.sentence


def test_of_several_stations_one_is_chosen() -> None:
    other = "USC00000002,20240701,PRCP,100,,,7,0700\n"
    reading = weather_from_text(other + LONG)
    (question,) = reading.questions
    assert (reading.days, question.proposed) == ((), "USC00000001")
    assert [each.words for each in question.options] == [
        "USC00000001 (3 days)",
        "USC00000002 (1 days)",
    ]
    days = weather_from_text(other + LONG, UnitChoice({"station": "USC00000002"})).days
    assert [day.rain_in for day in days] == [pytest.approx(10 / 25.4, abs=1e-4)]


def test_wind_of_a_station_is_brought_to_two_metres() -> None:
    """FAO-56 eq. 47 and example 14: 3.2 m/s at 10 m are 2.4 m/s at 2 m."""
    text = LONG + "USC00000001,20240701,AWND,32,,,7,\n".replace("20240701", "20240704")
    day = weather_from_text(text).days[3]
    assert day.wind_mph is not None
    assert day.wind_mph * 0.44704 == pytest.approx(2.4, abs=0.05)


def test_sunshine_becomes_radiation_where_the_latitude_is_told() -> None:
    """FAO-56 eq. 35: (0.25 + 0.5 n/N) Ra; half the daylight is half of Ra."""
    daylight = daylight_hours(40.0, 183)
    text = (
        "STATION,LATITUDE,DATE,TMAX,TMIN,TSUN\n"
        f"US1XX000001,40.0,2024-07-01,301,150,{daylight * 30:.3f}\n"
    )
    (day,) = weather_from_text(text).days
    assert day.solar_mj_m2 == pytest.approx(extraterrestrial_radiation_mj(40.0, 183) / 2, abs=1e-3)
    (day,) = weather_from_text(text.replace(",40.0,", ",,")).days
    assert day.solar_mj_m2 is None


def test_humidity_and_dew_point_of_a_station() -> None:
    text = "STATION,DATE,TMAX,TMIN,ADPT,RHAV\nUS1XX000001,2024-07-01,301,150,122,60\n"
    (day,) = weather_from_text(text).days
    assert day.tdew_f == pytest.approx(12.2 * 1.8 + 32)
    (day,) = weather_from_text(text.replace(",ADPT", "").replace(",122", "")).days
    assert day.tdew_f is not None
    assert 50 < day.tdew_f < 65
