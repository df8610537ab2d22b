"""The yard sketch: zones, features, heads and plug spots, drawn and changed to scale."""

from lawnbook.desk.sketch.panel import SketchPanel

__all__ = ["SketchPanel"]
