"""What became of each record of a damaged notebook: told, or in no way to be noticed by SQLite."""

import sqlite3
from collections import Counter
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from lawnbook.store.salvage import salvage
from lawnbook.store.salvage_told import SalvageTold, told_lines
from lawnbook.store.sqlite_store import load
from lawnbook.yard.notebook import Change, Notebook, difference
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SINGLES, TABLES, Pictured, Record
from tests.flips.harm import Harm

Pair = tuple[str, str]


@dataclass(slots=True)
class Tally:
    """What was counted over all copies; `faults` are losses that nothing tells of."""

    opened: Counter[str] = field(default_factory=Counter)
    salvaged: Counter[str] = field(default_factory=Counter)
    records: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)


class Judge:
    """Damages copies of one notebook in a folder, and judges what is made of them."""

    def __init__(self, folder: Path, data: bytes, today: date) -> None:
        self._folder, self._data, self._today = folder, data, today
        self._whole = self._loaded(data)
        self.tally = Tally()

    def judge(self, harm: Harm, name: str) -> None:
        """Damage a copy, open it, salvage it, and count what became of its records."""
        path = self._folder / "harmed.lawnbook"
        data = harm.done_to(self._data)
        path.write_bytes(data)
        hidden = self._hidden(harm)
        try:
            opened = load(path)
            pictures_told = _unreadable_pictures(opened)
        except OwnerError:
            self.tally.opened["refused"] += 1
        else:
            change = difference(self._whole, opened)
            kind = "as it was" if not change else "changed unnoticeably"
            self.tally.opened[kind] += 1
            if pictures_told:
                self.tally.opened["a picture told as damaged"] += 1
            self._untold(change, hidden, f"{name} opened: ")
        assert path.read_bytes() == data, "opening must not write"
        target = self._folder / "salvaged.lawnbook"
        target.unlink(missing_ok=True)
        self._salvage(path, target, hidden, name)
        assert path.read_bytes() == data, "salvaging must not write"
        left = sorted(each.name for each in self._folder.iterdir())
        assert set(left) <= {"harmed.lawnbook", "salvaged.lawnbook", "whole.lawnbook"}, left

    def _salvage(self, path: Path, target: Path, hidden: Change, name: str) -> None:
        try:
            told = salvage(path, target, self._today)
        except OwnerError as problem:
            why = str(problem).partition(": ")[2][:60]
            self.tally.salvaged[f"refused as a whole: {why}"] += 1
            return
        change = difference(self._whole, load(target))
        self.tally.salvaged["whole" if not change else "in part"] += 1
        untold = _without_told(change, told)
        self._count(change, untold)
        self._untold(untold, hidden, f"{name} salvaged: ", told)

    def _count(self, change: Change, untold: Change) -> None:
        gone = sum(after is None for _, after in change.values())
        self.tally.records["gone, and told"] += gone - sum(a is None for _, a in untold.values())
        self.tally.records["kept"] += sum(len(self._whole.table(each)) for each in TABLES) - gone

    def _untold(
        self, change: Change, hidden: Change, name: str, told: SalvageTold | None = None
    ) -> None:
        """What nothing tells of must be just what SQLite finds in a file it calls sound."""
        for key, (_, after) in change.items():
            if key in hidden and hidden[key][1] == after:
                self.tally.records["changed or gone, and hidden from SQLite"] += 1
            else:
                self.tally.faults.append(f"{name}{key} {'gone' if after is None else 'changed'}")
                if told is not None:
                    self.tally.faults.extend(told_lines(told))

    def _hidden(self, harm: Harm) -> Change:
        """What the changes do that SQLite cannot notice: those of which each alone passes."""
        silent = tuple(flip for flip in harm.flips if self._passes(Harm("one", (flip,))))
        if not silent or harm.cut_at is not None:
            return {}
        both = Harm("hidden", silent)
        if not self._passes(both):
            return {}
        return difference(self._whole, self._loaded(both.done_to(self._data)))

    def _passes(self, harm: Harm) -> bool:
        """Whether SQLite calls the damaged file sound, and it can be read as a notebook."""
        path = self._folder / "whole.lawnbook"
        path.write_bytes(harm.done_to(self._data))
        try:
            with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as connection:
                sound = connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            load(path)
        except (sqlite3.Error, OwnerError, UnicodeDecodeError):
            return False
        return sound

    def _loaded(self, data: bytes) -> Notebook:
        path = self._folder / "whole.lawnbook"
        path.write_bytes(data)
        return load(path)


def _unreadable_pictures(notebook: Notebook) -> int:
    found = 0
    for record in (*notebook.photos.values(), *notebook.backdrops.values()):
        assert isinstance(record, Pictured)
        try:
            record.data_b64.data()
        except OwnerError:
            found += 1
    return found


def _without_told(change: Change, told: SalvageTold) -> Change:
    """What the tables' own words do not cover: as many records may be gone as are told missing."""
    left: dict[Pair, tuple[Record | None, Record | None]] = {}
    tables = {each.table: each for each in told.tables}
    for table, keys in _by_table(change).items():
        words = tables[table]
        room = 10**9 if words.may_lack or words.doubtful else words.missing + words.odd_ids
        values = 10**9 if words.doubtful else words.emptied + words.stand_ins
        for key in keys:
            before, after = change[key]
            if before is None and (words.odd_ids or words.doubtful or words.may_lack):
                # A damaged id: the same row is gone under its own one.
                continue
            if after is None and room > 0:
                room -= 1
            elif after is not None and before is not None and values > 0:
                values -= 1
            elif table in SINGLES and room > 0:
                # What is gone is the usual settings again.
                room -= 1
            else:
                left[key] = change[key]
    return left


def _by_table(change: Change) -> dict[str, list[Pair]]:
    found: dict[str, list[Pair]] = {}
    for key in _gone_first(change):
        found.setdefault(key[0], []).append(key)
    return found


def _gone_first(change: Change) -> Iterable[Pair]:
    return sorted(change, key=lambda key: change[key][1] is not None)
