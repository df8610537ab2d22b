"""All that a plan and its commands say, in metric: no US unit is left, and every number agrees."""

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from lawnbook import cli
from lawnbook.plan.make import make_plan
from lawnbook.plan.render import plan_json, plan_text, spread_text
from lawnbook.plan.spread import check_spread
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.year_review import year_review
from lawnbook.reading import Reading, read_in, reading_as
from lawnbook.store.yardfile import load_any, write_yard_text
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards

TODAY = date(2026, 6, 15)
DAYS = (TODAY, date(2026, 10, 20), date(2027, 1, 15))
US_UNIT = re.compile(
    r"(?<!\w)(?:\d[\d.,/]* in(?!\w)(?! \d{4}| brackets| the| spring| a row)|in/(?:h|day)"
    r"|ft|sq ft|gal|gpm|lbs?|psi|mph|oz|kgal|inch(?:es)?|foot|feet|pounds?|gallons?|miles?)(?!\w)"
    r"|°F|per 1,000|1,000 sq|\d'|\d\""
)
SOURCES = "SOURCES"
METRIC = Reading(units="metric")


@pytest.fixture(scope="module", params=sample_yards(), ids=lambda path: path.stem)
def book(request: pytest.FixtureRequest) -> Notebook:
    """Each sample yard; one of them lies south of the equator."""
    return load_any(request.param, TODAY)


def us_units(text: str) -> list[str]:
    """The lines of a text in which a US unit stands, whole."""
    return [line for line in text.splitlines() if US_UNIT.search(line)]


def without_sources(text: str) -> str:
    """A plan without its list of sources, whose titles stay as they were published."""
    return text.partition(f"\n{SOURCES}\n")[0]


@pytest.mark.parametrize("on", DAYS)
def test_the_plan_as_text_has_no_us_unit(book: Notebook, on: date) -> None:
    with reading_as(METRIC):
        text = plan_text(make_plan(book, on))
    assert us_units(without_sources(text)) == []
    assert max(map(len, text.splitlines())) <= 100


def test_the_test_itself_finds_us_units(book: Notebook) -> None:
    assert len(us_units(without_sources(plan_text(make_plan(book, TODAY))))) > 10


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every single value of plain data with its path."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from leaves(each, f"{path}.{key}")
    elif isinstance(value, list):
        for n, each in enumerate(value):
            yield from leaves(each, f"{path}[{n}]")
    else:
        yield path, value


def test_json_has_the_same_numbers_and_its_sentences_follow(book: Notebook) -> None:
    us = dict(leaves(plan_json(make_plan(book, TODAY))))
    with reading_as(METRIC):
        metric = dict(leaves(plan_json(make_plan(book, TODAY))))
    assert list(us) == list(metric)
    told = {path for path, each in us.items() if isinstance(each, str)}
    assert {path: us[path] for path in us if path not in told} == {
        path: metric[path] for path in metric if path not in told
    }
    # Workings are reckoned in US units, and told so; sources are titles.
    sentences = {
        path: metric[path]
        for path in told
        if "workings" not in path and "source" not in path and US_UNIT.search(metric[path])
    }
    assert sentences == {}
    assert any(us[path] != metric[path] for path in told)


def numbers(text: str) -> list[float]:
    """The numbers of a text in order."""
    return [float(each.replace(",", "")) for each in re.findall(r"\d[\d,]*(?:\.\d+)?", text)]


PAIRS = (
    (r"(\d[\d.,]*) in\b", r"(\d[\d.,]*) mm\b", 25.4, 0.005),
    (r"(\d[\d.,]*) gal\b", r"(\d[\d.,]*) L(?![\w/])", 3.785411784, 0.5),
    (r"(\d[\d.,]*) sq ft\b", r"(\d[\d.,]*) m²", 0.09290304, 0.5),
    (r"Up to (\d[\d.,]*) lb\b", r"Up to (\d[\d.,]*) kg\b", 0.45359237, 0.1),
)
"""A US amount as it is told, its twin, the factor, and half a step of the US number."""


