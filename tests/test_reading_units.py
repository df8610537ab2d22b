"""Every unit that an amount is told in has its metric unit, or is the same everywhere.

Looked for twice: in what is written in the source, and in what is asked for while plans of the
samples, their workings and every field of a record are told to a metric reader.
"""

import ast
import inspect
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

import lawnbook
from lawnbook.plan.make import make_plan
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.workings_text import groups_of, lines_of
from lawnbook.reading import Reading, reading_as
from lawnbook.store.yardfile import load_any
from lawnbook.yard import amounts
from lawnbook.yard.amounts import METRIC
from lawnbook.yard.fields import fields_of
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import TABLES

ROOT = Path(lawnbook.__file__).parent
EVERYWHERE = frozenset({"", "%", "min", "mL", "ppm", "mg/L", "dS/m", "MJ/m²", "kg", "weeks", "px"})
"""Told alike to everybody: of trade in these everywhere, or already metric."""

OF_FIELDS = frozenset(
    {
        *("°", "° clockwise", "° clockwise from the top of the page"),
        *("s", "days", "minutes", "% of the product", "% of the nitrogen"),
    }
)
"""Units of fields alone, the same everywhere too: angles, times, shares."""


def places_of_units() -> dict[str, int]:
    """The functions that tell an amount, and which of their arguments is its unit."""
    found = {"follow_unit": 1, "captioned": 1}
    for name, each in vars(amounts).items():
        if inspect.isfunction(each) and each.__module__ == amounts.__name__:
            names = list(inspect.signature(each).parameters)
            if "unit" in names and not name.startswith("_"):
                found[name] = names.index("unit")
    return found


def words_in(argument: ast.expr, constants: dict[str, set[str]]) -> Iterator[str]:
    """The texts an argument may be: literals, and constants by their names."""
    for each in ast.walk(argument):
        if isinstance(each, ast.Constant) and isinstance(each.value, str):
            yield each.value
        elif isinstance(each, ast.Name):
            yield from constants.get(each.id, ())


def constants_of(trees: list[ast.Module]) -> dict[str, set[str]]:
    """The texts that modules give a name, by that name."""
    found: dict[str, set[str]] = {}
    for node in (node for tree in trees for node in tree.body):
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant):
            for target in node.targets:
                if isinstance(target, ast.Name) and isinstance(node.value.value, str):
                    found.setdefault(target.id, set()).add(node.value.value)
    return found


def units_told(trees: list[ast.Module]) -> Iterator[str]:
    """Every unit that is written where an amount is told."""
    places, constants = places_of_units(), constants_of(trees)
    for call in (node for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Call)):
        name = call.func.id if isinstance(call.func, ast.Name) else ""
        if name not in places:
            continue
        named = [each.value for each in call.keywords if each.arg == "unit"]
        for argument in named or call.args[places[name] : places[name] + 1]:
            yield from words_in(argument, constants)


def test_every_unit_in_the_source_is_metric_or_the_same_everywhere() -> None:
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in sorted(ROOT.rglob("*.py"))]
    units = set(units_told(trees))
    assert {"in", "sq ft", "lb", "%"} <= units
    assert units - METRIC.keys() - EVERYWHERE == set()


def test_what_is_looked_for_would_be_found() -> None:
    tree = ast.parse(
        'GILL = "gills"\nx = told(1.0, 2, GILL), unit_shown("rods"), told(2, unit="rd")'
    )
    assert set(units_told([tree])) == {"gills", "rods", "rd"}


def test_every_field_of_a_record_has_a_metric_unit_or_one_the_same_everywhere() -> None:
    units = {info.rule.unit for kind in TABLES.values() for info in fields_of(kind)}
    assert "in" in units
    assert units - METRIC.keys() - EVERYWHERE <= OF_FIELDS


class Asked(dict[str, amounts.MetricUnit]):
    """The table of units, which notes what is asked of it in vain."""

    missed: set[str]

    def __contains__(self, unit: object) -> bool:
        """Whether a unit has a metric one."""
        held = super().__contains__(unit)
        if not held:
            self.missed.add(str(unit))
        return held


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: path.stem)
def test_plans_and_workings_ask_for_no_other_unit(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = Asked(METRIC)
    asked.missed = set()
    monkeypatch.setattr(amounts, "METRIC", asked)
    on = date(2026, 6, 15)
    with reading_as(Reading(units="metric")):
        notebook = load_any(path, on)
        groups = groups_of(make_plan(notebook, on), spreading_plan(notebook, on))
        told = [line for group in groups for each in group.workings for line in lines_of(each)]
    assert len(told) > 100
    assert asked.missed - EVERYWHERE == set()
