"""Printed pages one below the other as they will be, painted by the functions that print them."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.desk.theme import colour
from lawnbook.desk.widgets import name_control
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.paper import Draw

MOST_WIDTH_PX = 860
"""A page is shown no wider: larger than life it is no easier to read."""

LEAST_WIDTH_PX = 320
MARGIN_PX = 8
BETWEEN_PX = 18
SHADOW = ((5.0, 0.04), (2.0, 0.08), (1.0, 0.12))


class PagesPreview(QWidget):
    """Pages as wide as there is room. A page is painted when it comes into sight, and then kept."""

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self._draws: tuple[Draw, ...] = ()
        self._paper: PaperName = "letter"
        self._pictures: dict[int, QPixmap] = {}
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_pages(self, draws: Sequence[Draw], paper: PaperName, described: str) -> None:
        """Show other pages; `described` says in words what is on them."""
        self._draws, self._paper, self._pictures = tuple(draws), paper, {}
        self.setAccessibleDescription(described)
        self.updateGeometry()
        self.update()

    def hasHeightForWidth(self) -> bool:
        """The pages keep their shape."""
        return True

    def heightForWidth(self, width: int) -> int:
        """As high as all pages of this width, one below the other."""
        boxes = self._boxes(width)
        return int(boxes[-1].bottom()) + MARGIN_PX if boxes else 0

    def sizeHint(self) -> QSize:
        """A page of a good width."""
        return QSize(MOST_WIDTH_PX, self.heightForWidth(MOST_WIDTH_PX))

    def minimumSizeHint(self) -> QSize:
        """Narrow pages can still be told apart."""
        return QSize(LEAST_WIDTH_PX, self.heightForWidth(LEAST_WIDTH_PX))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the pages in sight, each with a soft shadow."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        for number, box in enumerate(self._boxes(self.width())):
            if not box.adjusted(-MARGIN_PX, 0, MARGIN_PX, MARGIN_PX).intersects(event.rect()):
                continue
            for spread, alpha in SHADOW:
                painter.setBrush(colour("#000000", alpha))
                painter.drawRoundedRect(box.adjusted(-spread / 2, 0, spread / 2, spread), 2, 2)
            picture = self._picture(number, box)
            painter.drawPixmap(box, picture, QRectF(picture.rect()))
        painter.end()

    def _boxes(self, width: int) -> list[QRectF]:
        """Where each page stands in a widget of a width."""
        wide, high = paper_size_pt(self._paper)
        shown = min(width - 2 * MARGIN_PX, MOST_WIDTH_PX)
        tall = int(shown * high / wide)
        left = (width - shown) // 2
        return [
            QRectF(left, 2 + number * (tall + BETWEEN_PX), shown, tall)
            for number in range(len(self._draws))
        ]

    def _picture(self, number: int, box: QRectF) -> QPixmap:
        """A page painted in the screen's own dots, made once for each size."""
        wanted = (box.size() * self.devicePixelRatioF()).toSize()
        held = self._pictures.get(number)
        if held is None or held.size() != wanted:
            held = self._pictures[number] = self._drawn(self._draws[number], wanted)
        return held

    def _drawn(self, draw: Draw, size: QSize) -> QPixmap:
        picture = QPixmap(size)
        painter = QPainter(picture)
        width, height = paper_size_pt(self._paper)
        painter.scale(size.width() / width, size.height() / height)
        draw(painter)
        painter.end()
        return picture
