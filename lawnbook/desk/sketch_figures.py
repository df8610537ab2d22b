"""The figures on the sketch: F1, or the menu of a shape, opens how they came about.

Of what lies under the pointer, or else of what is chosen: of a zone the figure that colours it and
its area, of a spot what its plugs show, of a head its rate and its zone's, of others area and edge.
"""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QCursor

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.sketch.choosing import under
from lawnbook.desk.sketch.items import yard_point
from lawnbook.yard.records import Head, Spot, Zone

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.plan.model import Plan
    from lawnbook.plan.working_model import Working
    from lawnbook.yard.notebook import Key, Notebook

_WATER: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "Rooted soil": ("rooted_soil_in", "bearable_depth_in"),
        "Soil water": ("depletion_in",),
        "Run time": ("next_run_minutes", "run_minutes"),
        "Days between": ("interval_days",),
        "Watering depth": ("next_run_depth_in", "depth_in"),
        "Sprinkler rate": ("precipitation_rate_in_per_h", "multiplier"),
        "Nothing": (),
    }
)
"""The figures of a zone's water that a colouring of the sketch shows."""

_FEED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "Nitrogen left": ("left_this_month", "left_this_year"),
        "Fed in 30 days": ("rolling_30_days", "applied_year"),
    }
)


class SketchFigures(QObject):
    """Lets the sketch of a window open the workings of what is drawn on it."""

    def __init__(self, window: "BookWindow") -> None:
        super().__init__(window)
        self._window = window
        view = window.sketch.view
        FigureHand(view, self.workings, by_click=False)
        FigureHand(view.viewport(), self.workings, by_click=False)

    def workings(self) -> "Sequence[Working]":
        """How the figures of what is pointed at, or chosen, came about; none of bare paper."""
        plan, key = self._window.held_plan, self._key()
        if plan is None or key is None:
            return ()
        return workings_of(plan, self._window, key)

    def _key(self) -> "Key | None":
        sketch = self._window.sketch
        paper, view = sketch.view.viewport(), sketch.view
        at = paper.mapFromGlobal(QCursor.pos())
        if paper.rect().contains(at):
            found = under(
                sketch.control.notebook, yard_point(view.mapToScene(at)), 1 / view.px_per_ft
            )
            if found is not None:
                return found.key
        choice = sketch.control.choice
        return None if choice is None else choice.key


def workings_of(plan: "Plan", window: "BookWindow", key: "Key") -> "Sequence[Working]":
    """The workings of what a record of the sketch shows on the day of a plan."""
    from lawnbook.plan.ground_workings import record_workings
    from lawnbook.plan.map_workings import head_workings

    record = window.book.notebook.find(*key)
    if isinstance(record, Spot):
        found = next((each for each in plan.thatch if each.spot_id == record.id), None)
        return () if found is None else found.workings
    if isinstance(record, Head):
        return (*head_workings(record), *_of_zone(plan, record.zone, "Sprinkler rate"))
    if isinstance(record, Zone):
        by = window.sketch.scene.by
        told = _of_zone(plan, record.id, by)
        mapped = _of_map(plan, window.book.notebook, record.id) if by == "Sprinkler rate" else ()
        return (*told, *mapped, *record_workings(record))
    return record_workings(record)


def _of_map(plan: "Plan", notebook: "Notebook", zone_id: str) -> "tuple[Working, ...]":
    """What the map of a zone's heads shows: its mean, how even it is, and what falls outside."""
    from lawnbook.plan.map_workings import coverage_workings

    zones = (each for each in plan.zones if each.zone_id == zone_id)
    return tuple(working for each in zones for working in coverage_workings(each, notebook))


def _of_zone(plan: "Plan", zone_id: str, by: str) -> "tuple[Working, ...]":
    """What a colouring shows of a zone."""
    if by == "Thatch":
        means = [each for each in plan.zone_thatch if each.zone_id == zone_id]
        return tuple(working for each in means for working in each.evidence.workings)
    if by in _FEED:
        fed = [each for each in plan.nitrogen if each.zone_id == zone_id]
        return tuple(w for each in fed for w in each.workings if w.figure in _FEED[by])
    wanted = _WATER.get(by, ())
    zones = [each for each in plan.zones if each.zone_id == zone_id]
    return tuple(w for each in zones for w in each.workings if w.figure in wanted)
