"""What a zone's water figures rest on, gathered once before any month is reckoned."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import lru_cache
from types import MappingProxyType

from lawnbook.agronomy.precipitation import DEFAULT_DU_LQ, run_time_multiplier
from lawnbook.agronomy.soil import DEFAULT_SOIL, SOILS, Soil
from lawnbook.agronomy.turf import DEPLETION, crop_coefficient, growing
from lawnbook.agronomy.water_balance import bearable_depth_in
from lawnbook.frozen import dataclass
from lawnbook.plan.memo import Memo
from lawnbook.plan.rates import Rate, rate_of
from lawnbook.plan.roots import (
    Roots,
    ZoneReadings,
    cores_by_spot,
    readings_of,
    roots_of,
    spots_by_zone,
)
from lawnbook.plan.weather import Weather, weather_of
from lawnbook.plan.working_model import Input
from lawnbook.plan.workings import chosen, given, told
from lawnbook.reading import tr
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Core, Grass, Season, Watering, WaterRules, Zone
from lawnbook.yard.table import grouped

DROUGHT_SHARE = 0.8
"""Share of the full use given back in a dry year where the owner names none (common practice)."""

_MONTHS = range(1, 13)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What all zones share on the day of the plan. The notebook is the one as of that day."""

    notebook: Notebook
    on: date
    weather: Weather
    cores: Mapping[str, tuple[Core, ...]]
    spots: Mapping[str, tuple[str, ...]]
    waterings: Mapping[str, tuple[Watering, ...]]
    areas: Mapping[str, float]
    spot_names: Mapping[str, str]

    @property
    def latitude_deg(self) -> float:
        """The yard's latitude; where it is missing the yard is taken to lie in the north."""
        latitude = self.notebook.yard.latitude_deg
        return 0.0 if latitude is None else latitude

    @property
    def season(self) -> Season | None:
        """The irrigation season, None for all the year."""
        return self.notebook.yard.irrigation_season

    @property
    def share_of_etc(self) -> float:
        """What of the grass's full use is given back: 1, or less in a dry year."""
        yard = self.notebook.yard
        if yard.drought != "less":
            return 1.0
        return DROUGHT_SHARE if yard.drought_share is None else yard.drought_share

    @property
    def rules(self) -> WaterRules:
        """The local watering rule as typed."""
        return self.notebook.water_rules


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneFacts:
    """One zone's fixed figures. Depths are net inches, `depletion` a share of the soil's water.

    `etc_factors` are what ETo is multiplied by in each month, January first: Kc × microclimate, 0
    while the grass is dormant.
    """

    zone: Zone
    number: int
    area_sqft: float
    rate: Rate
    multiplier: float
    soil: Soil
    soil_input: Input
    depletion: float
    depletion_input: Input
    roots: Roots
    readings: ZoneReadings
    bearable_in: float
    target_in: float
    target_input: Input
    kc_by_month: tuple[float, ...]
    etc_factors: tuple[float, ...]

    @property
    def allowance_in(self) -> float:
        """What may be used up before the next watering: what roots bear, at most the target."""
        return min(self.target_in, self.bearable_in)


def setting_of(notebook: Notebook, on: date, memo: Memo | None = None) -> Setting:
    """What the zones share; `notebook` is the one as of `on`. A `memo` remembers its parts."""
    kept = Memo() if memo is None else memo
    weather, zones, spots, cores = notebook.weather, notebook.zones, notebook.spots, notebook.cores
    of_weather = (weather, notebook.climate, notebook.yard)
    return Setting(
        notebook=notebook,
        on=on,
        weather=kept.part("weather", of_weather, lambda: weather_of(notebook)),
        cores=kept.part("cores", (cores,), lambda: MappingProxyType(cores_by_spot(notebook))),
        spots=kept.part("spots", (spots, zones), lambda: _spot_ids(notebook)),
        waterings=grouped(notebook.waterings, "zone"),
        areas=kept.part("areas", (zones,), lambda: _areas(notebook)),
        spot_names=kept.part(tr("spot names"), (spots,), lambda: _spot_names(notebook)),
    )


