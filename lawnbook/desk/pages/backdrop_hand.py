"""What the panels of the Backdrop section work with: the backdrop in hand, and its edits."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.scene import NO_DRAFT
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Backdrop

LOCKED = tr("It is locked: unlock it above to move, turn or scale it.")
Make = Callable[[Backdrop], Backdrop]


class BackdropHand(QObject):
    """The backdrop that is worked on. `said` tells what became of an edit, with its tone."""

    said = Signal(str, str)

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.book, self.control = book, control
        self.backdrop_id = ""

    @property
    def backdrop(self) -> Backdrop | None:
        """The one in hand as the notebook holds it, None for none."""
        return self.book.notebook.backdrops.get(self.backdrop_id)

    def edit(self, make: Make, label: str, told: str = "") -> bool:
        """Keep the backdrop as `make` makes it, as one undo step; False where it is refused."""
        held = self.backdrop
        if held is None:
            return False
        self.show_draft(None)
        try:
            made = make(held)
            if made != held:
                change = put(self.book.notebook, "backdrops", made)
                self.book.edit(change, f"{label} {held.name}")
        except OwnerError as problem:
            self.said.emit(str(problem), "refuse")
            return False
        self.said.emit(told, "good")
        return True

    def set(self, label: str, **values: Any) -> bool:
        """Keep other values of some fields."""
        return self.edit(lambda held: replace(held, **values), label)

    def show_draft(self, made: Backdrop | None) -> None:
        """Draw the backdrop as it would be; None draws it as it is."""
        scene = self.control.scene
        scene.show_draft(NO_DRAFT if made is None else {("backdrops", made.id): made})

    def ask(self, words: str, done: Callable[[Point, Point], None], *, snaps: bool = False) -> None:
        """Ask for two points on the sketch, unless the backdrop is locked or not shown."""
        held = self.backdrop
        if held is None:
            return
        if not held.shown:
            self.said.emit(tr("{name} is not shown; show it first.", name=held.name), "refuse")
            return
        self.said.emit("", "")
        self.control.ask_line(words, done, snaps=snaps)
