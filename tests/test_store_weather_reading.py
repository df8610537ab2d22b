"""Weather tables of our own sort: what is understood, asked, at fault, and never lost."""

import importlib
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.evapotranspiration import saturation_vapour_pressure_kpa
from lawnbook.agronomy.units import f_to_c
from lawnbook.store.weather_csv import parse_weather
from lawnbook.store.weather_reading import read_weather, weather_from_text
from lawnbook.store.weather_result import UnitChoice
from lawnbook.yard.problems import OwnerError

FIRST = date(2025, 1, 1)


def table(header: str, *rows: str) -> str:
    """A table with these rows on consecutive days from `FIRST`."""
    dated = (f"{FIRST + timedelta(days=n)},{row}" for n, row in enumerate(rows))
    return "\n".join([f"date,{header}", *dated]) + "\n"


def choice(**answers: str) -> UnitChoice:
    """These answers."""
    return UnitChoice(answers)


def year_c() -> list[tuple[float, float]]:
    """Lows and highs of an invented year in °C, from -4/4 in January to 14/28 in July."""
    return [
        (5.0 + 9.0 * shape, 16.0 + 12.0 * shape)
        for shape in (1 - abs(n - 195) / 97.5 for n in range(365))
    ]


@pytest.mark.parametrize(
    ("header", "row", "field", "value"),
    [
        ("tmax_f", "70", "tmax_f", 70.0),
        ("tmax_c", "20", "tmax_f", 68.0),
        ("Tmax_F", "70", "tmax_f", 70.0),
        ("rain_in", ".25", "rain_in", 0.25),
        ("rain_mm", "25.4", "rain_in", 1.0),
        ("precip_mm", "12.7", "rain_in", 0.5),
        ("gauge_mm", "5.08", "gauge_in", 0.2),
        ("tdew_c", "10", "tdew_f", 50.0),
        ("wind_mph", "5", "wind_mph", 5.0),
        ("wind_m_s", "4.4704", "wind_mph", 10.0),
        ("wind_km_h", "16.09344", "wind_mph", 10.0),
        ("solar_mj_m2", "20", "solar_mj_m2", 20.0),
        ("solar_w_m2", "250", "solar_mj_m2", 21.6),
        ("eto_mm", "5.08", "reported_eto_in", 0.2),
        ("reported_eto_in", "0.2", "reported_eto_in", 0.2),
    ],
)
def test_a_named_unit_is_turned_into_the_notebooks(
    header: str, row: str, field: str, value: float
) -> None:
    reading = weather_from_text(table(header, row))
    assert not reading.faults
    assert not reading.questions
    (day,) = reading.days
    assert (day.id, getattr(day, field)) == ("2025-01-01", pytest.approx(value))


@pytest.mark.parametrize(
    ("header", "row", "kpa"),
    [
        # FAO-56 example 5: 25 and 18 °C, 82 and 54 %: 1.70 kPa; of their mean, 68 %, 1.78 kPa.
        ("tmin_c,tmax_c,rh_max_pct,rh_min_pct", "18,25,82,54", 1.70),
        ("tmin_c,tmax_c,rh_pct", "18,25,68", 1.78),
    ],
)
def test_humidity_becomes_the_dew_point(header: str, row: str, kpa: float) -> None:
    (day,) = weather_from_text(table(header, row)).days
    assert day.tdew_f is not None
    assert saturation_vapour_pressure_kpa(f_to_c(day.tdew_f)) == pytest.approx(kpa, abs=0.005)


def test_columns_named_as_a_thermometer_names_them(tmp_path: Path) -> None:
    path = tmp_path / "w.csv"
    path.write_text("Date,Low,High\n2026-06-01,50,80\n2026-06-02,52,84\n", encoding="utf-8")
    found = read_weather(path)
    assert (found.faults, found.questions) == ((), ())
    assert [(day.tmin_f, day.tmax_f) for day in found.days] == [(50.0, 80.0), (52.0, 84.0)]


def test_the_open_series_of_seattle_is_understood_by_its_figures(tmp_path: Path) -> None:
    """vega_datasets: columns temp_max, temp_min, precipitation without a unit; °C and mm."""
    frame = importlib.import_module("vega_datasets").local_data.seattle_weather()
    path = tmp_path / "seattle.csv"
    frame[["date", "precipitation", "temp_max", "temp_min"]].to_csv(path, index=False)
    reading = read_weather(path)
    assert (len(reading.days), reading.faults, reading.questions) == (1461, (), ())
    assert reading.told == "Daily table in mm, °C; 1,461 days."
    assert reading.days[0].tmax_f == pytest.approx(12.8 * 1.8 + 32)
    assert reading.days[1].rain_in == pytest.approx(10.9 / 25.4, abs=1e-4)


