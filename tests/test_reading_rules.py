"""Limits, questions, the quick line and what is mixed, in the units and signs that are read."""

import re
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.agronomy.rule_cards import CARDS
from lawnbook.plan.calibration import spreader_advice
from lawnbook.plan.calibration_tank import tank_plan
from lawnbook.plan.quick_words import HELP, help_lines, read_quick
from lawnbook.reading import Reading, read_as, read_in
from lawnbook.spread_commands import option_number
from lawnbook.yard.fields import FieldInfo, Rule, fields_of
from lawnbook.yard.limits import amount, field_complaints
from lawnbook.yard.numbers import parse_inches, parse_number
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, Core, Feeding, Product, SprayerRun, SpreaderRun, Watering
from tests.test_quick_words import BOOK, TODAY, kept, yard

US_UNIT = re.compile(r"\d (?:in|ft|sq ft|gal|gpm|lb|psi|mph)\b|°F|per 1,000|inch|feet|pound|gallon")


def numbered_fields() -> list[tuple[type, FieldInfo]]:
    """Every field of a record that holds one number with a unit and a limit above."""
    return [
        (kind, info)
        for kind in TABLES.values()
        for info in fields_of(kind)
        if info.rule.unit and info.rule.high is not None and "float" in str(info.type)
    ]


def complaint(rule: Rule, value: float) -> str:
    """What a rule says of a value, through a plug that is given the rule."""
    from lawnbook.yard.limits import _about_number

    return " ".join(sentence for _, sentence in _about_number(rule, value))


@pytest.mark.parametrize(
    ("kind", "info"), numbered_fields(), ids=lambda each: getattr(each, "name", None)
)
def test_no_limit_is_told_in_us_units(kind: type, info: FieldInfo) -> None:
    assert info.rule.high is not None
    read_in("metric")
    said = complaint(info.rule, info.rule.high * 1.5 + 1)
    assert said
    assert not US_UNIT.search(said)


def test_limits_are_told_as_the_owner_reads_them() -> None:
    thick = Core(id="c", spot="s", date=TODAY, thatch_in=(9.0,))
    (us,) = [each.sentence for each in field_complaints(thick, TODAY)]
    read_in("metric")
    (metric,) = [each.sentence for each in field_complaints(thick, TODAY)]
    assert us.startswith("Thatch of 9 in is more than any lawn has")
    assert metric.startswith("Thatch of 228.6 mm is more than any lawn has")


@pytest.mark.parametrize(
    ("value", "unit", "us", "metric"),
    [
        (0.41, "in", "0.41 in", "10.41 mm"),
        (95.0, "°F", "95°F", "35°C"),
        (90.0, "°", "90°", "90°"),
        (3.0, "%", "3 %", "3 %"),
        (2e-4, "in", "0.0002 in", "0.00508 mm"),
    ],
)
def test_amounts_in_rules(value: float, unit: str, us: str, metric: str) -> None:
    assert amount(value, unit) == us
    read_in("metric")
    assert amount(value, unit) == metric


def test_inches_typed_where_millimetres_are_meant_are_asked_about() -> None:
    low = Rule("Root depth", "in", low=0.0, high=48.0, ask_below=0.5, slip="millimetres",
               slip_factor=1 / 25.4)  # fmt: skip
    read_in("metric")
    # 4 is typed and taken for millimetres.
    assert complaint(low, 4 / 25.4).endswith(
        "is unusually low; if it was 4 in, enter 101.6, or keep it all the same."
    )
    # A whole file in millimetres: 20 of them stand as 20 in, which is 508 mm.
    deep = replace(low, ask_above=12.0)
    assert "if it was 20 millimetres, enter 20" in complaint(deep, 20.0)


@pytest.mark.parametrize(
    ("line", "record", "field", "value"),
    [
        ("watered 12 mm front lawn", Watering, "depth_in", 12 / 25.4),
        ("0.5 in front lawn", Watering, "depth_in", 0.5),
        ("fed 5 kg feather meal front lawn", Feeding, "pounds", {"z0": 11.0231131}),
        ("fed 12 lb feather meal front lawn", Feeding, "pounds", {"z0": 12.0}),
        ("plug signpost thatch 16 19 roots 115", Core, "thatch_in", (16 / 25.4, 19 / 25.4)),
        ("plug signpost thatch 7/8 roots 4.5 in", Core, "root_depth_in", 4.5),
        ("plug signpost roots 115", Core, "root_depth_in", 115 / 25.4),
    ],
)
def test_the_quick_line_reads_bare_numbers_in_metric(
    line: str, record: type, field: str, value: Any
) -> None:
    read_in("metric")
    (made,) = kept(line, yard("Front lawn", units="metric"))
    assert isinstance(made, record)
    assert getattr(made, field) == pytest.approx(value, rel=1e-6)


