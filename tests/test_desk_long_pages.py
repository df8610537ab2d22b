"""Long documents are painted beside the window: it answers meanwhile, and Stop leaves nothing."""

import sys
import threading
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QSize, Qt, QTimer
from PySide6.QtGui import QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk import printing, still_writing
from lawnbook.desk.beside import Beside, Stop
from lawnbook.desk.pages.print_row import PrintRow
from lawnbook.desk.pages.sheet_preview import PagesPreview, painted
from lawnbook.desk.printing import PageOut
from lawnbook.desk.wait_line import CALLED_OFF, WaitLine
from lawnbook.plan.make import make_plan
from lawnbook.reading import Reading, reading, reading_as, tr
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.pdf import page_bytes
from lawnbook.sheet.steady_pdf import steady_pdf
from lawnbook.yard.problems import GivenUpError
from tests.desk_hand import words
from tests.desk_sample import DAY, sample
from tests.page_book import click

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
PAGES = 12
LONG_S = 20.0


class Document:
    """Pages each of which waits until the window has answered; notes which thread paints them."""

    def __init__(self) -> None:
        self.answered = threading.Semaphore(0)
        self.begun = threading.Event()
        self.painted: list[int] = []
        self.threads: set[int] = set()

    def draw(self, number: int, painter: QPainter) -> None:
        """Paint a page once the window has answered."""
        self.begun.set()
        self.threads.add(threading.get_ident())
        assert self.answered.acquire(timeout=LONG_S), "the window did not answer"
        painter.drawLine(0, 0, 100, 10 * number)
        self.painted.append(number)

    def page(self, folder: Path) -> PageOut:
        """The document on its way out."""
        draws: list[Draw] = [partial(self.draw, number) for number in range(PAGES)]
        return PageOut("Many pages", folder / "many.pdf", "letter", draws, is_long=True)

    def let_through(self) -> None:
        """Let all pages be painted."""
        self.answered.release(PAGES + 1)


@pytest.fixture
def document() -> Iterator[Document]:
    made = Document()
    yield made
    made.let_through()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that the owner saves into."""
    made = tmp_path / "out"
    made.mkdir()
    monkeypatch.setattr(printing, "choose_pdf", lambda _, start: start)
    return made


@pytest.fixture
def page(document: Document, folder: Path) -> Iterator[QWidget]:
    """A page with a field to type in, and a row that saves the document."""
    made = QWidget()
    column = QVBoxLayout(made)
    row = PrintRow("paper", ("Print…", "Save as PDF…"), "many pages", made)
    row.show_page(lambda _: document.page(folder))
    column.addWidget(QLineEdit(made))
    column.addWidget(row)
    made.show()
    yield made
    document.let_through()
    line(made).finish()
    made.deleteLater()


def line(page: QWidget) -> WaitLine:
    """The line of what is being written."""
    found = page.findChild(WaitLine, "paper_writing")
    assert isinstance(found, WaitLine)
    return found


def test_a_key_and_a_timer_are_answered_between_any_two_pages(
    qtbot: QtBot, page: QWidget, document: Document, folder: Path
) -> None:
    """Each page waits for a tick of the window's; painted by the window it would wait for ever."""
    field = page.findChild(QLineEdit)
    assert isinstance(field, QLineEdit)
    click(page, "paper_save")
    assert document.begun.wait(LONG_S)
    QTest.keyClicks(field, "typed meanwhile")
    assert field.text() == "typed meanwhile"
    assert document.painted == []
    beats = QTimer(page)
    beats.timeout.connect(document.answered.release)
    beats.start(1)
    qtbot.waitUntil(lambda: not line(page).runs)
    beats.stop()
    assert document.painted == list(range(PAGES))
    assert threading.main_thread().ident not in document.threads
    assert words(page, "paper_said") == f"Saved: {folder / 'many.pdf'}"


def test_it_tells_how_far_it_is_and_stop_leaves_no_file(
    qtbot: QtBot, page: QWidget, document: Document, folder: Path
) -> None:
    click(page, "paper_save")
    document.answered.release(3)
    wait = line(page)
    qtbot.waitUntil(lambda: "3 of 12" in wait.accessibleDescription() and wait.isVisible())
    QTest.mouseClick(wait.stop_button, Qt.MouseButton.LeftButton)
    assert words(page, "paper_said") == CALLED_OFF
    document.let_through()
    wait.finish()
    assert list(folder.iterdir()) == []
    assert len(document.painted) < PAGES


def test_a_second_one_waits_for_the_first(page: QWidget, document: Document, folder: Path) -> None:
    click(page, "paper_save")
    assert document.begun.wait(LONG_S)
    click(page, "paper_save")
    assert "many.pdf is still being written" in words(page, "paper_said")
    assert line(page).runs


