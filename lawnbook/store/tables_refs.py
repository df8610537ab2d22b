"""What the references of a row mean: by name, by id, and by what was there before.

A name decides; the id decides where there is no name, or where several records are called alike.
"""

import difflib
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.tables_names import NAMED, ids_by_name, key_of
from lawnbook.yard.notebook import Notebook

_SHOWN, _MOST_NAMED = 40, 6


@dataclass(frozen=True, slots=True)
class Told:
    """What a row says of a reference: names and ids, None where it has no such column.

    `held` are the ids that the notebook's own record leads to, None where the row is new.
    """

    label: str
    table: str
    names: Sequence[str] | None
    ids: Sequence[str] | None
    held: Sequence[str] | None


class AddressBook:
    """The records of a notebook and of the file's new rows, by name and by id."""

    def __init__(
        self,
        notebook: Notebook,
        coming: Mapping[str, Mapping[str, str]],
        repeats: Mapping[tuple[str, str], str] = MappingProxyType({}),
    ) -> None:
        """`coming` holds the names of the file's rows by table and id.

        `repeats` leads from the table and id of a row to the record that it repeats.
        """
        self._notebook = notebook
        self._repeats = repeats
        self._coming = coming
        self._before: dict[str, dict[str, str]] = {}
        self._after: dict[str, dict[str, str]] = {}

    def ids(self, told: Told) -> tuple[str, ...]:
        """The ids that a row means, in its order. ValueError with the sentence."""
        ids = [self._repeats.get((told.table, each), each) for each in told.ids or ()]
        held = list(told.held) if told.held is not None else None
        names = list(told.names) if told.names is not None else [""] * len(ids)
        if not names and ids:
            if ids == held:
                # The names were emptied, and the ids beside them forgotten.
                return ()
            names = [""] * len(ids)
        if len(ids) != len(names):
            ids = [""] * len(names)
        before = held if held is not None and len(held) == len(names) else [""] * len(names)
        return tuple(
            self._one(told, name, record_id, was)
            for name, record_id, was in zip(names, ids, before, strict=True)
        )

    def _one(self, told: Told, name: str, record_id: str, was: str) -> str:
        called = self._called(told.table, name)
        known = record_id in self._notebook.table(told.table) or record_id in self._coming.get(
            told.table, {}
        )
        if not name.strip() or (record_id and record_id in called):
            return self._by_id(told, record_id, known)
        if told.table not in NAMED and known and (not called or record_id != was):
            # Plugs and care are called by their day, which several may share and which may change.
            return record_id
        if record_id and known and was and record_id != was and was in called:
            return record_id
        if called and (not record_id or not known or record_id == was):
            return called[0]
        if called:
            told_both = tr(
                '{label} is "{name}", and the id beside it leads elsewhere',
                label=told.label,
                name=name[:_SHOWN],
            )
            raise ValueError(tr("{told_both}; empty one of the two cells.", told_both=told_both))
        raise ValueError(self._none_called(told, name))

    def _by_id(self, told: Told, record_id: str, known: bool) -> str:
        if known:
            return record_id
        sentence = tr(
            '{label}: there is no "{record_id}" in the notebook',
            label=told.label,
            record_id=record_id[:_SHOWN],
        )
        raise ValueError(
            tr("{sentence}; write its name, and leave the id empty.", sentence=sentence)
        )

    def _called(self, table: str, name: str) -> tuple[str, ...]:
        """The ids of what is called so: after the file is taken in, then as it is now."""
        if table not in self._before:
            rows = self._notebook.table(table)
            self._before[table] = ids_by_name(table, rows, self._notebook)
            coming = self._coming.get(table, {})
            self._after[table] = {key_of(told): record_id for record_id, told in coming.items()}
        key = key_of(name)
        found = (self._after[table].get(key), self._before[table].get(key))
        return tuple(dict.fromkeys(each for each in found if each))

    def _none_called(self, told: Told, name: str) -> str:
        rows = self._notebook.table(told.table)
        names = [str(getattr(each, "name", "")) for each in rows.values()]
        names += self._coming.get(told.table, {}).values()
        names = [each for each in dict.fromkeys(names) if each]
        near = difflib.get_close_matches(name, names, n=1)
        few = ", ".join(names[:_MOST_NAMED]) + (
            tr(" or another") if len(names) > _MOST_NAMED else ""
        )
        mend = tr("write {names}", names=near[0] if near else few) if names else tr("add it first")
        return tr(
            '{label}: there is no "{name}" in the notebook; {mend}.',
            label=told.label,
            name=name[:_SHOWN],
            mend=mend,
        )
