"""Paint a picture's marks on a matplotlib Figure, whatever canvas holds it; no pyplot."""

from functools import cache

from matplotlib import patheffects
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, fontManager
from matplotlib.patches import Circle, PathPatch
from matplotlib.path import Path as MplPath

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
    """Replace whatever the figure holds by the picture, one point of it to a point of paper."""
    figure.clear()
    figure.patch.set_facecolor(palette.paper)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(0, picture.frame.width)
    axes.set_ylim(picture.frame.height, 0)
    for order, mark in enumerate(picture.marks):
        match mark:
            case Polygon():
                axes.add_patch(_polygon(mark, palette, order))
            case Polyline():
                axes.add_collection(_lines(mark, palette, order), autolim=False)
            case Disc():
                axes.add_patch(_disc(mark, palette, order))
            case Words():
                _words(axes, mark, palette, order)


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


def _words(axes: Axes, mark: Words, palette: Palette, order: int) -> None:
    text = axes.text(
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
