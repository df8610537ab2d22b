"""What an owner does with an open book, step by step, for `tests.bench.holds`."""

import io
import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import date, datetime
from functools import partial
from itertools import count
from pathlib import Path
from types import MappingProxyType
from typing import Protocol, TypeVar, cast

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QWidget

from lawnbook.desk import calendar_out, menus, moving_out, printing
from lawnbook.desk.app import Desk
from lawnbook.desk.pages import sheet_handover, sheet_tables, yard_exchange
from lawnbook.desk.pages.photo_tray import PhotoTray
from lawnbook.desk.pages.sheet_tables import TablesSection
from lawnbook.desk.pages.weather_card import WeatherCard
from lawnbook.desk.quick_add import open_quick_add
from lawnbook.desk.restore import EarlierCopies
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.store.backups import keep_copy
from lawnbook.yard.notebook import put
from lawnbook.yard.record_log import Watering
from tests.access_walk import PLACES, Sectioned

PHOTOS = 300
Part = TypeVar("Part", bound=QWidget)


class Walk:
    """An owner's way through a book on a desk; files that are asked for get names of their own."""

    def __init__(self, app: QApplication, folder: Path, path: Path, today: date) -> None:
        self.folder, self.path, self.today = folder, path, today
        (folder / "copies").mkdir()
        self.copies = folder / "copies"
        self.settings = Settings(folder / "desk.ini")
        self.settings.folder = folder
        self.desk = Desk(app, self.settings, today, self.copies)
        self.settle: Callable[[], None] = lambda: None
        self.saved: list[Path] = []
        self._numbers = count(1)
        for module, name, suffix in (
            (printing, "choose_pdf", ".pdf"),
            (sheet_handover, "choose_handover", ".zip"),
            (calendar_out, "choose_calendar", ".ics"),
            (menus, "choose_export", ".json"),
            (moving_out, "choose_elsewhere", ".lawnbook"),
        ):
            setattr(module, name, partial(self._named, suffix))
        for module, name in (
            (sheet_tables, "choose_tables_file"),
            (yard_exchange, "choose_outlines_file"),
        ):
            setattr(module, name, lambda _, start: self._named(start.suffix))

    @property
    def window(self) -> BookWindow:
        """The open book's."""
        held = self.desk.window
        if held is None:
            raise RuntimeError("no book is open")
        return held

    def close(self) -> None:
        """Put all away."""
        self.window.close()
        self.desk.finish()

    def part(self, kind: type[Part], name: str = "") -> Part:
        """A part of the window by its kind and name."""
        found = self.window.findChild(kind, name) if name else self.window.findChild(kind)
        if not isinstance(found, kind):
            raise LookupError(name or kind.__name__)
        return found

    def press(self, name: str) -> None:
        """Press a button by its name."""
        QTest.mouseClick(self.part(QPushButton, name), Qt.MouseButton.LeftButton)

    def turn(self, page: str, section: str) -> None:
        """Turn to a section of a page."""
        self.window.turn_to(page)
        cast(Sectioned, self.window.page(page)).turn_to(section)

    def _named(self, suffix: str, *_: object) -> Path:
        self.saved.append(self.folder / f"out {next(self._numbers)}{suffix}")
        return self.saved[-1]


class Step(Protocol):
    """Something the owner does once."""

    def __call__(self, walk: Walk) -> None: ...


def _open(walk: Walk) -> None:
    walk.desk.open(walk.path)
    walk.window.resize(1440, 900)


def _turned(page: str, section: str) -> Step:
    return lambda walk: walk.turn(page, section)


def _edit(walk: Walk) -> None:
    book = walk.window.book
    zone = next(iter(book.notebook.zones))
    watering = Watering(id=f"held{len(book.undo_label)}", date=walk.today, zone=zone, minutes=20.0)
    book.edit(put(book.notebook, "waterings", watering), "watering")


def _redraw(walk: Walk) -> None:
    """An edit that most of a plan hangs on."""
    book = walk.window.book
    zone = next(iter(book.notebook.zones.values()))
    outline = tuple((x + 0.5, y) for x, y in zone.outline_ft)
    book.edit(put(book.notebook, "zones", replace(zone, outline_ft=outline)), "zone")


def _undo(walk: Walk) -> None:
    walk.window.undo()


def _elsewhere(walk: Walk) -> None:
    walk.window.move_out()


def _touch(walk: Walk) -> None:
    """What a sync program does: the file is the same, its times are not."""
    os.utime(walk.window.book.path)
    walk.window.watch.look()


def _sheet(workings: bool, what: str) -> Step:
    def step(walk: Walk) -> None:
        walk.settings.workings = workings
        walk.turn("Sheet", "Plan")
        walk.settle()
        walk.press(f"sheet_{what}")

    return step


def _workings(on: bool) -> Step:
    def step(walk: Walk) -> None:
        walk.turn("Sheet", "Plan")
        box = walk.part(QWidget, "sheet_workings")
        cast(QPushButton, box).setChecked(on)

    return step


