"""The workings of areas, plugs, cans, maps, rain and months: each comes out at its figure."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.agronomy.precipitation import (
    catch_can_rate_in_per_h,
    christiansen_uniformity,
    lower_quarter_uniformity,
)
from lawnbook.agronomy.spreading import spreader_rate_lb_per_1000
from lawnbook.plan.arithmetic import worked_out
from lawnbook.plan.ground_workings import (
    night_working,
    plug_workings,
    rain_workings,
    record_workings,
    sum_working,
)
from lawnbook.plan.make import make_plan
from lawnbook.plan.map_workings import can_workings, coverage_workings, head_workings
from lawnbook.plan.model import Plan
from lawnbook.plan.sensitivity import figure_told, numbers_of, reckoned, sensitivities_of
from lawnbook.plan.tool_workings import sprayer_run_workings, spreader_run_workings
from lawnbook.plan.water_model import RainCredit
from lawnbook.plan.working_model import Working
from lawnbook.yard.geometry import perimeter_ft
from lawnbook.yard.records import Spot, SprayerRun, SpreaderRun
from tests.desk_sample import samples

ON = date(2026, 6, 15)
CORNER = samples()["larkspur_corner"]
CAUGHT = (14.0, 18.0, 16.0, 10.0, 22.0, 19.0, 17.0, 12.0)


@pytest.fixture(scope="module")
def plan() -> Plan:
    """The plan of a June day."""
    return make_plan(CORNER, ON)


def anew(working: Working) -> float:
    """The figure from its inputs as they are."""
    assert working.reckoning is not None
    return reckoned(working.reckoning, numbers_of(working))


def test_an_area_grows_by_21_percent_where_all_lengths_grow_by_ten() -> None:
    """By the square; the edge by itself."""
    zone = next(iter(CORNER.zones.values()))
    area, edge = record_workings(zone)
    (scaled,) = sensitivities_of(area)
    assert [each.share for each in scaled.changes] == pytest.approx([0.21, -0.19])
    assert anew(edge) == pytest.approx(perimeter_ft(zone.outline_ft))
    assert record_workings(next(each for each in CORNER.spots.values())) == ()
    assert isinstance(next(iter(CORNER.spots.values())), Spot)


def test_areas_are_added_up() -> None:
    """Each by its name, those past forty together."""
    parts = [(f"Lawn {n}", 10.0 + n) for n in range(45)]
    made = sum_working("All", parts, "outline")
    assert worked_out(made.filled) == pytest.approx(sum(area for _, area in parts))
    assert made.inputs[-1].name == "5 more"


def test_a_plugs_mean_names_the_plug() -> None:
    """Every reading, from the plug of a day at a spot."""
    core = next(each for each in CORNER.cores.values() if len(each.thatch_in) > 1)
    made = {each.figure.partition(":")[0]: each for each in plug_workings(core, "gate")}
    thatch = made["plug_thatch"]
    assert worked_out(thatch.filled) == pytest.approx(
        sum(core.thatch_in) / len(core.thatch_in), rel=1e-3
    )
    assert all(" at gate" in each.origin for each in thatch.inputs)


def test_cans_by_volume() -> None:
    """Rate, DU and CU by the science's functions; one can more changes them as it would."""
    rate, du, cu = can_workings(CAUGHT, 15.0, 16.6, "catch test of 3 Jun 2026")
    assert anew(rate) == pytest.approx(catch_can_rate_in_per_h(CAUGHT, 15.0, 16.6), rel=1e-4)
    assert anew(du) == pytest.approx(lower_quarter_uniformity(CAUGHT))
    assert anew(cu) == pytest.approx(christiansen_uniformity(CAUGHT))
    told = next(each for each in sensitivities_of(du) if each.name == "Can 4")
    changed = [*CAUGHT[:3], 11.0, *CAUGHT[4:]]
    assert told.changes[0].raw == pytest.approx(lower_quarter_uniformity(changed))
    assert can_workings((0.0, 0.0), 15.0, None, "") == ()
    assert len(can_workings((0.2,), 15.0, None, "")) == 1


def test_the_map_is_told_with_its_heads(plan: Plan) -> None:
    """DU and CU come out of the means that are named; a zone without a map has none."""
    zone = next(each for each in plan.zones if each.coverage is not None)
    assert zone.coverage is not None
    made = {each.figure: each for each in coverage_workings(zone, CORNER)}
    assert anew(made["coverage_du_lq"]) == pytest.approx(zone.coverage.du_lq)
    assert anew(made["coverage_cu"]) == pytest.approx(zone.coverage.cu)
    mean, wasted = made["coverage_mean_in_per_h"], made["coverage_wasted"]
    assert anew(mean) == pytest.approx(zone.coverage.mean_in_per_h)
    assert anew(wasted) == pytest.approx(100 * zone.coverage.wasted_share)
    by_name = {each.name: each for each in sensitivities_of(mean)}
    more, less = by_name["Flow of all heads"].changes
    assert [more.share, less.share] == pytest.approx([0.1, -0.1])
    wider = {each.name: each for each in sensitivities_of(wasted)}["Throw of all heads"]
    assert wider.changes[0].change > 0


