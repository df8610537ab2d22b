"""What a salvage found and what is missing, table by table, in words."""

from collections.abc import Iterator

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.numbers import counted, whole
from lawnbook.yard.records import TITLES

MOST_DETAILS = 5
"""Sentences about single records that are told of each table."""
CANNOT_BE_NOTICED = tr(
    "A changed value that is still a likely one cannot be noticed in the file "
    "itself; compare with an earlier copy."
)


@dataclass(frozen=True, slots=True)
class TableTold:
    """One table: what was kept, and what became of the rest.

    `lost` rows stood on pages that cannot be read, `garbled` ones could not be understood,
    `hanging` ones refer to what is gone, `refused` ones break a rule of the notebook. `emptied`
    counts values that were left out of rows that are kept, `stand_ins` new records in the place of
    those that could not be read (not among the kept), `odd_ids` rows whose id is not the one that
    their index has or that are in no index. `may_lack` says that there may be
    more rows of which nothing is known, and `doubtful` that some may have been removed earlier.
    """

    table: str
    kept: int = 0
    lost: int = 0
    garbled: int = 0
    hanging: int = 0
    refused: int = 0
    emptied: int = 0
    stand_ins: int = 0
    odd_ids: int = 0
    may_lack: bool = False
    doubtful: bool = False
    details: tuple[str, ...] = ()

    @property
    def missing(self) -> int:
        """How many rows are known to be missing."""
        return self.lost + self.garbled + self.hanging + self.refused

    @property
    def is_unknown(self) -> bool:
        """Whether nothing was found, and nothing says that there was anything."""
        return self.may_lack and not (self.kept or self.missing or self.details)

    @property
    def is_whole(self) -> bool:
        """Whether nothing of this table is known or feared to be missing or altered."""
        quiet = not (self.may_lack or self.doubtful or self.details)
        return not self.missing and not self.emptied and quiet


@dataclass(frozen=True, slots=True)
class SalvageTold:
    """The whole outcome: every table, and what is to be said of the file."""

    tables: tuple[TableTold, ...]
    notes: tuple[str, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether every record that the file knows of was read as it stands."""
        return all(each.is_whole for each in self.tables)


def told_lines(told: SalvageTold) -> tuple[str, ...]:
    """The outcome as lines to read: notes, what is missing, and what cannot be noticed."""
    return tuple(_lines(told))


def _lines(told: SalvageTold) -> Iterator[str]:
    yield from told.notes
    for each in told.tables:
        if not each.is_whole and not each.is_unknown:
            yield f"{tr(TITLES[each.table])}: {table_sentence(each)}"
            for detail in each.details[:MOST_DETAILS]:
                yield f"  {detail}"
            if len(each.details) > MOST_DETAILS:
                yield tr(
                    "  and {whole} more like these", whole=whole(len(each.details) - MOST_DETAILS)
                )
    unknown = [tr(TITLES[each.table]) for each in told.tables if each.is_unknown]
    if unknown:
        yield tr(
            "None found, though there may have been some: {unknown}.", unknown=", ".join(unknown)
        )
    if told.is_whole:
        yield tr("Every record that the file knows of was read.")
    yield tr(
        "{records} kept in all.", records=counted(sum(each.kept for each in told.tables), "record")
    )
    yield CANNOT_BE_NOTICED


def table_sentence(told: TableTold) -> str:
    """What became of one table: "35 kept; 3 could not be read"."""
    least = tr("at least ") if told.may_lack else ""
    counts = (
        (told.lost, tr("could not be read")),
        (told.garbled, tr("could not be understood")),
        (told.hanging, tr("left out, as what they refer to is gone")),
        (told.refused, tr("left out, as no lawn has such values")),
    )
    said = [tr("{whole} kept", whole=whole(told.kept))]
    said += [f"{least}{whole(count)} {words}" for count, words in counts if count]
    if told.emptied:
        said.append(tr("{values} left out", values=counted(told.emptied, "value")))
    if told.may_lack and not told.missing:
        said.append(tr("more may be missing"))
    if told.doubtful:
        said.append(tr("some may have been removed by you earlier"))
    return "; ".join(said) + "."
