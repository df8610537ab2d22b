"""What a field shows in a language can be typed again in it: days, days of the year, seasons."""

import json

import pytest

from lawnbook.yard.numbers import MONTHS
from tests.small_book import in_child

TYPED = """
import json, sys
from datetime import date
from lawnbook.reading import Reading, read_as
read_as(Reading(language="xx", words=json.loads(sys.argv[1])))
from lawnbook.desk import entry
from lawnbook.yard.records import Season
today = date(2026, 6, 15)
days = [date(2026, month, 7) for month in range(1, 13)]
season = Season(start="04-15", end="10-15")
print(json.dumps([
    [entry.parse_day(entry.format_day(each), today) == each for each in days],
    entry.parse_season(entry.format_season(season)) == season,
    entry.format_season(season),
    str(entry.parse_day(sys.argv[2], today)),
    str(entry.parse_day("Jun 3", today)),
    str(entry.parse_day("yesterday", today)),
]))
"""
OWN = ("ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sept", "oct", "nov", "dic")
SPANISH = dict(zip(MONTHS, OWN, strict=True)) | {
    "{day} {month} {year}": "{day} de {month} de {year}",
    "{day} {month}": "{day} de {month}",
    "{begin} to {end}": "{begin} a {end}",
    "yesterday": "ayer",
}


@pytest.mark.parametrize(
    ("words", "typed", "shown"),
    [
        (SPANISH, "ayer", "15 de abr a 15 de oct"),
        ({}, "14 June 2026", "15 Apr to 15 Oct"),
    ],
)
def test_days_are_read_as_they_are_shown(words: dict[str, str], typed: str, shown: str) -> None:
    child = in_child(TYPED, json.dumps(words), typed)
    assert child.stderr == ""
    days, same, season, on, english, yesterday = json.loads(child.stdout)
    assert days == [True] * 12
    assert (same, season) == (True, shown)
    assert (on, english, yesterday) == ("2026-06-14", "2026-06-03", "2026-06-14")
