"""Figures that open their working: by a click, by F1, and seen to do so under the pointer.

A `FigureHand` sits on a widget that shows figures. Under the pointer its words are underlined with
dots; a click, or F1 while it lies under the pointer or has the keyboard, opens how they came about.
`FigureKey` is the window's F1: it looks for such a figure, and asks for Help where there is none.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from decimal import ROUND_HALF_EVEN, Decimal
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import (
    QCursor,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QTextLayout,
    QTextOption,
)
from PySide6.QtWidgets import QLabel, QMainWindow, QWidget

from lawnbook.desk.theme import colour, palette
from lawnbook.reading import localised, reading

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

Ask = Callable[[], "Sequence[Working]"]
"""What the figures of a widget are worked out by, asked when they are to be opened."""

_DAY = re.compile(r"(\d{1,2} [^\W\d]+|[^\W\d]+ \d{1,2}),? \d{4}")
"""A day as it is told with its year; in the group without."""
_ALONE = re.compile(r"([-−]?\d[\d.,\u00a0\u202f]*)")
_UNIT = re.compile(r"\d\W+[^\W\d]")
"""A number with a unit after it."""
_DECIMALS = re.compile(r"(-?\d[\d.,\u00a0\u202f]*[.,]\d+)(\D.*)")
_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
_DOT_PX = 1.2
LOW_PX = 60
"""Below what is no higher its panel opens; of a higher one at the pointer."""


def told_in(words: str, workings: "Iterable[Working]") -> "tuple[Working, ...]":
    """The workings whose figures stand in some words.

    Where none does all of them, first those that a figure of the words went into.
    """
    listed = tuple(workings)
    found = tuple(each for each in listed if _tells(each, words))
    return found or tuple(sorted(listed, key=lambda each: not _rests_on(each, words)))


def _tells(working: "Working", words: str) -> bool:
    """Whether words tell a figure, without its interval, and not as a part of another."""
    figure, words = working.value.partition(", 95")[0].strip(), plain_signs(words)
    ways = (figure, _shorter(figure), *working.also)
    return any(_stands_in(each, words) for each in ways if each) or _is_day_in(figure, words)


def plain_signs(words: str) -> str:
    """Words with a hyphen for minus, as workings have it."""
    return words.replace("−", "-")


def _stands_in(figure: str, words: str) -> bool:
    return re.search(rf"(?<![\d.,]){re.escape(figure)}(?!\d)", words) is not None


def _is_day_in(figure: str, words: str) -> bool:
    """Whether words tell a day, as those do that are near, without its year."""
    found = _DAY.fullmatch(figure)
    pattern = rf"(?<!\d){re.escape(found[1])}(?!\d|,? \d{{4}})" if found is not None else ""
    return bool(pattern) and re.search(pattern, words) is not None


def _rests_on(working: "Working", words: str) -> bool:
    """Whether a number of words is that of an input, with its unit or, alone in words, without."""
    alone = _ALONE.fullmatch(words.strip())
    if alone is not None:
        begins = re.compile(rf"{re.escape(alone[1])}(?![\d.,]*\d)")
        return any(begins.match(each.value) for each in working.inputs)
    return any(_stands_in(each.value, words) for each in working.inputs if _UNIT.search(each.value))


def _shorter(figure: str) -> str:
    """The same figure with a decimal less, as sentences tell it; empty where it has none."""
    found = _DECIMALS.match(figure)
    if found is None:
        return ""
    number, rest = found.groups()
    whole, _, decimals = number.partition(reading().point)
    if not decimals.isdigit():
        return ""
    exact = Decimal(f"{re.sub(r'[^0-9-]', '', whole)}.{decimals}")
    step = Decimal(1).scaleb(1 - len(decimals))
    shorter = f"{exact.quantize(step, ROUND_HALF_EVEN):,}"
    return f"{localised(shorter)}{rest}"


class FigureHand(QObject):
    """Makes a widget's figures open their working.

    With `by_click` false the widget's own clicks stay its own, and F1 alone opens. A widget that
    stops Tab opens by Enter and the space bar as well. `place` tells where on the screen a part of
    a picture stands that was chosen by keys.
    """

    def __init__(
        self,
        widget: QWidget,
        ask: Ask,
        *,
        by_click: bool = True,
        place: Callable[[], QPoint | None] | None = None,
    ) -> None:
        super().__init__(widget)
        self._widget, self._ask, self._by_click = widget, ask, by_click
        self._chosen_place = place
        self._pressed = False
        self._dots: _Dots | None = None
        if by_click:
            widget.installEventFilter(self)

    def workings(self) -> "tuple[Working, ...]":
        """How the figures came about, now."""
        return tuple(self._ask())

    def open(self) -> bool:
        """Open the panel below the widget; whether there is anything to open."""
        workings = self.workings()
        if workings:
            from lawnbook.desk.workings import WorkingPanel

            self.light(on=False)
            WorkingPanel.open_below(self._widget, workings, self._place())
        return bool(workings)

    def _place(self) -> QPoint | None:
        """On a picture what was chosen or pointed at; None for below the widget."""
        chosen = None if self._chosen_place is None else self._chosen_place()
        if chosen is not None:
            return chosen
        at, room = self._widget.mapFromGlobal(QCursor.pos()), self._widget.rect()
        of_words = isinstance(self._widget, QLabel) or room.height() < LOW_PX
        return None if of_words or not room.contains(at) else QCursor.pos()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Light up under the pointer, and open on a click or on Enter."""
        kind = event.type()
        if kind == QEvent.Type.Enter:
            self.light(on=bool(self.workings()))
        elif kind == QEvent.Type.FocusIn:
            self.light(on=True)
        elif kind in (QEvent.Type.Leave, QEvent.Type.FocusOut, QEvent.Type.Hide):
            self.light(on=False)
        elif isinstance(event, QMouseEvent):
            return self._clicked(event)
        elif kind == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            stops = bool(self._widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
            return stops and event.key() in _KEYS and self.open()
        return super().eventFilter(watched, event)

    def _clicked(self, event: QMouseEvent) -> bool:
        """A whole click, pressed and let go on the widget, opens; whether the event was taken."""
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        if event.type() == QEvent.Type.MouseButtonPress:
            self._pressed = bool(self.workings())
            return self._pressed
        if event.type() != QEvent.Type.MouseButtonRelease or not self._pressed:
            return False
        self._pressed = False
        if self._widget.rect().contains(event.position().toPoint()):
            self.open()
        return True

    def light(self, *, on: bool) -> None:
        """The pointing hand and, on words, the dots beneath them; or neither."""
        if not on:
            if self._dots is not None:
                self._dots.hide()
                self._widget.unsetCursor()
            return
        self._widget.setCursor(Qt.CursorShape.PointingHandCursor)
        if self._dots is None:
            self._dots = _Dots(self._widget)
        self._dots.lie_over()


class _Dots(QWidget):
    """A dotted line beneath each line of a label's words; nothing on what is no label."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def lie_over(self) -> None:
        """Cover the widget, and show."""
        over = self.parentWidget()
        if isinstance(over, QLabel):
            self.setGeometry(over.rect())
            self.raise_()
            self.show()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The dots, as the words are broken into lines."""
        over = self.parentWidget()
        if not isinstance(over, QLabel):
            return
        painter = QPainter(self)
        pen = QPen(colour(palette().accent), _DOT_PX, Qt.PenStyle.DotLine)
        painter.setPen(pen)
        for start, end in _lines_of(over):
            painter.drawLine(start, end)
        painter.end()


def _lines_of(label: QLabel) -> list[tuple[QPointF, QPointF]]:
    """From where to where each line of a label's words reaches, a little below its feet."""
    room, metrics = label.contentsRect(), label.fontMetrics()
    layout = QTextLayout(label.text().replace("\n", "\u2028"), label.font())
    wrap = QTextOption.WrapMode.WordWrap if label.wordWrap() else QTextOption.WrapMode.NoWrap
    option = QTextOption(label.alignment() & Qt.AlignmentFlag.AlignHorizontal_Mask)
    option.setWrapMode(wrap)
    layout.setTextOption(option)
    layout.beginLayout()
    lines: list[tuple[float, float, float]] = []
    height = 0.0
    while (line := layout.createLine()).isValid():
        line.setLineWidth(room.width())
        rect = line.naturalTextRect()
        lines.append((rect.left(), rect.right(), height + line.ascent()))
        height += metrics.lineSpacing()
    layout.endLayout()
    top = room.top() + _above(label, room.height(), height)
    below = max(2.0, metrics.descent() / 2)
    return [
        (
            QPointF(room.left() + left, top + foot + below),
            QPointF(room.left() + right, top + foot + below),
        )
        for left, right, foot in lines
    ]


def _above(label: QLabel, room: float, height: float) -> float:
    """How far down a label's words begin."""
    if label.alignment() & Qt.AlignmentFlag.AlignTop:
        return 0.0
    spare = max(0.0, room - height)
    return spare if label.alignment() & Qt.AlignmentFlag.AlignBottom else spare / 2


def hand_on(widget: QWidget) -> FigureHand | None:
    """What makes a widget's own figures open; None where it has none."""
    return next((each for each in widget.children() if isinstance(each, FigureHand)), None)


def open_words(label: QLabel, ask: Ask) -> None:
    """Let a label's words open the workings of the figures that stand in them."""
    if hand_on(label) is None:
        FigureHand(label, lambda: told_in(label.text(), ask()))


@runtime_checkable
class Opens(Protocol):
    """A widget that makes its words and figures anew, and has them open their workings."""

    def open_with(self, ask: Ask) -> None:
        """Let the figures open what is asked for."""


def let_open(ask: Ask, *widgets: QWidget) -> None:
    """Let words, figures and pictures open their workings: of words, the figures told in them."""
    for each in widgets:
        if isinstance(each, Opens):
            each.open_with(ask)
        elif isinstance(each, QLabel):
            open_words(each, ask)
        elif hand_on(each) is None:
            FigureHand(each, ask)


class FigureKey(QObject):
    """F1 in a window: the working of the figure that is pointed at or has the keyboard, else Help.

    The window must have `help_asked`. What has the keyboard goes first, then what lies under the
    pointer, then what is around either.
    """

    def __init__(self, window: QMainWindow, ask_help: Callable[[], None]) -> None:
        super().__init__(window)
        self._window, self._ask_help = window, ask_help
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take F1 before a menu's shortcut does."""
        if not isinstance(event, QKeyEvent) or event.key() != Qt.Key.Key_F1:
            return super().eventFilter(watched, event)
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        if event.type() != QEvent.Type.KeyPress:
            return False
        self.answer()
        return True

    def answer(self) -> None:
        """Open the working at hand, or ask for Help."""
        focus: QWidget | None = self._window.focusWidget()
        under = self._under_pointer()
        own = [each for each in (focus, under) if each is not None]
        if any(hand.open() for each in own if (hand := hand_on(each)) is not None):
            return
        around = (each for start in reversed(own) for each in self._around(start))
        if not any(hand.open() for each in around if (hand := hand_on(each)) is not None):
            self._ask_help()

    def _under_pointer(self) -> QWidget | None:
        """The innermost widget of the window that the pointer is on."""
        at: QPoint = self._window.mapFromGlobal(QCursor.pos())
        return self._window.childAt(at) if self._window.rect().contains(at) else None

    def _around(self, widget: QWidget) -> Iterable[QWidget]:
        """What a widget lies in, from the inside out, as far as the window."""
        around = widget.parentWidget()
        while around is not None and around is not self._window:
            yield around
            around = around.parentWidget()
