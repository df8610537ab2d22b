"""What would change a figure most is a true re-reckoning, by the science's own functions."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.precipitation import gallons, run_minutes, run_time_multiplier
from lawnbook.agronomy.spots_trend import Series, mean_trend
from lawnbook.agronomy.water_balance import bearable_depth_in
from lawnbook.plan.arithmetic import symbols_of, worked_out
from lawnbook.plan.filled_in import counted_in, numbered, put_in, reckons, steps
from lawnbook.plan.ledger import ledger_of
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.sensitivity import (
    TENTH,
    Sensitivity,
    figure_told,
    numbers_of,
    reckoned,
    sensitivities_of,
    stepped,
)
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.working_model import DAY, Input, Reckoning, Working
from lawnbook.plan.workings_text import groups_of, most_told, share_told
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.yard.notebook import as_of
from tests.desk_sample import samples

ON = date(2026, 6, 15)
CORNER = samples()["larkspur_corner"]


@pytest.fixture(scope="module")
def plan() -> Plan:
    """The plan of a June day, which these tests only read."""
    return make_plan(CORNER, ON)


def zone_working(plan: Plan, figure: str, number: int = 0) -> Working:
    """A figure of a zone's water."""
    return next(each for each in plan.zones[number].workings if each.figure == figure)


def of_input(working: Working, name: str) -> Sensitivity:
    """What one input of a working does."""
    return next(each for each in sensitivities_of(working) if each.name == name)


def test_a_formula_is_read_as_arithmetic() -> None:
    """Signs as printed, thousands parted, symbols in braces."""
    assert worked_out("1,000 × 2 ÷ 4 − 3") == 497
    assert worked_out("√({a:4}² + 3²)", {"a": 4.0}) == 5
    assert worked_out("exp(−½ × ((60 − 68) ÷ 10)²)") == pytest.approx(math.exp(-0.32))
    assert worked_out("min({x}, 2) + max(0, −1)", {"x": 5.0}) == 2
    assert math.isnan(worked_out("1 ÷ 0"))
    assert symbols_of("{a:0} × {b} ÷ {a}") == ("a", "b")


@pytest.mark.parametrize(
    "text",
    ["__import__('os')", "a.b", "[1]", "1 if 1 else 2", "lambda: 1", "exec(1)", "1 = 2", "{"],
)
def test_anything_but_arithmetic_is_refused(text: str) -> None:
    """No text is run as a program."""
    with pytest.raises((ValueError, KeyError)):
        worked_out(text)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.01, 1e4), st.floats(0.01, 1e4), st.floats(0.01, 1e4))
def test_linear_inputs_change_by_ten_percent_and_inverse_ones_by_9_09_and_11_1(
    first: float, second: float, third: float
) -> None:
    """Of a product and quotient, whatever the numbers."""
    inputs = tuple(
        numbered(Input(name, "", ""), name, value)
        for name, value in (("a", first), ("b", second), ("c", third))
    )
    formula = "60 × {a} × {b} ÷ {c}"
    working = Working("x", "X", "", "", put_in(formula, inputs), inputs, "", reckons(formula))
    for each in sensitivities_of(working):
        shares = [change.share for change in each.changes]
        wanted = [1 / 1.1 - 1, 1 / 0.9 - 1] if each.name == "c" else [0.1, -0.1]
        assert shares == pytest.approx(wanted, rel=1e-9)
    assert sensitivities_of(working)[0].name == "c"


def test_shares_as_they_are_told() -> None:
    """With their sign, one decimal."""
    assert [share_told(each) for each in (0.1, 1 / 1.1 - 1, 1 / 0.9 - 1, 0.0)] == [
        "+10.0\u00a0%",
        "−9.1\u00a0%",
        "+11.1\u00a0%",
        "no change",
    ]


REAL: Mapping[str, tuple[Callable[[Mapping[str, float]], float], str]] = {
    "run_minutes": (
        lambda n: run_minutes(n["depth"], n["rate"], n["multiplier"]),
        "min",
    ),
    "gallons": (lambda n: gallons(n["depth"] * n["multiplier"], n["area"]), "gal"),
    "multiplier": (lambda n: run_time_multiplier(n["du"]), ""),
    "bearable_depth_in": (
        lambda n: bearable_depth_in(n["depletion"], n["aw"], n["rooted"]),
        "in",
    ),
}


@pytest.mark.parametrize("figure", REAL)
def test_they_are_the_differences_of_the_science_itself(plan: Plan, figure: str) -> None:
    """Each number ten percent up and down, put through the function that gives the figure."""
    function, unit = REAL[figure]
    for number in range(len(plan.zones)):
        working = zone_working(plan, figure, number)
        numbers = numbers_of(working)
        assert working.reckoning is not None
        assert working.reckoning.unit == unit
        assert reckoned(working.reckoning, numbers) == pytest.approx(function(numbers), rel=1e-12)
        for quantity in (q for each in working.inputs if (q := each.quantity) is not None):
            if quantity.kind != "measured":
                continue
            name = next(each.name for each in working.inputs if each.quantity == quantity)
            up, down = of_input(working, name).changes
            for change, factor in ((up, 1 + TENTH), (down, 1 - TENTH)):
                moved = function({**numbers, quantity.symbol: quantity.number * factor})
                assert change.raw == pytest.approx(moved, rel=1e-12)
                assert change.change == pytest.approx(moved - function(numbers), rel=1e-9)


