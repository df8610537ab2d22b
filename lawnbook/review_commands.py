"""The command that writes a year in review as a PDF."""

import argparse
from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from lawnbook.command_parts import (
    Command,
    add_day,
    day_of,
    page_arguments,
    pdf_target,
    read_notebook,
)
from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_span import is_recorded, review_years
from lawnbook.reading import tr
from lawnbook.terminal import say
from lawnbook.yard.problems import OwnerError


def _arguments(parser: argparse.ArgumentParser) -> None:
    page_arguments(parser)
    parser.add_argument(
        "--year",
        metavar="YEAR",
        help=tr("the year, such as 2026; in the south the one that its July is in"),
    )
    add_day(parser)


def _year_of(told: str | None, usual: int) -> int:
    """The year that is asked for. OwnerError for what is none."""
    if told is None:
        return usual
    if not (told.isascii() and told.isdigit() and len(told) == len("2026")):
        raise OwnerError(
            tr('--year: "{told}" is no year; enter one such as {usual}.', told=told, usual=usual)
        )
    return int(told)


def _write(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    target = pdf_target(options, tr("The year in review"))
    notebook = read_notebook(options.notebook, today)
    year = _year_of(options.year, review_years(notebook, on)[-1])
    try:
        review = year_review(notebook, year, on)
    except OwnerError as problem:
        raise OwnerError(tr("--year: {problem}", problem=problem)) from problem
    from lawnbook.sheet.pdf import write_page
    from lawnbook.sheet.review_documents import review_document

    title, draws = review_document(notebook, review, options.paper)
    write_page(title, draws, target, options.paper)
    say(tr("The year in review is in {target}", target=target))
    if not is_recorded(notebook, year):
        of = review.span.label
        say(tr("Nothing is recorded in {year}, so that there is little in it.", year=of))
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "year-review": Command(
            tr("Water, nitrogen, thatch and cost of a year beside the year before, as a PDF."),
            _arguments,
            _write,
        )
    }
)
"""The commands, by their names."""
