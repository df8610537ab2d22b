"""The command that tells the plan, and what is told of it where there is no screen."""

import argparse
import json
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Any

from lawnbook.command_parts import (
    Command,
    add_day,
    add_json,
    add_notebook,
    as_json,
    day_of,
    read_notebook,
)
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.render import plan_json, plan_text
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.workings_text import groups_of, matching
from lawnbook.plan.workings_told import workings_json, workings_text
from lawnbook.reading import tr
from lawnbook.terminal import say
from lawnbook.yard.problems import OwnerError


def _plan_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_day(parser)
    add_json(parser)
    parser.add_argument(
        "--working",
        nargs="?",
        const="",
        default=None,
        metavar="FIGURE or ZONE",
        help=tr("how the figures came about: all, or one by its key, its name or its zone"),
    )


def _plan(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    notebook = read_notebook(options.notebook, today)
    plan = make_plan(notebook, on)
    if options.working is not None:
        groups = matching(groups_of(plan, spreading_plan(notebook, on)), options.working)
        if options.working.strip() and not groups:
            raise OwnerError(_unknown(plan, options.working))
        say(_list_json(workings_json(groups)) if options.json else workings_text(groups))
        return 0
    say(as_json(plan_json(plan)) if options.json else plan_text(plan))
    return 0


def _list_json(records: Sequence[Mapping[str, Any]]) -> str:
    """A list as JSON, a line for each record."""
    return "[\n" + ",\n".join(f"  {json.dumps(each)}" for each in records) + "\n]"


def _unknown(plan: Plan, asked: str) -> str:
    """One line that names what there is to ask for."""
    groups = groups_of(plan)
    figures = (each.label for group in groups for each in group.workings)
    zones = (zone.zone for zone in plan.zones)
    there = "; ".join(dict.fromkeys((*zones, *figures)))
    return tr(
        'Working: the plan has no figure or zone "{asked}"; there are {there}.',
        asked=asked.strip(),
        there=there or tr("none yet"),
    )


def without_screen(path: Path, today: date) -> int:
    """What the window would show first, on paper: the plan here and the sheet as a file."""
    plan = make_plan(notebook := read_notebook(path, today), today)
    target = Path(f"{path.stem}-plan.pdf")
    from lawnbook.sheet.pdf import write_sheet

    write_sheet(notebook, plan, target, "letter")
    say(plan_text(plan))
    say(
        tr(
            "There is no screen here, so no window: this is the plan, and the sheet is in {target}",
            target=target,
        )
    )
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {"plan": Command(tr("The plan of a day, as a table or as JSON."), _plan_arguments, _plan)}
)
"""The commands, by their names."""