def test_closing_meanwhile_gives_it_up_and_leaves_nothing(
    page: QWidget, document: Document, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def give_up(_: QWidget, names: str) -> bool:
        asked.append(names)
        return True

    monkeypatch.setattr(still_writing, "sure_of_giving_up", give_up)
    click(page, "paper_save")
    assert document.begun.wait(LONG_S)
    writer = page.findChild(Beside)
    assert isinstance(writer, Beside)
    # What is given up still paints the page it is at.
    writer.ended.connect(document.let_through)
    assert still_writing.may_close(page)
    assert asked == ["many.pdf"]
    assert not line(page).runs
    assert list(folder.iterdir()) == []


def test_a_page_that_goes_meanwhile_leaves_nothing(
    qtbot: QtBot, document: Document, folder: Path
) -> None:
    """The window is gone, and with it all that would tell; the thread leaves off by itself."""
    gone = QWidget()
    wait = WaitLine("paper_writing", gone)
    told: list[object] = []
    printing.save(document.page(folder), folder / "many.pdf", wait, told.append)
    assert document.begun.wait(LONG_S)
    gone.deleteLater()
    del gone, wait
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    document.let_through()
    qtbot.waitUntil(lambda: "lawnbook-work" not in [each.name for each in threading.enumerate()])
    assert told == []
    assert list(folder.iterdir()) == []


def test_the_bytes_are_those_of_the_window_s_own_thread(
    qtbot: QtBot, page: QWidget, folder: Path
) -> None:
    notebook = sample("larkspur_corner")
    title, draws = sheet_document(notebook, make_plan(notebook, DAY), "a4", workings=True)
    out = PageOut(title, folder / "sheet.pdf", "a4", draws, is_long=True)
    told: list[object] = []
    printing.save(out, out.start, line(page), told.append)
    assert line(page).runs
    qtbot.waitUntil(lambda: bool(told))
    expected = page_bytes(title, draws, "a4")
    assert steady_pdf(out.start.read_bytes(), DAY) == steady_pdf(expected, DAY)


def test_past_its_last_step_it_is_done_to_its_end(qtbot: QtBot) -> None:
    """Never told as cancelled while it takes its place all the same."""
    settled, go = threading.Event(), threading.Event()

    def work(stop: Stop) -> str:
        stop.settle()
        settled.set()
        go.wait(LONG_S)
        return "written"

    told: list[object] = []
    wait = WaitLine("wait")
    cancelled: list[bool] = []
    wait.cancelled.connect(lambda: cancelled.append(True))
    wait.do("Writing…", work, told.append)
    assert settled.wait(LONG_S)
    wait.cancel()
    go.set()
    qtbot.waitUntil(lambda: bool(told))
    assert (told, cancelled) == (["written"], [])
    wait.deleteLater()


def test_a_stop_before_the_last_step_is_heeded_by_it() -> None:
    stop = Stop()
    assert stop.ask()
    with pytest.raises(GivenUpError):
        stop.settle()


def test_what_is_begun_is_told_as_it_was_read_then(qtbot: QtBot) -> None:
    spanish = Reading(units="metric", language="es", words={"Saved": "Guardado"})
    go, told = threading.Event(), list[object]()
    beside = Beside()

    def work(_: Stop) -> tuple[str, str]:
        go.wait(LONG_S)
        return tr("Saved"), reading().units

    with reading_as(spanish):
        beside.start(work, told.append)
    go.set()
    qtbot.waitUntil(lambda: bool(told))
    assert told == [("Guardado", "metric")]
    beside.deleteLater()


def test_a_thread_takes_short_turns_and_leaves_python_as_it_was(qtbot: QtBot) -> None:
    before, told = sys.getswitchinterval(), list[object]()
    beside = Beside()
    beside.start(lambda _: sys.getswitchinterval(), told.append)
    beside.start(lambda _: sys.getswitchinterval(), told.append)
    qtbot.waitUntil(lambda: len(told) == 2)
    beside.finish()
    assert all(isinstance(each, float) and each < before for each in told)
    assert sys.getswitchinterval() == before
    beside.deleteLater()


def test_long_pages_of_a_preview_are_painted_beside_the_window(
    qtbot: QtBot, document: Document
) -> None:
    preview = PagesPreview("preview", "A preview of many pages")
    preview.resize(500, 400)
    draws = document.page(Path()).draw
    assert not callable(draws)
    preview.show_pages(draws, "letter", "Twelve pages", is_long=True)
    preview.show()
    qtbot.waitUntil(document.begun.is_set)
    assert shade(preview) == "#ffffff", "blank paper until it is there"
    document.let_through()
    qtbot.waitUntil(lambda: preview.findChild(Beside) is not None and not in_making(preview))
    assert document.painted[0] == 0
    assert threading.main_thread().ident not in document.threads
    preview.show_pages(draws[:1], "letter", "One page", is_long=True)
    preview.close()
    preview.deleteLater()


def shade(preview: PagesPreview) -> str:
    """The colour in the middle of the first page."""
    return preview.grab().toImage().pixelColor(preview.page_box(0).center().toPoint()).name()


def in_making(preview: PagesPreview) -> bool:
    """Whether a page is being painted."""
    return any(each.runs for each in preview.findChildren(Beside))


def test_a_page_painted_in_a_thread_is_the_same_picture(qtbot: QtBot) -> None:
    notebook = sample("saltbush_court")
    _, draws = sheet_document(notebook, make_plan(notebook, DAY), "letter", workings=False)
    size, told = QSize(640, 828), list[object]()
    beside = Beside()
    beside.start(lambda _: painted(draws[0], "letter", size), told.append)
    qtbot.waitUntil(lambda: bool(told))
    (image,) = told
    assert isinstance(image, QImage)
    assert image == painted(draws[0], "letter", size)
    beside.deleteLater()