def of_zone(setting: Setting, zone: Zone, small: Notebook) -> Setting:
    """What one zone's water is reckoned from: `small`, its own waterings, spots and plugs.

    Nothing else can be looked at by mistake, and what holds on to it holds little.
    """
    spots = setting.spots.get(zone.id, ())
    return replace(
        setting,
        notebook=small,
        cores={spot: setting.cores[spot] for spot in spots if spot in setting.cores},
        spots={zone.id: spots},
        spot_names={spot: setting.spot_names[spot] for spot in spots},
        waterings={zone.id: setting.waterings.get(zone.id, ())},
    )


def small_notebook(notebook: Notebook) -> Notebook:
    """Of a notebook only what a zone's water is reckoned from besides weather and own records."""
    return Notebook(
        yard=notebook.yard,
        water_rules=notebook.water_rules,
        zones=notebook.zones,
        heads=notebook.heads,
        catch_tests=notebook.catch_tests,
        climate=notebook.climate,
    )


def facts_of(setting: Setting, zone: Zone, number: int) -> ZoneFacts:
    """The facts of one zone; `number` is its place in the owner's order, from 1."""
    area = setting.areas[zone.id]
    kc = _kc_by_month(zone.grass, setting.latitude_deg)
    rate = rate_of(setting.notebook, zone, area, setting.on)
    readings = readings_of(plugs_of(setting, zone))
    roots = roots_of(zone, readings, setting.spot_names)
    soil, soil_input = _soil(zone)
    depletion = DEPLETION[zone.grass] if zone.allowed_depletion is None else zone.allowed_depletion
    bearable = bearable_depth_in(depletion, soil.available_water_in_per_in, roots.rooted_soil_in)
    target, target_input = _target(setting, zone)
    return ZoneFacts(
        zone=zone,
        number=number,
        area_sqft=area,
        rate=rate,
        multiplier=run_time_multiplier(DEFAULT_DU_LQ if rate.du_lq is None else rate.du_lq),
        soil=soil,
        soil_input=soil_input,
        depletion=depletion,
        depletion_input=chosen(
            tr("Allowed depletion"),
            told(depletion),
            zone.allowed_depletion is not None,
            tr("{grass}-season turf", grass=tr(zone.grass)),
        ),
        roots=roots,
        readings=readings,
        bearable_in=bearable,
        target_in=target,
        target_input=target_input,
        kc_by_month=kc,
        etc_factors=tuple(
            0.0 if is_dormant(setting.weather, zone, month) else kc[month - 1] * zone.microclimate
            for month in _MONTHS
        ),
    )


@lru_cache(maxsize=16)
def _kc_by_month(grass: Grass, latitude_deg: float) -> tuple[float, ...]:
    return tuple(crop_coefficient(month, grass, latitude_deg) for month in _MONTHS)


def is_dormant(weather: Weather, zone: Zone, month: int) -> bool:
    """Whether a zone's grass does not grow in a month; it does where no temperature is known."""
    tmean_f = weather.month(month).tmean_f
    return tmean_f is not None and not growing(tmean_f, zone.grass)


def plugs_of(setting: Setting, zone: Zone) -> list[Sequence[Core]]:
    """The plugs of each spot of a zone that has any, in date order."""
    spots = setting.spots.get(zone.id, ())
    return [setting.cores[spot] for spot in spots if spot in setting.cores]


def _soil(zone: Zone) -> tuple[Soil, Input]:
    name = DEFAULT_SOIL if zone.soil is None else zone.soil
    return SOILS[name], chosen(
        tr("Soil"), tr(name), zone.soil is not None, tr("until the soil is entered")
    )


def _target(setting: Setting, zone: Zone) -> tuple[float, Input]:
    yard = setting.notebook.yard.target_depth_in
    target = yard if zone.target_depth_in is None else zone.target_depth_in
    of_yard = zone.target_depth_in is None
    origin = tr("the yard's, under Yard") if of_yard else tr("typed in the zone")
    return target, given(tr("Target depth"), told(target, 2, "in"), origin)


def _spot_ids(notebook: Notebook) -> Mapping[str, tuple[str, ...]]:
    by_zone = spots_by_zone(notebook)
    return MappingProxyType({zone: tuple(s.id for s in spots) for zone, spots in by_zone.items()})


def _spot_names(notebook: Notebook) -> Mapping[str, str]:
    return MappingProxyType({spot.id: spot.name for spot in notebook.spots.values()})


def _areas(notebook: Notebook) -> Mapping[str, float]:
    return MappingProxyType({z.id: zone_area_sqft(z) for z in notebook.zones.values()})
