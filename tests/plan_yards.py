"""Small yards for the tests of the plan, and the few figures they share."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.yard.fields import Outline
from lawnbook.yard.notebook import Notebook, as_of, new_notebook, with_tables
from lawnbook.yard.records import (
    ClimateMonth,
    Core,
    Feeding,
    NRules,
    Product,
    Record,
    Season,
    Spot,
    Watering,
    WeatherDay,
    Zone,
)

SQUARE_1000: Outline = ((0.0, 0.0), (50.0, 0.0), (50.0, 20.0), (0.0, 20.0))
"""1,000 sq ft."""

# Rounded, of our choice: a dry-summer continental climate, January to December.
TMEAN_F = (28.0, 34.0, 42.0, 50.0, 59.0, 68.0, 76.0, 74.0, 64.0, 52.0, 40.0, 30.0)
ETO_IN = (0.03, 0.05, 0.09, 0.14, 0.19, 0.24, 0.26, 0.22, 0.16, 0.09, 0.04, 0.03)

JUNE = date(2026, 6, 15)


def climate(
    eto: tuple[float, ...] = ETO_IN, tmean_f: tuple[float, ...] = TMEAN_F
) -> list[ClimateMonth]:
    """Twelve months of climate."""
    return [
        ClimateMonth(id=f"{m:02}", month=m, tmean_f=tmean_f[m - 1], eto_in_per_day=eto[m - 1])
        for m in range(1, 13)
    ]


def steady(eto: float) -> list[ClimateMonth]:
    """A climate of one ETo (in/day) and 70 °F all the year."""
    return climate((eto,) * 12, (70.0,) * 12)


def zone(**values: Any) -> Zone:
    """A zone of loam and 1,000 sq ft, "z1", with other values."""
    return replace(Zone(id="z1", name="Front", outline_ft=SQUARE_1000, soil="loam"), **values)


def yard(
    *zones: Zone,
    latitude_deg: float | None = 41.0,
    season: Season | None = None,
    **tables: Iterable[Record],
) -> Notebook:
    """A notebook of zones (one plain zone if none), the climate above, and other tables' rows."""
    book = new_notebook("Test yard")
    settings = replace(book.yard, latitude_deg=latitude_deg, irrigation_season=season)
    rows: dict[str, Iterable[Record]] = {"zones": zones or (zone(),), "climate": climate()}
    return with_tables(replace(book, yard=settings), {**rows, **tables})


def water(book: Notebook, on: date = JUNE) -> ZoneWater:
    """The water figures of a yard's first zone."""
    return make_plan(book, on).zones[0]


def first_zone(book: Notebook, on: date = JUNE) -> tuple[Setting, ZoneFacts]:
    """What the water figures of a yard's first zone rest on."""
    setting = setting_of(as_of(book, on), on)
    return setting, facts_of(setting, next(iter(setting.notebook.zones.values())), 1)


def spot(**values: Any) -> Spot:
    """The spot "s1" of the plain zone."""
    return replace(Spot(id="s1", name="gate", zone="z1"), **values)


def core(on: date, *thatch_in: float, **values: Any) -> Core:
    """A plug of the spot "s1"."""
    plug = Core(id=f"c{on}", spot="s1", date=on, thatch_in=thatch_in)
    return replace(plug, **values)


def product(**values: Any) -> Product:
    """A product "p1" of 24 % N, half of it slow."""
    return replace(Product(id="p1", name="Half slow", n_pct=24.0, slow_n_pct=12.0), **values)


def feeding(on: date, pounds: float, **values: Any) -> Feeding:
    """Pounds of "p1" on the plain zone."""
    return replace(Feeding(id=f"f{on}", date=on, product="p1", pounds={"z1": pounds}), **values)


def watering(on: date, **values: Any) -> Watering:
    """A watering of the plain zone."""
    return replace(Watering(id=f"w{on}", date=on, zone="z1"), **values)


def weather_day(on: date, **values: Any) -> WeatherDay:
    """A day's weather."""
    return replace(WeatherDay(id=on.isoformat(), date=on), **values)


def rules(**values: Any) -> tuple[NRules]:
    """The owner's rules on feeding."""
    return (replace(NRules(id="n_rules"), **values),)
