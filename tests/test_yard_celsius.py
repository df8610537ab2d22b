"""Temperatures that were written in °C are asked about, once for their table."""

from datetime import timedelta

import pytest

from lawnbook.store.yardfile import read_yard_checked
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import ClimateMonth, WeatherDay, Yard
from tests.conftest import TODAY


def _with_weather(high: float, days: int, latitude_deg: float | None) -> Notebook:
    """A notebook with that many days before today, each as warm as the other."""
    dates = [TODAY - timedelta(days=back) for back in range(days)]
    rows = [WeatherDay(id=on.isoformat(), date=on, tmax_f=high) for on in dates]
    yard = Yard(id="yard", name="H", latitude_deg=latitude_deg)
    return with_tables(new_notebook("H"), {"yard": [yard], "weather": rows})


@pytest.mark.parametrize(
    ("high", "days", "latitude_deg", "asked_of"),
    [
        (27.0, 60, None, ["weather.tmax_f"]),
        (49.0, 400, -59.0, ["weather.tmax_f"]),
        (27.0, 59, None, []),
        (50.0, 60, 40.0, []),
        (27.0, 60, 60.0, []),
        (27.0, 60, -70.0, []),
    ],
)
def test_weather_in_celsius_is_asked_once(
    high: float, days: int, latitude_deg: float | None, asked_of: list[str]
) -> None:
    """Of the whole table, however many its days; short tables and the far north are let be."""
    problems = check_notebook(_with_weather(high, days, latitude_deg), TODAY)
    assert [problem.where for problem in problems] == asked_of
    assert all(problem.severity == "ask" for problem in problems)
    assert all("if these are °C, enter them in °F" in problem.sentence for problem in problems)


@pytest.mark.parametrize(
    ("warmest_f", "months", "latitude_deg", "asked_of"),
    [
        (24.0, 12, 45.0, ["climate.tmean_f"]),
        (39.9, 12, None, ["climate.tmean_f"]),
        (40.0, 12, 45.0, []),
        (24.0, 11, 45.0, []),
        (24.0, 12, 65.0, []),
    ],
)
def test_a_climate_in_celsius_is_asked_once(
    warmest_f: float, months: int, latitude_deg: float | None, asked_of: list[str]
) -> None:
    """By its warmest month, once all twelve are there."""
    rows = [
        ClimateMonth(id=f"{n:02d}", month=n, tmean_f=warmest_f - abs(n - 7))
        for n in range(1, months + 1)
    ]
    yard = Yard(id="yard", name="H", latitude_deg=latitude_deg)
    notebook = with_tables(new_notebook("H"), {"yard": [yard], "climate": rows})
    assert [problem.where for problem in check_notebook(notebook, TODAY)] == asked_of


def test_of_a_table_of_its_own_the_question_names_the_field() -> None:
    """A table in ``weather_csv`` has no numbered records, and the question has no day."""
    lines = "".join(f"\\n{TODAY - timedelta(days=back)},27" for back in range(60))
    text = (
        '{"format": "lawnbook-yard", "version": 1, "yard": {"name": "H"}, '
        f'"weather_csv": "date,tmax_f{lines}"}}'
    )
    (question,) = read_yard_checked(text, TODAY, None).questions
    assert question.where == "weather_csv tmax_f"
