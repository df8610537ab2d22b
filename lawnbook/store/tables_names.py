"""What records are called in a table: those a reference leads to, and any row in a list."""

from collections.abc import Mapping
from typing import Any

from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import MONTHS
from lawnbook.yard.records import SINGLES, Care, ClimateMonth, Core, Record

NAMED = frozenset({"zones", "spots", "products", "n_budgets"})
"""Tables whose records each have a name of their own."""


def name_in(table: str, record_id: str, notebook: Notebook) -> str:
    """What the record that a reference leads to is called; its id where it is not there."""
    record = notebook.find(table, record_id)
    return record_id if record is None else called(record, notebook)


def called(record: Record, notebook: Notebook) -> str:
    """What a record is called: by its name, or by day and place."""
    name = str(getattr(record, "name", ""))
    if isinstance(record, Core):
        spot = notebook.spots.get(record.spot)
        return f"{spot.name if spot else record.spot}, {record.date.isoformat()}"
    if isinstance(record, Care):
        return f"{record.kind}, {record.date.isoformat()}"
    if isinstance(record, ClimateMonth):
        return MONTHS[record.month - 1] if 1 <= record.month <= len(MONTHS) else str(record.month)
    if name or record.id in SINGLES:
        return name
    return _by_day(record, notebook) or record.id


def _by_day(record: Any, notebook: Notebook) -> str:
    on = getattr(record, "date", None)
    where = [
        name_in(table, held, notebook)
        for field, table in (("zone", "zones"), ("product", "products"), ("core", "cores"))
        if isinstance(held := getattr(record, field, None), str)
    ]
    return ", ".join([*where, *([on.isoformat()] if on is not None else [])])


def key_of(name: str) -> str:
    """A name as it is compared."""
    return name.strip().casefold()


def ids_by_name(table: str, rows: Mapping[str, Record], notebook: Notebook) -> dict[str, str]:
    """The ids of the records of a table by what they are called, where only one is called so."""
    found: dict[str, list[str]] = {}
    for record_id, record in rows.items():
        found.setdefault(key_of(called(record, notebook)), []).append(record_id)
    return {name: ids[0] for name, ids in found.items() if len(ids) == 1}
