"""The sheet as a PDF: one page, whole, readable, the Plan's figures on it."""

import math
import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QImage, QPainter, QPdfWriter

from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, rectangle
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Due
from lawnbook.plan.workings import told_most
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.page import draw_page
from lawnbook.sheet.pdf import sheet_bytes, write_sheet
from lawnbook.sheet.sections.foot import in_turn
from lawnbook.sheet.table import tellings
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from tests.desk_sample import samples
from tests.pdf_reading import grey, overlapping, read_page
from tests.plan_fixture import ON, yard_of

PAPERS: tuple[PaperName, ...] = ("letter", "a4")
NEEDS_POPPLER = pytest.mark.skipif(
    shutil.which("pdftoppm") is None, reason="poppler-utils is not installed"
)
HALF_INCH_PT = 36.0
LONG = "the stretch of lawn beyond the second gate that nobody has ever named shortly"


pytestmark = pytest.mark.usefixtures("qapp")


def sheet(notebook: Notebook, paper: PaperName = "letter") -> bytes:
    """The sheet of a notebook on the tests' day."""
    return sheet_bytes(notebook, make_plan(notebook, ON), paper)


def long_named(zones: int) -> Notebook:
    """A yard whose every name is far too long."""
    notebook = yard_of(zones, name=f"The yard with {LONG}")
    return replace(
        notebook,
        zones={k: replace(z, name=f"{z.name} {LONG}") for k, z in notebook.zones.items()},
        spots={k: replace(s, name=f"{s.name} {LONG}") for k, s in notebook.spots.items()},
        products={k: replace(p, name=f"{p.name} {LONG}") for k, p in notebook.products.items()},
    )


CASES = {
    "empty": yard_of(0),
    "one zone": yard_of(1),
    "three zones": yard_of(3),
    "five zones in the south": yard_of(5, latitude_deg=-33.0),
    "eleven zones": yard_of(11),
    "forty zones": yard_of(40),
    "long names": long_named(4),
    "long names, many": long_named(23),
}
EVERY = pytest.mark.parametrize("case", CASES)
BOTH = pytest.mark.parametrize("paper", PAPERS)


@EVERY
@BOTH
def test_one_page_within_margins_nothing_over_anything(case: str, paper: PaperName) -> None:
    """Exactly one page of the paper's size; text keeps half an inch off the edge and apart."""
    page = read_page(sheet(CASES[case], paper))
    assert page.pages == 1
    assert (page.width, page.height) == pytest.approx(paper_size_pt(paper), abs=0.6)
    assert len(page.boxes) > 10
    for box in page.boxes:
        assert box.left >= HALF_INCH_PT - 0.5, box
        assert box.right <= page.width - HALF_INCH_PT + 0.5, box
        assert box.top >= HALF_INCH_PT - 0.5, box
        assert box.bottom <= page.height - HALF_INCH_PT + 0.5, box
    assert overlapping(page.boxes) == []


@EVERY
@BOTH
def test_margins_are_blank(case: str, paper: PaperName) -> None:
    """Nothing drawn, pictures included, leaves the printable area."""
    image = grey(sheet(CASES[case], paper))
    edge = 34
    assert image[:edge].min() == 255
    assert image[-edge:].min() == 255
    assert image[:, :edge].min() == 255
    assert image[:, -edge:].min() == 255


