"""Two points clicked on a backdrop count only as long as the picture lies where it lay."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.backdrop_hand import BackdropHand
from lawnbook.desk.pages.backdrop_scale import ScalePanel
from lawnbook.desk.sketch.control import LineDone, SketchControl
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.backdrops import moved, turned_to
from lawnbook.yard.notebook import apply, new_notebook, put
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import Backdrop
from tests.conftest import TODAY
from tests.desk_hand import child

pytestmark = pytest.mark.usefixtures("dressed")
pytest_plugins = ["tests.desk_book"]


def _backdrop() -> Backdrop:
    """A picture of 100 by 80 ft about the zero point; nobody looks at its bytes here."""
    picture = Picture.of(b"no picture")
    return Backdrop(
        id="plan",
        name="Plan",
        sha256=picture.sha256,
        data_b64=picture,
        width_px=1000,
        height_px=800,
    )


@pytest.mark.parametrize(
    ("change", "stays"),
    [
        (lambda held: moved(held, (5.0, 0.0)), False),
        (lambda held: turned_to(held, 10.0), False),
        (lambda held: replace(held, ft_per_px=0.2), False),
        (lambda held: replace(held, fade=0.8), True),
    ],
)
def test_a_measure_under_way_goes_with_the_picture_it_was_clicked_on(
    qtbot: QtBot, tmp_path: Path, change: Callable[[Backdrop], Backdrop], stays: bool
) -> None:
    empty = new_notebook("Home")
    notebook = apply(empty, put(empty, "backdrops", _backdrop()))
    book = OpenNotebook.create(tmp_path / "home.lawnbook", notebook, TODAY)
    scene = SketchScene(book.notebook)
    control = SketchControl(book, scene, scene)
    hand = BackdropHand(book, control)
    hand.backdrop_id = "plan"
    panel = ScalePanel(hand)
    qtbot.addWidget(panel)
    panel.show()
    panel.refresh()
    asked: list[LineDone] = []
    control.line_asked.connect(lambda _words, done, _snaps: asked.append(done))
    QTest.mouseClick(child(panel, "backdrop_set_scale"), Qt.MouseButton.LeftButton)
    asked[0]((-30.0, 0.0), (30.0, 0.0))
    field = child(panel, "backdrop_measure_length")
    assert field.isVisible()
    assert hand.edit(change, "change")
    panel.refresh()
    assert field.isVisible() is stays
    book.close()
