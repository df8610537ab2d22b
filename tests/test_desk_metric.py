"""The window in metric: no word of it in US units, fields read by the owner's, the switch undone.

Each unit is held against its definition (NIST Handbook 44, appendix C): 25.4 mm in an inch,
0.3048 m in a foot, 3.785411784 L in a gallon, 0.45359237 kg in a pound.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QMenu
from pytestqt.qtbot import QtBot

from lawnbook.desk.forms import RecordForm
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.colour_scales import SCALES
from lawnbook.desk.sketch.grid import grid_steps
from lawnbook.desk.sketch.habits import Habits, steps_of
from lawnbook.desk.spread import TABS
from lawnbook.desk.telling import tell_anew
from lawnbook.desk.window import BookWindow
from lawnbook.reading import Units, read_in, reading
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import (
    CatchTest,
    Core,
    Product,
    Record,
    SprayerRun,
    Watering,
    WeatherDay,
    Yard,
    Zone,
)
from tests.desk_sample import samples
from tests.words_walk import US_UNITS, places, settle, words_of

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

ON = date(2026, 6, 15)
MM, M, L, KG = 25.4, 0.3048, 3.785411784, 0.45359237

MAY_SAY = (
    "convert_",  # turns either system into the other
    "mix_1_unit",  # what an ingredient is measured by: any kitchen measure
    "rule_example",  # names of published rules
    "ledger_us",  # the ledger's own switch
    "tables_list",  # the tables' columns stay in US units: files are stable
    "release_sources",  # titles of sources
    "mix_add_",
)
"""Where US units may be named to a metric reader."""


@pytest.fixture(autouse=True)
def _read_in_us_afterwards() -> Iterator[None]:
    yield
    read_in("us")


@contextmanager
def opened(notebook: Notebook, folder: Path, units: Units) -> Iterator[BookWindow]:
    """A window on a copy of a notebook that is read in these units."""
    copy = replace(notebook, yard=replace(notebook.yard, units=units))
    book = OpenNotebook.create(folder / f"{units}.lawnbook", copy, ON)
    window = BookWindow(book, Settings(folder / "settings.ini"))
    window.resize(1440, 900)
    window.show()
    settle()
    try:
        yield window
    finally:
        window.close()
        window.deleteLater()
        settle()


def said(window: BookWindow) -> dict[str, set[tuple[str, str]]]:
    """All words that are seen, by where they stand."""
    window.select("zones", next(iter(window.book.notebook.zones)))
    settle()
    return {place: set(words_of(window, shown=True)) for place in places(window)}


def us_words(window: BookWindow) -> set[str]:
    """Words in US units that stand anywhere in a window, seen or not, where they may not."""
    return {
        f"{where}: {text}"
        for where, text in words_of(window)
        if US_UNITS.search(text) and not any(each in where for each in MAY_SAY)
    }


def test_no_word_of_a_southern_window_is_in_us_units(tmp_path: Path) -> None:
    """Every tab and section, once all of them have been shown."""
    with opened(samples()["saltbush_court"], tmp_path, "metric") as window:
        window.select("zones", next(iter(window.book.notebook.zones)))
        assert len(list(places(window))) > len(TABS)
        assert not us_words(window)


def test_a_switch_tells_all_as_a_window_opened_so_would(tmp_path: Path) -> None:
    """What is said after the switch is what is said to who opens the book in metric: no US unit."""
    notebook = samples()["larkspur_corner"]
    (tmp_path / "fresh").mkdir()
    with opened(notebook, tmp_path / "fresh", "metric") as window:
        fresh = said(window)
        assert not us_words(window)
    with opened(notebook, tmp_path, "us") as window:
        before = said(window)
        last = list(before)[-1]
        window.units.choose("metric")
        settle()
        for place, words in said(window).items():
            assert (place, told(words)) == (place, told(fresh[place]))
        window.undo()
        settle()
        assert told(set(words_of(window, shown=True))) == told(before[last])


def told(words: set[tuple[str, str]]) -> set[tuple[str, str]]:
    """Without what tells the book's file and what undo would take back."""
    apart = ("status_", "yard_page<book_spread<book_window text")
    return {(where, text) for where, text in words if not any(each in where for each in apart)}


