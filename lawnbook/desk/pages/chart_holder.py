"""A place for one chart: matplotlib is loaded after the first paint, the chart follows."""

from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.charts.palette import PRINT, Palette
from lawnbook.desk.dialogs import choose_picture, file_stem
from lawnbook.desk.figures import FigureHand, hand_on
from lawnbook.desk.focus_ring import FocusRing
from lawnbook.desk.pages.chart_pointer import ChartPointer
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import palette, scale
from lawnbook.desk.widgets import LinkButton, Words, name_control
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.charts.marks import Frame, Picture
    from lawnbook.charts.profile_hits import Hit
    from lawnbook.plan.model import Plan
    from lawnbook.plan.working_model import Working

DPI = 100.0
"""The grain of a chart at a text of 100 %: its points are larger where text is."""
Draw = Callable[[Palette, "Figure | None"], "Figure"]
Hits = Callable[["Frame"], Sequence["Hit"]]
AskOf = Callable[[str], "Sequence[Working]"]
"""The workings of what is lit in a drawing, by its key; of the whole drawing for ""."""


@dataclass(frozen=True, slots=True)
class Export:
    """How a chart is saved as a picture: its marks on a frame of `size_pt` (width, height in
    points), in the colours of print, and the file that is proposed (.png or .svg)."""

    drawing: "Callable[[Frame], Picture]"
    size_pt: tuple[float, float]
    start: Path


def picture_path(beside: Path, plan: "Plan", place: str, what: str) -> Path:
    """The file proposed for a picture, next to another: yard, place, what it shows, and the day."""
    stem = file_stem(" ".join(dict.fromkeys((plan.yard, place, what))))
    return beside.with_name(f"{stem} {plan.on.isoformat()}.png")


