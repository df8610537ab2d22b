"""Taking days of weather into a notebook: new values replace, and nothing that is there is lost."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from lawnbook.yard.fields import fields_of
from lawnbook.yard.notebook import Change, Notebook, put
from lawnbook.yard.records import Record, WeatherDay

MEASURED = tuple(info.name for info in fields_of(WeatherDay) if not info.required)
"""What a day's weather may hold, all but its date."""


def weather_taken_in(notebook: Notebook, days: Iterable[WeatherDay]) -> Change:
    """The change that merges days into those of the same date; days that add nothing are left out.

    A new value replaces the old one of the same field, a missing one never erases, and the owner's
    own gauge keeps what it says.
    """
    merged: list[Record] = []
    for day in days:
        held = notebook.weather.get(day.id)
        if held is None:
            merged.append(day)
            continue
        news: dict[str, Any] = {
            name: value for name in MEASURED if (value := getattr(day, name)) is not None
        }
        if held.gauge_in is not None:
            news.pop("gauge_in", None)
        after = replace(held, **news)
        if after != held:
            merged.append(after)
    return put(notebook, "weather", *merged)


def is_blank(day: WeatherDay) -> bool:
    """Whether a day holds nothing but its date."""
    return all(getattr(day, name) is None for name in MEASURED)
