"""Settings on one page: each choice at once, remembered, its default named, and taken back."""

from collections.abc import Iterator
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import QPoint, Qt, QUrl
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.leaf_settings import SettingsLeaf
from lawnbook.desk.leaves import open_leaf
from lawnbook.desk.looks import Looks, is_still
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.habits import Habits
from lawnbook.desk.theme import palette, points
from lawnbook.desk.welcome import WelcomeWindow
from lawnbook.desk.widgets import Caption
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from tests.leaf_hand import Host, child

pytest_plugins = ["tests.desk_book", "tests.leaf_book"]

LEFT = Qt.MouseButton.LeftButton
LOOKS = [
    ("theme", "Dark", Looks(theme="dark")),
    ("contrast", "High", Looks(contrast="high")),
    ("scale_percent", "150 %", Looks(scale_percent=150)),
    ("motion", "Left out", Looks(motion="still")),
]


@pytest.fixture
def leaf(host: Host) -> SettingsLeaf:
    """The page beside a window without a book."""
    return cast(SettingsLeaf, open_leaf(host, "settings"))


@pytest.fixture
def window(
    qtbot: QtBot, dressed: QApplication, book: OpenNotebook, settings: Settings
) -> Iterator[BookWindow]:
    made = BookWindow(book, settings)
    made.show()
    qtbot.waitUntil(lambda: made.held_plan is not None)
    yield made
    made.close()
    made.deleteLater()


def choose(leaf: QWidget, name: str, words: str) -> None:
    """Take a value of a list by the keyboard, as its first letters are typed."""
    box = cast(QComboBox, child(leaf, f"setting_{name}"))
    box.setFocus()
    row = [box.itemText(each) for each in range(box.count())].index(words)
    while box.currentIndex() != row:
        down = box.currentIndex() < row
        QTest.keyClick(box, Qt.Key.Key_Down if down else Qt.Key.Key_Up)
    QApplication.processEvents()


def click(leaf: QWidget, name: str) -> None:
    QTest.mouseClick(child(leaf, f"setting_{name}"), LEFT)


