"""Lists, outlines and figures by zone as the text of one cell, both ways without loss.

Entries stand apart by ``;``, the parts of an entry by spaces, the outlines of holes by ``|``, and
a zone's name before its figure by ``:``. Words that hold one of these signs stand in double
quotation marks, with a quotation mark inside written twice. Such as ``0 0; 40 0; 40 25.5`` and
``Front lawn: 3.2; Back lawn: 4``.

What cannot be read raises ValueError with the whole sentence.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import is_dataclass
from typing import Any, get_args, get_origin

from lawnbook.plan.workings import counted
from lawnbook.reading import tr
from lawnbook.yard.codec import plain_value
from lawnbook.yard.fields import fields_of

Read = Callable[[Any, str], Any]
"""Reads one part by its type."""

_SIGNS = ';|"'
_SHOWN = 40


def joined(value: Any) -> str:
    """A list, a point, an outline or several outlines as text."""
    if not isinstance(value, tuple):
        return " ".join(_part(each) for each in _parts(value))
    if value and all(isinstance(each, tuple) for each in value):
        if all(isinstance(inner, tuple) for each in value for inner in each):
            return " | ".join(joined(each) for each in value)
        return "; ".join(" ".join(map(_part, each)) for each in value)
    if value and all(is_dataclass(each) for each in value):
        return "; ".join(joined(each) for each in value)
    return "; ".join(_entry(each, _SIGNS) for each in value)


def point_joined(point: Sequence[Any]) -> str:
    """One entry of several parts, such as a place: x y."""
    return " ".join(map(_part, point))


def by_name_joined(pairs: Mapping[str, float]) -> str:
    """Figures by name."""
    return "; ".join(f"{_entry(name, f'{_SIGNS}:')}: {_told(n)}" for name, n in pairs.items())


def names_joined(names: Sequence[str]) -> str:
    """Names in their order."""
    return "; ".join(_entry(name, _SIGNS) for name in names)


def names_split(text: str) -> tuple[str, ...]:
    """The names of a cell in their order."""
    return tuple(_bare(each) for each in _split(text, ";") if each.strip())


def by_name_split(text: str, label: str, read: Read) -> tuple[tuple[str, Any], ...]:
    """The names and figures of a cell in their order."""
    pairs = []
    for entry in _split(text, ";"):
        if not entry.strip():
            continue
        name, *rest = _split(entry, ":")
        if len(rest) != 1 or not rest[0].strip():
            told = tr(
                '{label}: "{entry}" has no zone and figure',
                label=label,
                entry=entry.strip()[:_SHOWN],
            )
            raise ValueError(tr("{told}; write it as Front lawn: 3.2; Back lawn: 4.", told=told))
        pairs.append((_bare(name), read(float, rest[0].strip())))
    return tuple(pairs)


def split(kind: Any, text: str, label: str, read: Read) -> Any:
    """The value of a list's, point's or outline's type; `read` reads each single part."""
    parts = get_args(kind)
    if parts[-1] is not Ellipsis:
        if get_origin(parts[0]) is not tuple:
            return _item(kind, text, label, read)
        items = _items(text)
        if len(items) != len(parts):
            raise ValueError(
                tr(
                    "{label} has {entries}; write {count}.",
                    label=label,
                    entries=counted(len(items), "entry", "entries"),
                    count=len(parts),
                )
            )
        pairs = zip(parts, items, strict=True)
        return tuple(_item(part, each, label, read) for part, each in pairs)
    inner = parts[0]
    if get_origin(inner) is tuple and get_args(inner)[-1] is Ellipsis:
        groups = [each for each in _split(text, "|") if each.strip()]
        return tuple(split(inner, each, label, read) for each in groups)
    if get_origin(inner) is tuple or is_dataclass(inner):
        return tuple(_item(inner, each, label, read) for each in _items(text))
    return tuple(read(inner, _bare(each)) for each in _items(text))


def is_listed(kind: Any) -> bool:
    """Whether a value of the type is written in this form."""
    return get_origin(kind) is tuple


def number_parts(text: str) -> tuple[str, ...]:
    """The figures of a cell as they are written, for how the whole column writes them."""
    bare = "".join(text.split('"')[::2])
    for sign in ";|:":
        bare = bare.replace(sign, " ")
    return tuple(each for each in bare.split() if any(map(str.isdigit, each)))


def _items(text: str) -> list[str]:
    return [each for each in _split(text, ";") if each.strip()]


def _item(kind: Any, text: str, label: str, read: Read) -> Any:
    """One entry of several parts: a point, a mark, an ingredient, a span of days."""
    told = [_bare(each) for each in _split(text.strip(), " \t\n") if each]
    is_record = is_dataclass(kind) and isinstance(kind, type)
    infos = fields_of(kind) if is_record else ()
    kinds = [each.type for each in infos] or list(get_args(kind))
    if len(told) != len(kinds):
        entry = tr(
            '{label}: "{entry}" has {parts}',
            label=label,
            entry=text.strip()[:_SHOWN],
            parts=counted(len(told), "part"),
        )
        mend = tr("write {count} with spaces between them", count=len(kinds))
        raise ValueError(
            tr("{entry}; {mend}, words of several in quotation marks.", entry=entry, mend=mend)
        )
    values = [read(each, part) for each, part in zip(kinds, told, strict=True)]
    if is_record:
        return kind(**{info.name: each for info, each in zip(infos, values, strict=True)})
    return tuple(values)


def _parts(value: Any) -> list[Any]:
    return [getattr(value, info.name) for info in fields_of(type(value))]


def _part(value: Any) -> str:
    """One part of an entry; words with a space in them are quoted."""
    told = _told(value)
    if isinstance(value, str) and (not told or any(map(str.isspace, told))):
        return _quoted(told)
    return _entry(value, _SIGNS)


def _entry(value: Any, signs: str) -> str:
    told = _told(value)
    if not isinstance(value, str):
        return told
    plain = told and told == told.strip() and not any(sign in told for sign in signs)
    return told if plain else _quoted(told)


def _told(value: Any) -> str:
    return value if isinstance(value, str) else repr(plain_value(value))


def _quoted(text: str) -> str:
    return '"' + text.replace('"', '""') + '"'


def _split(text: str, signs: str) -> list[str]:
    """A text in pieces at any of the signs that stand outside quotation marks."""
    pieces, start, inside = [], 0, False
    for place, letter in enumerate(text):
        if letter == '"':
            inside = not inside
        elif letter in signs and not inside:
            pieces.append(text[start:place])
            start = place + 1
    return [*pieces, text[start:]]


def _bare(piece: str) -> str:
    """A piece without the quotation marks round it."""
    told = piece.strip()
    if '"' not in told:
        return told
    inner = told[1:-1]
    if len(told) < 2 or told[0] != '"' or told[-1] != '"' or '"' in inner.replace('""', ""):
        shown = told[:_SHOWN]
        raise ValueError(
            tr("A quotation mark stands alone in {shown}; close it, or take it out.", shown=shown)
        )
    return inner.replace('""', '"')
