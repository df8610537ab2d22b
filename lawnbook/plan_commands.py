"""The command that tells the plan, and what is told of it where there is no screen."""

import argparse
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

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
from lawnbook.plan.render import plan_json, plan_text
from lawnbook.terminal import say


def _plan_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_day(parser)
    add_json(parser)


def _plan(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    plan = make_plan(read_notebook(options.notebook, today), on)
    say(as_json(plan_json(plan)) if options.json else plan_text(plan))
    return 0


def without_screen(path: Path, today: date) -> int:
    """What the window would show first, on paper: the plan here and the sheet as a file."""
    plan = make_plan(notebook := read_notebook(path, today), today)
    target = Path(f"{path.stem}-plan.pdf")
    from lawnbook.sheet.pdf import write_sheet

    write_sheet(notebook, plan, target, "letter")
    say(plan_text(plan))
    say(f"There is no screen here, so no window: this is the plan, and the sheet is in {target}")
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {"plan": Command("The plan of a day, as a table or as JSON.", _plan_arguments, _plan)}
)
"""The commands, by their names."""
