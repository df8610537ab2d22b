"""What is said of the sprinkler rate: on a zone's label, beside the pointer, and while dragging."""

from collections.abc import Iterable
from functools import lru_cache

from lawnbook.agronomy.coverage import Sprinkler, share_within
from lawnbook.plan.coverage import coverage_of, rates_at, sprinklers_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import zone_at
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import counted
from lawnbook.yard.records import Head, Zone

NO_WATER_IN_PER_H = 0.005
LEAST_SHARE = 0.01
"""A smaller share outside is told as under 1 %."""


def label_words(notebook: Notebook, zone: Zone) -> tuple[str, bool]:
    """A zone's figure, and whether its rate is known: "DU 0.58, 12 % outside"."""
    heads = [head for head in notebook.heads.values() if head.zone == zone.id]
    without = sum(not head.flow_gpm for head in heads)
    if not heads:
        return (tr("no heads"), False)
    lacking = tr("{heads} without flow", heads=counted(without, "head"))
    if without == len(heads):
        return (lacking, False)
    coverage = coverage_of(notebook, zone)
    if coverage is None:
        return (lacking if without else "", False)
    if without:
        return (tr("DU {du_lq:.2f}, {lacking}", du_lq=coverage.du_lq, lacking=lacking), True)
    return (figures(coverage.du_lq, coverage.wasted_share), True)


def figures(du_lq: float, wasted_share: float) -> str:
    """Evenness and the share of the heads' water that falls outside of the zone, in few words."""
    few = 0.0 < wasted_share < LEAST_SHARE
    return tr(
        "DU {du_lq:.2f}, {part} % outside",
        du_lq=du_lq,
        part="<1" if few else f"{100 * wasted_share:.0f}",
    )


def wasted_share(zone: Zone, heads: Iterable[Head]) -> float:
    """What of the water of some heads falls outside of their zone, 0 to 1."""
    thrown = sprinklers_of(heads)
    flow = sum(each.flow_gpm for each in thrown)
    kept = sum(each.flow_gpm * _kept(each, zone.outline_ft, zone.holes_ft) for each in thrown)
    return max(0.0, 1.0 - kept / flow) if flow else 0.0


@lru_cache(maxsize=1024)
def _kept(sprinkler: Sprinkler, outline: Outline, holes: tuple[Outline, ...]) -> float:
    """The share that lands inside; while one head is dragged the others' are not reckoned anew."""
    return share_within(sprinkler, outline, holes)


def point_words(notebook: Notebook, at: Point) -> str:
    """The rate at a point: "0.62 in/h, 1.3 × the zone's mean"; "" where there is nothing to say."""
    (rate,) = rates_at(notebook, [at])
    zone = zone_at(notebook, at)
    if zone is None:
        return (
            tr("{rate} outside the zones", rate=told(rate, 2, "in/h"))
            if rate >= NO_WATER_IN_PER_H
            else ""
        )
    coverage = coverage_of(notebook, zone)
    if coverage is None or coverage.mean_in_per_h <= 0.0:
        return (
            tr("{rate} from another zone's heads", rate=told(rate, 2, "in/h"))
            if rate >= NO_WATER_IN_PER_H
            else ""
        )
    if rate < NO_WATER_IN_PER_H:
        return tr("no water here")
    return tr(
        "{rate}, {rate_2:.1f} × the zone's mean",
        rate=told(rate, 2, "in/h"),
        rate_2=rate / coverage.mean_in_per_h,
    )
