"""First steps, usual rates and what is assumed: told from the notebook and the plan."""

from dataclasses import replace

import pytest

from lawnbook.agronomy.usual_rates import USUAL_RATES, SprinklerKind
from lawnbook.plan.assumed import (
    assumed_kind,
    is_assumed_square,
    rate_assumed_told,
    square_of,
    standard_sqft,
    usual_rate_in,
    with_usual_rate,
)
from lawnbook.plan.assumptions import assumptions
from lawnbook.plan.first_steps import (
    ORDER,
    StepState,
    first_steps,
    is_under_way,
    step_left,
)
from lawnbook.plan.make import make_plan
from lawnbook.plan.rate_span import rate_span
from lawnbook.plan.render_text import plan_text
from lawnbook.reading import Reading, reading_as
from lawnbook.yard.amounts import told
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.record_base import FirstStep
from lawnbook.yard.records import ClimateMonth, Core, Habit, Record, Spot, Zone
from tests.desk_sample import DAY, samples

ZONE = Zone(id="front", name="Front", outline_ft=((0, 0), (40, 0), (40, 25), (0, 25)))
SQUARE = Zone(id="lawn", name="Lawn", outline_ft=square_of(1000, (0, 0)), assumed=("square",))
SPOT = Spot(id="gate", name="gate", at_ft=(5.0, 5.0), zone="front")
JUNE = DAY.replace(month=6)


def with_records(notebook: Notebook, table: str, *records: Record) -> Notebook:
    """The notebook with some records more."""
    return apply(notebook, put(notebook, table, *records))


def months(*, eto: float = 0.2) -> list[ClimateMonth]:
    """Twelve months alike."""
    return [ClimateMonth(id=f"{m:02d}", month=m, eto_in_per_day=eto) for m in range(1, 13)]


def states(notebook: Notebook) -> dict[FirstStep, StepState]:
    """How far each step is."""
    return {each.name: each.state for each in first_steps(notebook, make_plan(notebook, JUNE))}


def test_an_empty_notebook_has_every_step_open_in_order() -> None:
    notebook = new_notebook("Home")
    assert states(notebook) == dict.fromkeys(ORDER, "open")
    assert is_under_way(notebook, make_plan(notebook, JUNE))


def test_each_step_is_done_by_what_it_asks_for() -> None:
    notebook = new_notebook("Home")
    done: set[str] = set()
    for name, table, records in (
        ("size", "zones", [ZONE]),
        ("", "climate", months()),
        ("place", "yard", [replace(notebook.yard, latitude_deg=41.0)]),
        ("sprinklers", "zones", [replace(ZONE, precipitation_in_per_h=1.0)]),
        ("ground", "zones", [replace(ZONE, precipitation_in_per_h=1.0, soil="clay")]),
        ("", "spots", [SPOT]),
        ("plug", "cores", [Core(id="one", spot="gate", date=JUNE, thatch_in=(0.7,))]),
    ):
        notebook = with_records(notebook, table, *records)
        done |= {name} - {""}
        assert {each for each, state in states(notebook).items() if state == "done"} == done
    habit = Habit(minutes=10, days_per_week=7)
    notebook = with_records(notebook, "zones", replace(notebook.zones["front"], habit=habit))
    assert states(notebook)["habit"] == "done"
    notebook = apply(notebook, step_left(notebook, "sheet"))
    assert set(states(notebook).values()) == {"done"}
    assert not is_under_way(notebook, make_plan(notebook, JUNE))


@pytest.mark.parametrize("name", [each for each in ORDER if each != "sheet"])
def test_a_step_may_be_left_and_taken_up_again(name: FirstStep) -> None:
    notebook = new_notebook("Home")
    left = apply(notebook, step_left(notebook, name))
    assert states(left) == {**dict.fromkeys(ORDER, "open"), name: "left"}
    assert step_left(left, name) == {}
    assert apply(left, step_left(left, name, left=False)) == notebook


def test_a_square_and_a_usual_rate_are_left_at_a_default_not_done() -> None:
    rated = with_usual_rate(SQUARE, "fixed sprays")
    found = states(with_records(new_notebook("Home"), "zones", rated))
    assert (found["size"], found["sprinklers"]) == ("left", "left")


@pytest.mark.parametrize("stem", ["larkspur_corner", "hollow_bank", "saltbush_court"])
def test_a_notebook_of_years_is_led_no_more(stem: str) -> None:
    notebook = samples()[stem]
    assert not is_under_way(notebook, make_plan(notebook, DAY))


@pytest.mark.parametrize("area", [1.0, 999.99, 1000.0, 43560.0])
def test_a_square_has_its_area(area: float) -> None:
    zone = replace(SQUARE, outline_ft=square_of(area, (-3.0, 2.0)))
    assert zone_area_sqft(zone) == pytest.approx(area, rel=0.02)
    assert is_assumed_square(zone)


def test_the_area_taken_for_want_of_one_is_round_in_the_owners_units() -> None:
    assert told(standard_sqft(), 0, "sq ft") == "1,000 sq ft"
    with reading_as(Reading(units="metric")):
        assert told(standard_sqft(), 0, "sq ft").startswith("100")


