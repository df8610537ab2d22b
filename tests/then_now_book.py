"""Notebooks with plugs of two days, with photographs or without, for tests of then and now."""

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF
from PySide6.QtGui import QColor, QImage, QImageWriter, QPainter

from lawnbook.plan.plug_model import ThenNow
from lawnbook.plan.then_now import plug_days, then_and_now
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.photos import new_photo
from lawnbook.yard.record_plug import Core, Photo, PhotoRuler
from lawnbook.yard.records import Care, Record, Spot
from tests.page_book import page_notebook

THEN, BETWEEN, NOW = date(2024, 5, 11), date(2025, 5, 10), date(2026, 5, 9)
TODAY = date(2026, 6, 15)
LONG = "so long a note that nobody would ever write it by hand on a wet morning in spring " * 8
DOT = "#ff0000"
"""What a drawn photograph has an inch below the middle of its crowns."""


def core(core_id: str, on: date, *thatch_in: float, spot: str = "gate", note: str = "") -> Core:
    """A plug of a spot, read in full."""
    return Core(
        id=core_id,
        spot=spot,
        date=on,
        thatch_in=thatch_in,
        resolution_in=0.0625,
        root_depth_in=2.5,
        sponge=3,
        soil_in_thatch=1,
        worms=2,
        thatch_moisture="dry",
        soil_moisture="moist",
        clock=1,
        note=note,
    )


def two_days(
    *photos: Photo, note: str = "", care: int = 1, more: tuple[Core, ...] = ()
) -> Notebook:
    """The gate with plugs of three days, the shed with one, the oak with none."""
    cores = (
        core("c1", THEN, 1.0, 1.1, 0.9, note=note),
        core("c2", BETWEEN, 0.9, 0.8, 0.85),
        replace(core("c3", NOW, 0.5, 0.6, 0.55, note=note), root_depth_in=4.25, worms=None),
        core("s1", NOW, 0.75, spot="shed"),
        *more,
    )
    cares = [
        Care(
            id=f"a{number}",
            date=THEN + timedelta(days=20 + 9 * number),
            kind="aeration",
            zones=("side",),
            note=note,
        )
        for number in range(care)
    ]
    spots = [
        Spot(id="gate", name="Gate", zone="side"),
        Spot(id="shed", name="Shed", zone="side"),
        Spot(id="oak", name="Oak", zone="front"),
    ]
    rows: dict[str, Sequence[Record]] = {
        "spots": spots,
        "cores": list(cores),
        "care": cares,
        "photos": list(photos),
    }
    return with_tables(page_notebook(), rows)


def pair_of_gate(notebook: Notebook) -> ThenNow:
    """The first and the latest day of the gate."""
    days = plug_days(notebook, "gate", TODAY)
    return then_and_now(notebook, "gate", days[0].date, days[-1].date)


def drawn_photo(
    core_id: str, px_per_in: float = 100.0, turn_deg: float = 0.0, *, marked: str = "crowns"
) -> Photo:
    """A grey photograph of 800 by 600 pixels with a red dot an inch below its crowns.

    `turn_deg` is how far the plug lies turned in it, clockwise; `marked` is "crowns", "scale" or
    "" for how much is marked on it.
    """
    wide, high = 800, 600
    angle = math.radians(turn_deg)
    along, down = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
    middle = (400.0, 300.0)

    def at(across_in: float, deep_in: float) -> Point:
        x, y = (
            m + px_per_in * (across_in * a + deep_in * d)
            for m, a, d in zip(middle, along, down, strict=True)
        )
        return x / wide, y / high

    image = QImage(wide, high, QImage.Format.Format_RGB32)
    image.fill(QColor("#808080"))
    painter = QPainter(image)
    painter.setBrush(QColor(DOT))
    painter.setPen(QColor(DOT))
    dot = at(0.0, 1.0)
    painter.drawEllipse(QPointF(dot[0] * wide, dot[1] * high), 0.12 * px_per_in, 0.12 * px_per_in)
    painter.end()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(image)
    made = replace(new_photo(core_id, bytes(buffer.data().data()), (wide, high)), id=f"p-{core_id}")
    if not marked:
        return made
    ruler = PhotoRuler(known_in=1.0, scale=(at(-0.5, 0.0), at(0.5, 0.0)))
    if marked == "crowns":
        ruler = replace(ruler, crowns=(at(-0.5, 0.0), at(0.5, 0.0)), thatch_ends=(at(0.0, 0.5),))
    return replace(made, ruler=ruler)
