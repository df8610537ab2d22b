"""The sketch's plane on earth: latitude and longitude to feet on the page, and back.

The plane touches the WGS 84 ellipsoid at the sketch's zero point, and points of the ellipsoid are
dropped on it at a right angle (local east, north and up: Snyder 1987, Map Projections, USGS
Professional Paper 1395, orthographic projection; the ellipsoid by NIMA TR8350.2). A tape and this
plane differ by d³ / 24 R² at most over a length d through the zero point: a thousandth of a
millimetre on 300 m. Heights are left out of it: on a slope a tape laid on the ground reads more.
"""

import math
from functools import cached_property

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point

FOOT_M = 0.3048
"""The international foot in metres, exactly; the survey foot is 2 parts in a million more."""

EQUATOR_M = 6_378_137.0
"""The WGS 84 ellipsoid's half axis at the equator, in metres."""

FLATTENING = 1 / 298.257223563
"""How much shorter the WGS 84 ellipsoid's polar half axis is, as a share."""

_E2 = FLATTENING * (2 - FLATTENING)
_Vector = tuple[float, float, float]


@dataclass(frozen=True)
class LocalPlane:
    """A tangent plane at a place; north lies `north_deg` clockwise from the top of the page.

    Latitude north of the equator and longitude east of Greenwich are positive, in degrees.
    """

    latitude_deg: float
    longitude_deg: float
    north_deg: float = 0.0

    def to_ft(self, lon: float, lat: float) -> Point:
        """Where a place lies on the page, in feet: x to the right, y up the page.

        Right for what is near; what lies far round the earth is only told to be far.
        """
        east, north, up = self._local_m(lon, lat)
        flat, whole = math.hypot(east, north), math.hypot(east, north, up)
        # Beyond the horizon the plane folds back on itself: there the straight line counts.
        if whole > 2 * flat:
            east, north = whole, 0.0
        turn = math.radians(self.north_deg)
        x = east * math.cos(turn) + north * math.sin(turn)
        y = north * math.cos(turn) - east * math.sin(turn)
        return (x / FOOT_M, y / FOOT_M)

    def to_degrees(self, point: Point) -> Point:
        """The longitude and latitude, in this order, of a point of the page in feet.

        ValueError for a point that lies off the earth.
        """
        turn = math.radians(self.north_deg)
        x, y = point[0] * FOOT_M, point[1] * FOOT_M
        east = x * math.cos(turn) - y * math.sin(turn)
        north = y * math.cos(turn) + x * math.sin(turn)
        at = self._on_ellipsoid(east, north)
        lat = math.atan2(at[2], (1 - _E2) * math.hypot(at[0], at[1]))
        return (math.degrees(math.atan2(at[1], at[0])), math.degrees(lat))

    def far_ft(self, lon: float, lat: float) -> float:
        """How far a place lies from the zero point in a straight line, through the earth if far."""
        return math.hypot(*self._local_m(lon, lat)) / FOOT_M

    @cached_property
    def _axes(self) -> tuple[_Vector, _Vector, _Vector]:
        """East, north and up at the zero point, as unit vectors from the earth's centre."""
        lon, lat = math.radians(self.longitude_deg), math.radians(self.latitude_deg)
        sin_lon, cos_lon, sin_lat, cos_lat = (
            math.sin(lon),
            math.cos(lon),
            math.sin(lat),
            math.cos(lat),
        )
        east = (-sin_lon, cos_lon, 0.0)
        north = (-sin_lat * cos_lon, -sin_lat * sin_lon, cos_lat)
        return east, north, (cos_lat * cos_lon, cos_lat * sin_lon, sin_lat)

    @cached_property
    def _zero(self) -> _Vector:
        return _from_centre_m(self.longitude_deg, self.latitude_deg)

    def _local_m(self, lon: float, lat: float) -> _Vector:
        at, zero = _from_centre_m(lon, lat), self._zero
        way = (at[0] - zero[0], at[1] - zero[1], at[2] - zero[2])
        east, north, up = (_dot(way, axis) for axis in self._axes)
        return east, north, up

    def _on_ellipsoid(self, east: float, north: float) -> _Vector:
        """The point of the ellipsoid under a point of the plane, from the earth's centre."""
        (e, n, u), zero = self._axes, self._zero
        above = _sum(zero, _sum(_times(e, east), _times(n, north)))
        # On the ellipsoid x² + y² + z² / (1 - e²) = a²: a quadratic in the way down, `drop`.
        a, b, c = (
            _stretched(u, u),
            2 * _stretched(above, u),
            _stretched(above, above) - EQUATOR_M**2,
        )
        inside = b * b - 4 * a * c
        if not inside >= 0:
            raise ValueError("The point lies off the earth")
        drop = -2 * c / (b + math.sqrt(inside))
        return _sum(above, _times(u, drop))


def _from_centre_m(lon_deg: float, lat_deg: float) -> _Vector:
    """A place on the ellipsoid in metres from the earth's centre."""
    lon, lat = math.radians(lon_deg), math.radians(lat_deg)
    across = EQUATOR_M / math.sqrt(1 - _E2 * math.sin(lat) ** 2)
    return (
        across * math.cos(lat) * math.cos(lon),
        across * math.cos(lat) * math.sin(lon),
        across * (1 - _E2) * math.sin(lat),
    )


def _dot(one: _Vector, other: _Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def _stretched(one: _Vector, other: _Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2] / (1 - _E2)


def _sum(one: _Vector, other: _Vector) -> _Vector:
    return (one[0] + other[0], one[1] + other[1], one[2] + other[2])


def _times(one: _Vector, by: float) -> _Vector:
    return (one[0] * by, one[1] * by, one[2] * by)