@pytest.mark.parametrize("area", [0.0, -1.0, float("nan"), float("inf")])
def test_no_square_has_no_area(area: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        square_of(area, (0, 0))


def test_a_square_that_was_redrawn_is_assumed_no_more() -> None:
    corner = (SQUARE.outline_ft[0], (31.62, 2.0), *SQUARE.outline_ft[2:])
    assert is_assumed_square(SQUARE)
    assert not is_assumed_square(replace(SQUARE, outline_ft=corner))
    assert not is_assumed_square(replace(SQUARE, assumed=()))
    moved = tuple((x + 7, y - 3) for x, y in SQUARE.outline_ft)
    assert is_assumed_square(replace(SQUARE, outline_ft=moved))


@pytest.mark.parametrize("kind", list(USUAL_RATES))
def test_a_usual_rate_is_told_as_a_default_until_another_is_typed(kind: SprinklerKind) -> None:
    zone = with_usual_rate(ZONE, kind)
    plan = make_plan(with_records(new_notebook("Home"), "zones", zone), JUNE)
    (rate,) = (w for w in plan.zones[0].workings if w.figure == "precipitation_rate_in_per_h")
    assert [each.is_default for each in rate.inputs] == [True]
    assert rate_assumed_told(zone) in plan.zones[0].defaults
    assert usual_rate_in(plan.zones[0].defaults) == rate_assumed_told(zone)
    assert "assumed" in plan_text(plan)
    typed = replace(zone, precipitation_in_per_h=0.77)
    assert assumed_kind(zone) == kind
    assert assumed_kind(typed) is None
    plan = make_plan(with_records(new_notebook("Home"), "zones", typed), JUNE)
    assert usual_rate_in(plan.zones[0].defaults) == ""
    assert "typed" in plan_text(plan)


def test_another_kind_takes_the_place_of_the_first_and_the_square_stays() -> None:
    zone = with_usual_rate(with_usual_rate(SQUARE, "rotors"), "fixed sprays")
    assert zone.assumed == ("square", "fixed sprays")


def test_the_span_is_the_plan_at_both_ends() -> None:
    notebook = with_records(new_notebook("Home"), "zones", replace(ZONE, flow_gpm=9.0))
    notebook = with_records(notebook, "climate", *months())
    span = rate_span(notebook, notebook.zones["front"], "rotors", JUNE)
    for rate, month in ((0.2, span.low), (0.8, span.high)):
        told = replace(ZONE, precipitation_in_per_h=rate)
        plan = make_plan(with_records(notebook, "zones", told), JUNE)
        assert month == plan.zones[0].months[month.month - 1]
    assert span.low.run_minutes is not None
    assert span.high.run_minutes is not None
    # Minutes go with one over the rate; so do those of an inch.
    assert span.low.run_minutes / span.high.run_minutes == pytest.approx(4)
    assert span.inch_low / span.inch_high == pytest.approx(4)
    assert span.reason == ""


def test_without_weather_the_span_has_no_minutes_and_says_why() -> None:
    notebook = with_records(new_notebook("Home"), "zones", ZONE)
    span = rate_span(notebook, ZONE, "fixed sprays", JUNE)
    assert span.low.run_minutes is None
    assert "weather" in span.reason
    # 60 min over 1.3 in/h, times 1 / (0.4 + 0.6 x 0.65).
    assert span.inch_low == pytest.approx(60 / 1.3 / 0.79)


def test_every_default_of_the_plan_is_listed_once_with_its_zones() -> None:
    zones = [with_usual_rate(SQUARE, "rotors"), replace(ZONE, soil="clay")]
    notebook = with_records(new_notebook("Home"), "zones", *zones)
    notebook = with_records(notebook, "climate", *months())
    plan = make_plan(notebook, JUNE)
    found = assumptions(notebook, plan)
    by_what = {each.what: each for each in found}
    assert len(by_what) == len(found)
    assert by_what["Outline"].zones == ("Lawn",)
    assert by_what["Precipitation rate"].lead == "First steps: sprinklers"
    assert by_what["Evenness (DU)"].zones == ("Lawn", "Front")
    assert by_what["Soil"].zones == ("Lawn",)
    assert by_what["Hemisphere"].value == "north"
    told = {
        each.name
        for water in plan.zones
        for w in water.workings
        for each in w.inputs
        if each.is_default
    }
    assert told - {"DU_LQ"} <= set(by_what)


def test_what_is_told_is_no_longer_assumed() -> None:
    notebook = with_records(new_notebook("Home"), "zones", ZONE)
    notebook = with_records(
        notebook, "yard", replace(notebook.yard, latitude_deg=41.0, target_depth_in=0.8)
    )
    zone = replace(ZONE, soil="sand", precipitation_in_per_h=1.2)
    notebook = with_records(notebook, "zones", zone)
    gone = {"Hemisphere", "Target depth", "Soil", "Grass", "Outline", "Precipitation rate"}
    assert gone.isdisjoint(each.what for each in assumptions(notebook, make_plan(notebook, JUNE)))
