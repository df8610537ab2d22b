"""Then and now on paper: one page, whole, its photographs at one scale, its figures the plan's."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from lawnbook.sheet import photo_pair
from lawnbook.sheet.documents import then_now_document
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.pdf import page_bytes
from lawnbook.sheet.photo_pair import best_photo, paint_pair, pair_of
from lawnbook.sheet.then_now_figures import NONE, figure_lines, pair_headlines
from lawnbook.sheet.then_now_page import MORE
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.pictures import Picture
from lawnbook.yard.record_plug import Photo
from tests.pdf_reading import grey, overlapping, read_page
from tests.then_now_book import LONG, NOW, core, drawn_photo, pair_of_gate, two_days

pytestmark = pytest.mark.usefixtures("qapp")
PAPERS: tuple[PaperName, ...] = ("letter", "a4")
HALF_INCH_PT = 36.0
BOX = (300, 240)


def page(notebook: Notebook, paper: PaperName = "letter") -> bytes:
    """The page of the gate's first and latest day."""
    title, draw = then_now_document(notebook, pair_of_gate(notebook), paper)
    return page_bytes(title, draw, paper)


def long_named() -> Notebook:
    """Every name and note far too long."""
    notebook = two_days(drawn_photo("c1"), drawn_photo("c3", 60), note=LONG, care=30)
    spot = replace(notebook.spots["gate"], name=f"Gate {LONG}")
    zone = replace(notebook.zones["side"], name=f"Side {LONG}")
    return replace(
        notebook,
        spots={**notebook.spots, "gate": spot},
        zones={**notebook.zones, "side": zone},
    )


CASES: dict[str, Callable[[], Notebook]] = {
    "no photos": two_days,
    "two photos": lambda: two_days(drawn_photo("c1"), drawn_photo("c3", 60)),
    "one photo": lambda: two_days(drawn_photo("c3")),
    "unmarked": lambda: two_days(drawn_photo("c1", marked=""), drawn_photo("c3")),
    "long": long_named,
    "nothing done": lambda: two_days(care=0),
    "replicates": lambda: two_days(
        more=tuple(core(f"r{n}", NOW, 0.5, 0.7, 0.6, 0.4, 0.8) for n in range(5))
    ),
}


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("paper", PAPERS)
def test_one_page_within_margins_nothing_over_anything(case: str, paper: PaperName) -> None:
    data = page(CASES[case](), paper)
    read = read_page(data)
    assert read.pages == 1
    assert (read.width, read.height) == pytest.approx(paper_size_pt(paper), abs=0.6)
    for box in read.boxes:
        assert box.left >= HALF_INCH_PT - 0.5, box
        assert box.right <= read.width - HALF_INCH_PT + 0.5, box
        assert box.top >= HALF_INCH_PT - 0.5, box
        assert box.bottom <= read.height - HALF_INCH_PT + 0.5, box
    assert overlapping(read.boxes) == []
    edges = grey(data)
    assert min(edges[:34].min(), edges[-34:].min(), edges[:, :34].min()) == 255


def test_the_page_says_what_the_plan_says() -> None:
    """Spot, days, every word on the difference, every figure, what was done: searchable."""
    notebook = two_days(drawn_photo("c1"), drawn_photo("c3", 60))
    pair = pair_of_gate(notebook)
    flat = read_page(page(notebook)).flat
    assert pair.words
    for words in (*pair.words, "Gate", "11 May 2024", "9 May 2026", photo_pair.ALIGNED):
        assert " ".join(words.split()) in flat
    for line in figure_lines(notebook, pair):
        for told in (line.name, line.then, line.now, line.change):
            assert told in flat
    assert "aeration, Side" in flat


def test_photographs_are_on_the_page_no_finer_than_print_needs() -> None:
    """Without photographs the page is vector; with them it stays small enough to send."""
    assert b"/Subtype /Image" not in page(two_days())
    data = page(two_days(drawn_photo("c1"), drawn_photo("c3")))
    assert b"/Subtype /Image" in data
    assert len(data) < 3_000_000


def test_an_unreadable_photograph_is_said_and_the_page_stays_whole() -> None:
    lost = replace(drawn_photo("c3"), data_b64=Picture.of(b"no picture"))
    flat = read_page(page(two_days(drawn_photo("c1"), lost))).flat
    assert photo_pair.LOST in flat
    assert "photo unreadable" in flat


def test_figures_of_a_day_are_told_as_they_were_read() -> None:
    notebook = two_days()
    lines = {each.name: each for each in figure_lines(notebook, pair_of_gate(notebook))}
    assert (lines["Thatch, in"].then, lines["Thatch, in"].now) == ("1.00", "0.55")
    assert lines["Thatch, in"].change == "−0.45"
    assert lines["Readings, in"].then == "1.00, 1.10, 0.90"
    assert (lines["Roots, in"].now, lines["Roots, in"].change) == ("4.25", "+1.75")
    assert (lines["Worms"].then, lines["Worms"].now) == ("2", NONE)
    assert lines["Thatch felt"].now == "dry"
    assert lines["Soil felt"].now == "moist"
    assert lines["Pulled at"].then == "1 o'clock"