def test_each_number_in_metric_is_the_us_one(book: Notebook) -> None:
    """From nothing but the two texts: every amount re-derived within what both round away."""
    us = without_sources(plan_text(make_plan(book, TODAY))).replace("\n", " ")
    with reading_as(METRIC):
        metric = without_sources(plan_text(make_plan(book, TODAY))).replace("\n", " ")
    checked = 0
    for in_us, in_metric, factor, half in PAIRS:
        ours = [float(each.rstrip(".,").replace(",", "")) for each in re.findall(in_us, us)]
        theirs = [
            float(each.rstrip(".,").replace(",", "")) for each in re.findall(in_metric, metric)
        ]
        for value in theirs:
            # Half an inch is "13 mm" in words, and an inch 25.
            near = min((abs(value - each * factor) for each in [*ours, 0.5, 1.0]), default=9e9)
            assert near <= half * 10 * factor + 0.51, (value, in_metric)
            checked += 1
    assert checked > 10


def table_cells(text: str, head: str) -> list[list[str]]:
    """The cells of the rows of a section's first table, from its second line on."""
    body = text.partition(f"\n{head}")[2].split("\n\n")[0].splitlines()[1:]
    return [re.split(r"\s{2,}", line.strip()) for line in body if re.match(r"\d", line)]


def test_the_water_table_is_the_us_one_turned_into_metric(book: Notebook) -> None:
    us_plan = make_plan(book, TODAY)
    with reading_as(METRIC):
        text = plan_text(make_plan(book, TODAY))
    rows = table_cells(text, "NEXT WATERING")
    due = [zone for zone in us_plan.zones if zone.next_run is not None]
    assert len(rows) == len(due)
    for cells, zone in zip(rows, due, strict=True):
        assert zone.next_run is not None
        assert f"{zone.next_run.depth_in * 25.4:.1f}" in cells
        if zone.next_run.gallons is not None:
            assert f"{zone.next_run.gallons * 3.785411784:,.0f}" in cells


@pytest.mark.parametrize("pounds", [2.0, 40.0])
@pytest.mark.parametrize("rain_in", [None, 1.5])
def test_the_check_before_spreading_has_no_us_unit(
    book: Notebook, pounds: float, rain_in: float | None
) -> None:
    with reading_as(METRIC):
        for product in book.products.values():
            for zone in list(book.zones)[:2]:
                checked = check_spread(
                    book, product.id, {zone: pounds}, TODAY, conditions=Conditions(rain_in)
                )
                said = re.sub(r"\[[^\]]*\]", "", spread_text(checked))
                assert us_units(said) == []


def test_the_year_in_review_has_no_us_unit(book: Notebook) -> None:
    with reading_as(METRIC):
        review = year_review(book, 2025, TODAY)
        said = [each.text for each in review.changed]
    assert said
    assert us_units("\n".join(said)) == []


def test_stored_values_are_the_same_in_both(book: Notebook) -> None:
    us = write_yard_text(book)
    with reading_as(METRIC):
        assert write_yard_text(book) == us


def test_a_command_reads_in_the_notebooks_units(
    book: Notebook, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    metric = replace(book, yard=replace(book.yard, units="metric"))
    path = tmp_path / "yard.json"
    path.write_text(write_yard_text(metric), encoding="utf-8")
    assert cli.main(["plan", str(path), "--on", "2026-06-15"], DAYS[1]) == 0
    assert us_units(without_sources(capsys.readouterr().out)) == []
    assert cli.main(["plan", str(path), "--on", "2026-06-15", "--json"], DAYS[1]) == 0
    told = json.loads(capsys.readouterr().out)
    read_in("us")
    plain = plan_json(make_plan(book, TODAY))
    assert [each["depth_in"] for each in told["zones"]] == [
        each["depth_in"] for each in plain["zones"]
    ]


def test_commas_part_the_decimals_of_a_whole_plan(book: Notebook) -> None:
    """With the other signs nothing but signs changes."""
    plain = plan_text(make_plan(book, TODAY))
    with reading_as(Reading(point=",", group=".")):
        commas = plan_text(make_plan(book, TODAY))
    turned = without_sources(commas)
    assert re.search(r"\d,\d", turned)
    left = [
        line
        for line in turned.splitlines()
        if re.search(r"(?<![\d-])\d+\.\d{1,2}(?!\d)", line) and "O'clock" not in line
    ]
    assert left == []
    assert len(commas.splitlines()) == len(plain.splitlines())


def test_days_with_the_month_first_stand_in_one_column(book: Notebook) -> None:
    with reading_as(Reading(month_first=True)):
        text = plan_text(make_plan(book, TODAY))
    due = text.partition("\nDUE\n")[2].partition("\n\n")[0].splitlines()
    found = [re.match(r"\s*[A-Z][a-z]{2} \d{1,2}, \d{4}", line) for line in due]
    assert {each.end() for each in found if each is not None} == {12}
    assert max(map(len, text.splitlines())) <= 100
