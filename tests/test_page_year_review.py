"""The year in review in the window: stepped by year, painted as it prints, said in words."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from lawnbook.desk import printing
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.desk.pages.sheet_review import ReviewSection
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.settings import Settings
from lawnbook.desk.workings import WorkingLink, WorkingPanel
from lawnbook.plan.make import make_plan
from lawnbook.plan.year_review import year_review
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.review_documents import review_document
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Watering
from tests.desk_hand import words
from tests.desk_sample import sample
from tests.page_book import click, follow, part, put_away, settle, unnamed
from tests.pdf_reading import read_page

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
ON = date(2026, 11, 15)


def opened(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> ReviewSection:
    """The section, following its notebook, wide enough to read."""
    section = ReviewSection(book, settings)
    section.resize(640, 1600)
    qtbot.addWidget(section)
    section.show()
    follow(book, section.show_plan, ON)
    settle()
    return section


@pytest.fixture
def section(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> Iterator[ReviewSection]:
    """Larkspur Corner on 15 November 2026."""
    made = opened(qtbot, book, settings)
    yield made
    put_away(made)


def sentences(section: ReviewSection) -> list[str]:
    """What changed, from the top down."""
    settle()
    found = [
        each
        for each in section.findChildren(QLabel)
        if each.objectName().startswith("review_sentence_") and each.isVisible()
    ]
    return [
        each.text()
        for each in sorted(found, key=lambda each: each.mapTo(section, each.rect().topLeft()).y())
    ]


def test_the_days_own_year_stands_first_with_its_sentences(section: ReviewSection) -> None:
    review = year_review(sample("larkspur_corner"), 2026, ON)
    assert words(section, "review_year") == "2026"
    assert words(section, "review_compared") == review.compared
    assert sentences(section) == [each.text for each in review.changed]
    figures = part(section, FigureRow, "review_figures").figures()
    assert figures[0][0] == "76,876 gal"
    assert len(figures) == 4


def test_years_are_stepped_by_mouse_and_key_to_the_first_and_back(section: ReviewSection) -> None:
    assert not section.later.isEnabled()
    click(section, "review_earlier")
    assert words(section, "review_year") == "2025"
    section.earlier.setFocus()
    QTest.keyClick(section.earlier, Qt.Key.Key_Space)
    assert words(section, "review_year") == "2024"
    assert not section.earlier.isEnabled()
    review = year_review(sample("larkspur_corner"), 2024, ON)
    assert sentences(section) == [each.text for each in review.changed]
    click(section, "review_later")
    click(section, "review_later")
    assert words(section, "review_year") == "2026"


def test_the_year_chosen_stays_as_the_day_moves_on(
    section: ReviewSection, book: OpenNotebook
) -> None:
    """The day's own year is followed; one that was stepped to stays."""
    section.show_plan(make_plan(book.notebook, date(2025, 7, 1)))
    assert words(section, "review_year") == "2025"
    assert "1 Jan to 1 Jul 2025" in words(section, "review_compared")
    click(section, "review_earlier")
    section.show_plan(make_plan(book.notebook, ON))
    assert words(section, "review_year") == "2024"


def test_an_edit_is_followed_at_once(section: ReviewSection, book: OpenNotebook) -> None:
    zone = next(iter(book.notebook.zones))
    more = Watering(id="more", date=date(2026, 7, 1), zone=zone, depth_in=1.0)
    book.edit(put(book.notebook, "waterings", more), "one watering")
    wanted = year_review(book.notebook, 2026, ON)
    assert sentences(section)[0] == wanted.changed[0].text
    assert part(section, FigureRow, "review_figures").figures()[0][0] != "76,876 gal"
    book.undo()
    assert part(section, FigureRow, "review_figures").figures()[0][0] == "76,876 gal"


def test_a_sentence_opens_the_workings_of_its_figures(section: ReviewSection) -> None:
    link = part(section, WorkingLink, "review_working_0")
    assert link.accessibleName() == "Working: Water put down, Water over the lawn"
    QTest.mouseClick(link, Qt.MouseButton.LeftButton)
    panel = link.findChild(WorkingPanel)
    assert panel is not None
    said = " ".join(each.text() for each in panel.findChildren(QLabel))
    assert "76,876 gal" in said
    panel.close()


def test_the_preview_paints_what_is_printed(section: ReviewSection, book: OpenNotebook) -> None:
    """The first page in the preview is the first page of the document, dot by dot."""
    preview = part(section, PagesPreview, "review_preview")
    seen = preview.grab().toImage()
    _, draws = review_document(book.notebook, year_review(book.notebook, 2026, ON), "letter")
    box = preview.page_box(0).toRect()
    image = QImage(box.size(), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    painter.scale(image.width() / 612, image.height() / 792)
    draws[0](painter)
    painter.end()
    for share in (0.06, 0.2, 0.35, 0.5, 0.8):
        y = int(image.height() * share)
        row = [image.pixel(x, y) for x in range(image.width())]
        assert [seen.pixel(box.left() + x, box.top() + y) for x in range(image.width())] == row


def test_the_paper_is_chosen_and_all_pages_fit_below_each_other(
    section: ReviewSection, settings: Settings
) -> None:
    preview = part(section, PagesPreview, "review_preview")
    letter = preview.heightForWidth(600)
    click(section, "review_paper_a4")
    assert settings.paper == "a4"
    assert preview.heightForWidth(600) > letter > 2 * 584


def test_everything_printed_is_told_to_a_screen_reader(section: ReviewSection) -> None:
    told = part(section, PagesPreview, "review_preview").accessibleDescription()
    for said in (
        "Water: 76,876 gal, 25.1 in over the lawn, 2025: 76,567 gal.",
        "May 13,",
        "Cost Aeration: 2026 45.00, 2025 60.00; 1 time.",
        "Zone 1 Front lawn: Water in 27.0, 2026 gal 27,712",
        "Spot letterbox: Plugs then 20 Sep 2025, Plugs now 19 Sep, Thatch then, in 0.90",
        "nothing to compare it with yet",
    ):
        assert said in told
    assert unnamed(section) == []


def test_it_is_saved_as_a_pdf(
    section: ReviewSection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "review.pdf"
    offered: list[Path] = []

    def choose(_parent: object, start: Path) -> Path:
        offered.append(start)
        return target

    monkeypatch.setattr(printing, "choose_pdf", choose)
    click(section, "review_earlier")
    click(section, "review_save")
    assert offered[0].name == "Larkspur Corner 2025 in review.pdf"
    assert "Year in review: 2025" in read_page(target).flat
    assert words(section, "review_said") == f"Saved: {target}"
    click(section, "review_earlier")
    assert words(section, "review_said") == ""


@pytest.fixture
def bare(qtbot: QtBot, empty_book: OpenNotebook, settings: Settings) -> Iterator[ReviewSection]:
    """A yard with nothing in it."""
    made = opened(qtbot, empty_book, settings)
    yield made
    put_away(made)


def test_an_empty_yard_has_one_year_and_says_that_nothing_is_there(bare: ReviewSection) -> None:
    assert not bare.earlier.isEnabled()
    assert not bare.later.isEnabled()
    assert sentences(bare)[0] == "No watering is on record in these days."
