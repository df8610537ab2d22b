"""A zone with heads in its corners, and a hand on its catch test's panel."""

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.pages.cans import CansPanel
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.coverage import rates_at
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.records import CatchTest, Head
from tests.page_book import WATER_DAY, open_book, page_notebook, part, put_away, settle, type_into

CORNERS: tuple[tuple[Point, float], ...] = (
    ((0.0, 0.0), 0.0),
    ((0.0, 25.0), 90.0),
    ((40.0, 25.0), 180.0),
    ((40.0, 0.0), 270.0),
)
PLACES: tuple[Point, ...] = ((6, 6), (20, 6), (34, 6), (6, 19), (20, 19), (34, 19))


def with_heads(notebook: Notebook, flow_gpm: float | None = 4.0) -> Notebook:
    """Quarter circles of 24 ft in the front's corners beside the side's own head."""
    heads = [
        Head(
            id=f"corner{k}",
            zone="front",
            at_ft=at_ft,
            radius_ft=24,
            start_deg=start,
            sweep_deg=90,
            flow_gpm=flow_gpm,
        )
        for k, (at_ft, start) in enumerate(CORNERS)
    ]
    return with_tables(notebook, {"heads": [*notebook.heads.values(), *heads]})


class Zone:
    """The zone chosen on the page around the panel."""

    id = "front"


def cans_book(folder: Path) -> Iterator[OpenNotebook]:
    """For a fixture: the notebook with heads, open, and closed afterwards."""
    held = open_book(folder, WATER_DAY, with_heads(page_notebook()))
    yield held
    held.close()


def cans_panel(
    app: QApplication, book: OpenNotebook, zone: Zone, draft: CanDraft
) -> Iterator[CansPanel]:
    """For a fixture: the panel shown in light, following the book, and put away later."""
    apply_theme(app, "light")
    made = CansPanel(book, lambda: zone.id)
    made.use_draft(draft)
    made.refresh()
    book.subscribe(lambda _: made.refresh())
    made.resize(620, 1100)
    made.show()
    made.activateWindow()
    tab_in_reading_order(made)
    settle()
    yield made
    put_away(made)


def press(*keys: str | Qt.Key) -> None:
    """Type and press, always into what has the keyboard."""
    for each in keys:
        focus = QApplication.focusWidget()
        assert focus is not None
        if isinstance(each, str):
            QTest.keyClicks(focus, each)
        else:
            QTest.keyClick(focus, each)


def choose(panel: CansPanel, word: str) -> None:
    """Choose how the cans are read."""
    box = part(panel, QComboBox, "catch_tests_unit")
    box.setFocus()
    QTest.keyClicks(box, word)
    QTest.keyClick(box, Qt.Key.Key_Tab)


def kept(book: OpenNotebook) -> CatchTest:
    """The one test beside the notebook's own."""
    (test,) = (each for each in book.notebook.catch_tests.values() if each.id != "c1")
    return test


def label(panel: CansPanel, name: str) -> str:
    """What a label says, empty where it is hidden."""
    words = part(panel, QLabel, name)
    return "" if words.isHidden() else words.text()


def caught_ml(book: OpenNotebook, share: float = 1.0) -> list[float]:
    """What cans of 9 sq in catch in 20 min where the map is right: 1 mL is 0.061024 cu in."""
    rates = rates_at(book.notebook, PLACES, "front")
    return [share * rate * 20 / 60 * 9 / 0.061024 for rate in rates]


def type_cans(panel: CansPanel, volumes: list[float]) -> None:
    """A run of 20 min, and what each can caught in mL."""
    type_into(panel, "catch_tests_run_minutes", "20")
    panel.rows.focus()
    for each in volumes:
        press(f"{each:.1f}", Qt.Key.Key_Down)
