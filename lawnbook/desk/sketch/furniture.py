"""What lies over the paper and does not move with it: scale bar, north arrow, legend, words."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
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
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from lawnbook.desk import theme
from lawnbook.desk.roles import hear_as
from lawnbook.desk.sketch.tinting import Legend
from lawnbook.desk.widgets import LinkButton, PrimaryButton, Words, name_control
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
        self._picture, self._dressed = QPixmap(), theme.palette()

    def draw(self, painter: QPainter) -> None:
        """Paint it with its upper left corner at the painter's origin."""
        raise NotImplementedError

    def renew(self) -> None:
        """It says something else now."""
        self._picture = QPixmap()
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """On the screen, from a picture: the paper moves under it at every step of a pan."""
        del event
        ratio = self.devicePixelRatioF()
        stale = self._dressed is not theme.palette() or self._picture.devicePixelRatio() != ratio
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
        self._dressed = theme.palette()
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
        name_control(self, "sketch_scale", "Scale bar")
        self.setFixedSize(LONGEST_BAR_PX + 60, 24)

    def show_scale(self, px_per_ft: float) -> None:
        """Draw the bar for a zoom."""
        self._px_per_ft = px_per_ft
        self.retell()

    def retell(self) -> None:
        """A round number of the unit that the owner reads."""
        self.setAccessibleDescription(f"{self.words()} are {self._length_px():.0f} pixels")
        self.renew()

    def length(self) -> int:
        """How long the bar is in feet or metres: the longest round number that fits."""
        unit_px = stored(1.0, "ft") * self._px_per_ft
        fitting = [s for s in SCALE_STEPS if s * unit_px <= LONGEST_BAR_PX]
        return fitting[-1] if fitting else SCALE_STEPS[0]

    def words(self) -> str:
        """What stands beside the bar: "20 ft", "5 m"."""
        return f"{self.length()} {unit_shown('ft')}"

    def _length_px(self) -> float:
        return stored(self.length(), "ft") * self._px_per_ft

    def draw(self, painter: QPainter) -> None:
        """A bar with ends and a middle, and its length."""
        palette = theme.palette()
        length = self._length_px()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(palette.ink), 1.6))
        painter.drawLine(QPointF(2, 13), QPointF(2 + length, 13))
        for x, reach in ((2.0, 5), (2 + length / 2, 3), (2 + length, 5)):
            painter.drawLine(QPointF(x, 13 - reach), QPointF(x, 13 + reach))
        painter.setFont(theme.sans(9.0))
        box = QRectF(length + 11, 0, 60, 26)
        painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, self.words())


class NorthArrow(Furniture):
    """Where north is on the page."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._north_deg = 0.0
        name_control(self, "sketch_north", "North arrow")
        self.setFixedSize(46, 46)

    def show_north(self, north_deg: float) -> None:
        """Turn the arrow, in degrees clockwise from the top."""
        self._north_deg = north_deg
        self.setAccessibleDescription(f"North is {north_deg:g}° clockwise from the top")
        self.renew()

    def draw(self, painter: QPainter) -> None:
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
        painter.setFont(theme.sans(9.0, QFont.Weight.DemiBold))
        painter.drawText(QRectF(-8, -8, 16, 16), Qt.AlignmentFlag.AlignCenter, "N")


class LegendBox(Furniture):
    """The steps of the colour scale and the words at their borders."""

    STEP_PX = 34.0

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._shown: Legend | None = None
        name_control(self, "sketch_legend", "Legend")

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
            metrics = QFontMetricsF(theme.sans(9.0))
            words = max(metrics.horizontalAdvance(each) for each in (shown.title, shown.note))
            wide = max(words, self._steps_px(shown) + self._beside_px(shown))
            self.resize(round(wide + 20), 52 + (16 if shown.note else 0))
        self.renew()

    def draw(self, painter: QPainter) -> None:
        """Title, steps, borders, what stands beside them, and the note."""
        palette, shown = theme.palette(), self._shown
        if shown is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour(palette.paper, 0.85))
        painter.drawRoundedRect(QRectF(self.rect()), 6, 6)
        painter.setFont(theme.sans(9.0))
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
        return QFontMetricsF(theme.sans(9.0)).horizontalAdvance(words) + 4


class LeftOut(Furniture):
    """How many names find no place at this zoom."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = ""
        name_control(self, "sketch_left_out", "Names left out")
        self.hide()

    def show_count(self, count: int) -> bool:
        """Say how many, nothing where all have their place; whether that is news."""
        words = f"{counted(count, 'name')} left out; zoom in" if count else ""
        if words == self._words:
            return False
        self._words = words
        self.setAccessibleDescription(words)
        self.resize(round(QFontMetricsF(theme.sans(9.0)).horizontalAdvance(words)) + 16, 22)
        self.setVisible(bool(words))
        self.renew()
        return True

    def draw(self, painter: QPainter) -> None:
        """The words on paper."""
        palette = theme.palette()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour(palette.paper, 0.85))
        painter.drawRoundedRect(QRectF(self.rect()), 6, 6)
        painter.setFont(theme.sans(9.0))
        painter.setPen(QColor(palette.quiet))
        painter.drawText(QRectF(self.rect()), Qt.AlignmentFlag.AlignCenter, self._words)


class Bubble(QLabel):
    """Live words beside the pointer: length, area, and why the point stands where it does."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._over = parent
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setContentsMargins(8, 3, 8, 4)
        name_control(self, "sketch_bubble", "At the pointer")
        self.hide()

    def show_words(self, words: str, at: QPointF) -> None:
        """Show words below and right of a point, within the parent; none hides it."""
        self.setVisible(bool(words))
        if not words:
            return
        font = theme.sans(9.0)
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


OTHER_WAYS = (("Lay a picture under it", "Backdrop"), ("Walk round with a tape", "Walk round"))
"""How else a sketch may begin, and the section of the yard page for it."""


class EmptyPage(QWidget):
    """What an empty sketch says, with the button that begins one, and two other ways to begin."""

    asked = Signal(str)
    """A section of the yard page that another way begins in."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.begin = PrimaryButton("Draw the first zone", "sketch_begin", self)
        title = Words("An empty page", "verdict", self, wrap=False)
        words = Words(
            "Sketch the lawn zone by zone, as it is watered and fed. Click the corners on the "
            "grid, or drag a rectangle, or type its sides below.",
            "subtitle",
            self,
        )
        for each in (title, words):
            each.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(self.begin)
        row.addStretch(1)
        others = QHBoxLayout()
        others.addStretch(1)
        for text, section in OTHER_WAYS:
            link = LinkButton(text, f"sketch_begin_{section.lower().replace(' ', '_')}", self)
            link.clicked.connect(lambda _=False, section=section: self.asked.emit(section))
            others.addWidget(link)
        others.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(28, 22, 28, 24)
        column.setSpacing(12)
        column.addWidget(title)
        column.addWidget(words)
        column.addLayout(row)
        column.addLayout(others)
        self.setFixedWidth(430)
        name_control(self, "sketch_empty", "Empty sketch", words.text())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paper behind the words, so that the grid does not run through them."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour(theme.palette().paper, 0.92))
        painter.drawRoundedRect(QRectF(self.rect()), 8, 8)