def _scroll(walk: Walk) -> None:
    """Page down through the preview, a page at a time."""
    preview = walk.part(QWidget, "sheet_preview")
    for _ in range(12):
        QTest.wheelEvent(preview.window().windowHandle(), QPoint(1000, 600), QPoint(0, -600))
        QTest.qWait(20)


def _pressed(page: str, section: str, button: str) -> Step:
    def step(walk: Walk) -> None:
        walk.turn(page, section)
        walk.settle()
        walk.press(button)

    return step


def _tables_in(walk: Walk) -> None:
    """The workbook that was saved before, taken in again with a change."""
    walk.turn("Sheet", "Tables")
    walk.settle()
    book = next(each for each in walk.saved if each.suffix == ".xlsx")
    walk.part(TablesSection).read_tables(book)


def _calendar(walk: Walk) -> None:
    menus.save_calendar(walk.window)


def _export(walk: Walk) -> None:
    menus.export(walk.window)


def _quick(walk: Walk) -> None:
    line = open_quick_add(walk.window).line
    walk.settle()
    QTest.keyClicks(line, "watered 30 min yesterday")
    QTest.keyClick(line, Qt.Key.Key_Return)
    QTest.keyClick(line, Qt.Key.Key_Return)


def _weather(walk: Walk) -> None:
    walk.turn("Yard", "Overview")
    table = walk.folder / "weather.csv"
    days = walk.window.book.notebook.weather.values()
    rows = [f"{each.date},{each.tmin_f},{each.tmax_f},{each.rain_in}" for each in days]
    table.write_text("\n".join(["date,tmin_f,tmax_f,rain_in", *rows[:-1]]) + "\n")
    walk.part(WeatherCard).read_weather(table)


def _photos(walk: Walk) -> None:
    from PIL import Image

    walk.turn("Plugs", "Columns")
    walk.window.begin_plug(next(iter(walk.window.book.notebook.spots)))
    paths = []
    for number in range(PHOTOS):
        data = io.BytesIO()
        Image.new("RGB", (640, 480), (number % 255, 90, 60)).save(data, "JPEG")
        paths.append(walk.folder / f"photo {number}.jpg")
        paths[-1].write_bytes(data.getvalue())
    walk.settle()
    walk.part(PhotoTray).add_files(paths)


def _restore(walk: Walk) -> None:
    keep_copy(walk.window.book.path, "", datetime(2026, 7, 1, 12).astimezone(), walk.copies)
    _edit(walk)
    walk.settle()
    walk.window.copies_asked.emit()
    walk.settle()
    walk.part(EarlierCopies).back_button.click()


def _search(walk: Walk) -> None:
    walk.turn("Season", "Log")
    walk.settle()
    QTest.keyClicks(walk.part(QLineEdit, "log_search"), "jun 2026")


def _zoom(walk: Walk) -> None:
    view = walk.window.sketch.view
    for turn in range(30):
        by = 120 if turn < 15 else -120
        where = QPointF(view.viewport().rect().center())
        wheel = QWheelEvent(
            where, view.mapToGlobal(where), QPoint(), QPoint(0, by),
            Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        QApplication.sendEvent(view.viewport(), wheel)
        QTest.qWait(5)


def _pan(walk: Walk) -> None:
    view = walk.window.sketch.view
    middle = view.viewport().rect().center()
    QTest.mousePress(view.viewport(), Qt.MouseButton.MiddleButton, pos=middle)
    for step in range(30):
        QTest.mouseMove(view.viewport(), middle + QPoint(step * 4, step * 2))
        QTest.qWait(5)
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.MiddleButton)


def _day_before(walk: Walk) -> None:
    walk.window.look_at(walk.today.replace(day=1))


def _turns() -> Iterable[tuple[str, Step]]:
    for again in ("", " again"):
        for page, sections in PLACES.items():
            for section in sections:
                yield f"{page}: {section}{again}", _turned(page, section)


STEPS: Mapping[str, Step] = MappingProxyType(
    {
        "open": _open,
        **dict(_turns()),
        "edit": _edit,
        "undo": _undo,
        "edit an outline": _redraw,
        "undo the outline": _undo,
        "another day": _day_before,
        "back to today": lambda walk: walk.window.back_to_today(),
        "file touched": _touch,
        "save elsewhere": _elsewhere,
        "sheet as PDF": _sheet(False, "save"),
        "workings laid out": _workings(True),
        "scroll the preview": _scroll,
        "workings as PDF": _sheet(True, "save"),
        "review as PDF": _pressed("Sheet", "Year in review", "review_save"),
        "handover": _pressed("Sheet", "Hand over", "handover_save"),
        "tables as workbook": _pressed("Sheet", "Tables", "save_workbook"),
        "tables as CSV": _pressed("Sheet", "Tables", "save_csv_zip"),
        "tables taken in": _tables_in,
        "calendar": _calendar,
        "yard file": _export,
        "outlines as GeoJSON": _pressed("Yard", "In and out", "write_geojson"),
        "outlines as SVG": _pressed("Yard", "In and out", "write_svg"),
        "note something down": _quick,
        "weather read": _weather,
        "photographs loaded": _photos,
        "copy taken back": _restore,
        "search in the log": _search,
        "zoom": _zoom,
        "pan": _pan,
    }
)
