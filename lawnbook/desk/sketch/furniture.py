"""What lies over the paper and does not move with it: scale bar, north arrow, legend, words."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QLabel, QWidget

from lawnbook.desk import theme
from lawnbook.desk.roles import hear_as
from lawnbook.desk.sketch.tinting import Legend
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import stored, unit_shown
from lawnbook.yard.numbers import counted

SCALE_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Round lengths of the scale bar, in feet or metres."""
LONGEST_BAR_PX = 150
APART_PX = 10.0
"""Between the steps of a scale and the colours that stand apart from it."""


class Furniture(QWidget):
    """Something painted over the paper; the pointer goes through it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        hear_as(self, "Graphic")
        self._picture = QPixmap()
        self._dressed = (theme.palette(), theme.scale())

    def draw(self, painter: QPainter) -> None:
        """Paint it with its upper left corner at the painter's origin, as large as text is."""
        painter.scale(theme.scale(), theme.scale())
        self.draw_plain(painter)

    def draw_plain(self, painter: QPainter) -> None:
        """Paint it as it is at a text of 100 %."""
        raise NotImplementedError

    def plain_rect(self) -> QRectF:
        """Its room as it is at a text of 100 %."""
        return QRectF(0, 0, self.width() / theme.scale(), self.height() / theme.scale())

    def fit(self) -> None:
        """Take the size that its words need."""

    def changeEvent(self, event: QEvent) -> None:
        """Take the size of larger words."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.fit()

    def renew(self) -> None:
        """It says something else now."""
        self._picture = QPixmap()
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """On the screen, from a picture: the paper moves under it at every step of a pan."""
        del event
        ratio = self.devicePixelRatioF()
        stale = (
            self._dressed != (theme.palette(), theme.scale())
            or self._picture.devicePixelRatio() != ratio
        )
        if stale or self._picture.isNull():
            self._take_picture(ratio)
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._picture)
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size, another picture."""
        super().resizeEvent(event)
        self.renew()

    def _take_picture(self, ratio: float) -> None:
        self._dressed = (theme.palette(), theme.scale())
        self._picture = QPixmap(self.size() * ratio)
        self._picture.setDevicePixelRatio(ratio)
        self._picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(self._picture)
        self.draw(painter)
        painter.end()


class ScaleBar(Furniture):
    """A bar of a round number of feet or metres."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._px_per_ft = 1.0
        name_control(self, "sketch_scale", tr("Scale bar"))
        theme.sized(self, width=LONGEST_BAR_PX + 60, height=24)

    def show_scale(self, px_per_ft: float) -> None:
        """Draw the bar for a zoom."""
        self._px_per_ft = px_per_ft
        self.retell()

    def retell(self) -> None:
        """A round number of the unit that the owner reads."""
        self.setAccessibleDescription(
            tr(
                "{words} are {length_px:.0f} pixels",
                words=self.words(),
                length_px=self._length_px(),
            )
        )
        self.renew()

    def length(self) -> int:
        """How long the bar is in feet or metres: the longest round number that fits."""
        unit_px = stored(1.0, "ft") * self._px_per_ft
        fitting = [s for s in SCALE_STEPS if s * unit_px <= theme.px(LONGEST_BAR_PX)]
        return fitting[-1] if fitting else SCALE_STEPS[0]

    def words(self) -> str:
        """What stands beside the bar: "20 ft", "5 m"."""
        return f"{self.length()} {unit_shown('ft')}"

    def _length_px(self) -> float:
        return stored(self.length(), "ft") * self._px_per_ft

    def draw_plain(self, painter: QPainter) -> None:
        """A bar with ends and a middle, and its length."""
        palette = theme.palette()
        length = self._length_px() / theme.scale()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(palette.ink), 1.6))
        painter.drawLine(QPointF(2, 13), QPointF(2 + length, 13))
        for x, reach in ((2.0, 5), (2 + length / 2, 3), (2 + length, 5)):
            painter.drawLine(QPointF(x, 13 - reach), QPointF(x, 13 + reach))
        painter.setFont(_font())
        box = QRectF(length + 11, 0, 60, 26)
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, self.words())


class NorthArrow(Furniture):
    """Where north is on the page."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._north_deg = 0.0
        name_control(self, "sketch_north", tr("North arrow"))
        theme.sized(self, width=46, height=46)

    def show_north(self, north_deg: float) -> None:
        """Turn the arrow, in degrees clockwise from the top."""
        self._north_deg = north_deg
        self.setAccessibleDescription(
            tr("North is {north_deg:g}° clockwise from the top", north_deg=north_deg)
        )
        self.renew()

    def draw_plain(self, painter: QPainter) -> None:
        """A slender arrow, half of it filled, and an upright N at its tip."""
        ink = QColor(theme.palette().ink)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(23, 25)
        painter.rotate(self._north_deg)
        painter.setPen(QPen(ink, 1.2))
        left = QPolygonF([QPointF(0, -9), QPointF(-6, 13), QPointF(0, 8)])
        right = QPolygonF([QPointF(0, -9), QPointF(6, 13), QPointF(0, 8)])
        painter.setBrush(ink)
        painter.drawPolygon(left)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolygon(right)
        painter.translate(0, -16)
        painter.rotate(-self._north_deg)
        painter.setFont(_font(QFont.Weight.DemiBold))
        painter.drawText(QRectF(-8, -8, 16, 16), Qt.AlignmentFlag.AlignCenter, "N")


