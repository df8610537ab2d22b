"""A picture saved as a file of its own: PNG for letters and screens, SVG to draw on in.

The same picture gives the same bytes: no date, no program, no chance goes into the file. In an
SVG words stay words, in the book's fonts where they are installed and in a similar one elsewhere.
"""

from collections.abc import Callable
from pathlib import Path

from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.palette import Palette
from lawnbook.store.files import refuse_other_file, told, written_whole
from lawnbook.yard.problems import OwnerError

PNG_DPI = 300
_STARTS = {".png": (b"\x89PNG", "a PNG picture"), ".svg": (b"<?xml", "an SVG picture")}


def write_picture(
    drawing: Callable[[Frame], Picture], size_pt: Frame, path: Path, palette: Palette
) -> None:
    """Write what `drawing` draws on a frame of that size, as .png (300 dpi) or .svg by suffix.

    Whole or not at all. OwnerError for another suffix, where a file of another kind stands in the
    way, and where the system refuses.
    """
    suffix = path.suffix.lower()
    if suffix not in _STARTS:
        raise OwnerError(f"{told(path)}: a picture's name ends in .png or .svg; name it so.")
    refuse_other_file(path, *_STARTS[suffix])
    with written_whole(path) as fresh:
        _save(drawing(size_pt), fresh, suffix.lstrip("."), palette)


def _save(picture: Picture, path: Path, kind: str, palette: Palette) -> None:
    from matplotlib import rc_context
    from matplotlib.figure import Figure

    from lawnbook.charts.paint import paint

    figure = Figure(figsize=(picture.frame.width / 72, picture.frame.height / 72))
    paint(figure, picture, palette)
    metadata = {"Date": None, "Creator": None} if kind == "svg" else {"Software": None}
    with rc_context({"svg.fonttype": "none", "svg.hashsalt": "lawnbook"}):
        figure.savefig(path, format=kind, dpi=PNG_DPI, metadata=metadata)
