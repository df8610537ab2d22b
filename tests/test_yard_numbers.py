"""Numbers as people write them, and as the notebook writes them back."""

import importlib
from collections.abc import Callable
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.yard import numbers
from lawnbook.yard.problems import OwnerError

_INCH_MARK = '3/4"'


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("7/8", 0.875),
        ("1 1/4", 1.25),
        ("0.9", 0.9),
        (".5", 0.5),
        ("5.", 5.0),
        (_INCH_MARK, 0.75),
        ("3/4 in", 0.75),
        ("3/4 inches", 0.75),
        ("3 / 4", 0.75),
        ("½", 0.5),
        ("1½", 1.5),
        ("1 ½ in.", 1.5),
        ("3\u20444", 0.75),
        ("22 mm", 22 / 25.4),
        ("22MM", 22 / 25.4),
        ("2.2 cm", 2.2 / 2.54),
        ("1 ft", 12.0),
        ("  0.4 ", 0.4),
        ("-1", -1.0),
        ("−1/2", -0.5),
    ],
)
def test_inches(text: str, inches: float) -> None:
    """Fractions, decimals, signs and other units."""
    assert numbers.parse_inches(text) == pytest.approx(inches, rel=1e-12)


@pytest.mark.parametrize(
    "text", ["", "x", "1/0", "3/", "1 2 3", "4 yd", "0,75", "1e3", "nan", "inf", "1//2", "5'6"]
)
def test_what_is_no_length_is_explained(text: str) -> None:
    """The sentence names the field and shows how to write it."""
    with pytest.raises(OwnerError, match=r"^Thatch.*enter") as caught:
        numbers.parse_inches(text, "Thatch")
    assert str(caught.value).endswith(".")


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("5/8 11/16 3/4", (0.625, 0.6875, 0.75)),
        ("5/8, 11/16; 3/4", (0.625, 0.6875, 0.75)),
        ("1 1/4 1 1/8", (1.25, 1.125)),
        ("1, 1/4", (1.0, 0.25)),
        ("0.6,0.7", (0.6, 0.7)),
        ("0.63 0.69\n0.75", (0.63, 0.69, 0.75)),
        ("16 18 17 mm", (16 / 25.4, 18 / 25.4, 17 / 25.4)),
        ("16mm, 18mm", (16 / 25.4, 18 / 25.4)),
        ("16 mm 0.7 in", (16 / 25.4, 0.7)),
        ('5/8" 3/4"', (0.625, 0.75)),
        ('5/8"3/4"', (0.625, 0.75)),
        ("⅝ ¾", (0.625, 0.75)),
        ("0", (0.0,)),
        ("10 12", (10.0, 12.0)),
        ("3 4 mm", (3 / 25.4, 4 / 25.4)),
        ("0.6 mm", (0.6 / 25.4,)),
        ("5/8 3/4 in", (0.625, 0.75)),
        ("7/8 in 15/16 in 22 mm", (0.875, 0.9375, 22 / 25.4)),
        ("7/8, 22 mm, 23 mm", (0.875, 22 / 25.4, 23 / 25.4)),
        ("", ()),
        ("   ", ()),
    ],
)
def test_readings(text: str, inches: tuple[float, ...]) -> None:
    """A unit written once at the end is for all."""
    assert numbers.parse_readings(text) == pytest.approx(inches, rel=1e-12)


@pytest.mark.parametrize("text", ["0,63", "0.5, 0,63", "x", "0.5 x", "5/8 yd", "1/0", ",", "5..6"])
def test_what_is_no_reading_is_explained(text: str) -> None:
    """A decimal comma would silently become two readings, so it is refused."""
    with pytest.raises(OwnerError, match=r"^Readings"):
        numbers.parse_readings(text)


@pytest.mark.parametrize(
    "text",
    ["7/8 15/16 22 mm", "1 22 mm", "2 2 cm", "16 0.7 18 mm", "⅞ 22 mm", "7/8 mm", "16 mm 7/8 mm"],
)
def test_a_metric_unit_takes_no_reading_that_may_be_inches(text: str) -> None:
    """Seven eighths of an inch before "22 mm" would become a thirtieth of it."""
    with pytest.raises(OwnerError, match=r"^Thatch: say the unit of each reading, such as"):
        numbers.parse_readings(text, "Thatch")


