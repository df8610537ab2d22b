"""Ink: text, lines and pictures on a QPainter whose unit is the point."""

import re
from dataclasses import replace
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPainterPath, QPen

from lawnbook.charts.marks import (
    Align,
    Disc,
    Face,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Words,
    shortened,
)
from lawnbook.charts.palette import PRINT, Palette
from lawnbook.frozen import dataclass
from lawnbook.sheet.fonts import UNITS_PER_PT, qt_font

_BREAKS = re.compile(r"[ \t\r\n]+")
_NARROWER = tuple(1 - 0.01 * step for step in range(16))
_LAST_LINE_SHARE = 0.2
_SMALLER = (9.0, 8.5, 8.0)


@dataclass(frozen=True, slots=True)
class Style:
    """How words look: face, size in points, role of the palette."""

    face: Face = "regular"
    size: float = 9.0
    role: str = "ink"


TITLE = Style("serif semibold", 24)
SUBTITLE = Style("serif italic", 11, "quiet")
HEADING = Style("serif semibold", 13.5)
CAPTION = Style("regular", 8.5, "quiet")
HEAD_CELL = Style("regular", 8, "quiet")
CELL = Style("regular", 9.5)
STRONG = Style("semibold", 9.5)
DETAIL = Style("regular", 8, "quiet")
FINE = Style("regular", 8, "quiet")
CAUTION = Style("regular", 9)
SMALLER_CAUTIONS = (Style("regular", 8.5), Style("regular", 8))


@dataclass(frozen=True, slots=True)
class Ink:
    """A painter in points with a palette; text is placed on its baseline."""

    painter: QPainter
    palette: Palette = PRINT

    def width(self, text: str, style: Style) -> float:
        """The width of a text in points."""
        return _width_pt(text, style.face, style.size)

    def fit(self, text: str, style: Style, width: float) -> str:
        """The text, shortened with an ellipsis if it is wider than `width` points."""
        return shortened(text, lambda told: self.width(told, style) <= width)

    def smaller(self, text: str, style: Style, width: float) -> Style:
        """The style, set smaller if that spares the text an ellipsis, though not below 8 pt."""
        sizes = (size for size in _SMALLER if size < style.size)
        tried = (style, *(replace(style, size=size) for size in sizes))
        return next((each for each in tried if self.width(text, each) <= width), style)

    def wrap(self, text: str, style: Style, width: float, most: int | None = None) -> list[str]:
        """The text in lines of at most `width` points; past `most` lines the last is shortened.

        A line never ends at a space that does not break (U+00A0).
        """
        return list(_wrapped(text, style, width, most))

    def paragraph(self, text: str, style: Style, width: float) -> list[str]:
        """The text in lines, set a little narrower if that spares a last line of a word or two."""
        lines = self.wrap(text, style, width)
        for share in _NARROWER:
            tried = self.wrap(text, style, width * share)
            if len(tried) > len(lines):
                break
            if len(tried) < 2 or self.width(tried[-1], style) >= _LAST_LINE_SHARE * width:
                return tried
        return lines

    def text(self, at: tuple[float, float], text: str, style: Style, align: Align = "left") -> None:
        """Write a text, its baseline at `at`."""
        if not text:
            return
        share = {"left": 0.0, "center": 0.5, "right": 1.0}[align]
        left = at[0] - share * self.width(text, style)
        painter = self.painter
        painter.save()
        painter.translate(left, at[1])
        painter.scale(1 / UNITS_PER_PT, 1 / UNITS_PER_PT)
        painter.setFont(qt_font(style.face, style.size))
        painter.setPen(self.colour(style.role))
        painter.drawText(QPointF(0, 0), text)
        painter.restore()

    def rule(
        self, left: float, right: float, y: float, role: str = "rule", width: float = 0.6
    ) -> None:
        """A horizontal line."""
        self.painter.setPen(self.pen(role, width, ()))
        self.painter.drawLine(QPointF(left, y), QPointF(right, y))

    def tint(self, box: QRectF, role: str) -> None:
        """A filled rectangle without an edge."""
        self.painter.fillRect(box, self.colour(role))

    def picture(self, picture: Picture, left: float, top: float) -> None:
        """Paint a picture's marks, clipped to its frame."""
        painter = self.painter
        painter.save()
        painter.translate(left, top)
        painter.setClipRect(QRectF(0, 0, picture.frame.width, picture.frame.height))
        for mark in picture.marks:
            self._mark(mark)
        painter.restore()

    def colour(self, role: str) -> QColor:
        """A role's colour; AttributeError for an unknown role."""
        return QColor(str(getattr(self.palette, role)))

    def pen(self, role: str, width: float, dash: tuple[float, ...]) -> QPen:
        """A pen; `dash` in points."""
        pen = QPen(self.colour(role), width)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap if dash else Qt.PenCapStyle.RoundCap)
        if dash:
            pen.setDashPattern([each / width for each in dash])
        return pen

    def _mark(self, mark: Mark) -> None:
        painter = self.painter
        match mark:
            case Polygon():
                painter.setOpacity(mark.alpha)
                brush = QBrush(self.colour(mark.fill)) if mark.fill else Qt.BrushStyle.NoBrush
                painter.setBrush(brush)
                edge = self.pen(mark.edge, mark.width, mark.dash) if mark.edge else None
                painter.setPen(edge if edge is not None else Qt.PenStyle.NoPen)
                self._trace(_path(mark.rings, closed=True))
                painter.setOpacity(1.0)
            case Polyline():
                painter.setOpacity(mark.alpha)
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(self.pen(mark.role, mark.width, mark.dash))
                self._trace(_path(mark.lines, closed=False))
                painter.setOpacity(1.0)
            case Disc():
                painter.setBrush(self.colour(mark.fill))
                edge = self.pen(mark.edge, mark.width, ()) if mark.edge else None
                painter.setPen(edge if edge is not None else Qt.PenStyle.NoPen)
                painter.drawEllipse(QPointF(*mark.at), mark.radius, mark.radius)
            case Words():
                style = Style(mark.face, mark.size, mark.role)
                if mark.halo:
                    self._halo(mark, style)
                self.text(mark.at, mark.text, style, mark.align)

    def _trace(self, path: QPainterPath) -> None:
        """Draw a path unless it is empty: of none Qt writes a closing, which readers reject."""
        if not path.isEmpty():
            self.painter.drawPath(path)

    def _halo(self, mark: Words, style: Style) -> None:
        """An outline behind words that a line may cross, spaces too, lest it look like a hyphen.

        A path, so that the text is there once.
        """
        share = {"left": 0.0, "center": 0.5, "right": 1.0}[mark.align]
        path = QPainterPath()
        path.addText(QPointF(0, 0), qt_font(style.face, style.size), mark.text)
        for left, right in self._spaces(mark.text, style):
            path.addRect(QRectF(left, -0.5 * style.size * UNITS_PER_PT, right - left, 1.0))
        painter = self.painter
        painter.save()
        painter.translate(mark.at[0] - share * self.width(mark.text, style), mark.at[1])
        painter.scale(1 / UNITS_PER_PT, 1 / UNITS_PER_PT)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        pen = self.pen(mark.halo, 2.4 * UNITS_PER_PT, ())
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.strokePath(path, pen)
        painter.restore()

    def _spaces(self, text: str, style: Style) -> list[tuple[float, float]]:
        """Where the spaces of a text begin and end, in the font's own units."""
        starts = [place for place, letter in enumerate(text) if letter == " "]
        edges = [(self.width(text[:n], style), self.width(text[: n + 1], style)) for n in starts]
        return [(left * UNITS_PER_PT, right * UNITS_PER_PT) for left, right in edges]


