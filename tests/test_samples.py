"""The sample yards: they fit the schema, pass every rule, and carry three seasons of records."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from lawnbook.plan.make import make_plan
from lawnbook.plan.strips import strips_of
from lawnbook.store.yardfile import load_any
from lawnbook.yard.analysis import analysis_of
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


def test_a_sample_has_replicates_that_tell_how_far_one_plug_is_off() -> None:
    bank = sample("hollow_bank")
    plan = make_plan(bank, TODAY)
    crest = next(spot for spot in plan.thatch if spot.spot == "crest")
    shown = crest.evidence
    assert shown is not None
    assert [point.plugs for point in shown.points] == [1, 2, 1, 2, 2, 1]
    assert shown.error is not None
    assert shown.error.replicates == 3
    assert shown.error.plugs_in
    plugs = [core for core in bank.cores.values() if core.spot == crest.spot_id]
    assert len({core.clock for core in plugs}) == len(plugs) == 9


def test_the_samples_show_feeding_in_full() -> None:
    """Each has its part: runs and settings, a mix and soil tests; a liquid; a rule by the water."""
    corner = sample("larkspur_corner")
    tea = next(each for each in corner.products.values() if each.ingredients)
    held = analysis_of(tea)
    assert 0 < held.n_pct < 0.05, "tank water, compost tea and molasses feed next to nothing"
    assert any(each.starter and each.p2o5_pct for each in corner.products.values())
    assert {each.thatch for each in corner.soil_tests.values()} == {"off"}
    assert all(each.depth_in and each.p_ppm for each in corner.soil_tests.values())
    settings = {(each.spreader, each.setting) for each in corner.spreader_runs.values()}
    fed = {(each.spreader, each.setting) for each in corner.feedings.values() if each.spreader}
    assert len(settings) > 2
    assert {spreader for spreader, _ in fed} == {spreader for spreader, _ in settings}
    court = sample("saltbush_court")
    liquid = next(each for each in court.products.values() if each.form == "liquid")
    assert liquid.jug_gal
    assert liquid.density_lb_per_gal
    assert court.sprayer_runs
    assert court.yard.water_n_mg_per_l == 3
    assert {zone.budget_spread for zone in court.zones.values()} == {"table", "growth"}
    bank = sample("hollow_bank")
    assert "invented" in bank.n_rules.name
    assert bank.n_rules.waterside_ft == 15
    lower = next(each for each in bank.zones.values() if each.name == "Lower bank")
    assert strips_of(bank, lower).area_sqft > 100
    assert any(each.no_seed_until for each in bank.care.values())


@pytest.mark.parametrize("path", SAMPLES.values(), ids=SAMPLES)
def test_one_record_stands_on_a_line(path: Path) -> None:
    """So that a change of one record is one changed line."""
    yard = json.loads(path.read_text("utf-8"))
    records = sum(len(rows) for rows in yard.values() if isinstance(rows, list))
    begun = [line for line in path.read_text("utf-8").splitlines() if line.startswith("    {")]
    assert len(begun) == records