@pytest.mark.parametrize("unit", ["f", "c"])
def test_a_whole_year_shows_its_unit(unit: str) -> None:
    rows = [
        f"{low},{high}" if unit == "c" else f"{low * 1.8 + 32},{high * 1.8 + 32}"
        for low, high in year_c()
    ]
    reading = weather_from_text(table("tmin,tmax", *rows))
    assert not reading.questions
    assert reading.days[0].tmax_f == pytest.approx(year_c()[0][1] * 1.8 + 32, abs=1e-3)


def test_what_a_few_days_do_not_show_is_asked_and_nothing_is_taken_meanwhile() -> None:
    text = table("tmin,tmax,rain", "30,50,1", "31,52,0")
    reading = weather_from_text(text)
    assert (reading.days, reading.open) == ((), True)
    sentences = [each.sentence for each in reading.questions]
    assert sentences == ["tmin 31: 31 °F, or 31 °C?", "rain 1: 1 in, or 1 mm?"]
    answered = weather_from_text(text, choice(temperature="f", depth="mm"))
    assert not answered.questions
    assert [day.tmax_f for day in answered.days] == [50.0, 52.0]
    assert answered.days[0].rain_in == pytest.approx(1 / 25.4, abs=1e-4)


def test_a_day_too_hot_for_celsius_is_in_fahrenheit() -> None:
    reading = weather_from_text(table("tmin,tmax", "60,81"))
    assert not reading.questions
    assert reading.days[0].tmax_f == 81.0


def test_wind_without_a_unit_is_asked() -> None:
    text = table("wind", "4")
    (question,) = weather_from_text(text).questions
    assert [each.value for each in question.options] == ["mph", "m_s", "km_h"]
    assert weather_from_text(text, choice(wind="km_h")).days[0].wind_mph == pytest.approx(2.4855)


def test_fahrenheit_in_a_celsius_column_is_never_taken_silently() -> None:
    text = table("tmin_c,tmax_c", *(["58,81"] * 10))
    reading = weather_from_text(text)
    (question,) = reading.questions
    assert (reading.days, question.proposed, question.needed) == ((), "f", True)
    assert question.sentence.startswith("tmin_c and tmax_c look like °F, not °C. tmax_c 81: 81 °F")
    assert weather_from_text(text, choice(temperature="f")).days[0].tmax_f == 81.0
    kept = weather_from_text(text, choice(temperature="c"))
    assert not kept.days
    assert all("°F" in fault.sentence for fault in kept.faults)


@pytest.mark.parametrize(("high", "asked"), [(36, False), (48, True)])
def test_a_year_that_is_none_in_celsius_is_asked_about(high: int, asked: bool) -> None:
    """No day is too hot for °C by itself, but no place has highs of 48 °C in its mean month."""
    rows = [f"{high - 18 + n % 5},{high + n % 3}" for n in range(365)]
    reading = weather_from_text(table("tmin_c,tmax_c", *rows))
    assert [each.key for each in reading.questions] == ["temperature"] * asked


def test_celsius_in_a_fahrenheit_column_is_asked_about_with_its_mend() -> None:
    text = table("tmin_f,tmax_f", *(["12,27"] * 60))
    reading = weather_from_text(text)
    (question,) = reading.questions
    assert (question.proposed, question.needed, reading.open) == ("c", False, False)
    mended = weather_from_text(text, choice(temperature="c"))
    assert not mended.questions
    assert mended.days[0].tmax_f == pytest.approx(80.6)
    assert len(parse_weather(text, "weather.csv")) == 60


def test_swapped_columns_are_offered_to_be_exchanged() -> None:
    text = table("tmin_f,tmax_f", "80,55", "82,57", "79,60", "50,70")
    (question,) = weather_from_text(text).questions
    assert question.sentence.startswith("The columns tmin_f and tmax_f look swapped")
    swapped = weather_from_text(text, choice(swap="yes"))
    assert [(day.tmin_f, day.tmax_f) for day in swapped.days] == [(55, 80), (57, 82), (60, 79)]
    assert [fault.line for fault in swapped.faults] == [5]
    assert "lowest and highest exchanged" in swapped.told
    left = weather_from_text(text, choice(swap="no"))
    assert [(day.tmin_f, day.tmax_f) for day in left.days] == [(50, 70)]
    assert [fault.line for fault in left.faults] == [2, 3, 4]


def test_a_low_above_the_high_is_a_fault_of_its_line() -> None:
    reading = weather_from_text(table("tmin_f,tmax_f", "50,70", "71,70", "52,70"))
    (fault,) = reading.faults
    assert (fault.place, len(reading.days)) == ("line 3.tmin_f", 2)
    assert "71°F is above the highest, 70°F" in fault.sentence


def test_missing_values_are_no_values() -> None:
    rows = ["-9999,70,-9999", "50,9999,M", "-999,71,T", ",72,0.1"]
    reading = weather_from_text(table("tmin_f,tmax_f,rain_in", *rows))
    assert [(day.tmin_f, day.tmax_f, day.rain_in) for day in reading.days] == [
        (None, 70, None),
        (50, None, None),
        (None, 71, 0),
        (None, 72, 0.1),
    ]
    assert not reading.faults
    assert "5 readings marked as missing" in reading.told


