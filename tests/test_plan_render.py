"""A plan as JSON and as text: stable keys, plain values, nothing wider than a terminal."""

import json
import re
import subprocess
import sys
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.plan.render import plan_json, plan_text, spread_json, spread_text
from lawnbook.plan.spread import check_spread
from lawnbook.plan.strips import strips_of
from lawnbook.plan.text_table import Column, table
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import CatchTest, Season
from tests.plan_yards import (
    JUNE,
    core,
    feeding,
    product,
    spot,
    steady,
    watering,
    yard,
    zone,
)
from tests.strategies import notebooks

ZONE_KEYS = [
    "zone",
    "area_sqft",
    "precipitation_rate_in_per_h",
    "rate_source",
    "du_lq",
    "multiplier",
    "etc_in_per_day",
    "rooted_soil_in",
    "bearable_depth_in",
    "limited_by",
    "depth_in",
    "interval_days",
    "interval_days_by_month",
    "shortfall_in_per_day",
    "target_depth_in",
    "target_interval_days",
    "roots_needed_in",
    "run_minutes",
    "cycles",
    "minutes_per_cycle",
    "soak_minutes",
    "next_watering",
    "next_allowed",
    "defaults",
    "gallons",
]
NITROGEN_KEYS = [
    "zone",
    "year",
    "applied_by_month",
    "quick_by_month",
    "budget_by_month",
    "applied_year",
    "budget_year",
    "left_this_month",
    "left_this_year",
    "next_feeding",
]
THATCH_KEYS = [
    "spot",
    "plugs",
    "latest_in",
    "first_in",
    "change_in",
    "slope_in_per_year",
    "ci95",
    "half_inch_between",
    "verdict",
]
SPREAD_KEYS = [
    "zone",
    "n_lb_per_1000",
    "quick_lb_per_1000",
    "month_after",
    "year_after",
    "max_lb",
    "binding",
]


def full_yard() -> Notebook:
    """A yard with something in every part of the plan."""
    plugs = [
        core(date(2024, 1, 1) + timedelta(days=150 * n), 1.2 - 0.1 * n, root_depth_in=4.0 + n)
        for n in range(6)
    ]
    return yard(
        zone(precipitation_in_per_h=1.2),
        zone(id="z2", name="A strip with a name that goes on and on beside the long drive"),
        spots=[spot()],
        cores=plugs,
        products=[product()],
        feedings=[feeding(date(2026, 5, 1), 1.0)],
        waterings=[watering(date(2026, 6, 14), minutes=20.0)],
    )


def flat(text: str) -> str:
    """The text in one line, its no-break spaces kept."""
    return re.sub(r"[ \n]+", " ", text)


def test_the_keys_of_the_plan_are_stable() -> None:
    plan = plan_json(make_plan(full_yard(), JUNE))
    assert {"on", "zones", "nitrogen", "thatch", "due", "cautions", "sources"} <= set(plan)
    assert set(ZONE_KEYS) <= set(plan["zones"][0])
    assert set(NITROGEN_KEYS) <= set(plan["nitrogen"][0])
    assert set(THATCH_KEYS) <= set(plan["thatch"][0])
    assert {"date", "pounds"} <= set(plan["nitrogen"][0]["next_feeding"])
    assert plan["on"] == "2026-06-15"
    assert re.fullmatch(r"2026-\d\d-\d\d", plan["zones"][0]["next_watering"])
    assert len(plan["zones"][0]["interval_days_by_month"]) == 12
    assert plan["zones"][1]["run_minutes"] is None
    assert plan["zones"][1]["du_lq"] is None


def test_the_plans_json_holds_what_stands_behind_the_nitrogen() -> None:
    plan = json.loads(json.dumps(plan_json(make_plan(full_yard(), JUNE)), allow_nan=False))
    front = plan["nitrogen"][0]
    assert len(front["water_by_month"]) == len(front["released"]["by_month"]) == 12
    assert {"p2o5_year", "k2o_year", "clippings", "soil"} <= set(front)
    assert {"applied_lb", "budget_lb", "area_sqft"} <= set(plan["lawn_nitrogen"])


