"""Menus and keys: what F1 lists, printing and saving from anywhere, and the ways to quit."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAction, QFont, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QWidget,
)
from pytestqt.qtbot import QtBot

from lawnbook.desk.key_list import KEYS, keys_table
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.labels import LabelItem
from lawnbook.desk.sketch.toolbox import TOOLS
from lawnbook.desk.theme import sans
from lawnbook.desk.welcome import WelcomeWindow
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create, yard_name
from lawnbook.yard.notebook import new_notebook, put
from tests.desk_sample import DAY, sample

pytest_plugins = ["tests.desk_book"]

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(
    qtbot: QtBot, dressed: QApplication, book: OpenNotebook, settings: Settings
) -> Iterator[BookWindow]:
    made = BookWindow(book, settings)
    made.resize(1440, 900)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    yield made
    made.close()
    made.deleteLater()


def child(window: QWidget, name: str) -> QWidget:
    found = window.findChild(QWidget, name)
    assert found is not None, name
    return found


def action(window: BookWindow, text: str) -> QAction:
    return next(a for a in window.findChildren(QAction) if a.text().replace("&", "") == text)


def test_f1_lists_every_tools_key_and_every_menus(window: BookWindow) -> None:
    text = keys_table()
    assert "the last day" not in text
    sketch = dict(next(lines for where, *lines in KEYS if where == "On the sketch"))
    tools = ", ".join(key.name.removeprefix("Key_") for key in TOOLS.values())
    assert sketch[tools] == ", ".join(TOOLS)
    for each in window.findChildren(QAction):
        for keys in each.shortcuts():
            shown = keys.toString()
            listed = re.sub(r"Ctrl\+[1-6]$", "Ctrl+1 to Ctrl+6", shown)
            assert listed in text or shown in ("F1", "Ctrl+E", "Ctrl+Y"), shown


def test_the_sheet_is_saved_from_any_page_under_the_yards_name(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    starts: list[Path] = []

    def choose(_parent: QWidget, start: Path) -> Path:
        starts.append(start)
        return tmp_path / "plan.pdf"

    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", choose)
    window.turn_to("Plugs")
    action(window, "Save the sheet as PDF…").trigger()
    assert window.place == "Sheet"
    assert (tmp_path / "plan.pdf").read_bytes().startswith(b"%PDF")
    assert [each.name for each in starts] == ["Larkspur Corner 2026-11-25.pdf"]


def test_recent_yards_stand_there_by_name_with_their_file_below(
    qtbot: QtBot, dressed: QApplication, settings: Settings, tmp_path: Path
) -> None:
    paths = [tmp_path / "a.lawnbook", tmp_path / "b.lawnbook"]
    create(paths[0], new_notebook("Orchard House"))
    paths[1].write_text("no notebook")
    for path in paths:
        settings.remember(path)
    assert [yard_name(path) for path in paths] == ["Orchard House", ""]
    page = WelcomeWindow(settings)
    page.show()
    told = [
        [label.accessibleName() or label.text() for label in row.findChildren(QLabel)]
        for row in page.findChildren(QPushButton)
        if row.objectName().startswith("recent_")
    ]
    assert told == [["b", str(paths[1])], ["Orchard House", str(paths[0])]]
    page.close()
    page.deleteLater()


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl+C cannot be sent to one process there")
def test_ctrl_c_in_the_terminal_closes_the_window_and_its_file(tmp_path: Path) -> None:
    path = tmp_path / "home.lawnbook"
    OpenNotebook.create(path, sample("larkspur_corner"), DAY).close()
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from PySide6.QtCore import QTimer\n"
        "from PySide6.QtWidgets import QApplication\n"
        "app = QApplication(['lawnbook'])\n"
        "QTimer.singleShot(500, lambda: print('open', flush=True))\n"
        "from lawnbook.desk.app import run\n"
        "sys.exit(run(Path(sys.argv[1])))\n"
    )
    places = {"XDG_CONFIG_HOME": str(tmp_path), "HOME": str(tmp_path)}
    child = subprocess.Popen(
        [sys.executable, "-c", code, str(path)],
        env={**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert child.stdout is not None
    assert child.stdout.readline() == "open\n"
    child.send_signal(signal.SIGINT)
    _, errors = child.communicate(timeout=60)
    assert child.returncode == 0, errors
    assert "Traceback" not in errors
    assert [each.name for each in tmp_path.glob("home*")] == ["home.lawnbook"]


def test_the_window_opens_no_larger_than_its_screen(dressed: QApplication, tmp_path: Path) -> None:
    fresh = OpenNotebook.create(tmp_path / "fresh.lawnbook", new_notebook("Fresh"), DAY)
    made = BookWindow(fresh, Settings(fresh.path.with_suffix(".ini")))
    room, least = made.screen().availableSize(), made.minimumSize()
    assert made.width() <= max(room.width(), least.width())
    assert made.height() <= max(room.height(), least.height())
    made.close()
    made.deleteLater()


def test_the_wheel_over_a_chart_is_left_to_the_page(qtbot: QtBot, window: BookWindow) -> None:
    qtbot.waitUntil(lambda: window.findChild(QWidget, "profile_columns_canvas") is not None)
    canvas = child(window, "profile_columns_canvas")
    middle = QPoint(canvas.width() // 2, canvas.height() // 2)
    over = window.childAt(canvas.mapTo(window, middle))
    assert isinstance(over, QWidget)
    wheel = QWheelEvent(
        QPointF(middle),
        QPointF(canvas.mapToGlobal(middle)),
        QPoint(0, -120),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    over.event(wheel)
    assert not wheel.isAccepted()


def test_a_ring_marks_a_tab_reached_by_keys_and_not_a_clicked_one(window: BookWindow) -> None:
    tab = cast(QAbstractButton, child(window, "tab_water"))
    QTest.mouseClick(tab, LEFT)
    clicked = tab.grab().toImage()
    tab.clearFocus()
    plain = tab.grab().toImage()
    tab.setFocus(Qt.FocusReason.TabFocusReason)
    reached = tab.grab().toImage()
    assert clicked == plain
    assert reached != plain


def test_a_ring_marks_a_fold_reached_by_keys_and_not_a_clicked_one(window: BookWindow) -> None:
    window.turn_to("Water")
    cast(WaterPage, window.page("Water")).turn_to("Records")
    QApplication.processEvents()
    fold = next(
        each
        for each in window.findChildren(QPushButton)
        if each.objectName().endswith("_fold") and each.isVisible()
    )
    fold.setFocus(Qt.FocusReason.MouseFocusReason)
    clicked = fold.grab().toImage()
    fold.clearFocus()
    plain = fold.grab().toImage()
    fold.setFocus(Qt.FocusReason.TabFocusReason)
    assert clicked == plain
    assert fold.grab().toImage() != plain


def test_what_is_typed_is_shown_as_typed(dressed: QApplication) -> None:
    """Inter's contextual alternates draw an x between figures as ×."""
    field = QLineEdit()
    field.setFrame(False)
    field.resize(200, 40)

    def drawn(text: str) -> int:
        field.setText(text)
        return field.fontMetrics().horizontalAdvance(text)

    x, figures = drawn("x"), drawn("28 ") + drawn(" 33")
    assert abs(drawn("28 x 33") - x - figures) <= 1
    assert sans().featureValue(QFont.Tag("calt")) == 0
    field.deleteLater()


