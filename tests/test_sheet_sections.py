"""What the sheet's parts say, before they are drawn."""

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication

from lawnbook.charts.marks import Align, Spot
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Due
from lawnbook.sheet import page_shares
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import CAPTION, CELL, STRONG, Ink, Style
from lawnbook.sheet.layout import ROW_PT, TALL_ROW_PT, Box, PaperName, RowPlan, plan_rows
from lawnbook.sheet.page import draw_page
from lawnbook.sheet.page_shares import Content, best_shares
from lawnbook.sheet.pdf import sheet_bytes
from lawnbook.sheet.sections.code import codes_of
from lawnbook.sheet.sections.due import in_runs, said
from lawnbook.sheet.sections.foot import LEAST_SOURCE_LINES, in_turn, lay_foot, sources_text
from lawnbook.sheet.sections.masthead import facts
from lawnbook.sheet.sections.thatch import (
    other_spots,
    rows_that_fit,
    short_verdict,
    thatch_row,
    worst_spot,
)
from lawnbook.sheet.table import tellings
from tests.pdf_reading import read_page
from tests.plan_fixture import ON, plugs, spot_of, yard_of

BOOK = yard_of(4)
PLAN = make_plan(BOOK, ON)


@pytest.mark.parametrize(
    ("zones", "room", "good", "most", "rows"),
    [
        (4, 300.0, 248.0, 3, RowPlan(4, 3, 2)),
        (4, 240.0, 247.0, 3, RowPlan(4, 3, 1)),
        (4, 240.0, 212.0, 2, RowPlan(4, 2, 2)),
        (4, 240.0, 177.0, 3, RowPlan(4, 2, 1)),
        (4, 240.0, 171.0, 3, RowPlan(4, 2, 1)),
        (4, 240.0, 141.0, 3, RowPlan(4, 1, 1)),
        (12, 336.0, 300.0, 3, RowPlan(12, 1, 1)),
        (40, 200.0, 200.0, 3, RowPlan(7, 1, 1)),
        (40, 300.0, 200.0, 3, RowPlan(6, 2, 2)),
        (40, 5.0, 5.0, 3, RowPlan(1, 1, 1)),
    ],
)
def test_rows_that_fit(zones: int, room: float, good: float, most: int, rows: RowPlan) -> None:
    """Rows of several lines while the lists stay good, single ones, then as many as have room."""
    assert plan_rows(zones, room, good, most) == rows


def test_remark_is_told_shorter_where_it_must_be() -> None:
    """Brackets go first, then what follows the colon: what is left is still a sentence."""
    season = "Outside the irrigation season (15 Sep to 15 May)."
    assert tellings(season)[1] == "Outside the irrigation season."
    unknown = "Precipitation rate is not known: set out cans, or type the rate."
    assert tellings(unknown) == (unknown, unknown, "Precipitation rate is not known.")


def test_thatch_row() -> None:
    """First and latest, beneath the name their months; a verdict's first half is a sentence."""
    row = thatch_row(spot_of(plugs(5)))
    assert row[0].detail == "May ’17 to May ’19"
    assert [cell.main for cell in row[:3]] == ["gate", "1.20", "1.04"]
    assert (
        short_verdict("Cannot say yet: 3 plugs; 2 more are needed.") == "Cannot say yet: 3 plugs."
    )
    assert short_verdict("Thinning.") == "Thinning."


@pytest.mark.parametrize(
    ("slope", "ci95", "told"),
    [
        (-0.25, (-0.34, -0.11), "−0.25"),
        (0.12, (0.03, 0.17), "+0.12"),
        (-0.07, (-0.17, 0.11), "none"),
        (-0.13, None, "–"),
    ],
)
def test_change_of_a_spot_in_a_year(
    slope: float, ci95: tuple[float, float] | None, told: str
) -> None:
    """Only where the plugs show one."""
    spot = replace(spot_of(plugs(5)), slope_in_per_year=slope, ci95=ci95)
    assert thatch_row(spot)[3].main == told


@pytest.mark.parametrize(
    ("height", "rows"),
    [
        (137.5, (5, TALL_ROW_PT)),
        (137.0, (5, ROW_PT)),
        (100.0, (5, ROW_PT)),
        (99.0, (4, ROW_PT)),
        (10.0, (1, ROW_PT)),
    ],
)
def test_spots_that_fit(height: float, rows: tuple[int, float]) -> None:
    """All with their months, else all in single lines, else as many as there is room for."""
    assert rows_that_fit(5, height) == rows


