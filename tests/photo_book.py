"""Photographs of plugs for tests: a drawn plug, a notebook that holds it, and a hand."""

import io
from dataclasses import replace
from datetime import date
from pathlib import Path

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.photo_view import PhotoView
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.photos import new_photo
from lawnbook.yard.record_plug import Core, Photo, PhotoRuler
from tests.page_book import open_book, page_notebook

SIZE_PX = (800, 600)
PLUG_DAY = date(2026, 5, 3)
RULER = PhotoRuler(
    known_in=1.0,
    scale=((0.1, 0.9), (0.35, 0.9)),
    crowns=((0.4, 0.2), (0.7, 0.2)),
    thatch_ends=((0.5, 0.4),),
    roots_end=(0.55, 0.8),
)
"""200 pixels to an inch: thatch 0.60 in, roots to 1.80 in."""


def jpeg(taken: str = "", colour: str = "sienna") -> bytes:
    """A small picture of one colour as a camera writes it; `taken` as Exif writes a date."""
    from PIL import Image

    exif = Image.Exif()
    if taken:
        exif[0x0132] = taken
    out = io.BytesIO()
    Image.new("RGB", SIZE_PX, colour).save(out, "JPEG", exif=exif)
    return out.getvalue()


def photo(core_id: str, ruler: PhotoRuler | None = None, colour: str = "sienna") -> Photo:
    """A photograph of a plug."""
    return replace(new_photo(core_id, jpeg(colour=colour), SIZE_PX), ruler=ruler)


def photo_notebook(*photos: Photo) -> Notebook:
    """The page's notebook with plugs c1 (2025) and c2 (2026) at the gate, and photographs."""
    notebook = page_notebook()
    for core in (
        Core(id="c1", spot="gate", date=date(2025, 5, 3), thatch_in=(0.9,)),
        Core(id="c2", spot="gate", date=PLUG_DAY, thatch_in=(0.5,), root_depth_in=2.0),
    ):
        notebook = apply(notebook, put(notebook, "cores", core))
    for each in photos:
        notebook = apply(notebook, put(notebook, "photos", each))
    return notebook


def photo_book(folder: Path, today: date, *photos: Photo) -> OpenNotebook:
    """That notebook in a file that is open."""
    return open_book(folder, today, photo_notebook(*photos))


def at(view: PhotoView, share: Point) -> QPoint:
    """Where a share of the picture is pressed."""
    return view.view_of(share).toPoint()


def drag(view: PhotoView, start: Point, end: Point) -> None:
    """Drag the mouse from one share of the picture to another."""
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=at(view, start))
    middle = (view.view_of(start) + view.view_of(end)) / 2
    QTest.mouseMove(view, QPointF(middle).toPoint())
    QTest.mouseMove(view, at(view, end))
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=at(view, end))


def key(widget: QWidget, which: Qt.Key, shift: bool = False) -> None:
    """Press and let go a key."""
    held = Qt.KeyboardModifier.ShiftModifier if shift else Qt.KeyboardModifier.NoModifier
    QTest.keyClick(widget, which, held)
