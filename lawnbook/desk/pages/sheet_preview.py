"""Pages of a document as they will be printed, one below the other, as wide as there is room.

Each is painted by the very function that paints it on the printer and into the PDF, at the screen's
own resolution, and only when it comes into sight.
"""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.charts.tokens import SHADE
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import colour
from lawnbook.desk.widgets import name_control
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.paper import Draw

SHADOW_PX = 6
BETWEEN_PX = 14
MOST_WIDE_PX = 900


class PagesPreview(QWidget):
    """White pages with a soft shadow; the widget is as high as its pages are for its width."""

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._draws: tuple[Draw, ...] = ()
        self._paper: PaperName = "letter"
        self._pictures: dict[int, QPixmap] = {}
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        name_control(self, object_name, spoken)
        hear_as(self, "Graphic")

    def show_pages(self, draws: Sequence[Draw], paper: PaperName, told: str) -> None:
        """Show other pages; `told` says in words what is on them."""
        self._draws, self._paper = tuple(draws), paper
        self._pictures.clear()
        self.setAccessibleDescription(told)
        self.updateGeometry()
        self.update()

    def hasHeightForWidth(self) -> bool:
        """The pages keep their shape."""
        return True

    def heightForWidth(self, width: int) -> int:
        """All pages, the gaps between them and the shadow of the last."""
        if not self._draws:
            return 0
        _, high = self._page_px(width)
        return len(self._draws) * (high + BETWEEN_PX)

    def sizeHint(self) -> QSize:
        """Room enough to read the headings."""
        return QSize(480, self.heightForWidth(480))

    def page_box(self, number: int) -> QRectF:
        """Where a page stands, counted from nought, in the widget's pixels."""
        wide, high = self._page_px(self.width())
        left = (self.width() - wide) // 2
        return QRectF(left, 2 + number * (high + BETWEEN_PX), wide, high)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the pages in sight; their drawings are kept until something changes."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        for number in range(len(self._draws)):
            box = self.page_box(number)
            if not box.adjusted(0, -SHADOW_PX, 0, SHADOW_PX).intersects(QRectF(event.rect())):
                continue
            for spread, alpha in ((5.0, 0.04), (2.0, 0.08), (1.0, 0.12)):
                painter.setBrush(colour(SHADE, alpha))
                painter.drawRoundedRect(box.adjusted(-spread / 2, 0, spread / 2, spread), 2, 2)
            picture = self._picture(number, (box.size() * self.devicePixelRatioF()).toSize())
            painter.drawPixmap(box, picture, QRectF(picture.rect()))

    def _page_px(self, width: int) -> tuple[int, int]:
        wide_pt, high_pt = paper_size_pt(self._paper)
        wide = max(1, min(MOST_WIDE_PX, width - 2 * SHADOW_PX))
        return wide, round(wide * high_pt / wide_pt)

    def _picture(self, number: int, size: QSize) -> QPixmap:
        """A page's drawing at a size in device pixels."""
        held = self._pictures.get(number)
        if held is not None and held.size() == size:
            return held
        picture = QPixmap(size)
        painter = QPainter(picture)
        wide_pt, high_pt = paper_size_pt(self._paper)
        painter.scale(size.width() / wide_pt, size.height() / high_pt)
        self._draws[number](painter)
        painter.end()
        self._pictures[number] = picture
        return picture
