"""Sunrise and sunset at any place on any day, by NOAA's published equations of the sun.

Angles in degrees, north and east positive; times are aware and in UTC, right to about a minute up
to the polar circles. The sun rises and sets when its centre stands 90.833° from the zenith: the
upper edge on a level horizon, refraction included. ValueError outside a formula's domain.
Source: "noaa-sun".
"""

import math
from datetime import UTC, date, datetime, timedelta

from lawnbook.agronomy.checks import between, latitude

ZENITH_DEG = 90.833
"""Half the sun's width (0.267°) and the usual refraction (0.567°) below the horizon."""

_J2000 = datetime(2000, 1, 1, 12, tzinfo=UTC)
_DAYS_PER_CENTURY = 36525.0
_MINUTES_PER_DEG = 4.0
_PASSES = 3
"""Each pass takes the sun's place at the time that the one before has found."""

_RISES, _SETS = -1, 1


def sunrise_utc(latitude_deg: float, longitude_deg: float, on: date) -> datetime | None:
    """The sunrise before the noon of a day; None where the sun stays up or down.

    The day is counted by the sun at the longitude: its noon is 12:00 UTC less 4 minutes a degree,
    give or take a quarter of an hour. Source: "noaa-sun".
    """
    return _crossing(latitude_deg, longitude_deg, on, _RISES)


def sunset_utc(latitude_deg: float, longitude_deg: float, on: date) -> datetime | None:
    """The sunset after the noon of a day; None where the sun stays up or down.

    The day is counted as in `sunrise_utc`. Source: "noaa-sun".
    """
    return _crossing(latitude_deg, longitude_deg, on, _SETS)


def _crossing(latitude_deg: float, longitude_deg: float, on: date, side: int) -> datetime | None:
    phi = math.radians(latitude(latitude_deg))
    east = between("longitude_deg", longitude_deg, -180.0, 180.0)
    noon = datetime(on.year, on.month, on.day, 12, tzinfo=UTC)
    noon -= timedelta(minutes=_MINUTES_PER_DEG * east)
    at = noon
    for _ in range(_PASSES):
        declination, equation_minutes = _sun(at)
        hour_angle = _hour_angle_deg(phi, declination)
        if hour_angle is None:
            return None
        minutes = side * _MINUTES_PER_DEG * hour_angle - equation_minutes
        at = noon + timedelta(minutes=minutes)
    return at


def _hour_angle_deg(phi: float, declination: float) -> float | None:
    """How far the earth turns between the sun's noon and its crossing of the horizon."""
    steepness = math.cos(phi) * math.cos(declination)
    if steepness == 0.0:
        return None
    height = math.cos(math.radians(ZENITH_DEG)) - math.sin(phi) * math.sin(declination)
    cosine = height / steepness
    return math.degrees(math.acos(cosine)) if -1.0 <= cosine <= 1.0 else None


def _sun(at: datetime) -> tuple[float, float]:
    """Declination (radians) and equation of time (minutes, sundial less clock).

    NOAA's solar calculator, after Meeus, Astronomical algorithms.
    """
    t = (at - _J2000).total_seconds() / 86400.0 / _DAYS_PER_CENTURY
    mean_longitude = math.radians((280.46646 + t * (36000.76983 + t * 0.0003032)) % 360.0)
    anomaly = math.radians(357.52911 + t * (35999.05029 - 0.0001537 * t))
    eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t)
    centre = (
        math.sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t))
        + math.sin(2.0 * anomaly) * (0.019993 - 0.000101 * t)
        + math.sin(3.0 * anomaly) * 0.000289
    )
    node = math.radians(125.04 - 1934.136 * t)
    longitude = mean_longitude + math.radians(centre - 0.00569 - 0.00478 * math.sin(node))
    seconds = 21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))
    obliquity = math.radians(23.0 + (26.0 + seconds / 60.0) / 60.0 + 0.00256 * math.cos(node))
    declination = math.asin(math.sin(obliquity) * math.sin(longitude))
    return declination, _equation_minutes(mean_longitude, anomaly, eccentricity, obliquity)


def _equation_minutes(
    mean_longitude: float, anomaly: float, eccentricity: float, obliquity: float
) -> float:
    y = math.tan(obliquity / 2.0) ** 2
    turn = (
        y * math.sin(2.0 * mean_longitude)
        - 2.0 * eccentricity * math.sin(anomaly)
        + 4.0 * eccentricity * y * math.sin(anomaly) * math.cos(2.0 * mean_longitude)
        - 0.5 * y**2 * math.sin(4.0 * mean_longitude)
        - 1.25 * eccentricity**2 * math.sin(2.0 * anomaly)
    )
    return _MINUTES_PER_DEG * math.degrees(turn)
