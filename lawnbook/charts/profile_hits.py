"""What lies under the pointer on the profile columns: the plug, and what it showed in words.

Boxes are half-open (the left and top sides belong to them), so neighbours never share a point.
"""

from collections.abc import Sequence
from itertools import pairwise

from lawnbook.charts.marks import Frame, shortened
from lawnbook.charts.plug import Column, column_key
from lawnbook.charts.profile_layout import Detail, Layout, lay_out, roots_words
from lawnbook.charts.scales import reach_told
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import MeanColumn, PlugColumn
from lawnbook.reading import tr
from lawnbook.yard.amounts import told, unit_shown
from lawnbook.yard.numbers import counted, day

MOST_NOTE_LETTERS = 60


@dataclass(frozen=True, slots=True)
class Hit:
    """A box in points that answers to the pointer: `key` names what it is, `words` tell of it.

    `parts` are the heights, from and to, at which it shows a figure of its own, by their names.
    """

    left: float
    top: float
    right: float
    bottom: float
    key: str
    words: str
    parts: tuple[tuple[float, float, str], ...] = ()

    def part_at(self, y: float) -> str:
        """The name of the part that lies at a height; empty beside all of them."""
        return next((name for top, bottom, name in self.parts if top <= y < bottom), "")

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies in the box; its right and lower sides are not of it."""
        return self.left <= x < self.right and self.top <= y < self.bottom


def profile_hits(
    columns: Sequence[Column], frame: Frame, detail: Detail = "full"
) -> tuple[Hit, ...]:
    """A box for each column that is drawn, from the top of the picture to its last figure.

    The key is the plug's id, or those of a mean joined by spaces.
    """
    return column_hits(lay_out(columns, frame, detail)) if columns else ()


def column_hits(layout: Layout) -> tuple[Hit, ...]:
    """The boxes of a layout's columns: each reaches halfway to its neighbours."""
    middles = layout.middles
    between = [(one + other) / 2 for one, other in pairwise(middles)]
    lefts, rights = (layout.start, *between), (*between, layout.end)
    half = layout.slot / 2
    rows = layout.bottom + 4
    foot = rows + 13.0 * len(layout.rows)
    parts = tuple(
        (rows + 13.0 * place, rows + 13.0 * (place + 1), row.key)
        for place, row in enumerate(layout.rows)
    )
    return tuple(
        Hit(
            left=max(lefts[number], middles[number] - half),
            top=0.0,
            right=min(rights[number], middles[number] + half),
            bottom=foot,
            key=column_key(column),
            words=column_words(column),
            parts=parts,
        )
        for number, column in enumerate(layout.columns)
    )


def column_words(column: Column) -> str:
    """Date, thatch with its readings, roots, what else was noted, and the beginning of the note."""
    lines = [day(column.date), _thatch(column), _roots(column)]
    if isinstance(column, PlugColumn):
        lines += [_noted(column), shown_note(column.note)]
    return "\n".join(line for line in lines if line)


def shown_note(note: str) -> str:
    """The beginning of a note, on one line."""
    whole = " ".join(note.split())
    return shortened(whole, lambda text: len(text) <= MOST_NOTE_LETTERS)


def _thatch(column: Column) -> str:
    if column.thatch_in is None:
        return tr("thatch not read")
    words = tr("thatch {thickness}", thickness=told(column.thatch_in, 2, "in"))
    spread = (
        ""
        if column.spread_in is None
        else tr(", spread {spread_in}", spread_in=told(column.spread_in, 2, "in"))
    )
    if isinstance(column, MeanColumn):
        noun = tr("spot") if column.of_spots == 1 else tr("spots")
        return tr(
            "{words}, mean of {spots} of {of_spots} {noun}{spread}",
            words=words,
            spots=column.spots,
            of_spots=column.of_spots,
            noun=noun,
            spread=spread,
        )
    pressed = tr(", pressed") if column.pressed else ""
    return f"{words}, {counted(column.readings, 'reading')}{spread}{pressed}"


def _noted(column: PlugColumn) -> str:
    """What the picture shows too small to be read off, and where round the mark it was pulled."""
    worms = tr("1 worm") if column.worms == 1 else tr("{worms} worms", worms=column.worms)
    length_in = column.core_depth_in or 0.0
    parts = (
        (column.worms, worms),
        (column.sponge, tr("sponge {sponge} of 4", sponge=column.sponge)),
        (
            column.soil_in_thatch,
            tr("soil in it {soil_in_thatch} of 4", soil_in_thatch=column.soil_in_thatch),
        ),
        (
            column.thatch_moisture,
            tr("thatch {thatch_moisture}", thatch_moisture=column.thatch_moisture),
        ),
        (column.soil_moisture, tr("soil {soil_moisture}", soil_moisture=column.soil_moisture)),
        (column.core_depth_in, tr("plug {length} long", length=told(length_in, 1, "in"))),
        (column.clock, tr("{clock} o'clock", clock=column.clock)),
        (column.ring_in, tr("{distance} from the mark", distance=reach_told(column.ring_in or 0))),
    )
    return ", ".join(words for value, words in parts if value is not None)


def _roots(column: Column) -> str:
    if column.root_depth_in is None:
        return tr("roots not read")
    return tr("roots {depth} {unit}", depth=roots_words(column), unit=unit_shown("in"))
