"""A yard larger than any owner's: 40 zones, 40 heads, 20 years of weather, waterings and plugs."""

import math
from datetime import date, timedelta
from functools import cache

from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import (
    Core,
    Established,
    Feeding,
    Habit,
    Head,
    Product,
    SoilName,
    Spot,
    Watering,
    WeatherDay,
    Yard,
    Zone,
)

TODAY = date(2026, 7, 15)
ZONES, YEARS = 40, 20
SIDE_FT, ACROSS = 30.0, 8
WATERINGS_A_YEAR = 50
_START = date(TODAY.year - YEARS, 1, 1)
_SOILS: tuple[SoilName, ...] = ("loam", "clay loam", "sandy loam", "clay")


@cache
def big_yard() -> Notebook:
    """The yard, each figure reckoned from its place in the list, so that every run is alike."""
    return with_tables(
        new_notebook("Many lawns"),
        {
            "yard": [_yard()],
            "zones": [_zone(n) for n in range(ZONES)],
            "heads": [_head(n) for n in range(ZONES)],
            "spots": [Spot(id=f"s{n}", name=f"Spot {n}", zone=f"z{n}") for n in range(ZONES)],
            "cores": [_core(n, year) for year in range(YEARS) for n in range(ZONES)],
            "products": [Product(id="p0", name="Slow", n_pct=20.0, slow_n_pct=15.0)],
            "feedings": [_feeding(year, month) for year in range(YEARS) for month in (5, 9)],
            "waterings": [_watering(n, place) for place in range(_WATERINGS) for n in range(ZONES)],
            "weather": weather((TODAY - _START).days + 1),
        },
    )


def weather(days: int, starts: date = _START) -> list[WeatherDay]:
    """Days of weather in a row: two waves for the temperature, a shower every fourth day."""
    return [_day(starts + timedelta(days=place), place) for place in range(days)]


_WATERINGS = YEARS * WATERINGS_A_YEAR


def _yard() -> Yard:
    return Yard(
        id="yard",
        name="Many lawns",
        latitude_deg=41.0,
        longitude_deg=-93.0,
        elevation_ft=900.0,
        water_price_per_kgal=6.0,
    )


def _corner(n: int) -> tuple[float, float]:
    return (SIDE_FT + 2.0) * (n % ACROSS), (SIDE_FT + 2.0) * (n // ACROSS)


def _zone(n: int) -> Zone:
    return Zone(
        id=f"z{n}",
        rank=n,
        name=f"Zone {n}",
        outline_ft=rectangle_ft(_corner(n), SIDE_FT, SIDE_FT),
        soil=_SOILS[n % len(_SOILS)],
        slope_pct=float(n % 12),
        established=Established(date=_START, how="seed"),
        habit=Habit(minutes=12.0, days_per_week=5.0),
    )


def _head(n: int) -> Head:
    x, y = _corner(n)
    middle = (x + SIDE_FT / 2, y + SIDE_FT / 2)
    return Head(id=f"h{n}", rank=n, zone=f"z{n}", at_ft=middle, radius_ft=22.0, flow_gpm=6.0)


def _core(n: int, year: int) -> Core:
    thatch = 0.4 + 0.02 * ((n + year) % 10)
    return Core(
        id=f"c{n}y{year}",
        rank=year * ZONES + n,
        spot=f"s{n}",
        date=date(_START.year + year, 5, 1 + n % 28),
        thatch_in=(thatch, thatch + 0.05),
        root_depth_in=3.0 + 0.1 * year,
    )


def _feeding(year: int, month: int) -> Feeding:
    return Feeding(
        id=f"f{year}m{month}",
        rank=year * 12 + month,
        date=date(_START.year + year, month, 10),
        product="p0",
        pounds={f"z{n}": 2.0 for n in range(ZONES)},
    )


def _watering(n: int, place: int) -> Watering:
    year, turn = divmod(place, WATERINGS_A_YEAR)
    day = date(_START.year + year, 4, 15) + timedelta(days=turn * 3 + n % 3)
    return Watering(
        id=f"w{n}p{place}", rank=place * ZONES + n, date=day, zone=f"z{n}", minutes=40.0
    )


def _day(that: date, place: int) -> WeatherDay:
    mean = 52.0 - 26.0 * math.cos(2 * math.pi * place / 365.25) + 4.0 * math.sin(place)
    return WeatherDay(
        id=that.isoformat(),
        rank=place,
        date=that,
        tmin_f=round(mean - 11.0, 1),
        tmax_f=round(mean + 11.0, 1),
        rain_in=0.4 if place % 4 == 0 else 0.0,
    )
