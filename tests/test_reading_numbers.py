"""Lengths, numbers and dates as a metric reader and one of decimal commas write and read them."""

import re
from collections.abc import Callable
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.reading import Reading, read_as, read_in
from lawnbook.yard.amounts import METRIC, places_shown, shown, trimmed_bare, unit_shown
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import (
    MONTHS,
    counted,
    day,
    feet_inches,
    inches,
    parse_feet,
    parse_inches,
    parse_number,
    parse_readings,
    plain,
    short_day,
)
from lawnbook.yard.problems import OwnerError

COMMA = Reading(point=",", group=".")
METRIC_COMMA = Reading(units="metric", point=",", group=".")
FRENCH = Reading(units="metric", point=",", group="\u202f")


@pytest.mark.parametrize(
    ("text", "inch"),
    [
        ("22", 22 / 25.4),
        ("22.5", 22.5 / 25.4),
        ("22 mm", 22 / 25.4),
        ("2.2 cm", 2.2 / 2.54),
        ("0.9 in", 0.9),
        ('0.9"', 0.9),
        ("7/8", 0.875),
        ("1 1/4", 1.25),
        ("½", 0.5),
        ("-3", -3 / 25.4),
    ],
)
def test_a_bare_length_is_in_millimetres_and_a_typed_unit_wins(text: str, inch: float) -> None:
    read_in("metric")
    assert parse_inches(text) == pytest.approx(inch, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "feet"),
    [
        ("9.91", 9.91 / 0.3048),
        ("9.91 m", 9.91 / 0.3048),
        ("991 cm", 9.91 / 0.3048),
        ("32' 6\"", 32.5),
        ("32 ft 6 in", 32.5),
        ("32.5 ft", 32.5),
        ('390"', 32.5),
    ],
)
def test_a_bare_distance_is_in_metres_and_a_typed_unit_wins(text: str, feet: float) -> None:
    read_in("metric")
    assert parse_feet(text) == pytest.approx(feet, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "inch"),
    [
        ("16 18 17", (16 / 25.4, 18 / 25.4, 17 / 25.4)),
        ("16, 18.5, 17", (16 / 25.4, 18.5 / 25.4, 17 / 25.4)),
        ("2 1.5 mm", (2 / 25.4, 1.5 / 25.4)),
        ("0.6 0.7 in", (0.6, 0.7)),
        ("5/8 11/16", (0.625, 0.6875)),
        ("7/8 in 22 mm", (0.875, 22 / 25.4)),
    ],
)
def test_bare_readings_are_in_millimetres(text: str, inch: tuple[float, ...]) -> None:
    read_in("metric")
    assert parse_readings(text) == pytest.approx(inch, rel=1e-12)


@pytest.mark.parametrize("text", ["7/8 22", "16 18 3/4", "7/8 22 mm"])
def test_fractions_beside_bare_millimetres_are_asked_about(text: str) -> None:
    read_in("metric")
    with pytest.raises(OwnerError, match="say the unit of each reading"):
        parse_readings(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12,5", 12.5),
        ("1.204,5", 1204.5),
        ("1.204", 1204.0),
        ("12.345.678,25", 12345678.25),
        (",5", 0.5),
        ("-3,25", -3.25),
        ("12", 12.0),
        ("3/4", 0.75),
        ("1 1/2", 1.5),
    ],
)
def test_decimal_commas_are_read_where_they_are_written(text: str, value: float) -> None:
    read_as(COMMA)
    assert parse_number(text) == value
    assert parse_inches(f"{text} in") == value


@pytest.mark.parametrize(
    ("text", "mend"),
    [("12.5", "write it with a comma, 12,5"), ("1.25", "with a comma"), ("1.2045", "with a comma")],
)
def test_a_point_that_parts_no_thousands_is_refused_with_its_mend(text: str, mend: str) -> None:
    read_as(COMMA)
    with pytest.raises(OwnerError, match=re.escape(mend)):
        parse_number(text)
    with pytest.raises(OwnerError, match="such as 7/8, 1 1/4 or 0,9"):
        parse_inches(text)
    with pytest.raises(OwnerError, match="decimals with a comma, such as 0,75"):
        parse_readings(text)


def test_readings_with_decimal_commas() -> None:
    read_as(COMMA)
    assert parse_readings("0,6, 0,7") == (0.6, 0.7)
    assert parse_readings("0,6; ,7 in") == (0.6, 0.7)
    read_as(METRIC_COMMA)
    assert parse_readings("16,5 18") == pytest.approx((16.5 / 25.4, 18 / 25.4))
    assert parse_feet("9,91") == pytest.approx(9.91 / 0.3048)
    assert parse_feet("32' 6,5\"") == pytest.approx(32 + 6.5 / 12)


def test_thousands_parted_by_a_narrow_space() -> None:
    read_as(FRENCH)
    assert parse_number("1\u202f204,5") == 1204.5
    assert parse_number("1 204,5") == 1204.5
    assert parse_number("1 1/2") == 1.5
    assert plain(1204.5) == "1\u202f204,5"


def test_the_sentences_say_what_the_reader_may_write() -> None:
    read_as(METRIC_COMMA)
    with pytest.raises(OwnerError, match="enter millimetres, such as 22,5, or inches"):
        parse_inches("much")
    with pytest.raises(OwnerError, match="enter metres, such as 9,9, or feet"):
        parse_feet("far")
    with pytest.raises(OwnerError, match="such as 12,5"):
        parse_number("")
    with pytest.raises(OwnerError, match="a number in kg is meant"):
        parse_measure("3 gal", "Weight", "lb")


