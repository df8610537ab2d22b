"""A yard larger than any owner's: 40 zones and 20 years, 4,000 plugs and 40,000 waterings."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import (
    Core,
    Established,
    Feeding,
    Habit,
    Head,
    Photo,
    Product,
    SoilName,
    Spot,
    Watering,
    WeatherDay,
    Yard,
    Zone,
)

TODAY = date(2026, 7, 15)
SIDE_FT, ACROSS = 30.0, 8
PICTURE_BYTES = 40_000
_SOILS: tuple[SoilName, ...] = ("loam", "clay loam", "sandy loam", "clay")


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How large a yard is. Of the plugs of a spot one is pulled each so many days."""

    zones: int = 40
    years: int = 20
    spots_a_zone: int = 10
    plugs_a_spot: int = 10
    feedings_a_zone: int = 75
    waterings_a_year: int = 50
    photos: int = 200

    @property
    def starts(self) -> date:
        """The first day of the weather."""
        return date(TODAY.year - self.years, 1, 1)

    @property
    def days(self) -> int:
        """The days of weather up to today."""
        return (TODAY - self.starts).days + 1

    def spread_out(self, place: int, count: int) -> date:
        """The day of the n-th of so many things, evenly over all the days."""
        return self.starts + timedelta(days=place * self.days // count)


BIG = Size()


@cache
def big_yard(size: Size = BIG) -> Notebook:
    """The yard, each figure reckoned from its place in the list, so that every run is alike."""
    return with_tables(
        new_notebook("Many lawns"),
        {
            "yard": [_yard()],
            "zones": [_zone(size, n) for n in range(size.zones)],
            "heads": [_head(n) for n in range(size.zones)],
            "spots": [_spot(n, size) for n in range(size.zones * size.spots_a_zone)],
            "cores": _cores(size),
            "products": [Product(id="p0", name="Slow", n_pct=20.0, slow_n_pct=15.0)],
            "feedings": _feedings(size),
            "waterings": _waterings(size),
            "weather": weather(size.days, size.starts),
            "photos": _photos(size),
        },
    )


def weather(days: int, starts: date = BIG.starts) -> list[WeatherDay]:
    """Days of weather in a row: two waves for the temperature, a shower every fourth day."""
    return [_day(starts + timedelta(days=place), place) for place in range(days)]


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


def _zone(size: Size, n: int) -> Zone:
    return Zone(
        id=f"z{n}",
        rank=n,
        name=f"Zone {n}",
        outline_ft=rectangle_ft(_corner(n), SIDE_FT, SIDE_FT),
        soil=_SOILS[n % len(_SOILS)],
        slope_pct=float(n % 12),
        established=Established(date=size.starts, how="seed"),
        habit=Habit(minutes=12.0, days_per_week=5.0),
    )


def _head(n: int) -> Head:
    x, y = _corner(n)
    middle = (x + SIDE_FT / 2, y + SIDE_FT / 2)
    return Head(id=f"h{n}", rank=n, zone=f"z{n}", at_ft=middle, radius_ft=22.0, flow_gpm=6.0)


def _spot(n: int, size: Size) -> Spot:
    zone, place = divmod(n, size.spots_a_zone)
    x, y = _corner(zone)
    step = SIDE_FT / (size.spots_a_zone + 1)
    at = (x + step * (place + 1), y + SIDE_FT / 3)
    return Spot(id=f"s{n}", rank=n, name=f"Spot {n}", zone=f"z{zone}", at_ft=at)


def _cores(size: Size) -> list[Core]:
    return [
        _core(size, turn, n)
        for turn in range(size.plugs_a_spot)
        for n in range(size.zones * size.spots_a_zone)
    ]


def _core(size: Size, turn: int, n: int) -> Core:
    thatch = 0.9 - 0.5 * turn / size.plugs_a_spot + 0.02 * ((7 * n + 3 * turn) % 10)
    return Core(
        id=f"c{n}t{turn}",
        rank=turn * size.zones * size.spots_a_zone + n,
        spot=f"s{n}",
        date=size.spread_out(turn, size.plugs_a_spot) + timedelta(days=120 + n % 28),
        thatch_in=(round(thatch, 3), round(thatch + 0.05, 3)),
        root_depth_in=round(3.0 + 2.0 * turn / size.plugs_a_spot + 0.1 * (n % 7), 2),
        sponge=n % 5,
    )


def _feedings(size: Size) -> list[Feeding]:
    return [
        Feeding(
            id=f"f{n}t{turn}",
            rank=turn * size.zones + n,
            date=size.spread_out(turn, size.feedings_a_zone) + timedelta(days=n % 20),
            product="p0",
            pounds={f"z{n}": 2.0},
        )
        for turn in range(size.feedings_a_zone)
        for n in range(size.zones)
        if size.spread_out(turn, size.feedings_a_zone) + timedelta(days=n % 20) <= TODAY
    ]


def _waterings(size: Size) -> list[Watering]:
    return [
        _watering(size, n, place)
        for place in range(size.years * size.waterings_a_year)
        for n in range(size.zones)
    ]


def _watering(size: Size, n: int, place: int) -> Watering:
    year, turn = divmod(place, size.waterings_a_year)
    days = turn * 85 // size.waterings_a_year + n % 3
    day = date(size.starts.year + year + 1, 4, 15) + timedelta(days=days)
    return Watering(
        id=f"w{n}p{place}", rank=place * size.zones + n, date=day, zone=f"z{n}", minutes=40.0
    )


def _photos(size: Size) -> list[Photo]:
    cores = size.zones * size.spots_a_zone * size.plugs_a_spot
    return [_photo(size, n) for n in range(min(size.photos, cores))]


def _photo(size: Size, n: int) -> Photo:
    # The start of a JPEG, so that it passes for one where nobody decodes it.
    data = b"\xff\xd8\xff\xe0" + n.to_bytes(4, "big") + bytes(PICTURE_BYTES)
    picture = Picture.of(data)
    core = f"c{n % (size.zones * size.spots_a_zone)}t{n // (size.zones * size.spots_a_zone)}"
    return Photo(id=f"ph{n}", rank=n, core=core, sha256=picture.sha256, data_b64=picture)


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
