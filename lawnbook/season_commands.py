"""The command of the season: its dates as a calendar."""

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
from lawnbook.store.calendar_ics import NothingDue, refuse_unfit, write_calendar
from lawnbook.store.calendar_ids import steady_ids
from lawnbook.store.files import refuse_same_file
from lawnbook.terminal import say
from lawnbook.yard.problems import OwnerError


def _calendar_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_output(parser, "FILE.ics")
    add_day(parser)


def _calendar(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    target: Path = options.output
    refuse_same_file(options.notebook, target)
    refuse_unfit(target)
    notebook = read_notebook(options.notebook, today)
    try:
        ids = steady_ids(options.notebook, notebook)
        write_calendar(notebook, make_plan(notebook, on), target, ids)
    except NothingDue as problem:
        raise OwnerError(f"{options.notebook.name}: {problem}") from problem
    say(tr("The calendar is in {target}", target=target))
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "calendar": Command(
            tr("What is due and planned as a calendar (.ics)."), _calendar_arguments, _calendar
        ),
    }
)
"""The commands, by their names."""
