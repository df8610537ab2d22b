"""One line of what is due: its day, what and why, its working, and the button that ticks it off."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.pages.due_list import KIND_ROLES
from lawnbook.desk.pages.season_due_words import button_words, spoken, when
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import colour, palette, px, scale, sized
from lawnbook.desk.widgets import Caption, QuietButton, Words, name_control
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Due
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr

LEAD_PX, DOT_PX = 66, 24
BUTTON_PX = 66
EDGE_PX, WORDS_PX, MIDDLE_PX = 3, 4, 16
"""A line's margin, how far its words stand below that beside the button, and their middle."""
_TOP = Qt.AlignmentFlag.AlignTop
_STEPS = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class DueRow(QWidget):
    """A line that takes the keyboard as a whole.

    Up and Down go on to the next (`stepped`), Home and End to the ends, Space and Enter ask to tick
    it off (`done_asked`), W shows its working. Why it is due stands below while the line is
    `opened`, which it asks for when it takes the keyboard (`chosen`).
    """

    chosen = Signal()
    done_asked = Signal()
    stepped = Signal(int)

    def __init__(
        self,
        due: Due,
        on: date,
        workings: Sequence[Working],
        number: int,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.due = due
        self._by_keys = self._offered = False
        self._why = Caption(due.why, self, wrap=True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.working = WorkingLink(tr("working"), f"season_due_{number}_working", self)
        self.working.set_workings(workings)
        self.working.setAccessibleName(tr("Working: {what}", what=due.what))
        self.button = QuietButton(button_words(due), f"season_due_{number}_done", self)
        self.button.setAccessibleName(f"{button_words(due)}: {due.what}")
        sized(self.button, least_width=BUTTON_PX)
        # The line itself is the stop of Tab; its keys do what these do.
        for each in (self.working, self.button):
            each.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.button.clicked.connect(self.done_asked)
        # The links stand in one column, whether or not a line has its button.
        stays = self.button.sizePolicy()
        stays.setRetainSizeWhenHidden(True)
        self.button.setSizePolicy(stays)
        hear_as(self, "ListItem")
        name_control(self, f"season_due_{number}", spoken(due, on))
        self._lay_out(on, number)
        self.offer_done(offered=True)

    def open_up(self, *, opened: bool) -> None:
        """Show why it is due, or fold that away."""
        self._why.setVisible(opened)

    def offer_done(self, *, offered: bool) -> None:
        """Offer to tick it off, or not where nothing would be recorded of it."""
        self._offered = offered
        self.button.setVisible(offered)
        keys = [tr("Enter ticks it off.")] if offered else []
        keys += [tr("W shows how it came about.")] if not self.working.isHidden() else []
        self.setAccessibleDescription(" ".join((self.due.why, *keys)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The keys of a line."""
        key = Qt.Key(event.key())
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            event.ignore()
        elif key in _STEPS:
            self.stepped.emit(_STEPS[key])
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self.stepped.emit(-10_000 if key == Qt.Key.Key_Home else 10_000)
        elif key in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._offered:
            self.done_asked.emit()
        elif key == Qt.Key.Key_W and self.working.isVisible():
            self.working.click()
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A ring marks the focus that came by keys; a click needs none."""
        self._by_keys = event.reason() != Qt.FocusReason.MouseFocusReason
        super().focusInEvent(event)
        self.update()
        self.chosen.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The ring goes out."""
        super().focusOutEvent(event)
        self.update()

    def event(self, event: QEvent) -> bool:
        """A wash of colour comes and goes with the pointer."""
        if event.type() in (QEvent.Type.HoverEnter, QEvent.Type.HoverLeave):
            self.update()
        return super().event(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The wash, the dot of the kind, the ring of the focus."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.setPen(Qt.PenStyle.NoPen)
        if self.underMouse():
            painter.setBrush(colour(palette().ink, 0.04))
            painter.drawRoundedRect(box, 5, 5)
        painter.setBrush(colour(getattr(palette(), KIND_ROLES[self.due.kind])))
        radius = 4.5 * scale()
        painter.drawEllipse(QPointF(12, px(MIDDLE_PX)), radius, radius)
        if self.hasFocus() and self._by_keys:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(colour(palette().accent), 2))
            painter.drawRoundedRect(box, 5, 5)
        painter.end()

    def _lay_out(self, on: date, number: int) -> None:
        first, last = when(self.due, on)
        lead, words = QVBoxLayout(), QVBoxLayout()
        for column in (lead, words):
            column.setSpacing(1)
            column.setContentsMargins(0, WORDS_PX, 0, 0)
        lead.addWidget(Words(first, "strong", self, wrap=False))
        if last:
            lead.addWidget(Caption(last, self, wrap=True))
        lead.addStretch(1)
        what = Words(self.due.what, "", self)
        what.setObjectName(f"season_due_{number}_what")
        self._why.setObjectName(f"season_due_{number}_why")
        self._why.hide()
        words.addWidget(what)
        words.addWidget(self._why)
        self.working.stand_for(self._why)
        # A click on the line itself chooses it; F1 there opens its working all the same.
        FigureHand(self, self.working.workings, by_click=False)
        words.addStretch(1)
        holder = QWidget(self)
        sized(holder, width=LEAD_PX)
        holder.setLayout(lead)
        row = QHBoxLayout(self)
        row.setContentsMargins(DOT_PX, EDGE_PX, 6, EDGE_PX)
        row.setSpacing(10)
        row.addWidget(holder, 0, _TOP)
        row.addLayout(words, 1)
        row.addWidget(self.working, 0, _TOP)
        row.addWidget(self.button, 0, _TOP)