class LegendBox(Furniture):
    """The steps of the colour scale and the words at their borders."""

    STEP_PX = 34.0

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._shown: Legend | None = None
        name_control(self, "sketch_legend", tr("Legend"))

    def recolour(self, shown: Legend | None) -> None:
        """The same legend in another palette."""
        self._shown = shown
        self.renew()

    def show_legend(self, shown: Legend | None) -> None:
        """Show a legend, or none."""
        self._shown = shown
        self.setVisible(shown is not None)
        if shown is not None:
            beside = [words for _, words in shown.beside]
            said = (f"{shown.title}: {', '.join([*shown.borders, *beside])}", shown.note)
            self.setAccessibleDescription(". ".join(filter(None, said)))
            self.fit()
        self.renew()

    def fit(self) -> None:
        """Room for the words and the steps."""
        shown = self._shown
        if shown is not None:
            words = max(_wide(each) for each in (shown.title, shown.note))
            wide = max(words, self._steps_px(shown) + self._beside_px(shown))
            self.resize(theme.px(wide + 20), theme.px(52 + (16 if shown.note else 0)))

    def draw_plain(self, painter: QPainter) -> None:
        """Title, steps, borders, what stands beside them, and the note."""
        palette, shown = theme.palette(), self._shown
        if shown is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour(palette.paper, 0.85))
        painter.drawRoundedRect(self.plain_rect(), 6, 6)
        painter.setFont(_font())
        painter.setPen(QColor(palette.quiet))
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(10, 3, self.width(), 15), middle, shown.title)
        painter.drawText(QRectF(10, 49, self.width(), 15), middle, shown.note)
        left = self._paint_swatches(painter, 10, shown.colours, shown.borders)
        for swatch, words in shown.beside:
            width = self._apart_px(words)
            self._paint_swatches(painter, left + APART_PX, (swatch,), (), width)
            box = QRectF(left + APART_PX, 31, width, 16)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
            left += APART_PX + width

    def _paint_swatches(
        self,
        painter: QPainter,
        left: float,
        colours: Sequence[str],
        borders: Sequence[str],
        width: float = STEP_PX,
    ) -> float:
        """Paint swatches in one frame with the words at their borders; where they end."""
        palette = theme.palette()
        for index, step in enumerate(colours):
            painter.fillRect(QRectF(left + index * width, 20, width, 10), QColor(step))
        painter.setPen(QPen(QColor(theme.mix(palette.rule, palette.quiet, 0.5)), 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(left, 20, width * len(colours), 10))
        painter.setPen(QColor(palette.ink))
        for index, border in enumerate(borders, 1):
            box = QRectF(left + index * width - 20, 31, 40, 16)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, border)
        return left + width * len(colours)

    def _steps_px(self, shown: Legend) -> float:
        return self.STEP_PX * len(shown.colours)

    def _beside_px(self, shown: Legend) -> float:
        return sum(APART_PX + self._apart_px(words) for _, words in shown.beside)

    def _apart_px(self, words: str) -> float:
        return _wide(words) + 4


class LeftOut(Furniture):
    """How many names find no place at this zoom."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = ""
        name_control(self, "sketch_left_out", tr("Names left out"))
        self.hide()

    def show_count(self, count: int) -> bool:
        """Say how many, nothing where all have their place; whether that is news."""
        words = tr("{names} left out; zoom in", names=counted(count, "name")) if count else ""
        if words == self._words:
            return False
        self._words = words
        self.setAccessibleDescription(words)
        self.fit()
        self.setVisible(bool(words))
        self.renew()
        return True

    def fit(self) -> None:
        """Room for the words."""
        self.resize(theme.px(_wide(self._words) + 16), theme.px(22))

    def draw_plain(self, painter: QPainter) -> None:
        """The words on paper."""
        palette = theme.palette()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour(palette.paper, 0.85))
        painter.drawRoundedRect(self.plain_rect(), 6, 6)
        painter.setFont(_font())
        painter.setPen(QColor(palette.quiet))
        painter.drawText(self.plain_rect(), Qt.AlignmentFlag.AlignCenter, self._words)


def _font(weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The font of what a painter enlarges."""
    return theme.sans(theme.CAPTION_POINTS / theme.scale(), weight)


def _wide(words: str) -> float:
    """The width of some words in it."""
    return QFontMetricsF(_font()).horizontalAdvance(words)


class Bubble(QLabel):
    """Live words beside the pointer: length, area, and why the point stands where it does."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._over = parent
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setContentsMargins(8, 3, 8, 4)
        name_control(self, "sketch_bubble", tr("At the pointer"))
        self.hide()

    def show_words(self, words: str, at: QPointF) -> None:
        """Show words below and right of a point, within the parent; none hides it."""
        self.setVisible(bool(words))
        if not words:
            return
        font = theme.sans(theme.CAPTION_POINTS)
        if font != self.font():
            self.setFont(font)
        self.setText(words)
        self.adjustSize()
        room = self._over.size() - self.size() - QSize(4, 4)
        x = min(at.x() + 16, room.width())
        below = at.y() + 18
        y = below if below < room.height() else at.y() - self.height() - 14
        self.move(max(4, round(x)), max(4, round(y)))
        self.raise_()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Ink with paper's words, like a tooltip."""
        palette = theme.palette()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour(palette.ink, 0.94))
        painter.drawRoundedRect(QRectF(self.rect()), 5, 5)
        painter.setPen(QColor(palette.paper))
        painter.setFont(self.font())
        painter.drawText(self.contentsRect(), Qt.AlignmentFlag.AlignVCenter, self.text())
        painter.end()
        del event