FIELDS = [
    (Yard, "elevation_ft", "100", 100 / M),
    (Yard, "target_depth_in", "25.4", 1.0),
    (Yard, "target_depth_in", "1 1/4", 1.25),
    (Yard, "max_gpm", "37.85411784", 10.0),
    (Yard, "water_price_per_kgal", "2", 2 * L),
    (Zone, "precipitation_in_per_h", "12.7", 0.5),
    (Zone, "annual_n_lb_per_1000", "10", 10 / (KG * 1000) * 1000 * M**2),
    (Zone, "mow_height_in", "76.2", 3.0),
    (CatchTest, "pressure_psi", "300", 300 / 6.894757293168),
    (CatchTest, "can_mouth_sqin", "64.516", 10.0),
    (Product, "bag_lb", "20", 20 / KG),
    (Product, "jug_gal", "2.5", 2.5 / L),
    (Product, "density_lb_per_gal", "1.2", 1.2 / KG * L),
    (SprayerRun, "area_sqft", "100", 100 / M**2),
    (WeatherDay, "tmin_f", "10", 50.0),
    (WeatherDay, "wind_mph", "4.4704", 10.0),
    (Core, "thatch_in", "12.7 25.4", (0.5, 1.0)),
    (Core, "root_depth_in", "6 in", 6.0),
]
"""Fields of each unit: what a metric reader types, and what is stored."""


@pytest.mark.parametrize(("kind", "name", "text", "stored"), FIELDS)
def test_what_a_metric_reader_types_is_stored_in_us_units(
    qtbot: QtBot, kind: type[Record], name: str, text: str, stored: object
) -> None:
    read_in("metric")
    form = RecordForm(kind, (name,), lambda _: ())
    qtbot.addWidget(form)
    field = form.editor(name)
    assert isinstance(field, QLineEdit)
    field.selectAll()
    QTest.keyClicks(field, text)
    assert form.values()[name] == pytest.approx(stored, rel=1e-6)


@pytest.mark.parametrize(("kind", "name", "text", "stored"), FIELDS)
def test_a_field_that_is_not_touched_gives_back_its_value_through_every_switch(
    qtbot: QtBot, kind: type[Record], name: str, text: str, stored: object
) -> None:
    del text
    form = RecordForm(kind, (name,), lambda _: ())
    qtbot.addWidget(form)
    form.set_value(name, stored)
    field = form.editor(name)
    assert isinstance(field, QLineEdit)
    in_us = field.text()
    read_in("metric")
    tell_anew(form)
    assert field.text() != in_us
    assert not US_UNITS.search(field.accessibleName())
    assert form.values()[name] == stored
    read_in("us")
    tell_anew(form)
    assert (field.text(), form.values()[name]) == (in_us, stored)


@pytest.mark.parametrize(
    ("text", "in_metric"), [("0.5", "0.5 in"), ("1 1/", "1 1/"), ("22 mm", "22"), ("", "")]
)
def test_what_is_half_typed_means_what_it_did(qtbot: QtBot, text: str, in_metric: str) -> None:
    """A bare number keeps its unit; what cannot be read stays as it is."""
    form = RecordForm(Watering, ("depth_in",), lambda _: ())
    qtbot.addWidget(form)
    field = form.editor("depth_in")
    assert isinstance(field, QLineEdit)
    QTest.keyClicks(field, text)
    meant = form.readable().get("depth_in")
    switches: tuple[tuple[Units, str | None], ...]
    switches = (("metric", in_metric), ("us", None), ("metric", in_metric))
    for units, shown in switches:
        read_in(units)
        tell_anew(form)
        assert form.readable().get("depth_in") == pytest.approx(meant)
        assert shown is None or field.text() == shown


@pytest.fixture
def window(tmp_path: Path) -> Iterator[BookWindow]:
    """A window read in US units."""
    with opened(samples()["larkspur_corner"], tmp_path, "us") as made:
        yield made


