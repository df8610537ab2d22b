"""Outlines on the command line: out as GeoJSON and SVG, in from a map."""

import json
import math
from pathlib import Path

import pytest
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from lawnbook.cli import main
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.outlines_svg import svg_of
from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import load_any
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import apply, new_notebook, put
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import Feature, Zone
from tests.conftest import TODAY

SAMPLE = next(path for path in sample_yards() if path.stem == "larkspur_corner")
RING = [[-111.9, 41.2], [-111.8999, 41.2], [-111.8999, 41.2001], [-111.9, 41.2]]


def _run(*words: object) -> int:
    return main([str(each) for each in words], TODAY)


@pytest.fixture
def notebook(tmp_path: Path) -> Path:
    path = tmp_path / "yard.lawnbook"
    create(path, load_any(SAMPLE, TODAY))
    return path


@pytest.fixture
def map_file(tmp_path: Path) -> Path:
    shape = {"type": "Polygon", "coordinates": [RING]}
    features = [
        {"type": "Feature", "properties": {"name": "Orchard"}, "geometry": shape},
        {"type": "Feature", "properties": {"kind": "pool"}, "geometry": shape},
    ]
    path = tmp_path / "map.geojson"
    path.write_text(json.dumps({"type": "FeatureCollection", "features": features}))
    return path


def test_out_and_in_again_changes_no_outline(
    notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out.geojson"
    before = load_any(notebook, TODAY)
    assert _run("outlines", notebook, "-o", out) == 0
    assert _run("take-outlines", out, "-o", notebook) == 0
    after = load_any(notebook, TODAY)
    assert list(after.zones) == list(before.zones)
    assert list(after.features) == list(before.features)
    for zone in before.zones.values():
        now = after.zones[zone.id].outline_ft
        assert len(now) == len(zone.outline_ft)
        for corner in zone.outline_ft:
            assert min(math.dist(corner, each) for each in now) <= 0.03
    assert "The outlines are in" in capsys.readouterr().out


def test_beside_an_open_window_one_line_refuses_and_no_note_comes_before_it(
    notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out.geojson"
    assert _run("outlines", notebook, "-o", out) == 0
    book = OpenNotebook.open(notebook, TODAY)
    data = notebook.read_bytes()
    capsys.readouterr()
    assert _run("take-outlines", out, "-o", notebook) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert notebook.read_bytes() == data
    book.close()
    assert _run("take-outlines", out, "-o", notebook) == 0
    assert "note: They are laid so" in capsys.readouterr().err


def test_a_dry_run_lists_and_keeps_nothing(
    notebook: Path, map_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = notebook.read_bytes()
    assert _run("take-outlines", map_file, "-o", notebook, "--dry-run") == 0
    told = capsys.readouterr().out
    assert "1. Orchard: 501 sq ft, 3 corners: a new zone" in told
    assert "2. unnamed: 501 sq ft, 3 corners: a new pool" in told
    assert notebook.read_bytes() == before
    assert _run("take-outlines", map_file, "-o", notebook) == 0
    held = load_any(notebook, TODAY)
    assert [each.name for each in held.zones.values()][-1] == "Orchard"
    assert [each.kind for each in held.features.values()][-1] == "pool"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("outlines", "{book}", "-o", "{here}/out.png"), "ends in .geojson, a drawing’s in .svg"),
        (("outlines", "{book}", "-o", "{here}/none/out.svg"), "is not there"),
        (("outlines", "{book}", "-o", "{other}"), "this file is not a file of outlines"),
        (("outlines", "{empty}", "-o", "{here}/out.svg"), "empty.lawnbook: nothing is drawn yet"),
        (("take-outlines", "{other}", "-o", "{book}"), "other.geojson: line 1"),
        (("take-outlines", "{here}/none.kml", "-o", "{book}"), "there is no such file"),
        (("take-outlines", "{map}", "-o", "{here}/none.lawnbook"), "begin one in the window"),
        (("take-outlines", "{map}", "-o", "{here}/yard.json"), "ends in .lawnbook"),
    ],
)
def test_bad_input_is_one_line_and_nothing_is_written(
    words: tuple[str, ...],
    told: str,
    notebook: Path,
    map_file: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    here = notebook.parent
    other, empty = here / "other.geojson", here / "empty.lawnbook"
    other.write_text("words of another kind")
    create(empty, new_notebook("Home"))
    before = {each: each.read_bytes() for each in here.iterdir()}
    names = {"book": notebook, "here": here, "other": other, "map": map_file, "empty": empty}
    assert _run(*(each.format(**names) for each in words)) == 2
    said = capsys.readouterr().err
    assert told in said
    assert len(said.splitlines()) == 1
    assert {each: each.read_bytes() for each in here.iterdir()} == before


def test_the_drawing_is_true_to_scale_and_its_holes_are_open() -> None:
    """Rendered by QtSvg: at 1:100 a hundred feet are 304.8 mm, by the definition of the foot."""
    zone = Zone(
        id="1 <z>",
        name='Lawn <"&\x0b> north',
        outline_ft=rectangle_ft((0, 0), 100, 60),
        holes_ft=(rectangle_ft((70, 20), 20, 20),),
    )
    bed = Feature(id="b", kind="bed", outline_ft=rectangle_ft((0, -20), 30, 10))
    book = new_notebook("Home & <garden>")
    book = apply(book, put(book, "zones", zone))
    book = apply(book, put(book, "features", bed))
    text, scale = svg_of(book)
    assert scale == 100
    drawing = QSvgRenderer(text.encode())
    assert drawing.isValid()
    box = drawing.boundsOnElement("r-1__z_")
    assert box.width() == pytest.approx(304.8, abs=0.4)
    assert box.height() == pytest.approx(0.6 * 304.8, abs=0.4)
    per_mm = 4
    size = drawing.viewBoxF().size() * per_mm
    picture = QImage(size.toSize(), QImage.Format.Format_RGB32)
    painter = QPainter(picture)
    drawing.render(painter)
    painter.end()

    def seen(x_ft: float, y_ft: float) -> str:
        at = ((12 + x_ft * 3.048) * per_mm, (12 + (60 - y_ft) * 3.048) * per_mm)
        return picture.pixelColor(round(at[0]), round(at[1])).name()

    assert seen(20, 45) == "#dfe8cf"
    assert seen(80, 30) == "#ffffff"
    assert seen(15, -15) == "#e3dfd6"
