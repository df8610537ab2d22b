"""Sunrise and sunset against the Naval Observatory's tables, a reference library and FAO-56."""

import math
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from astral import Observer
from astral.sun import sunrise as reference_sunrise
from astral.sun import sunset as reference_sunset
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.evapotranspiration import daylight_hours
from lawnbook.agronomy.sun import sunrise_utc, sunset_utc

ANY_DAY = st.dates(date(1900, 1, 1), date(2100, 12, 31))
LONGITUDE = st.floats(-180, 180)

# U.S. Naval Observatory, Astronomical Applications: rise and set for the sun for 2008 at W121 55,
# N37 24, zone 8 h west of Greenwich (first days of the months as printed).
OBSERVATORY_2008 = [
    (1, "0722", "1700"), (2, "0711", "1732"), (3, "0638", "1802"), (4, "0552", "1831"),
    (5, "0512", "1858"), (6, "0448", "1923"), (7, "0451", "1932"), (8, "0512", "1915"),
    (9, "0539", "1836"), (10, "0604", "1750"), (11, "0633", "1709"), (12, "0704", "1650"),
]  # fmt: skip


def minutes_apart(one: datetime | None, other: datetime) -> float:
    """How far a time lies from a printed one."""
    assert one is not None
    return abs((one - other).total_seconds()) / 60


def at(on: date, clock: str, hours_west: int) -> datetime:
    """A printed clock time ("0722") in a zone so many hours west of Greenwich."""
    zone = timezone(timedelta(hours=-hours_west))
    return datetime(on.year, on.month, on.day, int(clock[:2]), int(clock[2:]), tzinfo=zone)


@pytest.mark.parametrize(("month", "rise", "set_"), OBSERVATORY_2008)
def test_the_observatorys_table_of_a_year(month: int, rise: str, set_: str) -> None:
    on, place = date(2008, month, 1), (37.4, -(121 + 55 / 60))
    assert minutes_apart(sunrise_utc(*place, on), at(on, rise, 8)) < 1.0
    assert minutes_apart(sunset_utc(*place, on), at(on, set_, 8)) < 1.0


@pytest.mark.parametrize(
    ("longitude_deg", "rise", "set_"), [(-74.9, "0604", "1812"), (-77.0, "0612", "1821")]
)
def test_an_equinox_as_the_observatory_gives_it(longitude_deg: float, rise: str, set_: str) -> None:
    """U.S. Naval Observatory, 20 March 2002, N38.9 and W74.9 or W77.0, Eastern Standard Time.

    Half a minute may be lost in the printed minute and some 0.2 min in the printed places.
    """
    on = date(2002, 3, 20)
    assert minutes_apart(sunrise_utc(38.9, longitude_deg, on), at(on, rise, 5)) < 1.5
    assert minutes_apart(sunset_utc(38.9, longitude_deg, on), at(on, set_, 5)) < 1.5


@given(st.floats(-60, 60), st.floats(-170, 170), ANY_DAY)
def test_the_reference_library_agrees_within_two_minutes(
    latitude_deg: float, longitude_deg: float, on: date
) -> None:
    """astral, an independent open-source library; it names the day by Greenwich's calendar."""
    place = Observer(latitude_deg, longitude_deg, 0.0)
    ours = {
        reference_sunrise: sunrise_utc(latitude_deg, longitude_deg, on),
        reference_sunset: sunset_utc(latitude_deg, longitude_deg, on),
    }
    for reference, found in ours.items():
        assert found is not None
        days = (found.date() + timedelta(days=each) for each in (-1, 0, 1))
        theirs = [reference(place, date=each, tzinfo=UTC) for each in days]
        assert min(minutes_apart(found, each) for each in theirs) < 2.0


def test_the_length_of_a_day_in_fao_example_9() -> None:
    """FAO-56 example 9: 11.7 h at 20° S on 3 September, from horizon to horizon.

    FAO-56 counts the sun's centre without refraction; 0.833° more at either end take
    2 × 0.833 × 4 min ÷ (cos φ cos δ sin ω), with δ 0.120 and ω 1.527 as the example prints them.
    Its one sine for the declination is half a degree off on that day: some 2 min of daylight.
    """
    on = date(2015, 9, 3)
    rise, set_ = sunrise_utc(-20.0, 0.0, on), sunset_utc(-20.0, 0.0, on)
    assert rise is not None
    assert set_ is not None
    hours = (set_ - rise).total_seconds() / 3600
    steep = math.cos(math.radians(20)) * math.cos(0.120) * math.sin(1.527)
    edges = 2 * 0.833 * 4 / 60 / steep
    assert hours - edges == pytest.approx(11.7, abs=0.08)
    assert hours - edges == pytest.approx(daylight_hours(-20.0, 246), abs=0.04)


@given(st.floats(-65, 65), LONGITUDE, ANY_DAY)
def test_sunrise_comes_before_noon_and_sunset_after(
    latitude_deg: float, longitude_deg: float, on: date
) -> None:
    rise = sunrise_utc(latitude_deg, longitude_deg, on)
    set_ = sunset_utc(latitude_deg, longitude_deg, on)
    noon = datetime(on.year, on.month, on.day, 12, tzinfo=UTC) - timedelta(
        minutes=4 * longitude_deg
    )
    assert rise is not None
    assert set_ is not None
    # The sun is at most 17 min off the clock (the equation of time).
    assert rise < noon + timedelta(minutes=17)
    assert set_ > noon - timedelta(minutes=17)
    assert timedelta(0) < set_ - rise < timedelta(days=1)


@given(st.floats(-60, 60), LONGITUDE, ANY_DAY)
def test_days_follow_one_another(latitude_deg: float, longitude_deg: float, on: date) -> None:
    """From one sunrise to the next it is a day, give or take five minutes."""
    today = sunrise_utc(latitude_deg, longitude_deg, on)
    tomorrow = sunrise_utc(latitude_deg, longitude_deg, on + timedelta(days=1))
    assert today is not None
    assert tomorrow is not None
    assert abs(tomorrow - today - timedelta(days=1)) < timedelta(minutes=6)


@pytest.mark.parametrize(
    ("latitude_deg", "on"),
    [
        (78.0, date(2026, 6, 21)),
        (78.0, date(2026, 12, 21)),
        (-78.0, date(2026, 6, 21)),
        (-78.0, date(2026, 12, 21)),
        (90.0, date(2026, 6, 21)),
        (-90.0, date(2026, 3, 1)),
    ],
)
def test_where_the_sun_stays_up_or_down_there_is_neither(latitude_deg: float, on: date) -> None:
    assert sunrise_utc(latitude_deg, 15.0, on) is None
    assert sunset_utc(latitude_deg, 15.0, on) is None


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="latitude_deg must lie between"):
        sunrise_utc(91.0, 0.0, date(2026, 6, 15))
    with pytest.raises(ValueError, match="longitude_deg must lie between"):
        sunset_utc(0.0, 181.0, date(2026, 6, 15))
