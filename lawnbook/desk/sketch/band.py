"""The band under the sketch: the fields of what is chosen, and the words to the owner."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from lawnbook.desk.sketch.inspector import Strip
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import Words, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.records import Record

BAND_PX = 62
"""Height of the band: fields, and beside them up to four lines of words. It never changes at one
width, so the paper never jumps."""

BESIDE_PX = 150
"""The least width of words that stand beside fields."""

NARROW_PX, NARROW_BAND_PX = 780, 84
"""A band narrower than this has no room for words beside the fields: they stand below them."""

_ROLES = {"": "caption", "bad": "refuse", "warn": "ask"}


class Band(QWidget):
    """One strip of fields at a time, and a few lines of words that stay until others are said."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._strips: list[Strip] = []
        self.strip: Strip | None = None
        self._words = Words("", "caption", self)
        self._words.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        name_control(self._words, "sketch_words", tr("Sketch, what to do"))
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.addWidget(self._words, 1)
        # As in most windows; so the first layout need not be made twice.
        self._narrow = True
        self._lay_out()

    def add(self, strip: Strip) -> None:
        """Take a strip in, before the words; it is hidden until it is shown."""
        strip.hide()
        self._row.insertWidget(len(self._strips), strip)
        self._strips.append(strip)

    def show_strip(self, strip: Strip | None, record: Record | None) -> None:
        """Show one strip, turned to a record where there is one; the others are forgotten."""
        if strip is not None and record is not None:
            strip.turn_to(record)
        self.strip = strip
        # The others go first: two at once would ask for more room than there is.
        for each in self._strips:
            if each is not strip:
                each.hide()
                each.forget()
        if strip is not None:
            strip.show()

    def to_first_field(self) -> None:
        """Lead the keyboard to the first field that is shown."""
        if self.strip is not None:
            self.strip.first().setFocus(Qt.FocusReason.ShortcutFocusReason)

    @property
    def is_wrong(self) -> bool:
        """Whether a field that is shown still waits for its mend."""
        return self.strip is not None and self.strip.is_wrong

    def said(self) -> tuple[str, str]:
        """The words that stand there, and their role."""
        return self._words.text(), str(self._words.property("role"))

    def say(self, words: str, tone: str) -> None:
        """Say something in a tone ("", "good", "warn", "bad") or in a role."""
        self._words.setText(words)
        self._words.setToolTip(words)
        mark_role(self._words, _ROLES.get(tone, tone))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words beside the fields, or below them where the band is narrow."""
        super().resizeEvent(event)
        self._follow_width()

    def changeEvent(self, event: QEvent) -> None:
        """As much room as words of another size need."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and hasattr(self, "_narrow"):
            self._narrow = self.width() < px(NARROW_PX)
            self._lay_out()

    def _follow_width(self) -> None:
        narrow = self.width() < px(NARROW_PX)
        if narrow != self._narrow:
            self._narrow = narrow
            self._lay_out()

    def _lay_out(self) -> None:
        narrow = self._narrow
        way = QBoxLayout.Direction
        self._row.setDirection(way.TopToBottom if narrow else way.LeftToRight)
        self._row.setSpacing(4 if narrow else 16)
        self._words.setMinimumWidth(0 if narrow else px(BESIDE_PX))
        down = Qt.AlignmentFlag.AlignTop if narrow else Qt.AlignmentFlag.AlignVCenter
        self._words.setAlignment(Qt.AlignmentFlag.AlignLeft | down)
        self.setFixedHeight(px(NARROW_BAND_PX if narrow else BAND_PX))
