"""Print and Save as PDF for one page that a section has to give, and what became of it."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.wait_line import CALLED_OFF, WaitLine
from lawnbook.desk.widgets import QuietButton, Words
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.printing import PageOut, Said
    from lawnbook.sheet.layout import PaperName

PaperOf = Callable[[], "PaperName"]
MakePage = Callable[["PaperName"], "PageOut"]
PAPER_HINT = tr("On the paper that is chosen on the Sheet page.")


class PrintRow(QWidget):
    """Two buttons and a line of words. `paper` tells the paper when a button is pressed."""

    def __init__(
        self, prefix: str, words: tuple[str, str], spoken: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName(f"{prefix}_out")
        self.paper: PaperOf = letter
        self._make: MakePage | None = None
        self.print_button = QuietButton(words[0], f"{prefix}_print", self)
        self.save_button = QuietButton(words[1], f"{prefix}_save", self)
        self._said = Words("", "caption", self)
        self._said.setObjectName(f"{prefix}_said")
        self._line = WaitLine(f"{prefix}_writing", self)
        self._line.cancelled.connect(lambda: self._said.say(CALLED_OFF, "caption"))
        for button, verb in (
            (self.print_button, tr("Print")),
            (self.save_button, tr("Save as PDF")),
        ):
            button.setAccessibleName(f"{verb}: {spoken}")
            button.setToolTip(PAPER_HINT)
        self.print_button.clicked.connect(lambda: self._out(to_printer=True))
        self.save_button.clicked.connect(lambda: self._out(to_printer=False))
        self._lay_out()
        self._said.say("")

    def show_page(self, make: MakePage | None) -> None:
        """Give another page, which is made when a button is pressed; None for none."""
        self._make = make
        self.setVisible(make is not None)

    def forget(self) -> None:
        """Say no more what became of an earlier page."""
        self._said.say("")

    def _out(self, *, to_printer: bool) -> None:
        # What lays a page out is loaded when one is asked for: the rows are made with their pages.
        from lawnbook.desk import printing

        if self._make is None:
            return
        ask = printing.ask_print if to_printer else printing.ask_save
        printing.put_out(ask, self._line, self._make(self.paper()), self._tell)

    def _tell(self, said: "Said") -> None:
        self._said.say(said.words, said.role)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.print_button)
        row.addWidget(self.save_button)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(row)
        column.addWidget(self._line)
        column.addWidget(self._said)


def letter() -> "PaperName":
    """The paper of a section that was told of none."""
    return "letter"
