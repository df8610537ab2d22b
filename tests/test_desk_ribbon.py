"""The ribbon's legend: the signs in it have the colours of the marks on the strip."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.date_strip import AXIS_Y, Years
from lawnbook.desk.ribbon import DateRibbon
from lawnbook.desk.theme import apply_theme
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import ClimateMonth, Core, Feeding, Product, Spot, Zone

TODAY = date(2026, 6, 15)
SIGNS = ("plug", "feeding", "weather for growth")


def dated() -> Notebook:
    """A notebook with a plug, a feeding and a climate."""
    notebook = new_notebook("Ribbon")
    months = [ClimateMonth(id=f"m{m}", month=m, tmean_f=64.0) for m in range(1, 13)]
    for table, rows in (
        ("zones", [Zone(id="z", name="Front", outline_ft=((0, 0), (9, 0), (9, 9)))]),
        ("spots", [Spot(id="s", name="Elm", zone="z")]),
        ("cores", [Core(id="c", spot="s", date=date(2025, 9, 1), thatch_in=(0.4,))]),
        ("products", [Product(id="p", name="Prills", n_pct=20.0)]),
        ("feedings", [Feeding(id="f", date=date(2026, 3, 1), product="p", pounds={"z": 1.0})]),
        ("climate", months),
    ):
        notebook = apply(notebook, put(notebook, table, *rows))
    return notebook


def legend_of(ribbon: DateRibbon) -> QLabel:
    legend = ribbon.findChild(QLabel, "ribbon_legend")
    assert isinstance(legend, QLabel)
    return legend


def colours_in(image: QImage) -> set[str]:
    return {
        QColor(image.pixel(QPoint(x, y))).name()
        for x in range(image.width())
        for y in range(image.height())
    }


def row_of(image: QImage, y: int) -> list[int]:
    return [image.pixel(x, y) for x in range(image.width())]


def dress(name: str) -> None:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, "dark" if name == "dark" else "light")
    QApplication.processEvents()


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda each: each.name)
def test_every_sign_of_the_legend_has_the_colour_of_its_marks(
    qtbot: QtBot, palette: Palette
) -> None:
    """The theme is turned while the ribbon is shown, so that its colours must follow."""
    dress("light" if palette is DARK else "dark")
    ribbon = DateRibbon(dated(), TODAY)
    qtbot.addWidget(ribbon)
    ribbon.resize(700, 90)
    ribbon.show()
    dress(palette.name)
    signs = [part.split('"')[0] for part in legend_of(ribbon).text().split("color:")[1:]]
    assert len(signs) == len(SIGNS)
    assert palette.feed in signs
    painted = colours_in(ribbon.strip.grab().toImage())
    assert set(signs) <= painted


def test_the_legend_tells_only_what_is_on_the_strip_and_reads_without_its_signs(
    qtbot: QtBot,
) -> None:
    dress("light")
    ribbon = DateRibbon(dated(), TODAY)
    qtbot.addWidget(ribbon)
    assert legend_of(ribbon).accessibleName() == ", ".join(SIGNS)
    ribbon.show_notebook(new_notebook("Empty"))
    assert legend_of(ribbon).text() == ""


def test_a_year_is_read_below_the_marks_of_its_feedings(qtbot: QtBot) -> None:
    dress("light")
    ribbon = DateRibbon(dated(), TODAY)
    qtbot.addWidget(ribbon)
    ribbon.resize(700, 90)
    ribbon.show()
    fed, unfed = (
        Years(date(2025, 1, 1), date(2026, 12, 31), feedings=days)
        for days in ((date(2025, 1, 12), date(2025, 1, 24)), ())
    )
    ribbon.strip.show_years(unfed, TODAY)
    bare = ribbon.strip.grab().toImage()
    ribbon.strip.show_years(fed, TODAY)
    marked = ribbon.strip.grab().toImage()
    rows = [row_of(marked, y) for y in range(marked.height())]
    lowest = max(y for y, row in enumerate(rows) if row != row_of(bare, y))
    ground, ends = bare.pixel(40, 2), range(12, 60)
    year = [y for y in range(bare.height()) if any(bare.pixel(x, y) != ground for x in ends)]
    assert lowest < min(y for y in year if y > AXIS_Y + 1)
    assert max(year) < bare.height() - 1
