"""The key of a trend picture: what its lines, dots and bars are, and why there is no line."""

from collections.abc import Sequence

from lawnbook.charts.marks import Disc, Mark, Polygon, Polyline, Words, rectangle, rough_width
from lawnbook.charts.profile_layout import UNSURE_DASH, UNSURE_PT
from lawnbook.charts.trend_layout import KEY_ROW_PT, LEFT_PT, RIGHT_PT, Trends
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown

PLUGS, ERROR, SPOTS, TREND, MEAN, BAND, STRIP = (
    tr("plugs of a day"),
    tr("± error"),
    tr("a spot"),
    tr("trend"),
    tr("mean of the spots"),
    tr("95 % band"),
    tr("untreated comparison"),
)
UNSURE = tr(", not sure yet")
"""Behind the name of a line that has no interval."""
COMPARISON_DASH = (4.0, 2.4)
_SWATCH_PT, _GAP_PT, _BETWEEN_PT = 15.0, 4.0, 11.0
_START_PT = LEFT_PT + 16.0
_MOST_LINES = 2

Placed = tuple[str, float, int]
"""A name of the key, where it begins in points, and its row."""


def key_names(trends: Trends) -> tuple[str, ...]:
    """What is drawn, in the order of the key."""
    place = trends.place
    names = [PLUGS] if place.kind == "spot" else [SPOTS]
    if place.kind == "spot" and place.error is not None:
        names.append(ERROR)
    if place.line:
        name = TREND if place.kind == "spot" else MEAN
        names.append(name if place.ci95 is not None else name + UNSURE)
    if place.band:
        names.append(BAND)
    if trends.comparison:
        names.append(STRIP)
    return tuple(names)


def placed_names(names: Sequence[str], width: float) -> tuple[Placed, ...]:
    """The names in as many rows as they need, none written over another."""
    placed: list[Placed] = []
    x, row = _START_PT, 0
    for name in names:
        needs = _SWATCH_PT + _GAP_PT + rough_width(name, 9.0)
        if placed and x + needs > width - 4:
            x, row = _START_PT, row + 1
        placed.append((name, x, row))
        x += needs + _BETWEEN_PT
    return tuple(placed)


def said_lines(text: str, width: float) -> tuple[str, ...]:
    """A sentence in lines that fit beside the scale; at most two, the last cut off."""
    lines: list[str] = []
    room = width - LEFT_PT - RIGHT_PT
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and rough_width(longer, 9.0) <= room:
            lines[-1] = longer
        elif len(lines) < _MOST_LINES:
            lines.append(word)
        else:
            lines[-1] += "…"
            break
    return tuple(lines)


def key_marks(placed: Sequence[Placed], said: Sequence[str], first_row: int) -> list[Mark]:
    """The unit of the scale, the names with their swatches, and what is said beneath them."""
    unit = tr("thatch, {unit}", unit=unit_shown("in"))
    marks: list[Mark] = [Words(at=(2, 11), text=unit, role="quiet")]
    for name, x, row in placed:
        y = 11 + KEY_ROW_PT * row
        marks += _swatch(name, x, y - 3.2)
        marks.append(Words(at=(x + _SWATCH_PT + _GAP_PT, y), text=name, role="quiet"))
    for number, text in enumerate(said):
        at = (LEFT_PT + 6, 11 + KEY_ROW_PT * (first_row + number))
        marks.append(Words(at=at, text=text, role="quiet", face="italic"))
    return marks


def _swatch(name: str, x: float, y: float) -> list[Mark]:
    middle, line = x + _SWATCH_PT / 2, ((x, y), (x + _SWATCH_PT, y))
    if name == BAND:
        box = rectangle(x, y - 4.5, x + _SWATCH_PT, y + 4.5)
        return [Polygon(rings=(box,), fill="accent", alpha=0.18)]
    if name == PLUGS:
        return [Disc(at=(middle, y), radius=3.0, fill="ink", edge="paper", width=0.8)]
    if name == ERROR:
        return [error_bar(middle, y - 4.5, y + 4.5)]
    if name == SPOTS:
        return [
            Polyline(lines=(line,), role="quiet", width=0.9, alpha=0.75),
            Disc(at=(middle, y), radius=2.1, fill="quiet"),
        ]
    if name == STRIP:
        return [
            Polyline(lines=(line,), role="water", width=1.2, dash=COMPARISON_DASH),
            Disc(at=(middle, y), radius=2.3, fill="paper", edge="water", width=1.1),
        ]
    if name.endswith(UNSURE):
        return [Polyline(lines=(line,), role="accent", width=UNSURE_PT, dash=UNSURE_DASH)]
    return [Polyline(lines=(line,), role="accent", width=2.2)]


def error_bar(x: float, top: float, foot: float) -> Polyline:
    """An upright bar with caps."""
    caps = tuple(((x - 2.2, y), (x + 2.2, y)) for y in (top, foot))
    return Polyline(lines=(((x, top), (x, foot)), *caps), role="ink", width=0.9)
