"""Motion, short and quiet: what has just come fades in from the paper; nothing waits for it.

What comes stands there at once, and takes keys and mouse: only a sheet of paper that lies over it
thins out. Where motion is to be left out (`looks.is_still`), or nobody looks on, there is none.
"""

from PySide6.QtCore import QAbstractAnimation, QEasingCurve, QEvent, QObject, Qt, QVariantAnimation
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent
from PySide6.QtWidgets import QStackedWidget, QWidget

from lawnbook.charts.tokens import CALM_MS
from lawnbook.desk.looks import is_still, looks
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import colour, palette

THICKEST = 0.85
"""How much of the paper lies over what comes in its first moment."""
_UNSEEN = ("offscreen", "minimal")


def moves() -> bool:
    """Whether something is to move now. Without a screen only where motion is asked for."""
    if QGuiApplication.platformName() in _UNSEEN and looks().motion != "full":
        return False
    return not is_still()


def fade_in(covered: QWidget, duration_ms: int = CALM_MS) -> None:
    """Let a widget that has just come fade in from the paper; one that is hidden stays as it is."""
    if not (moves() and covered.isVisible()):
        return
    held = covered.findChild(Thinning, options=Qt.FindChildOption.FindDirectChildrenOnly)
    (held or Thinning(covered)).run(duration_ms)


class FadingStack(QStackedWidget):
    """Pages of which one shows; another one fades in."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        # Qt's own word for it, "layered pane", would be heard at every turn of a page.
        hear_as(self, "Grouping")

    def setCurrentWidget(self, widget: QWidget) -> None:
        """Show another page."""
        another = widget is not self.currentWidget()
        super().setCurrentWidget(widget)
        if another:
            fade_in(widget)


class Thinning(QWidget):
    """A sheet of paper over a widget that thins out and is gone."""

    def __init__(self, covered: QWidget) -> None:
        super().__init__(covered)
        self.setObjectName("thinning")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._covered, self._left = covered, 0.0
        self._run = QVariantAnimation(self)
        self._run.setStartValue(THICKEST)
        self._run.setEndValue(0.0)
        self._run.setEasingCurve(QEasingCurve.Type.OutCubic)
        self._run.valueChanged.connect(self._thin)
        self._run.finished.connect(self.hide)
        covered.installEventFilter(self)
        self.hide()

    @property
    def runs(self) -> bool:
        """Whether it is still thinning."""
        return self._run.state() == QAbstractAnimation.State.Running

    def run(self, duration_ms: int) -> None:
        """Thin out from the beginning, in some milliseconds."""
        self._run.stop()
        self._run.setDuration(duration_ms)
        self.setGeometry(self._covered.rect())
        self._left = THICKEST
        self.show()
        self.raise_()
        self._run.start()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep to the widget's size; go with it when it goes."""
        if event.type() == QEvent.Type.Resize:
            self.setGeometry(self._covered.rect())
        elif event.type() == QEvent.Type.Hide:
            self._run.stop()
            self.hide()
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paper that lets more and more through."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), colour(palette().paper, self._left))
        painter.end()

    def _thin(self, left: object) -> None:
        self._left = left if isinstance(left, float) else 0.0
        self.update()
