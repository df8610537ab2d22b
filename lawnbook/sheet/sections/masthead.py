"""The head of the sheet: whose yard, for which day, how much grass."""

from dataclasses import replace

from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.sheet.ink import CAPTION, SUBTITLE, TITLE, Ink
from lawnbook.sheet.layout import Box
from lawnbook.sheet.sections.ornament import ornament
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

HEIGHT_PT = 63.5
_ORNAMENT_PT = 38.5
_TITLE_SIZES = (24.0, 20.0, 17.0)


def facts(notebook: Notebook, plan: Plan) -> tuple[str, str]:
    """Two short lines: the area of grass, and its kind, the soil of all zones and latitude."""
    count = len(plan.zones)
    zones = tr("1 zone") if count == 1 else tr("{count} zones", count=count)
    grass = tr("{area} of grass in {zones}", area=told(plan.area_sqft, 0, "sq ft"), zones=zones)
    first = grass if count else tr("no grass drawn yet")
    parts = []
    grasses = {zone.grass for zone in notebook.zones.values()}
    if grasses:
        parts.append(
            tr(" and ").join(tr("{grass} season", grass=tr(each)) for each in sorted(grasses))
        )
    soils = {zone.soil for zone in notebook.zones.values()}
    common = soils.pop() if len(soils) == 1 else None
    if common is not None:
        parts.append(tr(common))
    latitude = notebook.yard.latitude_deg
    if latitude is not None:
        parts.append(f"{told(abs(latitude), 1)}° {tr('N') if latitude >= 0 else tr('S')}")
    return first, ", ".join(parts)


def draw_masthead(ink: Ink, box: Box, notebook: Notebook, plan: Plan) -> None:
    """Name and date on the left, facts on the right, beneath them the rule with its ornament."""
    first, second = facts(notebook, plan)
    room = box.width - max(ink.width(first, CAPTION), ink.width(second, CAPTION)) - 24
    name = plan.yard or tr("The yard")
    fitting = (size for size in _TITLE_SIZES if ink.width(name, replace(TITLE, size=size)) <= room)
    style = replace(TITLE, size=next(fitting, _TITLE_SIZES[-1]))
    ink.text((box.left, box.top + 20), ink.fit(name, style, room), style)
    ink.text((box.left, box.top + 36), tr("Yard plan for {on}", on=day(plan.on)), SUBTITLE)
    ink.text((box.right, box.top + 24), first, CAPTION, "right")
    ink.text((box.right, box.top + 36), second, CAPTION, "right")
    ink.picture(ornament(box.width), box.left, box.top + _ORNAMENT_PT)
