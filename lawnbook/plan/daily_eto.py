"""Each day's ETo by the best method its measurements allow, and which method that was.

Reported, else Penman–Monteith where dew point, wind and sun are given, else Penman–Monteith with
the stand-ins of FAO-56 chapter 3 where dew point or sun is, else Hargreaves (eq. 52). All but the
reported need both temperatures and the yard's latitude.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.evapotranspiration import (
    extraterrestrial_radiation_mj,
    hargreaves_eto_mm,
    mean_saturation_vapour_pressure_kpa,
    psychrometric_constant_kpa_per_c,
    saturation_vapour_pressure_kpa,
)
from lawnbook.agronomy.penman_monteith import (
    DEFAULT_WIND_M_PER_S,
    clear_sky_radiation_mj,
    net_radiation_mj,
    penman_monteith_eto_mm,
    radiation_from_swing_mj,
    vapour_pressure_slope_kpa_per_c,
)
from lawnbook.agronomy.units import f_to_c, ft_to_m, in_to_mm, mm_to_in, mph_to_m_per_s
from lawnbook.frozen import dataclass
from lawnbook.plan.water_model import EtoMethod
from lawnbook.plan.weather_columns import WeatherColumns, columns_of
from lawnbook.yard.records import WeatherDay, Yard

METHODS: tuple[EtoMethod, ...] = (
    "reported",
    "Penman–Monteith",
    "Penman–Monteith, gaps estimated",
    "Hargreaves",
    "filled",
)
"""Every method, the best first."""

REPORTED, FULL, ESTIMATED, HARGREAVES, FILLED = range(len(METHODS))
UNKNOWN = -1
"""The code of a day without ETo; the others are places in `METHODS`."""

Array = NDArray[np.float64]
Codes = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class DailyEto:
    """ETo of each day given, in (NaN where unknown), and its method as a place in `METHODS`."""

    eto_in: Array
    codes: Codes


@dataclass(frozen=True, slots=True, kw_only=True)
class EtoTerms:
    """What stands in the formulas of one day, as FAO-56 names it, measured or its stand-in.

    Mean and swing of the temperature (°C), sun above the air and kept (Ra and Rn, MJ/m²), slope of
    the vapour pressure (delta) and psychrometric constant (gamma, both kPa/°C), wind (u₂, m/s),
    vapour pressure that the air can hold and holds (es and ea, kPa), and the outcome.
    """

    mean_c: float
    swing_c: float
    ra_mj: float
    net_mj: float
    slope: float
    gamma: float
    wind_m_s: float
    es_kpa: float
    ea_kpa: float
    eto_mm: float


def daily_eto(days: Sequence[WeatherDay], yard: Yard) -> DailyEto:
    """ETo of days in their own order; see `eto_of_columns`."""
    return eto_of_columns(columns_of(days), yard)


def eto_of_columns(days: WeatherColumns, yard: Yard) -> DailyEto:
    """ETo of days in their own order; without an elevation the yard lies at sea level.

    A dew point above the day's highest temperature, and more sun than reaches the top of the air,
    cannot be and count as not measured; a lowest temperature above the highest leaves none.
    """
    eto = days.reported_eto_in.copy()
    codes: Codes = np.where(np.isnan(eto), UNKNOWN, REPORTED).astype(np.int64)
    if yard.latitude_deg is None or not eto.size:
        return DailyEto(eto, codes)
    air = _Air.of(days, yard.latitude_deg, yard.elevation_ft or 0.0)
    wanted = np.isnan(eto) & (air.low_c <= air.high_c)
    humid, sunny, windy = (~np.isnan(each) for each in (air.dew_c, air.solar_mj, air.wind_m_s))
    codes[wanted] = HARGREAVES
    codes[wanted & (humid | sunny)] = ESTIMATED
    codes[wanted & humid & sunny & windy] = FULL
    plain = codes == HARGREAVES
    eto[plain] = air.only(plain).hargreaves_in()
    combined = (codes == FULL) | (codes == ESTIMATED)
    eto[combined] = air.only(combined).penman_monteith_in()
    return DailyEto(eto, codes)


def eto_terms(held: WeatherDay, yard: Yard) -> EtoTerms:
    """What stands in the formulas of a day whose ETo follows from its temperatures."""
    daily = daily_eto([held], yard)
    air = _Air.of(columns_of([held]), yard.latitude_deg or 0.0, yard.elevation_ft or 0.0)
    low, high = float(air.low_c[0]), float(air.high_c[0])
    vapour, net, wind = (float(each[0]) for each in air.taken())
    return EtoTerms(
        mean_c=(low + high) / 2,
        swing_c=high - low,
        ra_mj=float(air.ra_mj[0]),
        net_mj=net,
        slope=vapour_pressure_slope_kpa_per_c((low + high) / 2),
        gamma=psychrometric_constant_kpa_per_c(air.elevation_m),
        wind_m_s=wind,
        es_kpa=mean_saturation_vapour_pressure_kpa(high, low),
        ea_kpa=vapour,
        eto_mm=float(in_to_mm(daily.eto_in[0])),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Air:
    """The measurements of days in the formulas' units, NaN where there are none."""

    elevation_m: float
    ra_mj: Array
    low_c: Array
    high_c: Array
    dew_c: Array
    wind_m_s: Array
    solar_mj: Array

    @classmethod
    def of(cls, days: WeatherColumns, latitude_deg: float, elevation_ft: float) -> "_Air":
        """What can be true of what was measured."""
        of_year = extraterrestrial_radiation_mj(latitude_deg, np.arange(1.0, 367.0))
        ra = of_year[days.days_of_year - 1]
        high, dew = f_to_c(days.tmax_f), f_to_c(days.tdew_f)
        solar = days.solar_mj_m2
        return cls(
            elevation_m=ft_to_m(elevation_ft),
            ra_mj=ra,
            low_c=f_to_c(days.tmin_f),
            high_c=high,
            dew_c=np.where(dew <= high, dew, np.nan),
            wind_m_s=mph_to_m_per_s(days.wind_mph),
            solar_mj=np.where(solar <= ra, solar, np.nan),
        )

    def only(self, mask: NDArray[np.bool_]) -> "_Air":
        """The days of a mask."""
        return _Air(
            elevation_m=self.elevation_m,
            ra_mj=self.ra_mj[mask],
            low_c=self.low_c[mask],
            high_c=self.high_c[mask],
            dew_c=self.dew_c[mask],
            wind_m_s=self.wind_m_s[mask],
            solar_mj=self.solar_mj[mask],
        )

    def hargreaves_in(self) -> Array:
        """FAO-56 eq. 52."""
        mean = (self.low_c + self.high_c) / 2
        return mm_to_in(hargreaves_eto_mm(mean, self.high_c, self.low_c, self.ra_mj))

    def penman_monteith_in(self) -> Array:
        """FAO-56 eq. 6; what is missing by eq. 48 (dew point), eq. 50 (sun) and 2 m/s of wind."""
        vapour, net, wind = self.taken()
        return mm_to_in(
            penman_monteith_eto_mm(self.high_c, self.low_c, vapour, net, wind, self.elevation_m)
        )

    def taken(self) -> tuple[Array, Array, Array]:
        """What equation 6 takes: vapour pressure (kPa), net radiation (MJ/m²) and wind (m/s)."""
        dew = np.where(np.isnan(self.dew_c), self.low_c, self.dew_c)
        wind = np.where(np.isnan(self.wind_m_s), DEFAULT_WIND_M_PER_S, self.wind_m_s)
        swing = radiation_from_swing_mj(self.high_c, self.low_c, self.ra_mj)
        solar = np.where(np.isnan(self.solar_mj), swing, self.solar_mj)
        vapour = saturation_vapour_pressure_kpa(dew)
        clear = clear_sky_radiation_mj(self.ra_mj, self.elevation_m)
        net = net_radiation_mj(self.high_c, self.low_c, vapour, solar, clear)
        return vapour, net, wind
