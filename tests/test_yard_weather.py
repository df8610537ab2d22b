"""Weather taken into a notebook, and the owner's rain gauge: nothing that is there is lost."""

from datetime import date
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from lawnbook.yard.edits import rain_noted
from lawnbook.yard.notebook import Notebook, apply, inverse, new_notebook, with_tables
from lawnbook.yard.records import WeatherDay
from lawnbook.yard.weather_merge import MEASURED, weather_taken_in

ON = date(2026, 6, 1)


def one(**values: float | None) -> WeatherDay:
    """The first of June with these values."""
    measured: dict[str, Any] = dict(values)
    return WeatherDay(id=ON.isoformat(), date=ON, **measured)


def holding(*days: WeatherDay) -> Notebook:
    """A notebook with these days."""
    return with_tables(new_notebook("Home"), {"weather": days})


def test_new_values_replace_missing_ones_never_erase_and_the_gauge_stays() -> None:
    book = holding(one(tmin_f=50.0, tmax_f=70.0, rain_in=0.2, gauge_in=0.3))
    news = one(tmax_f=72.0, rain_in=0.25, gauge_in=9.0, wind_mph=4.0)
    after = apply(book, weather_taken_in(book, [news])).weather[ON.isoformat()]
    assert after == one(tmin_f=50.0, tmax_f=72.0, rain_in=0.25, gauge_in=0.3, wind_mph=4.0)


def test_a_gauge_in_the_table_is_taken_where_the_owner_has_none() -> None:
    book = holding(one(rain_in=0.2))
    after = apply(book, weather_taken_in(book, [one(gauge_in=0.5)]))
    assert after.weather[ON.isoformat()] == one(rain_in=0.2, gauge_in=0.5)


def test_days_that_add_nothing_are_no_change() -> None:
    book = holding(one(rain_in=0.2))
    assert weather_taken_in(book, [one(rain_in=0.2), one()]) == {}


values = st.fixed_dictionaries(
    {name: st.none() | st.floats(0, 1, allow_nan=False) for name in MEASURED}
)


@given(values, values)
def test_one_undo_takes_all_of_it_back(
    before: dict[str, float | None], news: dict[str, float | None]
) -> None:
    book = holding(one(**before))
    change = weather_taken_in(book, [one(**news)])
    after = apply(book, change)
    held = after.weather[ON.isoformat()]
    for name in MEASURED:
        old, new = before[name], news[name]
        keeps = new is None or (name == "gauge_in" and old is not None)
        assert getattr(held, name) == (old if keeps else new)
    assert apply(after, inverse(change)).weather == book.weather


def test_rain_is_noted_beside_a_days_other_weather() -> None:
    book = holding(one(rain_in=0.2))
    after = apply(book, rain_noted(book, ON, 0.4))
    assert after.weather[ON.isoformat()] == one(rain_in=0.2, gauge_in=0.4)
    again = apply(after, rain_noted(after, ON, None))
    assert again.weather[ON.isoformat()] == one(rain_in=0.2)


def test_a_day_of_rain_alone_comes_and_goes_with_it() -> None:
    book = holding()
    after = apply(book, rain_noted(book, ON, 0.0))
    assert after.weather[ON.isoformat()] == one(gauge_in=0.0)
    assert not apply(after, rain_noted(after, ON, None)).weather
    assert rain_noted(book, ON, None) == {}
