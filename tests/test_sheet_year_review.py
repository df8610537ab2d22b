"""The year in review on paper: nothing over anything, nothing beyond the margins, nothing lost."""

from collections.abc import Callable
from datetime import date, timedelta
from statistics import fmean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPoint
from PySide6.QtGui import QImage, QPainter

from lawnbook.charts.marks import Frame, Polygon, Ring
from lawnbook.charts.review import paired_marks
from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_model import YearReview
from lawnbook.sheet.flow import Block, flowed
from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import Box, PaperName, paper_size_pt
from lawnbook.sheet.pdf import page_bytes
from lawnbook.sheet.review_documents import review_document
from lawnbook.sheet.review_figures import (
    cost_rows,
    headlines,
    thatch_rows,
    water_months,
    work_rows,
    zone_rows,
)
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import Care, Core, Feeding, Product, Record, Spot, Watering, Zone
from tests.desk_sample import sample
from tests.pdf_reading import ReadPage, grey, overlapping, read_page

pytestmark = pytest.mark.usefixtures("qapp")
PAPERS: tuple[PaperName, ...] = ("letter", "a4")
HALF_INCH_PT = 36.0
ON = date(2026, 11, 15)
LONG = "behind the old greenhouse by the second gate of the long meadow"


def invented(zones: int, spots: int, kinds: int, name: str = "") -> Notebook:
    """So many zones, spots of two plugs, and kinds of care and products, in 2025 and 2026."""
    days = (date(2025, 6, 1), date(2026, 6, 1))
    ids = [f"z{n}" for n in range(zones)]
    rows: dict[str, list[Record]] = {
        "zones": [
            Zone(
                id=each,
                name=f"Zone {each} {name}".strip(),
                outline_ft=rectangle_ft((50.0 * n, 0), 40, 25),
                precipitation_in_per_h=None if n % 3 else 1.2,
            )
            for n, each in enumerate(ids)
        ],
        "spots": [Spot(id=f"s{n}", name=f"spot {n} {name}".strip()) for n in range(spots)],
        "cores": [
            Core(id=f"c{n}{on.year}", spot=f"s{n}", date=on, thatch_in=(0.5 + n / 100, 0.6))
            for n in range(spots)
            for on in days
        ],
        "products": [
            Product(id=f"p{n}", name=f"Feed {n} {name}".strip(), n_pct=20.0, price=30.0)
            for n in range(kinds)
        ],
        "care": [
            Care(id=f"k{n}{on.year}", date=on + timedelta(days=n), kind=f"care {n} {name}")
            for n in range(kinds)
            for on in days
        ],
        "waterings": [
            Watering(id=f"w{z}{on.year}", date=on, zone=z, minutes=30.0) for z in ids for on in days
        ],
        "feedings": [
            Feeding(id=f"f{n}{on.year}", date=on, product=f"p{n}", pounds=dict.fromkeys(ids, 9.0))
            for n in range(kinds if ids else 0)
            for on in days
        ],
    }
    return with_tables(new_notebook(f"Yard {name}".strip()), rows)


CASES: dict[str, Callable[[], Notebook]] = {
    "hollow_bank": lambda: sample("hollow_bank"),
    "larkspur_corner": lambda: sample("larkspur_corner"),
    "saltbush_court": lambda: sample("saltbush_court"),
    "empty": lambda: new_notebook("Home"),
    "no spots": lambda: invented(2, 0, 1),
    "no zones": lambda: invented(0, 2, 2),
    "forty zones": lambda: invented(40, 30, 2),
    "many costs": lambda: invented(3, 3, 30),
    "long names": lambda: invented(6, 6, 6, LONG),
}


def pages_of(notebook: Notebook, paper: PaperName, year: int = 2026) -> list[bytes]:
    """Each page of the review as a PDF of its own."""
    title, draws = review_document(notebook, year_review(notebook, year, ON), paper)
    return [page_bytes(title, draw, paper) for draw in draws]


def within_margins(read: ReadPage, paper: PaperName) -> None:
    """Every text stands within the margins, and none over another."""
    assert (read.width, read.height) == pytest.approx(paper_size_pt(paper), abs=0.6)
    for box in read.boxes:
        assert box.left >= HALF_INCH_PT - 0.5, box
        assert box.right <= read.width - HALF_INCH_PT + 0.5, box
        assert box.top >= HALF_INCH_PT - 0.5, box
        assert box.bottom <= read.height - HALF_INCH_PT + 0.5, box
    assert overlapping(read.boxes) == []


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_over_anything_and_all_within_the_margins(case: str, paper: PaperName) -> None:
    pages = pages_of(CASES[case](), paper)
    for number, data in enumerate(pages, start=1):
        read = read_page(data)
        within_margins(read, paper)
        assert ("of" in read.flat and f"{number} of {len(pages)}" in read.flat) == (len(pages) > 1)
        edges = grey(data)
        assert min(edges[:34].min(), edges[-34:].min(), edges[:, :34].min()) == 255


