"""The sample yards: they fit the schema, pass every rule, and carry three seasons of records."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from lawnbook.plan.make import make_plan
from lawnbook.store.yardfile import load_any
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import resource, sample_yards

TODAY = date(2026, 11, 25)
SAMPLES = {path.stem: path for path in sample_yards()}
YARD_SCHEMA = Draft202012Validator(json.loads(resource("yard.schema.json").read_text("utf-8")))


def sample(stem: str) -> Notebook:
    """A sample as a notebook."""
    return load_any(SAMPLES[stem], TODAY)


def test_there_are_three() -> None:
    assert set(SAMPLES) == {"larkspur_corner", "saltbush_court", "hollow_bank"}


@pytest.mark.parametrize("path", SAMPLES.values(), ids=SAMPLES)
def test_fits_the_schema(path: Path) -> None:
    errors = [
        error.message for error in YARD_SCHEMA.iter_errors(json.loads(path.read_text("utf-8")))
    ]
    assert errors == []


def test_the_schema_refuses_what_it_does_not_know() -> None:
    yard = json.loads(SAMPLES["hollow_bank"].read_text("utf-8"))
    yard["zones"][0]["colour"] = "green"
    assert not YARD_SCHEMA.is_valid(yard)


@pytest.mark.parametrize("stem", SAMPLES)
def test_passes_every_rule_without_a_question(stem: str) -> None:
    assert check_notebook(sample(stem), TODAY) == ()


@pytest.mark.parametrize("stem", SAMPLES)
def test_carries_three_seasons(stem: str) -> None:
    notebook = sample(stem)
    for table in ("cores", "feedings", "waterings", "weather"):
        rows = getattr(notebook, table).values()
        assert {2024, 2025, 2026} <= {row.date.year for row in rows}, table
    daily = sorted(row.date for row in notebook.weather.values())
    silent = (daily[-1] - daily[0]).days + 1 - len(daily)
    assert silent == (5 if stem == "hollow_bank" else 0), "one station was silent for some days"
    assert len(daily) > 2 * 365


@pytest.mark.parametrize("stem", SAMPLES)
def test_a_plan_for_every_week_of_two_years(stem: str) -> None:
    notebook = sample(stem)
    for week in range(0, 105, 3):
        on = date(2024, 11, 25) + timedelta(weeks=week)
        plan = make_plan(notebook, on)
        assert plan.on == on
        for zone in plan.zones:
            # Every zone either has its figures or says why not, or by which other rule.
            told = zone.run_minutes is None or zone.rule != "deep"
            assert told == bool(zone.reason), (on, zone.zone, zone.reason)
            if zone.next_watering is not None:
                assert zone.next_watering >= on


def test_each_sample_shows_what_it_is_for() -> None:
    corner = make_plan(sample("larkspur_corner"), date(2026, 9, 25))
    letterbox = next(spot for spot in corner.thatch if spot.spot == "letterbox")
    assert letterbox.change_in is not None
    assert letterbox.change_in < -0.3
    assert letterbox.verdict.startswith("Thinning")
    court = make_plan(sample("saltbush_court"), date(2026, 1, 10))
    assert all(zone.interval_days is not None for zone in court.zones)
    assert court.nitrogen[0].year_label == "2025–26"
    bank = make_plan(sample("hollow_bank"), date(2026, 7, 1))
    upper, lower = bank.zones[0], bank.zones[1]
    assert upper.du_lq is not None
    assert upper.du_lq < 0.6
    assert lower.rate_stale
    assert upper.cycles is not None
    assert upper.cycles > 1
