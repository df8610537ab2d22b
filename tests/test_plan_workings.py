"""Every working comes out at the figure it explains, and small amounts are told as they are."""

import ast
import math
import operator
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Literal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.ledger import ledger_of
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import MonthWater, Plan
from lawnbook.plan.month_water import etc_in_per_day, water_today
from lawnbook.plan.next_run import next_runs
from lawnbook.plan.water_figures import Figures
from lawnbook.plan.water_rules import first_allowed
from lawnbook.plan.water_workings import workings_of
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import (
    counted,
    cycle_minutes_told,
    run_minutes_told,
    told,
    told_exactly,
    told_most,
    told_room,
    told_small,
)
from lawnbook.plan.year_water import zone_year
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.places import sample_yards
from tests.strategies import notebooks

Drought = Literal["off", "less", "survival"]

LAST = date(2026, 11, 15)
DAYS = tuple(date(year, month, 12) for year in (2024, 2025, 2026) for month in (1, 5, 7, 9, 10))

IN_WORDS = {
    "area_sqft",
    "next_watering",
    "next_feeding_until",
    "slope_in_per_year",
    "half_inch",
    "season_in",
}
"""Figures whose working is not arithmetic of a few numbers."""

_ROUNDED: Mapping[str, Callable[[float], float]] = {
    "interval_days": lambda value: max(1, math.floor(value)),
    "target_interval_days": lambda value: max(1, math.floor(value)),
    "cycles": math.ceil,
    "next_feeding": lambda value: math.floor(value * 100) / 100,
    "max_lb": lambda value: math.floor(value * 100) / 100,
}
_OPERATORS: Mapping[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "exp": math.exp,
    "sqrt": math.sqrt,
}


def worked_out(formula: str) -> float:
    """A formula as it is shown, worked out."""
    plain = formula.replace("×", "*").replace("÷", "/").replace("−", "-")
    plain = plain.replace("½", "0.5").replace("²", "**2").replace("√", "sqrt")
    plain = re.sub(r"(?<=\d),(?=\d{3})", "", plain)
    return _value(ast.parse(plain, mode="eval").body)


def _value(node: ast.expr) -> float:
    if isinstance(node, ast.BinOp):
        return _OPERATORS[type(node.op)](_value(node.left), _value(node.right))
    if isinstance(node, ast.UnaryOp):
        return -_value(node.operand)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return _FUNCTIONS[node.func.id](*map(_value, node.args))
    assert isinstance(node, ast.Constant)
    assert isinstance(node.value, int | float)
    return float(node.value)


def workings(plan: Plan) -> Iterator[Working]:
    """All workings of a plan that are arithmetic."""
    means = (*plan.zone_thatch, *((plan.yard_thatch,) if plan.yard_thatch else ()))
    evidence = [each.evidence for each in (*plan.thatch, *means) if each.evidence is not None]
    for group in (plan.zones, plan.nitrogen, plan.thatch, evidence):
        for each in group:
            yield from (w for w in each.workings if w.figure not in IN_WORDS)


def assert_comes_out(working: Working) -> None:
    """The formula with its numbers gives the figure that is shown, to its last digit."""
    if "as fast as it falls" in working.filled:
        assert working.value == "1"
        return
    formula, _, stated = working.filled.replace(", dormant: 0", " × 0").partition(" = ")
    value = worked_out(formula)
    if stated:
        assert value == pytest.approx(worked_out(stated), rel=3e-4, abs=1e-4), working
        value = _ROUNDED[working.figure](worked_out(stated) + 1e-9)
    shown = working.value.split(", ")[-1] if working.figure == "next_feeding" else working.value
    number = re.match(r"-?[\d,]*\.?\d+", shown)
    assert number, working
    last_place = 10.0 ** -len(number.group().partition(".")[2])
    least = last_place if working.figure in {"next_feeding", "max_lb"} else last_place / 2
    told_value = float(number.group().replace(",", ""))
    assert value == pytest.approx(told_value, abs=least + 3e-4 * abs(value) + 1e-9), working


@pytest.mark.parametrize("sample", sample_yards(), ids=lambda path: path.stem)
def test_every_working_of_the_samples_gives_the_figure_shown(sample: Path) -> None:
    book = load_any(sample, LAST)
    seen = set()
    for on in DAYS:
        for working in workings(make_plan(book, on)):
            assert_comes_out(working)
            seen.add(working.figure)
    assert {"run_minutes", "cycles", "bearable_depth_in", "left_this_month"} <= seen
    assert {"change_in", "plug_in", "detectable_in", "more_for_tenth"} <= seen


@settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_every_working_of_any_notebook_gives_the_figure_shown(book: Notebook, on: date) -> None:
    for working in workings(make_plan(book, on)):
        assert_comes_out(working)