def test_a_list_shows_its_last_entry_whole(window: BookWindow) -> None:
    window.turn_to("Water")
    box = cast(QComboBox, child(window, "sketch_colour_by"))
    box.showPopup()
    QApplication.processEvents()
    view = box.view()
    last = view.visualRect(view.model().index(box.count() - 1, 0))
    assert view.viewport().rect().contains(last)
    box.hidePopup()


def test_a_plug_kept_for_a_later_day_than_the_one_looked_at_is_said(
    qtbot: QtBot, window: BookWindow
) -> None:
    window.turn_to("Plugs")
    window.look_at(DAY.replace(month=7, day=20))
    QApplication.processEvents()
    for name, text in (("cores_date", "10 Oct 2026"), ("cores_thatch_in", "0.6 0.7 0.6")):
        field = cast(QLineEdit, child(window, name))
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
    QTest.keyClick(child(window, "cores_thatch_in"), Qt.Key.Key_Return)
    QApplication.processEvents()
    said = cast(QLabel, child(window, "plugs_later"))
    expected = "Noted: 10 Oct 2026 lies after the day you look at (20 Jul 2026)."
    qtbot.waitUntil(lambda: said.isVisible() and said.text() == expected)
    QTest.mouseClick(child(window, "plugs_today"), LEFT)
    qtbot.waitUntil(lambda: not said.isVisible())
    assert window.on == DAY


def test_labels_of_zones_that_overlap_never_lie_on_one_another(
    qtbot: QtBot, window: BookWindow
) -> None:
    notebook = window.book.notebook
    first, second = list(notebook.zones.values())[:2]
    over = replace(second, outline_ft=first.outline_ft)
    window.book.edit(put(notebook, "zones", over), "move")
    QApplication.processEvents()
    view = window.sketch.view
    boxes = [
        item.boundingRect().translated(QPointF(view.mapFromScene(item.pos())))
        for item in window.sketch.scene.items()
        if isinstance(item, LabelItem) and item.isVisible()
    ]
    assert len(boxes) >= 2
    for index, box in enumerate(boxes):
        assert not any(box.intersects(other) for other in boxes[index + 1 :])
