"""A place for one chart: matplotlib is loaded after the first paint, the chart follows."""

from collections.abc import Callable
from importlib import import_module
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk.theme import palette
from lawnbook.desk.widgets import name_control

if TYPE_CHECKING:
    from matplotlib.figure import Figure

Draw = Callable[[Palette, "Figure | None"], "Figure"]


class ChartHolder(QWidget):
    """Shows what `draw(palette, figure or None)` draws, and draws it again in a new theme.

    The canvas takes the focus with Tab and speaks its `described` words; `begun` tells that it
    has been made, so that it can be given its place in the order of Tab.
    """

    begun = Signal()

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self._spoken = spoken
        self._draw: Draw | None = None
        self._described = ""
        self._figure: Figure | None = None
        self._canvas: QWidget | None = None
        self._drawn: object = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._redraw)

    def show_chart(self, draw: Draw | None, described: str) -> None:
        """Show another chart, or none; what it says is for those who cannot see it."""
        self._draw = draw
        self._described = described
        if self.isVisible():
            self._soon.start(0)

    def showEvent(self, event: QShowEvent) -> None:
        """Draw once the page itself has been painted."""
        super().showEvent(event)
        self._soon.start(0)

    def changeEvent(self, event: QEvent) -> None:
        """Draw again in the colours of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and self._canvas is not None:
            self._soon.start(0)

    def _redraw(self) -> None:
        if self._draw is None:
            return
        self._figure = self._draw(palette(), self._figure)
        if self._canvas is None:
            self._canvas = self._new_canvas(self._figure)
        self._canvas.setAccessibleDescription(self._described)
        self._figure.canvas.draw_idle()

    def _new_canvas(self, figure: "Figure") -> QWidget:
        # matplotlib's Qt canvas carries no types, so it comes in by name.
        backend = import_module("matplotlib.backends.backend_qtagg")
        canvas: QWidget = backend.FigureCanvasQTAgg(figure)
        name_control(canvas, f"{self.objectName()}_canvas", self._spoken)
        canvas.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        # Nothing on a chart is clicked; the wheel over it is the page's.
        canvas.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._column.addWidget(canvas)
        self.begun.emit()
        return canvas
