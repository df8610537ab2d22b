"""Pages of a document as they will be printed, one below the other, as wide as there is room.

Each is painted by the very function that paints it on the printer and into the PDF, at the screen's
own resolution, and only when it comes into sight. Pages that take long are painted beside the
window's work: until one is there its paper is blank, or shows what it was at another size.
"""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.charts.palette import PRINT
from lawnbook.charts.tokens import SHADE
from lawnbook.desk.beside import Beside
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import colour
from lawnbook.desk.widgets import name_control
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.paper import Draw

SHADOW_PX = 6
BETWEEN_PX = 14
MOST_WIDE_PX = 900
MOST_KEPT = 24
"""Pictures of pages that are kept: some of four megabytes each."""


class PagesPreview(QWidget):
    """White pages with a soft shadow; the widget is as high as its pages are for its width.

    `turned` tells that other pages are shown.
    """

    turned = Signal()

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._draws: tuple[Draw, ...] = ()
        self._paper: PaperName = "letter"
        self._told = ""
        self._pictures: dict[int, QPixmap] = {}
        self._is_long = False
        self._painted = -1
        self._beside = Beside(self)
        self._beside.failed.connect(self._leave_blank)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        hear_as(self, "Graphic")
        name_control(self, object_name, spoken)

    def show_pages(
        self, draws: Sequence[Draw], paper: PaperName, told: str, *, is_long: bool = False
    ) -> None:
        """Show other pages; `told` says in words what is on them.

        Those that are `long` read frozen values only: they are painted in a thread.
        """
        self._beside.let_go()
        self._draws, self._paper, self._is_long = tuple(draws), paper, is_long
        self._pictures.clear()
        self._told = told
        self.speak("")
        self.updateGeometry()
        self.update()
        self.turned.emit()

    def speak(self, words: str) -> None:
        """Say what of the pages is chosen; "" says again what is on them."""
        self.setAccessibleDescription(words or self._told)

    def draws(self) -> tuple[Draw, ...]:
        """What paints the pages."""
        return self._draws

    def paper(self) -> PaperName:
        """The paper of the pages."""
        return self._paper

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
            if picture is None:
                painter.fillRect(box, colour(PRINT.paper))
            else:
                painter.drawPixmap(box, picture, QRectF(picture.rect()))

    def _page_px(self, width: int) -> tuple[int, int]:
        wide_pt, high_pt = paper_size_pt(self._paper)
        wide = max(1, min(MOST_WIDE_PX, width - 2 * SHADOW_PX))
        return wide, round(wide * high_pt / wide_pt)

    def _picture(self, number: int, size: QSize) -> QPixmap | None:
        """A page's drawing at a size in device pixels; of before, or none, while it is painted."""
        held = self._pictures.get(number)
        if held is not None and held.size() == size:
            return held
        draw, paper = self._draws[number], self._paper
        if not self._is_long:
            return self._keep(number, painted(draw, paper, size))
        if not self._beside.runs:
            self._painted = number
            self._beside.start(lambda _: painted(draw, paper, size), self._came)
        return held

    def _came(self, image: object) -> None:
        """A page is there; painting it asks for the next one in sight."""
        if isinstance(image, QImage):
            self._keep(self._painted, image)
            self.update()

    def _leave_blank(self) -> None:
        """A mistake of ours is about to be raised: it is told once, not at each painting."""
        self._is_long, self._draws = False, ()
        self.updateGeometry()
        self.update()

    def _keep(self, number: int, image: QImage) -> QPixmap:
        picture = self._pictures[number] = QPixmap.fromImage(image)
        for each in sorted(self._pictures, key=lambda at: abs(at - number))[MOST_KEPT:]:
            del self._pictures[each]
        return picture


def painted(draw: Draw, paper: PaperName, size: QSize) -> QImage:
    """A page as a picture of a size in pixels."""
    image = QImage(size, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    wide_pt, high_pt = paper_size_pt(paper)
    painter.scale(size.width() / wide_pt, size.height() / high_pt)
    draw(painter)
    painter.end()
    return image
