"""The commands that write a page as a PDF: the sheet, the paper form, then and now of a spot."""

import argparse
from collections.abc import Mapping, Sequence
from datetime import date
from types import MappingProxyType

from lawnbook.command_parts import (
    Command,
    add_day,
    day_of,
    id_of,
    page_arguments,
    pdf_target,
    read_notebook,
)
from lawnbook.plan.make import make_plan
from lawnbook.plan.then_now import plug_days, then_and_now, usual_then
from lawnbook.reading import tr
from lawnbook.terminal import say
from lawnbook.yard.notebook import as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError


def _sheet_arguments(parser: argparse.ArgumentParser) -> None:
    page_arguments(parser)
    add_day(parser)
    parser.add_argument(
        "--workings",
        action="store_true",
        help=tr("pages behind the plan: each figure with its formula, its inputs and its source"),
    )


def _plug_form_arguments(parser: argparse.ArgumentParser) -> None:
    page_arguments(parser)
    add_day(parser)
    parser.add_argument(
        "--spot",
        action="append",
        default=[],
        metavar="SPOT",
        help=tr("a spot by its name or id, due or not; may be given several times"),
    )


def _then_now_arguments(parser: argparse.ArgumentParser) -> None:
    page_arguments(parser)
    parser.add_argument(
        "--spot", required=True, metavar="SPOT", help=tr("a spot by its name or id")
    )
    parser.add_argument(
        "--then", metavar="DATE", help=tr("a day with a plug; the first if left out")
    )
    parser.add_argument("--now", metavar="DATE", help=tr("a later one; the latest if left out"))
    parser.add_argument("--on", metavar="DATE", help=tr("know only what is dated up to this day"))


def _sheet(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    target = pdf_target(options, tr("The sheet"))
    notebook = read_notebook(options.notebook, today)
    from lawnbook.sheet.pdf import write_sheet

    write_sheet(notebook, make_plan(notebook, on), target, options.paper, options.workings)
    say(tr("The sheet is in {target}", target=target))
    return 0


def _plug_form(options: argparse.Namespace, today: date) -> int:
    on = day_of(options.on, today)
    target = pdf_target(options, tr("The form"))
    notebook = read_notebook(options.notebook, today)
    from lawnbook.sheet.documents import plug_form_document
    from lawnbook.sheet.pdf import write_page

    where = tr("{name}: --spot", name=options.notebook.name)
    chosen = {id_of(notebook.spots, each, where) for each in options.spot}
    title, draw = plug_form_document(notebook, make_plan(notebook, on), options.paper, chosen)
    write_page(title, draw, target, options.paper)
    say(tr("The form is in {target}", target=target))
    return 0


def _one_of(there: Sequence[date], asked: date | None, where: str, usual: date) -> date:
    """The day asked for, which must have a plug; the usual one where none is."""
    if asked is None:
        return usual
    if asked not in there:
        days = ", ".join(each.isoformat() for each in there)
        raise OwnerError(
            tr(
                "{where}: there is no plug of {asked}; choose from {days}.",
                where=where,
                asked=day(asked),
                days=days,
            )
        )
    return asked


def _then_now(options: argparse.Namespace, today: date) -> int:
    then = None if options.then is None else day_of(options.then, today, "--then")
    now = None if options.now is None else day_of(options.now, today, "--now")
    target = pdf_target(options, tr("The page"))
    notebook = read_notebook(options.notebook, today)
    name = options.notebook.name
    spot_id = id_of(notebook.spots, options.spot, tr("{name}: --spot", name=name))
    until = today if now is None else max(now, today)
    if options.on is not None:
        until = day_of(options.on, today)
        notebook = as_of(notebook, until)
    days = plug_days(notebook, spot_id, until)
    there = [each.date for each in days]
    if len(there) < 2:
        had = (
            tr("has plugs of {there} only", there=day(there[0])) if there else tr("has no plug yet")
        )
        spot = notebook.spots[spot_id].name
        raise OwnerError(
            tr(
                "{name}: --spot: {spot} {had}; then and now need two days.",
                name=name,
                spot=spot,
                had=had,
            )
        )
    first = _one_of(there, then, tr("{name}: --then", name=name), usual_then(days))
    last = _one_of(there, now, tr("{name}: --now", name=name), there[-1])
    if first >= last:
        raise OwnerError(
            tr(
                "{name}: --then: {first} is not before {last}; choose another.",
                name=name,
                first=day(first),
                last=day(last),
            )
        )
    pair = then_and_now(notebook, spot_id, first, last)
    from lawnbook.sheet.documents import then_now_document
    from lawnbook.sheet.pdf import write_page

    title, draw = then_now_document(notebook, pair, options.paper)
    write_page(title, draw, target, options.paper)
    say(tr("The page is in {target}", target=target))
    return 0


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "sheet": Command(
            tr("The one-page plan as a PDF, with its workings if wanted."), _sheet_arguments, _sheet
        ),
        "plug-form": Command(
            tr("The paper form for the next plugs as a PDF."), _plug_form_arguments, _plug_form
        ),
        "then-now": Command(
            tr("Two days of a spot side by side as a PDF."), _then_now_arguments, _then_now
        ),
    }
)
"""The commands that write a page, by their names."""