def pick_units(window: BookWindow, key: Qt.Key) -> None:
    """View, Units and a system, by their underlined letters."""
    window.activateWindow()
    QTest.keyClick(window, Qt.Key.Key_V, Qt.KeyboardModifier.AltModifier)
    for letter in (Qt.Key.Key_U, key):
        settle()
        menu = QApplication.activePopupWidget()
        assert isinstance(menu, QMenu)
        QTest.keyClick(menu, letter)
    settle()


def test_the_units_are_switched_by_keys_and_undone(window: BookWindow) -> None:
    """It is an edit of the notebook like any other, and nothing else in it changes."""
    before = window.book.notebook
    pick_units(window, Qt.Key.Key_M)
    assert (window.book.notebook.yard.units, reading().units) == ("metric", "metric")
    assert window.book.notebook == replace(before, yard=replace(before.yard, units="metric"))
    assert window.book.undo_label == "units"
    assert "m²" in subtitle(window)
    QTest.keyClick(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    settle()
    assert (window.book.notebook, reading().units) == (before, "us")
    assert "sq ft" in subtitle(window)


def subtitle(window: BookWindow) -> str:
    return " ".join(text for _, text in words_of(window, shown=True) if "of grass" in text)


def test_the_yards_form_switches_too(window: BookWindow) -> None:
    window.turn_to("Yard")
    page = window.page("Yard")
    assert isinstance(page, YardPage)
    page.turn_to("Overview")
    settle()
    box = window.findChild(QComboBox, "yard_units")
    depth = window.findChild(QLineEdit, "yard_target_depth_in")
    assert isinstance(box, QComboBox)
    assert isinstance(depth, QLineEdit)
    assert depth.text() == "1"
    box.setFocus()
    QTest.keyClicks(box, "M")
    box.activated.emit(box.currentIndex())
    settle()
    assert window.book.notebook.yard.units == "metric"
    assert depth.text() == "25.4"
    assert window.book.notebook.yard.target_depth_in == 1.0


def test_what_is_being_typed_into_an_entry_outlives_the_switch(window: BookWindow) -> None:
    window.turn_to("Water")
    page = window.page("Water")
    assert isinstance(page, WaterPage)
    page.turn_to("Records")
    settle()
    field = window.findChild(QLineEdit, "waterings_depth_in")
    assert isinstance(field, QLineEdit)
    field.setFocus()
    QTest.keyClicks(field, "0.5")
    pick_units(window, Qt.Key.Key_M)
    assert field.text() == "0.5 in"
    pick_units(window, Qt.Key.Key_U)
    assert field.text() == "0.5"


def test_the_sketch_is_drawn_to_metres(window: BookWindow) -> None:
    """Grid, scale bar and the steps of the arrow keys are round in metres."""
    window.units.choose("metric")
    settle()
    fine, coarse = grid_steps(window.sketch.view.px_per_ft)
    assert (fine * M, coarse * M) == pytest.approx((1.0, 5.0))
    assert window.sketch.over.scale.words() == "5 m"
    assert [step * M for step in steps_of(Habits())] == pytest.approx([0.25, 0.05])
    assert steps_of(Habits(step_ft=2.0))[0] == 2.0
    snap = window.sketch.control.snapper(window.sketch.view.px_per_ft**-1)
    assert snap.grid_ft * M == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("by", "title", "borders"),
    [
        ("Thatch", "Thatch, mm", ("6", "13", "19", "25")),
        ("Rooted soil", "Rooted soil, mm", ("51", "102", "152", "203")),
        ("Fed in 30 days", "Nitrogen of the last 30 days, g/m²", ("0.5", "1.5", "2.9", "4.9")),
    ],
)
def test_the_legend_is_told_in_metric(by: str, title: str, borders: tuple[str, ...]) -> None:
    read_in("metric")
    assert SCALES[by].told() == (title, borders)


def test_a_book_is_read_in_its_own_units(tmp_path: Path) -> None:
    with opened(samples()["larkspur_corner"], tmp_path, "metric"):
        assert reading().units == "metric"
    (tmp_path / "next").mkdir()
    with opened(samples()["larkspur_corner"], tmp_path / "next", "us"):
        assert reading().units == "us"
