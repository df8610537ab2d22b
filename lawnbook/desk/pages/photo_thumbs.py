"""Small pictures of photographs in a row that scrolls, each with a word below it."""

from collections.abc import Sequence
from itertools import islice

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QImageReader,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractButton, QFrame, QHBoxLayout, QScrollArea, QWidget

from lawnbook.charts.tokens import BRIGHT
from lawnbook.desk.focus_ring import FocusRing
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.theme import CAPTION_POINTS, mix, palette, px, sans, sized
from lawnbook.desk.widgets import name_control
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError

WIDE_PX, HIGH_PX = 96, 72
WORDS_PX, EDGE_PX = 20, 4


@dataclass(frozen=True, slots=True)
class ThumbRow:
    """A photograph as it stands in the row: its id, picture, the word below, and all of it said."""

    photo_id: str
    picture: Picture
    words: str
    spoken: str
    marked: bool = False


class Thumb(QAbstractButton):
    """One small picture; it is read when it is first painted, so that a long row opens at once."""

    def __init__(self, row: ThumbRow, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.row = row
        self.image: QImage | None = None
        name_control(self, f"photo_{row.photo_id}", row.spoken)
        self.setToolTip(row.spoken)
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        FocusRing(self)
        sized(self, width=WIDE_PX + 2 * EDGE_PX, height=HIGH_PX + WORDS_PX + 2 * EDGE_PX)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The picture cut to its frame, ringed when it is open, and its word."""
        p = palette()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        box = QRectF(EDGE_PX, EDGE_PX, self.width() - 2 * EDGE_PX, px(HIGH_PX))
        self._paint_picture(painter, box)
        if self.isChecked():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(p.accent), 2))
            painter.drawRoundedRect(box.adjusted(-2, -2, 2, 2), 6, 6)
        painter.setFont(sans(CAPTION_POINTS))
        painter.setPen(QColor(p.ink if self.isChecked() else p.quiet))
        below = QRectF(0, box.bottom() + 3, self.width(), px(WORDS_PX))
        painter.drawText(below, Qt.AlignmentFlag.AlignCenter, self.row.words)
        painter.end()

    def sizeHint(self) -> QSize:
        """Its fixed size."""
        return self.size()

    def _paint_picture(self, painter: QPainter, box: QRectF) -> None:
        p = palette()
        if self.image is None:
            self.image = small_image(self.row.picture)
        painter.save()
        frame = QPainterPath()
        frame.addRoundedRect(box, 5, 5)
        painter.setClipPath(frame)
        painter.fillRect(box, QColor(mix(p.paper, p.ink, 0.08)))
        if self.image.isNull():
            painter.setPen(QColor(p.quiet))
            painter.setFont(sans(CAPTION_POINTS))
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tr("unreadable"))
        else:
            size = self.image.size().scaled(
                box.size().toSize(), Qt.AspectRatioMode.KeepAspectRatioByExpanding
            )
            at = QRectF(0, 0, size.width(), size.height())
            at.moveCenter(box.center())
            painter.drawImage(at, self.image)
        if self.row.marked:
            painter.setPen(QPen(QColor(BRIGHT), 1))
            painter.setBrush(QColor(p.good))
            painter.drawEllipse(QRectF(box.right() - 15, box.top() + 5, 10, 10))
        painter.restore()


class Thumbs(QScrollArea):
    """A row of thumbnails that scrolls sideways; `picked` tells the one that was clicked."""

    picked = Signal(str)

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        inside = QWidget()
        inside.setProperty("role", "page")
        self._line = QHBoxLayout(inside)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(6)
        self.setWidget(inside)
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)
        sized(self, height=HIGH_PX + WORDS_PX + 2 * EDGE_PX + 12)
        self._thumbs: dict[str, Thumb] = {}
        self._rows: tuple[ThumbRow, ...] = ()
        self._chosen = ""

    def show_rows(self, rows: Sequence[ThumbRow], chosen: str = "") -> None:
        """Show these, one of them as open. Nothing is made anew where they are shown already."""
        if tuple(rows) != self._rows:
            self._fill(tuple(rows))
        self._chosen = chosen
        self._check()
        self.setVisible(bool(rows))

    def ids(self) -> tuple[str, ...]:
        """The photographs shown, in their order."""
        return tuple(self._thumbs)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The open one stays in sight."""
        super().resizeEvent(event)
        QTimer.singleShot(0, self, self._bring)

    def _fill(self, rows: tuple[ThumbRow, ...]) -> None:
        """Make those anew that are others; of photographs that are read one by one only the last.

        A row of hundreds would stand still with each of them else.
        """
        held = {key: each.image for key, each in self._thumbs.items()}
        focused = next((key for key, each in self._thumbs.items() if each.hasFocus()), "")
        stay = _same_at_start(self._rows, rows)
        self._rows = rows
        while (item := self._line.takeAt(stay)) is not None:
            if (gone := item.widget()) is not None:
                gone.hide()
                gone.deleteLater()
        self._thumbs = dict(islice(self._thumbs.items(), stay))
        for row in rows[stay:]:
            self._add(row).image = held.get(row.photo_id)
        self._line.addStretch(1)
        if focused in self._thumbs:
            self._thumbs[focused].setFocus()

    def _add(self, row: ThumbRow) -> Thumb:
        thumb = self._thumbs[row.photo_id] = Thumb(row)
        thumb.toggled.connect(lambda _, key=row.photo_id: self._pick(key))
        self._line.addWidget(thumb)
        return thumb

    def _pick(self, photo_id: str) -> None:
        self._check()
        self.picked.emit(photo_id)

    def _check(self) -> None:
        for key, each in self._thumbs.items():
            check_quietly(each, on=key == self._chosen)
        # Once the new ones have been given their places.
        QTimer.singleShot(0, self, self._bring)

    def _bring(self) -> None:
        """Scroll the open one into sight."""
        if self._chosen in self._thumbs:
            self.ensureWidgetVisible(self._thumbs[self._chosen], EDGE_PX, 0)


def _same_at_start(before: Sequence[ThumbRow], now: Sequence[ThumbRow]) -> int:
    """How many rows from the first on are the same."""
    pairs = enumerate(zip(before, now, strict=False))
    return next((place for place, (was, row) in pairs if was != row), min(len(before), len(now)))


def small_image(picture: Picture) -> QImage:
    """A picture decoded no larger than a thumbnail needs; a null image where it cannot be read."""
    try:
        data = QByteArray(picture.data())
    except OwnerError:
        return QImage()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    size = reader.size()
    if size.isValid():
        least = QSize(2 * WIDE_PX, 2 * HIGH_PX)
        # A JPEG is decoded small at once, which is many times faster.
        wanted = size.scaled(least, Qt.AspectRatioMode.KeepAspectRatioByExpanding)
        reader.setScaledSize(wanted if wanted.width() < size.width() else size)
    return reader.read()
