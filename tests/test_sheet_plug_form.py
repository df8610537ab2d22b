"""The paper form: one page, the entry's order, the caution, the hours proposed, room to write."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from lawnbook.desk.pages.plug_fields import NAMES
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.sheet.documents import plug_form_document
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.pdf import page_bytes
from lawnbook.sheet.plug_form import (
    DIG,
    MOST_COLUMNS,
    ROWS,
    SCALES,
    USUAL_COLUMNS,
    columns_for,
    spots_on_form,
)
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.records import Spot
from tests.page_book import page_notebook
from tests.pdf_reading import grey, overlapping, read_page
from tests.then_now_book import core, two_days

pytestmark = pytest.mark.usefixtures("qapp")
PAPERS: tuple[PaperName, ...] = ("letter", "a4")
ON = date(2027, 4, 15)
HALF_INCH_PT = 36.0
LEAST_TO_WRITE_PT = 25.0
"""A line for a wet hand: a little over a third of an inch (common practice)."""


def spotted(count: int, name: str = "Spot") -> Notebook:
    """A yard with so many spots, none of which has a plug."""
    spots = [
        Spot(id=f"s{number}", name=f"{name} {number + 1}", zone="side", at_ft=(55 + number, 12.0))
        for number in range(count)
    ]
    return with_tables(page_notebook(), {"spots": spots})


def form(notebook: Notebook, paper: PaperName = "letter", on: date = ON) -> bytes:
    """The form for a notebook's next plugs."""
    title, draw = plug_form_document(notebook, make_plan(notebook, on), paper)
    return page_bytes(title, draw, paper)


@pytest.mark.parametrize("count", [0, 1, 4, 5, 12, 40])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["Spot", "the stretch of lawn beyond the second gate"])
def test_one_page_within_margins_nothing_over_anything(
    count: int, paper: PaperName, name: str
) -> None:
    data = form(spotted(count, name), paper)
    read = read_page(data)
    assert read.pages == 1
    assert (read.width, read.height) == pytest.approx(paper_size_pt(paper), abs=0.6)
    for box in read.boxes:
        assert box.left >= HALF_INCH_PT - 0.5, box
        assert box.right <= read.width - HALF_INCH_PT + 0.5, box
        assert box.bottom <= read.height - HALF_INCH_PT + 0.5, box
    assert overlapping(read.boxes) == []
    edges = grey(data)
    assert min(edges[:34].min(), edges[-34:].min(), edges[:, -34:].min()) == 255


def test_the_lines_follow_the_entry() -> None:
    """Spot and day stand at the head; the rest is in the order in which it is typed in."""
    assert ("spot", "date", *(each.field for each in ROWS)) == (*NAMES, "photos")


def test_caution_scales_and_labels_are_whole_and_in_order() -> None:
    flat = read_page(form(two_days())).flat
    assert DIG in flat
    assert "811" in DIG
    assert " ".join(SCALES.split()) in flat
    places = [flat.index(each.label, flat.index(DIG)) for each in ROWS]
    assert places == sorted(places)


def test_the_hour_proposed_stands_over_its_column() -> None:
    """As the plan has it, with the spot's name and zone."""
    notebook = two_days()
    flat = read_page(form(notebook)).flat
    told = [each for each in make_plan(notebook, ON).next_plugs if each.place is not None]
    for each in told:
        assert each.place is not None
        assert f"{each.place.clock} o'clock, {each.place.ring_in:g} in out" in flat
        assert each.spot in flat
        assert each.zone in flat


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("days_off", [0, 300])
def test_an_untreated_spot_is_marked_whole(paper: PaperName, days_off: int) -> None:
    """Where it is due and where it is not yet; the treated ones beside it are not marked."""
    plain = spotted(5, "the stretch of lawn beyond the gate")
    one = replace(plain.spots["s2"], comparison=True)
    notebook = with_tables(plain, {"spots": [*plain.spots.values(), one]})
    plan = plan_of(notebook, (days_off,) * 5)
    title, draw = plug_form_document(notebook, plan, paper)
    read = read_page(page_bytes(title, draw, paper))
    assert read.flat.count("untreated") == 1
    assert overlapping(read.boxes) == []
    if days_off:
        assert "Side, untreated due 9 Feb 2028" in read.flat


def plan_of(notebook: Notebook, days: tuple[int, ...]) -> Plan:
    """A plan whose spots are due so many days from now."""
    plan = make_plan(notebook, ON)
    due = [
        replace(each, due=ON + timedelta(days=off))
        for each, off in zip(plan.next_plugs, days, strict=True)
    ]
    return replace(plan, next_plugs=tuple(due))


def test_spots_due_are_on_the_form_and_all_where_none_is() -> None:
    notebook = spotted(3)
    some = spots_on_form(plan_of(notebook, (5, 0, -9)))
    assert [each.due for each in some] == [ON, ON - timedelta(days=9)]
    none = spots_on_form(plan_of(notebook, (50, 10, 30)))
    assert [(each.due - ON).days for each in none] == [10, 30, 50]


@pytest.mark.parametrize(("spots", "columns"), [(0, 4), (4, 4), (5, 5), (40, 5)])
def test_columns_leave_room_for_more(spots: int, columns: int) -> None:
    assert columns_for(spots) == columns
    assert USUAL_COLUMNS < MOST_COLUMNS


def test_spots_left_out_are_named() -> None:
    """Seven due, five fit: the head says so; a zone's own form has the others."""
    flat = read_page(form(spotted(7))).flat
    assert "2 more on another form: Spot 6, Spot 7" in flat


@pytest.mark.parametrize("paper", PAPERS)
def test_boxes_are_tall_enough_to_write_in(paper: PaperName) -> None:
    """Hairlines part the lines of the form at least a wet hand's line from each other."""
    image = grey(form(spotted(5), paper), 144)
    lines = np.nonzero((image[:, 96:230] < 235).all(axis=1))[0]
    tops = lines[np.insert(np.diff(lines) > 2, 0, True)] / 2
    assert len(tops) == len(ROWS) + 1
    assert np.diff(tops).min() >= LEAST_TO_WRITE_PT


def test_old_holes_are_filled_on_the_clock_face() -> None:
    """A spot with holes has more ink at its head than the same spot without."""
    bare = two_days()
    bare = replace(bare, cores={k: replace(c, clock=None) for k, c in bare.cores.items()})
    holes = {
        f"h{hour}": replace(core(f"h{hour}", date(2020, 5, 1), 0.5), clock=hour)
        for hour in (2, 4, 6, 8, 10)
    }
    full = replace(bare, cores={**bare.cores, **holes})
    dark = [(grey(form(each), 144)[:560] < 150).sum() for each in (bare, full)]
    assert dark[1] > dark[0] + 100


def test_only_holes_of_the_day_or_before_are_drawn() -> None:
    """A form of last spring knows nothing of this one's holes."""
    notebook = two_days()
    later = replace(core("late", ON + timedelta(days=40), 0.5), clock=7)
    with_later = replace(notebook, cores={**notebook.cores, "late": later})
    assert np.array_equal(grey(form(notebook)), grey(form(with_later)))
