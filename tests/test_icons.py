"""Our own icons: one grid, one stroke, in the ink of the theme, and none that nobody shows."""

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QIcon
from PySide6.QtWidgets import QApplication

from lawnbook.desk.icons import WINDOW_SIZES_PX, icon, window_icon
from lawnbook.desk.looks import Looks
from lawnbook.desk.menu_icons import ICONS, LEAF_ICONS
from lawnbook.desk.sketch.toolbox import TOOLS
from lawnbook.desk.theme import apply_looks, palette
from lawnbook.yard.places import resource

DRAWN = sorted(path for path in resource("icons").glob("*.svg") if path.stem != "lawnbook")
ASKED = {*ICONS.values(), *LEAF_ICONS, "undo", "redo", "fit", *(each.lower() for each in TOOLS)}
EACH = pytest.mark.parametrize("path", DRAWN, ids=lambda path: path.stem)


def test_every_icon_that_is_asked_for_is_drawn_and_no_other() -> None:
    assert {path.stem for path in DRAWN} == ASKED


@EACH
def test_all_stand_on_one_grid_with_one_stroke(path: Path) -> None:
    drawing = ET.fromstring(path.read_text(encoding="utf-8"))
    assert drawing.get("viewBox") == "0 0 24 24"
    assert drawing.get("stroke") == "currentColor"
    assert drawing.get("stroke-width") == "1.75"
    assert (drawing.get("stroke-linecap"), drawing.get("stroke-linejoin")) == ("round", "round")
    parts = {re.sub(r"\{.*\}", "", each.tag) for each in drawing.iter()}
    assert parts <= {"svg", "path", "circle"}
    assert all(each.get("fill") in (None, "none", "currentColor") for each in drawing.iter())


def darkest(shown: QIcon, mode: QIcon.Mode) -> QColor:
    """The colour that an icon is drawn with."""
    image = shown.pixmap(QSize(48, 48), mode).toImage()
    points = ((x, y) for x in range(image.width()) for y in range(image.height()))
    return max((image.pixelColor(x, y) for x, y in points), key=lambda each: each.alpha())


LOOKS = (
    Looks(theme="light"),
    Looks(theme="dark"),
    Looks(theme="light", contrast="high"),
    Looks(theme="dark", contrast="high"),
)


@pytest.mark.parametrize("looks", LOOKS, ids=lambda each: f"{each.theme} {each.contrast}")
def test_an_icon_follows_the_ink(qapp: QApplication, looks: Looks) -> None:
    apply_looks(qapp, looks)
    assert darkest(icon("note"), QIcon.Mode.Normal).name() == palette().ink
    assert darkest(icon("note"), QIcon.Mode.Selected).name() == palette().on_accent
    assert darkest(icon("note"), QIcon.Mode.Disabled).name() == palette().faint
    assert darkest(icon("note"), QIcon.Mode.Active).name() == palette().ink
    pointed_at = darkest(icon("note", in_menu=True), QIcon.Mode.Active)
    assert pointed_at.name() == palette().on_accent
    apply_looks(qapp, Looks(theme="light"))


def test_the_programs_icon_has_all_sizes() -> None:
    sizes = {size.width() for size in window_icon().availableSizes()}
    assert sizes == set(WINDOW_SIZES_PX)