def test_the_keys_of_the_check_are_stable() -> None:
    check = spread_json(check_spread(full_yard(), "p1", {"z1": 2.0}, JUNE))
    assert {"within", "zones", "earliest_date", "cautions"} <= set(check)
    assert set(SPREAD_KEYS) <= set(check["zones"][0])
    assert check["within"] is False
    assert check["earliest_date"] == "2026-09-01"
    json.dumps(check, allow_nan=False)


def test_figures_in_json_are_not_rounded() -> None:
    plan = make_plan(full_yard(), JUNE)
    again = json.loads(json.dumps(plan_json(plan), allow_nan=False))
    assert again["zones"][0]["run_minutes"] == plan.zones[0].run_minutes
    assert again["thatch"][0]["slope_in_per_year"] == plan.thatch[0].slope_in_per_year


def test_the_text_is_aligned_and_holds_what_the_plan_holds() -> None:
    plan = make_plan(full_yard(), JUNE)
    text = plan_text(plan)
    lines = text.splitlines()
    assert all(len(line) <= 100 for line in lines)
    assert lines[0] == "Test yard: plan for 15 Jun 2026"
    for words in ("WATER", "NITROGEN", "THATCH", "DUE", "NOTES", "CAUTIONS", "SOURCES"):
        assert any(line.startswith(words) for line in lines)
    assert f"{plan.zones[0].bearable_depth_in:.2f}" in text
    assert plan.thatch[0].verdict in flat(text)
    assert all(caution in flat(text).replace(" - ", " ") for caution in plan.cautions)
    assert "nan" not in text.lower().split()


def test_a_zone_on_defaults_is_marked_and_the_notes_say_which() -> None:
    measured = CatchTest(id="t", zone="z1", date=JUNE, run_minutes=10, depths_in=(0.2, 0.3))
    book = replace(full_yard(), catch_tests={"t": measured})
    text = plan_text(make_plan(book, JUNE))
    assert re.search(r"^1 Front ", text, re.MULTILINE)
    assert re.search(r"^2\* A strip", text, re.MULTILINE)
    assert "* rests on values not yet measured or entered: see the notes" in text
    assert "beside the long drive: Assumed until measured or" in text
    assert "roots 6 in, evenness (DU) 0.65" in text


@pytest.mark.parametrize(
    ("on", "why", "again"),
    [
        (date(2026, 11, 25), "25 Nov: outside the irrigation season (20 Apr to 15 Oct).", "April"),
        (date(2026, 4, 5), "5 Apr: outside the irrigation season (20 Apr to 15 Oct).", "April"),
        (date(2026, 10, 20), "20 Oct: outside the irrigation season (20 Apr to 15 Oct).", "April"),
    ],
)
def test_in_winter_one_sentence_stands_for_a_table_of_dashes(
    on: date, why: str, again: str
) -> None:
    book = yard(season=Season(start="04-20", end="10-15"), climate=steady(0.2))
    text = plan_text(make_plan(book, on))
    assert f"No watering is planned on {why}" in text
    month = make_plan(book, on).zones[0].months[3]
    assert month.interval_days == 1
    assert f"When it starts again: in {again}, {month.depth_in:.2f} in, every day." in text
    assert "limited by" not in text
    assert text.count("utside the irrigation season") == 1


def test_zones_that_rest_for_other_reasons_are_told_apart() -> None:
    dry = zone(id="z2", name="Meadow", irrigated=False)
    book = yard(zone(), dry, season=Season(start="04-20", end="10-15"), climate=steady(0.2))
    text = plan_text(make_plan(book, date(2026, 12, 1)))
    assert "No watering is planned on 1 Dec.\n- Front: Outside the irrigation season" in text
    assert "- Meadow: Not irrigated: no watering is planned." in text
    never = plan_text(make_plan(yard(dry), JUNE))
    assert "limited by" in never


def test_what_a_month_has_left_and_may_not_have_is_marked() -> None:
    """The published table feeds November in its first half; the next month with room is May."""
    for day, waits in ((10, False), (20, True)):
        plan = make_plan(yard(products=[product()], climate=steady(0.2)), date(2026, 11, day))
        left, reason = plan.nitrogen[0].left_this_month, plan.nitrogen[0].reason
        text = plan_text(plan)
        assert left > 0
        assert (f"{left:.2f}*" in text, "* not to be put down today" in text) == (waits, waits)
        assert reason.startswith("November is fed in its first half only: ") is waits
        assert reason in flat(text)