@settings(max_examples=6)
@given(
    st.integers(0, 12),
    st.integers(0, 12),
    st.integers(0, 14),
    st.sampled_from(("", "by the gate", LONG)),
    st.sampled_from(PAPERS),
)
def test_any_yard_composes(zones: int, spots: int, kinds: int, name: str, paper: PaperName) -> None:
    for data in pages_of(invented(zones, spots, kinds, name), paper):
        within_margins(read_page(data), paper)


@pytest.mark.parametrize("year", [2024, 2025, 2026])
@pytest.mark.parametrize("stem", ["hollow_bank", "larkspur_corner", "saltbush_court"])
def test_all_that_the_review_says_can_be_read(stem: str, year: int) -> None:
    """Sentences, headlines and the cells of every table stand in the text of the pages."""
    notebook = sample(stem)
    review = year_review(notebook, year, ON)
    read = " ".join(read_page(data).flat for data in pages_of(notebook, "letter", year))
    for words in _said(review):
        assert " ".join(words.split()) in read, words


def _said(review: YearReview) -> list[str]:
    tables = (cost_rows, zone_rows, thatch_rows, work_rows)
    rows = [row for rows_of in tables for row in rows_of(review)]
    cells = [text for row in rows for text in (row.name, *row.cells, row.detail, row.words)]
    shown = [text for h in headlines(review) for text in (h.figure, h.name, h.remark, h.before)]
    return [review.compared, *(each.text for each in review.changed), *shown, *cells]


@pytest.mark.parametrize("stem", ["hollow_bank", "larkspur_corner", "saltbush_court"])
def test_what_no_figure_holds_is_told_at_the_head(stem: str) -> None:
    """Behind the days compared, so that it never stands alone on a page of its own."""
    notebook = sample(stem)
    review = year_review(notebook, 2026, ON)
    pages = pages_of(notebook, "letter")
    first, *further = (read_page(data).flat for data in pages)
    assert f"{review.compared} What is not on record is in no figure here. Water" in first
    assert not any("What is not on record" in flat for flat in further)


def test_a_small_yard_takes_one_page_and_no_row_of_a_large_one_is_lost() -> None:
    assert len(pages_of(invented(2, 2, 1), "letter")) == 1
    pages = pages_of(invented(40, 30, 2), "letter")
    read = " ".join(read_page(data).flat for data in pages)
    assert [n for n in range(40) if f"{n + 1} Zone z{n} " not in f"{read} "] == []
    assert [n for n in range(30) if f"spot {n} " not in read] == []


def test_a_yard_without_records_says_so() -> None:
    read = " ".join(read_page(data).flat for data in pages_of(new_notebook("Home"), "a4"))
    for words in ("No watering is on record", "No work is on record", "No spot is marked yet"):
        assert words in read


def test_both_years_are_told_apart_in_grey() -> None:
    """The solid bar is dark on the page, the hatched one mostly paper."""
    drawn = paired_marks(water_months(year_review(invented(1, 0, 0), 2026, ON)), Frame(240, 116))
    image = QImage(960, 464, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    painter.scale(4, 4)
    Ink(painter).picture(drawn, 0, 0)
    painter.end()
    bars = [mark for mark in drawn.marks if isinstance(mark, Polygon)]
    solid = next(mark.rings[0] for mark in bars if mark.fill and mark.rings[0][2][1] > 50)
    hatched = next(mark.rings[0] for mark in bars if mark.edge and mark.rings[0][2][1] > 50)
    assert mean_grey(image, solid) < 120
    assert mean_grey(image, hatched) > 160


def mean_grey(image: QImage, ring: Ring) -> float:
    """How light a rectangle of a picture in points is, from 0 to 255."""
    (left, top), _, (right, bottom), _ = ring
    spots = [
        QPoint(x, y)
        for x in range(int(4 * left), int(4 * right))
        for y in range(int(4 * top), int(4 * bottom))
    ]
    return fmean(image.pixelColor(each).lightness() for each in spots)


def test_a_long_table_goes_on_with_its_heads_and_loses_no_row() -> None:
    pages = [read_page(data) for data in pages_of(invented(3, 60, 0), "letter")]
    with_spots = [each for each in pages if "spot" in each.flat]
    assert len(with_spots) > 1
    assert all("then, in" in each.flat for each in with_spots)
    assert sum(each.flat.count("Trend: Cannot say yet") for each in pages) == 60


def test_blocks_flow_to_the_next_page_whole_and_in_order() -> None:
    page = Box(0, 0, 100, 100)
    blocks = [Block(each, lambda *_: None, 10.0, keeps=each == 17) for each in (40, 30, 17, 50)]
    pages = flowed(blocks, page, page)
    assert [[placed.block.height_pt for placed in each] for each in pages] == [[40, 30], [17, 50]]
    assert [placed.box.top for placed in pages[1]] == [0, 27]
    assert flowed([], page, page) == ((),)
