"""The cells of the rows of a walk: a length as it is taped, and how it agrees. Feet."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QPushButton, QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import feet_inches, parse_feet
from lawnbook.yard.problems import OwnerError

LENGTH_PX, FITS_PX, REMOVE_PX = 70, 68, 22
NOT_TAPED = "?"
"""Typed where a side could not be taped."""


class LengthCell(TextField):
    """A taped length, kept to the last digit until a hand edits it. "?" is one not taped."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._exact: tuple[str, float] | None = None
        sized(self, width=LENGTH_PX)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        mark_role(self, "cell")

    @property
    def is_blank(self) -> bool:
        """Whether nothing is typed."""
        return not self.text().strip()

    def put(self, length_ft: float | None) -> None:
        """Show a length in feet and inches, or nothing."""
        text = "" if length_ft is None else feet_inches(length_ft)
        self._exact = None if length_ft is None else (text, length_ft)
        self.setText(text)
        mark_role(self, "cell")

    def retell(self) -> None:
        """The length in the owner's unit; what is typed means what it did."""
        if self._exact is not None and self.text().strip() == self._exact[0]:
            state = self.property("state")
            self.put(self._exact[1])
            mark_role(self, "cell", str(state or ""))
        else:
            self.setText(kept_amount(self.text(), "ft"))

    def length_ft(self, what: str) -> float | None:
        """The length, None where none is typed or it was not taped. OwnerError for other words."""
        text = self.text().strip()
        mark_role(self, "cell")
        if text in ("", NOT_TAPED):
            return None
        if self._exact is not None and text == self._exact[0]:
            return self._exact[1]
        try:
            length_ft = parse_feet(text, what)
            if length_ft <= 0:
                raise OwnerError(tr("{what} must be more than 0; enter it again.", what=what))
        except OwnerError:
            mark_role(self, "cell", "refuse")
            raise
        return length_ft

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Mark the length, so that typing replaces it."""
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason:
            self.selectAll()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """All keys but those that the rows answer to."""
        if takes_out(event) or puts_in(event):
            event.ignore()
        else:
            super().keyPressEvent(event)


class FitsWords(Caption):
    """How far a measure is from the closed shape, beside its row; red where it stands out."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("", parent)
        self._off_in: float | None = None
        sized(self, least_width=FITS_PX)

    def retell(self) -> None:
        """The residual in the owner's unit."""
        self.setText("" if self._off_in is None else off_words(self._off_in))

    def show_off(self, off_in: float | None, *, suspect: bool) -> None:
        """Show a residual in inches; None says nothing."""
        self._off_in = off_in
        mark_role(self, "refuse" if suspect else "caption")
        self.setText("" if off_in is None else off_words(off_in))


def off_words(off_in: float) -> str:
    """A residual as it is read: "0.4 in long"; of ten inches and more the tenths say nothing."""
    if abs(off_in) < 0.05:
        return tr("fits")
    size = told(abs(off_in), 1 if abs(off_in) < 9.95 else 0, "in")
    return tr("{size} long", size=size) if off_in > 0 else tr("{size} short", size=size)


def remove_button(parent: QWidget) -> QPushButton:
    """The small button that takes a row out."""
    button = QPushButton("×", parent)
    button.setAutoDefault(False)
    sized(button, width=REMOVE_PX)
    button.setProperty("role", "tool")
    # Rows keep their height and width while it comes and goes.
    policy = button.sizePolicy()
    policy.setRetainSizeWhenHidden(True)
    button.setSizePolicy(policy)
    # Ctrl+Delete does the same, and Tab goes on to the next row without stopping here.
    button.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
    return button


def name_remove(button: QPushButton, object_name: str, what: str) -> None:
    """Name such a button by what it takes out."""
    name_control(button, object_name, tr("Take out {what}", what=what))
    button.setToolTip(tr("Take {what} out (Ctrl+Delete in its row)", what=what))


def put_in_button(parent: QWidget) -> QPushButton:
    """The small button that puts a row in."""
    button = remove_button(parent)
    button.setText("+")
    return button


def name_put_in(button: QPushButton, object_name: str, before: str) -> None:
    """Name such a button by the corner that the new one comes before."""
    name_control(button, object_name, tr("Put a corner in before {before}", before=before))
    button.setToolTip(tr("Put a corner in before {before} (Insert in its row)", before=before))


def puts_in(event: QKeyEvent) -> bool:
    """Whether a key puts a row in."""
    return event.key() == Qt.Key.Key_Insert


def takes_out(event: QKeyEvent) -> bool:
    """Whether a key takes the row out."""
    control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
    return control and event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace)


def goes_on(event: QKeyEvent) -> bool:
    """Whether a key goes on to the next row."""
    return event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
