"""Charts as they are heard: the summary on the canvas, and with a picture that is saved."""

import xml.etree.ElementTree as ET
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from lawnbook.charts.figures import profile_drawing, profile_figure
from lawnbook.charts.palette import Palette
from lawnbook.charts.told_plugs import profile_summary
from lawnbook.desk.pages.chart_holder import ChartHolder, Export
from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from tests.desk_hand import child, press, shown
from tests.desk_sample import DAY
from tests.plan_fixture import plugs, spot_of

if TYPE_CHECKING:
    from matplotlib.figure import Figure

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
SPOT = spot_of(plugs(5))
SVG = "{http://www.w3.org/2000/svg}"


def draw(palette: Palette, figure: "Figure | None") -> "Figure":
    """Five plugs."""
    return profile_figure(SPOT, palette, figure)


def test_the_columns_are_summed_up_before_they_are_told_one_by_one(
    qtbot: QtBot, book: OpenNotebook
) -> None:
    """The page's chart begins with the summary, which ends in the plan's own verdict."""
    page = PlugsPage(book)
    shown(qtbot, page, book)
    qtbot.waitUntil(
        lambda: page.findChild(QWidget, "profile_columns_canvas") is not None, timeout=9000
    )
    spot = next(each for each in make_plan(book.notebook, DAY).thatch if each.spot == "letterbox")
    summary = profile_summary(spot)
    assert spot.verdict in summary
    assert child(page, "profile_columns_canvas").accessibleDescription().startswith(summary)


def test_a_saved_picture_carries_its_words(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The link beneath a chart, pressed by keys: title and description are in the file."""
    target = tmp_path / "columns.svg"
    monkeypatch.setattr(
        "lawnbook.desk.pages.chart_holder.choose_picture", lambda _parent, _start: target
    )
    holder = ChartHolder("columns", "Profile columns")
    qtbot.addWidget(holder)
    holder.resize(500, 320)
    export = Export(profile_drawing(SPOT), (432.0, 288.0), tmp_path / "columns.png")
    holder.show_chart(draw, profile_summary(SPOT), None, export)
    holder.show()
    qtbot.waitUntil(lambda: holder.findChild(QWidget, "columns_canvas") is not None, timeout=9000)
    child(holder, "columns_save").setFocus()
    QTest.qWait(1)
    press(" ")
    root = ET.parse(target).getroot()
    assert root.findtext(f"{SVG}title") == "Profile columns"
    assert root.findtext(f"{SVG}desc") == profile_summary(SPOT)
