"""Colours and sizes of type stand in one place: `charts/palette.py` and `charts/tokens.py`."""

import re
from pathlib import Path

import pytest

from lawnbook.charts import tokens
from lawnbook.yard.places import resource

ROOT = Path(__file__).parent.parent / "lawnbook"
ROOMS = ("desk", "charts", "sheet")
HELD_HERE = ("charts/palette.py", "charts/tokens.py")
COLOUR = re.compile(r"[\"']#[0-9a-fA-F]{6}[\"']|QColor\(\s*\d|Qt\.GlobalColor\.(?!transparent)")
TYPE_SIZE = re.compile(r"\b(?:sans|serif)\(\s*\d|setPointSizeF?\(\s*\d|setPixelSize\(\s*\d")
STYLE = re.compile(r"setStyleSheet\([^)]*(?:#[0-9a-fA-F]{3,6}|\d+p[tx])")


def sources() -> list[Path]:
    """Every module that paints, but those that hold colours and measures."""
    held = {ROOT / each for each in HELD_HERE}
    return [
        path for room in ROOMS for path in sorted((ROOT / room).rglob("*.py")) if path not in held
    ]


@pytest.mark.parametrize("kind", [COLOUR, TYPE_SIZE, STYLE], ids=["colour", "type size", "style"])
def test_no_module_has_a_colour_or_a_size_of_its_own(kind: re.Pattern[str]) -> None:
    found = [
        f"{path.relative_to(ROOT)}: {match.group()}"
        for path in sources()
        for match in kind.finditer(path.read_text(encoding="utf-8"))
    ]
    assert found == []


def test_what_is_looked_for_would_be_found() -> None:
    """The patterns know a colour, a size and a style when they see one."""
    assert COLOUR.search('painter.setPen(QColor("#ffffff"))')
    assert COLOUR.search("QColor(10, 20, 30)")
    assert not COLOUR.search("Qt.GlobalColor.transparent")
    assert TYPE_SIZE.search("painter.setFont(sans(9.0))")
    assert TYPE_SIZE.search("font.setPointSizeF(12)")
    assert not TYPE_SIZE.search("sans(CAPTION_POINTS)")
    assert STYLE.search('bar.setStyleSheet("QLabel { font-size: 9pt }")')


def test_the_style_sheet_reads_colours_and_sizes_by_name() -> None:
    text = (resource("style") / "book.qss").read_text(encoding="utf-8")
    assert not re.search(r"#[0-9a-fA-F]{3,6}\b", text)
    assert not re.search(r"font-size:\s*\d", text)
    sizes = {name.lower() for name in vars(tokens) if name.endswith("_POINTS")}
    read = set(re.findall(r"font-size: \$(\w+)", text))
    assert read <= sizes
    assert read
