"""The working of one record on file: what a watering put down, what a feeding brought, a cost.

What was only typed has no formula: its working says when it was entered, and that it stands so.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from types import MappingProxyType
from typing import Any

from lawnbook.agronomy.units import SQFT_IN_TO_GAL
from lawnbook.plan.feed_ledger import FedPart, part_of
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.ground_workings import plug_workings
from lawnbook.plan.map_workings import can_workings
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.record_names import product_name, spot_name, zone_name
from lawnbook.plan.run_workings import Named, gallons_working
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import OWN, given, rate_told, sources, told, told_exactly
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT
from lawnbook.yard.analysis import analysis_of
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
    """What a watering put down, what of it the drier half got, and its gallons."""
    facts = _facts(setting, watering.zone)
    if facts is None:
        return
    rate, ran = facts.rate.in_per_h, watering.minutes
    entered = tr("watering of {day}", day=day(watering.date))
    if watering.depth_in is not None:
        gross = watering.depth_in
        of = numbered(
            given(tr("Depth caught"), told(gross, 2, "in"), entered), "depth", gross, "in"
        )
        formula, words, inputs = "{depth}", tr("depth caught ÷ run-time multiplier"), [of]
    elif ran is not None and rate is not None:
        gross = ran * rate / 60
        inputs = [
            numbered(given(tr("Run time"), minutes(ran), entered), "run", ran, "min"),
            numbered(
                given(tr("Precipitation rate"), told(rate, 2, "in/h"), facts.rate.origin),
                "rate",
                rate,
                "in/h",
            ),
        ]
        formula = "{run:0} × {rate} ÷ 60"
        words = tr("minutes × precipitation rate ÷ 60 ÷ run-time multiplier")
    else:
        yield from _ran_only(watering, entered)
        return
    times = given(
        tr("Run-time multiplier"), told(facts.multiplier), tr("worked out, from the evenness")
    )
    inputs.append(numbered(times, "multiplier", facts.multiplier))
    formula = f"{formula} ÷ {{multiplier}}"
    net = gross / facts.multiplier
    yield Working(
        f"watered:{watering.id}",
        tr("What the watering put down, net"),
        told(net, 2, "in"),
        words,
        put_in(formula, inputs),
        tuple(inputs),
        sources("multiplier"),
        reckons(formula, "in"),
    )
    named = Named(f"gallons:{watering.id}", tr("Water of the watering"), _PUT_DOWN)
    yield gallons_working(facts, named, net, _gallons(facts, gross))


def _gallons(facts: ZoneFacts, gross_in: float) -> float:
    return gross_in * facts.area_sqft * SQFT_IN_TO_GAL


def _ran_only(watering: Watering, entered: str) -> Iterator[Working]:
    """Minutes that no rate turns into a depth."""
    if watering.minutes is not None:
        yield _entered(f"ran:{watering.id}", tr("Run time"), minutes(watering.minutes), entered)


def feeding_workings(setting: Setting, feeding: Feeding) -> Iterator[Working]:
    """The nitrogen that a feeding brought to each of its zones; the pounds, where it has none."""
    product = setting.notebook.products.get(feeding.product)
    entered = tr("feeding of {day}", day=day(feeding.date))
    held = None if product is None else analysis_of(product)
    name = product_name(setting.notebook, feeding.product)
    for zone_id in feeding.pounds:
        area = setting.areas.get(zone_id, 0.0)
        if held is not None and held.n_pct > 0:
            part = part_of(feeding, zone_id, held, area)
            if part.area_sqft > 0:
                yield _brought(setting, part, zone_id, (name, held.n_pct, entered))
    if len(feeding.pounds) > 1 or held is None or not held.n_pct:
        yield _pounds(setting, feeding, entered)


def _brought(setting: Setting, part: FedPart, zone_id: str, of: tuple[str, float, str]) -> Working:
    name, n_pct, entered = of
    formula = "{pounds} × {share} ÷ 100 × 1,000 ÷ {area:0}"
    label = tr("{name}, its label", name=name)
    ground = tr("area treated, kept with the feeding, or else the zone’s")
    inputs = (
        numbered(
            given(tr("Product spread"), told(part.pounds, 2, "lb"), entered),
            "pounds",
            part.pounds,
            "lb",
        ),
        numbered(given("N", told(n_pct, 1, "%"), label), "share", n_pct, "%"),
        numbered(
            given(tr("Area treated"), told(part.area_sqft, 0, "sq ft"), ground),
            "area",
            part.area_sqft,
            "sq ft",
        ),
    )
    return Working(
        f"fed:{part.feeding_id}:{zone_id}",
        tr("{zone}: nitrogen fed", zone=zone_name(setting.notebook, zone_id)),
        rate_told(part.n_lb),
        tr("pounds × N % ÷ 100 × 1,000 ÷ area treated"),
        put_in(formula, inputs),
        inputs,
        sources("n-arithmetic"),
        reckons(formula, RATE_UNIT),
    )


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
    if that.gauge_in is not None:
        read = tr("your own gauge, {day}", day=day(that.date))
        yield _entered(f"gauge:{that.id}", tr("Rain"), told(that.gauge_in, 2, "in"), read)


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
