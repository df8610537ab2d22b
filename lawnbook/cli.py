"""The command line: the window, and the same plan, sheet and check without one.

Bad input is one line on stderr that names the file, the field and the mend, and exit status 2;
nothing is written then. Questions that a yard file's values raise are a note on stderr, but stop
an import; what a notebook holds was kept by its owner already.
"""

import argparse
import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from difflib import get_close_matches
from pathlib import Path
from types import MappingProxyType
from typing import Any, NoReturn

from lawnbook import __version__
from lawnbook.command_parts import (
    Command,
    add_day,
    add_json,
    add_notebook,
    add_output,
    day_of,
    id_of,
    in_short,
    read_notebook,
)
from lawnbook.handover_commands import HANDOVER_COMMANDS
from lawnbook.outline_commands import OUTLINE_COMMANDS
from lawnbook.page_commands import PAGE_COMMANDS
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.render import plan_json, plan_text, spread_json, spread_text
from lawnbook.plan.spread import check_spread, pounds_for_rate, share_by_area
from lawnbook.plan.spread_conditions import Conditions, spreader_named
from lawnbook.season_commands import SEASON_COMMANDS
from lawnbook.store.files import (
    NOTEBOOK_SUFFIX,
    YARD_SUFFIX,
    refuse_missing_folder,
    refuse_other_file,
    refuse_same_file,
    refuse_wrong_suffix,
    unreadable,
)
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.store.sqlite_store import create, refuse_taken
from lawnbook.store.yardfile import load_checked, write_yard
from lawnbook.table_commands import TABLE_COMMANDS
from lawnbook.terminal import report_bug, say, tell
from lawnbook.yard.check import check
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import parse_inches, parse_number
from lawnbook.yard.problems import OwnerError, Problem, asked, refused
from lawnbook.yard.records import Feeding

DONE, OVER_BUDGET, BAD_INPUT, INTERRUPTED = 0, 1, 2, 130
_SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
_SUFFIXES = (NOTEBOOK_SUFFIX, YARD_SUFFIX, HANDOVER_SUFFIX)
NEARLY = 0.7
"""How alike a word must be to a command to be taken for a slip of it, of 1."""

_COMMANDS_HELP = """\
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

A yard file, and a handover (.zip), is read wherever a NOTEBOOK is. A file that is named like a
command is written ./plan.
"""


class _Parser(argparse.ArgumentParser):
    """A parser whose complaints are the owner's situation, like every other bad input."""

    def error(self, message: str) -> NoReturn:
        """Raise OwnerError instead of printing the usage and leaving."""
        raise OwnerError(f"{message}; see {self.prog} --help")


def main(arguments: Sequence[str] | None = None, today: date | None = None) -> int:
    """Run a command line and return its exit status. `today` is the clock's day unless given."""
    if arguments is None:
        sys.excepthook = report_bug
    given = list(sys.argv[1:] if arguments is None else arguments)
    day = today if today is not None else datetime.now().astimezone().date()
    try:
        return _run(given, day)
    except OwnerError as error:
        tell(str(error))
        return BAD_INPUT
    except KeyboardInterrupt:
        return INTERRUPTED


