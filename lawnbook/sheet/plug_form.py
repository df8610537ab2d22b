"""The paper form: one page to take outside, a column a spot, its lines in the order of the entry.

Every length is a box to write in, every scale of steps a row to ring. The proposed hour and the
old holes stand at the head of each column.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter

from lawnbook.charts.clock_face import Hole, clock_face_marks, old_holes
from lawnbook.charts.marks import Frame
from lawnbook.charts.scales import reach_told
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import NextPlug, PlugPlace
from lawnbook.reading import is_metric, tr
from lawnbook.sheet.ink import CAPTION, DETAIL, SUBTITLE, TITLE, Ink, Style
from lawnbook.sheet.layout import Box, PaperName, live_area
from lawnbook.sheet.paper import on_paper
from lawnbook.yard.amounts import told, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

USUAL_COLUMNS, MOST_COLUMNS = 4, 5
"""Four columns leave room for wet hands; five where more spots are due."""
DIG = tr(
    "Have buried lines located before you dig (811 in the US). Hand tools only; "
    "keep clear of heads, pipes and wires."
)
SCALES = tr(
    "Lengths in inches, from the crowns (top of the thatch); write mm behind "
    "millimetres. Read the thatch at three places round the plug. Ruler: its "
    "finest mark, such as 1/16. Roots: to where most of them end. Length: from the "
    "crowns to the cut end. Sponge: 0 firm, 4 deep give like a mattress. Soil in "
    "the thatch: 0 none, 4 all of it. Worms: counted in the plug. O'clock: where "
    "round the spot's mark it was pulled, 12 up on the sketch; old holes are "
    "filled dots, the ring is the place proposed."
)
SCALES_METRIC = tr(
    "Lengths in millimetres, from the crowns (top of the thatch). Read the thatch "
    "at three places round the plug. Ruler: its finest mark, such as 1 or {half}. "
    "Roots: to where most of them end. Length: from the crowns to the cut end. "
    "Sponge: 0 firm, 4 deep give like a mattress. Soil in the thatch: 0 none, 4 "
    "all of it. Worms: counted in the plug. O'clock: where round the spot's mark "
    "it was pulled, 12 up on the sketch; old holes are filled dots, the ring is "
    "the place proposed."
)
NO_SPOTS = tr("No spot yet: put some down in the notebook, or write a name over a column.")
_TITLE_SIZES = (TITLE.size, 20.0, 17.0)
_LABELS_PT = 80.0
_HEAD_PT, _CAUTION_PT, _TOP_PT = 46.0, 16.0, 128.0
_FACE_PT = 66.0
_FOOT_LINES = 4
_FOOT_LINE_PT = 10.0
_NOTE_SHARE = 3.0
_PAD_PT = 5.0
_BOX_GAP_PT = 4.0
_LABEL = Style("medium", 9.5)
_HINT = Style("regular", 8, "quiet")
_NAME = Style("serif semibold", 12)
_RING = Style("regular", 10)
_WORD = Style("regular", 9)
_HOUR = Style("semibold", 10)
_CAUTIONED = Style("semibold", 9, "warn")


@dataclass(frozen=True, slots=True)
class FormRow:
    """A line of the form: the field of a plug it is for, its words, and what is drawn to fill.

    `{unit}` in the hint stands for the unit of lengths. `boxes` are to be written in, `steps` to be
    ringed; without either it is lines to write on.
    """

    field: str
    label: str
    hint: str = ""
    boxes: int = 0
    steps: tuple[str, ...] = ()
    tall: float = 1.0


@dataclass(frozen=True, slots=True)
class _Column:
    """The head of a spot's column: where, whether the spot is left untreated, and the day."""

    box: Box
    untreated: bool
    on: date


_FELT = (tr("dry"), tr("moist"), tr("wet"))
_OF_FOUR = ("0", "1", "2", "3", "4")
ROWS: tuple[FormRow, ...] = (
    FormRow("thatch_in", tr("Thatch"), tr("three readings, {unit}"), boxes=3, tall=1.15),
    FormRow("resolution_in", tr("Ruler"), tr("finest mark, {unit}"), boxes=1),
    FormRow("root_depth_in", tr("Roots"), tr("most end at, {unit}"), boxes=1),
    FormRow("core_depth_in", tr("Length"), tr("to the cut end, {unit}"), boxes=1),
    FormRow("sponge", tr("Sponge"), tr("0 firm, 4 deep"), steps=_OF_FOUR),
    FormRow("soil_in_thatch", tr("Soil in thatch"), tr("0 none, 4 all"), steps=_OF_FOUR),
    FormRow("worms", tr("Worms"), tr("counted"), boxes=1),
    FormRow("pressed", tr("Pressed"), tr("while it was read"), steps=(tr("no"), tr("yes"))),
    FormRow("thatch_moisture", tr("Thatch feels"), steps=_FELT),
    FormRow("soil_moisture", tr("Soil feels"), steps=_FELT),
    FormRow("clock", tr("O'clock"), tr("1 to 12"), boxes=1),
    FormRow("ring_in", tr("From mark"), "{unit}", boxes=1),
    FormRow("note", tr("Note"), tall=_NOTE_SHARE),
    FormRow("photos", tr("Photo no."), boxes=1),
)
"""The lines in the order of the form in the window."""