def test_other_spots_are_all_but_the_worst() -> None:
    """The worst has its picture; the others are listed with the thickest first."""
    others = [spot.spot for spot in other_spots(PLAN)]
    worst = worst_spot(PLAN)
    assert worst is not None
    assert sorted([worst.spot, *others]) == sorted(spot.spot for spot in PLAN.thatch)
    thick = [spot.latest_in or 0.0 for spot in other_spots(PLAN)]
    assert thick == sorted(thick, reverse=True)
    assert (worst.latest_in or 0.0) >= max(thick)


@pytest.mark.parametrize(
    ("numbers", "told"),
    [([1], "1"), ([2, 1], "1, 2"), ([1, 2, 3, 5], "1–3, 5"), ([4, 4, 6, 7, 8], "4, 6–8"), ([], "")],
)
def test_runs_of_numbers(numbers: list[int], told: str) -> None:
    """Three and more in a row are drawn together."""
    assert in_runs(numbers) == told


def test_due_names_zones_by_number() -> None:
    """The names at the end become the sketch's numbers; other texts stay as they are."""
    names = tuple(zone.zone for zone in PLAN.zones[:3])
    item = Due(
        date=ON, kind="water", what=f"Water 0.40 in: {', '.join(names)}", zones=names, why=""
    )
    assert said(item, PLAN) == "Water 0.40 in, zones 1–3"
    plug = Due(date=ON, kind="plug", what="Pull a plug at peg 1", zones=names[:1], why="")
    assert said(plug, PLAN) == "Pull a plug at peg 1"


def test_single_plug_has_no_then() -> None:
    """A spot with one plug, or with several of one day: a dash, then its thatch."""
    (only,) = plugs(1)
    for pulled in ((only,), (only, only)):
        row = thatch_row(spot_of(pulled))
        assert [cell.main for cell in row] == ["gate", "–", "1.20", "–"]
        assert row[0].detail == "May ’17"


def test_sources_left_out_are_counted() -> None:
    """Whole sources, then how many more there are."""
    assert (
        sources_text(("A.", "B", "C"), 2)
        == "Sources: A\u00a0· B\u00a0· and 1 more in the notebook."
    )
    assert sources_text(("A.",), 1) == "Sources: A."


def test_sources_of_water_feed_and_thatch_come_first() -> None:
    """However few sources find room, each subject's own is among them, and none is lost."""
    told = in_turn(PLAN)
    assert sorted(told) == sorted(PLAN.sources)
    water, budget, thatch = told[:3]
    assert any(water in each.source for zone in PLAN.zones for each in zone.workings)
    assert budget in PLAN.nitrogen[0].budget_source
    assert any(thatch in each.source for spot in PLAN.thatch for each in spot.workings)


def test_no_line_of_sources_begins_with_a_dot(ink: Ink) -> None:
    """Whatever the width, the dot between two sources stays with the one before it."""
    for width in range(120, 520, 7):
        for line in lay_foot(ink, PLAN, width, 30).sources:
            assert not line.startswith("·")


