"""Pointing at a chart: the right plug under every pixel, by mouse and by keys, at any scale."""

import os
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QPushButton, QScrollArea, QToolTip, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.charts.figures import profile_figure
from lawnbook.charts.marks import Frame, Words
from lawnbook.charts.profile import profile_marks
from lawnbook.charts.profile_hits import Hit, profile_hits
from lawnbook.desk.pages.chart_holder import ChartHolder, Export
from lawnbook.desk.pages.chart_pointer import ChartPointer
from tests.plan_fixture import plug, plugs, spot_of

COLUMNS = plugs(6)


def hits_of(frame: Frame) -> Sequence[Hit]:
    """The boxes of the six plugs."""
    return profile_hits(COLUMNS, frame)


@pytest.fixture
def holder(qtbot: QtBot) -> Iterator[ChartHolder]:
    """A holder of 600 by 320 pixels that shows six plugs."""
    made = ChartHolder("profile", "Profile columns")
    qtbot.addWidget(made)
    made.resize(600, 320)
    made.show_chart(lambda p, f: profile_figure(spot_of(COLUMNS), p, f), "Six plugs.", hits_of)
    made.show()
    qtbot.waitUntil(lambda: made.findChild(ChartPointer) is not None)
    yield made
    QToolTip.hideText()


def pointer_of(holder: ChartHolder) -> ChartPointer:
    """The pointer of a holder that has been drawn."""
    found = holder.findChild(ChartPointer)
    assert isinstance(found, ChartPointer)
    return found


def middle_px(holder: ChartHolder, place: int) -> QPoint:
    """The middle of a column in the pointer's pixels: a point is 100/72 px at matplotlib's dpi."""
    pointer = pointer_of(holder)
    hit = hits_of(Frame(pointer.width() * 0.72, pointer.height() * 0.72))[place]
    return QPoint(
        round((hit.left + hit.right) / 2 / 0.72), round((hit.top + hit.bottom) / 2 / 0.72)
    )


@pytest.mark.parametrize("count", [1, 2, 5, 20, 100])
def test_boxes_never_share_a_point(count: int) -> None:
    """Walking along the picture every place has one plug at most, and in date order."""
    hits = profile_hits(plugs(count), Frame(460, 300))
    found: list[str] = []
    for step in range(4600):
        held = [hit.key for hit in hits if hit.holds(step / 10, 150)]
        assert len(held) <= 1
        found += [key for key in held if not found or found[-1] != key]
    assert found == [hit.key for hit in hits]


def test_boxes_are_half_open() -> None:
    """The left and the upper side belong to a box, the right and the lower do not."""
    hit = Hit(10, 20, 30, 40, "core:a", "words")
    assert hit.holds(10, 20)
    assert not hit.holds(30, 25)
    assert not hit.holds(15, 40)


