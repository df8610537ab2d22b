"""How two notebooks differ, table by table, in numbers and words."""

from collections import Counter

from lawnbook.frozen import dataclass
from lawnbook.yard.notebook import Notebook, difference
from lawnbook.yard.numbers import whole
from lawnbook.yard.records import SINGLES, TABLES


@dataclass(frozen=True, slots=True)
class TableDifference:
    """How many records of a table were added, changed and removed on the way to the later one."""

    table: str
    added: int
    changed: int
    removed: int


def differences(before: Notebook, after: Notebook) -> tuple[TableDifference, ...]:
    """The tables in which two notebooks differ, in the order of the tables; none where equal."""
    counts: Counter[tuple[str, str]] = Counter()
    for (table, _), (old, new) in difference(before, after).items():
        counts[table, "added" if old is None else "removed" if new is None else "changed"] += 1
    every = (
        TableDifference(
            name, counts[name, "added"], counts[name, "changed"], counts[name, "removed"]
        )
        for name in TABLES
    )
    return tuple(each for each in every if each.added or each.changed or each.removed)


def difference_told(each: TableDifference) -> str:
    """A table's difference in words, such as "3 added, 1 changed"."""
    if each.table in SINGLES:
        return "changed"
    counts = ((each.added, "added"), (each.changed, "changed"), (each.removed, "removed"))
    return ", ".join(f"{whole(count)} {words}" for count, words in counts if count)
