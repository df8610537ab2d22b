"""Then and now in the window: the days, the photographs, figures, links, and the way to paper."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk import printing
from lawnbook.desk.pages import then_now_words
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.photo_pair_view import PhotoPairView
from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.pages.plugs_then_now import DayChoice, ThenNowSection
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.desk.widgets import LinkButton, QuietButton
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import Place
from lawnbook.plan.then_now import then_and_now
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet import photo_pair
from lawnbook.sheet.layout import PaperName
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Notebook, new_notebook
from tests.desk_hand import words
from tests.page_book import click, open_book, part, put_away, settle, unnamed
from tests.pdf_reading import read_page
from tests.then_now_book import BETWEEN, NOW, THEN, TODAY, drawn_photo, two_days
from tests.waiting import until_done

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
GATE, SHED, OAK = (Place("spot", each) for each in ("gate", "shed", "oak"))
YARD = Place("yard", "")


class Shown:
    """The section on its own, following its notebook."""

    def __init__(self, qtbot: QtBot, folder: Path, notebook: Notebook) -> None:
        """Open the notebook and show the section of the gate."""
        self.book: OpenNotebook = open_book(folder, TODAY, notebook)
        self.section = ThenNowSection(self.book)
        self.section.resize(620, 900)
        qtbot.addWidget(self.section)
        self.section.show()
        self.told: list[tuple[str, str]] = []
        self.section.selected.connect(lambda *record: self.told.append(record))
        self.at = GATE
        self.look(GATE)

    def look(self, place: Place, on: date = TODAY) -> None:
        """Look at a place on a day."""
        self.at = place
        self.section.show_plan(make_plan(self.book.notebook, on), place)
        settle()

    def day(self, name: str) -> DayChoice:
        """One of the two choosers."""
        return part(self.section, DayChoice, name)

    def rows(self) -> dict[str, tuple[str, ...]]:
        """The table's rows by their names."""
        table = part(self.section, RecordTable, "then_now_figures")
        cells = [
            [item.text() if (item := table.item(row, k)) else "" for k in range(4)]
            for row in range(table.rowCount())
        ]
        return {row[0]: tuple(row[1:]) for row in cells}


@pytest.fixture
def shown(qtbot: QtBot, tmp_path: Path) -> Iterator[Shown]:
    """The section at the gate, whose first and latest days have photographs."""
    made = Shown(qtbot, tmp_path, two_days(drawn_photo("c1"), drawn_photo("c3", 60)))
    yield made
    put_away(made.section)
    made.book.close()


def links(shown: Shown) -> list[str]:
    """The links to spots that can be seen, from the top down."""
    found = shown.section.findChildren(LinkButton)
    seen = [
        each for each in found if each.isVisible() and each.objectName().startswith("then_now_to_")
    ]
    return [each.text() for each in sorted(seen, key=lambda each: each.y())]


def choose(box: DayChoice, *keys: Qt.Key) -> None:
    """Choose by keys."""
    box.setFocus()
    for key in keys:
        QTest.keyClick(box, key)
    settle()


def test_first_and_latest_day_stand_side_by_side(shown: Shown) -> None:
    pair = then_and_now(shown.book.notebook, "gate", THEN, NOW)
    assert (shown.day("then_day").day, shown.day("now_day").day) == (THEN, NOW)
    assert words(shown.section, "then_now_verdict") == pair.words[0]
    assert words(shown.section, "then_now_words") == "\n".join(pair.words[1:])
    assert shown.rows()["Thatch, in"] == ("1.00", "0.55", "−0.45")
    assert shown.rows()["Worms"] == ("2", "–", "")
    assert words(shown.section, "then_now_done") == "31 May 2024, aeration, Side"
    assert words(shown.section, "then_now_photo_words") == photo_pair.ALIGNED


def test_other_days_are_chosen_by_keys_and_stay_chosen(shown: Shown) -> None:
    """A later "then" leaves only later days for "now"; another spot and back changes nothing."""
    choose(shown.day("then_day"), Qt.Key.Key_Down)
    assert (shown.day("then_day").day, shown.day("now_day").day) == (BETWEEN, NOW)
    assert shown.day("now_day").count() == 1
    assert shown.rows()["Thatch, in"] == ("0.85", "0.55", "−0.30")
    shown.look(SHED)
    shown.look(GATE)
    assert shown.day("then_day").day == BETWEEN
    choose(shown.day("then_day"), Qt.Key.Key_Up)
    choose(shown.day("now_day"), Qt.Key.Key_Up)
    assert (shown.day("then_day").day, shown.day("now_day").day) == (THEN, BETWEEN)
    assert shown.rows()["Thatch, in"] == ("1.00", "0.85", "−0.15")


def test_a_plug_taken_out_is_followed(shown: Shown) -> None:
    """The chosen day is gone: the latest that is left stands in its place."""
    shown.book.edit(remove(shown.book.notebook, "cores", "c3"), "one plug less")
    shown.look(GATE)
    assert (shown.day("then_day").day, shown.day("now_day").day) == (THEN, BETWEEN)
    assert "1 more photo" not in words(shown.section, "then_now_photo_words")


def test_an_earlier_day_looked_at_knows_no_later_plug(shown: Shown) -> None:
    shown.look(GATE, date(2025, 12, 1))
    assert shown.day("now_day").day == BETWEEN
    shown.look(GATE, date(2024, 12, 1))
    assert words(shown.section, "then_now_empty") == then_now_words.ONE_DAY.format("11 May 2024")