@BOTH
def test_the_plans_figures_stand_on_it(paper: PaperName) -> None:
    """Rate, next run, depth, interval, next day, nitrogen and thatch, as the Plan has them."""
    notebook = yard_of(3)
    plan = make_plan(notebook, ON)
    flat = read_page(sheet(notebook, paper)).flat
    assert "Wren Hollow" in flat
    assert "Yard plan for 15 Jun 2026" in flat
    for zone in plan.zones:
        run = zone.next_run
        assert run is not None
        assert run.minutes_per_cycle is not None
        assert run.cycles == 1
        assert zone.precipitation_rate_in_per_h is not None
        assert f"{zone.number} {zone.zone}" in flat
        assert f"{zone.precipitation_rate_in_per_h:.2f}" in flat
        (program,) = plan.programs
        wetting, rest = (each.minutes for each in program.timer if each.zone_id == zone.zone_id)
        assert wetting + rest == math.ceil(run.minutes_per_cycle)
        assert f"{wetting + rest} {run.depth_in:.2f} in {wetting} + {rest} " in flat
    for nitrogen in plan.nitrogen:
        assert f"{nitrogen.applied_year:.2f}".lstrip("0") in flat
        assert f"{nitrogen.left_this_year:.2f}".lstrip("0") + " left" in flat
        assert nitrogen.next_feeding is not None
        assert nitrogen.next_feeding.date.isoformat() == "2026-09-01"
        assert f"{told_most(nitrogen.next_feeding.pounds)}" in flat
    assert "1 Sep to 30 Sep" in flat
    worst = max(plan.thatch, key=lambda spot: spot.latest_in or 0)
    assert f"Thatch at {worst.spot}" in flat
    assert f"{worst.latest_in:.2f}" in flat
    assert worst.verdict.split("(")[0].strip() in flat
    assert "Slow Twenty 20-0-5, 50 lb, 50 % slow" in flat


@EVERY
def test_every_caution_is_whole(case: str) -> None:
    """What keeps people safe is never cut."""
    plan = make_plan(CASES[case], ON)
    flat = read_page(sheet(CASES[case])).flat
    assert plan.cautions
    for caution in plan.cautions:
        assert " ".join(caution.split()) in flat


SAMPLES = samples()
AUTUMN = date(2026, 9, 10)


@pytest.mark.parametrize("sample", SAMPLES)
@BOTH
def test_samples_show_every_spot_and_cut_no_figure(sample: str, paper: PaperName) -> None:
    """All spots then and now, a source of each subject, and nothing shortened."""
    plan = make_plan(SAMPLES[sample], AUTUMN)
    page = read_page(sheet_bytes(SAMPLES[sample], plan, paper))
    assert "…" not in page.flat
    assert overlapping(page.boxes) == []
    thatch = page.flat.partition("Thatch")[2]
    for spot in plan.thatch:
        assert spot.spot in thatch
        assert f"{spot.first_in:.2f}" in thatch
        assert f"{spot.latest_in:.2f}" in thatch
    for source in in_turn(plan)[:3]:
        assert source in page.flat


@pytest.mark.parametrize("zones", [3, 12])
def test_reason_for_no_watering_is_never_cut(zones: int) -> None:
    """In tall rows and in single ones the reason ends in its full stop."""
    notebook = yard_of(zones)
    unrated = {k: replace(z, precipitation_in_per_h=None) for k, z in notebook.zones.items()}
    for book in (
        replace(notebook, zones=unrated),
        replace(notebook, climate={}),
        replace(notebook, yard=replace(notebook.yard, irrigation_season=None)),
    ):
        page = read_page(sheet_bytes(book, make_plan(book, date(2026, 1, 20))))
        assert "…" not in page.flat
        assert overlapping(page.boxes) == []
        reason = make_plan(book, date(2026, 1, 20)).zones[0].reason
        assert tellings(reason)[-1] in page.flat or reason in page.flat


def test_wide_figures_are_not_shortened() -> None:
    """Long runs, large lawns and four seasons find room on either paper."""
    notebook = yard_of(2)
    plan = make_plan(notebook, ON)
    months = tuple(
        replace(month, interval_days=10 + month.month % 3, run_minutes=100.0 + month.month)
        for month in plan.zones[0].months
    )
    one = plan.zones[0].next_run
    assert one is not None
    heavy_run = replace(
        one,
        gallons=12_345.0,
        run_minutes=128.0,
        cycles=2,
        minutes_per_cycle=64.0,
        soak_minutes=262.0,
        date=date(2026, 5, 28),
    )
    zones = tuple(
        replace(
            zone,
            next_run=heavy_run,
            rate_source="catch test",
            rate_stale=True,
            months=months,
            next_allowed=date(2026, 5, 28),
        )
        for zone in plan.zones
    )
    heavy = replace(plan, zones=zones, programs=())
    for paper in PAPERS:
        flat = read_page(sheet_bytes(notebook, heavy, paper)).flat
        assert "…" not in flat, re.findall(r".{25}…", flat)
        assert "winter" in flat
        for told in ("old test", "soak 262"):
            assert told in flat