def draw_plug_form(painter: QPainter, notebook: Notebook, plan: Plan, paper: PaperName) -> None:
    """Draw the form; the painter's unit is the point, its origin the paper's upper left corner."""
    with on_paper(painter, paper) as ink:
        area = live_area(paper)
        spots = spots_on_form(plan)
        count = columns_for(len(spots))
        shown = spots[:count]
        _head(ink, area, plan, spots[count:])
        foot = _FOOT_LINE_PT * _FOOT_LINES + 6
        top = area.top + _HEAD_PT + _CAUTION_PT
        table = Box(area.left, top, area.width, area.bottom - foot - top)
        cores = notebook.cores.values()
        for number, box in enumerate(_columns(table, count)):
            spot = shown[number] if number < len(shown) else None
            old = old_holes(cores, spot.spot_id, plan.on) if spot is not None else ()
            held = None if spot is None else notebook.spots.get(spot.spot_id)
            untreated = held is not None and held.comparison
            column = _Column(replace(box, height=_TOP_PT), untreated, plan.on)
            _spot(ink, column, spot, old)
        _lines(ink, table, count)
        _foot(ink, area, table.bottom)


def spots_on_form(plan: Plan) -> tuple[NextPlug, ...]:
    """The spots due on the day of the plan; all spots, the next due first, where none is."""
    due = tuple(each for each in plan.next_plugs if each.due <= plan.on)
    return due or tuple(sorted(plan.next_plugs, key=lambda each: (each.due, not each.first)))


def columns_for(spots: int) -> int:
    """How many columns the form has for so many spots; those left over stand blank."""
    return USUAL_COLUMNS if spots <= USUAL_COLUMNS else MOST_COLUMNS


def _head(ink: Ink, area: Box, plan: Plan, left_out: Sequence[NextPlug]) -> None:
    """Whose yard, the lines for day and hand, and the caution before any digging."""
    line_pt = 128.0
    right = area.right
    for label in (tr("By"), tr("Date")):
        ink.rule(right - line_pt, right, area.top + 20, "ink", 0.7)
        right -= line_pt + 6
        ink.text((right, area.top + 19), label, CAPTION, "right")
        right -= ink.width(label, CAPTION) + 14
    name = plan.yard or tr("The yard")
    sizes = (replace(TITLE, size=size) for size in _TITLE_SIZES)
    fitting = (style for style in sizes if ink.width(name, style) <= right - area.left)
    title = next(fitting, replace(TITLE, size=_TITLE_SIZES[-1]))
    ink.text((area.left, area.top + 20), ink.fit(name, title, right - area.left), title)
    words = tr("Plugs to pull, as of {on}", on=day(plan.on))
    if left_out:
        names = ", ".join(each.spot for each in left_out)
        words += tr("; {count} more on another form: {names}", count=len(left_out), names=names)
    ink.text((area.left, area.top + 36), ink.fit(words, SUBTITLE, area.width), SUBTITLE)
    style = ink.smaller(DIG, _CAUTIONED, area.width)
    ink.text((area.left, area.top + 36 + _CAUTION_PT), DIG, style)


def _columns(table: Box, count: int) -> Iterator[Box]:
    wide = (table.width - _LABELS_PT) / count
    for number in range(count):
        yield Box(table.left + _LABELS_PT + number * wide, table.top, wide, table.height)