@pytest.mark.parametrize(
    ("rows", "days", "line", "part"),
    [
        (["1.2", "lots", "0.3"], 2, 3, "must be a number"),
        (["1.2", "1,2", "0.3"], 2, 3, "more cells than columns"),
        (["1.2", "-1", "0.3"], 2, 3, "enter 0 in or more"),
        (["1.2", "77", "0.3"], 2, 3, "is more than it can be"),
    ],
)
def test_a_bad_line_is_told_and_the_good_ones_stay(
    rows: list[str], days: int, line: int, part: str
) -> None:
    reading = weather_from_text(table("rain_in", *rows))
    assert len(reading.days) == days
    (fault,) = reading.faults
    assert fault.line == line
    assert part in fault.sentence


@pytest.mark.parametrize("cell", ["2025-02-30", "yesterday", "13/13/2025", ""])
def test_a_bad_date_is_a_fault(cell: str) -> None:
    reading = weather_from_text(f"date,rain_in\n2025-01-01,1\n{cell},2\n")
    assert ([day.rain_in for day in reading.days], len(reading.faults)) == ([1.0], 1)
    assert reading.faults[0].place == "line 3.date"


def test_days_written_either_way_are_asked_about() -> None:
    text = "date,rain_in\n05/01/2025,1\n06/01/2025,2\n"
    (question,) = weather_from_text(text).questions
    assert "month/day or day/month" in question.sentence
    days = [weather_from_text(text, choice(dates=order)).days[1].id for order in ("month", "day")]
    assert days == ["2025-06-01", "2025-01-06"]


def test_a_day_twice_is_taken_once_where_its_lines_agree() -> None:
    reading = weather_from_text("date,rain_in\n2025-01-01,1\n2025-01-01,1\n2025-01-02,2\n")
    assert ([day.rain_in for day in reading.days], reading.faults) == ([1, 2], ())
    assert "1 line that says a day again" in reading.told


def test_a_day_twice_with_other_figures_is_a_fault_and_the_first_is_kept() -> None:
    reading = weather_from_text("date,rain_in\n2025-01-01,1\n2025-01-02,2\n2025-01-01,3\n")
    assert [day.rain_in for day in reading.days] == [1, 2]
    (fault,) = reading.faults
    assert fault.line == 4
    assert "2025-01-01 stands twice, with other figures in line 2" in fault.sentence


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("date,clouds,rain_in\n2025-01-01,many,1\n", 'there is no column "clouds"; take it out'),
        ("date,rain_inn,tmax_f\n2025-01-01,1,50\n", "did you mean rain_in?"),
        ("date,rain_mm,rain_in\n2025-01-01,25.4,1\n", "rain_mm and rain_in measure the same"),
        ("date,tmin_f,tmax_f,rh_pct\n2025-01-01,50,60,120\n", "Humidity of 120 % cannot be"),
    ],
)
def test_a_column_that_cannot_be_used_is_told(text: str, part: str) -> None:
    (fault,) = weather_from_text(text).faults
    assert part in fault.sentence
    with pytest.raises(OwnerError, match=r"weather.csv line \d"):
        parse_weather(text, "weather.csv")


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "line 1: the column date is missing"),
        ("rain_in\n1\n", "line 1: the column date is missing"),
        ("date,rain_in,rain_in\n", "the column rain_in stands twice"),
        ('date,rain_in\n2025-01-01,"1\n2025-01-02,2\n', "no table|quotation mark"),
    ],
)
def test_what_is_no_table_is_refused_with_the_files_name(
    tmp_path: Path, text: str, part: str
) -> None:
    path = tmp_path / "rain.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(OwnerError, match=rf"^rain\.csv .*({part})"):
        read_weather(path)


@given(
    st.lists(
        st.tuples(st.integers(0, 400), st.floats(-40, 80), st.floats(0, 40), st.floats(0, 20)),
        unique_by=lambda row: row[0],
        max_size=20,
    )
)
def test_a_table_in_the_yard_files_own_columns_comes_back_as_it_is(
    rows: list[tuple[int, float, float, float]],
) -> None:
    lines = [
        f"{FIRST + timedelta(days=n)},{low!r},{low + swing!r},{rain!r}"
        for n, low, swing, rain in rows
    ]
    reading = weather_from_text("\n".join(["date,tmin_f,tmax_f,rain_in", *lines]))
    assert not reading.faults
    assert [(day.tmin_f, day.tmax_f, day.rain_in) for day in reading.days] == [
        (low, low + swing, rain) for _, low, swing, rain in rows
    ]


def test_semicolons_between_columns_are_refused_with_their_mend() -> None:
    with pytest.raises(OwnerError, match="with commas between"):
        weather_from_text("date;tmin_f;rain_in\n2026-06-01;50;0,2\n")
