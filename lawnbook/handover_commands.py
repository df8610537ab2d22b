"""The command for the handover: one file for the next owner or an adviser."""

import argparse
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from lawnbook.command_parts import (
    Command,
    add_day,
    add_notebook,
    add_output,
    day_of,
    read_notebook,
)
from lawnbook.plan.make import make_plan
from lawnbook.reading import tr
from lawnbook.store.files import (
    refuse_missing_folder,
    refuse_other_file,
    refuse_same_file,
    refuse_wrong_suffix,
)
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.store.handover_zip import ZIP_START
from lawnbook.terminal import say


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_output(parser, "ZIP")
    add_day(parser)
    parser.add_argument(
        "--paper", choices=("letter", "a4"), default="letter", help=tr("the documents' paper")
    )
    for what, helped in (
        ("names", tr("leave out names and notes")),
        ("place", tr("leave out where the yard lies")),
        ("photos", tr("leave out photographs and pictures under the sketch")),
    ):
        parser.add_argument(f"--without-{what}", action="store_true", help=helped)


def _handover(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    target: Path = options.output
    refuse_wrong_suffix(target, HANDOVER_SUFFIX, tr("A handover"))
    refuse_missing_folder(target)
    refuse_same_file(options.notebook, target)
    refuse_other_file(target, ZIP_START, tr("a zip file"))
    notebook = read_notebook(options.notebook, today)
    from lawnbook.sheet.handover import Wants, write_handover

    wants = Wants(
        paper=options.paper,
        names=not options.without_names,
        location=not options.without_place,
        photos=not options.without_photos,
    )
    write_handover(notebook, make_plan(notebook, on), target, wants)
    say(tr("The handover is in {target}", target=target))
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "handover": Command(
            tr(
                "One zip for the next owner or an adviser: notebook, documents, tables, "
                "photographs."
            ),
            _arguments,
            _handover,
        )
    }
)
"""The commands, by their names."""
