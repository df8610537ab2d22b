"""The command line: the window, and the same plan, sheet and check without one.

Bad input is one line on stderr that names the file, the field and the mend, and exit status 2;
nothing is written then. Questions that a yard file's values raise are a note on stderr, but stop
an import; what a notebook holds was kept by its owner already.
"""

import argparse
import atexit
import gc
import importlib
import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NoReturn

from lawnbook import __version__
from lawnbook.reading import ENGLISH, read_as, reading, tr
from lawnbook.signs import read_with, signs_of
from lawnbook.store.files import NOTEBOOK_SUFFIX, YARD_SUFFIX, unreadable
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.terminal import report_bug, tell
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.command_parts import Command

BAD_INPUT, INTERRUPTED = 2, 130
_SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
_SUFFIXES = (NOTEBOOK_SUFFIX, YARD_SUFFIX, HANDOVER_SUFFIX)
SELDOM = 50_000
"""So many more objects than before make Python look for unused rings of them, which we make few of.

Its own 700 have it look dozens of times while our modules are loaded: a tenth of a start.
"""
NEARLY = 0.7
"""How alike a word must be to a command to be taken for a slip of it, of 1."""

COMMANDS: Mapping[str, str] = MappingProxyType(
    {
        "plan": "plan_commands",
        "sheet": "page_commands",
        "plug-form": "page_commands",
        "then-now": "page_commands",
        "spread-check": "spread_commands",
        "import": "yard_commands",
        "export": "yard_commands",
        "outlines": "outline_commands",
        "take-outlines": "outline_commands",
        "calendar": "season_commands",
        "year-review": "review_commands",
        "tables": "table_commands",
        "take-tables": "table_commands",
        "handover": "handover_commands",
        "backups": "keeping_commands",
        "salvage": "keeping_commands",
    }
)
"""Every command, and the module that it lives in: only the one that is asked for is loaded."""

_COMMANDS_HELP = tr("""\
commands (each has its own --help):
  lawnbook plan NOTEBOOK            the plan as a table or as JSON
  lawnbook sheet NOTEBOOK -o PDF    the one-page plan, to print
  lawnbook plug-form NOTEBOOK -o PDF
                                    the paper form for the next plugs
  lawnbook then-now NOTEBOOK --spot SPOT -o PDF
                                    two days of a spot side by side
  lawnbook year-review NOTEBOOK -o PDF
                                    a year's water, nitrogen, thatch and cost
  lawnbook calendar NOTEBOOK -o FILE.ics
                                    what is due and planned, for a calendar
  lawnbook spread-check NOTEBOOK    the check before spreading a product
  lawnbook import YARD -o NOTEBOOK  a yard file (.json) or handover into a new notebook
  lawnbook export NOTEBOOK -o YARD  a notebook into a yard file (.json)
  lawnbook outlines NOTEBOOK -o FILE
                                    the sketch as .geojson or .svg
  lawnbook handover NOTEBOOK -o ZIP
                                    one file for the next owner or an adviser
  lawnbook take-outlines FILE -o NOTEBOOK
                                    a map's outlines (.geojson, .kml) into a notebook
  lawnbook tables NOTEBOOK -o FILE  every table as .xlsx or .zip, or one as .csv
  lawnbook take-tables FILE -o NOTEBOOK
                                    the tables of such a file into a notebook
  lawnbook backups NOTEBOOK         its earlier copies, with their paths
  lawnbook salvage FILE -o NOTEBOOK what can be read of a damaged notebook, into a new one

A yard file, and a handover (.zip), is read wherever a NOTEBOOK is. A file that is named like a
command is written ./plan.
""")


_HEADINGS = ("positional arguments", "options")
"""What the library calls the two parts of a command's help."""


class _Help(argparse.HelpFormatter):
    """The help of a command, with the library's own words in the owner's language."""

    def start_section(self, heading: str | None) -> None:
        """Begin a part under its heading."""
        super().start_section(tr(heading) if heading in _HEADINGS else heading)

    def add_usage(
        self,
        usage: str | None,
        actions: Iterable[argparse.Action],
        groups: Iterable[Any],
        prefix: str | None = None,
    ) -> None:
        """Put the line of usage on top, with the names of its values."""
        if reading().language != ENGLISH:
            from lawnbook.command_slips import name_values

            for each in actions:
                name_values(each)
        super().add_usage(usage, actions, groups, prefix or tr("usage: "))


class _ListHelp(_Help, argparse.RawDescriptionHelpFormatter):
    """The same, with the list of commands as it is set."""


