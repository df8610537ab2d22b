"""The log, the year, the lists, the calendar, the plain plan and the drawing, told in metric."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

import pytest

from lawnbook.plan.checklists import checklist_of
from lawnbook.plan.log_rows import label_of, log_of, spoken
from lawnbook.plan.make import make_plan
from lawnbook.plan.plain_plan import plain_plan
from lawnbook.plan.season_year import season_year
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.year_review import year_review
from lawnbook.reading import Reading, reading_as
from lawnbook.store.calendar_ics import calendar_bytes
from lawnbook.store.outlines_svg import svg_of
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from lawnbook.yard.record_log import ChecklistName
from tests.test_reading_texts import TODAY, US_UNIT

METRIC = Reading(units="metric")
NOT_TOLD = frozenset({"source", "sources", "source_key", "figure", "unit"})
"""Titles of sources, and keys."""


@pytest.fixture(scope="module", params=sample_yards(), ids=lambda path: path.stem)
def book(request: pytest.FixtureRequest) -> Notebook:
    """Each sample yard."""
    return load_any(request.param, TODAY)


def words(value: Any) -> Iterator[str]:
    """Every text that a value holds, those of workings and sources left out."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Working | Input):
        # Reckoned in US units, and said to be.
        return
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            if each.name not in NOT_TOLD:
                yield from words(getattr(value, each.name))
    elif isinstance(value, tuple | list):
        for each in value:
            yield from words(each)


def left(value: Any) -> list[str]:
    """The texts of a value in which a US unit stands."""
    return [each for each in words(value) if US_UNIT.search(each)]


def test_the_whole_plan_is_told_in_metric(book: Notebook) -> None:
    with reading_as(METRIC):
        assert left(make_plan(book, TODAY)) == []


def test_log_year_and_lists_are_told_in_metric(book: Notebook) -> None:
    with reading_as(METRIC):
        rows = log_of(book, TODAY)
        said = [each(book, row) for row in rows for each in (spoken, label_of)]
        assert said
        assert left(said) == []
        assert left(season_year(book, make_plan(book, TODAY), TODAY.year)) == []
        assert left(year_review(book, 2025, TODAY)) == []
        names: tuple[ChecklistName, ...] = ("spring start-up", "winter blow-out")
        for name in names:
            assert left(checklist_of(book, name, TODAY)) == []


def test_calendar_plain_plan_and_drawing_are_told_in_metric(book: Notebook) -> None:
    with reading_as(METRIC):
        plan = make_plan(book, TODAY)
        assert left(plain_plan(book, plan)) == []
        calendar = (
            calendar_bytes(book, plan, spreading_plan(book, TODAY)).decode().replace("\r\n ", "")
        )
        summaries = [line for line in calendar.splitlines() if line.startswith("SUMMARY")]
        assert summaries
        assert left(summaries) == []
        drawn, _ = svg_of(book)
        assert " m²" in drawn
        assert "sq ft" not in drawn
        assert " ft ·" not in drawn
