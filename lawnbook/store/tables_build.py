"""A draft of a row as the record that it describes: references found, what is left out kept."""

from dataclasses import is_dataclass, replace
from types import MappingProxyType
from typing import Any

from lawnbook.reading import tr
from lawnbook.store.tables_columns import Column, columns_of
from lawnbook.store.tables_refs import AddressBook, Told
from lawnbook.store.tables_rows import Draft
from lawnbook.store.tables_values import is_same
from lawnbook.yard.fields import FieldInfo, fields_of, is_number_by_zone, without_none
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import TABLES, Record

_NO_PICTURE = tr("a picture cannot be added by a table; add it in the notebook.")
_FIXED = tr("this tells a picture's bytes and cannot be changed here; leave it as it was.")


def record_of(draft: Draft, book: AddressBook) -> Record | None:
    """The record of a draft; None, with the faults noted in the draft, where there is none."""
    kind = TABLES[draft.table]
    values: dict[str, Any] = {}
    for info in fields_of(kind):
        if info.name in draft.unread:
            continue
        try:
            _fill(values, info, draft, book)
        except ValueError as wrong:
            draft.fault(_heading(draft.table, info.name), str(wrong))
    if draft.faults:
        return None
    if draft.held is not None:
        return replace(draft.held, **values)
    return kind(id=draft.record_id, **values)


def _fill(values: dict[str, Any], info: FieldInfo, draft: Draft, book: AddressBook) -> None:
    """Put a field's value among the values, where the row tells one."""
    held = None if draft.held is None else getattr(draft.held, info.name)
    if info.type is Picture:
        if draft.held is None:
            raise ValueError(_NO_PICTURE)
        return
    nested = without_none(info.type)
    if is_dataclass(nested) and isinstance(nested, type):
        _fill_nested(values, info, nested, draft)
    elif info.rule.refers_to:
        _fill_reference(values, info, draft, book)
    elif (info.name, "") in draft.values:
        found = draft.values[(info.name, "")]
        if found is None:
            found = _emptied(info)
        if info.rule.kind == "sha256" and draft.held is not None and found != held:
            raise ValueError(_FIXED)
        values[info.name] = held if is_same(held, found) else found
    elif info.required and draft.held is None:
        raise ValueError(_missing(info))


def _emptied(info: FieldInfo) -> Any:
    """What an empty cell says; ValueError where the field must say something."""
    if info.required and info.type is not str and without_none(info.type) is info.type:
        if getattr(info.type, "__origin__", None) is tuple and info.rule.count is None:
            return ()
        raise ValueError(_missing(info))
    return "" if info.required and info.type is str else info.default


def _fill_nested(values: dict[str, Any], info: FieldInfo, nested: type, draft: Draft) -> None:
    """A record within the record: none of it where all its cells are empty."""
    told = {inner: each for (name, inner), each in draft.values.items() if name == info.name}
    if not told:
        return
    held = None if draft.held is None else getattr(draft.held, info.name)
    inners = fields_of(nested)
    if all(each in (None, "") for each in told.values()) and len(told) == len(inners):
        values[info.name] = None
        return
    if held is None and all(each in (None, "") for each in told.values()):
        return
    parts: dict[str, Any] = {}
    for each in inners:
        was = None if held is None else getattr(held, each.name)
        if each.name in told:
            found = told[each.name]
            found = _emptied(each) if found is None else found
            parts[each.name] = was if held is not None and is_same(was, found) else found
        elif held is not None:
            parts[each.name] = was
        elif each.required:
            raise ValueError(_missing(each))
    values[info.name] = nested(**parts)


def _fill_reference(
    values: dict[str, Any], info: FieldInfo, draft: Draft, book: AddressBook
) -> None:
    names, ids = draft.names.get(info.name), draft.ids.get(info.name)
    by_zone = is_number_by_zone(info.type)
    if names is None and (ids is None or by_zone):
        if info.required and draft.held is None:
            raise ValueError(_missing(info))
        return
    label = info.rule.label
    found = book.ids(Told(label, info.rule.refers_to, names, ids, _held_ids(draft, info)))
    if by_zone:
        values[info.name] = _by_zone(info, draft, found)
    elif without_none(info.type) is str:
        if not found and info.required:
            raise ValueError(_missing(info))
        values[info.name] = found[0] if found else info.default
    else:
        values[info.name] = found


def _by_zone(info: FieldInfo, draft: Draft, found: tuple[str, ...]) -> Any:
    figures = draft.figures.get(info.name, ())
    if len(set(found)) < len(found):
        raise ValueError(
            tr("{label}: a zone stands twice; add the figures together.", label=info.rule.label)
        )
    if len(figures) < len(found) or (info.required and not found):
        raise ValueError(_missing(info))
    held = None if draft.held is None else getattr(draft.held, info.name)
    pairs = dict(zip(found, figures, strict=False))
    if held is not None:
        pairs = {
            zone: held[zone] if zone in held and is_same(held[zone], each) else each
            for zone, each in pairs.items()
        }
    return MappingProxyType(pairs)


def _held_ids(draft: Draft, info: FieldInfo) -> tuple[str, ...] | None:
    if draft.held is None:
        return None
    held = getattr(draft.held, info.name)
    if held is None:
        return ()
    return (held,) if isinstance(held, str) else tuple(held)


def _missing(info: FieldInfo) -> str:
    return tr("{label} is missing; enter it.", label=info.rule.label)


def _heading(table: str, field: str) -> str:
    return next((each.heading for each in columns_of(table) if each.field == field), "")


def column_of(table: str, field: str) -> Column | None:
    """The first column of a field; None where it has none."""
    return next((each for each in columns_of(table) if each.field == field), None)
