"""What the commands share: their arguments, and how a file, a day and a record are read of them.

Bad input is an OwnerError that names the file or option, and the mend.
"""

import argparse
import json
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Any, Protocol

from lawnbook.frozen import dataclass
from lawnbook.reading import read_in, tr
from lawnbook.store.checked import load_notebook
from lawnbook.store.files import (
    YARD_SUFFIX,
    refuse_missing_folder,
    refuse_other_file,
    refuse_same_file,
    refuse_wrong_suffix,
)
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.terminal import tell
from lawnbook.yard.codec import value_from_plain
from lawnbook.yard.limits import EARLIEST, LATEST
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day as in_words
from lawnbook.yard.problems import OwnerError, Problem, in_one_line

NO_NUMBERS: Mapping[str, str] = MappingProxyType({})


class Named(Protocol):
    """A record with a name of the owner's."""

    @property
    def id(self) -> str:
        """Its id."""

    @property
    def name(self) -> str:
        """What the owner calls it."""


@dataclass(frozen=True, slots=True)
class Command:
    """A command without a window: what it is for, its arguments, and what it does."""

    help: str
    add_arguments: Callable[[argparse.ArgumentParser], None]
    run: Callable[[argparse.Namespace, date], int]


def in_short(path: Path, questions: Sequence[Problem]) -> str:
    """The first of a file's questions in one line, and how many more there are."""
    more = tr(" (and {count} more like it)", count=len(questions) - 1) if len(questions) > 1 else ""
    return f"{path.name}: {in_one_line(questions[0])}{more}"


def add_notebook(parser: argparse.ArgumentParser) -> None:
    """The NOTEBOOK of a command."""
    parser.add_argument(
        "notebook", type=Path, metavar="NOTEBOOK", help=tr("a notebook (.lawnbook) or yard file")
    )


def add_output(parser: argparse.ArgumentParser, what: str) -> None:
    """The file that a command writes."""
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar=what, help=tr("the file to write")
    )


def add_day(parser: argparse.ArgumentParser) -> None:
    """The day that a command plans for."""
    parser.add_argument("--on", metavar="DATE", help=tr("the day to plan for, such as 2026-06-15"))


def page_arguments(parser: argparse.ArgumentParser) -> None:
    """The arguments of every command that writes a page: notebook, file, paper."""
    add_notebook(parser)
    add_output(parser, "PDF")
    parser.add_argument(
        "--paper", choices=("letter", "a4"), default="letter", help=tr("the paper's size")
    )


def add_json(parser: argparse.ArgumentParser) -> None:
    """Whether a command answers in JSON."""
    parser.add_argument("--json", action="store_true", help=tr("as JSON instead of a table"))


def as_json(plain: Mapping[str, Any]) -> str:
    """An answer as the JSON of a command: a line for each entry, and for each of a list of records.

    With an indent the library would write every figure of a plan by Python instead of C.
    """
    entries = (f"  {json.dumps(name)}: {_entry(held)}" for name, held in plain.items())
    return "{\n" + ",\n".join(entries) + "\n}"


def _entry(held: object) -> str:
    if not (isinstance(held, list) and held and isinstance(held[0], dict)):
        return json.dumps(held, allow_nan=False)
    records = (f"    {json.dumps(each, allow_nan=False)}" for each in held)
    return "[\n" + ",\n".join(records) + "\n  ]"


def pdf_target(options: argparse.Namespace, what: str) -> Path:
    """The file to write, once nothing speaks against it."""
    target: Path = options.output
    refuse_wrong_suffix(target, ".pdf", what)
    refuse_missing_folder(target)
    refuse_same_file(options.notebook, target)
    refuse_other_file(target, b"%PDF-", tr("a PDF"))
    return target


def refuse_missing_notebook(path: Path) -> None:
    """Raise OwnerError where there is no notebook yet that something could be taken into."""
    if not path.exists():
        raise OwnerError(
            tr(
                "{name}: there is no such file in {parent}, and this adds to a notebook that is "
                "there; begin one in the window, or by lawnbook import.",
                name=path.name,
                parent=path.absolute().parent,
            )
        )


def read_notebook(path: Path, today: date) -> Notebook:
    """The notebook of a file, with a note on stderr where a yard file's values look like slips.

    From now on amounts are told in the units that the notebook is read in.
    """
    if path.suffix.lower() not in (YARD_SUFFIX, HANDOVER_SUFFIX):
        notebook = load_notebook(path, today).notebook
        read_in(notebook.yard.units)
        return notebook
    from lawnbook.store.yardfile import load_checked

    checked = load_checked(path, today)
    read_in(checked.notebook.yard.units)
    if checked.questions and path.suffix.lower() == YARD_SUFFIX:
        tell(tr("note: {question}", question=in_short(path, checked.questions)))
    return checked.notebook


def day_of(told: str | None, today: date, option: str = "--on") -> date:
    """The day that an option tells, today where it is left out. OwnerError for no such day."""
    if told is None:
        return today
    try:
        day: date = value_from_plain(date, told, tr("The day"))
    except ValueError as error:
        raise OwnerError(f"{option}: {error}") from error
    if not EARLIEST <= day <= LATEST:
        span = tr("between {first} and {last}", first=EARLIEST.year, last=LATEST.year)
        raise OwnerError(
            tr(
                "{option}: {day} is too far away; enter a day {span}.",
                option=option,
                day=in_words(day),
                span=span,
            )
        )
    return day


def id_of(
    rows: Mapping[str, Named], told: str, where: str, numbers: Mapping[str, str] = NO_NUMBERS
) -> str:
    """A record's id by id, name or number. OwnerError with the names there are."""
    by_name = {row.name.strip().casefold(): row.id for row in rows.values()}
    known = {**numbers, **by_name, **{row_id: row_id for row_id in rows}}
    found = known.get(told, known.get(told.strip().casefold()))
    if found is not None:
        return found
    names = ", ".join(row.name for row in rows.values())
    mend = (
        tr("choose from {names}.", names=names)
        if names
        else tr("the notebook has none yet; add one first.")
    )
    raise OwnerError(tr('{where}: there is no "{told}"; {mend}', where=where, told=told, mend=mend))
