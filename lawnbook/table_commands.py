"""The commands for spreadsheets: every table written out, and tables taken in."""

import argparse
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from lawnbook.command_parts import (
    Command,
    add_notebook,
    add_output,
    read_notebook,
    refuse_missing_notebook,
)
from lawnbook.plan.workings import counted
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.files import (
    NOTEBOOK_SUFFIX,
    refuse_same_file,
    refuse_wrong_suffix,
)
from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_match import table_named
from lawnbook.store.tables_out import write_tables
from lawnbook.store.tables_result import Difference, TablesRead, taken_in_label
from lawnbook.terminal import say, tell
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TITLES

_TABLE_HELP = tr("the table of a CSV file, such as zones or waterings")
_SHOWN = 60
"""Letters of a value that a list of differences shows."""


def _tables_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_output(parser, "FILE")
    parser.add_argument("--table", default="", metavar="NAME", help=_TABLE_HELP)


def _take_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=tr("an .xlsx, a .csv or a .zip"))
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        required=True,
        metavar="NOTEBOOK",
        help=tr("the notebook (.lawnbook) that is changed"),
    )
    parser.add_argument("--table", default="", metavar="NAME", help=_TABLE_HELP)
    parser.add_argument(
        "--dry-run", action="store_true", help=tr("list what would change, and change nothing")
    )
    parser.add_argument(
        "--keep-questioned",
        action="store_true",
        help=tr("take unusual values in as they are, and rows with unknown ids as new"),
    )


def _table(told: str, where: str) -> str:
    """The table of a name; OwnerError with those there are."""
    found = table_named(told)
    if told and not found:
        raise OwnerError(
            tr(
                '{where}: there is no "{told}"; choose from {titles}.',
                where=where,
                told=told,
                titles=", ".join(TITLES),
            )
        )
    return found


def _of_name(target: Path) -> str:
    """The table that a CSV file is named after; "" for another file."""
    return table_named(target.stem) if target.suffix.lower() == ".csv" else ""


def _tables(options: argparse.Namespace, today: date) -> int:
    target: Path = options.output
    refuse_same_file(options.notebook, target)
    # A .csv that is named like a table holds that one.
    table = _table(options.table, "--table") or _of_name(target)
    notebook = read_notebook(options.notebook, today)
    write_tables(notebook, target, table, today)
    say(tr("The tables are in {target}", target=target))
    return 0


def _take(options: argparse.Namespace, today: date) -> int:
    path: Path = options.output
    refuse_wrong_suffix(path, NOTEBOOK_SUFFIX, tr("A notebook"))
    refuse_missing_notebook(path)
    table = _table(options.table, "--table")
    notebook = read_notebook(path, today)
    keep: bool = options.keep_questioned
    read = read_tables(options.file, notebook, today, table, keep_unknown=keep)
    if read.foreign and not (read.held_back and not options.dry_run):
        tell(tr("note: {foreign}", foreign=read.foreign))
    for note in read.notes:
        tell(tr("note: {note}", note=note))
    if options.dry_run:
        _list(read)
    _refuse(read, options.file.name, keep_questioned=keep)
    if options.dry_run or not read.change:
        say(_in_short(read))
        return 0
    book = OpenNotebook.open(path, today)
    try:
        book.edit(read.change, taken_in_label(read))
        if book.trouble:
            raise OwnerError(book.trouble)
    finally:
        book.close()
    say(_in_short(read))
    return 0


def _refuse(read: TablesRead, name: str, *, keep_questioned: bool) -> None:
    """Raise OwnerError where anything is wrong, or doubtful and not to be kept all the same."""
    if read.foreign and read.held_back:
        new = (
            tr("1 row is not here; --keep-questioned takes it in as new")
            if read.held_back == 1
            else tr(
                "{count} rows are not here; --keep-questioned takes them in as new",
                count=whole(read.held_back),
            )
        )
        raise OwnerError(f"{name}: {read.foreign} {new}")
    for found, mend in (
        (read.faults, ""),
        (read.questions, tr("; --keep-questioned takes them in")),
    ):
        if found and not (found is read.questions and keep_questioned):
            rest = len(found) - 1
            more = tr(" (and {whole} more like it)", whole=whole(rest)) if rest else ""
            raise OwnerError(f"{name}: {found[0].told}{more}{mend}")


def _list(read: TablesRead) -> None:
    """What would change, a line for each field."""
    for each in read.differences:
        say(_line(each))
    for fault in read.faults[1:]:
        tell(tr("note: {told}", told=fault.told))


def _line(each: Difference) -> str:
    place = f"{each.title}, {each.where}, {each.row}, {each.heading}"
    after = _cut(each.after) or tr("empty")
    return (
        tr("{place}: new, {after}", place=place, after=after)
        if each.is_new
        else f"{place}: {_cut(each.before) or tr('empty')} → {after}"
    )


def _cut(text: str) -> str:
    told = " ".join(text.split())
    return told if len(told) <= _SHOWN else f"{told[: _SHOWN - 1]}…"


def _in_short(read: TablesRead) -> str:
    if not read.change:
        return tr("Nothing changes: {rows} as in the notebook.", rows=counted(read.same, "row"))
    told = (
        tr(
            "{title}: {added} added, {changed} changed",
            title=title,
            added=whole(added),
            changed=whole(changed),
        )
        for title, added, changed in (
            (each.title, each.added, each.changed) for each in read.tables
        )
        if added or changed
    )
    return "\n".join(told)


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "tables": Command(
            tr("Every table as a workbook (.xlsx), a zip of CSV files, or one as CSV."),
            _tables_arguments,
            _tables,
        ),
        "take-tables": Command(
            tr("Take the tables of such a file into a notebook."), _take_arguments, _take
        ),
    }
)
"""The commands, by their names."""