def test_below_the_nitrogen_stands_what_is_behind_it() -> None:
    shelf = [product(p2o5_pct=6.0, k2o_pct=12.0)]
    book = yard(
        zone(clippings="left"),
        zone(id="z2", name="Meadow", budget_level="lean"),
        products=shelf,
        feedings=[feeding(date(2026, 6, 1), 1.0)],
        waterings=[watering(date(2026, 6, 5), depth_in=1.0)],
    )
    well = replace(book, yard=replace(book.yard, water_n_mg_per_l=20.0))
    text = plan_text(make_plan(well, JUNE))
    assert all(len(line) <= 100 for line in text.splitlines())
    head = next(line for line in text.splitlines() if "P2O5" in line)
    assert head.split("  ")[0] == "zone"
    for words in ("of it water", "K2O", "released Jun", "usable Jun", "to come", "clippings"):
        assert words in head
    assert "- Front: budget cool season, middle." in text
    assert "- Meadow: budget cool season, lean." in text
    assert "- Whole lawn, 2,000 sq ft: 0.3 of 4.8 lb nitrogen in 2026, 4.4 lb left" in flat(text)
    bare = plan_text(make_plan(yard(climate=()), JUNE))
    assert "P2O5" not in bare
    assert "usable" not in bare


def test_the_half_inch_is_told_ahead_or_as_passed() -> None:
    dates = [date(2023, 1, 1) + timedelta(days=150 * n) for n in range(8)]
    for thinner, words in ((0.07, "Half an inch between "), (0.12, "is under half")):
        cores = [core(on, 1.2 - thinner * n) for n, on in enumerate(dates)]
        text = plan_text(make_plan(yard(spots=[spot()], cores=cores), JUNE))
        assert words in flat(text)


def test_an_empty_yard_has_a_plan_and_says_what_is_missing() -> None:
    empty = replace(yard(), zones={})
    text = plan_text(make_plan(empty, JUNE))
    assert "No zone has been drawn yet." in text
    assert "0 sq ft of turf in 0 zones" in text


def test_the_check_as_text_tells_verdict_rule_and_first_day() -> None:
    text = spread_text(check_spread(full_yard(), "p1", {"z1": 2.0, "z2": 1.0}, JUNE))
    assert text.startswith("Not within budget on 15 Jun 2026")
    assert "First day on which all of it passes: 1 Sep 2026" in text
    assert "Virginia Department" in text
    assert all(len(line) <= 100 for line in text.splitlines())


def test_words_give_way_before_figures_do() -> None:
    columns = [Column("name", ["x" * 50, "y"], words=True), Column("n", ["12,345", "6"])]
    lines = list(table(columns, 30))
    assert lines[1].endswith("…  12,345")
    assert {len(line) for line in lines} == {30}


@settings(deadline=None, max_examples=80, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_any_valid_notebook_on_any_day_has_a_finite_plan(book: Notebook, on: date) -> None:
    # A depletion next to nothing would ask for roots without end.
    assume(all((each.allowed_depletion or 1) > 1e-6 for each in book.zones.values()))
    plan = make_plan(book, on)
    json.dumps(plan_json(plan), allow_nan=False)
    assert all(len(line) <= 100 for line in plan_text(plan).splitlines())
    assert plan == make_plan(as_of(book, on), on)
    # A zone that lies in strips altogether is refused by name.
    open_to_feed = [
        zone.id
        for zone in book.zones.values()
        if strips_of(book, zone).area_sqft < 0.99 * zone_area_sqft(zone)
    ]
    for product_id in book.products:
        if open_to_feed:
            check = check_spread(book, product_id, dict.fromkeys(open_to_feed, 1.0), on)
            json.dumps(spread_json(check), allow_nan=False)
            assert all(len(line) <= 100 for line in spread_text(check).splitlines())


def test_planning_imports_nothing_heavy() -> None:
    code = (
        "import sys, lawnbook.plan.make, lawnbook.plan.spread, lawnbook.plan.render;"
        "heavy = {'pandas', 'scipy', 'matplotlib', 'PySide6', 'sqlite_utils'} & set(sys.modules);"
        "sys.exit(', '.join(heavy) or 0)"
    )
    child = subprocess.run([sys.executable, "-c", code], check=False, capture_output=True)
    assert child.returncode == 0, child.stderr
