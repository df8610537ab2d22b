"""A backdrop on the sketch: where it lies, what is drawn of it, and what it leaves alone."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, QRectF, QSizeF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QGraphicsScene, QWidget

from lawnbook.desk import theme
from lawnbook.desk.sketch.backdrop_item import BackdropItem
from lawnbook.desk.sketch.backdrop_levels import levels_of
from lawnbook.desk.sketch.grid import grid_steps
from lawnbook.desk.sketch.items import scene_point, yard_point
from lawnbook.desk.sketch.panel import SketchPanel
from lawnbook.desk.sketch.scene import NO_DRAFT
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.backdrops import place_ft
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, new_notebook, put
from lawnbook.yard.records import Backdrop
from tests.backdrop_pictures import aerial, as_jpeg, with_backdrop
from tests.conftest import TODAY
from tests.photo_files import halves
from tests.sketch_hand import Hand, sketch_yard

RED, GREEN = QColor(200, 40, 40), QColor(40, 160, 60)


@pytest.fixture
def hand_on(tmp_path: Path) -> Iterator[Callable[[Notebook], Hand]]:
    """Makes a sketch of a notebook, with its pictures drawn, and closes it afterwards."""
    made: list[Hand] = []

    def make(notebook: Notebook) -> Hand:
        made.append(Hand.on(notebook, tmp_path))
        wait(made[-1])
        return made[-1]

    yield make
    for each in made:
        each.close()


def wait(hand: Hand) -> None:
    """Until every picture is decoded."""
    shelf = hand.panel.scene.backdrops.shelf
    for _ in range(500):
        if not shelf.is_loading:
            break
        QTest.qWait(10)
    assert not shelf.is_loading
    QApplication.processEvents()


def solid(made: Backdrop) -> Backdrop:
    """Drawn without any fade."""
    return replace(made, fade=0.0)


def seen(hand: Hand, at: Point) -> QColor:
    """The colour of a place on the paper."""
    return hand.view.viewport().grab().toImage().pixelColor(hand.px(at))


def near(one: QColor, other: QColor, within: int = 40) -> bool:
    """Whether two colours are about the same; the faint grid may lie over one of them."""
    off = (one.red() - other.red(), one.green() - other.green(), one.blue() - other.blue())
    return all(abs(each) <= within for each in off)


def item_of(hand: Hand, backdrop_id: str = "aerial") -> BackdropItem:
    """What draws a backdrop."""
    item = hand.panel.scene.backdrops.item(backdrop_id)
    assert item is not None
    return item


def test_the_picture_lies_where_the_sums_say(hand_on: Callable[[Notebook], Hand]) -> None:
    def turned(made: Backdrop) -> Backdrop:
        return replace(made, fade=0.0, turn_deg=33.0, middle_ft=(31.0, 52.0), ft_per_px=0.4)

    hand = hand_on(with_backdrop(sketch_yard(), halves(), turned))
    held, item = hand.notebook.backdrops["aerial"], item_of(hand)
    for share in ((0.0, 0.0), (1.0, 0.0), (0.2, 0.9)):
        at = item.mapToScene(QPointF((share[0] - 0.5) * 64 * 0.4, (share[1] - 0.5) * 48 * 0.4))
        assert yard_point(at) == pytest.approx(place_ft(held, share), abs=1e-6)
    assert near(seen(hand, place_ft(held, (0.03, 0.1))), RED)
    assert near(seen(hand, place_ft(held, (0.97, 0.1))), GREEN)


def test_a_picture_is_read_aloud_with_the_sketch(hand_on: Callable[[Notebook], Hand]) -> None:
    hand = hand_on(with_backdrop(sketch_yard(), halves(), solid))
    assert "Under it lies Aerial." in hand.view.accessibleDescription()
    hidden = replace(hand.notebook.backdrops["aerial"], shown=False)
    hand.book.edit(put(hand.notebook, "backdrops", hidden), "hide")
    assert "Aerial" not in hand.view.accessibleDescription()


def test_a_faded_picture_lets_the_paper_through(hand_on: Callable[[Notebook], Hand]) -> None:
    hand = hand_on(with_backdrop(sketch_yard(), halves(), lambda made: replace(made, fade=0.9)))
    place = place_ft(hand.notebook.backdrops["aerial"], (0.03, 0.1))
    paper = hand.view.viewport().grab().toImage().pixelColor(3, 3)
    assert near(seen(hand, place), paper, 45)
    assert not near(seen(hand, place), RED, 80)


def test_it_is_under_everything_and_takes_no_press(hand_on: Callable[[Notebook], Hand]) -> None:
    hand = hand_on(with_backdrop(sketch_yard(), halves(), solid))
    hand.click((10.0, 15.0))
    assert hand.told == [("zones", "front")]
    assert not near(seen(hand, (10.5, 15.5)), RED)
    lowest = min(each.zValue() for each in hand.panel.scene.items() if each is not item_of(hand))
    assert item_of(hand).zValue() < lowest


def test_the_picture_is_seen_through_zones_on_wish(hand_on: Callable[[Notebook], Hand]) -> None:
    hand = hand_on(with_backdrop(sketch_yard(), halves(), solid))
    at = (10.5, 15.5)
    before = seen(hand, at)
    hand.panel.scene.see_through(on=True)
    through = seen(hand, at)
    assert through.green() < before.green() - 20, "the red picture shows"
    hidden = replace(hand.notebook.backdrops["aerial"], shown=False)
    hand.book.edit(put(hand.notebook, "backdrops", hidden), "hide")
    QApplication.processEvents()
    assert seen(hand, at) == before, "without a picture there is nothing to see through for"


def test_a_hidden_picture_holds_no_memory_and_comes_back(
    hand_on: Callable[[Notebook], Hand],
) -> None:
    hand = hand_on(with_backdrop(sketch_yard(), halves(), solid))
    held, layer = hand.notebook.backdrops["aerial"], hand.panel.scene.backdrops
    assert layer.shelf.levels(held.sha256)
    hand.book.edit(put(hand.notebook, "backdrops", replace(held, shown=False)), "hide")
    assert layer.shelf.levels(held.sha256) is None
    assert layer.item("aerial") is None
    hand.book.undo()
    wait(hand)
    assert item_of(hand).has_picture


def test_halves_are_made_down_to_a_small_one_and_a_big_one_is_bounded() -> None:
    levels = levels_of(as_jpeg(aerial(1001, 600)))
    assert [(each.width(), each.height()) for each in levels] == [(1001, 600), (501, 300)]
    bounded = levels_of(as_jpeg(aerial(1001, 600)), most_px=200_000)
    assert (bounded[0].width(), bounded[0].height()) == (501, 300)
    assert levels_of(b"no picture") == ()


@pytest.mark.parametrize(
    ("px_per_ft", "colour"), [(40.0, "red"), (20.0, "red"), (9.0, "lime"), (4.0, "blue")]
)
def test_the_half_nearest_above_the_zoom_is_drawn(px_per_ft: float, colour: str) -> None:
    # 2,000 pixels over 100 ft are 20 to a foot; each half has a colour of its own.
    levels = []
    for wide, shade in ((2000, "red"), (1000, "lime"), (500, "blue")):
        image = QImage(wide, wide // 2, QImage.Format.Format_RGB32)
        image.fill(QColor(shade))
        levels.append(image)
    notebook = with_backdrop(new_notebook("Home"), halves(64, 32))
    held = replace(notebook.backdrops["aerial"], width_px=2000, height_px=1000, ft_per_px=0.05)
    item = BackdropItem()
    item.show_backdrop(held, theme.palette())
    item.show_levels(tuple(levels))
    scene = QGraphicsScene()
    scene.addItem(item)
    paper = QImage(40, 40, QImage.Format.Format_RGB32)
    painter = QPainter(paper)
    side = 40 / px_per_ft
    middle = item.mapToScene(QPointF(0, 0))
    scene.render(painter, QRectF(0, 0, 40, 40), QRectF(middle, QSizeF(side, side)))
    painter.end()
    strongest = paper.pixelColor(20, 20)
    assert near(strongest, QColor(colour), 120), strongest.name()


def test_a_lost_picture_leaves_a_frame_and_the_rest_of_the_sketch(tmp_path: Path) -> None:
    path = tmp_path / "lost.lawnbook"
    notebook = with_backdrop(sketch_yard(), halves(), solid)
    OpenNotebook.create(path, notebook, TODAY).close()
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE pictures SET data = x'00'")
    with closing(OpenNotebook.open(path, TODAY)) as book:
        panel = SketchPanel(book)
        panel.resize(800, 800)
        panel.show()
        QTest.qWaitForWindowExposed(panel)
        layer = panel.scene.backdrops
        item = layer.item("aerial")
        assert item is not None
        assert not item.has_picture
        assert layer.cannot_be_read(notebook.backdrops["aerial"].sha256)
        panel.close()
        panel.deleteLater()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def drop(onto: QWidget, held: QMimeData) -> bool:
    """Drag something onto a widget and let it go; whether it was taken."""
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    copy = Qt.DropAction.CopyAction
    enter = QDragEnterEvent(QPoint(300, 300), copy, held, left, none)
    enter.ignore()
    QApplication.sendEvent(onto, enter)
    if enter.isAccepted():
        QApplication.sendEvent(onto, QDropEvent(QPointF(300, 300), copy, held, left, none))
    return enter.isAccepted()


def until(true: Callable[[], bool]) -> None:
    """Let the window work until something holds, for ten seconds at most."""
    for _ in range(1000):
        if true():
            return
        QTest.qWait(10)
    assert true()


def test_a_picture_dropped_on_the_paper_becomes_a_backdrop(
    tmp_path: Path, hand_on: Callable[[Notebook], Hand]
) -> None:
    hand = hand_on(new_notebook("Home"))
    file = tmp_path / "From above.jpg"
    file.write_bytes(as_jpeg(aerial(200, 150)))
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(str(file))])
    assert drop(hand.view.viewport(), held)
    until(lambda: bool(hand.notebook.backdrops))
    (made,) = hand.notebook.backdrops.values()
    assert made.name == "From above"
    assert "From above lies under the sketch" in hand.words()
    assert not hand.panel.over.says_empty, "the words of an empty page are gone"
    wait(hand)
    hand.book.undo()
    assert hand.notebook.backdrops == {}


def test_what_is_dropped_and_no_picture_is_explained_or_left_alone(
    tmp_path: Path, hand_on: Callable[[Notebook], Hand]
) -> None:
    hand = hand_on(sketch_yard())
    plan, words = tmp_path / "plan.pdf", tmp_path / "words.txt"
    plan.write_bytes(b"%PDF-1.7 plan")
    words.write_bytes(b"words")
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(str(plan))])
    before = hand.notebook
    assert drop(hand.view.viewport(), held)
    until(lambda: "save the page as a picture" in hand.words())
    assert hand.notebook is before
    held.setUrls([QUrl.fromLocalFile(str(words))])
    assert not drop(hand.view.viewport(), held)


def test_the_grid_keeps_its_distance() -> None:
    # Lines nearer than 14 pixels would be a wash of gray.
    assert [grid_steps(each) for each in (20.0, 14.0, 3.0, 1.5, 0.1)] == [
        (1, 5),
        (1, 5),
        (5, 10),
        (10, 50),
        (100, 500),
    ]


def test_a_drafted_place_is_drawn_and_the_kept_one_comes_back(
    hand_on: Callable[[Notebook], Hand],
) -> None:
    hand = hand_on(with_backdrop(sketch_yard(), halves(), solid))
    held = hand.notebook.backdrops["aerial"]
    drafted = replace(held, middle_ft=(500.0, 500.0))
    hand.panel.scene.show_draft({("backdrops", "aerial"): drafted})
    assert item_of(hand).pos() == scene_point((500.0, 500.0))
    hand.panel.scene.show_draft(NO_DRAFT)
    assert item_of(hand).pos() == scene_point(held.middle_ft)
