"""In and out, on the yard page: outlines taken in after a look, and the sketch written."""

import json
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QFileDialog, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.exchange_review import ExchangeReview
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_exchange import ExchangeSection
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Zone
from tests.conftest import TODAY
from tests.desk_hand import child, shown, words
from tests.page_book import put_away, settle
from tests.sketch_hand import sketch_yard

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton
LON, LAT = -111.9, 41.2


def _ring(east: float, north: float, wide: float) -> list[list[list[float]]]:
    west, south = LON + east, LAT + north
    corners = [(0.0, 0.0), (wide, 0.0), (wide, wide), (0.0, wide), (0.0, 0.0)]
    return [[[west + x, south + y] for x, y in corners]]


def _feature(name: str, rings: list[list[list[float]]]) -> dict[str, object]:
    geometry = {"type": "Polygon", "coordinates": rings}
    return {"type": "Feature", "properties": {"name": name}, "geometry": geometry}


@pytest.fixture
def map_file(tmp_path: Path) -> Path:
    """Three shapes near the sample yard; one bears the name of a zone of it."""
    features = [
        _feature("Front lawn", _ring(0, 0, 0.0001)),
        _feature("Orchard", _ring(0.0003, 0, 0.0001)),
        _feature("Shed", _ring(0.0005, 0, 0.00005)),
    ]
    path = tmp_path / "map.geojson"
    path.write_text(json.dumps({"type": "FeatureCollection", "features": features}))
    return path


@pytest.fixture
def page(qtbot: QtBot, book: OpenNotebook) -> YardPage:
    made = YardPage(book)
    shown(qtbot, made, book)
    made.turn_to("In and out")
    return made


def _click(page: QWidget, name: str) -> None:
    QTest.mouseClick(child(page, name), LEFT)


def _read(page: YardPage, path: Path, monkeypatch: pytest.MonkeyPatch) -> ExchangeReview:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    _click(page, "read_outlines")
    return cast(ExchangeReview, child(page, "outlines_review"))


def test_shapes_are_looked_over_and_taken_in_as_one_step(
    page: YardPage, book: OpenNotebook, map_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = book.notebook
    review = _read(page, map_file, monkeypatch)
    assert book.notebook is before
    boxes = [cast(QComboBox, child(page, f"becomes_{index}")) for index in range(3)]
    assert [each.currentText() for each in boxes] == [
        "New outline of Front lawn",
        "New zone",
        "New feature: house",
    ]
    assert boxes[1].accessibleName() == "What becomes of Orchard"
    assert "Front lawn lies where it is drawn" in words(page, "outlines_told")
    boxes[2].setFocus()
    QTest.keyClick(boxes[2], Qt.Key.Key_End)
    assert boxes[2].currentText() == "Left out"
    take = cast(QPushButton, child(page, "take_outlines"))
    assert take.text() == "Take in 2 shapes"
    _click(page, "take_outlines")
    after = book.notebook
    assert len(after.zones) == len(before.zones) + 1
    assert after.heads is before.heads
    assert after.yard.origin_latitude_deg == pytest.approx(LAT, abs=0.001)
    assert review.isHidden()
    assert "1 new zone taken in; Front lawn has" in words(page, "outlines_said")
    assert "The sketch's zero point lies at" in words(page, "outlines_place")
    assert book.undo_label == "take in outlines"
    book.undo()
    assert book.notebook.zones == before.zones
    assert book.notebook.yard == before.yard


def test_what_is_looked_over_is_drawn_and_goes_with_the_section(
    page: YardPage, map_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    scene = page.findChild(SketchScene)
    assert scene is not None
    told: list[bool] = []
    scene.previewed.connect(told.append)
    _read(page, map_file, monkeypatch)
    page.turn_to("Overview")
    page.turn_to("In and out")
    _click(page, "leave_outlines")
    assert told[0]
    assert told[-3:] == [False, True, False]
    assert words(page, "outlines_said") == "Nothing was taken in."


def test_a_zone_that_goes_meanwhile_is_no_longer_offered(
    page: YardPage, book: OpenNotebook, map_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _read(page, map_file, monkeypatch)
    zone = next(each for each in book.notebook.zones.values() if each.name == "Front lawn")
    renamed = Zone(id=zone.id, name="Meadow", outline_ft=zone.outline_ft)
    book.edit(put(book.notebook, "zones", renamed), "rename")
    # The rows before are taken down later.
    box = page.findChildren(QComboBox, "becomes_0")[-1]
    offered = [box.itemText(index) for index in range(box.count())]
    assert "New outline of Meadow" in offered
    assert "New outline of Front lawn" not in offered


def test_a_bad_file_is_explained_and_changes_nothing(
    page: YardPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "map.kml"
    path.write_text("<!DOCTYPE kml><kml/>")
    before = book.notebook
    review = _read(page, path, monkeypatch)
    assert words(page, "outlines_said").startswith("map.kml: the file has a document type")
    assert review.isHidden()
    assert book.notebook is before


def test_a_file_may_be_dropped(page: YardPage, map_file: Path) -> None:
    section = page.findChild(ExchangeSection)
    assert section is not None
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(map_file))])
    copy, none = Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(20, 20), copy, data, LEFT, none)
    enter.ignore()
    QApplication.sendEvent(section, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(section, QDropEvent(QPointF(20, 20), copy, data, LEFT, none))
    assert not child(page, "outlines_review").isHidden()


def test_the_sketch_is_written_and_the_place_can_be_forgotten(
    page: YardPage,
    book: OpenNotebook,
    map_file: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    target = tmp_path / "out.svg"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(target), ""))
    _click(page, "write_svg")
    assert words(page, "outlines_written") == (
        "out.svg is written. It is drawn 1:150: 1 ft is 2.03 mm."
    )
    assert target.read_text().startswith("<?xml")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "out"), ""))
    _click(page, "write_geojson")
    assert len(json.loads((tmp_path / "out.geojson").read_text())["features"]) > 4
    _read(page, map_file, monkeypatch)
    _click(page, "take_outlines")
    _click(page, "forget_place")
    assert book.notebook.yard.origin_latitude_deg is None
    assert "no place on earth yet" in words(page, "outlines_place")


def test_the_preview_stays_in_sight_when_the_window_is_resized(
    tmp_path: Path, map_file: Path, qapp: QApplication
) -> None:
    """The new outlines lie right of what is drawn, where a fit of the yard leaves them out."""
    apply_theme(qapp, "light")
    book = OpenNotebook.create(tmp_path / "seen.lawnbook", sketch_yard(), TODAY)
    window = BookWindow(book, Settings(tmp_path / "desk.ini"))
    window.resize(1440, 900)
    window.show()
    window.turn_to("Yard")
    page = cast(YardPage, window.page("Yard"))
    page.turn_to("In and out")
    settle()
    section = page.findChild(ExchangeSection)
    assert section is not None
    section.read_outlines(map_file)
    view = window.sketch.view
    for width in (1300, 1500):
        window.resize(width, 860)
        settle()
        seen = view.mapToScene(view.viewport().rect()).boundingRect()
        assert seen.right() > 90 + 100, "the orchard and the shed lie 100 ft to the right"
    _click(page, "leave_outlines")
    window.resize(1400, 880)
    settle()
    seen = view.mapToScene(view.viewport().rect()).boundingRect()
    assert seen.right() < 90 + 100
    put_away(window)
