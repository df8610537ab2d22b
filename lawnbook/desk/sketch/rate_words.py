"""What is said of the sprinkler rate: on a zone's label, beside the pointer, and while dragging."""

from lawnbook.plan.coverage import coverage_of, rates_at
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.plan.workings import counted
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import zone_at
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Head, Zone

NO_WATER_IN_PER_H = 0.005


def label_words(notebook: Notebook, zone: Zone) -> tuple[str, bool]:
    """A zone's figure, and whether its rate is known: "DU 0.58, 12 % outside"."""
    heads = [head for head in notebook.heads.values() if head.zone == zone.id]
    without = sum(not head.flow_gpm for head in heads)
    if not heads:
        return ("no heads", False)
    lacking = f"{counted(without, 'head')} without flow"
    if without == len(heads):
        return (lacking, False)
    coverage = coverage_of(notebook, zone)
    if coverage is None:
        return (lacking if without else "", False)
    du = f"DU {coverage.du_lq:.2f}"
    return (f"{du}, {lacking}" if without else figures(coverage), True)


def drafted_words(notebook: Notebook, head: Head) -> str:
    """The figures of a head's zone, were the head so; "" where they cannot be told."""
    zone = notebook.zones.get(head.zone)
    if zone is None:
        return ""
    coverage = coverage_of(apply(notebook, put(notebook, "heads", head)), zone)
    return figures(coverage) if coverage is not None else ""


def figures(coverage: ZoneCoverage) -> str:
    """Evenness and waste in a few words."""
    return f"DU {coverage.du_lq:.2f}, {outside(coverage)}"


def outside(coverage: ZoneCoverage) -> str:
    """The share of the heads' water that falls outside of the zone."""
    if 0.0 < coverage.wasted_share < 0.01:
        return "<1 % outside"
    return f"{100 * coverage.wasted_share:.0f} % outside"


def point_words(notebook: Notebook, at: Point) -> str:
    """The rate at a point: "0.62 in/h, 1.3 × the zone's mean"; "" where there is nothing to say."""
    (rate,) = rates_at(notebook, [at])
    zone = zone_at(notebook, at)
    if zone is None:
        return f"{rate:.2f} in/h outside the zones" if rate >= NO_WATER_IN_PER_H else ""
    coverage = coverage_of(notebook, zone)
    if coverage is None or coverage.mean_in_per_h <= 0.0:
        return f"{rate:.2f} in/h from another zone's heads" if rate >= NO_WATER_IN_PER_H else ""
    if rate < NO_WATER_IN_PER_H:
        return "no water here"
    return f"{rate:.2f} in/h, {rate / coverage.mean_in_per_h:.1f} × the zone's mean"
