"""The entry of a plug, by keys as a person would: replicates, places, drafts, days, photographs."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import cast

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QStyleOptionComboBox
from pytestqt.qtbot import QtBot

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.plan.next_plugs import NO_ROOM
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Core, Feature
from tests.desk_hand import child, press, shown, type_in, words
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton
ENTER = Qt.Key.Key_Return


@pytest.fixture
def page(qtbot: QtBot, book: OpenNotebook) -> PlugsPage:
    """The plugs page of Larkspur Corner at the spot letterbox."""
    made = PlugsPage(book)
    shown(qtbot, made, book)
    return made


def text(page: PlugsPage, name: str) -> str:
    """What stands in a field."""
    return cast(QLineEdit, child(page, name)).text()


def kept(book: OpenNotebook, on: date) -> list[Core]:
    """The plugs of a day."""
    return [each for each in book.notebook.cores.values() if each.date == on]


def test_a_second_plug_of_the_day_is_one_more_line(page: PlugsPage, book: OpenNotebook) -> None:
    first_hour = text(page, "cores_clock")
    type_in(page, "cores_resolution_in", "1/32")
    type_in(page, "cores_thatch_in", "5/8 11/16", ENTER)
    assert text(page, "cores_date") == "25 Nov 2026"
    assert text(page, "cores_resolution_in") == "1/32"
    assert text(page, "cores_thatch_in") == ""
    assert child(page, "cores_thatch_in").hasFocus()
    second_hour = text(page, "cores_clock")
    assert second_hour != first_hour
    press("0.7", ENTER)
    one, other = kept(book, DAY)
    assert (str(one.clock), str(other.clock)) == (first_hour, second_hour)
    assert one.ring_in == other.ring_in == 12
    assert one.spot == other.spot
    table = cast(RecordTable, child(page, "cores_list"))
    dates = [table.item(row, 0) for row in range(2)]
    told = sorted(each.text() for each in dates if each is not None)
    assert told == ["25 Nov 2026, 1 of 2", "25 Nov 2026, 2 of 2"]
    assert "plugs of 7 days, those of one day counted as one" in words(page, "plugs_figures")


def test_the_day_stays_for_replicates_and_not_after_an_old_plug_was_changed(
    page: PlugsPage, book: OpenNotebook
) -> None:
    type_in(page, "cores_date", "20 nov")
    type_in(page, "cores_thatch_in", "0.7", ENTER)
    assert text(page, "cores_date") == "20 Nov 2026"
    old = min(book.notebook.cores.values(), key=lambda each: each.date)
    page.columns.open_plug(old.id)
    type_in(page, "cores_note", "dry", ENTER)
    assert book.notebook.cores[old.id].note == "dry"
    assert text(page, "cores_date") == "25 Nov 2026"


def test_the_next_free_hour_is_proposed_in_words_and_a_clash_is_told(
    page: PlugsPage, book: OpenNotebook
) -> None:
    assert f"{text(page, 'cores_clock')} o'clock, 12 in from the mark" in words(page, "plug_place")
    spot = cast(QComboBox, child(page, "cores_spot")).currentData()
    old = next(each for each in book.notebook.cores.values() if each.spot == spot and each.clock)
    type_in(page, "cores_clock", str(old.clock))
    assert words(page, "plug_place").startswith("That is the hole of")
    # Told, not refused; and what the owner typed is not proposed over.
    type_in(page, "cores_thatch_in", "0.7", ENTER)
    assert [each.clock for each in kept(book, DAY)] == [old.clock]
    assert text(page, "cores_clock") != str(old.clock)


def test_an_hour_that_no_clock_has_is_refused_at_its_field(
    page: PlugsPage, book: OpenNotebook
) -> None:
    type_in(page, "cores_thatch_in", "0.7")
    type_in(page, "cores_clock", "13", ENTER)
    assert "enter 1 to 12" in words(page, "cores_clock_problem")
    assert (text(page, "cores_clock"), text(page, "cores_thatch_in")) == ("13", "0.7")
    assert words(page, "plug_place") == ""
    assert kept(book, DAY) == []


def test_a_spot_with_no_turf_round_its_mark_says_so(page: PlugsPage, book: OpenNotebook) -> None:
    spot = cast(QComboBox, child(page, "cores_spot")).currentData()
    x, y = book.notebook.spots[spot].at_ft or (0.0, 0.0)
    patch = Feature(id="dog", kind="pet patch", outline_ft=rectangle_ft((x - 3, y - 3), 6.0, 6.0))
    book.edit(put(book.notebook, "features", patch), "a pet patch")
    assert text(page, "cores_clock") == ""
    assert words(page, "plug_place") == NO_ROOM


def test_a_plug_of_long_ago_is_given_no_hour(page: PlugsPage, book: OpenNotebook) -> None:
    type_in(page, "cores_date", "4/2/2025")
    assert text(page, "cores_clock") == ""
    assert "if you know it" in words(page, "plug_place")
    type_in(page, "cores_thatch_in", "0.7", ENTER)
    (core,) = kept(book, date(2025, 4, 2))
    assert core.clock is None
    assert core.ring_in is None


def test_a_spot_taken_on_the_way_keeps_what_is_typed(page: PlugsPage, book: OpenNotebook) -> None:
    type_in(page, "cores_thatch_in", "0.7 0.8")
    type_in(page, "cores_note", "by the hedge")
    other = list(book.notebook.spots)[1]
    page.select("spots", other)
    assert cast(QComboBox, child(page, "cores_spot")).currentData() == other
    assert text(page, "cores_thatch_in") == "0.7 0.8"
    type_in(page, "cores_note", "by the hedge", ENTER)
    (core,) = kept(book, DAY)
    assert (core.spot, core.thatch_in) == (other, (0.7, 0.8))


def test_a_plug_half_entered_waits_while_a_kept_one_is_looked_at(
    page: PlugsPage, book: OpenNotebook
) -> None:
    type_in(page, "cores_thatch_in", "0.7 0.")
    type_in(page, "cores_note", "not yet do")
    child(page, "cores_sponge").setFocus()
    press("3")
    old = next(iter(book.notebook.cores))
    page.select("cores", old)
    assert text(page, "cores_note") == book.notebook.cores[old].note
    QTest.mouseClick(child(page, "cores_new"), LEFT)
    assert text(page, "cores_thatch_in") == "0.7 0."
    assert text(page, "cores_note") == "not yet do"
    assert page.columns.entry.panel.form.readable()["sponge"] == 3
    assert not page.columns.entry.panel.is_open


def test_readings_that_cannot_be_kept_are_not_told(page: PlugsPage) -> None:
    """Neither what cannot be read nor what is refused; the hint stands for an empty field."""
    told = []
    for typed in ("7/0", "75", "0.5"):
        type_in(page, "cores_thatch_in", typed)
        told.append(live_answer(page))
    cast(QLineEdit, child(page, "cores_thatch_in")).selectAll()
    QTest.keyClick(child(page, "cores_thatch_in"), Qt.Key.Key_Backspace)
    told.append(live_answer(page))
    assert told[:2] == ["", ""]
    assert told[2].startswith("Reading 0.50 in.")
    assert told[3].startswith("Three readings")


def live_answer(page: PlugsPage) -> str:
    """What is said of the readings as they are typed."""
    said = child(page, "cores_answer")
    assert isinstance(said, QLabel)
    return said.text()


def test_an_untreated_spot_is_named_whole_beside_the_closed_box(
    page: PlugsPage, book: OpenNotebook
) -> None:
    """The box has no room for the word; of a treated spot nothing is said."""
    said = child(page, "plug_untreated")
    spot = next(iter(book.notebook.spots.values()))
    assert said.isHidden() is not spot.comparison
    book.edit(put(book.notebook, "spots", replace(spot, comparison=True)), "leave it untreated")
    assert not said.isHidden()
    box = child(page, "cores_spot")
    assert isinstance(box, ChoiceBox)
    assert box.toolTip() == box.currentText() == f"{spot.name}, untreated"
    closed = QStyleOptionComboBox()
    box.initStyleOption(closed)
    assert closed.currentText == spot.name


@pytest.mark.parametrize("by_keys", [True, False])
def test_the_same_plug_is_asked_about_only_at_its_own_spot(
    page: PlugsPage, book: OpenNotebook, *, by_keys: bool
) -> None:
    """Another spot is chosen, in the box or on the sketch: the question under the day goes."""
    for _ in range(2):
        type_in(page, "cores_clock", "5")
        type_in(page, "cores_thatch_in", "0.7 0.8", ENTER)
    assert "already entered at this spot" in words(page, "cores_date_problem")
    box = cast(QComboBox, child(page, "cores_spot"))
    here = box.currentData()
    if by_keys:
        box.setFocus()
        press(Qt.Key.Key_Down)
    else:
        page.select("spots", next(each for each in book.notebook.spots if each != here))
    assert box.currentData() != here
    assert words(page, "cores_date_problem") == ""
    assert text(page, "cores_thatch_in") == "0.7 0.8"


@pytest.mark.parametrize(
    ("typed", "length", "asked"),
    [("3 3 3", "2", "beyond the plug"), ("0.5 1.8", "6", "differ by")],
)
def test_doubtful_readings_are_asked_and_stay_typed(
    page: PlugsPage, book: OpenNotebook, typed: str, length: str, asked: str
) -> None:
    count = len(book.notebook.cores)
    type_in(page, "cores_core_depth_in", length)
    type_in(page, "cores_thatch_in", typed, ENTER)
    assert asked in words(page, "cores_thatch_in_problem")
    assert text(page, "cores_thatch_in") == typed
    assert len(book.notebook.cores) == count
    press(Qt.Key.Key_Space)
    QTest.mouseClick(child(page, "cores_keep"), LEFT)
    assert len(book.notebook.cores) == count + 1


def test_the_cameras_day_fills_the_date_unless_one_was_typed(page: PlugsPage) -> None:
    tray = page.columns.entry.tray
    tray.date_proposed.emit(date(2026, 11, 21))
    assert text(page, "cores_date") == "21 Nov 2026"
    assert words(page, "plug_date_words").startswith("Day taken from the photo: 21 Nov 2026.")
    told = cast(QLabel, child(page, "plug_date_words"))
    QApplication.processEvents()
    assert told.height() < 2 * told.fontMetrics().lineSpacing(), "one line where there is room"
    type_in(page, "cores_date", "20 nov")
    assert words(page, "plug_date_words") == ""
    tray.date_proposed.emit(date(2026, 11, 21))
    assert text(page, "cores_date") == "20 nov"
    assert "the day entered stays" in words(page, "plug_date_words")
    QTest.mouseClick(child(page, "plug_take_date"), LEFT)
    assert text(page, "cores_date") == "21 Nov 2026"


def test_a_plug_and_its_photographs_are_one_change(
    qtbot: QtBot, page: PlugsPage, book: OpenNotebook, tmp_path: Path
) -> None:
    before = book.notebook
    picture = tmp_path / "plug.jpg"
    Image.new("RGB", (320, 240), (120, 90, 60)).save(picture)
    tray = page.columns.entry.tray
    with qtbot.waitSignal(tray.changed, timeout=9000):
        tray.add_files([picture])
    type_in(page, "cores_thatch_in", "0.7", ENTER)
    (core,) = kept(book, DAY)
    added = [each for key, each in book.notebook.photos.items() if key not in before.photos]
    assert [each.core for each in added] == [core.id]
    assert tray.photos_for("any") == ()
    book.undo()
    assert book.notebook == before


def test_photographs_of_a_new_plug_do_not_go_with_a_kept_one_that_is_changed(
    qtbot: QtBot, page: PlugsPage, book: OpenNotebook, tmp_path: Path
) -> None:
    picture = tmp_path / "plug.png"
    Image.new("RGB", (64, 48), (120, 90, 60)).save(picture)
    tray = page.columns.entry.tray
    with qtbot.waitSignal(tray.changed, timeout=9000):
        tray.add_files([picture])
    old, before = next(iter(book.notebook.cores)), book.notebook
    page.columns.open_plug(old)
    type_in(page, "cores_note", "again", ENTER)
    assert book.notebook.cores[old].note == "again"
    assert book.notebook.photos == before.photos
    assert len(tray.photos_for("any")) == 1


def test_readings_off_a_photograph_fill_the_form(page: PlugsPage, book: OpenNotebook) -> None:
    page.columns.entry.tray.readings.emit(
        {"thatch_in": (0.5, 0.75), "root_depth_in": 4.0, "resolution_in": 0.02}
    )
    assert text(page, "cores_thatch_in") == "0.5 0.75"
    type_in(page, "cores_note", "off the photo", ENTER)
    (core,) = kept(book, DAY)
    assert (core.thatch_in, core.root_depth_in, core.resolution_in) == ((0.5, 0.75), 4.0, 0.02)


def test_the_rulers_of_most_drawers_are_offered(page: PlugsPage) -> None:
    field = child(page, "cores_resolution_in")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    menu = child(page, "cores_resolution_in_presets")
    assert menu.isVisible()
    # It opens at the ruler that is held, sixteenths.
    for _ in range(2):
        QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, ENTER)
    assert page.columns.entry.panel.form.readable()["resolution_in"] == pytest.approx(1 / 25.4)
