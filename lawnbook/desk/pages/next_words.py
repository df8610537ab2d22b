"""What the plugs page says of the next plugs and of how turf began, in plain words. No Qt."""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.plug_model import Finding, NextPlug
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Zone

NO_FINDING = tr("Nothing to say yet: findings come with the first plugs and with what you record.")
NO_NEXT = tr("No spot here yet: put one down with the Spot tool above the sketch.")
STRIP = tr(
    "Left untreated while the rest is repaired: no coring, topdressing or other "
    "treatment there. Its trend is set beside the others under Trend, and it is "
    "left out of the zone's mean. One lawn without such a strip shows the change, "
    "not its cause."
)


def rule_of(finding: Finding, about: str) -> Working:
    """A finding's rule and source, to be opened as a working is."""
    return Working(
        f"finding_{finding.key}",
        tr("Why this is said"),
        about,
        finding.rule,
        "",
        (),
        finding.source,
    )


def first_told(plugs: Sequence[NextPlug]) -> str:
    """The zone to look at first, with the reason; empty where none stands out."""
    first = next((each for each in plugs if each.first), None)
    return (
        tr("Look here first: {why_first}", why_first=first.why_first) if first is not None else ""
    )


def more_findings(hidden: int) -> str:
    """The words of the link to the findings that are folded away."""
    return tr("Show {hidden} more", hidden=hidden)


def due_told(due: date, on: date) -> str:
    """When a plug is due."""
    return tr("due now") if due <= on else tr("due {due}", due=day(due))


def plugs_told(plug: NextPlug) -> str:
    """The zone of a spot, and how many plugs it has."""
    number = tr("no plug yet") if not plug.plugs else tr("1 plug") if plug.plugs == 1 else ""
    several = tr("{plugs} plugs", plugs=plug.plugs) if plug.plugs > 1 else number
    return f"{plug.zone}, {several}" if plug.zone else several


def sod_told(zone: Zone) -> str:
    """What the history of a zone's turf means for its plugs."""
    began = zone.established
    if began is None or began.how != "sod":
        return tr(
            "Sod brings its own thatch and its own soil: with its date and soil noted, the "
            "first plugs are read for what they are."
        )
    if began.date is None:
        return tr("Enter the day it was laid: the thatch of the first plugs may have come with it.")
    soil = tr(" on {sod_soil}", sod_soil=tr(began.sod_soil)) if began.sod_soil else ""
    return tr(
        "Sod laid {date}{soil}: thatch of the first plugs may have come with it, and "
        "its soil is a layer over your own.",
        date=day(began.date),
        soil=soil,
    )
