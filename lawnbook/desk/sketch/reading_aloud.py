"""What a screen reader is told of the sketch as it changes: what is chosen, and what is said.

Why the shapes are no children of the sketch for a screen reader: `QAccessible.installFactory` of
PySide6 6.11 does give the sketch a child for every shape, but Qt's own table of interfaces keeps
bare pointers to them. Once a shape is redrawn and its child let go, the next question of a screen
reader ends the process (seen with a factory, five children, and a look-up by id). So the list of
shapes, a native list, is the way through them, and changes are announced from here.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from lawnbook.desk.roles import announce
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.reading import tr
from lawnbook.yard.numbers import counted

Tell = Callable[[QWidget, str], None]


def chosen_words(control: SketchControl) -> str:
    """What is chosen, as it is read: "Zone 1 Front, 600 square feet, locked; 2 others with it"."""
    from lawnbook.desk.sketch.shape_rows import shape_rows

    keys = control.chosen_keys
    if not keys:
        return tr("Nothing is chosen")
    words = next((row.spoken for row in shape_rows(control.notebook) if row.key == keys[0]), "")
    choice = control.choice
    if choice is not None and choice.corner is not None:
        words += tr(", corner {corner}", corner=choice.corner + 1)
    return (
        tr("{words}; {others} with it", words=words, others=counted(len(keys) - 1, "other"))
        if len(keys) > 1
        else words
    )


class ReadingAloud(QObject):
    """Announces what is chosen on the sketch, and the words below it. One per panel."""

    def __init__(self, control: SketchControl, widget: QWidget, tell: Tell = announce) -> None:
        super().__init__(widget)
        self._control, self._widget, self._tell = control, widget, tell
        self._last = ""
        control.chosen.connect(lambda _: self._choice_changed())
        control.said.connect(lambda words, _: self._say(words))

    def _choice_changed(self) -> None:
        from PySide6.QtGui import QAccessible

        if self._tell is not announce or QAccessible.isActive():
            self._say(chosen_words(self._control))

    def _say(self, words: str) -> None:
        """Say it once: the same words again are no news."""
        if words and words != self._last:
            self._last = words
            self._tell(self._widget, words)