def _run(given: list[str], today: date) -> int:
    if given and given[0] in COMMANDS:
        command = COMMANDS[given[0]]
        parser = _Parser(prog=f"lawnbook {given[0]}", description=command.help, allow_abbrev=False)
        command.add_arguments(parser)
        return command.run(parser.parse_args(given[1:]), today)
    _refuse_near_command(given)
    parser = _Parser(
        prog="lawnbook",
        description="A notebook for a lawn. Without a command, it opens the window.",
        epilog=_COMMANDS_HELP,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("notebook", nargs="?", type=Path, metavar="NOTEBOOK")
    parser.add_argument("--version", action="version", version=f"Lawnbook {__version__}")
    return _window(parser.parse_args(given).notebook, today)


def _refuse_near_command(given: Sequence[str]) -> None:
    """OwnerError for a first word that is no file, but nearly a command."""
    word = given[0] if given else ""
    near = get_close_matches(word.lower(), COMMANDS, n=1, cutoff=NEARLY)
    if near and not Path(word).exists():
        raise OwnerError(f'{word}: there is no such command or file; did you mean "{near[0]}"?')


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
        mend = "see lawnbook --help for the commands."
        raise OwnerError(f"{path.name}: there is no such command or file; {mend}") from error
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error


def _has_screen() -> bool:
    return not sys.platform.startswith("linux") or any(os.environ.get(name) for name in _SCREENS)


def _without_screen(path: Path | None, today: date) -> int:
    """What the window would show first, on paper: the plan here and the sheet as a file."""
    if path is None:
        raise OwnerError("there is no screen here; name a notebook to have its plan and sheet")
    plan = make_plan(notebook := read_notebook(path, today), today)
    target = Path(f"{path.stem}-plan.pdf")
    from lawnbook.sheet.pdf import write_sheet

    write_sheet(notebook, plan, target, "letter")
    say(plan_text(plan))
    say(f"There is no screen here, so no window: this is the plan, and the sheet is in {target}")
    return DONE


def _plan_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_day(parser)
    add_json(parser)


def _plan(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    plan = make_plan(read_notebook(options.notebook, today), on)
    say(_json(plan_json(plan)) if options.json else plan_text(plan))
    return DONE


def _check_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    parser.add_argument(
        "--zone",
        action="append",
        required=True,
        metavar="ZONE",
        help="a zone by its name, number or id; may be given several times",
    )
    parser.add_argument("--product", required=True, help="a product by its name or id")
    amount = parser.add_mutually_exclusive_group(required=True)
    amount.add_argument("--pounds", help="pounds of product in all, shared among zones by area")
    amount.add_argument("--rate", metavar="LB", help="pounds of nitrogen per 1,000 sq ft instead")
    parser.add_argument("--rain", metavar="INCHES", help="rain expected in the next days")
    parser.add_argument("--spreader", metavar="NAME", help="the spreader or sprayer to be used")
    add_day(parser)
    add_json(parser)


def _spread_check(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    option = "pounds" if options.rate is None else "rate"
    amount = parse_number(options.pounds if options.rate is None else options.rate, f"--{option}:")
    rain_in = None if options.rain is None else parse_inches(options.rain, "--rain:")
    notebook = read_notebook(options.notebook, today)
    name = options.notebook.name
    zones = list(dict.fromkeys(_zone_id(notebook, told, name) for told in options.zone))
    product = id_of(notebook.products, options.product, f"{name}: --product")
    spreader = "" if options.spreader is None else spreader_named(notebook, options.spreader)
    conditions = Conditions(rain_in, spreader=spreader)
    if option == "pounds":
        _refuse_as_feeding(notebook, product, {zones[0]: amount}, on, option)
        pounds = share_by_area(notebook, zones, amount, conditions=conditions)
    elif amount > 0:
        pounds = pounds_for_rate(notebook, product, zones, amount, conditions=conditions)
        _refuse_as_feeding(notebook, product, pounds, on, option)
    else:
        raise OwnerError("--rate: enter pounds of nitrogen per 1,000 sq ft above zero.")
    checked = check_spread(notebook, product, pounds, on, conditions=conditions)
    for doubt in _doubts(notebook, product, checked):
        tell(f"note: {doubt.sentence}")
    say(_json(spread_json(checked)) if options.json else spread_text(checked))
    return DONE if checked.within else OVER_BUDGET


def _refuse_as_feeding(
    notebook: Notebook, product: str, pounds: Mapping[str, float], on: date, option: str
) -> None:
    """Refuse pounds that the notebook could not hold as a feeding. Any day may be asked about."""
    feeding = Feeding(id="", date=on, product=product, pounds=pounds)
    for problem in refused(check(feeding, notebook, on)):
        field = option if problem.field == "pounds" else problem.field
        raise OwnerError(f"--{field}: {problem.sentence}")


def _doubts(notebook: Notebook, product: str, checked: SpreadCheck) -> Iterator[Problem]:
    """What looks like a slip in the pounds on the areas treated, such as ounces for pounds."""
    feeding = Feeding(
        id="",
        date=checked.on,
        product=product,
        pounds={zone.zone_id: zone.pounds for zone in checked.zones},
        treated_area_sqft={zone.zone_id: zone.area_sqft for zone in checked.zones},
    )
    return (each for each in asked(check(feeding, notebook, checked.on)) if each.field == "pounds")


def _import_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("yard", type=Path, metavar="YARD", help="a yard file or handover")
    add_output(parser, "NOTEBOOK")
    parser.add_argument(
        "--keep-as-is", action="store_true", help="keep values that look like a slip"
    )


def _import(options: argparse.Namespace, today: date) -> int:
    if options.yard.suffix.lower() == NOTEBOOK_SUFFIX:
        sentence = "this is a notebook already; copy the file, or export it as a yard file first."
        raise OwnerError(f"{options.yard.name}: {sentence}")
    # What a handover holds is a notebook, which was kept by its owner already.
    is_handover = options.yard.suffix.lower() == HANDOVER_SUFFIX
    if not is_handover:
        refuse_wrong_suffix(options.yard, YARD_SUFFIX, "A yard file")
    refuse_taken(options.output)
    checked = load_checked(options.yard, today)
    if checked.questions and not is_handover and not options.keep_as_is:
        told = in_short(options.yard, checked.questions)
        raise OwnerError(f"{told} Mend it there, or add --keep-as-is.")
    create(options.output, checked.notebook)
    say(f"The notebook is in {options.output}")
    return DONE


def _export_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_output(parser, "YARD")


def _export(options: argparse.Namespace, today: date) -> int:
    refuse_wrong_suffix(options.output, YARD_SUFFIX, "A yard file")
    refuse_missing_folder(options.output)
    refuse_same_file(options.notebook, options.output)
    refuse_other_file(options.output, b"{", "a yard file")
    write_yard(read_notebook(options.notebook, today), options.output)
    say(f"The yard file is in {options.output}")
    return DONE


def _zone_id(notebook: Notebook, told: str, file: str) -> str:
    """A zone's id by id, name, or number in the owner's order; an id or a name goes first."""
    numbers = {str(i): zone_id for i, zone_id in enumerate(notebook.zones, start=1)}
    return id_of(notebook.zones, told, f"{file}: --zone", numbers)


def _json(plain: Mapping[str, Any]) -> str:
    return json.dumps(plain, indent=2, allow_nan=False)


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "plan": Command("The plan of a day, as a table or as JSON.", _plan_arguments, _plan),
        **PAGE_COMMANDS,
        "spread-check": Command(
            "Whether a product may be spread: exit status 0 within budget, 1 over it.",
            _check_arguments,
            _spread_check,
        ),
        "import": Command("Make a notebook of a yard file.", _import_arguments, _import),
        "export": Command("Write a notebook as a yard file.", _export_arguments, _export),
        **OUTLINE_COMMANDS,
        **SEASON_COMMANDS,
        **TABLE_COMMANDS,
        **HANDOVER_COMMANDS,
    }
)
"""Every command by its name."""
