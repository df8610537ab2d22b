"""What to weigh out for each zone, the strips taken out of it, and what to set spreaders to."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from lawnbook.frozen import dataclass
from lawnbook.plan.calibration import spreader_advice
from lawnbook.plan.calibration_tank import folded, tank_plan
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_model import SpreaderAdvice, TankPlan, ZoneLoad
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.strips import NO_STRIPS, ZoneStrips, strips_of
from lawnbook.reading import is_metric, tr
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import ByZone, Product, SprayerRun

SAME_RATE = 0.01
"""Zones whose rates differ by less than this share are spread at one setting."""


@dataclass(frozen=True, slots=True)
class Treated:
    """The area of a zone that gets something, and the strips left out of it."""

    area_sqft: float
    strips: ZoneStrips = NO_STRIPS


def treated_of(
    notebook: Notebook,
    zone_ids: Iterable[str],
    treated_area_sqft: ByZone,
    conditions: Conditions,
) -> dict[str, Treated]:
    """What is treated of each zone: the area said by hand, or else the outline's less its strips.

    Raises OwnerError for an unknown zone, for an area by hand that cannot be, and for a zone of
    which strips leave nothing.
    """
    treated = {}
    for zone_id in zone_ids:
        zone = notebook.zones.get(zone_id)
        if zone is None:
            raise OwnerError(
                tr(
                    "Zone: there is no zone {zone_id}; choose one of the yard's zones.",
                    zone_id=zone_id,
                )
            )
        by_hand = treated_area_sqft.get(zone_id)
        if by_hand is not None and not 0 < by_hand < math.inf:
            raise OwnerError(
                tr(
                    "Area treated: {name} needs {area_word} above zero.",
                    name=zone.name,
                    area_word=_area_word(),
                )
            )
        whole = zone_area_sqft(zone)
        leave = by_hand is None and conditions.leave_strips
        strips = strips_of(notebook, zone) if leave else NO_STRIPS
        area = strips.left_sqft(whole) if by_hand is None else by_hand
        if strips.names and not area:
            raise OwnerError(
                tr(
                    "Zone: all of {name} lies in the strip along {names_told}, on which nothing is "
                    "spread; leave this zone out.",
                    name=zone.name,
                    names_told=names_told(strips.names),
                )
            )
        treated[zone_id] = Treated(area, strips)
    return treated


def load_of(treated: Treated, product: Product, pounds: float) -> ZoneLoad:
    """What to weigh out for a zone: pounds on the area treated, and what its strips would get."""
    per_1000 = pounds * 1000 / treated.area_sqft
    density = product.density_lb_per_gal if product.form == "liquid" else None
    return ZoneLoad(
        spread_lb=pounds,
        area_sqft=treated.area_sqft,
        lb_per_1000=per_1000,
        strip_sqft=treated.strips.area_sqft,
        kept_out_lb=per_1000 * treated.strips.area_sqft / 1000,
        strips=treated.strips.names,
        volume_gal=None if density is None else pounds / density,
    )


def settings_of(
    notebook: Notebook, product: Product, loads: Mapping[str, ZoneLoad], spreader: str
) -> tuple[SpreaderAdvice, ...]:
    """What to set spreaders to for a dry product, by zone name: once for each rate."""
    if product.form != "granular":
        return ()
    groups = _by_rate(loads)
    return tuple(
        replace(advice, words=f"{_whose(group, groups)}{advice.words}")
        for group in groups
        for advice in spreader_advice(notebook, product.id, group.lb_per_1000, spreader)
    )


def tanks_of(
    notebook: Notebook, product: Product, loads: Mapping[str, ZoneLoad], sprayer: str
) -> tuple[TankPlan, ...]:
    """How a liquid is mixed and sprayed, by zone name: each sprayer's latest run, each rate."""
    if product.form != "liquid":
        return ()
    groups = _by_rate(loads)
    return tuple(
        replace(plan, words=f"{_whose(group, groups)}{plan.words}")
        for run in _latest_runs(notebook, sprayer)
        for group in groups
        for plan in (tank_plan(run, product, group.pounds, group.area_sqft),)
    )


@dataclass(frozen=True, slots=True)
class _Rate:
    """Zones that get one rate."""

    names: tuple[str, ...]
    pounds: float
    area_sqft: float

    @property
    def lb_per_1000(self) -> float:
        return self.pounds * 1000 / self.area_sqft

    def takes(self, load: ZoneLoad) -> bool:
        return math.isclose(load.lb_per_1000, self.lb_per_1000, rel_tol=SAME_RATE)

    def with_zone(self, name: str, load: ZoneLoad) -> "_Rate":
        return _Rate(
            (*self.names, name), self.pounds + load.spread_lb, self.area_sqft + load.area_sqft
        )


def _by_rate(loads: Mapping[str, ZoneLoad]) -> list[_Rate]:
    groups: list[_Rate] = []
    for name, load in loads.items():
        if load.spread_lb <= 0:
            continue
        place = next((n for n, group in enumerate(groups) if group.takes(load)), None)
        if place is None:
            groups.append(_Rate((name,), load.spread_lb, load.area_sqft))
        else:
            groups[place] = groups[place].with_zone(name, load)
    return groups


def _whose(group: _Rate, groups: Sequence[_Rate]) -> str:
    """Whose rate it is, where there is more than one."""
    return f"{names_told(group.names)}: " if len(groups) > 1 else ""


def _latest_runs(notebook: Notebook, sprayer: str) -> Iterator[SprayerRun]:
    """The latest calibration of each sprayer, or of the one that is named."""
    latest: dict[str, SprayerRun] = {}
    for run in notebook.sprayer_runs.values():
        key = folded(run.sprayer)
        before = latest.get(key)
        if before is None or (run.date, run.rank) >= (before.date, before.rank):
            latest[key] = run
    wanted = folded(sprayer)
    yield from (run for key, run in latest.items() if wanted in ("", key))


def _area_word() -> str:
    return tr("square metres") if is_metric() else tr("square feet")
