"""The sketch as SVG 1.1, true to scale in millimetres: a group for each table, holes left open."""

import math
import re
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.store.files import write_text_whole
from lawnbook.store.outlines_written import refuse_undrawn
from lawnbook.yard.amounts import shown, stored, told, unit_shown
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import (
    Bounds,
    bounds_ft,
    label_point_ft,
    yard_bounds_ft,
    zone_area_sqft,
)
from lawnbook.yard.local_plane import FOOT_M
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, Head, Zone

SVG = ".svg"
A3_MM = (420.0, 297.0)
SCALES = (50, 100, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 3000, 5000, 10000, 20000)
"""The scales of drawings; the largest drawing that fits A3, lying or standing, is taken."""
MARGIN_MM, FOOT_LINE_MM, LEAST_WIDTH_MM = 12.0, 16.0, 110.0
BARS_M = (1, 2, 5, 10, 20, 50, 100, 200, 500)
BARS_FT = (5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000)
LONGEST_BAR_MM = 60.0
_UNFIT = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_STYLE = """\
.zones path{fill:#dfe8cf;stroke:#3f5a2e;stroke-width:.35}
.features path{fill:#e3dfd6;stroke:#6b665c;stroke-width:.3}
.heads path{fill:none;stroke:#2f6f9f;stroke-width:.2}
.heads circle{fill:#2f6f9f}
.spots circle{fill:#b5482e}
text{font-family:sans-serif;font-size:3px;fill:#2b2a27}
.names text{text-anchor:middle}
.scale path{fill:none;stroke:#2b2a27;stroke-width:.35}"""


@dataclass(frozen=True, slots=True)
class _Page:
    """Where a point of the sketch lies on the paper, in millimetres from its top left."""

    scale: int
    west: float
    north: float
    width_mm: float
    height_mm: float

    @property
    def mm_per_ft(self) -> float:
        return FOOT_M * 1000 / self.scale

    def at(self, point: Point) -> Point:
        x = MARGIN_MM + (point[0] - self.west) * self.mm_per_ft
        return (x, MARGIN_MM + (self.north - point[1]) * self.mm_per_ft)


def svg_of(notebook: Notebook) -> tuple[str, int]:
    """The drawing as an SVG text, and its scale (100 for 1:100). OwnerError if nothing is drawn."""
    refuse_undrawn(notebook)
    page = _page(notebook)
    width, height = f"{page.width_mm:.2f}", f"{page.height_mm:.2f}"
    size = f'width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}"'
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" {size}>',
        f"<title>{_words(notebook.yard.name)}</title>",
        f"<desc>Scale 1:{page.scale} in millimetres.</desc>",
        f"<style>{_STYLE}</style>",
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
        *_group("zones", (_shape(each, page) for each in notebook.zones.values())),
        *_group("features", (_shape(each, page) for each in notebook.features.values())),
        *_group("heads", (_head(each, page) for each in notebook.heads.values())),
        *_group("spots", _spots(notebook, page)),
        *_group("names", _names(notebook, page)),
        *_group("scale", _foot(page, notebook.yard.north_deg)),
        "</svg>",
    ]
    return "\n".join(lines) + "\n", page.scale


def write_svg(notebook: Notebook, path: Path, between: Callable[[], None] = lambda: None) -> str:
    """Write the drawing as SVG, whole or not at all; what is to be told of it: its scale.

    `between` is called before the file is written; what it raises leaves it unwritten.
    """
    text, scale = svg_of(notebook)
    between()
    write_text_whole(path, text)
    one, metres = (tr("1 m"), 1.0) if is_metric() else (tr("1 ft"), FOOT_M)
    return tr(
        "It is drawn 1:{scale:,}: {one} is {metres:.2f} mm.",
        scale=scale,
        one=one,
        metres=metres * 1000 / scale,
    )


def _page(notebook: Notebook) -> _Page:
    west, south, east, north = _drawn_bounds_ft(notebook)
    for scale in SCALES:
        per_ft = FOOT_M * 1000 / scale
        wide = max((east - west) * per_ft + 2 * MARGIN_MM, LEAST_WIDTH_MM)
        high = (north - south) * per_ft + 2 * MARGIN_MM + FOOT_LINE_MM
        if max(wide, high) <= max(A3_MM) and min(wide, high) <= min(A3_MM):
            break
    return _Page(scale, west, north, wide, high)


def _drawn_bounds_ft(notebook: Notebook) -> Bounds:
    """The box round all that is drawn, with what the heads throw over."""
    boxes = [yard_bounds_ft(notebook)]
    boxes += [bounds_ft([_reach_ft(head)]) for head in notebook.heads.values()]
    wests, souths, easts, norths = zip(*boxes, strict=True)
    return min(wests), min(souths), max(easts), max(norths)


