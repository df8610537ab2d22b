"""Paper and ink on every control: fonts from our own files, one palette for the whole window.

A widget that paints itself reads `palette()` in its paint event; one that keeps colours (a chart)
redraws when `changeEvent` brings `QEvent.Type.StyleChange`.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from string import Template
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

from lawnbook.charts.palette import DARK, LIGHT, PRINT, Palette
from lawnbook.yard.places import resource

ThemeName = Literal["light", "dark", "system"]
SERIF = "Source Serif 4"
SANS = "Inter"
UI_POINTS = 10.0
CAPTION_POINTS = 9.0


class _Current:
    """The palette in use; one for the process, as there is one application."""

    palette: Palette = LIGHT
    fonts_loaded = False
    is_fusion = False
    sheet = ""


def palette() -> Palette:
    """The palette in use now."""
    return _Current.palette


@contextmanager
def on_print_paper() -> Iterator[Palette]:
    """Ink on white paper, for what is painted meanwhile to be printed; nothing else may paint."""
    shown, _Current.palette = _Current.palette, PRINT
    try:
        yield PRINT
    finally:
        _Current.palette = shown


def colour(role_colour: str, alpha: float = 1.0) -> QColor:
    """A palette's hex colour as a QColor, with an opacity from 0 to 1."""
    made = QColor(role_colour)
    made.setAlphaF(alpha)
    return made


def mix(first: str, second: str, share: float) -> str:
    """The colour that lies `share` (0 to 1) of the way from the first hex colour to the second."""
    a, b = QColor(first), QColor(second)
    parts = (
        round(x + (y - x) * share)
        for x, y in ((a.red(), b.red()), (a.green(), b.green()), (a.blue(), b.blue()))
    )
    return "#" + "".join(f"{part:02x}" for part in parts)


def serif(points: float, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The book's serif in a size, for widgets that paint their own words."""
    font = QFont(SERIF, weight=weight)
    font.setPointSizeF(points)
    return font


def sans(points: float = UI_POINTS, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The book's sans, figures of one width, for widgets that paint their own words."""
    font = QFont(SANS, weight=weight)
    font.setPointSizeF(points)
    font.setFeature(QFont.Tag("tnum"), 1)
    # Inter would show 28 x 33 as 28 × 33: what is typed is shown as typed.
    font.setFeature(QFont.Tag("calt"), 0)
    return font


def application(name: str) -> QApplication:
    """A new application in the style that `apply_theme` dresses.

    Named to Qt beforehand: changing the style, or asking which it is, loads hundreds of enums.
    """
    made = QApplication([name, "-style", "fusion"])
    _Current.is_fusion = True
    return made


def apply_theme(app: QApplication, palette_name: str) -> None:
    """Dress the application: "light", "dark", or "system" for whichever the desktop asks for.

    Raises KeyError for another name.
    """
    _load_fonts()
    chosen = {"light": LIGHT, "dark": DARK, "system": _system_palette(app)}[palette_name]
    _Current.palette = chosen
    sheet = _style_sheet(chosen)
    if app.styleSheet() == sheet:
        return  # Dressed so already; to say it again would polish every widget anew.
    if not _Current.is_fusion:
        app.setStyle("Fusion")
        _Current.is_fusion = True
    app.setFont(sans())
    app.setPalette(_qt_palette(chosen))
    app.setStyleSheet(sheet)


def _system_palette(app: QApplication) -> Palette:
    dark = app.styleHints().colorScheme() is Qt.ColorScheme.Dark
    return DARK if dark else LIGHT


def _load_fonts() -> None:
    """Register our font files once; a font that cannot be read leaves the system's in place."""
    if _Current.fonts_loaded:
        return
    for path in sorted(resource("fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(path))
    _Current.fonts_loaded = True


def _qt_palette(p: Palette) -> QPalette:
    made = QPalette()
    role = QPalette.ColorRole
    colours = {
        role.Window: p.paper,
        role.WindowText: p.ink,
        role.Base: p.card,
        role.AlternateBase: mix(p.card, p.ink, 0.03),
        role.Text: p.ink,
        role.Button: mix(p.paper, p.ink, 0.06),
        role.ButtonText: p.ink,
        role.BrightText: p.bad,
        role.Highlight: p.accent,
        role.HighlightedText: p.on_accent,
        role.ToolTipBase: p.ink,
        role.ToolTipText: p.paper,
        role.PlaceholderText: mix(p.quiet, p.card, 0.15),
        role.Link: p.accent,
        role.LinkVisited: p.accent,
        role.Light: p.card,
        role.Mid: p.rule,
        role.Dark: p.quiet,
        role.Shadow: p.desk,
    }
    for each, hex_colour in colours.items():
        made.setColor(each, QColor(hex_colour))
    for each in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, each, QColor(mix(p.quiet, p.paper, 0.3)))
    return made


def _wash(hex_colour: str, opacity: float) -> str:
    """A thin wash of a colour, which shows on paper and on cards alike."""
    c = QColor(hex_colour)
    return f"rgba({c.red()}, {c.green()}, {c.blue()}, {opacity:.2f})"


def _style_sheet(p: Palette) -> str:
    if not _Current.sheet:
        _Current.sheet = (resource("style") / "book.qss").read_text(encoding="utf-8")
    style = resource("style")
    return Template(_Current.sheet).substitute(
        {role: getattr(p, role) for role in ("ink", "paper", "card", "desk", "quiet", "rule")},
        **{role: getattr(p, role) for role in ("accent", "on_accent", "good", "warn", "bad")},
        edge=mix(p.rule, p.quiet, 0.5),
        faint=mix(p.quiet, p.paper, 0.3),
        note=mix(p.paper, p.thatch, 0.2),
        chosen=mix(p.card, p.accent, 0.16),
        stripe=mix(p.card, p.ink, 0.03),
        button=_wash(p.ink, 0.07),
        button_hover=_wash(p.ink, 0.13),
        button_down=_wash(p.ink, 0.2),
        accent_hover=mix(p.accent, p.ink, 0.15),
        accent_down=mix(p.accent, p.ink, 0.3),
        chevron=(style / f"chevron-{p.name}.svg").as_posix(),
        tick=(style / f"tick-{p.name}.svg").as_posix(),
    )