def _path(rings: tuple[tuple[tuple[float, float], ...], ...], *, closed: bool) -> QPainterPath:
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    line_to = path.lineTo
    for ring in rings:
        if not _extends(ring):
            continue
        path.moveTo(*ring[0])
        for x, y in ring[1:]:
            line_to(x, y)
        if closed:
            path.closeSubpath()
    return path


def _extends(ring: tuple[tuple[float, float], ...]) -> bool:
    """Whether a ring is more than a point."""
    left, top = ring[0]
    return any(abs(x - left) + abs(y - top) > 1e-6 for x, y in ring[1:])


@lru_cache(maxsize=1 << 14)
def _width_pt(text: str, face: Face, size: float) -> float:
    """A text's width in points, remembered: lines are laid again and again until the page fits."""
    return QFontMetricsF(qt_font(face, size)).horizontalAdvance(text) / UNITS_PER_PT


@lru_cache(maxsize=1 << 12)
def _wrapped(text: str, style: Style, width: float, most: int | None) -> tuple[str, ...]:
    """The lines of a text, remembered as its widths are."""

    def fits(told: str) -> bool:
        return _width_pt(told, style.face, style.size) <= width

    lines: list[str] = []
    words = [word for word in _BREAKS.split(text) if word]
    while words:
        if most is not None and len(lines) == most - 1:
            return (*lines, shortened(" ".join(words), fits))
        count = 1
        while count < len(words) and fits(" ".join(words[: count + 1])):
            count += 1
        lines.append(shortened(" ".join(words[:count]), fits))
        words = words[count:]
    return tuple(lines)
