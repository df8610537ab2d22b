"""Our own icons: SVG files on a grid of 24 px with one stroke, in the ink of the theme.

They are read and painted when they are first shown, so that no start waits for them.
"""

from functools import lru_cache

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize
from PySide6.QtGui import QIcon, QImageReader, QPixmap

from lawnbook.charts.palette import Palette
from lawnbook.desk.theme import palette, px
from lawnbook.yard.places import resource

ICON_PX = 16
SHARP = 3
"""Painted so many times larger than shown, so that they are sharp on any screen."""
WINDOW_SIZES_PX = (16, 24, 32, 48, 64, 128, 256)
INK = b"currentColor"


def icon(name: str, *, in_menu: bool = False) -> QIcon:
    """An icon by the name of its file, in the colours and the size of text that are worn.

    It is quiet where it is disabled, and in the accent's ink where it is chosen or pressed in; in
    a menu also under the pointer, where the accent is its ground. Raises FileNotFoundError for a
    name without a file.
    """
    return _made(name, palette(), px(ICON_PX), in_menu)


def window_icon() -> QIcon:
    """The program's own icon, in the sizes that desktops ask for."""
    made = QIcon()
    for size in WINDOW_SIZES_PX:
        made.addFile(str(resource(f"icons/lawnbook-{size}.png")), QSize(size, size))
    return made


@lru_cache(maxsize=128)
def _made(name: str, colours: Palette, size_px: int, in_menu: bool) -> QIcon:
    drawing = resource(f"icons/{name}.svg").read_bytes()
    made = QIcon()
    modes, states = QIcon.Mode, QIcon.State
    for mode, state, ink in (
        (modes.Normal, states.Off, colours.ink),
        (modes.Normal, states.On, colours.on_accent),
        (modes.Selected, states.Off, colours.on_accent),
        (modes.Selected, states.On, colours.on_accent),
        (modes.Disabled, states.Off, colours.faint),
        (modes.Active, states.Off, colours.on_accent if in_menu else colours.ink),
    ):
        made.addPixmap(_painted(drawing, ink, size_px), mode, state)
    return made


def _painted(drawing: bytes, ink: str, size_px: int) -> QPixmap:
    held = QBuffer()
    held.setData(QByteArray(drawing.replace(INK, ink.encode())))
    held.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(held, QByteArray(b"svg"))
    reader.setScaledSize(QSize(size_px * SHARP, size_px * SHARP))
    made = QPixmap.fromImage(reader.read())
    made.setDevicePixelRatio(SHARP)
    return made
