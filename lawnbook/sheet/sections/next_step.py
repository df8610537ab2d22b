"""The next step to fewer and deeper waterings, and what a plug must show before it is taken."""

from lawnbook.plan.model import ZoneWater
from lawnbook.plan.water_model import StretchStep
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, unit_shown

ASSUMED, SEEN = (
    tr("{needed} {unit} of roots ({now} assumed)"),
    tr("{needed} {unit} of roots ({now} now)"),
)
"""The roots that a step needs, and those that there are."""


def step_tellings(zone: ZoneWater) -> tuple[str, ...]:
    """The step in a sentence, and shorter; empty where no step is left, or another rule holds."""
    if zone.stretch is None or zone.rule != "deep":
        return ()
    step = next((each for each in zone.stretch.steps if not each.borne), None)
    if step is None or not zone.rooted_soil_in:
        return ()
    needed, now = _roots(zone, step)
    text = ASSUMED if zone.roots_are_default else SEEN
    seen = tr(text, needed=needed, unit=unit_shown("in"), now=now)
    if step.interval_days == 1:
        return (
            tr("next step: a day's use is borne when plugs show {seen}", seen=seen),
            tr("next: {seen}", seen=seen),
        )
    days = tr("{interval_days} days", interval_days=step.interval_days)
    return (
        tr("next step: every {days} when plugs show {seen}", days=days, seen=seen),
        tr("next: every {days} at {seen}", days=days, seen=seen),
    )


def _roots(zone: ZoneWater, step: StretchStep) -> tuple[str, str]:
    """Roots that the step needs and that there are, from the crowns; told apart in any case.

    What lies between roots from the crowns and rooted soil is the thatch.
    """
    thatch_in = step.root_depth_needed_in - step.rooted_soil_needed_in
    needed_in, now_in = step.root_depth_needed_in, zone.rooted_soil_in + thatch_in
    places = 2 if bare(needed_in, 1, "in") == bare(now_in, 1, "in") else 1
    return bare(needed_in, places, "in"), bare(now_in, places, "in")
