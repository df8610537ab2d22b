"""What the tools work with: the book, what is chosen, snapping, and the words to the owner."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import QObject, Qt, Signal

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.sketch.choosing import Choice, name_of
from lawnbook.desk.sketch.habits import Habits
from lawnbook.desk.sketch.locking import locked_of, locked_words, stays_words
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.desk.sketch.scene import NO_DRAFT, SketchScene
from lawnbook.desk.sketch.staling import emptied, stale_words, with_days
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import remove
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import bounds_ft, boxes_meet, lies_inside, overlap
from lawnbook.yard.notebook import Change, Key, Notebook, apply, difference, put
from lawnbook.yard.numbers import and_joined, counted
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import FeatureKind, Head, Record, Spot, Zone

if TYPE_CHECKING:
    from lawnbook.desk.sketch.snap_index import SnapCache
    from lawnbook.desk.sketch.snapping import Snapper

Tone = Literal["", "good", "warn", "bad"]
LineDone = Callable[[Point, Point], None]
"""What is done with the two points that were asked for."""

_ALONG_NOUNS = {
    "heads": "head",
    "cores": "plug",
    "photos": "photograph",
    "catch_tests": "catch test",
    "soil_tests": "soil test",
    "waterings": "watering",
    "feedings": "feeding",
    "spreader_runs": "spreader setting",
}
_MOST_NAMES = 3


class SketchControl(QObject):
    """Between tools, scene and book. One per panel."""

    chosen = Signal(bool)
    """What is chosen changed; whether the owner did it here rather than another page."""
    said = Signal(str, str)
    """Words for the line under the sketch, with their tone."""
    hovered = Signal(str)
    """Words to show beside the pointer, "" for none."""
    pointed = Signal(Qt.CursorShape)
    """The cursor that says what a press would do here."""
    finished = Signal()
    """The tool made what it makes; the panel goes back to Pick."""

    line_asked = Signal(str, object, bool)
    """Two points are asked of the owner: words, what is done with them, whether they snap."""
    name_wanted = Signal()
    """The owner asks to type the name of what is chosen."""
    move_wanted = Signal()
    """The owner asks to type how far what is chosen goes."""
    section_asked = Signal(str)
    """A section of the yard page is wanted, by its name."""
    form_asked = Signal(str)
    """The owner asks for the typed figures of an operation on the yard page: "turn", "strip"."""

    def __init__(
        self, book: OpenNotebook, scene: SketchScene, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.book = book
        self.scene = scene
        self.choice: Choice | None = None
        self.marked: tuple[Key, ...] = ()
        self.habits = Habits()
        self._snaps: SnapCache | None = None
        self.feature_kind: FeatureKind = "house"
        self.head_like: Head | None = None
        self.cans = CanDraft(self)
        self.aftermath = ""
        self._left_empty: frozenset[str] = frozenset()

    @property
    def notebook(self) -> Notebook:
        """The notebook as it stands."""
        return self.book.notebook

    def record(self) -> Record | None:
        """What is chosen, as it is kept."""
        if self.choice is None:
            return None
        return self.notebook.find(self.choice.table, self.choice.record_id)

    @property
    def chosen_keys(self) -> tuple[Key, ...]:
        """All that is chosen: what was chosen first, then what was marked with it, in order."""
        if self.choice is None:
            return ()
        return ((self.choice.table, self.choice.record_id), *self.marked)

    def name(self, table: str, record_id: str) -> str:
        """What something on the sketch is called."""
        return name_of(self.notebook, table, record_id)

    def choose(self, choice: Choice | None, *, by_owner: bool = True) -> None:
        """Choose something, or nothing; what was marked with it is let go.

        Another corner or ring of what is chosen already leaves the marked ones marked.
        """
        now = self.choice
        same = choice is not None and now is not None and choice.record_id == now.record_id
        marked = self.marked if same else ()
        if choice == now and marked == self.marked:
            return
        self._show_choice(choice, marked, by_owner=by_owner)

    def choose_all(self, keys: Iterable[Key], *, by_owner: bool = True) -> None:
        """Choose several: the first, and the others marked with it."""
        chosen = tuple(dict.fromkeys(keys))
        choice = Choice(*chosen[0]) if chosen else None
        self._show_choice(choice, chosen[1:], by_owner=by_owner)

    def mark(self, key: Key) -> None:
        """Mark something with what is chosen, or let it go where it is chosen or marked."""
        keys = self.chosen_keys
        left = tuple(each for each in keys if each != key) if key in keys else (*keys, key)
        self.choose_all(left)

    def let_go_of_lost(self) -> None:
        """Let go of what is gone from the book, and of a ring or corner that is; the rest stays."""
        keys, choice = self.chosen_keys, self.choice
        left = tuple(key for key in keys if self.notebook.find(*key) is not None)
        if choice is None or left != keys:
            if left != keys:
                self.choose_all(left)
            return
        rings = rings_of(self.record())
        gone = choice.ring >= len(rings) and choice.ring > 0
        gone = gone or (choice.corner is not None and choice.corner >= len(rings[choice.ring]))
        if gone:
            self.choose(choice.whole, by_owner=False)

    def _show_choice(
        self, choice: Choice | None, marked: tuple[Key, ...], *, by_owner: bool
    ) -> None:
        self.choice, self.marked = choice, marked
        self.scene.show_choice(choice, marked)
        self.chosen.emit(by_owner)

    def ask_line(self, words: str, done: LineDone, *, snaps: bool = True) -> None:
        """Ask the owner for two points on the sketch; `done` gets them, unless it is given up."""
        self.line_asked.emit(words, done, snaps)

    def say(self, words: str, tone: Tone = "") -> None:
        """Tell the owner something below the sketch."""
        self.said.emit(words, tone)

    def edit(self, change: Change, label: str) -> bool:
        """Keep a change; where it is refused say why, draw what is kept, and return False.

        A change of heads that makes a catch test stale keeps its day with it, and `aftermath` is
        what was said of that.
        """
        today, before = self.book.today, self.notebook
        self.aftermath = ""
        self._left_empty |= emptied(change)
        try:
            self.book.edit(with_days(before, change, today, self._left_empty), label)
        except OwnerError as error:
            self.scene.show_draft(NO_DRAFT)
            self.say(str(error), "bad")
            return False
        self.scene.show_draft(NO_DRAFT)
        self.aftermath = stale_words(before, change, today, self._left_empty)
        if self.aftermath:
            self.say(self.aftermath, "warn")
        return True

    def keep(self, table: str, record: Record, label: str) -> bool:
        """Keep one new or changed record."""
        return self.edit(put(self.notebook, table, record), label)

    def keep_draft(self, draft: Mapping[Key, Record], label: str) -> bool:
        """Keep several changed records as one step; what came back to where it was is no change.

        Nor is what was removed meanwhile: undo may be pressed in the middle of a drag.
        """
        change: dict[Key, tuple[Record | None, Record | None]] = {}
        for (table, record_id), record in draft.items():
            held = self.notebook.find(table, record_id)
            if held is not None and record != held:
                change.update(put(self.notebook, table, record))
        if not change:
            self.scene.show_draft(NO_DRAFT)
            return True
        return self.edit(change, label)

    def remove_chosen(self) -> None:
        """Remove all that is chosen and not locked, with what hangs on it; undo brings it back."""
        keys = self.chosen_keys
        stay = locked_of(self.notebook, keys)
        going = tuple(key for key in keys if key not in stay)
        if not going:
            if stay:
                self.say(locked_words(self.notebook, stay), "warn")
            return
        one = len(going) == 1
        name = self.name(*going[0]) if one else counted(len(going), "shape")
        stays = stays_words(self.notebook, stay)
        try:
            change = removed_together(self.notebook, going)
        except OwnerError as error:
            self.say(str(error), "bad")
            return
        if self.edit(change, tr("remove {name}", name=name)):
            words = tr(
                "{name} is gone{farewell}. Undo brings it back."
                if one
                else "{name} are gone{farewell}. Undo brings them back.",
                name=f"{name[:1].upper()}{name[1:]}",
                farewell=farewell(change, *going),
            )
            self.say(" ".join(filter(None, (words, stays))))

    def warn_of_overlap(self, zone: Zone) -> bool:
        """Say on which other zones a zone lies, where it lies on any; whether it does."""
        others = [each for each in self.notebook.zones.values() if each.id != zone.id]
        covered = [each.name for each in others if _share_ground(zone, each)]
        if covered:
            self.say(
                tr(
                    "{name} lies partly on {covered}: the ground they share is counted in both."
                    if len(covered) == 1
                    else "{name} lies partly on {covered}: the ground they share is counted in "
                    "each.",
                    name=zone.name,
                    covered=and_joined(covered),
                ),
                "warn",
            )
        return bool(covered)

    def snapper(self, ft_per_px: float, leave_out: Iterable[Key] = ()) -> "Snapper":
        """Snapping to every outline but those that are being moved."""
        # Imported here: in arrays, which the first paint does without.
        from lawnbook.desk.sketch.snap_index import SnapCache
        from lawnbook.desk.sketch.snapping import Snapper

        if self._snaps is None:
            self._snaps = SnapCache()
        return Snapper(self._snaps.index(self.notebook, leave_out), ft_per_px, self.habits)


def removed_together(notebook: Notebook, keys: Iterable[Key]) -> Change:
    """The change that takes several records out, each with what hangs on it."""
    after = notebook
    for table, record_id in keys:
        # A head may have gone with its zone already.
        if after.find(table, record_id) is not None:
            after = apply(after, remove(after, table, record_id))
    return difference(notebook, after)


def farewell(change: Change, *chosen: Key) -> str:
    """The words between "is gone" and the full stop: ", with 3 heads; spot crest stays".

    Of feedings that also fed other zones the share of this one goes. Empty where nothing hung on
    what was chosen.
    """
    rest = {key: after for key, (_, after) in change.items() if key not in chosen}
    gone = Counter(table for (table, _), after in rest.items() if after is None)
    went = [counted(gone[table], one) for table, one in _ALONG_NOUNS.items() if gone[table]]
    shares = sum(table == "feedings" and after is not None for (table, _), after in rest.items())
    if shares:
        went.append(tr("its share of {feedings}", feedings=counted(shares, "feeding")))
    along = tr(", with {went}", went=and_joined(went)) if went else ""
    stay = [after.name for after in rest.values() if isinstance(after, Spot)]
    return f"{along}; {_spots_stay(stay)}" if stay else along


def _spots_stay(names: list[str]) -> str:
    if len(names) > _MOST_NAMES:
        return tr("{count} spots stay", count=len(names))
    return (
        tr("spot {names} stays", names=names[0])
        if len(names) == 1
        else tr("spots {names} stay", names=and_joined(names))
    )


def _share_ground(one: Zone, other: Zone) -> bool:
    if not boxes_meet(bounds_ft([one.outline_ft]), bounds_ft([other.outline_ft])):
        return False
    apart = _in_a_hole(one, other) or _in_a_hole(other, one)
    return not apart and bool(overlap(one.outline_ft, other.outline_ft))


def _in_a_hole(inner: Zone, outer: Zone) -> bool:
    return any(lies_inside(inner.outline_ft, hole) for hole in outer.holes_ft)
