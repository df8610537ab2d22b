"""Pictures as files: whole or not at all, the same every time, words as words.

PNG's pHYs chunk holds pixels a metre (PNG specification, third edition, W3C, 11.3.4.3): 300 dpi
are 11,811.
"""

import struct
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from PIL import Image

from lawnbook.charts.export import PNG_DPI, Told, write_picture
from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.palette import PRINT
from lawnbook.charts.profile import profile_marks
from lawnbook.yard.problems import OwnerError
from tests.plan_fixture import plugs

SIZE = Frame(432, 288)
COLUMNS = plugs(5)


def drawing(frame: Frame) -> Picture:
    """Five plugs."""
    return profile_marks(COLUMNS, frame)


def test_png_has_its_size_at_300_dpi(tmp_path: Path) -> None:
    """Six inches by four are 1800 by 1200 pixels, and the file says so."""
    path = tmp_path / "columns.PNG"
    write_picture(drawing, SIZE, path, PRINT)
    with Image.open(path) as image:
        assert image.size == (6 * PNG_DPI, 4 * PNG_DPI)
        assert image.convert("RGB").getpixel((3, 3)) == (255, 255, 255)
    data = path.read_bytes()
    at = data.index(b"pHYs") + 4
    assert struct.unpack(">IIB", data[at : at + 9]) == (11811, 11811, 1)


def test_svg_keeps_words_as_words_in_the_books_fonts(tmp_path: Path) -> None:
    """What the picture says can be found, and is set in Inter."""
    path = tmp_path / "columns.svg"
    write_picture(drawing, SIZE, path, PRINT)
    root = ET.parse(path).getroot()
    texts = [each for each in root.iter() if each.tag.endswith("}text")]
    found = {text.text for text in texts}
    assert set(drawing(SIZE).words()) <= found
    styles = [text.get("style", "") for text in texts]
    assert all("Inter" in style for style in styles)
    assert any("600" in style for style in styles)
    assert root.get("width") == "432pt"


@pytest.mark.parametrize("suffix", [".png", ".svg"])
def test_same_picture_gives_the_same_bytes(
    tmp_path: Path, suffix: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No date, no program, no chance: also on another day."""
    one, other = tmp_path / f"one{suffix}", tmp_path / f"other{suffix}"
    write_picture(drawing, SIZE, one, PRINT)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    write_picture(drawing, SIZE, other, PRINT)
    assert one.read_bytes() == other.read_bytes()
    assert b"<dc:date>" not in one.read_bytes()
    assert b"Matplotlib" not in one.read_bytes()


def test_another_suffix_is_refused(tmp_path: Path) -> None:
    """Nothing is written."""
    with pytest.raises(OwnerError, match=r"ends in \.png or \.svg"):
        write_picture(drawing, SIZE, tmp_path / "columns.jpg", PRINT)
    assert list(tmp_path.iterdir()) == []


def test_another_kind_of_file_is_left_alone(tmp_path: Path) -> None:
    """A notebook called .png by mistake is not written over."""
    path = tmp_path / "columns.png"
    path.write_text("shopping list")
    with pytest.raises(OwnerError, match="not a PNG picture"):
        write_picture(drawing, SIZE, path, PRINT)
    assert path.read_text() == "shopping list"


def test_trouble_in_the_middle_leaves_the_earlier_picture(tmp_path: Path) -> None:
    """Whole or not at all."""
    path = tmp_path / "columns.svg"
    write_picture(drawing, SIZE, path, PRINT)
    before = path.read_bytes()

    def broken(_frame: Frame) -> Picture:
        raise RuntimeError("a bug")

    with pytest.raises(RuntimeError):
        write_picture(broken, SIZE, path, PRINT)
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_missing_folder_is_explained(tmp_path: Path) -> None:
    """With the mend."""
    with pytest.raises(OwnerError, match="make it first"):
        write_picture(drawing, SIZE, tmp_path / "nowhere" / "columns.png", PRINT)


SAID = Told("Columns & trend", "Thatch is 0.61 in now; 1 < 2 “yes”.")


def test_svg_says_what_it_is_to_programs_that_read_aloud(tmp_path: Path) -> None:
    """Title and description are the first children of the root (SVG 2, W3C, 5.8)."""
    path = tmp_path / "columns.svg"
    write_picture(drawing, SIZE, path, PRINT, SAID)
    title, described, *_ = ET.parse(path).getroot()
    assert (title.tag, title.text) == ("{http://www.w3.org/2000/svg}title", SAID.title)
    assert (described.tag, described.text) == ("{http://www.w3.org/2000/svg}desc", SAID.words)


def test_svg_without_words_has_neither(tmp_path: Path) -> None:
    """An empty title would be read out as one."""
    path = tmp_path / "columns.svg"
    write_picture(drawing, SIZE, path, PRINT)
    assert not {each.tag.rpartition("}")[2] for each in ET.parse(path).getroot()} & {
        "title",
        "desc",
    }


def test_png_keeps_the_same_words(tmp_path: Path) -> None:
    """As its texts Title and Description (PNG specification, third edition, W3C, 11.3.3.2)."""
    path = tmp_path / "columns.png"
    write_picture(drawing, SIZE, path, PRINT, SAID)
    with Image.open(path) as image:
        assert image.info["Title"] == SAID.title
        assert image.info["Description"] == SAID.words