def _reach_ft(head: Head) -> Outline:
    """The ends of a head's arc, and where it turns from one quarter to the next."""
    quarters = (90.0 * step for step in range(-4, 9))
    inside = (each for each in quarters if 0 <= each - head.start_deg <= head.sweep_deg)
    bearings = (head.start_deg, head.start_deg + head.sweep_deg, *inside)
    x, y = head.at_ft
    return tuple(
        (
            x + head.radius_ft * math.sin(math.radians(bearing)),
            y + head.radius_ft * math.cos(math.radians(bearing)),
        )
        for bearing in bearings
    )


def _group(name: str, lines: Iterable[str]) -> Iterator[str]:
    yield f'<g id="{name}" class="{name}">'
    yield from lines
    yield "</g>"


def _shape(record: Zone | Feature, page: _Page) -> str:
    holes = record.holes_ft if isinstance(record, Zone) else ()
    rings = " ".join(_ring(ring, page) for ring in (record.outline_ft, *holes))
    title = record.name if isinstance(record, Zone) else record.name or record.kind
    return (
        f'<path id={_id(record.id)} fill-rule="evenodd" d="{rings}">'
        f"<title>{_words(title)}</title></path>"
    )


def _ring(ring: Outline, page: _Page) -> str:
    return "M" + " L".join(_pair(page.at(point)) for point in ring) + " Z"


def _head(head: Head, page: _Page) -> str:
    """A head as a dot, and the arc that it throws over."""
    x, y = page.at(head.at_ft)
    radius = head.radius_ft * page.mm_per_ft
    ends = []
    for bearing in (head.start_deg, head.start_deg + min(head.sweep_deg, 359.99)):
        turn = math.radians(bearing)
        ends.append(_pair((x + radius * math.sin(turn), y - radius * math.cos(turn))))
    large = 1 if head.sweep_deg > 180 else 0
    arc = f"M{ends[0]} A{radius:.3f} {radius:.3f} 0 {large} 1 {ends[1]}"
    if head.sweep_deg < 360:
        arc = f"M{_pair((x, y))} L{arc[1:]} Z"
    return f'<g id={_id(head.id)}><path d="{arc}"/><circle cx="{x:.3f}" cy="{y:.3f}" r=".6"/></g>'


def _spots(notebook: Notebook, page: _Page) -> Iterator[str]:
    for spot in notebook.spots.values():
        if spot.at_ft is not None:
            x, y = page.at(spot.at_ft)
            yield (
                f'<circle id={_id(spot.id)} cx="{x:.3f}" cy="{y:.3f}" r="1">'
                f"<title>{_words(spot.name)}</title></circle>"
            )


def _names(notebook: Notebook, page: _Page) -> Iterator[str]:
    """The zones' names with their areas, well inside them."""
    for zone in notebook.zones.values():
        x, y = page.at(label_point_ft(zone.outline_ft, zone.holes_ft))
        area = told(zone_area_sqft(zone), 0, "sq ft")
        yield f'<text x="{x:.2f}" y="{y:.2f}">{_words(zone.name)}</text>'
        yield f'<text x="{x:.2f}" y="{y + 3.6:.2f}">{area}</text>'


def _foot(page: _Page, north_deg: float) -> Iterator[str]:
    """The scale bar, its words, and the arrow to north, below the drawing."""
    y = page.height_mm - MARGIN_MM
    bars = [stored(each, "ft") for each in BARS_M] if is_metric() else BARS_FT
    fitting = [each for each in bars if each * page.mm_per_ft <= LONGEST_BAR_MM]
    feet = fitting[-1] if fitting else bars[0]
    end = MARGIN_MM + feet * page.mm_per_ft
    words = f"{shown(feet, 'ft'):,.0f} {unit_shown('ft')} · 1:{page.scale:,}"
    yield f'<path d="M{MARGIN_MM:.3f} {y - 2:.3f} v2 H{end:.3f} v-2"/>'
    yield f'<text x="{MARGIN_MM:.2f}" y="{y - 3.5:.2f}">{words}</text>'
    x, middle = page.width_mm - MARGIN_MM - 5, y - 5
    yield (
        f'<g transform="rotate({north_deg:g} {x:.2f} {middle:.2f})">'
        f'<path d="M{x:.2f} {middle + 5:.2f} V{middle - 5:.2f} '
        f'm-1.6 3 l1.6 -3 l1.6 3"/><text x="{x + 1.8:.2f}" y="{middle + 4:.2f}">N</text></g>'
    )


def _pair(point: Point) -> str:
    return f"{point[0]:.3f} {point[1]:.3f}"


def _words(text: str) -> str:
    """Words as XML 1.0 may hold them."""
    return escape(_UNFIT.sub("", text))


def _id(record_id: str) -> str:
    # An XML id begins with a letter, and an owner's own id need not.
    return quoteattr("r-" + re.sub(r"[^\w.-]", "_", _UNFIT.sub("", record_id), flags=re.ASCII))