@pytest.mark.parametrize(("zones", "least"), [(0, 9.0), (1, 9.0), (4, 9.0), (11, 8.0), (40, 8.0)])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_type_is_large_enough_to_read(
    zones: int, least: float, paper: PaperName, ink: Ink, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing below 8 pt, pictures included; cautions at 9 pt where the page has room for it."""
    sizes: dict[str, float] = {}
    write = Ink.text

    def noted(self: Ink, at: Spot, text: str, style: Style, align: Align = "left") -> None:
        sizes[text] = style.size
        write(self, at, text, style, align)

    monkeypatch.setattr(Ink, "text", noted)
    book = yard_of(zones)
    plan = make_plan(book, ON)
    draw_page(ink.painter, book, plan, paper)
    assert min(sizes.values()) >= 8.0
    cautions = " ".join(plan.cautions)
    told = [size for text, size in sizes.items() if len(text) > 20 and text in cautions]
    assert len(set(told)) == 1
    assert told[0] >= least


def test_sources_take_no_line_of_the_rows(ink: Ink, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where more of them would leave the feed table one line a row, fewer are told."""
    content = Content(
        plan=PLAN,
        water_notes=1,
        feed_notes=0,
        third="empty",
        has_spreads=False,
        codes=codes_of(["plan"]),
    )
    heights = range(640, 860, 6)
    rows = [best_shares(ink, Box(0, 0, 507, height), content).rows for height in heights]
    monkeypatch.setattr(page_shares, "MOST_SOURCE_LINES", LEAST_SOURCE_LINES)
    assert rows == [best_shares(ink, Box(0, 0, 507, height), content).rows for height in heights]


def test_due_is_what_comes_besides_the_tables(qapp: QApplication) -> None:
    """The caption says that waterings and feedings stand above, not that it stands next to them."""
    book = yard_of(4)
    located = replace(book.yard, longitude_deg=-74.0, time_zone="America/New_York")
    book = replace(book, yard=located)
    flat = read_page(sheet_bytes(book, make_plan(book, ON), "letter")).flat
    assert "Due besides the tables above" in flat


def test_facts_of_the_masthead() -> None:
    """Area, count, grass, common soil and latitude."""
    assert facts(BOOK, PLAN) == ("6,400 sq ft of grass in 4 zones", "cool season, loam, 41.0° N")
    zones = {**BOOK.zones, "zone1": replace(BOOK.zones["zone1"], soil=None)}
    assert facts(replace(BOOK, zones=zones), PLAN)[1] == "cool season, 41.0° N"


@pytest.fixture
def ink(qapp: QApplication) -> Iterator[Ink]:
    """Ink on a small picture, which must outlive its painter."""
    ensure_qt()
    image = QImage(50, 50, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    yield Ink(painter)
    painter.end()


def test_fitting_keeps_within_the_width(ink: Ink) -> None:
    """Shortened text ends with a whole word, and one more would not have found room."""
    text = "Read the product label first"
    fitted = ink.fit(text, CELL, 80)
    assert fitted == "Read the…"
    assert ink.width("Read the product…", CELL) > 80 >= ink.width(fitted, CELL)
    assert ink.fit(text, CELL, 500) == text
    alone = ink.fit("3 Hinterlandmeadowside", CELL, 80)
    assert alone.startswith("3 Hinter")
    assert ink.width(alone, CELL) <= 80


def test_alike_names_are_told_apart_on_the_sheet(qapp: QApplication) -> None:
    """Zones and spots whose long names differ only at their end, in all tables."""
    zones = {
        key: replace(
            zone, name=f"Zone with a very long name beyond the second gate, {zone.name[-1]}"
        )
        for key, zone in BOOK.zones.items()
    }
    spots = {
        key: replace(spot, name=f"Marker with a very long name beyond the gate, {spot.name[-1]}")
        for key, spot in BOOK.spots.items()
    }
    book = replace(BOOK, zones=zones, spots=spots)
    flat = read_page(sheet_bytes(book, make_plan(book, ON), "letter")).flat
    for number in range(1, 5):
        assert len(re.findall(rf"\b{number} Zone[^…]*…[^…]*{number}\b", flat)) == 2
        assert re.search(rf"Marker[^…]*…{number}\b", flat.partition("Thatch")[2])


def test_name_is_set_smaller_before_it_is_cut(ink: Ink) -> None:
    """Half a point at a time, down to 8 pt; what would not fit even so keeps its size."""
    name = "Front lawn along the street"
    whole = ink.width(name, STRONG)
    assert ink.smaller(name, STRONG, whole) == STRONG
    assert ink.smaller(name, STRONG, whole * 0.93).size == 8.5
    assert ink.smaller(name, STRONG, whole * 0.5) == STRONG


def test_wrapping_loses_no_word(ink: Ink) -> None:
    """All words in order; the last line is shortened only where lines are limited."""
    text = "Keep granules off paving and out of water; sweep back what lands there"
    lines = ink.wrap(text, CAPTION, 90)
    assert " ".join(lines) == text
    assert all(ink.width(line, CAPTION) <= 90 for line in lines)
    two = ink.wrap(text, CAPTION, 90, most=2)
    assert len(two) == 2
    assert two[1].endswith("…")
    assert ink.wrap("", CAPTION, 90) == []


def test_paragraph_ends_in_no_lonely_word(ink: Ink) -> None:
    """A last line of one short word is filled from the lines above it; no line is added."""
    text = "Keep granules off paving and out of water; sweep back what lands there, and dry"
    plain = ink.wrap(text, CAPTION, ink.width(text.rpartition(" ")[0], CAPTION) + 1)
    width = ink.width(plain[0], CAPTION) + 1
    assert plain[-1] == "dry"
    lines = ink.paragraph(text, CAPTION, width)
    assert " ".join(lines) == text
    assert len(lines) == 2
    assert ink.width(lines[-1], CAPTION) >= 0.2 * width
    assert ink.paragraph("Short.", CAPTION, width) == ["Short."]
