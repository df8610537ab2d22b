"""Paper and ink on every control: fonts from our own files, one palette for the whole window.

Text may be larger than as written: a size in points goes through `points`, a measure in pixels
that belongs to text through `px`, and one that is given to a widget for good through `sized`,
which is said again in a new scale. A widget that paints itself reads `palette()` in its paint
event; one that keeps colours (a chart) redraws when `changeEvent` brings `QEvent.Type.StyleChange`.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from string import Template
from typing import Literal
from weakref import WeakKeyDictionary

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QHeaderView, QWidget
from shiboken6 import isValid

from lawnbook.charts import tokens
from lawnbook.charts.palette import DARK, HIGH_DARK, HIGH_LIGHT, LIGHT, PRINT, Palette
from lawnbook.desk.looks import Looks, ThemeName, looks, percent_in_reach, wear
from lawnbook.yard.places import resource

SERIF = "Source Serif 4"
SANS = "Inter"
UI_POINTS = tokens.UI_POINTS
CAPTION_POINTS = tokens.CAPTION_POINTS
Measure = Literal[
    "width", "height", "least width", "most width", "least height", "most height", "rows"
]


def _set_rows(header: QWidget, height: int) -> None:
    """Give the rows of a table, by their header, one height."""
    if not isinstance(header, QHeaderView):
        raise TypeError("Only a header has rows.")
    header.setDefaultSectionSize(height)


_SETTERS: dict[Measure, Callable[[QWidget, int], None]] = {
    "width": QWidget.setFixedWidth,
    "height": QWidget.setFixedHeight,
    "least width": QWidget.setMinimumWidth,
    "most width": QWidget.setMaximumWidth,
    "least height": QWidget.setMinimumHeight,
    "most height": QWidget.setMaximumHeight,
    "rows": _set_rows,
}
_TEXT_PX = (7, 9, 10, 13, 15, 16, 22, 26, 28)
"""Lengths of the style sheet that belong to text: `$px_28` is 28 pixels in the owner's size."""
_MEASURES: dict[str, Measure] = {each.replace(" ", "_"): each for each in _SETTERS}


class _Current:
    """The palette in use; one for the process, as there is one application."""

    palette: Palette = LIGHT
    fonts_loaded = False
    is_fusion = False
    sheet = ""
    scale = 1.0


_SIZED: "WeakKeyDictionary[QWidget, dict[Measure, int]]" = WeakKeyDictionary()
"""The pixels that widgets were given for their text, before they grow with it."""


def palette() -> Palette:
    """The palette in use now."""
    return _Current.palette


def points(size: float) -> float:
    """A size of text in points, larger where the owner wants larger text."""
    return size * _Current.scale


def px(length: float) -> int:
    """A length in pixels that belongs to text, larger where the text is."""
    return round(length * _Current.scale)


def scale() -> float:
    """How large text is: 1.0 as written, 2.0 twice as large."""
    return _Current.scale


def sized(widget: QWidget, **measures: int) -> None:
    """Give a widget pixels that belong to its text; they grow and shrink with the text.

    `sized(field, width=92)`, `sized(row, least_height=30)`; the measures are those of `Measure`,
    and another raises KeyError.
    """
    held = _SIZED.setdefault(widget, {})
    for name, length in measures.items():
        measure = _MEASURES[name]
        held[measure] = length
        _SETTERS[measure](widget, px(length))


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


