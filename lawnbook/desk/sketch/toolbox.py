"""The tools of the sketch by name, each loaded and made when it is first taken up."""

from types import MappingProxyType

from PySide6.QtCore import Qt

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.tools import Tool

TOOLS: MappingProxyType[str, Qt.Key] = MappingProxyType(
    {
        "Pick": Qt.Key.Key_P,
        "Zone": Qt.Key.Key_Z,
        "Hole": Qt.Key.Key_O,
        "Feature": Qt.Key.Key_F,
        "Head": Qt.Key.Key_H,
        "Spot": Qt.Key.Key_S,
        "Can": Qt.Key.Key_C,
        "Tape": Qt.Key.Key_T,
    }
)
"""The key that takes each tool up while the sketch has the focus."""

LINE = "Line"
"""The tool for two points, which has no button: it is put into the owner's hand when asked for."""


def make_tool(name: str, control: SketchControl) -> Tool:
    """A tool by its name. KeyError for an unknown one."""
    return _kind(name)(control)


def _kind(name: str) -> type[Tool]:
    # Imported here, so that the first paint waits only for the tool that it shows in hand.
    if name == "Pick":
        from lawnbook.desk.sketch.pick import PickTool

        return PickTool
    if name in ("Zone", "Hole", "Feature"):
        from lawnbook.desk.sketch.drawing import FeatureTool, HoleTool, ZoneTool

        return {"Zone": ZoneTool, "Hole": HoleTool, "Feature": FeatureTool}[name]
    if name in ("Head", "Spot"):
        from lawnbook.desk.sketch.placing import HeadTool, SpotTool

        return HeadTool if name == "Head" else SpotTool
    if name == "Can":
        from lawnbook.desk.sketch.canning import CanTool

        return CanTool
    if name == "Tape":
        from lawnbook.desk.sketch.tape import TapeTool

        return TapeTool
    if name == LINE:
        from lawnbook.desk.sketch.line_tool import LineTool

        return LineTool
    raise KeyError(name)
