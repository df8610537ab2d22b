"""The strip of the drawing tools: a rectangle by its two sides, and what a feature is."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QWidget

from lawnbook.desk.sketch.drawing import DrawTool, FeatureTool, HoleTool
from lawnbook.desk.sketch.inspector import KindBox, Strip, StripField
from lawnbook.desk.sketch.tools import Tool
from lawnbook.desk.widgets import QuietButton, mark_role
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import rectangle_ft, yard_bounds_ft
from lawnbook.yard.numbers import parse_feet
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Record

APART_FT = 4.0
"""How far a rectangle without a corner of its own is put from what is drawn."""


class RectangleStrip(Strip):
    """Two sides and a button. From the corner put last, else beside what is drawn."""

    kind = "rectangle"
    placed = Signal()

    def __init__(self, tool: DrawTool, parent: QWidget | None = None) -> None:
        super().__init__(tool.control, parent)
        self._tool = tool
        self._of = "new_feature" if isinstance(tool, FeatureTool) else "new_zone"
        if isinstance(tool, FeatureTool):
            box = KindBox("sketch_new_feature_kind", self)
            box.show_kind(self.control.feature_kind)
            box.activated.connect(lambda: self._choose_kind(box))
            self.add("Kind", box)
        self._across = self._side("width", "Across, ft")
        times = QLabel("×", self)
        times.setContentsMargins(0, 0, 0, 7)
        self.row.addWidget(times, 0, Qt.AlignmentFlag.AlignBottom)
        self._up = self._side("depth", "Up the page, ft")
        button = QuietButton("Put it down", f"sketch_{self._of}_put_down", self)
        button.clicked.connect(self.put_down)
        self.row.addWidget(button, 0, Qt.AlignmentFlag.AlignBottom)
        self.row.addStretch(1)

    def show_record(self, record: Record) -> None:
        """The strip of a tool shows no record."""

    def put_down(self) -> None:
        """Make the rectangle of the two sides that were typed."""
        across = self._parsed(self._across, "Across")
        up = self._parsed(self._up, "Up the page") if across is not None else None
        if across is None or up is None:
            return
        outline = rectangle_ft(self._corner(), across, up)
        if self._tool.finish(outline):
            self._across.show_text("")
            self._up.show_text("")
            self.placed.emit()

    def _side(self, name: str, caption: str) -> StripField:
        field = StripField(f"{self._of}_{name}", caption, 92, self)
        field.setPlaceholderText("32' 6\"" if name == "width" else "20")
        field.returnPressed.connect(self.put_down)
        self.fields[name] = field
        self.add(caption, field)
        return field

    def _parsed(self, field: StripField, what: str) -> float | None:
        try:
            side = parse_feet(field.text(), what)
            if side <= 0:
                raise OwnerError(f"{what}: a side is longer than nothing; enter feet, such as 20.")
        except OwnerError as error:
            field.refuse()
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            self.control.say(str(error), "bad")
            return None
        mark_role(field, "", "")
        return side

    def _corner(self) -> Point:
        """Where the rectangle's lower left corner goes."""
        if self._tool.corners:
            return self._tool.corners[-1]
        notebook = self.control.notebook
        if not (notebook.zones or notebook.features):
            return (0.0, 0.0)
        _, south, east, _ = yard_bounds_ft(notebook)
        return (float(round(east + APART_FT)), float(round(south)))

    def _choose_kind(self, box: KindBox) -> None:
        self.control.feature_kind = box.currentData()


def tool_strip(tool: Tool) -> RectangleStrip | None:
    """The strip of a tool, None where it has none."""
    if isinstance(tool, DrawTool) and not isinstance(tool, HoleTool):
        return RectangleStrip(tool)
    return None