def serif(size: float, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The book's serif in a size, for widgets that paint their own words."""
    font = QFont(SERIF, weight=weight)
    font.setPointSizeF(points(size))
    return font


def sans(size: float = UI_POINTS, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The book's sans, figures of one width, for widgets that paint their own words."""
    font = QFont(SANS, weight=weight)
    font.setPointSizeF(points(size))
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

    Contrast and size of text stay as they are. Raises KeyError for another name.
    """
    names: dict[str, ThemeName] = {"light": "light", "dark": "dark", "system": "system"}
    apply_looks(app, replace(looks(), theme=names[palette_name]))


def apply_looks(app: QApplication, wanted: Looks) -> None:
    """Dress the application in a theme, a contrast and a size of text."""
    wear(wanted)
    _load_fonts()
    chosen = _palette_of(app, wanted)
    larger = percent_in_reach(wanted.scale_percent) / 100
    grows, _Current.scale = larger != _Current.scale, larger
    _Current.palette = chosen
    sheet = _style_sheet(chosen)
    if app.styleSheet() == sheet:
        return  # Dressed so already; to say it again would polish every widget anew.
    if not _Current.is_fusion:
        app.setStyle("Fusion")
        _Current.is_fusion = True
    app.setFont(sans())
    app.setPalette(_qt_palette(chosen))
    if grows:
        _size_again()
    app.setStyleSheet(sheet)


def _size_again() -> None:
    """Give every widget the pixels of the new size of text, those that were given any."""
    for widget, measures in list(_SIZED.items()):
        if not isValid(widget):
            continue  # Its window is gone, though somebody still holds its name.
        for measure, length in measures.items():
            _SETTERS[measure](widget, px(length))


def _palette_of(app: QApplication, wanted: Looks) -> Palette:
    """The palette of a choice; what is left to the desktop is asked there."""
    hints = app.styleHints()
    dark = wanted.theme == "dark"
    if wanted.theme == "system":
        dark = hints.colorScheme() is Qt.ColorScheme.Dark
    high = wanted.contrast == "high"
    if not high:
        asked = hints.accessibility().contrastPreference()
        high = asked is Qt.ContrastPreference.HighContrast
    if high:
        return HIGH_DARK if dark else HIGH_LIGHT
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
        made.setColor(QPalette.ColorGroup.Disabled, each, QColor(p.faint))
    return made


def _wash(hex_colour: str, opacity: float) -> str:
    """A thin wash of a colour, which shows on paper and on cards alike."""
    c = QColor(hex_colour)
    return f"rgba({c.red()}, {c.green()}, {c.blue()}, {opacity:.2f})"


def _style_sheet(p: Palette) -> str:
    if not _Current.sheet:
        _Current.sheet = (resource("style") / "book.qss").read_text(encoding="utf-8")
    style = resource("style")
    shade, other = ("dark", "light") if p.is_dark else ("light", "dark")
    return Template(_Current.sheet).substitute(
        {role: getattr(p, role) for role in ("ink", "paper", "card", "desk", "quiet", "rule")},
        **{role: getattr(p, role) for role in ("accent", "on_accent", "good", "warn", "bad")},
        **_measures(),
        edge=p.edge,
        faint=p.faint,
        note=mix(p.paper, p.thatch, 0.08 if p.is_high else 0.2),
        chosen=mix(p.card, p.accent, 0.16),
        stripe=mix(p.card, p.ink, 0.03),
        button=_wash(p.ink, 0.07),
        button_hover=_wash(p.ink, 0.13),
        button_down=_wash(p.ink, 0.2),
        button_edge=p.edge if p.is_high else "transparent",
        button_edge_off=p.faint if p.is_high else "transparent",
        accent_hover=mix(p.accent, p.ink, 0.15),
        accent_down=mix(p.accent, p.ink, 0.3),
        chevron=(style / f"chevron-{shade}.svg").as_posix(),
        # A tick is made for the ground of the accent; on a card the one of the other shade shows.
        tick=(style / f"tick-{shade}.svg").as_posix(),
        tick_on_card=(style / f"tick-{other}.svg").as_posix(),
        leads=(style / f"leads-{shade}.svg").as_posix(),
        leads_chosen=(style / f"leads-{other}.svg").as_posix(),
    )


def _measures() -> dict[str, str]:
    """The tokens by their names; sizes of type and lines of text in the owner's size."""
    told = {}
    for name, value in vars(tokens).items():
        if name.endswith("_POINTS"):
            told[name.lower()] = f"{points(value):g}pt"
        elif name.endswith("LINE_PX"):
            told[name.lower()] = f"{px(value)}px"
        elif name.endswith("_PX"):
            told[name.lower()] = f"{value}px"
    return told | {f"px_{each}": f"{px(each)}px" for each in _TEXT_PX}
