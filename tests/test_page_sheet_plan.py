"""The plan on the Sheet page: its preview is what is printed, and a missing printer is said."""

import importlib
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QImage
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QDialog, QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk import printing
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.desk.settings import Settings
from lawnbook.languages import Pseudo
from lawnbook.plan.make import make_plan
from lawnbook.reading import Reading, reading_as
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.pdf import page_bytes, page_layout
from tests.desk_hand import child, shown, words
from tests.desk_sample import DAY
from tests.waiting import until_done

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
pdfium: Any = importlib.import_module("pypdfium2")
LEFT = Qt.MouseButton.LeftButton


def opened(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> SheetPage:
    """The page as it stands in a window."""
    page = SheetPage(book, settings)
    shown(qtbot, page, book)
    return page


def tick(page: SheetPage) -> None:
    """Click on the box of the workings."""
    QTest.mouseClick(child(page, "sheet_workings"), LEFT, pos=QPoint(10, 10))


def preview(page: SheetPage) -> PagesPreview:
    """The preview."""
    return cast(PagesPreview, child(page, "sheet_preview"))


def pages_in(path: Path) -> list[str]:
    """The text of each page of a PDF."""
    document = pdfium.PdfDocument(path)
    texts = [" ".join(page.get_textpage().get_text_range().split()) for page in document]
    document.close()
    return texts


def grey_of(image: QImage) -> NDArray[np.float64]:
    """An image in shades of grey."""
    held = image.convertToFormat(QImage.Format.Format_Grayscale8)
    raw = np.frombuffer(held.constBits(), dtype=np.uint8)
    return raw.reshape(held.height(), held.bytesPerLine())[:, : held.width()].astype(float)


def blocks(grey: NDArray[np.float64]) -> NDArray[np.float64]:
    """Means of squares of 12 pixels, which forgive other smoothing."""
    high, wide = (each // 12 * 12 for each in grey.shape)
    means = grey[:high, :wide].reshape(high // 12, 12, wide // 12, 12).mean(axis=(1, 3))
    return np.asarray(means, dtype=np.float64)


def test_every_page_of_the_preview_is_that_of_the_pdf(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    """One below the other, each as the PDF's page looks, at the preview's own size."""
    page = opened(qtbot, book, settings)
    tick(page)
    seen = preview(page)
    _, draws = sheet_document(book.notebook, make_plan(book.notebook, DAY), "letter", workings=True)
    qtbot.waitUntil(lambda: seen.height() >= seen.page_box(len(draws) - 1).bottom())
    picture = seen.grab().toImage()
    document = pdfium.PdfDocument(page_bytes("x", draws))
    assert len(document) == len(draws) > 3
    for number in range(len(draws)):
        box = seen.page_box(number).toRect()
        shot = grey_of(picture.copy(box))
        made = document[number].render(scale=box.width() / 612, grayscale=True).to_numpy()
        printed = np.array(made).reshape(made.shape[0], made.shape[1])[: shot.shape[0]]
        one, other = blocks(shot[: printed.shape[0], : printed.shape[1]]), blocks(printed)
        one = one[: other.shape[0], : other.shape[1]]
        assert np.corrcoef(one.ravel(), other[: one.shape[0], : one.shape[1]].ravel())[0, 1] > 0.96
    document.close()


def test_workings_are_wanted_or_not_and_remembered(
    qtbot: QtBot,
    book: OpenNotebook,
    settings: Settings,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The box, the preview's height and words, the saved file, and the next day."""
    page = opened(qtbot, book, settings)
    assert "1 page, 4 zones" in preview(page).accessibleDescription()
    alone = preview(page).heightForWidth(600)
    tick(page)
    assert preview(page).heightForWidth(600) > 3 * alone
    target = tmp_path / "plan.pdf"
    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", lambda *_: target)
    QTest.mouseClick(child(page, "sheet_save"), LEFT)
    until_done(page)
    first, second, *_ = pages_in(target)
    assert "Yard plan" in first
    assert "Workings of the plan" in second
    again = opened(qtbot, book, settings)
    assert cast(QCheckBox, child(again, "sheet_workings")).isChecked()
    QTest.keyClick(child(again, "sheet_workings"), Qt.Key.Key_Space)
    QTest.mouseClick(child(again, "sheet_save"), LEFT)
    assert len(pages_in(target)) == 1


def answered(answer: Callable[[QDialog], None]) -> None:
    """Once the printer's dialog is open, answer it."""

    def act() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QPrintDialog)
        answer(dialog)

    QTimer.singleShot(150, act)


def test_no_printer_is_said_with_the_way_out(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    """The dialog opens and is closed again: without a printer that is no change of mind."""
    assert QPrinterInfo.availablePrinterNames() == []
    page = opened(qtbot, book, settings)
    answered(lambda dialog: dialog.reject())
    QTest.mouseClick(child(page, "sheet_print"), LEFT)
    assert words(page, "sheet_said") == printing.NONE_SET_UP
    assert "Save a PDF" in printing.NONE_SET_UP


def test_a_change_of_mind_is_no_failure(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where there is a printer, a dialog that is closed says nothing."""
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: ["Den"])
    page = opened(qtbot, book, settings)
    answered(lambda dialog: dialog.reject())
    QTest.mouseClick(child(page, "sheet_print"), LEFT)
    assert words(page, "sheet_said") == ""


def into_file(path: Path) -> Callable[[QDialog], None]:
    """The answer that prints into a file."""

    def answer(dialog: QDialog) -> None:
        field = next(each for each in dialog.findChildren(QLineEdit) if each.isVisible())
        field.selectAll()
        QTest.keyClicks(field, str(path))
        QTest.keyClick(field, Qt.Key.Key_Return)

    return answer


def test_printing_into_a_file_leaves_a_whole_one(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, tmp_path: Path
) -> None:
    """The same PDF as saving gives, and it says where."""
    page = opened(qtbot, book, settings)
    target = tmp_path / "printed.pdf"
    answered(into_file(target))
    QTest.mouseClick(child(page, "sheet_print"), LEFT)
    assert str(target) in words(page, "sheet_said")
    assert len(pages_in(target)) == 1
    assert [each.name for each in tmp_path.iterdir() if each.suffix == ".pdf"] == ["printed.pdf"]


def page_out(draws: tuple[Draw, ...], path: Path) -> printing.PageOut:
    """Pages on their way out."""
    return printing.PageOut("plan", path, "letter", draws)


def test_printer_that_does_not_begin_is_said(
    book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is called sent that was not."""
    _, draws = sheet_document(book.notebook, make_plan(book.notebook, DAY), "letter", workings=True)
    printer = QPrinter()
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    monkeypatch.setattr(QPrinter, "newPage", lambda _: False)
    said = printing.print_on(printer, page_out(draws, tmp_path))
    assert (said.words, said.role) == (printing.NO_PRINTER, "refuse")
    stopped = QPrinter()
    stopped.setOutputFileName(str(tmp_path / "out.pdf"))
    monkeypatch.setattr(QPrinter, "printerState", lambda _: QPrinter.PrinterState.Error)
    assert printing.print_on(stopped, page_out(draws[:1], tmp_path)).words == printing.NO_PRINTER


@pytest.mark.parametrize(("span", "told"), [((2, 3), (2, 3)), ((1, 1), (1, 1)), ((0, 0), None)])
def test_chosen_pages_are_printed(
    book: OpenNotebook, tmp_path: Path, span: tuple[int, int], told: tuple[int, int] | None
) -> None:
    """The range of the dialog; all pages where there is none."""
    _, draws = sheet_document(book.notebook, make_plan(book.notebook, DAY), "letter", workings=True)
    printer = QPrinter()
    printer.setFullPage(True)
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    printer.setFromTo(*span)
    assert printing.print_on(printer, page_out(draws, tmp_path)).words == printing.SENT
    texts = pages_in(tmp_path / "out.pdf")
    first, last = told or (1, len(draws))
    assert len(texts) == last - first + 1
    assert ("Yard plan" in texts[0]) == (first == 1)
    if first > 1:
        assert f"{first} of {len(draws)}" in texts[0]


def test_a_page_larger_than_the_paper_is_printed_smaller(
    book: OpenNotebook, tmp_path: Path
) -> None:
    """A4 chosen for a Letter page: the right margin is kept, nothing is cut off."""
    _, draws = sheet_document(
        book.notebook, make_plan(book.notebook, DAY), "letter", workings=False
    )
    printer = QPrinter()
    printer.setFullPage(True)
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    printer.setPageLayout(page_layout("a4"))
    assert printing.print_on(printer, page_out(draws, tmp_path)).words == printing.SENT
    document = pdfium.PdfDocument(tmp_path / "out.pdf")
    image = np.array(document[0].render(scale=1, grayscale=True).to_numpy())
    document.close()
    assert image[:, -35:].min() == 255
    assert image[:, -60:].min() < 200


def test_in_a_longer_language_the_ways_out_stay_on_the_page(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    with reading_as(Reading(words=Pseudo())):
        page = SheetPage(book, settings)
        page.resize(520, 700)
        shown(qtbot, page, book)
    page.resize(520, 700)
    QApplication.processEvents()
    for name in ("sheet_print", "sheet_save", "sheet_workings"):
        control = child(page, name)
        seen = control.visibleRegion().boundingRect()
        assert (seen.width(), seen.height()) == (control.width(), control.height()), name
