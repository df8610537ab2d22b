"""The book's fonts for Qt, and a Qt without a screen where there is none."""

import os
import sys
from threading import local

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QFont, QFontDatabase, QGuiApplication

from lawnbook.charts.marks import FONT_FILES, Face
from lawnbook.yard.places import resource

UNITS_PER_PT = 20
"""Fonts are set in twentieths of a point: Qt takes whole pixels only, and layout wants 8.5 pt."""

_FAMILY: dict[Face, tuple[str, QFont.Weight, bool]] = {
    "regular": ("Inter", QFont.Weight.Normal, False),
    "medium": ("Inter", QFont.Weight.Medium, False),
    "semibold": ("Inter", QFont.Weight.DemiBold, False),
    "italic": ("Inter", QFont.Weight.Normal, True),
    "serif": ("Source Serif 4", QFont.Weight.Normal, False),
    "serif semibold": ("Source Serif 4", QFont.Weight.DemiBold, False),
    "serif italic": ("Source Serif 4", QFont.Weight.Normal, True),
}
# "field" must be found in the page's text, and "3 x 4" must stay as it was written.
_FEATURES_OFF = ("liga", "clig", "calt")


class _Held:
    """What must outlive every page: Qt itself, where nobody had started it."""

    application: QCoreApplication | None = None
    fonts_loaded = False


def ensure_qt() -> None:
    """Start Qt without windows if nobody has, and load the fonts once."""
    if QCoreApplication.instance() is None:
        seen = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
        if sys.platform.startswith("linux") and not any(os.environ.get(name) for name in seen):
            os.environ["QT_QPA_PLATFORM"] = "offscreen"
        _Held.application = QGuiApplication(sys.argv[:1])
    if not _Held.fonts_loaded:
        for file in FONT_FILES.values():
            QFontDatabase.addApplicationFont(str(resource(f"fonts/{file}")))
        _Held.fonts_loaded = True


class _OfThread(local):
    """The fonts of one thread: Qt keeps what it loads of a font apart for each, so none is lent."""

    def __init__(self) -> None:
        self.fonts: dict[tuple[Face, float], QFont] = {}


_FONTS = _OfThread()


def qt_font(face: Face, size_pt: float) -> QFont:
    """A face at a size, in twentieths of a point: paint it scaled down by UNITS_PER_PT.

    The one of the thread that asks; pages may be painted in several threads at once.
    """
    held = _FONTS.fonts.get((face, size_pt))
    if held is None:
        held = _FONTS.fonts[face, size_pt] = _made(face, size_pt)
    return held


def _made(face: Face, size_pt: float) -> QFont:
    family, weight, italic = _FAMILY[face]
    font = QFont(family)
    font.setWeight(weight)
    font.setItalic(italic)
    font.setPixelSize(max(1, round(size_pt * UNITS_PER_PT)))
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    for tag in _FEATURES_OFF:
        font.setFeature(QFont.Tag(tag), 0)
    return font