class _Parser(argparse.ArgumentParser):
    """A parser whose complaints are the owner's situation, like every other bad input."""

    def __init__(self, prog: str, description: str, epilog: str = "") -> None:
        super().__init__(
            prog=prog,
            description=description,
            epilog=epilog,
            formatter_class=_ListHelp if epilog else _Help,
            allow_abbrev=False,
            add_help=False,
        )
        self.add_argument("-h", "--help", action="help", help=tr("show this help message and exit"))

    def error(self, message: str) -> NoReturn:
        """Raise OwnerError instead of printing the usage and leaving."""
        told = message
        if reading().language != ENGLISH:
            from lawnbook.command_slips import slip_told

            told = slip_told(message)
        raise OwnerError(tr("{told}; see {command} --help", told=told, command=self.prog))


def main(arguments: Sequence[str] | None = None, today: date | None = None) -> int:
    """Run a command line and return its exit status. `today` is the clock's day unless given."""
    if arguments is None:
        as_a_program()
    given = list(sys.argv[1:] if arguments is None else arguments)
    day = today if today is not None else datetime.now().astimezone().date()
    try:
        return _run(given, day)
    except OwnerError as error:
        tell(str(error))
        return BAD_INPUT
    except KeyboardInterrupt:
        return INTERRUPTED


def as_a_program() -> None:
    """What is of the whole process: who hears of mistakes, and how often unused rings are sought.

    On leaving they are not sought at all: all memory goes back then in any case. Numbers and dates
    are read and told as the environment's locale has them.
    """
    sys.excepthook = report_bug
    read_as(read_with(reading(), signs_of(os.environ)))
    gc.set_threshold(SELDOM)
    atexit.register(gc.freeze)


def _run(given: list[str], today: date) -> int:
    if given and given[0] in COMMANDS:
        command = command_named(given[0])
        parser = _Parser(f"lawnbook {given[0]}", command.help)
        command.add_arguments(parser)
        return command.run(parser.parse_args(given[1:]), today)
    _refuse_near_command(given)
    parser = _Parser(
        "lawnbook",
        tr("A notebook for a lawn. Without a command, it opens the window."),
        _COMMANDS_HELP,
    )
    parser.add_argument("notebook", nargs="?", type=Path, metavar="NOTEBOOK")
    parser.add_argument(
        "--version",
        action="version",
        version=f"Lawnbook {__version__}",
        help=tr("show program's version number and exit"),
    )
    return _window(parser.parse_args(given).notebook, today)


def command_named(name: str) -> "Command":
    """A command by its name; KeyError for none of them."""
    commands: Mapping[str, Command] = importlib.import_module(f"lawnbook.{COMMANDS[name]}").COMMANDS
    return commands[name]


def _refuse_near_command(given: Sequence[str]) -> None:
    """OwnerError for a first word that is no file, but nearly a command."""
    word = given[0] if given else ""
    if not word or word.endswith(NOTEBOOK_SUFFIX):
        return
    from difflib import get_close_matches

    near = get_close_matches(word.lower(), COMMANDS, n=1, cutoff=NEARLY)
    if near and not Path(word).exists():
        raise OwnerError(
            tr(
                '{word}: there is no such command or file; did you mean "{near}"?',
                word=word,
                near=near[0],
            )
        )


def _window(path: Path | None, today: date) -> int:
    if path is not None:
        _refuse_missing(path)
    if not _has_screen():
        return _without_screen(path, today)
    from lawnbook.desk.app import run

    return run(path)


def _refuse_missing(path: Path) -> None:
    """OwnerError for a file that is not there or out of reach, before a window is begun."""
    try:
        path.stat()
    except FileNotFoundError as error:
        if (
            path.suffix.lower() in (NOTEBOOK_SUFFIX, YARD_SUFFIX, HANDOVER_SUFFIX)
            or len(path.parts) > 1
        ):
            raise OwnerError(unreadable(path, error)) from error
        told = tr(
            "{name}: there is no such command or file; see lawnbook --help for the commands.",
            name=path.name,
        )
        raise OwnerError(told) from error
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error


def _has_screen() -> bool:
    return not sys.platform.startswith("linux") or any(os.environ.get(name) for name in _SCREENS)


def _without_screen(path: Path | None, today: date) -> int:
    """What the window would show first, on paper: the plan here and the sheet as a file."""
    if path is None:
        raise OwnerError(tr("there is no screen here; name a notebook to have its plan and sheet"))
    from lawnbook.plan_commands import without_screen

    return without_screen(path, today)
