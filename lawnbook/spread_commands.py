"""The command that checks a spreading before it is done."""

import argparse
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from lawnbook.command_parts import (
    Command,
    add_day,
    add_json,
    add_notebook,
    as_json,
    day_of,
    id_of,
    read_notebook,
)
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.render import spread_json, spread_text
from lawnbook.plan.spread import check_spread, pounds_for_rate, share_by_area
from lawnbook.plan.spread_conditions import Conditions, spreader_named
from lawnbook.reading import Reading, reading, reading_here, tr
from lawnbook.terminal import say, tell
from lawnbook.yard.check import check
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import parse_inches, parse_number
from lawnbook.yard.problems import OwnerError, Problem, asked, refused
from lawnbook.yard.records import Feeding

DONE, OVER_BUDGET = 0, 1


def _check_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    parser.add_argument(
        "--zone",
        action="append",
        required=True,
        metavar="ZONE",
        help=tr("a zone by its name, number or id; may be given several times"),
    )
    parser.add_argument("--product", required=True, help=tr("a product by its name or id"))
    amount = parser.add_mutually_exclusive_group(required=True)
    amount.add_argument("--pounds", help=tr("pounds of product in all, shared among zones by area"))
    amount.add_argument(
        "--rate", metavar="LB", help=tr("pounds of nitrogen per 1,000 sq ft instead")
    )
    parser.add_argument("--rain", metavar="INCHES", help=tr("rain expected in the next days"))
    parser.add_argument("--spreader", metavar="NAME", help=tr("the spreader or sprayer to be used"))
    add_day(parser)
    add_json(parser)


def _spread_check(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    option = "pounds" if options.rate is None else "rate"
    amount = option_number(
        parse_number, options.pounds if options.rate is None else options.rate, f"--{option}:"
    )
    rain_in = None if options.rain is None else option_number(parse_inches, options.rain, "--rain:")
    notebook = read_notebook(options.notebook, today)
    name = options.notebook.name
    zones = list(dict.fromkeys(_zone_id(notebook, told, name) for told in options.zone))
    product = id_of(notebook.products, options.product, tr("{name}: --product", name=name))
    spreader = "" if options.spreader is None else spreader_named(notebook, options.spreader)
    conditions = Conditions(rain_in, spreader=spreader)
    if option == "pounds":
        _refuse_as_feeding(notebook, product, {zones[0]: amount}, on, option)
        pounds = share_by_area(notebook, zones, amount, conditions=conditions)
    elif amount > 0:
        pounds = pounds_for_rate(notebook, product, zones, amount, conditions=conditions)
        _refuse_as_feeding(notebook, product, pounds, on, option)
    else:
        raise OwnerError(tr("--rate: enter pounds of nitrogen per 1,000 sq ft above zero."))
    checked = check_spread(notebook, product, pounds, on, conditions=conditions)
    for doubt in _doubts(notebook, product, checked):
        tell(tr("note: {sentence}", sentence=doubt.sentence))
    say(as_json(spread_json(checked)) if options.json else spread_text(checked))
    return DONE if checked.within else OVER_BUDGET


def option_number(parse: Callable[[str, str], float], text: str, what: str) -> float:
    """A number of an option, in pounds or inches as its name says, whatever units are read.

    Where a comma parts decimals, a script's "1.5" is understood all the same.
    """
    with reading_here(replace(reading(), units="us")):
        try:
            return parse(text, what)
        except OwnerError:
            with reading_here(Reading()), suppress(OwnerError):
                return parse(text, what)
            raise


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


def _zone_id(notebook: Notebook, told: str, file: str) -> str:
    """A zone's id by id, name, or number in the owner's order; an id or a name goes first."""
    numbers = {str(i): zone_id for i, zone_id in enumerate(notebook.zones, start=1)}
    return id_of(notebook.zones, told, tr("{file}: --zone", file=file), numbers)


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "spread-check": Command(
            tr("Whether a product may be spread: exit status 0 within budget, 1 over it."),
            _check_arguments,
            _spread_check,
        )
    }
)
"""The commands, by their names."""