def test_a_soil_is_a_class_that_changes_to_its_neighbours(plan: Plan) -> None:
    """Not by ten percent: by the next finer and the next coarser texture of the table."""
    told = of_input(zone_working(plan, "bearable_depth_in"), "Available water")
    assert told.kind == "class"
    assert [each.input_told for each in told.changes] == ["clay loam", "sandy loam"]
    assert [each.share for each in told.changes] == pytest.approx(
        [0.18 / 0.17 - 1, 0.12 / 0.17 - 1]
    )


def test_days_go_in_whole_steps_and_say_so(plan: Plan) -> None:
    """The figure is whole days; what it is before the step stands beside it."""
    working = zone_working(plan, "interval_days")
    assert working.reckoning is not None
    told = of_input(working, "Water use")
    for each in told.changes:
        assert each.figure == max(1, math.floor(each.raw + 1e-9))
    lines = most_told(working)
    assert any("before it is made whole" in line and "day" in line for line in lines)


def test_a_count_changes_by_one() -> None:
    """One more, and one fewer where there is more than one."""
    plugs = counted_in(Input("Plugs", "2", ""), "n", 2.0)
    one = Working("x", "X", "", "", "", (plugs,), "", reckons("6 ÷ {n}"))
    assert [each.raw for each in sensitivities_of(one)[0].changes] == [2.0, 6.0]
    least = counted_in(Input("Plugs", "1", ""), "n", 1.0)
    assert len(sensitivities_of(replace(one, inputs=(least,)))[0].changes) == 1


def test_the_next_watering_is_the_ledgers_own_with_one_thing_changed(plan: Plan) -> None:
    """The date comes of the ledger run again, not of a guess."""
    setting = setting_of(as_of(CORNER, ON), ON)
    seen = 0
    for number, zone in enumerate(setting.notebook.zones.values(), start=1):
        facts = facts_of(setting, zone, number)
        named = [w for w in plan.zones[number - 1].workings if w.figure == "next_watering"]
        for working in named:
            told = of_input(working, "Water use of all days")
            for each, factor in zip(told.changes, (1.1, 0.9), strict=True):
                use = tuple(one * factor for one in facts.etc_factors)
                due = ledger_of(setting, replace(facts, etc_factors=use)).next_watering
                assert due is not None
                assert each.raw == due.toordinal()
                seen += 1
    assert seen >= 4


def test_the_trend_is_reckoned_again_with_one_plug_changed(plan: Plan) -> None:
    """By the trend's own function, on the same days."""
    thatch = next(each for each in plan.thatch if each.plugs >= 5)
    working = next(each for each in thatch.workings if each.figure == "slope_in_per_year")
    assert working.reckoning is not None
    points = [(q.symbol, q.number) for each in working.inputs if (q := each.quantity) is not None]
    days = sorted({core.date for core in CORNER.cores.values() if core.spot == thatch.spot_id
                   and core.date <= ON and core.thatch_in})  # fmt: skip
    years = tuple((each - days[0]).days / 365.25 for each in days)
    symbol = points[0][0]
    for factor in (1.1, 0.9):
        values = tuple(value * (factor if name == symbol else 1) for name, value in points)
        wanted = mean_trend([Series(years, values)])
        found = reckoned(working.reckoning, {**dict(points), symbol: points[0][1] * factor})
        assert wanted is not None
        assert found == pytest.approx(wanted.slope, rel=1e-3)


@pytest.mark.parametrize("stem", ["larkspur_corner", "saltbush_court"])
def test_from_the_inputs_as_they_are_comes_the_figure_that_is_shown(stem: str) -> None:
    """Of every working that can be reckoned anew; the greatest change stands first."""
    book, seen = samples()[stem], set()
    for group in groups_of(make_plan(book, ON), spreading_plan(book, ON)):
        for each in group.workings:
            if each.reckoning is None:
                continue
            seen.add(each.figure)
            value = stepped(each.reckoning, reckoned(each.reckoning, numbers_of(each)))
            assert figure_told(each.reckoning, value) in each.value, each
            sizes = [told.size for told in sensitivities_of(each)]
            assert sizes == sorted(sizes, reverse=True)
    assert {"left_this_year", "next_feeding", "precipitation_rate_in_per_h"} <= seen


def test_nothing_is_reckoned_before_it_is_asked_for() -> None:
    """A working with a function holds it; making and comparing workings does not call it."""

    def never(_numbers: Mapping[str, float]) -> float:
        raise AssertionError("reckoned unasked")

    given_number = (numbered(Input("A", "1", ""), "a", 1.0),)
    made = [
        Working("x", "X", "1", "", "", given_number, "", Reckoning("", anew=one))
        for one in (never, lambda _numbers: 0.0)
    ]
    assert made[0] == made[1]
    assert len(set(made)) == 1
    assert sensitivities_of(replace(made[0], reckoning=None)) == ()


def test_whole_days_have_a_floor() -> None:
    """Less than a day between waterings is told as one day."""
    use = (numbered(Input("Use", "", ""), "use", 2.0),)
    working = Working("x", "X", "", "", "", use, "", steps("1 ÷ {use}", DAY, "down", 1))
    assert working.reckoning is not None
    assert figure_told(working.reckoning, stepped(working.reckoning, 0.5)) == "1 day"
