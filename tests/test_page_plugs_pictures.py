"""The pictures that the plugs page saves: as they stand on the screen, and named for any disk."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from lawnbook.charts.palette import PRINT
from lawnbook.desk.pages import chart_holder
from lawnbook.desk.pages.plugs_columns import ColumnsSection
from lawnbook.desk.pages.plugs_trend import TrendSection
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import Place
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import apply, put
from tests.page_book import click
from tests.trend_book import FRONT, SHED, TODAY, YARD, trend_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """A yard whose name and whose zone's name hold letters that a disk refuses."""
    notebook = trend_notebook()
    front = replace(notebook.zones["front"], name="Front: left/right")
    notebook = apply(notebook, put(notebook, "zones", front))
    made = OpenNotebook.create(tmp_path / "trend.lawnbook", notebook, TODAY)
    yield made
    made.close()


@pytest.mark.parametrize("place", [SHED, FRONT, YARD], ids=lambda place: place.kind)
@pytest.mark.parametrize("kind", [ColumnsSection, TrendSection])
def test_a_picture_saved_has_the_trend_that_is_shown(
    qtbot: QtBot,
    book: OpenNotebook,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    kind: type[ColumnsSection | TrendSection],
    place: Place,
) -> None:
    proposed: list[Path] = []

    def choose(_parent: object, start: Path) -> Path:
        proposed.append(start)
        return tmp_path / "saved.svg"

    monkeypatch.setattr(chart_holder, "choose_picture", choose)
    section = kind(book)
    qtbot.addWidget(section)
    section.show_plan(make_plan(book.notebook, TODAY), place)
    section.show()
    name = "profile_columns" if kind is ColumnsSection else "trend_chart"
    click(section, f"{name}_save")
    assert PRINT.accent in (tmp_path / "saved.svg").read_text()
    (start,) = proposed
    assert start.parent == tmp_path
    assert not set(':/\\"') & set(start.name)
    assert start.name.startswith("Test yard")
    assert start.name.count("Test yard") == 1
