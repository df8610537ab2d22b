"""The code for the phone, read back from the printed page module by module."""

import importlib
from dataclasses import replace
from datetime import date
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from lawnbook.charts.marks import Polygon
from lawnbook.plan.make import make_plan
from lawnbook.plan.plain_plan import plain_plan
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.pdf import sheet_bytes
from lawnbook.sheet.qr import LEAST_MODULE_PT, QUIET_MODULES, code_marks, code_of
from lawnbook.sheet.sections.code import CAPTION_TEXT, TEXT_BYTES
from lawnbook.yard.notebook import Notebook
from tests.desk_sample import samples
from tests.ink_book import ink_of
from tests.pdf_reading import grey
from tests.plan_fixture import ON, yard_of

pytestmark = pytest.mark.usefixtures("qapp")
segno: Any = importlib.import_module("segno")
DPI = 432
CASES = {
    **samples(),
    "empty": yard_of(0),
    "forty zones": yard_of(40),
    "letters beyond ASCII": yard_of(2, name="Žuvėdros kiemas, Straße 7"),
}


def modules_read(pixels: NDArray[np.uint8], count: int) -> NDArray[np.bool_]:
    """The dark modules of a square picture of so many a side, each by the grey at its middle."""
    places = ((np.arange(count) + 0.5) * pixels.shape[0] / count).astype(int)
    return np.asarray(pixels[np.ix_(places, places)] < 128)


def printed(
    book: Notebook, paper: PaperName, monkeypatch: pytest.MonkeyPatch
) -> tuple[NDArray[np.uint8], float]:
    """The code as it stands on the rendered PDF, and its side in points."""
    plan = make_plan(book, ON)
    _, (draw,) = sheet_document(book, plan, paper, workings=False)
    box = ink_of(draw, monkeypatch).pictures[-1].box
    assert box.width() == box.height()
    page = grey(sheet_bytes(book, plan, paper), DPI)
    left, top, right, foot = (
        round(each * DPI / 72) for each in (box.left(), box.top(), box.right(), box.bottom())
    )
    return page[top:foot, left:right], box.width()


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_code_on_the_page_is_the_plan(
    case: str, paper: PaperName, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Module by module as the encoder makes it of the plain text; wide enough; on white ground."""
    book = CASES[case]
    plan = make_plan(book, ON)
    pixels, side_pt = printed(book, paper, monkeypatch)
    matched = []
    for most in TEXT_BYTES:
        text = plain_plan(book, plan, most)
        made = segno.make_qr(text, error="m", boost_error=False, encoding="utf-8", eci=False)
        count = len(made.matrix) + 2 * QUIET_MODULES
        read = modules_read(pixels, count)
        inner = read[QUIET_MODULES:-QUIET_MODULES, QUIET_MODULES:-QUIET_MODULES]
        if np.array_equal(inner, np.array(made.matrix, dtype=bool)):
            matched.append(text)
            assert side_pt / count >= LEAST_MODULE_PT - 1e-9
            assert made.error == "M"
            assert not read[:QUIET_MODULES].any()
            assert not read[:, :QUIET_MODULES].any()
            assert not read[-QUIET_MODULES:].any()
            assert not read[:, -QUIET_MODULES:].any()
    assert matched
    assert matched[0].isascii() or case == "letters beyond ASCII"


def test_another_plan_has_another_code(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is read back is not any code."""
    book = yard_of(2)
    pixels, _ = printed(book, "letter", monkeypatch)
    other = code_of(plain_plan(replace(book, products={}), make_plan(book, date(2026, 8, 1)), 660))
    read = modules_read(pixels, other.modules)[QUIET_MODULES:-QUIET_MODULES]
    assert not np.array_equal(read[:, QUIET_MODULES:-QUIET_MODULES], np.array(other.rows))


def test_module_is_a_third_of_a_millimetre() -> None:
    """0.33 mm in points of 1/72 in."""
    assert pytest.approx(0.33) == LEAST_MODULE_PT * 25.4 / 72


def test_squares_are_those_of_the_matrix() -> None:
    """Runs of dark modules as rectangles: their areas together are the dark modules'."""
    code = code_of("Wren Hollow")
    (mark,) = code_marks(code, 100.0).marks
    assert isinstance(mark, Polygon)
    areas = [(ring[2][0] - ring[0][0]) * (ring[2][1] - ring[0][1]) for ring in mark.rings]
    dark = sum(sum(row) for row in code.rows)
    assert sum(areas) == pytest.approx(dark * (100.0 / code.modules) ** 2)


def test_code_has_its_caption(monkeypatch: pytest.MonkeyPatch) -> None:
    """Beneath it, and no wider."""
    book = yard_of(1)
    _, (draw,) = sheet_document(book, make_plan(book, ON), "letter", workings=False)
    page = ink_of(draw, monkeypatch)
    (caption,) = [each for each in page.texts if each.what == CAPTION_TEXT]
    code = page.pictures[-1].box
    assert caption.box.top() >= code.bottom()
    assert caption.box.left() >= code.left() - 0.5
    assert caption.box.right() <= code.right() + 0.5