def tick(leaf: QWidget, name: str) -> None:
    box = child(leaf, f"setting_{name}")
    QTest.mouseClick(box, LEFT, pos=QPoint(12, box.height() // 2))


def type_into(leaf: QWidget, name: str, text: str) -> QLineEdit:
    field = cast(QLineEdit, child(leaf, f"setting_{name}"))
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    return field


@pytest.mark.parametrize(("name", "words", "wanted"), LOOKS)
def test_looks_are_worn_at_once_and_remembered(
    leaf: SettingsLeaf, settings: Settings, tmp_path: Path, name: str, words: str, wanted: Looks
) -> None:
    choose(leaf, name, words)
    assert settings.looks == wanted
    assert Settings(tmp_path / "desk.ini").looks == wanted
    assert palette().is_dark == (wanted.theme == "dark")
    assert points(10) == 10 * wanted.scale_percent / 100
    if wanted.motion == "still":
        assert is_still()


def test_language_and_paper_are_kept_and_the_next_start_is_said(
    leaf: SettingsLeaf, settings: Settings, tmp_path: Path
) -> None:
    assert settings.language == "system"
    choose(leaf, "language", "Español")
    assert Settings(tmp_path / "desk.ini").language == "es"
    assert leaf.foot.text() == "Takes effect the next time Lawnbook is opened."
    choose(leaf, "paper", "A4")
    tick(leaf, "workings")
    assert (settings.paper, settings.workings) == ("a4", True)


def test_the_sheet_that_is_looked_at_follows_paper_and_workings(window: BookWindow) -> None:
    page = window.open_sheet()
    QApplication.processEvents()
    leaf = open_leaf(window, "settings")
    choose(leaf, "paper", "A4")
    tick(leaf, "workings")
    assert cast(QPushButton, child(page, "paper_a4")).isChecked()
    assert cast(QPushButton, child(page, "sheet_workings")).isChecked()
    leaf.close()


def units_of(window: BookWindow) -> str:
    return window.book.notebook.yard.units


def test_units_are_an_edit_of_the_notebook_that_undo_takes_back(window: BookWindow) -> None:
    leaf = open_leaf(window, "settings")
    choose(leaf, "units", "Metric")
    assert units_of(window) == "metric"
    window.undo()
    assert units_of(window) == "us"
    box = cast(QComboBox, child(leaf, "setting_units"))
    assert box.currentText() == "US customary"
    leaf.close()


def test_without_a_book_there_are_no_units_to_choose(leaf: SettingsLeaf) -> None:
    assert not child(leaf, "setting_units").isEnabled()
    told = [each.text() for each in leaf.findChildren(QLabel)]
    assert "Each notebook has its own: open one first." in told


def test_the_open_sketch_draws_by_the_habits_at_once(
    window: BookWindow, settings: Settings
) -> None:
    leaf = open_leaf(window, "settings")
    type_into(leaf, "step_ft", "2'")
    type_into(leaf, "grid_ft", '6"')
    tick(leaf, "snaps")
    wanted = Habits(step_ft=2.0, grid_ft=0.5, snaps=False)
    assert window.sketch.control.habits == wanted
    assert settings.habits == wanted
    field = type_into(leaf, "step_ft", "5000 ft")
    said = cast(QLabel, child(leaf, "setting_habits_said"))
    assert "Step: a step is from" in said.text()
    assert field.property("state") == "refuse"
    assert window.sketch.control.habits == wanted
    type_into(leaf, "step_ft", "3'")
    assert said.text() == ""
    assert window.sketch.control.habits.step_ft == 3.0
    leaf.close()


def test_what_is_changed_on_the_sketch_is_shown_when_the_leaf_is_turned_to(
    window: BookWindow,
) -> None:
    leaf = cast(SettingsLeaf, open_leaf(window, "settings"))
    window.sketch.control.habits = Habits(step_ft=4.0)
    leaf.refresh()
    assert cast(QLineEdit, child(leaf, "setting_step_ft")).text() == "4'"
    leaf.close()


def test_steps_and_their_defaults_are_told_in_the_units_of_the_notebook(
    window: BookWindow,
) -> None:
    leaf = open_leaf(window, "settings")
    field = cast(QLineEdit, child(leaf, "setting_step_ft"))
    assert field.text() == "1'"
    choose(leaf, "units", "Metric")
    assert field.text() == "0.25 m"
    told = [each.text() for each in leaf.findChildren(QLabel)]
    assert "At first: 0.25 m" in told
    assert field.accessibleDescription() == "At first: 0.25 m"
    choose(leaf, "units", "US customary")
    leaf.close()


def test_the_folder_for_new_notebooks_is_chosen(
    leaf: SettingsLeaf, settings: Settings, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wanted = tmp_path / "lawn"
    wanted.mkdir()
    monkeypatch.setattr("lawnbook.desk.leaf_settings.choose_folder", lambda *_: wanted)
    click(leaf, "choose_folder")
    assert settings.folder == wanted
    assert leaf.folder.accessibleName() == str(wanted)


def test_the_folder_of_earlier_copies_is_opened_or_said_to_be_empty(
    leaf: SettingsLeaf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[str] = []

    def show(url: QUrl) -> bool:
        opened.append(url.toLocalFile())
        return True

    monkeypatch.setattr("lawnbook.desk.leaf_settings.QDesktopServices.openUrl", show)
    leaf.open_folder(tmp_path / "none")
    assert leaf.foot.text() == "Nothing is kept there yet."
    leaf.open_folder(tmp_path)
    assert opened == [str(tmp_path)]


def test_the_list_of_recent_notebooks_is_emptied_and_had_back(
    host: Host, settings: Settings, tmp_path: Path
) -> None:
    paths = [tmp_path / f"{name}.lawnbook" for name in "abc"]
    for path in paths:
        path.write_text("kept")
        settings.remember(path)
    before = settings.recent
    leaf = cast(SettingsLeaf, open_leaf(host, "settings"))
    click(leaf, "clear_recent")
    assert settings.recent == ()
    assert not child(leaf, "setting_clear_recent").isEnabled()
    assert all(path.is_file() for path in paths)
    click(leaf, "undo")
    assert settings.recent == before
    assert leaf.undo.isHidden()


def test_everything_back_to_how_it_was_at_first_and_taken_back_by_key(
    leaf: SettingsLeaf, settings: Settings, tmp_path: Path
) -> None:
    choose(leaf, "theme", "Dark")
    choose(leaf, "language", "English")
    type_into(leaf, "step_ft", "2'")
    held = dict(settings.preferences())
    settings.keep_place(tmp_path / "a.lawnbook", "Water", "Year", "")
    click(leaf, "all_back")
    assert settings.looks == Looks()
    assert settings.habits == Habits()
    assert settings.preferences() == {}
    assert settings.place_of(tmp_path / "a.lawnbook") == ("Water", "Year", "")
    QTest.keyClick(leaf, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert dict(settings.preferences()) == held
    assert palette().is_dark


def test_every_setting_names_its_default(leaf: SettingsLeaf) -> None:
    told = [each.text() for each in leaf.findChildren(QLabel)]
    assert sum(each.startswith("At first: ") for each in told) >= 13


def test_settings_open_beside_the_welcome_page_by_key(
    qtbot: QtBot, dressed: QApplication, settings: Settings
) -> None:
    page = WelcomeWindow(settings)
    page.show()
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    QTest.keyClick(page, Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    leaf = child(page, "leaf_settings")
    assert leaf.isVisible()
    leaf.close()
    page.close()
    page.deleteLater()


@pytest.mark.parametrize("text", ["", "x", "ten", "-1", "1e99"])
def test_settings_that_cannot_be_read_are_as_at_first(tmp_path: Path, text: str) -> None:
    path = tmp_path / "desk.ini"
    names = ("language", "paper", "theme", "version_seen", "places")
    lines = [f"{name}={text}" for name in names] + ["[looks]", f"scale_percent={text}"]
    path.write_text("\n".join(["[General]", *lines]) + "\n")
    read = Settings(path)
    assert (read.language, read.paper, read.theme) == ("system", "letter", "system")
    assert 100 <= read.looks.scale_percent <= 200
    assert read.place_of(tmp_path / "a") == ("", "", "")


def test_a_notebook_that_was_away_is_among_the_recent_ones_again(
    settings: Settings, tmp_path: Path
) -> None:
    away, other = tmp_path / "stick.lawnbook", tmp_path / "other.lawnbook"
    for path in (away, other):
        path.touch()
        settings.remember(path)
    away.rename(tmp_path / "unplugged")
    settings.remember(other)
    assert list(settings.recent) == [other]
    (tmp_path / "unplugged").rename(away)
    assert list(settings.recent) == [other, away]


def test_the_card_says_what_will_stand_in_it_once_the_last_notebook_is_gone(
    qtbot: QtBot, settings: Settings, tmp_path: Path
) -> None:
    path = tmp_path / "home.lawnbook"
    path.touch()
    settings.remember(path)
    page = WelcomeWindow(settings)
    qtbot.addWidget(page)
    page.show()
    qtbot.waitExposed(page)
    path.unlink()
    page.refresh()
    qtbot.wait(20)
    (said,) = (
        each for each in page.findChildren(Caption) if each.text().startswith("Notebooks you open")
    )
    assert not said.visibleRegion().isEmpty()
    assert said.visibleRegion().boundingRect().height() >= said.sizeHint().height()
