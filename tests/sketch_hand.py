"""A hand for tests of the sketch: mouse and keys as a person uses them, and a yard to draw on."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.desk.sketch.items import scene_point
from lawnbook.desk.sketch.panel import SketchPanel
from lawnbook.desk.theme import apply_theme
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import Bounds, rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import CatchTest, Feature, Head, Spot, Zone
from tests.conftest import TODAY

LEFT = Qt.MouseButton.LeftButton
NO_KEY = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier


def sketch_yard() -> Notebook:
    """Two zones of 30 by 20 ft side by side, a house, a head with cans, and a spot."""
    notebook = new_notebook("Sketch")
    front = Zone(id="front", name="Front", outline_ft=rectangle_ft((0.0, 0.0), 30.0, 20.0))
    back = Zone(id="back", name="Back", outline_ft=rectangle_ft((40.0, 0.0), 30.0, 20.0))
    house = Feature(id="house", kind="house", outline_ft=rectangle_ft((20.0, 30.0), 30.0, 20.0))
    head = Head(id="head", zone="front", at_ft=(15.0, 10.0), radius_ft=8.0, sweep_deg=90.0)
    spot = Spot(id="elm", name="Elm", zone="front", at_ft=(5.0, 4.0))
    cans = CatchTest(
        id="cans", zone="front", date=TODAY, run_minutes=10.0, depths_in=(0.2,), at_ft=((6.0, 6.0),)
    )
    for table, rows in (
        ("zones", (front, back)),
        ("features", (house,)),
        ("heads", (head,)),
        ("spots", (spot,)),
        ("catch_tests", (cans,)),
    ):
        notebook = apply(notebook, put(notebook, table, *rows))
    return notebook


def watered_yard() -> Notebook:
    """The sketch yard; four heads with a flow in the front zone, one throws over its edge."""
    notebook = sketch_yard()
    heads = [
        Head(id=f"h{i}", zone="front", at_ft=at, radius_ft=12.0, flow_gpm=1.5)
        for i, at in enumerate(((8.0, 8.0), (20.0, 8.0), (8.0, 14.0), (27.0, 10.0)))
    ]
    return apply(notebook, put(notebook, "heads", *heads))


def big_yard() -> Notebook:
    """200 zones with 500 heads and 100 spots, as no yard is likely to have."""
    zones = [
        Zone(
            id=f"z{i}",
            name=f"Zone number {i}",
            outline_ft=rectangle_ft((float(i % 20) * 22, float(i // 20) * 22), 20.0, 20.0),
        )
        for i in range(200)
    ]
    heads = [
        Head(id=f"h{i}", zone=f"z{i % 200}", at_ft=(float(i % 25) * 17, float(i // 25) * 11))
        for i in range(500)
    ]
    spots = [
        Spot(
            id=f"s{i}", name=f"S{i}", zone=f"z{i}", at_ft=(float(i % 10) * 40, float(i // 10) * 20)
        )
        for i in range(100)
    ]
    notebook = sketch_yard()
    for table, rows in (("zones", zones), ("heads", heads), ("spots", spots)):
        notebook = apply(notebook, put(notebook, table, *rows))
    return notebook


class Hand:
    """Drives a sketch panel. Places are given in feet; `off` adds pixels, y down."""

    def __init__(self, panel: SketchPanel, book: OpenNotebook) -> None:
        self.panel = panel
        self.book = book
        self.view = panel.view
        self.told: list[tuple[str, str]] = []
        panel.selected.connect(lambda table, record_id: self.told.append((table, record_id)))

    @classmethod
    def on(cls, notebook: Notebook, folder: Path, bounds: Bounds = (-20, -20, 90, 70)) -> "Hand":
        """A panel of 800 by 800 on a new book, showing these feet."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        apply_theme(app, "light")
        book = OpenNotebook.create(folder / "sketch.lawnbook", notebook, TODAY)
        panel = SketchPanel(book)
        panel.resize(800, 800)
        panel.show()
        QTest.qWaitForWindowExposed(panel)
        panel.activateWindow()
        panel.view.setFocus()
        QApplication.processEvents()
        panel.view.fit(bounds)
        panel.scene.settle_labels()
        return cls(panel, book)

    @property
    def notebook(self) -> Notebook:
        """The notebook as it is kept."""
        return self.book.notebook

    def px(self, at: Point, off: tuple[int, int] = (0, 0)) -> QPoint:
        """Where a place of the yard is in the view."""
        return self.view.mapFromScene(scene_point(at)) + QPoint(*off)

    def move(self, at: Point, off: tuple[int, int] = (0, 0)) -> None:
        """Move the pointer."""
        QTest.mouseMove(self.view.viewport(), self.px(at, off))

    def click(self, at: Point, off: tuple[int, int] = (0, 0)) -> None:
        """Move there and click."""
        self.move(at, off)
        QTest.mouseClick(self.view.viewport(), LEFT, NO_KEY, self.px(at, off))

    def double(self, at: Point, off: tuple[int, int] = (0, 0)) -> None:
        """A double click as the window system sends it: the first click comes before."""
        self.click(at, off)
        QTest.mouseDClick(self.view.viewport(), LEFT, NO_KEY, self.px(at, off))

    def press(self, at: Point, off: tuple[int, int] = (0, 0)) -> None:
        """Press the button and hold it."""
        QTest.mousePress(self.view.viewport(), LEFT, NO_KEY, self.px(at, off))

    def release(self, at: Point, off: tuple[int, int] = (0, 0)) -> None:
        """Let the button go."""
        QTest.mouseRelease(self.view.viewport(), LEFT, NO_KEY, self.px(at, off))

    def drag(self, start: Point, end: Point, off: tuple[int, int] = (0, 0)) -> None:
        """Press, move in steps, and let go; `off` shifts start and end alike."""
        self.press(start, off)
        for share in (0.3, 0.7, 1.0):
            between = tuple(a + (b - a) * share for a, b in zip(start, end, strict=True))
            self.move((between[0], between[1]), off)
        self.release(end, off)

    def key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NO_KEY) -> None:
        """Press a key on whatever has the keyboard's focus."""
        QTest.keyClick(self.focused(), key, modifiers)

    def type(self, text: str) -> None:
        """Type on whatever has the keyboard's focus."""
        QTest.keyClicks(self.focused(), text)

    def focused(self) -> QWidget:
        """What has the keyboard's focus."""
        widget = QApplication.focusWidget()
        assert widget is not None, "nothing has the focus"
        return widget

    def field(self, name: str) -> QWidget:
        """A control of the panel by its object name."""
        found = self.panel.findChild(QWidget, f"sketch_{name}")
        assert found is not None, name
        return found

    def draw_by(self, way: str, of: str = "zone") -> None:
        """Choose how the drawing tool in hand draws: Corners, Rectangle or Circle."""
        box = self.field(f"new_{of}_way")
        box.setFocus()
        QTest.keyClicks(box, way)

    def press_button(self, name: str) -> None:
        """Click a button of the panel."""
        QTest.mouseClick(self.field(name), LEFT)

    def words(self) -> str:
        """What the line under the sketch says."""
        return self.said("words")

    def said(self, name: str) -> str:
        """What a label of the panel says."""
        return str(self.field(name).property("text"))

    def zone(self, record_id: str) -> Zone:
        """A zone as it is kept."""
        return self.notebook.zones[record_id]

    def only_new_zone(self) -> Zone:
        """The one zone that the sketch yard did not have."""
        (zone,) = [z for z in self.notebook.zones.values() if z.id not in ("front", "back")]
        return zone

    def close(self) -> None:
        """Close panel and book, and let Qt delete what is left."""
        self.panel.close()
        self.panel.deleteLater()
        QApplication.sendPostedEvents(None, 52)
        QApplication.processEvents()
        self.book.close()


def with_north(notebook: Notebook, north_deg: float) -> Notebook:
    """The notebook with north elsewhere."""
    return replace(notebook, yard=replace(notebook.yard, north_deg=north_deg))


def pixel(point: QPointF) -> tuple[int, int]:
    """A point as whole pixels."""
    return (round(point.x()), round(point.y()))
