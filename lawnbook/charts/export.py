"""A picture saved as a file of its own: PNG for letters and screens, SVG to draw on in.

The same picture gives the same bytes: no date, no program, no chance goes into the file. In an
SVG words stay words, in the book's fonts where they are installed and in a similar one elsewhere.
"""

import io
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.palette import Palette
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import refuse_other_file, told, written_whole
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from matplotlib.figure import Figure

PNG_DPI = 300
_STARTS = {".png": (b"\x89PNG", tr("a PNG picture")), ".svg": (b"<?xml", tr("an SVG picture"))}


@dataclass(frozen=True, slots=True)
class Told:
    """What a saved picture says of itself: its title, and what it shows in words."""

    title: str = ""
    words: str = ""


def write_picture(
    drawing: Callable[[Frame], Picture],
    size_pt: Frame,
    path: Path,
    palette: Palette,
    said: Told | None = None,
) -> None:
    """Write what `drawing` draws on a frame of that size, as .png (300 dpi) or .svg by suffix.

    What is `said` of it goes along: as title and description of an SVG, as texts of a PNG.
    Whole or not at all. OwnerError for another suffix, where a file of another kind stands in the
    way, and where the system refuses.
    """
    suffix = path.suffix.lower()
    if suffix not in _STARTS:
        raise OwnerError(
            tr("{path}: a picture's name ends in .png or .svg; name it so.", path=told(path))
        )
    refuse_other_file(path, *_STARTS[suffix])
    with written_whole(path) as fresh:
        figure = _painted(drawing(size_pt), palette)
        (_save_svg if suffix == ".svg" else _save_png)(figure, fresh, said or Told())


def _painted(picture: Picture, palette: Palette) -> "Figure":
    from matplotlib.figure import Figure

    from lawnbook.charts.paint import paint

    figure = Figure(figsize=(picture.frame.width / 72, picture.frame.height / 72))
    paint(figure, picture, palette)
    return figure


def _save_png(figure: "Figure", path: Path, said: Told) -> None:
    texts = {"Title": said.title, "Description": said.words}
    kept = {name: text for name, text in texts.items() if text}
    figure.savefig(path, format="png", dpi=PNG_DPI, metadata={"Software": None, **kept})


def _save_svg(figure: "Figure", path: Path, said: Told) -> None:
    """An SVG with a title and a description, which programs that read aloud look for."""
    from matplotlib import rc_context

    store = io.BytesIO()
    metadata = {"Date": None, "Creator": None}
    with rc_context({"svg.fonttype": "none", "svg.hashsalt": "lawnbook"}):
        figure.savefig(store, format="svg", metadata=metadata)
    text = store.getvalue().decode()
    held = {"title": said.title, "desc": said.words}
    parts = [f"\n <{name}>{escape(words)}</{name}>" for name, words in held.items() if words]
    begins = text.index(">", text.index("<svg")) + 1
    path.write_text(text[:begins] + "".join(parts) + text[begins:], encoding="utf-8", newline="\n")