def _spot(ink: Ink, column: _Column, spot: NextPlug | None, old: Sequence[Hole]) -> None:
    """The head of a column: name, zone, clock face and the hour proposed; blank lines without."""
    box = column.box
    left, room = box.left + _PAD_PT, box.width - 2 * _PAD_PT
    middle = box.left + box.width / 2
    if spot is None:
        ink.rule(left, box.right - _PAD_PT, box.top + 18, "quiet", 0.6)
        ink.text((left, box.top + 28), tr("spot"), _HINT)
    else:
        style = ink.smaller(spot.spot, _NAME, room)
        ink.text((left, box.top + 17), ink.fit(spot.spot, style, room), style)
        due = "" if spot.due <= column.on else tr("due {due}", due=day(spot.due))
        # A long zone's name is cut before the word that tells what the column is for.
        mark = tr(", untreated") if column.untreated else ""
        zone = ink.fit(spot.zone, _HINT, room - ink.width(mark, _HINT)) + mark
        for line, words in enumerate((zone.removeprefix(", "), due)):
            ink.text((left, box.top + 28 + 10 * line), ink.fit(words, _HINT, room), _HINT)
    place = spot.place if spot is not None else None
    proposed = Hole(place.clock, place.ring_in) if place is not None else None
    face = clock_face_marks(old, proposed, Frame(_FACE_PT, _FACE_PT))
    ink.picture(face, middle - _FACE_PT / 2, box.top + 43)
    base = box.top + 43 + _FACE_PT + 11
    if place is not None:
        words, style = _place_told(ink, place, room)
        ink.text((middle, base), ink.fit(words, style, room), style, "center")
    elif spot is not None:
        ink.text((middle, base), ink.fit(tr("no free place known"), _HINT, room), _HINT, "center")


def _place_told(ink: Ink, place: PlugPlace, room: float) -> tuple[str, Style]:
    """Hour and distance of the place proposed, as large as fits; shorter before it is cut."""
    named = {"hour": place.clock, "distance": reach_told(place.ring_in)}
    texts = tr("{hour} o'clock, {distance} out", **named), tr("{hour} o'clock, {distance}", **named)
    tried = [(text, ink.smaller(text, _HOUR, room)) for text in texts]
    return next((each for each in tried if ink.width(*each) <= room), tried[-1])


def _lines(ink: Ink, table: Box, count: int) -> None:
    """The lines of the form under the heads, with hairlines between them and the columns."""
    room = table.height - _TOP_PT
    unit = room / sum(each.tall for each in ROWS)
    y = table.top + _TOP_PT
    ink.rule(table.left, table.right, y, "ink", 1.0)
    for row in ROWS:
        high = unit * row.tall
        _label(ink, table.left, y, high, row)
        for box in _columns(table, count):
            _fill(ink, Box(box.left + _PAD_PT, y, box.width - 2 * _PAD_PT, high), row)
        y += high
        ink.rule(table.left, table.right, y)
    painter = ink.painter
    painter.setPen(ink.pen("rule", 0.6, ()))
    for box in _columns(table, count):
        painter.drawLine(
            QRectF(box.left, table.top + 4, 0, table.height - 4).topLeft(),
            QRectF(box.left, table.top + 4, 0, table.height - 4).bottomLeft(),
        )


def _label(ink: Ink, left: float, top: float, high: float, row: FormRow) -> None:
    """The line's name, and beneath it in what it is written."""
    room = _LABELS_PT - _PAD_PT
    base = top + (min(high, 30.0) / 2 + (-1.0 if row.hint else 3.2))
    ink.text((left, base), ink.fit(row.label, _LABEL, room), _LABEL)
    if row.hint:
        hint = tr(row.hint, unit=unit_shown("in"))
        ink.text((left, base + 10), ink.fit(hint, _HINT, room), _HINT)


def _fill(ink: Ink, box: Box, row: FormRow) -> None:
    draw: Callable[[Ink, Box, FormRow], None] = (
        _boxes if row.boxes else _steps if row.steps else _writing_lines
    )
    draw(ink, box, row)


def _boxes(ink: Ink, box: Box, row: FormRow) -> None:
    """Empty boxes side by side to write in."""
    wide = (box.width - _BOX_GAP_PT * (row.boxes - 1)) / row.boxes
    painter = ink.painter
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(ink.pen("quiet", 0.7, ()))
    for number in range(row.boxes):
        left = box.left + number * (wide + _BOX_GAP_PT)
        painter.drawRect(QRectF(left, box.top + 3.5, wide, box.height - 7))


def _steps(ink: Ink, box: Box, row: FormRow) -> None:
    """Steps side by side to be ringed."""
    style = _RING if row.steps == _OF_FOUR else _WORD
    wide = box.width / len(row.steps)
    for number, step in enumerate(row.steps):
        middle = box.left + (number + 0.5) * wide
        ink.text((middle, box.top + box.height / 2 + 3.4), step, style, "center")


def _writing_lines(ink: Ink, box: Box, row: FormRow) -> None:
    lines = round(row.tall)
    for number in range(1, lines):
        ink.rule(box.left, box.right, box.top + box.height * number / lines, "rule", 0.6)


def _foot(ink: Ink, area: Box, top: float) -> None:
    """What the scales mean, in small print."""
    scales = tr(SCALES_METRIC, half=told(0.5, 1)) if is_metric() else tr(SCALES)
    lines = ink.wrap(scales, DETAIL, area.width, most=_FOOT_LINES)
    for number, line in enumerate(lines, start=1):
        ink.text((area.left, top + 4 + _FOOT_LINE_PT * number), line, DETAIL)