@pytest.mark.parametrize(
    ("text", "feet"),
    [
        ("32' 6\"", 32.5),
        ("32'6", 32.5),
        ("32′ 6″", 32.5),
        ("32 ft 6 in", 32.5),
        ("32 feet 6 inches", 32.5),
        ("32' 6 1/2\"", 32 + 6.5 / 12),
        ("32.5", 32.5),
        ("32 1/2", 32.5),
        ("32.5 ft", 32.5),
        ("32'", 32.0),
        ('6"', 0.5),
        ("32' 6''", 32.5),
        ("1,250", 1250.0),
        ("9.9 m", 9.9 / 0.3048),
        ("990 cm", 9.9 / 0.3048),
        ("-3' 6\"", -3.5),
    ],
)
def test_feet(text: str, feet: float) -> None:
    """Feet and inches, decimals, metres."""
    assert numbers.parse_feet(text) == pytest.approx(feet, rel=1e-12)


@pytest.mark.parametrize(
    "text", ["", "x", "32' x", "32' 6 mm", "9 m 5", "32' -6\"", "6 in 3", "3 yd"]
)
def test_what_is_no_side_is_explained(text: str) -> None:
    """Also where only the second half is wrong."""
    with pytest.raises(OwnerError, match=r"^Side.*enter feet"):
        numbers.parse_feet(text, "Side")


@pytest.mark.parametrize("unit", ["mm", "cm", "m", "ft", "in"])
def test_units_agree_with_pint(unit: str) -> None:
    """Pint, a library of units, as the judge."""
    registry = importlib.import_module("pint").UnitRegistry()
    expected = registry.Quantity(1, unit).to("inch").magnitude
    assert numbers.INCHES_BY_UNIT[unit] == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "value"),
    [("12", 12.0), ("1,250.5", 1250.5), ("3/4", 0.75), ("-2", -2.0), ("1e3", 1e3)],
)
def test_plain_numbers(text: str, value: float) -> None:
    """As typed into any field."""
    assert numbers.parse_number(text) == value


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Flow is empty: enter a number"),
        ("abc", 'Flow "abc" is not a number: enter digits'),
        ("0,75", "write it with a point, 0.75"),
        ("1e999", "too large"),
        ("nan", "is not a number"),
    ],
)
def test_what_is_no_number_is_explained(text: str, words: str) -> None:
    """Each slip with its own mend."""
    with pytest.raises(OwnerError, match=words):
        numbers.parse_number(text, "Flow")


@given(st.integers(0, 60), st.integers(1, 64), st.integers(1, 64))
def test_any_mixed_number_is_read(whole: int, top: int, bottom: int) -> None:
    """Against exact fractions."""
    exact = float(whole + Fraction(top, bottom))
    assert numbers.parse_inches(f"{whole} {top}/{bottom}") == pytest.approx(exact, rel=1e-12)
    assert numbers.parse_readings(f"{whole} {top}/{bottom}, 2") == pytest.approx((exact, 2.0))


@given(st.integers(-60000, 60000))
def test_feet_and_inches_written_are_read_back(inches: int) -> None:
    """To the whole inch."""
    assert numbers.parse_feet(numbers.feet_inches(inches / 12)) == pytest.approx(inches / 12)


@given(st.text(max_size=12))
def test_no_text_breaks_a_parser(text: str) -> None:
    """Whatever is typed is a number or an explanation."""
    parsers: tuple[Callable[[str], object], ...] = (
        numbers.parse_number,
        numbers.parse_inches,
        numbers.parse_feet,
        numbers.parse_readings,
    )
    for parse in parsers:
        told = _refusal(parse, text)
        assert told == "" or told.endswith(".")


def _refusal(parse: Callable[[str], object], text: str) -> str:
    try:
        parse(text)
    except OwnerError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (numbers.inches(0.41), "0.41 in"),
        (numbers.inches(0.5), "0.50 in"),
        (numbers.inches(6, 1), "6.0 in"),
        (numbers.feet_inches(32.5), "32' 6\""),
        (numbers.feet_inches(32.999), "33'"),
        (numbers.feet_inches(0.0), "0'"),
        (numbers.feet_inches(-0.01), "0'"),
        (numbers.minutes(9.4), "9 min"),
        (numbers.minutes(89), "89 min"),
        (numbers.minutes(120), "2 h"),
        (numbers.minutes(95), "1 h 35 min"),
        (numbers.plain(1250.0), "1,250"),
        (numbers.plain(0.4), "0.4"),
        (numbers.plain(-0.001), "0"),
        (numbers.plain(100, 0), "100"),
        (numbers.day(date(2026, 6, 5)), "5 Jun 2026"),
        (numbers.short_day(date(2026, 12, 31)), "31 Dec"),
    ],
)
def test_numbers_are_written_as_people_read_them(written: str, expected: str) -> None:
    """The same on every machine, whatever its language."""
    assert written == expected
