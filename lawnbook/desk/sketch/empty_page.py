"""What an empty sketch says, over its paper."""

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.theme import colour, palette, sized
from lawnbook.desk.widgets import LinkButton, PrimaryButton, Words, name_control
from lawnbook.reading import tr

OTHER_WAYS = (
    (tr("Lay a picture under it"), "Backdrop"),
    (tr("Walk round with a tape"), "Walk round"),
)
"""How else a sketch may begin, and the section of the yard page for it."""


class EmptyPage(QWidget):
    """What an empty sketch says, with the button that begins one, and two other ways to begin."""

    asked = Signal(str)
    """A section of the yard page that another way begins in."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.begin = PrimaryButton(tr("Draw the first zone"), "sketch_begin", self)
        title = Words(tr("An empty page"), "verdict", self, wrap=False)
        words = Words(
            tr(
                "Sketch the lawn zone by zone, as it is watered and fed. Click the corners on "
                "the grid, or drag a rectangle, or type its sides below."
            ),
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
        sized(self, width=430)
        name_control(self, "sketch_empty", tr("Empty sketch"), words.text())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paper behind the words, so that the grid does not run through them."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(palette().paper, 0.92))
        painter.drawRoundedRect(QRectF(self.rect()), 8, 8)