def test_the_change_stands_large_with_its_doubt_and_the_time_between() -> None:
    """11 May 2024 to 9 May 2026 are 24 months; thatch 1.00 to 0.55 in."""
    notebook = two_days()
    thatch, roots, time = pair_headlines(pair_of_gate(notebook))
    assert (thatch.figure, thatch.remark) == ("−0.45 in", "from 1.00 to 0.55 in")
    assert "by measuring" in thatch.before
    assert roots.figure == "+1.75 in"
    assert time.figure == "2 years"
    flat = read_page(page(notebook)).flat
    for each in (thatch, roots, time):
        assert each.figure in flat
        assert each.remark in flat


def test_what_finds_no_room_is_said_to_be_left_out() -> None:
    assert MORE.strip() in read_page(page(long_named())).flat
    assert MORE.strip() not in read_page(page(two_days())).flat


def test_replicates_are_told_as_a_range_and_pressed_as_pressed() -> None:
    """What nobody looked at on either day takes no line."""
    bare = replace(core("c3", NOW, 0.5), sponge=None, pressed=True, clock=None)
    notebook = two_days(more=(core("r1", NOW, 0.7, 0.6, 0.4, 0.8),))
    lines = {each.name: each for each in figure_lines(notebook, pair_of_gate(notebook))}
    assert lines["Readings, in"].now == "7 of 0.40–0.80"
    pressed = replace(notebook, cores={"c1": replace(bare, id="c1", date=NOW.replace(year=2024))})
    pressed = replace(pressed, cores={**pressed.cores, "c3": bare})
    told = {each.name: each for each in figure_lines(pressed, pair_of_gate(pressed))}
    assert told["Thatch, in"].now == "0.50, pressed"
    assert "Sponge, of 4" not in told
    assert "Pulled at" not in told


@pytest.mark.parametrize(
    ("then", "now", "words"),
    [
        (drawn_photo, drawn_photo, photo_pair.ALIGNED),
        (lambda c: drawn_photo(c, marked="scale"), drawn_photo, photo_pair.SCALED),
        (lambda c: drawn_photo(c, marked=""), drawn_photo, photo_pair.FITTED),
    ],
)
def test_what_two_photographs_are_said_to_share(then: object, now: object, words: str) -> None:
    assert callable(then)
    assert callable(now)
    assert pair_of(then("c1"), now("c3")).words == words


def test_one_day_alone_is_said_to_be_alone() -> None:
    assert pair_of(None, drawn_photo("c3")).words == photo_pair.ONE
    assert pair_of(None, None).words == ""


def test_the_photograph_that_can_be_measured_best_is_shown() -> None:
    plain, scaled, whole = (drawn_photo("c1", marked=each) for each in ("", "scale", "crowns"))
    assert best_photo((plain, scaled, whole)) is whole
    assert best_photo((plain, replace(plain, id="second"))) is plain
    assert best_photo(()) is None


def painted(then: Photo, now: Photo) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the red dots of both photographs stand: x from the middle of the box, y from its top.

    The scale's bar and the crowns' line cover no dot.
    """
    wide, high = BOX
    image = QImage(2 * wide, high, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFF)
    painter = QPainter(image)
    boxes = (QRectF(0, 0, wide, high), QRectF(wide, 0, wide, high))
    paint_pair(painter, pair_of(then, now), boxes, 1.0)
    painter.end()
    raw = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(high, 2 * wide, 4).astype(int)
    red = (raw[:, :, 2] > 180) & (raw[:, :, 1] < 90)
    found = []
    for number in range(2):
        rows, columns = np.nonzero(red[:, number * wide : (number + 1) * wide])
        assert rows.size > 3
        found.append((float(columns.mean()) - wide / 2, float(rows.mean())))
    return found[0], found[1]


@settings(max_examples=25, deadline=None)
@given(
    st.floats(40, 160),
    st.floats(40, 160),
    st.sampled_from([0, 7, 45, 90, 135, 180, 250]),
    st.sampled_from([0, -12, 90, 181]),
)
def test_an_inch_below_the_crowns_is_the_same_place_in_both(
    then_px: float, now_px: float, then_deg: float, now_deg: float
) -> None:
    """However large and however turned the plugs lie in their pictures (plane geometry)."""
    then, now = painted(drawn_photo("c1", then_px, then_deg), drawn_photo("c3", now_px, now_deg))
    assert then == pytest.approx(now, abs=2.5)
    assert then[0] == pytest.approx(0.0, abs=2.5)


def test_the_depth_between_crowns_and_dot_is_the_inch_of_the_bar() -> None:
    """1.5 in at least, a margin of 12 %, and 0.6 in over the crowns share the box's height."""
    per_in = BOX[1] / (1.5 * 1.12 + 0.6)
    then, _ = painted(drawn_photo("c1"), drawn_photo("c3", 70))
    assert then[1] == pytest.approx(1.6 * per_in, abs=2.0)


def test_a_scale_whose_ends_lie_on_one_place_is_no_scale() -> None:
    photo = drawn_photo("c1")
    assert photo.ruler is not None
    broken = replace(photo, ruler=replace(photo.ruler, scale=((0.5, 0.5), (0.5, 0.5))))
    assert pair_of(broken, drawn_photo("c3")).words == photo_pair.FITTED
