"""The commands that make a notebook of a yard file, and a yard file of a notebook."""

import argparse
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from lawnbook.command_parts import Command, add_notebook, add_output, in_short, read_notebook
from lawnbook.reading import tr
from lawnbook.store.files import (
    NOTEBOOK_SUFFIX,
    YARD_SUFFIX,
    refuse_missing_folder,
    refuse_other_file,
    refuse_same_file,
    refuse_wrong_suffix,
)
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.store.sqlite_store import create, refuse_taken
from lawnbook.store.yardfile import load_checked, write_yard
from lawnbook.terminal import say
from lawnbook.yard.problems import OwnerError


def _import_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("yard", type=Path, metavar="YARD", help=tr("a yard file or handover"))
    add_output(parser, "NOTEBOOK")
    parser.add_argument(
        "--keep-as-is", action="store_true", help=tr("keep values that look like a slip")
    )


def _import(options: argparse.Namespace, today: date) -> int:
    if options.yard.suffix.lower() == NOTEBOOK_SUFFIX:
        sentence = tr(
            "this is a notebook already; copy the file, or export it as a yard file first."
        )
        raise OwnerError(f"{options.yard.name}: {sentence}")
    # What a handover holds is a notebook, which was kept by its owner already.
    is_handover = options.yard.suffix.lower() == HANDOVER_SUFFIX
    if not is_handover:
        refuse_wrong_suffix(options.yard, YARD_SUFFIX, tr("A yard file"))
    refuse_taken(options.output)
    checked = load_checked(options.yard, today)
    if checked.questions and not is_handover and not options.keep_as_is:
        told = in_short(options.yard, checked.questions)
        raise OwnerError(tr("{told} Mend it there, or add --keep-as-is.", told=told))
    create(options.output, checked.notebook)
    say(tr("The notebook is in {output}", output=options.output))
    return 0


def _export_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_output(parser, "YARD")


def _export(options: argparse.Namespace, today: date) -> int:
    refuse_wrong_suffix(options.output, YARD_SUFFIX, tr("A yard file"))
    refuse_missing_folder(options.output)
    refuse_same_file(options.notebook, options.output)
    refuse_other_file(options.output, b"{", tr("a yard file"))
    write_yard(read_notebook(options.notebook, today), options.output)
    say(tr("The yard file is in {output}", output=options.output))
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "import": Command(tr("Make a notebook of a yard file."), _import_arguments, _import),
        "export": Command(tr("Write a notebook as a yard file."), _export_arguments, _export),
    }
)
"""The commands, by their names."""