def water_workings(book: Notebook, on: date) -> Iterator[Working]:
    """The workings of every zone's water, those of its next run and its year among them."""
    setting = setting_of(as_of(book, on), on)
    for number, zone in enumerate(setting.notebook.zones.values(), 1):
        facts = facts_of(setting, zone, number)
        today = water_today(setting, facts)
        ledger = ledger_of(setting, facts) if today.interval_days is not None else None
        run = None
        if ledger is not None:
            allowed = first_allowed(setting, facts, ledger.next_watering)
            run = next_runs(setting, facts, ledger, today, allowed).next
        figures = Figures(
            today=today,
            etc_in_per_day=etc_in_per_day(setting, facts, on.month),
            target_interval_days=None,
            roots_needed_in=10.0,
            ledger=ledger,
            next_allowed=None,
            next_run=run,
            year=zone_year(setting, facts),
        )
        told_here = [w for w in workings_of(setting, facts, figures) if w.figure not in IN_WORDS]
        yield from (w for w in told_here if w.figure != "roots_needed_in")


RUN_FIGURES = {
    "cost",
    "depletion_in",
    "next_run_depth_in",
    "next_run_minutes",
    "next_run_gallons",
    "next_run_cost",
    "year_gallons",
    "year_cost",
    "year_wets_soil_in",
    "year_saved_gallons",
}


@pytest.mark.parametrize("drought", ["off", "less", "survival"])
def test_every_working_of_a_run_and_a_year_gives_the_figure_shown(drought: Drought) -> None:
    seen = set()
    for sample in sample_yards():
        book = load_any(sample, LAST)
        priced = replace(book.yard, drought=drought, water_price_per_kgal=4.37)
        for on in DAYS[5:10]:
            for working in water_workings(replace(book, yard=priced), on):
                assert_comes_out(working)
                assert working.inputs
                assert working.source
                seen.add(working.figure)
    assert seen >= RUN_FIGURES - ({"next_run_depth_in"} if drought == "survival" else set())


@settings(deadline=None, max_examples=30, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_every_water_working_of_any_notebook_gives_the_figure_shown(
    book: Notebook, on: date
) -> None:
    for working in water_workings(book, on):
        assert_comes_out(working)


@pytest.mark.parametrize(
    ("value", "exactly", "plain", "small"),
    [
        (0.0, "0.00", "0.00", "0.00"),
        (0.2150476, "0.21505", "0.22", "0.22"),
        (1648.0, "1,648.00", "1,648.00", "1,648.00"),
        (53.75, "53.75", "53.75", "53.75"),
        (-0.0031, "-0.0031", "0.00", "-0.003"),
        (0.0000123, "0.0000123", "0.00", "0.00001"),
        (0.00999999, "0.01", "0.01", "0.01"),
        (1e-300, "0.00", "0.00", "0.00"),
    ],
)
def test_numbers_as_they_are_told(value: float, exactly: str, plain: str, small: str) -> None:
    assert told_exactly(value) == exactly
    assert told(value) == plain
    assert told_small(value) == small


@pytest.mark.parametrize(
    ("pounds", "words"), [(3.86, "3.8"), (0.867, "0.86"), (3.8, "3.8"), (0.0, "0.00"), (40, "40.0")]
)
def test_the_most_is_never_rounded_up(pounds: float, words: str) -> None:
    assert told_most(pounds) == words


@pytest.mark.parametrize(
    ("room", "words"),
    [
        (2 / 3, "0.66"),
        (0.9, "0.90"),
        (0.1 + 0.2, "0.30"),
        (0.0, "0.00"),
        (0.0079, "0.007"),
        (5e-324, "0.00"),
    ],
)
def test_room_is_never_rounded_up(room: float, words: str) -> None:
    assert told_room(room) == words


def test_counts_agree_with_their_nouns() -> None:
    assert [counted(n, "day") for n in (0, 1, 2)] == ["0 days", "1 day", "2 days"]


@pytest.mark.parametrize(
    ("run", "cycles", "each", "run_shown"),
    [
        (45.0, 2, 23, 46),
        (28.8, 2, 15, 30),
        (30.0, 2, 15, 30),
        (12.4, 1, 13, 13),
        (3 * 0.1 * 90, 3, 9, 27),
        (0.0, 0, 0, 0),
    ],
)
def test_a_run_is_told_as_its_cycles_times_their_whole_minutes(
    run: float, cycles: int, each: int, run_shown: int
) -> None:
    """Rounded up, but not for a hair of floating point."""
    one = run / cycles if cycles else 0.0
    month = MonthWater(month=6, run_minutes=run, cycles=cycles, minutes_per_cycle=one)
    assert (cycle_minutes_told(month), run_minutes_told(month)) == (each, run_shown)


def test_a_run_without_cycles_or_none_at_all() -> None:
    assert run_minutes_told(MonthWater(month=6, run_minutes=50.2)) == 51
    assert run_minutes_told(MonthWater(month=6)) is None
    assert cycle_minutes_told(MonthWater(month=6)) is None