def test_a_head_has_a_rate_on_its_own_ground() -> None:
    """1.2 gpm on half a circle of 10 ft: 96.25 × 1.2 ÷ 157.08 sq ft."""
    head = replace(next(iter(CORNER.heads.values())), flow_gpm=1.2, radius_ft=10.0, sweep_deg=180.0)
    (made,) = head_workings(head)
    assert anew(made) == pytest.approx(96.25 * 1.2 / 157.0796, rel=1e-5)
    assert made.value == "0.74 in/h"
    arc = next(each for each in sensitivities_of(made) if each.name == "Arc")
    assert arc.changes[0].share == pytest.approx(1 / 1.1 - 1)
    assert head_workings(replace(head, flow_gpm=None)) == ()


def test_the_night_begins_earlier_the_longer_its_program_is(plan: Plan) -> None:
    """The start by its length, told as a time of the day; none where it does not decide on it."""
    runs = [each for each in plan.programs if each.starts is not None]
    assert runs
    for run in runs:
        made, starts = night_working(run), run.starts
        assert starts is not None
        if run.shortfall_minutes:
            assert made.reckoning is None
            continue
        assert made.reckoning is not None
        assert figure_told(made.reckoning, anew(made)) == f"{starts:%H:%M}" == made.value
        (length,) = sensitivities_of(made)
        assert [each.change for each in length.changes] == pytest.approx(
            [-run.elapsed_minutes / 10, run.elapsed_minutes / 10]
        )
        assert all(each.share is None for each in length.changes)
        cut = night_working(replace(run, shortfall_minutes=10))
        assert cut.reckoning is None


def test_rain_that_counted() -> None:
    """Fallen less what was lost, and the days it moved."""
    (made,) = rain_workings(RainCredit(fallen_in=0.5, counted_in=0.42, days_moved=1))
    assert anew(made) == pytest.approx(0.42)
    assert made.inputs[-1].value == "1 day"
    assert rain_workings(None) == ()


def test_every_month_that_is_watered_has_its_workings(plan: Plan) -> None:
    """Of the day's own month the same figures as the day's."""
    for zone in plan.zones:
        assert len(zone.workings_by_month) == 12
        for month, made in zip(zone.months, zone.workings_by_month, strict=True):
            told = {each.figure: each for each in made}
            if month.depth_in is not None:
                assert anew(told["depth_in"]) == pytest.approx(month.depth_in)
    zone = plan.zones[0]
    june = {each.figure: each.value for each in zone.workings_by_month[5]}
    today = {each.figure: each.value for each in zone.workings}
    assert june["etc_in_per_day"] == today["etc_in_per_day"]


def test_where_an_input_came_from_names_its_record(plan: Plan) -> None:
    """The plug, the catch test and what was typed, each by name."""
    told = {
        each.name: each.origin
        for zone in plan.zones[:1]
        for working in zone.workings
        for each in working.inputs
    }
    assert told["Precipitation rate"] == "catch test of 25 Apr 2026"
    assert told["DU_LQ"].startswith("catch test of 25 Apr 2026, ")
    assert told["Root depth"].startswith(("plug of ", "mean of the plugs of "))
    assert " at " in told["Root depth"]
    assert told["Allowed depletion"] == "typed in the zone"
    vague = {"entered", "worked out", "recorded"}
    assert not [name for name, origin in told.items() if origin in vague]


def test_a_spreader_and_a_sprayer_are_told_by_their_runs() -> None:
    """By the functions that calibrate them, each input naming its run."""
    spread = SpreaderRun(
        id="s", date=ON, product="p", spreader="Broad", setting="5", strip_ft=50.0, width_ft=8.0,
        used_lb=1.2,
    )  # fmt: skip
    (rate,) = spreader_run_workings(spread)
    assert anew(rate) == pytest.approx(spreader_rate_lb_per_1000(1.2, 50.0, 8.0))
    assert rate.inputs[0].origin == "run of Broad, 15 Jun 2026"
    spray = SprayerRun(
        id="t", date=ON, sprayer="Pump", area_sqft=200.0, used_gal=1.0, tank_gal=10.0
    )
    (covers,) = sprayer_run_workings(spray)
    # Colorado State University, fact sheet 204: 1 gal on 200 sq ft, a 10 gal tank covers 2,000.
    assert covers.value == "2,000 sq ft"
    assert anew(covers) == pytest.approx(2000.0)
