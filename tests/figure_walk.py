"""A walk over the figures that a page shows, and whether each opens its working.

A figure is a number with its unit, in words, in a table or in the words of a picture. It opens
where F1 would find a working: in its own widget, or in what that lies in. `Allowed` are those that
are no figures of ours, by the pattern of their widget's name and words, with the reason.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QLabel, QListView, QWidget

from lawnbook.desk.figures import hand_on
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.desk.row_figures import told_in_cell
from lawnbook.desk.workings import WorkingPanel
from lawnbook.frozen import dataclass
from lawnbook.plan.working_model import Working
from lawnbook.yard.amounts import METRIC
from tests.access_walk import is_part, is_picture, settle, shown_in

UNITS = (
    *METRIC,
    *(each.name for each in METRIC.values()),
    *("%", "min", "minutes", "mg/L", "mL", "ppm", "cu ft", "kgal", "days", "weeks"),
)
"""What follows the number of a figure."""
SOME_ROWS = 4
"""So many rows of a table are tried, from the first."""
_UNIT = "|".join(re.escape(each) for each in sorted(set(UNITS), key=lambda each: -len(each)))
_FIGURE = re.compile(rf"(?<![\w.])[\d][\d.,½¼¾⅛⅜⅝⅞/]*[ \u00a0\u202f]?(?:{_UNIT})(?![\w])")
_IN_HEAD = re.compile(rf"(?<![\w])(?:{_UNIT})(?![\w])")
_NUMERAL = re.compile(r"\d[\d,]*(?:\.\d+)?")
_NUMBER = re.compile(r"\d")
_TAG = re.compile(r"<[^>]+>")
TOP = QModelIndex()
"""The parent of a table's rows."""

Allowed = Mapping[str, str]
"""Patterns of "name: words" that are no figures of ours, each with the reason."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A figure as it is shown: the widget, its figures as told, and whether they open.

    `strange` names what opens first where that does not tell the figure: "0.75 opens Area".
    """

    widget: QWidget
    words: str
    figures: tuple[str, ...]
    opens: bool
    strange: tuple[str, ...] = ()

    @property
    def told(self) -> str:
        """As a failing test names it."""
        return f"{self.widget.objectName() or type(self.widget).__name__}: {self.words}"


def figures_in(words: str) -> tuple[str, ...]:
    """The numbers with units that stand in some words."""
    return tuple(found.group().strip() for found in _FIGURE.finditer(words))


def opens(widget: QWidget) -> bool:
    """Whether F1 on a widget finds a working, in itself or in what it lies in."""
    around: QWidget | None = widget
    while around is not None and not around.isWindow():
        hand = hand_on(around)
        if hand is not None and hand.workings():
            return True
        around = around.parentWidget()
    return False


def opening(widget: QWidget) -> Sequence[Working]:
    """What F1 on a widget opens, in itself or in what it lies in."""
    around: QWidget | None = widget
    while around is not None and not around.isWindow():
        hand = hand_on(around)
        workings = () if hand is None else hand.workings()
        if workings:
            return workings
        around = around.parentWidget()
    return ()


def tells(working: Working, words: str) -> bool:
    """Whether a working's figure, rounded as words round it, is a number in these words."""
    shown = {_plainly(each) for each in _NUMERAL.findall(words)}
    ways = (working.value, *working.also)
    own = [_plainly(each) for way in ways for each in _NUMERAL.findall(way)]
    return any(
        round(number, places) == round(other, places)
        for number, _ in own
        for other, places in shown
    )


def _plainly(numeral: str) -> tuple[float, int]:
    """A number without its sign and parted thousands, and its decimals."""
    bare = numeral.replace(",", "").rstrip(".")
    return float(bare), len(bare.partition(".")[2])


def strange_of(found: Iterable[Shown], leads: Allowed) -> list[str]:
    """Those that open another figure's working first, and are not allowed to lead there."""
    return [
        f"{each.told} | {strange}"
        for each in found
        for strange in each.strange
        if not any(re.search(pattern, f"{each.told} | {strange}") for pattern in leads)
    ]


def shown_figures(root: QWidget) -> Iterator[Shown]:
    """Every figure that is shown in a widget: in words, in tables, in pictures."""
    for each in shown_in(root):
        if isinstance(each, QAbstractItemView):
            yield from _of_table(each)
        elif isinstance(each, QLabel):
            yield from _of_words(each, _TAG.sub("", each.text()))
        elif is_picture(each):
            yield from _of_words(each, each.accessibleDescription())


def panel_heads() -> list[str]:
    """The figures that the open panel tells, which is closed again."""
    settle()
    panels = [w for w in QApplication.topLevelWidgets() if isinstance(w, WorkingPanel)]
    (panel,) = [each for each in panels if each.isVisible()]
    told = [w.text() for w in panel.findChildren(QLabel) if w.property("role") == "heading"]
    panel.close()
    settle()
    return told


def unopened(root: QWidget, allowed: Allowed) -> list[str]:
    """The figures shown in a widget that open nothing and are not allowed to."""
    return closed_of(shown_figures(root), allowed)


def closed_of(found: Iterable[Shown], allowed: Allowed) -> list[str]:
    """Those of some figures that open nothing and are not allowed to."""
    return [
        each.told
        for each in found
        if not each.opens and not any(re.search(pattern, each.told) for pattern in allowed)
    ]


def _of_words(widget: QWidget, words: str) -> Iterator[Shown]:
    figures = figures_in(words)
    if figures and not is_part(widget):
        first = () if is_picture(widget) else opening(widget)[:1]
        strange = tuple(f"opens {each.label}: {each.value}" for each in first
                        if not tells(each, words))  # fmt: skip
        yield Shown(widget, words, figures, opens(widget), strange)


def _of_table(table: QAbstractItemView) -> Iterator[Shown]:
    """The first rows with figures; each is picked as the owner would, and then asked."""
    tried = 0
    # A list's own model tells nobody how many columns it has.
    columns = 1 if isinstance(table, QListView) else table.model().columnCount(TOP)
    for row in range(table.model().rowCount(TOP)):
        cells = [_cell(table, row, column) for column in range(columns)]
        figures = tuple(each for each in cells if each)
        if not figures:
            continue
        _pick(table, row)
        strange = tuple(_strange_cells(table, figures))
        yield Shown(table, f"row {row}: {', '.join(figures)}", figures, opens(table), strange)
        tried += 1
        if tried == SOME_ROWS:
            return


def _strange_cells(table: QAbstractItemView, figures: Iterable[str]) -> Iterator[str]:
    """The cells of the picked row that open another figure's working first."""
    workings = opening(table)
    for words in figures:
        first = told_in_cell(words.partition(" (")[0], workings)[:1]
        for each in first:
            if not tells(each, words):
                yield f"{words} opens {each.label}: {each.value}"


def _cell(table: QAbstractItemView, row: int, column: int) -> str:
    """A cell's figure: its number, with the unit in it or in the column's head."""
    model = table.model()
    words = str(model.index(row, column).data() or "")
    head = str(model.headerData(column, Qt.Orientation.Horizontal) or "")
    if figures_in(words):
        return words
    is_figure = _NUMBER.search(words) is not None and _IN_HEAD.search(head) is not None
    return f"{words} ({head})".replace("\n", " ") if is_figure else ""


def _pick(table: QAbstractItemView, row: int) -> None:
    """Pick a row, and tell nobody where the table can do so."""
    told = table.blockSignals(isinstance(table, RecordTable))
    flags = QItemSelectionModel.SelectionFlag
    index = table.model().index(row, 0)
    table.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)
    table.blockSignals(told)
