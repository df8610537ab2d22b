"""Each figure of a year of water and of feeding is reckoned anew by what gave it."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.plan.core_workings import core_workings
from lawnbook.plan.feed_year_workings import feed_year, lawn_working
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.sensitivity import numbers_of, reckoned, sensitivities_of
from lawnbook.plan.working_model import Working
from lawnbook.plan.year_keys import YEAR_KEYS, Way
from lawnbook.plan.year_water_workings import year_figure_workings
from tests.desk_sample import samples

ON = date(2026, 6, 15)
CORNER = samples()["larkspur_corner"]


@pytest.fixture(scope="module")
def plan() -> Plan:
    """The plan of a June day, which these tests only read."""
    return make_plan(CORNER, ON)


def anew(working: Working | None) -> float:
    """A figure reckoned from the numbers of its inputs as they are."""
    assert working is not None
    assert working.reckoning is not None
    return reckoned(working.reckoning, numbers_of(working))


@pytest.mark.parametrize("way", ["plan", "habit"])
def test_from_the_numbers_as_they_are_comes_the_year_that_is_shown(plan: Plan, way: Way) -> None:
    """To the last digit: the year's own functions, from all inputs unchanged."""
    zone = plan.zones[0]
    year = zone.water_year
    assert year is not None
    shown = year.plan if way == "plan" else year.habit
    assert shown is not None
    workings = year_figure_workings(CORNER, ON, zone.zone_id, way, (*YEAR_KEYS, "5"))
    by_key = {each.figure.removeprefix(f"year_{way}_"): anew(each) for each in workings}
    assert by_key == {
        "waterings": shown.waterings,
        "gallons": shown.gallons,
        "cost": pytest.approx(shown.cost),
        "gross": shown.gross_in,
        "wets": shown.wets_soil_in,
        "per_inch": shown.wets_soil_in / shown.gross_in,
        "kept": shown.kept_by_thatch_in,
        "runoff": shown.runoff_in,
        "drained": shown.drained_in,
        "stress": shown.stress_days,
        "driest": pytest.approx(100 * shown.driest_share_used),
        "month_5": shown.gallons_by_month[4],
    }


def test_the_habit_s_gallons_go_with_its_minutes_and_its_days(plan: Plan) -> None:
    """A tenth more minutes a tenth more water; no eighth day of the week is tried."""
    (gallons,) = year_figure_workings(CORNER, ON, plan.zones[0].zone_id, "habit", ["gallons"])
    changes = {each.name: each.changes for each in sensitivities_of(gallons)}
    assert [each.share for each in changes["Minutes of a run"]] == pytest.approx([0.1, -0.1])
    days = changes["Days a week"]
    assert [each.input_told for each in days] == ["one day less"]
    assert days[0].change < 0


def test_the_months_of_feeding_add_up_to_what_is_shown(plan: Plan) -> None:
    """Put down, available, usable and budget of each month; the lawn's by the zones' areas."""
    zone = plan.nitrogen[0]
    year, released = feed_year(CORNER, zone, ON), zone.released
    assert released is not None
    usable = released.usable_by_month
    assert usable is not None
    for month in range(1, 13):
        assert anew(year.month(month, "applied")) == pytest.approx(zone.applied_by_month[month - 1])
        assert anew(year.month(month, "released")) == pytest.approx(released.by_month[month - 1])
        assert anew(year.month(month, "usable")) == pytest.approx(usable[month - 1])
        assert anew(year.month(month, "budget")) == pytest.approx(zone.budget_by_month[month - 1])
    assert anew(year.to_come()) == pytest.approx(released.to_come_lb)
    lawn = plan.lawn_nitrogen
    assert lawn is not None
    for key, rate in (("budget", lawn.budget_year), ("left_month", lawn.left_this_month)):
        assert anew(lawn_working(plan.nitrogen, key, in_all=False)) == pytest.approx(rate)
        pounds = rate * lawn.area_sqft / 1000
        assert anew(lawn_working(plan.nitrogen, key, in_all=True)) == pytest.approx(pounds)


def test_a_plug_tells_its_spread_and_what_was_counted() -> None:
    """The standard deviation of 0.5, 0.75 and 1.0 is 0.25."""
    core = replace(next(iter(CORNER.cores.values())), thatch_in=(0.5, 0.75, 1.0), worms=3, sponge=2)
    notebook = replace(CORNER, cores={**CORNER.cores, core.id: core})
    told = {e.figure.partition(":")[0]: e for e in core_workings(notebook, core.id)}
    assert anew(told["plug_spread"]) == pytest.approx(0.25)
    assert told["plug_worms"].value == "3"
    assert told["plug_sponge"].value == "2 of 4"