@pytest.mark.parametrize(
    ("place", "said"),
    [(SHED, then_now_words.ONE_DAY.format("9 May 2026")), (OAK, then_now_words.NO_PLUG)],
)
def test_too_few_plugs_are_said_and_nothing_is_compared(
    shown: Shown, place: Place, said: str
) -> None:
    shown.look(place)
    assert words(shown.section, "then_now_empty") == said
    assert not part(shown.section, RecordTable, "then_now_figures").isVisible()
    assert not part(shown.section, QuietButton, "then_now_print").isVisible()


def test_the_yard_and_a_zone_lead_to_their_spots(shown: Shown) -> None:
    shown.look(YARD)
    assert words(shown.section, "then_now_empty") == then_now_words.PICK
    assert links(shown) == [
        "Gate, Side: plugs of 3 days",
        "Oak, Front: no plug yet",
        "Shed, Side: plugs of 1 day",
    ]
    click(shown.section, "then_now_to_gate")
    assert shown.told == [("spots", "gate")]
    shown.look(Place("zone", "front"))
    assert links(shown) == ["Oak: no plug yet"]
    shown.look(GATE)
    assert links(shown) == []


def test_without_any_spot_it_says_how_to_begin(qtbot: QtBot, tmp_path: Path) -> None:
    made = Shown(qtbot, tmp_path, new_notebook("Bare"))
    made.look(YARD)
    assert words(made.section, "then_now_empty") == then_now_words.NO_SPOT
    put_away(made.section)
    made.book.close()


def test_photographs_are_painted_and_pictures_are_described(shown: Shown) -> None:
    """The red dots of both lie in the picture; what is drawn is said for those who cannot see."""
    photos = part(shown.section, PhotoPairView, "then_now_photos")
    seen = photos.grab().toImage()
    red = [
        x
        for x in range(0, seen.width(), 2)
        for y in range(0, seen.height(), 2)
        if (c := seen.pixelColor(x, y)).red() > 180 and c.green() < 90
    ]
    assert any(x < seen.width() / 2 for x in red)
    assert any(x > seen.width() / 2 for x in red)
    columns = part(shown.section, MarksView, "then_now_columns")
    assert "Thatch, in: then 1.00, now 0.55" in columns.accessibleDescription()
    assert unnamed(shown.section) == []


def test_days_without_photographs_say_where_to_add_them(shown: Shown) -> None:
    for photo_id in ("p-c1", "p-c3"):
        shown.book.edit(remove(shown.book.notebook, "photos", photo_id), "one photo less")
    shown.look(GATE)
    assert words(shown.section, "then_now_photo_words") == then_now_words.NO_PHOTO
    assert not part(shown.section, PhotoPairView, "then_now_photos").isVisible()


def test_the_page_is_saved_on_the_paper_chosen(
    shown: Shown, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "pair.pdf"
    proposed: list[Path] = []

    def pick(_parent: QWidget, start: Path) -> Path:
        proposed.append(start)
        return target

    def a4() -> PaperName:
        return "a4"

    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", pick)
    shown.section.out.paper = a4
    click(shown.section, "then_now_save")
    assert proposed[0].name == "Gate 2024-05-11 and 2026-05-09.pdf"
    until_done(shown.section)
    assert str(target) in words(shown.section, "then_now_said")
    page = read_page(target)
    assert page.height == pytest.approx(842, abs=1)
    assert "Then and now: 11 May 2024 and 9 May 2026" in page.flat
    shown.look(SHED)
    shown.look(GATE)
    assert words(shown.section, "then_now_said") == ""


def test_a_place_that_cannot_be_written_is_said(
    shown: Shown, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "gone" / "pair.pdf"
    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", lambda *_: target)
    click(shown.section, "then_now_save")
    until_done(shown.section)
    assert "gone is not there" in words(shown.section, "then_now_said")


def test_thinking_better_of_it_says_nothing(shown: Shown, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", lambda *_: None)
    click(shown.section, "then_now_save")
    assert words(shown.section, "then_now_said") == ""


def test_the_printer_gets_the_same_page(
    shown: Shown, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "printed.pdf"

    def straight(_parent: QWidget, page: printing.PageOut) -> printing.Said:
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setFullPage(True)
        printer.setOutputFileName(str(target))
        return printing.print_on(printer, page)

    monkeypatch.setattr(printing, "ask_print", straight)
    click(shown.section, "then_now_print")
    assert words(shown.section, "then_now_said") == printing.SENT
    assert read_page(target).pages == 1


def test_the_form_is_saved_from_next_for_the_place_shown(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The whole page: the section turned to, the zone's spots on the form, the paper's size."""
    book = open_book(tmp_path, TODAY, two_days())
    page = PlugsPage(book, paper=lambda: "a4")
    qtbot.addWidget(page)
    page.resize(620, 900)
    page.show()
    page.show_plan(make_plan(book.notebook, date(2027, 5, 1)))
    page.select("zones", "side")
    page.turn_to("Next")
    settle()
    target = tmp_path / "form.pdf"
    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", lambda *_: target)
    click(page, "plug_form_save")
    read = read_page(target)
    assert read.height == pytest.approx(842, abs=1)
    assert "Gate" in read.flat
    assert "Oak" not in read.flat
    page.turn_to("Then and now")
    settle()
    click(page, "then_now_to_gate")
    settle()
    assert page.place == GATE
    assert part(page, DayChoice, "then_day").day == THEN
    put_away(page)
    book.close()
