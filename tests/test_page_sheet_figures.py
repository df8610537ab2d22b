"""The sheet's preview opens how a figure came about: by a click, by F1, and by keys alone."""

from collections.abc import Iterator
from datetime import date
from itertools import groupby

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QCursor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from lawnbook.desk.figures import FigureKey
from lawnbook.desk.pages.page_light import PageLight
from lawnbook.desk.pages.sheet_figures import PageFigures, placed_on
from lawnbook.desk.pages.sheet_plan import PlanSection
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.desk.window import BookWindow
from lawnbook.plan.make import make_plan
from lawnbook.plan.placed_workings import named_in, placed_workings
from lawnbook.plan.year_review import year_review
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.layout import paper_size_pt
from lawnbook.sheet.placed import Placed, parts_of
from lawnbook.sheet.review_documents import review_document
from lawnbook.yard.notebook import as_of
from tests.access_walk import opened, settle, turn
from tests.desk_sample import samples
from tests.figure_walk import panel_heads
from tests.page_book import part, put_away

ON = date(2026, 6, 15)


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """A yard of four zones with bags, spots and things due, its sheet turned to."""
    notebook = as_of(samples()["larkspur_corner"], ON)
    made = opened(tmp_path_factory.mktemp("sheet"), notebook, ON)
    turn(made, "Sheet", "Plan")
    settle(20)
    yield made
    made.book.close()
    put_away(made)


@pytest.mark.parametrize("stem", ["larkspur_corner", "hollow_bank", "saltbush_court"])
def test_every_place_on_the_sheet_opens_something(qapp: QApplication, stem: str) -> None:
    """On the page itself, and within it; printed nothing is told of places."""
    notebook = as_of(samples()[stem], ON)
    plan = make_plan(notebook, ON)
    _, draws = sheet_document(notebook, plan, "letter", workings=False)
    held = placed_on(draws[0])
    wide, high = paper_size_pt("letter")
    kinds = {parts_of(each.key)[0] for each in held}
    assert {"water", "feed", "due", "thatch"} <= kinds
    for each in held:
        assert 0 <= each.left < each.right <= wide
        assert 0 <= each.top < each.bottom <= high
        assert placed_workings(notebook, plan, *parts_of(each.key)), each.key


def test_every_place_on_the_review_opens_something(qapp: QApplication) -> None:
    """Headlines, bars, sentences, zones, spots and costs."""
    notebook = as_of(samples()["larkspur_corner"], ON)
    review = year_review(notebook, ON.year, ON)
    _, draws = review_document(notebook, review, "letter")
    held = [each for draw in draws for each in placed_on(draw)]
    assert len(held) > 40
    for each in held:
        kind, of, _ = parts_of(each.key)
        assert kind == "review"
        assert named_in(review.workings, of.split("\n")), each.key


def place_of(window: BookWindow, wanted: str) -> tuple[PagesPreview, QPoint]:
    """Where the first figure of a key stands on the preview."""
    page = turn(window, "Sheet", "Plan")
    settle(20)
    preview = part(page, PagesPreview, "sheet_preview")
    found: Placed = next(each for each in placed_on(preview.draws()[0]) if wanted in each.key)
    box = preview.page_box(0)
    wide, _ = paper_size_pt(preview.paper())
    scale = box.width() / wide
    x, y = (found.left + found.right) / 2, (found.top + found.bottom) / 2
    return preview, QPointF(box.left() + x * scale, box.top() + y * scale).toPoint()


@pytest.mark.parametrize(
    ("key", "begins"),
    [
        (":next_run_minutes", "Run time of the next watering"),
        (":area_sqft", "Area"),
        (":precipitation_rate_in_per_h", "Precipitation rate"),
        (":applied_year", "Nitrogen fed this year"),
        ("thatch:", "Change"),
    ],
)
def test_a_click_on_a_figure_opens_it(window: BookWindow, key: str, begins: str) -> None:
    """A whole click, pressed and let go on the same figure."""
    preview, at = place_of(window, key)
    QTest.mouseClick(preview, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    heads = panel_heads()
    assert heads[0].startswith(begins), heads


def test_f1_opens_what_lies_under_the_pointer(window: BookWindow) -> None:
    """And on bare paper, where nothing stands, no panel comes."""
    preview, at = place_of(window, ":cycles")
    section = window.findChild(PlanSection)
    assert section is not None
    QCursor.setPos(preview.mapToGlobal(at))
    assert section.figures.workings()
    next(each for each in window.children() if isinstance(each, FigureKey)).answer()
    assert panel_heads()[0].startswith("Cycles")
    assert isinstance(section.figures, PageFigures)
    corner = preview.page_box(0).topLeft() + QPointF(3, 3)
    assert section.figures.key_at(corner) == ""


def test_keys_go_from_figure_to_figure(window: BookWindow) -> None:
    """What is chosen is lit and spoken; Enter and F1 open it, Escape lets it go."""
    page = turn(window, "Sheet", "Plan")
    settle(20)
    preview = part(page, PagesPreview, "sheet_preview")
    light = part(preview, PageLight, "sheet_preview_light")
    preview.setFocus(Qt.FocusReason.TabFocusReason)
    whole = preview.accessibleDescription()
    assert not light.isVisible()
    told, places = [], []
    for _ in range(3):
        QTest.keyClick(preview, Qt.Key.Key_Right)
        assert light.isVisible()
        told.append(preview.accessibleDescription())
        places.append(light.geometry())
    assert len({*told, whole}) == 4
    assert not places[0].intersects(places[2])
    QTest.keyClick(preview, Qt.Key.Key_Left)
    assert (preview.accessibleDescription(), light.geometry()) == (told[1], places[1])
    QTest.keyClick(preview, Qt.Key.Key_Return)
    heads = panel_heads()
    assert "; ".join(heads) == told[1]
    assert light.isVisible()
    next(each for each in window.children() if isinstance(each, FigureKey)).answer()
    assert panel_heads() == heads
    QTest.keyClick(preview, Qt.Key.Key_Escape)
    assert not light.isVisible()
    assert preview.accessibleDescription() == whole


def test_every_place_is_come_to_and_the_ends_hold(window: BookWindow) -> None:
    """From the first to the last figure of the pages, and no further; other pages forget it."""
    page = turn(window, "Sheet", "Year in review")
    settle(20)
    preview = part(page, PagesPreview, "review_preview")
    light = part(preview, PageLight, "review_preview_light")
    preview.setFocus(Qt.FocusReason.TabFocusReason)
    keys = [key for draw in preview.draws() for key, _ in groupby(e.key for e in placed_on(draw))]
    for _ in keys:
        QTest.keyClick(preview, Qt.Key.Key_Left)
    first = preview.accessibleDescription()
    come_to = 1
    while True:
        before = light.geometry()
        QTest.keyClick(preview, Qt.Key.Key_Right)
        if light.geometry() == before:
            break
        come_to += 1
    assert first != preview.accessibleDescription()
    assert come_to == len(keys) > 15
    preview.show_pages(preview.draws()[:1], preview.paper(), "one page")
    assert preview.accessibleDescription() == "one page"
