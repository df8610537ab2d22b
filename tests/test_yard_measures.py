"""Numbers with a unit behind them: the field's own, another of its kind, or one that is refused."""

import pytest

from lawnbook.desk.entry import parse_whole
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.problems import OwnerError


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("20 %", "%", 20.0),
        ("20%", "% of the product", 20.0),
        ("12.5 percent", "% of the nitrogen", 12.5),
        ("20", "%", 20.0),
        ("1e2", "lb", 100.0),
        ("50 lb", "lb", 50.0),
        ("50 lbs.", "lb", 50.0),
        # NIST Handbook 44, appendix C: a pound is 0.45359237 kg, a gallon 3.785411784 L.
        ("20 kg", "lb", 44.0924524),
        ("500 g", "lb", 1.10231131),
        ("8 oz", "lb", 0.5),
        ("15 L", "gal", 3.96258079),
        ("64 fl oz", "gal", 0.5),
        ("1 1/2 gal", "gal", 1.5),
        ("½ gal", "gal", 0.5),
        ("23 C", "°F", 73.4),
        ("-5 °C", "°F", 23.0),
        ("73 °F", "°F", 73.0),
        ("1.2 kg/L", "lb/gal", 10.0145),
        ("100 m²", "sq ft", 1076.39104),
        ("1,250 sq ft", "sq ft", 1250.0),
        ("10 L/min", "gpm", 2.64172052),
        ("3 bar", "psi", 43.5113),
        ("2 h", "min", 120.0),
        ("30 ppm", "ppm", 30.0),
        ("5 g/m²", "lb per 1,000 sq ft", 1.02408),
        ("90°", "°", 90.0),
    ],
)
def test_units_of_the_same_kind_are_understood(text: str, unit: str, value: float) -> None:
    assert parse_measure(text, "This", unit) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        ("33 S", "Latitude", -33.0),
        ("33.9° s", "Latitude", -33.9),
        ("45 N", "Latitude", 45.0),
        ("-33", "Latitude", -33.0),
        ("105 W", "Longitude", -105.0),
        ("151.2°E", "Longitude", 151.2),
    ],
)
def test_south_and_west_say_minus(text: str, what: str, value: float) -> None:
    assert parse_measure(text, what, "°") == value


@pytest.mark.parametrize(
    ("text", "what", "unit", "told"),
    [
        ("20 kg", "Jug", "gal", 'Jug "20 kg": a number in gal is meant; turn'),
        ("20 lb", "Nitrogen", "%", 'Nitrogen "20 lb": a number in percent is meant'),
        ("33 S", "Longitude", "°", 'Longitude "33 S": a number in degrees is meant'),
        ("-33 S", "Latitude", "°", "says its side of the earth twice"),
        ("2,5", "Bag", "lb", "write it with a point, 2.5"),
        ("heavy", "Bag", "lb", "is not a number"),
        ("12 lb", "Price", "", "is not a number"),
        ("1 2 3 lb", "Bag", "lb", "is not a number"),
        ("", "Bag", "lb", "is empty"),
    ],
)
def test_other_units_are_refused_with_the_one_that_is_meant(
    text: str, what: str, unit: str, told: str
) -> None:
    with pytest.raises(OwnerError) as caught:
        parse_measure(text, what, unit)
    assert told in str(caught.value)


def test_whole_numbers_take_their_unit_too() -> None:
    assert parse_whole("14 days", "Days between feedings", "days") == 14
    with pytest.raises(OwnerError, match="weeks"):
        parse_whole("14 days", "Feeding time", "weeks")
