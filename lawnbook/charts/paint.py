"""Paint a picture's marks on a matplotlib Figure, whatever canvas holds it; no pyplot."""

from functools import cache

from matplotlib import patheffects
from matplotlib.artist import Artist
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, fontManager
from matplotlib.patches import Circle, PathPatch
from matplotlib.path import Path as MplPath
from matplotlib.text import Text
from matplotlib.transforms import Affine2D, Transform

from lawnbook.charts.marks import (
    FONT_FILES,
    Disc,
    Face,
    Frame,
    Picture,
    Polygon,
    Polyline,
    Ring,
    Words,
)
from lawnbook.charts.palette import Palette
from lawnbook.yard.places import resource

_WEIGHTS = {"medium": 500, "semibold": 600}


def frame_of(figure: Figure) -> Frame:
    """The figure's size in points."""
    width, height = figure.get_size_inches()
    return Frame(float(width) * 72, float(height) * 72)


def paint(figure: Figure, picture: Picture, palette: Palette) -> None:
    """Replace whatever the figure holds by the picture, one point of it to a point of paper.

    The marks stand on the figure itself: axes would reckon limits and ticks that nobody sees.
    """
    # An artist knows the list it stands in. Emptied, the artists go at once and leave no garbage.
    figure.artists.clear()
    figure.clear()
    figure.patch.set_facecolor(palette.paper)
    down = Affine2D().translate(0.0, -picture.frame.height).scale(1 / 72, -1 / 72)
    points = down + figure.dpi_scale_trans
    for order, mark in enumerate(picture.marks):
        match mark:
            case Polygon():
                _add(figure, _polygon(mark, palette, order), points)
            case Polyline():
                _add(figure, _lines(mark, palette, order), points)
            case Disc():
                _add(figure, _disc(mark, palette, order), points)
            case Words():
                _add(figure, _words(mark, palette, order), points)


def _add(figure: Figure, artist: Artist, points: Transform) -> None:
    artist.set_transform(points)
    figure.add_artist(artist)


def colour(palette: Palette, role: str) -> str:
    """A role's colour in a palette; "none" for no role. AttributeError for an unknown role."""
    return str(getattr(palette, role)) if role else "none"


@cache
def font(face: Face) -> FontProperties:
    """A face of the book's own fonts, registered with matplotlib."""
    path = resource(f"fonts/{FONT_FILES[face]}")
    fontManager.addfont(path)
    serif = face.startswith("serif")
    # The file is what is painted with; the names go into an SVG, whose words stay words.
    return FontProperties(
        fname=str(path),
        family=["Source Serif 4", "serif"] if serif else ["Inter", "sans-serif"],
        weight=_WEIGHTS.get(face.removeprefix("serif ").removeprefix("serif"), "normal"),
        style="italic" if face.endswith("italic") else "normal",
    )


def _polygon(mark: Polygon, palette: Palette, order: int) -> PathPatch:
    vertices: list[tuple[float, float]] = []
    codes: list[int] = []
    for ring in mark.rings:
        vertices += [*ring, ring[0]]
        codes += _codes(ring)
    return PathPatch(
        MplPath(vertices, codes),
        facecolor=colour(palette, mark.fill),
        edgecolor=colour(palette, mark.edge),
        linewidth=mark.width if mark.edge else 0.0,
        linestyle=(0.0, mark.dash) if mark.dash else "solid",
        alpha=mark.alpha,
        joinstyle="miter",
        zorder=order,
    )


def _codes(ring: Ring) -> list[int]:
    middle = [int(MplPath.LINETO)] * (len(ring) - 1)
    return [int(MplPath.MOVETO), *middle, int(MplPath.CLOSEPOLY)]


def _lines(mark: Polyline, palette: Palette, order: int) -> LineCollection:
    return LineCollection(
        [list(line) for line in mark.lines],
        colors=colour(palette, mark.role),
        linewidths=mark.width,
        linestyles=[(0.0, mark.dash)] if mark.dash else "solid",
        alpha=mark.alpha,
        capstyle="butt" if mark.dash else "round",
        zorder=order,
    )


def _disc(mark: Disc, palette: Palette, order: int) -> Circle:
    return Circle(
        mark.at,
        mark.radius,
        facecolor=colour(palette, mark.fill),
        edgecolor=colour(palette, mark.edge),
        linewidth=mark.width if mark.edge else 0.0,
        zorder=order,
    )


def _words(mark: Words, palette: Palette, order: int) -> Text:
    text = Text(
        *mark.at,
        mark.text,
        color=colour(palette, mark.role),
        fontproperties=font(mark.face),
        fontsize=mark.size,
        ha=mark.align,
        va="baseline",
        zorder=order,
        parse_math=False,
    )
    if mark.halo:
        halo = patheffects.withStroke(linewidth=2.4, foreground=colour(palette, mark.halo))
        text.set_path_effects([halo])
    return text