def test_every_drawn_column_lies_in_its_box() -> None:
    """The figures over a column are written within its box, replicates too."""
    columns = [plug(n, date(2024, 5, 1 + n // 3), 0.5 + n / 100) for n in range(6)]
    frame = Frame(500, 300)
    hits = profile_hits(columns, frame)
    words = {m.text: m.at for m in profile_marks(columns, frame).marks if isinstance(m, Words)}
    for number, hit in enumerate(hits):
        x, y = words[f"{0.5 + number / 100:.2f}"]
        assert hit.holds(x, y)
        assert hit.key == f"core{number}"


def test_words_tell_the_plug_and_shorten_its_note() -> None:
    """Date, thatch with readings, roots; of a long note the beginning only."""
    told = profile_hits([plug(1, date(2026, 5, 3), 0.8, note="wet " * 40)], Frame(400, 300))[0]
    lines = told.words.split("\n")
    assert lines[:3] == ["3 May 2026", "thatch 0.80 in, 3 readings, spread 0.06 in", "roots 3.0 in"]
    assert len(lines[-1]) <= 60
    assert lines[-1].endswith("…")


def test_words_tell_what_was_noted_besides_depths() -> None:
    """Worms, sponge, soil in the thatch and the hour, those alone that were noted."""
    core = plug(1, date(2026, 5, 3), 0.8)
    full = replace(core, worms=1, sponge=3, soil_in_thatch=0, clock=11)
    bare = replace(core, worms=None, sponge=None, soil_in_thatch=None, clock=None)
    told = [profile_hits([each], Frame(400, 300))[0].words for each in (full, bare)]
    assert "1 worm, sponge 3 of 4, soil in it 0 of 4, 11 o'clock" in told[0].split("\n")
    assert told[1].split("\n")[-1].startswith("roots")


@pytest.mark.parametrize("place", range(6))
def test_click_picks_the_plug_under_the_pointer(
    holder: ChartHolder, qtbot: QtBot, place: int
) -> None:
    """The key of the column that was clicked, in the pixels of this window."""
    with qtbot.waitSignal(holder.picked) as caught:
        QTest.mouseClick(
            pointer_of(holder), Qt.MouseButton.LeftButton, pos=middle_px(holder, place)
        )
    assert caught.args == [f"core{place}"]


def test_hover_lights_the_column_and_tells_it(holder: ChartHolder, qtbot: QtBot) -> None:
    """The tooltip says what the plug showed, a screen reader hears it, and away it goes out."""
    pointer = pointer_of(holder)
    QTest.mouseMove(pointer, middle_px(holder, 2))
    qtbot.waitUntil(lambda: pointer.lit() is not None)
    lit = pointer.lit()
    assert lit is not None
    assert lit.key == "core2"
    assert QToolTip.text() == lit.words
    canvas = holder.findChild(QWidget, "profile_canvas")
    assert canvas is not None
    assert canvas.accessibleDescription() == lit.words
    before = holder.grab().toImage()
    QTest.mouseMove(pointer, QPoint(2, 2))
    qtbot.waitUntil(lambda: pointer.lit() is None)
    assert canvas.accessibleDescription() == "Six plugs."
    assert holder.grab().toImage() != before


def test_arrows_walk_and_enter_picks(holder: ChartHolder, qtbot: QtBot) -> None:
    """Left begins at the latest, Home and End go to the ends, Escape puts out."""
    canvas = holder.findChild(QWidget, "profile_canvas")
    assert canvas is not None
    canvas.setFocus(Qt.FocusReason.TabFocusReason)
    walked = []
    for key in ("Left", "Left", "Left", "Home", "Left", "Right", "End", "Right"):
        QTest.keyClick(canvas, getattr(Qt.Key, f"Key_{key}"))
        lit = pointer_of(holder).lit()
        walked.append(lit.key if lit else "")
    assert walked == [f"core{n}" for n in (5, 4, 3, 0, 0, 1, 5, 5)]
    with qtbot.waitSignal(holder.picked) as caught:
        QTest.keyClick(canvas, Qt.Key.Key_Return)
    assert caught.args == ["core5"]
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert pointer_of(holder).lit() is None


def test_wheel_over_a_chart_scrolls_the_page(holder: ChartHolder, qtbot: QtBot) -> None:
    """The pointer takes clicks, never the wheel."""
    area = QScrollArea()
    qtbot.addWidget(area)
    area.resize(620, 200)
    area.setWidget(holder)
    area.show()
    qtbot.waitUntil(lambda: area.verticalScrollBar().maximum() > 0)
    QTest.wheelEvent(area.windowHandle(), QPointF(300, 100), QPoint(0, -120))
    assert area.verticalScrollBar().value() > 0
    area.takeWidget()


def test_chart_without_hits_stays_out_of_the_way(holder: ChartHolder, qtbot: QtBot) -> None:
    """Turned to a drawing without hits, the mouse goes to the page again."""
    holder.show_chart(lambda p, f: profile_figure(spot_of(COLUMNS), p, f), "Six plugs.")
    qtbot.waitUntil(lambda: not pointer_of(holder).isVisible())
    plain = ChartHolder("plain", "Plain")
    qtbot.addWidget(plain)
    plain.show_chart(lambda p, f: profile_figure(spot_of(COLUMNS), p, f), "Six plugs.")
    plain.show()
    qtbot.waitUntil(lambda: plain.findChild(QWidget, "plain_canvas") is not None)
    assert plain.findChild(ChartPointer) is None
    assert plain.findChild(QPushButton) is None
    canvas = plain.findChild(QWidget, "plain_canvas")
    assert canvas is not None
    assert canvas.testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)


def test_save_picture_asks_where_and_says_what_became_of_it(
    holder: ChartHolder, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The kind chosen in the dialog names the file; what stands in the way is said."""
    export = Export(lambda frame: profile_marks(COLUMNS, frame), (640, 360), tmp_path / "gate.png")
    holder.show_chart(
        lambda p, f: profile_figure(spot_of(COLUMNS), p, f), "Six plugs.", hits_of, export
    )
    asked: list[str] = []

    def chosen(_parent: QWidget, _title: str, start: str, _kinds: str) -> tuple[str, str]:
        asked.append(start)
        return str(tmp_path / "columns"), "SVG pictures (*.svg)"

    monkeypatch.setattr(QFileDialog, "getSaveFileName", chosen)
    link = holder.findChild(QPushButton, "profile_save")
    assert link is not None
    QTest.mouseClick(link, Qt.MouseButton.LeftButton)
    assert asked == [str(tmp_path / "gate.png")]
    assert (tmp_path / "columns.svg").read_bytes().startswith(b"<?xml")
    said = holder.findChild(QWidget, "profile_saved")
    assert said is not None
    assert said.isVisible()
    assert said.property("role") == "good"
    (tmp_path / "columns.svg").write_text("shopping list")
    QTest.mouseClick(link, Qt.MouseButton.LeftButton)
    assert (tmp_path / "columns.svg").read_text() == "shopping list"
    assert said.property("role") == "refuse"


def test_pixels_of_a_fine_screen() -> None:
    """At two device pixels to one the same column answers; such a scale needs its own process."""
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-k", "click_picks"]
    run = subprocess.run(
        [*command, __file__],
        env={**os.environ, "QT_SCALE_FACTOR": "2"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr


def test_tab_goes_from_the_chart_to_its_link(qtbot: QtBot) -> None:
    """The link beneath the picture comes after it, though it was made first."""
    made = ChartHolder("profile", "Profile columns")
    qtbot.addWidget(made)
    export = Export(lambda frame: profile_marks(COLUMNS, frame), (640, 360), Path("gate.png"))
    made.show_chart(
        lambda p, f: profile_figure(spot_of(COLUMNS), p, f), "Six plugs.", hits_of, export
    )
    made.show()
    qtbot.waitUntil(lambda: made.findChild(ChartPointer) is not None)
    canvas = made.findChild(QWidget, "profile_canvas")
    assert canvas is not None
    canvas.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(canvas, Qt.Key.Key_Tab)
    focus = made.focusWidget()
    assert focus is not None
    assert focus.objectName() == "profile_save"