def complaints(pdf: Path) -> str:
    """What poppler says against a PDF."""
    command = ["pdftoppm", "-r", "30", "-png", str(pdf), str(pdf.with_suffix(""))]
    return subprocess.run(command, capture_output=True, text=True, check=True).stderr


@NEEDS_POPPLER
@pytest.mark.parametrize("case", ["empty", "one zone", "forty zones"])
def test_poppler_does_not_complain(case: str, tmp_path: Path) -> None:
    """A reader of its own finds nothing to say against the page."""
    target = tmp_path / "plan.pdf"
    target.write_bytes(sheet(CASES[case]))
    assert complaints(target) == ""


@NEEDS_POPPLER
def test_shapes_without_extent_leave_no_trace(tmp_path: Path) -> None:
    """A shape squeezed to a point would be a path that is closed before it begins."""
    ensure_qt()
    target = tmp_path / "points.pdf"
    point = ((5.0, 5.0),) * 3
    marks = (
        Polygon(rings=(point,), fill="ink", edge="ink"),
        Polyline(lines=(point,), role="ink"),
        Polyline(lines=(point,), role="ink", alpha=0.5),
        Polyline(lines=(point,), role="ink", width=1.0, dash=(2.0, 1.0)),
        Polygon(rings=(rectangle(9, 9, 20, 20), point), fill="ink", edge="ink"),
    )
    writer = QPdfWriter(str(target))
    painter = QPainter(writer)
    Ink(painter).picture(Picture(Frame(50, 50), marks), 0, 0)
    painter.end()
    assert complaints(target) == ""


def test_seasons_follow_the_hemisphere() -> None:
    """Summer is June to August in the north and December to February in the south."""
    assert "summer Jun–Aug" in read_page(sheet(yard_of(2))).flat
    south = read_page(sheet(yard_of(2, latitude_deg=-33.0))).flat
    assert "summer Dec–Feb" in south
    assert "summer Jun–Aug" not in south
    assert "33.0° S" in south


def test_many_zones_are_summed_up() -> None:
    """Forty zones: some are shown, all are numbered on the sketch, and the rest is told of."""
    flat = read_page(sheet(yard_of(40))).flat
    assert "40 zones; shown: the" in flat
    assert "The rest is in the notebook." in flat
    assert all(re.search(rf"\b{number}\b", flat) for number in range(1, 41))


def test_long_names_end_in_an_ellipsis() -> None:
    """A name too long for its place is shortened, and says so."""
    flat = read_page(sheet(long_named(4))).flat
    assert "1 Lawn 1" in flat
    assert flat.count("…") >= 8
    assert f"Lawn 1 {LONG}" not in flat
    assert f"peg 1 {LONG}" not in flat


def test_words_with_fi_and_fl_can_be_found() -> None:
    """No ligatures in the text: "field" and "flint" are found as they are spelled."""
    flat = read_page(sheet(yard_of(1, name="Fifth field of Flint"))).flat
    assert "Fifth field of Flint" in flat


def test_fonts_are_embedded() -> None:
    """Every font's description carries its font file, and all are the book's own."""
    data = sheet(yard_of(3))
    descriptors = data.split(b"/Type /FontDescriptor")[1:]
    assert len(descriptors) >= 4
    assert all(b"/FontFile2" in each.split(b"endobj")[0] for each in descriptors)
    names = set(re.findall(rb"/BaseFont /(?:[A-Z]{6}\+)?([A-Za-z0-9-]+)", data))
    assert names
    assert all(name.startswith((b"Inter", b"SourceSerif4")) for name in names)


def test_page_is_vector() -> None:
    """No picture on the page is made of pixels."""
    assert b"/Subtype /Image" not in sheet(yard_of(3))


