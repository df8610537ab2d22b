"""What must wait for the plan, such as printing: a small box with a moving line and a Cancel."""

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from lawnbook.desk.theme import sized
from lawnbook.desk.wait_line import SHOWN_AFTER_MS, MovingLine
from lawnbook.desk.widgets import QuietButton, Words, name_control
from lawnbook.reading import tr

WAITS = tr("The plan is being reckoned; try again in a moment.")


class WaitDialog(QDialog):
    """Opens only where the wait takes a while; closes itself when it is `over`."""

    def __init__(self, words: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Lawnbook"))
        name_control(self, "wait_dialog", words)
        self._said = words
        self._words = Words(words, "", self, wrap=False)
        self._line = MovingLine(self)
        self.stop_button = QuietButton(tr("Cancel"), "wait_cancel", self)
        self.stop_button.clicked.connect(self.reject)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 18, 24, 18)
        column.setSpacing(14)
        column.addWidget(self._words)
        column.addWidget(self._line)
        column.addWidget(self.stop_button, 0, Qt.AlignmentFlag.AlignRight)
        # Not of the dialog: its least width is that of words, which grow with the count.
        sized(self._line, least_width=292)
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self.open)
        self._soon.start(SHOWN_AFTER_MS)
        self._line.run()

    def went_on(self, done: int, of: int) -> None:
        """Tell how much is done."""
        self._line.fill(done, of)
        words = tr("{what} {done} of {of}", what=self._said, done=done, of=of)
        self._words.setText(words)
        self.setAccessibleDescription(words)

    def over(self) -> None:
        """There is nothing to wait for any more."""
        self._soon.stop()
        self._line.rest()
        self.hide()
        self.deleteLater()