class ChartHolder(QWidget):
    """Shows what `draw(palette, figure or None)` draws, and draws it again in a new theme.

    The canvas takes the focus with Tab and speaks its `described` words; `begun` tells that it
    has been made, so that it can be given its place in the order of Tab. Where there are hits,
    `picked` tells the key of what was clicked, or walked to with the arrows and taken with Enter.
    """

    begun = Signal()
    picked = Signal(str)

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self._spoken = spoken
        self._draw: Draw | None = None
        self._hits: Hits | None = None
        self._export: Export | None = None
        self._described = ""
        self._figure: Figure | None = None
        self._canvas: QWidget | None = None
        self._pointer: ChartPointer | None = None
        self._marked = ""
        self._ask_of: AskOf | None = None
        self._scale = 1.0
        self._save_row: _SaveRow | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2)
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._redraw)

    def show_chart(
        self,
        draw: Draw | None,
        described: str,
        hits: Hits | None = None,
        export: Export | None = None,
    ) -> None:
        """Show another chart, or none; what it says is for those who cannot see it.

        `hits` are the boxes of the drawing on a frame that answer to the pointer, in the order in
        which the arrows walk them; `export` offers to save it as a picture.
        """
        self._draw = draw
        self._described = described
        self._hits = hits
        self._export = export
        self._offer_save()
        if self.isVisible():
            self._soon.start(0)

    def mark(self, record_id: str) -> None:
        """Ring what stands for a record that is open elsewhere; "" rings nothing."""
        self._marked = record_id
        if self._pointer is not None:
            self._pointer.mark(record_id)

    def let_hits_open(self, ask_of: AskOf) -> None:
        """Let F1 open how the figures of what is lit came about, or those of the whole drawing.

        A click is for whoever listens to `picked`, and may ask for the same by `open_lit`.
        """
        self._ask_of = ask_of
        self._give_hand(self)
        if self._canvas is not None:
            self._give_hand(self._canvas)

    def workings(self) -> "tuple[Working, ...]":
        """How the figures of what is lit came about, or those of the whole drawing."""
        lit = "" if self._pointer is None else self._pointer.lit_key()
        return () if self._ask_of is None else tuple(self._ask_of(lit))

    def open_lit(self) -> bool:
        """Open those workings beside what is lit; whether there are any."""
        hand = hand_on(self)
        return hand is not None and hand.open()

    def _give_hand(self, widget: QWidget) -> None:
        FigureHand(widget, self.workings, by_click=False, place=self._lit_place)

    def _lit_place(self) -> QPoint | None:
        return None if self._pointer is None else self._pointer.lit_place()

    def showEvent(self, event: QShowEvent) -> None:
        """Draw once the page itself has been painted."""
        super().showEvent(event)
        self._soon.start(0)

    def changeEvent(self, event: QEvent) -> None:
        """Draw again in the colours of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and self._canvas is not None:
            self._soon.start(0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """What is lit goes out: the drawing has other places now."""
        super().resizeEvent(event)
        if self._pointer is not None:
            self._pointer.put_out()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The canvas's keys walk the hits; the pointer keeps to the canvas's size."""
        kind = event.type()
        if isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_F1:
            # The canvas would take it, and the window's F1 would never hear of it.
            event.ignore()
            return kind == QEvent.Type.KeyPress
        if self._pointer is None or watched is not self._canvas:
            return False
        if kind == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return self._pointer.isVisible() and self._pointer.key(event)
        if kind == QEvent.Type.Resize:
            self._pointer.resize(self._canvas.size())
        elif kind == QEvent.Type.FocusOut:
            self._pointer.put_out()
        return False

    def _redraw(self) -> None:
        if self._draw is None:
            return
        if self._canvas is not None and self._scale != scale():
            self._let_go(self._canvas)
        if self._canvas is None:
            self._scale = scale()
            self._figure = import_module("matplotlib.figure").Figure(dpi=DPI * self._scale)
            self._canvas = self._new_canvas(self._figure)
            self._settle(self._canvas)
        self._figure = self._draw(palette(), self._figure)
        self._canvas.setAccessibleDescription(self._described)
        self._follow_hits(self._canvas)
        self._figure.canvas.draw_idle()

    def _let_go(self, canvas: QWidget) -> None:
        """Give the canvas up: words of another size need one of another grain."""
        canvas.removeEventFilter(self)
        self._column.removeWidget(canvas)
        canvas.hide()
        canvas.deleteLater()
        self._canvas = self._figure = None
        if self._pointer is not None:
            self._pointer.hide()
            self._pointer.deleteLater()
            self._pointer = None

    def _new_canvas(self, figure: "Figure") -> QWidget:
        # matplotlib's Qt canvas carries no types, so it comes in by name.
        backend = import_module("matplotlib.backends.backend_qtagg")
        canvas: QWidget = backend.FigureCanvasQTAgg(figure)
        hear_as(canvas, "Chart")
        name_control(canvas, f"{self.objectName()}_canvas", self._spoken)
        FocusRing(canvas)
        canvas.installEventFilter(self)
        canvas.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        # The canvas itself is never clicked; the wheel over it is the page's.
        canvas.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._column.insertWidget(0, canvas, 1)
        if self._ask_of is not None:
            self._give_hand(canvas)
        if self._save_row is not None:
            self.setTabOrder(canvas, self._save_row.link)
        self.begun.emit()
        return canvas

    def _settle(self, canvas: QWidget) -> None:
        """Give a new canvas its size, so that the chart is drawn once, and not at another first."""
        canvas.show()
        around: QWidget | None = self
        while around is not None and not around.isWindow():
            QApplication.sendPostedEvents(around, QEvent.Type.LayoutRequest.value)
            around = around.parentWidget()
        self._column.activate()

    def _follow_hits(self, canvas: QWidget) -> None:
        """Lay the pointer over the canvas where the drawing has hits, and take it away else."""
        if self._hits is None:
            if self._pointer is not None:
                self._pointer.hide()
            return
        if self._pointer is None:
            # Beside the canvas, not in it: what is in a widget that the mouse passes through is
            # passed through as well.
            self._pointer = ChartPointer(self._frame, self._hits, self)
            hear_as(self._pointer, "Chart")
            name_control(self._pointer, f"{self.objectName()}_pointer", self._spoken)
            self._pointer.picked.connect(self.picked)
            self._pointer.told.connect(self._tell)
            self._pointer.mark(self._marked)
        self._pointer.setAccessibleDescription(self._described)
        self._pointer.show_hits(self._hits)
        self._pointer.setGeometry(canvas.geometry())
        self._pointer.show()
        self._pointer.raise_()

    def _frame(self) -> "Frame":
        from lawnbook.charts.paint import frame_of

        if self._figure is None:
            raise RuntimeError("a chart was pointed at before it was drawn")
        return frame_of(self._figure)

    def _tell(self, words: str) -> None:
        """Speak what is lit, or again of the whole chart."""
        if self._canvas is not None:
            self._canvas.setAccessibleDescription(words or self._described)

    def _offer_save(self) -> None:
        if self._save_row is None and self._export is not None:
            self._save_row = _SaveRow(self.objectName(), self)
            self._save_row.asked.connect(self.ask_save)
            self._column.addWidget(self._save_row)
        if self._save_row is not None:
            self._save_row.setVisible(self._export is not None)
            self._save_row.say("")

    def ask_save(self) -> None:
        """Ask where to, and save the chart there as a picture in the colours of print."""
        if self._export is None or self._save_row is None:
            return
        path = choose_picture(self, self._export.start)
        if path is None:
            return
        from lawnbook.charts.export import Told, write_picture
        from lawnbook.charts.marks import Frame

        try:
            said = Told(self._spoken, self._described)
            write_picture(self._export.drawing, Frame(*self._export.size_pt), path, PRINT, said)
        except OwnerError as problem:
            self._save_row.say(str(problem), "refuse")
            return
        self._save_row.say(tr("Saved: {name}", name=path.name), "good")


class _SaveRow(QWidget):
    """The small line beneath a chart: what became of saving it, and the `link` that asks."""

    asked = Signal()

    def __init__(self, chart_name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName(f"{chart_name}_save_row")
        self._said = Words("", "caption", self)
        self._said.setObjectName(f"{chart_name}_saved")
        self.link = LinkButton(tr("Save picture…"), f"{chart_name}_save", self)
        self.link.clicked.connect(self.asked)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        row.addWidget(self._said, 1)
        row.addStretch(0)
        row.addWidget(self.link, 0, Qt.AlignmentFlag.AlignRight)

    def say(self, words: str, role: str = "caption") -> None:
        """What became of the last picture."""
        self._said.say(words, role)