def test_text_is_dark_without_colour() -> None:
    """On a printer without colour the page still has its full blacks, and is mostly white."""
    image = grey(sheet(yard_of(3)), 144)
    assert image.min() < 60
    assert np.median(image) == 255


def test_preview_and_pdf_are_one_drawing() -> None:
    """Painted on a picture, the page looks as the PDF does."""
    notebook = yard_of(3)
    plan = make_plan(notebook, ON)
    image = QImage(612, 792, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    draw_page(painter, notebook, plan, "letter")
    painter.end()
    raw = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(792, image.bytesPerLine())
    seen, printed = raw[:, :612].astype(float), grey(sheet(notebook)).astype(float)
    assert seen.mean() == pytest.approx(printed.mean(), abs=2.0)
    blocks = [
        each[:792, :612].reshape(66, 12, 51, 12).mean(axis=(1, 3)) for each in (seen, printed)
    ]
    assert np.corrcoef(blocks[0].ravel(), blocks[1].ravel())[0, 1] > 0.97


def test_drawing_leaves_the_painter_as_it_was() -> None:
    """The caller's transform is its own again afterwards."""
    image = QImage(700, 900, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    painter.translate(10, 20)
    before = painter.worldTransform()
    draw_page(painter, yard_of(2), make_plan(yard_of(2), ON), "letter")
    assert painter.worldTransform() == before
    painter.end()


def test_long_text_in_what_is_due_goes_on_in_a_second_line() -> None:
    """It is read to the end."""
    book = yard_of(4)
    what = "Overseed the thin places behind the shed and along the fence, and keep them moist"
    due = Due(date=ON, kind="care", what=what, zones=(), why="")
    plan = replace(make_plan(book, ON), due=(due,))
    assert what in read_page(sheet_bytes(book, plan, "a4")).flat


def test_written_file_is_the_pdf(tmp_path: Path) -> None:
    """The file is whole and replaces an older one."""
    target = tmp_path / "plan.pdf"
    target.write_bytes(b"old")
    notebook = yard_of(2)
    write_sheet(notebook, make_plan(notebook, ON), target, "a4")
    assert read_page(target).pages == 1
    assert [each.name for each in tmp_path.iterdir()] == ["plan.pdf"]


@pytest.mark.parametrize("place", ["nowhere/plan.pdf", "folder", "file/plan.pdf"])
def test_place_that_cannot_be_written(tmp_path: Path, place: str) -> None:
    """One sentence that names the place and the mend; nothing is left behind."""
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_text("not a folder")
    before = sorted(tmp_path.rglob("*"))
    notebook = yard_of(1)
    with pytest.raises(OwnerError, match=r"choose another") as caught:
        write_sheet(notebook, make_plan(notebook, ON), tmp_path / place)
    assert Path(place).name in str(caught.value)
    assert "\n" not in str(caught.value)
    assert sorted(tmp_path.rglob("*")) == before


def test_without_a_screen_and_without_widgets(tmp_path: Path) -> None:
    """A machine without a screen writes the sheet; neither widgets nor matplotlib are loaded."""
    code = (
        "import sys; from pathlib import Path;"
        "from lawnbook.plan.make import make_plan; from lawnbook.sheet.pdf import write_sheet;"
        "from tests.plan_fixture import ON, yard_of; book = yard_of(3);"
        "write_sheet(book, make_plan(book, ON), Path(sys.argv[1]), 'letter');"
        "bad = [m for m in ('PySide6.QtWidgets', 'matplotlib', 'pandas') if m in sys.modules];"
        "sys.exit(str(bad) if bad else 0)"
    )
    gone = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    bare = {name: value for name, value in os.environ.items() if name not in gone}
    target = tmp_path / "plan.pdf"
    run = subprocess.run(
        [sys.executable, "-c", code, str(target)],
        capture_output=True,
        text=True,
        check=False,
        env=bare,
    )
    assert run.returncode == 0, run.stderr
    assert read_page(target).pages == 1
