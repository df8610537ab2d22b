"""What reading tables found: the change, what it would do, and what stands against it."""

from collections.abc import Sequence

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.notebook import Change
from lawnbook.yard.numbers import whole


@dataclass(frozen=True, slots=True)
class Counted:
    """A table of the file: how many of its rows are added, changed, the same, or cannot be kept."""

    table: str
    title: str
    added: int
    changed: int
    same: int
    faulty: int


@dataclass(frozen=True, slots=True)
class Difference:
    """A field before and after; a row that is new has one for each field that it fills.

    `row` is what the record is called, `where` its place in the file, such as "row 4".
    """

    table: str
    title: str
    record_id: str
    row: str
    where: str
    heading: str
    before: str
    after: str
    is_new: bool = False


@dataclass(frozen=True, slots=True)
class Fault:
    """Something wrong or doubtful: its table's title, its place, its column, and the mend."""

    title: str
    where: str
    line: int
    heading: str
    sentence: str

    @property
    def told(self) -> str:
        """The fault as one line: "Zones, row 4: Slope of 200 % is too much; …".

        The column is named where the sentence does not begin with its label.
        """
        label = self.heading.split(",", maxsplit=1)[0]
        named = not label or self.sentence.startswith(label)
        column = "" if named else tr(', column "{heading}"', heading=self.heading)
        return f"{self.title}, {self.where}{column}: {self.sentence}"


@dataclass(frozen=True, slots=True)
class TablesRead:
    """What tables hold against a notebook; nothing is changed before `change` is made.

    Rows with a fault are not in `change`; rows with a question about a value are. `notes` tell what
    was passed over. `foreign` says that the file, or part of it, is of another notebook, and is to
    be told first. `unknown` rows have ids that no record has and repeat nothing; `held_back` of
    them are not in `change`.
    """

    change: Change
    tables: tuple[Counted, ...]
    differences: tuple[Difference, ...]
    faults: tuple[Fault, ...] = ()
    questions: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()
    foreign: str = ""
    unknown: int = 0
    held_back: int = 0

    @property
    def added(self) -> int:
        """How many rows are new."""
        return sum(each.added for each in self.tables)

    @property
    def changed(self) -> int:
        """How many rows are different from the notebook's."""
        return sum(each.changed for each in self.tables)

    @property
    def same(self) -> int:
        """How many rows say what the notebook says already."""
        return sum(each.same for each in self.tables)


def few(sentences: Sequence[str], most: int) -> tuple[str, ...]:
    """The first sentences, and how many more there are."""
    rest = len(sentences) - most
    return (
        *sentences[:most],
        *([tr("And {whole} more like these.", whole=whole(rest))] if rest > 0 else []),
    )


def taken_in_label(read: TablesRead) -> str:
    """What taking the tables in is called for undo."""
    rows = read.added + read.changed
    return tr(
        "take in {whole} {part} of tables",
        whole=whole(rows),
        part=tr("row") if rows == 1 else tr("rows"),
    )
