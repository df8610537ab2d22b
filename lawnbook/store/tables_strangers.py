"""Rows of a file whose ids a notebook does not know: which repeat what it holds, which to ask for.

A file that was saved from another notebook has the ids of that one: taken in as new, its rows
would stand twice.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import is_dataclass, replace
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.plan.workings import and_joined, counted
from lawnbook.reading import tr
from lawnbook.store.tables_build import record_of
from lawnbook.store.tables_columns import SETTLED
from lawnbook.store.tables_refs import AddressBook
from lawnbook.store.tables_result import Fault
from lawnbook.store.tables_rows import Draft, named_drafts
from lawnbook.store.tables_values import ROUNDED_DIGITS
from lawnbook.yard.fields import fields_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import whole
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import TABLES, TITLES, Record

Key = tuple[str, str]

_FEWEST = 2
"""One unknown id may be a slip; so many, and none known, speak for another notebook."""
_SHOWN = 40


@dataclass(frozen=True, slots=True)
class Strangers:
    """What the rows without a record of their id are.

    `repeats` leads from a row's table and id to the held record that says the same. `unknown` are
    the others whose id is doubtful; `foreign` are the tables that are of another notebook, and
    `sentence` says so. `questions` ask about the single rows of the other tables.
    """

    repeats: Mapping[Key, str]
    unknown: frozenset[Key]
    foreign: frozenset[str]
    sentence: str
    questions: tuple[Fault, ...]


def strangers_in(drafts: Sequence[Draft], notebook: Notebook) -> Strangers:
    """Sort the rows whose ids the notebook does not know; the drafts are left as they are.

    A table that the notebook has nothing in cannot double anything, so it is not judged by itself.
    """
    repeats = _repeats(drafts, notebook)
    strange = [each for each in drafts if is_stranger(each)]
    whole = _is_foreign(drafts, notebook)
    foreign = frozenset(TABLES) if whole else _foreign_tables(drafts, notebook)
    unknown = [
        each
        for each in strange
        if key_of_row(each) not in repeats and (each.table in foreign or notebook.table(each.table))
    ]
    return Strangers(
        repeats,
        frozenset(map(key_of_row, unknown)),
        foreign,
        _whole_told(drafts, repeats) if whole else _tables_told(drafts, foreign),
        tuple(_question(each) for each in unknown if each.table not in foreign and not each.faults),
    )


def is_stranger(draft: Draft) -> bool:
    """Whether a row has an id that the notebook does not know."""
    return draft.had_id and draft.held is None and draft.table not in SETTLED


def key_of_row(draft: Draft) -> Key:
    """The table and id of a row."""
    return draft.table, draft.record_id


def _repeats(drafts: Sequence[Draft], notebook: Notebook) -> dict[Key, str]:
    """The rows that equal a held record that is not in the file, each record once.

    Rows come in the order of the tables, each after what it refers to, so that a row that leads to
    a repeat leads to the held record.
    """
    found: dict[Key, str] = {}
    fresh = [each for each in drafts if each.held is None and each.table not in SETTLED]
    if not fresh:
        return found
    book = AddressBook(notebook, named_drafts([d for d in drafts if d.held is not None]), found)
    in_file = {key_of_row(each) for each in drafts}
    there: dict[str, dict[Any, list[str]]] = {}
    for draft in fresh:
        if draft.faults:
            continue
        if draft.table not in there:
            there[draft.table] = _by_what_is_shown(notebook, draft.table, in_file)
        ids = there[draft.table].get(_told_by(draft, book, notebook))
        if ids:
            found[key_of_row(draft)] = ids.pop(0)
    return found


def _by_what_is_shown(
    notebook: Notebook, table: str, in_file: Collection[Key]
) -> dict[Any, list[str]]:
    found: dict[Any, list[str]] = {}
    for record_id, record in notebook.table(table).items():
        if (table, record_id) not in in_file:
            found.setdefault(_shown(record), []).append(record_id)
    return found


def _told_by(draft: Draft, book: AddressBook, notebook: Notebook) -> Any:
    """What a row would say as a record; None where it would be none."""
    held = None
    if any(info.type is Picture for info in fields_of(TABLES[draft.table])):
        # The bytes are in no table: they are those of the held picture with the same digest.
        digest = draft.values.get(("sha256", ""))
        rows = notebook.table(draft.table).values()
        held = next((each for each in rows if getattr(each, "sha256", "") == digest), None)
    record = record_of(replace(draft, held=held, faults=[]), book)
    return None if record is None else _shown(record)


def _shown(record: Record) -> tuple[Any, ...]:
    """What a record says, whatever its id and place."""
    bare = replace(record, id="", rank=0)
    infos = [each for each in fields_of(type(record)) if each.type is not Picture]
    return tuple(_rounded(getattr(bare, info.name)) for info in infos)


def _rounded(value: Any) -> Any:
    """A value with its figures to the digits that a spreadsheet keeps, made to be looked up."""
    if isinstance(value, float):
        return float(f"{value:.{ROUNDED_DIGITS}g}")
    if isinstance(value, Mapping):
        return tuple((key, _rounded(each)) for key, each in value.items())
    if isinstance(value, tuple):
        return tuple(map(_rounded, value))
    if is_dataclass(value) and not isinstance(value, type):
        return tuple(_rounded(getattr(value, info.name)) for info in fields_of(type(value)))
    return value


def _is_foreign(drafts: Iterable[Draft], notebook: Notebook) -> bool:
    """Whether most ids are unknown, among the tables that the notebook has anything in."""
    judged = [each for each in drafts if _has_id(each) and notebook.table(each.table)]
    strange = sum(map(is_stranger, judged))
    return strange >= _FEWEST and 2 * strange > len(judged)


def _foreign_tables(drafts: Iterable[Draft], notebook: Notebook) -> frozenset[str]:
    """The tables of the file of whose ids none is known."""
    ids = Counter((each.table, is_stranger(each)) for each in drafts if _has_id(each))
    return frozenset(
        table
        for table, strange in ids
        if strange
        and ids[(table, True)] >= _FEWEST
        and not ids[(table, False)]
        and notebook.table(table)
    )


def _has_id(draft: Draft) -> bool:
    return draft.had_id and draft.table not in SETTLED


def _whole_told(drafts: Iterable[Draft], repeats: Mapping[Key, str]) -> str:
    ids = [each for each in drafts if _has_id(each)]
    strange = [each for each in ids if is_stranger(each)]
    none = tr("none of its {whole} ids is known here", whole=whole(len(ids)))
    some = tr(
        "{unknown} of its {all_ids} ids are not known here",
        unknown=whole(len(strange)),
        all_ids=whole(len(ids)),
    )
    told = tr(
        "This file is of another notebook: {part}.", part=none if len(strange) == len(ids) else some
    )
    alike = sum(key_of_row(each) in repeats for each in strange)
    if not alike:
        return told
    end = (
        tr("says what is here already and is")
        if alike == 1
        else tr("say what is here already and are")
    )
    return tr("{told} {rows} {end} left out.", told=told, rows=counted(alike, "row"), end=end)


def _tables_told(drafts: Iterable[Draft], foreign: Collection[str]) -> str:
    if not foreign:
        return ""
    count = sum(each.table in foreign and is_stranger(each) for each in drafts)
    titles = and_joined([tr(TITLES[each]) for each in TABLES if each in foreign])
    told = tr(
        "Part of this file is of another notebook, or was removed from this one: {titles}",
        titles=titles,
    )
    return tr("{told}. None of the {whole} ids there is known here.", told=told, whole=whole(count))


def _question(draft: Draft) -> Fault:
    told = tr(
        'no record has the id "{record_id}"; if the row is new, clear the id.',
        record_id=draft.record_id[:_SHOWN],
    )
    return Fault(draft.title, draft.where, draft.line, "Id", told[:1].upper() + told[1:])