READERS: tuple[Reading, ...] = (
    Reading(),
    Reading(units="metric"),
    COMMA,
    METRIC_COMMA,
    FRENCH,
    Reading(point=".", group="’"),
)


@settings(max_examples=200)
@given(reader=st.sampled_from(READERS), value=st.floats(0.01, 9999, allow_nan=False))
def test_what_is_told_is_read_back(reader: Reading, value: float) -> None:
    """To the last decimal told; in the unit that stands behind it and without one."""
    read_as(reader)
    told: tuple[tuple[str, Callable[[str], float], str], ...] = (
        (inches(value, 3), parse_inches, "in"),
        (plain(value, 3, "in"), parse_inches, "in"),
        (plain(value, 3, "ft"), parse_feet, "ft"),
        (plain(value, 3), parse_number, ""),
    )
    for text, parse, unit in told:
        slack = 0.51 * 10.0 ** -places_shown(3, unit)
        assert shown(parse(text), unit) == pytest.approx(shown(value, unit), abs=slack)
    assert parse_feet(feet_inches(value)) == pytest.approx(value, abs=1 / 24 + 1e-6)


@settings(max_examples=400)
@given(
    reader=st.sampled_from(READERS),
    unit=st.sampled_from(sorted(set(METRIC) - {"miles"})),
    value=st.floats(0.1, 5000, allow_nan=False),
)
def test_a_measure_is_read_back_alone_and_with_its_unit(
    reader: Reading, unit: str, value: float
) -> None:
    read_as(reader)
    text, slack = trimmed_bare(value, 4, unit), 0.51 * 10.0 ** -places_shown(4, unit)
    for typed in (text, f"{text} {unit_shown(unit)}"):
        got = parse_measure(typed, "This", unit)
        assert shown(got, unit) == pytest.approx(shown(value, unit), abs=slack)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("20", "lb", 44.0924524),
        ("20 lb", "lb", 20.0),
        ("15", "gal", 3.96258079),
        ("1 1/2 gal", "gal", 1.5),
        ("23", "°F", 73.4),
        ("73 °F", "°F", 73.0),
        ("-5", "°F", 23.0),
        ("100", "sq ft", 1076.39104),
        ("300", "psi", 43.5113),
        ("3 bar", "psi", 43.5113),
        ("5", "lb per 1,000 sq ft", 1.02408),
        ("1 lb", "lb per 1,000 sq ft", 1.0),
        ("20 %", "%", 20.0),
    ],
)
def test_bare_measures_are_of_the_unit_that_is_read(text: str, unit: str, value: float) -> None:
    read_in("metric")
    assert parse_measure(text, "This", unit) == pytest.approx(value, rel=1e-5)


def test_lengths_are_told_in_metres_and_millimetres() -> None:
    read_in("metric")
    assert (inches(0.41), feet_inches(32.5)) == ("10.4 mm", "9.91 m")
    assert (feet_inches(-1.0), plain(0.41, 2, "in")) == ("-0.30 m", "10.4")


@pytest.mark.parametrize(
    ("reader", "whole", "short"),
    [
        (Reading(), "15 Jun 2026", "15 Jun"),
        (Reading(month_first=True), "Jun 15, 2026", "Jun 15"),
        (Reading(words={"Jun": "jun."}), "15 jun. 2026", "15 jun."),
        (
            Reading(words={"{day} {month} {year}": "{day} de {month} de {year}", "Jun": "junio"}),
            "15 de junio de 2026",
            "15 junio",
        ),
    ],
)
def test_days_are_told_as_the_reader_has_them(reader: Reading, whole: str, short: str) -> None:
    read_as(reader)
    assert (day(date(2026, 6, 15)), short_day(date(2026, 6, 15))) == (whole, short)


def test_today_reads_as_ever() -> None:
    assert (plain(1204.5), inches(0.41), feet_inches(32.5)) == ("1,204.5", "0.41 in", "32' 6\"")
    assert [short_day(date(2026, n + 1, 3)) for n in range(12)] == [f"3 {each}" for each in MONTHS]
    assert counted(1204, "feeding") == "1,204 feedings"
    read_as(COMMA)
    assert counted(1204, "feeding") == "1.204 feedings"


@pytest.mark.parametrize(
    ("text", "inch"), [("1-1/4", 1.25), ('10-1/2"', 10.5), ("-1-1/4", -1.25), ("1-¼", 1.25)]
)
def test_a_whole_and_a_fraction_may_be_joined_by_a_hyphen(text: str, inch: float) -> None:
    """Rulers are read so: one and a quarter is "1-1/4"."""
    assert parse_inches(text) == inch
    assert parse_readings(f"{text} 7/8")[1:] == (0.875,)


def test_a_zero_begins_no_thousands() -> None:
    """A sign after a lone zero was meant for decimals, never for thousands: it is refused."""
    with pytest.raises(OwnerError, match=r"write it with a point, 0\.875"):
        parse_number("0,875")
    with pytest.raises(OwnerError):
        parse_inches("0,875")
    read_as(COMMA)
    with pytest.raises(OwnerError, match="write it with a comma, 0,875"):
        parse_number("0.875")
    assert parse_number("1.204") == 1204.0


def test_what_is_no_reading_is_told_as_it_was_typed() -> None:
    """Not as it is read inside, with points for commas."""
    read_as(METRIC_COMMA)
    with pytest.raises(OwnerError, match='"22,20,19"'):
        parse_readings("22,20,19")
