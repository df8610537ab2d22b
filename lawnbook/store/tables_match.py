"""Which table a sheet is, and which column each of its headings names."""

import difflib
import re
from collections.abc import Mapping, Sequence
from functools import cache

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.tables_columns import Column, columns_of
from lawnbook.yard.records import TABLES, TITLES

_PART = re.compile(r"(.*), part ([0-9]+)")
_LEAST_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of a sheet: its words, its column where there is one, what is wrong, and a note."""

    words: str
    column: Column | None = None
    fault: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Matched:
    """A sheet's table and headings; `table` is "" where it cannot be told, `may_be` which."""

    table: str
    headings: tuple[Heading, ...] = ()
    may_be: tuple[str, ...] = ()


def matched(words: Sequence[str], name: str, wanted: str = "") -> Matched:
    """The table of a sheet by its name and headings; `wanted` is the one that the owner says."""
    scores = {table: _known(words, table) for table in TABLES}
    best = max(scores.values())
    likely = tuple(table for table, score in scores.items() if score == best)
    table = wanted or next((each for each in _named(name) if scores[each]), "")
    if not table and best and best >= _LEAST_SHARE * sum(bool(each.strip()) for each in words):
        table = likely[0] if len(likely) == 1 else ""
    if not table:
        return Matched("", may_be=likely if best and len(likely) < len(TABLES) else ())
    return Matched(table, tuple(_headings(words, table)))


def known_headings(words: Sequence[str]) -> int:
    """How many headings the table that fits best knows."""
    return max(_known(words, table) for table in TABLES)


def table_named(told: str) -> str:
    """The table of a key or title; "" where there is none."""
    return _BY_NAME.get(_plain(told), "")


def _named(name: str) -> list[str]:
    """The tables that a sheet's or file's name may mean, the longest name first."""
    plain = _plain(name)
    ends = [each for each in _BY_NAME if plain == each or plain.endswith(f" {each}")]
    return [_BY_NAME[each] for each in sorted(ends, key=len, reverse=True)]


def _known(words: Sequence[str], table: str) -> int:
    columns = {_column(each, table) for each in words}
    return len(columns - {None})


def _headings(words: Sequence[str], table: str) -> list[Heading]:
    found: list[Heading] = []
    seen: set[tuple[str, int]] = set()
    for each in words:
        told = each.strip()
        column = _column(told, table)
        key = (column.heading if column else "", _part(told))
        if column is not None and key in seen:
            fault = tr('the column "{told}" stands twice; keep one of them.', told=told)
            found.append(Heading(told, None, fault))
        elif column is not None:
            seen.add(key)
            found.append(Heading(told, column))
        else:
            found.append(_unknown(told, table))
    return found


def _unknown(told: str, table: str) -> Heading:
    if not told:
        return Heading(told)
    plain = _plain(told)
    starts = [each for each in columns_of(table) if plain.startswith(f"{_plain(each.label)} ")]
    other = max(starts, key=lambda each: len(each.label), default=None)
    if other is not None and other.info.rule.unit and other.heading != other.label:
        mend = tr('name it "{heading}" once its figures are in that unit', heading=other.heading)
        return Heading(
            told, None, tr('the column "{told}" has another unit; {mend}.', told=told, mend=mend)
        )
    labels = {each.label.casefold(): each.heading for each in columns_of(table)}
    near = difflib.get_close_matches(told.casefold(), labels, n=1, cutoff=0.7)
    hint = tr('; did you mean "{labels}"?', labels=labels[near[0]]) if near else "."
    return Heading(
        told,
        note=tr(
            'the column "{told}" is none of this table and is passed over{hint}',
            told=told[:40],
            hint=hint,
        ),
    )


def _column(told: str, table: str) -> Column | None:
    part = _PART.fullmatch(told.strip())
    return _lookup(table).get(_plain(part[1] if part else told))


def _part(told: str) -> int:
    part = _PART.fullmatch(told)
    return int(part[2][:6]) if part else 1


@cache
def _lookup(table: str) -> Mapping[str, Column]:
    """The columns by heading, by label and by the name of the field, in plain letters."""
    known: dict[str, Column] = {}
    for spell in (_field_name, lambda each: each.label, lambda each: each.heading):
        known |= {_plain(spell(each)): each for each in columns_of(table)}
    return known


def _field_name(column: Column) -> str:
    name = f"{column.field} {column.inner}" if column.inner else column.field
    return f"{name} id" if column.role == "ids" else name


def _plain(words: str) -> str:
    """Words in small letters with nothing between them but single spaces."""
    return " ".join(re.sub(r"[^\w°%/²]+|_", " ", words.casefold()).split())


_BY_NAME: Mapping[str, str] = {
    **{_plain(tr(title)): table for table, title in TITLES.items()},
    **{_plain(name): name for name in TABLES},
    **{_plain(title): table for table, title in TITLES.items()},
}
"""The tables by key and title, and by the title that a file saved here has in its name."""