def test_bare_rain_is_of_the_unit_that_is_read() -> None:
    metric = yard("Front lawn", units="metric")
    read_in("metric")
    (noted,) = kept("rain 10", metric)
    assert noted.gauge_in == pytest.approx(10 / 25.4)
    # Read in metric for once, a notebook of inches is not guessed at.
    assert read_quick("rain 10", BOOK, TODAY).faults


def test_the_quick_line_tells_what_it_read_in_metric() -> None:
    read_in("metric")
    metric = yard("Front lawn", units="metric")
    lines = ("watered 12 mm", "fed 5 kg feather meal front lawn", "mowed 60 mm", "watered", "fed",
             "fed 2 bags quick 21 front lawn", "plug signpost", "rain", "watered 12")  # fmt: skip
    for line in lines:
        quick = read_quick(line, metric, TODAY)
        said = " ".join([*(each.value for each in quick.fields), *quick.faults, *quick.questions,
                         *quick.proposals])  # fmt: skip
        assert not US_UNIT.search(said.replace("rain 0.4 in", "")), said
    assert "watered 12 mm" in read_quick("watered 12", metric, TODAY).proposals


def test_a_decimal_comma_in_the_quick_line() -> None:
    read_as(Reading(point=",", group="."))
    (watered,) = kept("watered 0,5 in front lawn")
    assert watered.depth_in == 0.5
    (plug,) = kept("plug signpost thatch 0,6 0,75 roots 4,5")
    assert (plug.thatch_in, plug.root_depth_in) == ((0.6, 0.75), 4.5)
    assert len(kept("watered 10 min zones 1, 2")) == 2


@pytest.mark.parametrize("units", ["us", "metric"])
def test_each_line_of_the_help_is_understood(units: Any) -> None:
    read_in(units)
    book = yard("Front lawn", "Back lawn", units=units)
    for line, _ in help_lines()[:-1]:
        assert read_quick(line, book, TODAY).kind, line
    assert (help_lines() == HELP) == (units == "us")


@pytest.mark.parametrize("density", [None, 9.0])
@pytest.mark.parametrize("pounds", [0.2, 6.0, 200.0])
def test_tanks_and_settings_are_told_in_metric(pounds: float, density: float | None) -> None:
    product = Product(id="p", name="Liquid", n_pct=20.0, form="liquid", density_lb_per_gal=density)
    run = SprayerRun(id="r", date=TODAY, sprayer="Hand pump", area_sqft=500.0, used_gal=1.0,
                     tank_gal=2.0, seconds=90.0)  # fmt: skip
    weighed = [
        SpreaderRun(id=f"w{n}", date=TODAY, product="p", spreader="Drop", setting=str(n),
                    strip_ft=50.0, width_ft=2.0, used_lb=0.1 * n)
        for n in (2, 4)
    ]  # fmt: skip
    read_in("metric")
    assert not US_UNIT.search(tank_plan(run, product, pounds, 5000.0).words)
    book = yard("Front lawn", units="metric")
    runs = {each.id: each for each in weighed}
    for wanted in (1.0, 3.0, 9.0):
        advice = spreader_advice(replace(book, spreader_runs=runs), "p", wanted)
        assert not US_UNIT.search(" ".join(each.words for each in advice))


def test_dates_in_rules_follow() -> None:
    read_as(Reading(month_first=True))
    ahead = Core(id="c", spot="s", date=date(2027, 1, 5), thatch_in=(0.5,))
    assert "Jan 5, 2027 is in the future" in next(field_complaints(ahead, TODAY)).sentence


def test_the_cards_of_local_rules_are_told_in_metric() -> None:
    us = [card.beyond for card in CARDS]
    assert [bool(US_UNIT.search(each)) for each in us] == [True, True, True]
    read_in("metric")
    metric = [card.beyond for card in CARDS]
    assert not [each for each in metric if US_UNIT.search(each)]
    # NIST Handbook 44, appendix C: 25 ft are 7.62 m; 0.25 lb per 1,000 sq ft are 1.22 g/m².
    assert "7.6 m from water" in metric[0]
    assert "1.2 g P2O5 per m²" in metric[1]


@pytest.mark.parametrize("typed", ["1.5", "1,5"])
def test_an_option_takes_the_point_of_scripts_beside_the_readers_comma(typed: str) -> None:
    read_as(Reading(units="metric", point=",", group="."))
    assert option_number(parse_number, typed, "--pounds:") == 1.5
    assert option_number(parse_inches, f"{typed} in", "--rain:") == 1.5
    # An option is in inches, as its help says, whatever the notebook is read in.
    assert option_number(parse_inches, "2", "--rain:") == 2.0
    with pytest.raises(OwnerError, match=r"--pounds: \"much\" is not a number"):
        option_number(parse_number, "much", "--pounds:")
