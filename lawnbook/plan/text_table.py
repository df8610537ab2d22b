"""Plain tables and paragraphs for a terminal, never wider than asked."""

import textwrap
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from typing import TypeVar

from lawnbook.frozen import dataclass
from lawnbook.plan.workings import told
from lawnbook.reading import reading, tr
from lawnbook.yard.amounts import bare
from lawnbook.yard.numbers import day

WIDTH = 100
"""Columns of the terminal that a plan is told for."""

NONE = "–"
GAP = "  "
ELLIPSIS = "…"
LEAST_WIDTH = 6

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Column:
    """A heading, its cells, and whether they stand flush left (words) or right (figures)."""

    heading: str
    cells: Sequence[str]
    words: bool = False

    @property
    def width(self) -> int:
        """The widest of heading and cells."""
        return max(map(len, (self.heading, *self.cells)))


def column(
    heading: str, rows: Sequence[T], cell: Callable[[T], str], *, words: bool = False
) -> Column:
    """The column of a heading over one cell a row."""
    return Column(heading, [cell(row) for row in rows], words)


def number(value: float | None, places: int, unit: str = "") -> str:
    """A figure as a cell, of the unit that is read; a dash where there is none."""
    return NONE if value is None else bare(value, places, unit)


def share(value: float | None) -> str:
    """A share of 1 as a cell, in percent."""
    return NONE if value is None else told(100 * value, 0, "%")


def table(columns: Sequence[Column], width: int) -> Iterator[str]:
    """The lines of a table at most `width` wide; columns of words give way, with an ellipsis."""
    widths = _fitted(columns, width)
    for row in zip(*([each.heading, *each.cells] for each in columns), strict=True):
        cells = (
            _cell(text, column, size)
            for text, column, size in zip(row, columns, widths, strict=True)
        )
        line = GAP.join(cells).rstrip()
        yield line if len(line) <= width else line[: width - 1] + ELLIPSIS


def paragraph(text: str, width: int, indent: str = "") -> list[str]:
    """The text wrapped to `width`; lines after the first stand under it."""
    return textwrap.wrap(
        text,
        width,
        initial_indent=indent,
        subsequent_indent=" " * len(indent),
        break_on_hyphens=False,
    ) or [indent.rstrip()]


def listed(sentences: Iterable[str]) -> Iterator[str]:
    """Sentences as a list, each behind a dash."""
    for sentence in sentences:
        yield from paragraph(sentence, WIDTH, "- ")


def day_head(on: date) -> str:
    """A day before what is said of it, in a column of its own: " 1 Oct 2026  "."""
    return f"{day(on):>{12 if reading().month_first else 11}}  "


def joined(lines: Iterable[str]) -> str:
    """The whole text of some lines, ending in a line break."""
    return "\n".join(lines) + "\n"


def told_once(told: Iterable[tuple[str, str]], zones: int) -> Iterator[str]:
    """Sentences about zones as (name, sentence), each once, before it the zones that share it."""
    names_of: dict[str, list[str]] = {}
    for name, sentence in told:
        names_of.setdefault(sentence, []).append(name)
    for sentence, names in names_of.items():
        who = tr("All zones") if len(names) == zones > 1 else ", ".join(names)
        yield from paragraph(f"{who}: {sentence}", WIDTH, "- ")


def section(heading: str, lines: Iterable[str]) -> list[str]:
    """A heading over its lines, a blank line before; nothing where there are no lines."""
    body = list(lines)
    return ["", heading, *body] if body else []


def _fitted(columns: Sequence[Column], width: int) -> list[int]:
    widths = [each.width for each in columns]
    spare = width - sum(widths) - len(GAP) * (len(columns) - 1)
    while spare < 0:
        shrinkable = [i for i, each in enumerate(columns) if each.words and widths[i] > LEAST_WIDTH]
        if not shrinkable:
            break
        widest = max(shrinkable, key=lambda i: widths[i])
        widths[widest] -= 1
        spare += 1
    return widths


def _cell(text: str, column: Column, size: int) -> str:
    cut = text if len(text) <= size else text[: size - 1] + ELLIPSIS
    return cut.ljust(size) if column.words else cut.rjust(size)
