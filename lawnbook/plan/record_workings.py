"""The working of one record on file: what a watering put down, what a feeding brought, a cost.

What was only typed has no formula: its working says when it was entered, and that it stands so.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from types import MappingProxyType
from typing import Any

from lawnbook.agronomy.units import SQFT_IN_TO_GAL
from lawnbook.plan.fed_rows import feeding_rows
from lawnbook.plan.fed_workings import fed_row_workings
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.ground_workings import plug_workings
from lawnbook.plan.map_workings import can_workings
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.record_names import spot_name, zone_name
from lawnbook.plan.root_days import net_depth_in
from lawnbook.plan.run_workings import Named, gallons_working
from lawnbook.plan.watering_workings import counted_working, rain_workings_of
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import OWN, given, told, told_exactly
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day, minutes
from lawnbook.yard.records import Care, CatchTest, Core, Feeding, SoilTest, Watering, WeatherDay

_AS_ENTERED = tr("as entered")
_PUT_DOWN = tr("worked out: what it put down, net")


def of_record(notebook: Notebook, on: date, table: str, record_id: str) -> tuple[Working, ...]:
    """How the figures of one record came about, seen from a day; none where it has no figures."""
    record = notebook.find(table, record_id)
    maker = _MAKERS.get(table)
    if record is None or maker is None:
        return ()
    return tuple(maker(setting_of(as_of(notebook, on), on), record))


def watering_workings(setting: Setting, watering: Watering) -> Iterator[Working]:
    """What of a watering is counted, and its gallons; its minutes, where no rate is known."""
    facts = _facts(setting, watering.zone)
    if facts is None:
        return
    net = net_depth_in(facts, watering)
    if net is not None:
        yield counted_working(facts, watering, net)
        named = Named(f"gallons:{watering.id}", tr("Water of the watering"), _PUT_DOWN)
        gallons = net * facts.multiplier * facts.area_sqft * SQFT_IN_TO_GAL
        yield gallons_working(facts, named, net, gallons)
    elif watering.minutes is not None:
        entered = tr("watering of {day}", day=day(watering.date))
        yield _entered(f"ran:{watering.id}", tr("Run time"), minutes(watering.minutes), entered)


def feeding_workings(setting: Setting, feeding: Feeding) -> Iterator[Working]:
    """What a feeding brought to each of its zones; the pounds, where they are several or no N."""
    rows = feeding_rows(setting.notebook, feeding)
    for row in rows:
        yield from fed_row_workings(setting.notebook, row)
    if len(rows) != 1 or not rows[0].n_lb_per_1000:
        yield _pounds(setting, feeding, tr("feeding of {day}", day=day(feeding.date)))


def _pounds(setting: Setting, feeding: Feeding, entered: str) -> Working:
    """The pounds of all zones together."""
    parts = tuple(
        numbered(
            given(zone_name(setting.notebook, zone_id), told(pounds, 2, "lb"), entered),
            f"p{number}",
            pounds,
            "lb",
        )
        for number, (zone_id, pounds) in enumerate(feeding.pounds.items())
    )
    formula = sum_of(parts)
    return Working(
        f"pounds:{feeding.id}",
        tr("Product spread"),
        told(sum(feeding.pounds.values()), 2, "lb"),
        tr("sum of the zones"),
        put_in(formula, parts),
        parts,
        OWN,
        reckons(formula, "lb"),
    )


def _plug(setting: Setting, core: Core) -> Iterator[Working]:
    return plug_workings(core, spot_name(setting.notebook, core.spot))


def _care(_setting: Setting, care: Care) -> Iterator[Working]:
    if care.cost is not None:
        entered = tr("care entry of {put_down}", put_down=day(care.date))
        yield _entered(f"cost:{care.id}", tr("Cost"), told(care.cost), entered)


def _rain(_setting: Setting, that: WeatherDay) -> Iterator[Working]:
    yield from rain_workings_of(that)


def _cans(_setting: Setting, test: CatchTest) -> Iterator[Working]:
    mouth = test.can_mouth_sqin if test.volumes_ml else None
    origin = tr("catch test of {day}", day=day(test.date))
    yield from can_workings(test.volumes_ml or test.depths_in, test.run_minutes, mouth, origin)


def _soil(_setting: Setting, test: SoilTest) -> Iterator[Working]:
    origin = tr("soil test of {day}", day=day(test.date))
    for name, label, value, unit in (
        ("ph", "pH", test.ph, ""),
        ("om", tr("Organic matter"), test.om_pct, "%"),
        ("p", "P", test.p_ppm, "ppm"),
        ("k", "K", test.k_ppm, "ppm"),
    ):
        if value is not None:
            shown = told_exactly(value, 0)
            figure = f"{shown}\u00a0{unit}" if unit else shown
            yield _entered(f"soil_{name}:{test.id}", label, figure, origin)


def _entered(figure: str, label: str, value: str, entered: str) -> Working:
    """A figure that was typed and stands so."""
    stands: Input = given(label, value, entered)
    return Working(figure, label, value, _AS_ENTERED, "", (stands,), OWN)


def _facts(setting: Setting, zone_id: str) -> ZoneFacts | None:
    """The facts of a zone; None where the zone is gone."""
    zones = list(setting.notebook.zones.values())
    return next(
        (facts_of(setting, zone, n) for n, zone in enumerate(zones, start=1) if zone.id == zone_id),
        None,
    )


# The tables share no type but Record; each maker is given the records of its own table.
_MAKERS: Mapping[str, Callable[[Setting, Any], Iterator[Working]]] = MappingProxyType(
    {
        "waterings": watering_workings,
        "feedings": feeding_workings,
        "cores": _plug,
        "care": _care,
        "weather": _rain,
        "catch_tests": _cans,
        "soil_tests": _soil,
    }
)
