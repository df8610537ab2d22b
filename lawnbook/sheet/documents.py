"""The pages as documents: what each is called, and who paints it."""

from collections.abc import Collection
from dataclasses import replace
from functools import partial

from PySide6.QtGui import QPainter

from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import ThenNow
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.reading import tr
from lawnbook.sheet.all_zones_page import draw_all_zones, lay_all_zones
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.page import draw_page, zones_shown
from lawnbook.sheet.paper import Between, Draw, nothing_between
from lawnbook.sheet.plug_form import draw_plug_form
from lawnbook.sheet.then_now_page import draw_then_now
from lawnbook.sheet.workings_page import draw_workings, lay_workings
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day


def sheet_title(plan: Plan) -> str:
    """What the yard plan is called, as a document."""
    return tr("{yard}: yard plan for {on}", yard=plan.yard, on=day(plan.on))


def sheet_document(
    notebook: Notebook,
    plan: Plan,
    paper: PaperName,
    *,
    workings: bool,
    between: Between = nothing_between,
) -> tuple[str, tuple[Draw, ...]]:
    """Title and pages of the yard plan: its one page, and after it its workings if wanted.

    Where the page has no room for every zone, their tables come before the workings. `between` is
    told the workings that are laid out, and may raise to leave off.
    """

    def draw(painter: QPainter) -> None:
        draw_page(painter, notebook, plan, paper)

    if not workings:
        return sheet_title(plan), (draw,)
    spreads = spreading_plan(notebook, plan.on)
    left_out = zones_shown(notebook, plan, paper) < len(plan.zones)
    tables = lay_all_zones(notebook, plan, spreads) if left_out else ()
    pages = lay_workings(plan, paper, spreads, between)
    count = 1 + len(tables) + len(pages)
    draws: list[Draw] = [draw]
    for table in tables:
        place = (len(draws) + 1, count)
        draws.append(partial(draw_all_zones, page=table, paper=paper, place=place))
    for page in pages:
        place = (len(draws) + 1, count)
        draws.append(partial(draw_workings, page=page, plan=plan, paper=paper, place=place))
    return sheet_title(plan), tuple(draws)


def then_now_document(notebook: Notebook, pair: ThenNow, paper: PaperName) -> tuple[str, Draw]:
    """Title and painting of then and now of a spot."""

    def draw(painter: QPainter) -> None:
        draw_then_now(painter, notebook, pair, paper)

    return tr(
        "{spot}: {date} and {later}",
        spot=pair.spot,
        date=day(pair.then.date),
        later=day(pair.now.date),
    ), draw


def plug_form_document(
    notebook: Notebook, plan: Plan, paper: PaperName, chosen: Collection[str] = ()
) -> tuple[str, Draw]:
    """Title and painting of the paper form for a plan's next plugs.

    Spots `chosen` by their ids are on it whether they are due or not, and no others.
    """
    asked = tuple(
        replace(each, due=min(each.due, plan.on))
        for each in plan.next_plugs
        if each.spot_id in chosen
    )
    on_form = replace(plan, next_plugs=asked) if chosen else plan

    def draw(painter: QPainter) -> None:
        draw_plug_form(painter, notebook, on_form, paper)

    return tr("{yard}: plugs to pull, {on}", yard=plan.yard, on=day(plan.on)), draw
