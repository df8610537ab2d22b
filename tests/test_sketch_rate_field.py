"""The field of rates behind the sketch's map: conservation, renewal, its borders and pictures."""

from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtGui import QColor

from lawnbook.agronomy.precipitation import RATE_CONSTANT
from lawnbook.charts.palette import LIGHT
from lawnbook.desk.sketch.rate_field import (
    NICE,
    TOP_SHARE,
    Box,
    RateField,
    borders_for,
    mean_rate,
    twice_as_fine,
)
from lawnbook.desk.sketch.rate_items import image_of, steps_of
from lawnbook.desk.sketch.rate_scale import rate_colours
from lawnbook.desk.sketch.rate_words import wasted_share
from lawnbook.plan.coverage import coverage_of
from lawnbook.yard.geometry import bounds_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Head
from tests.sketch_hand import watered_yard

places = st.tuples(st.floats(-20, 50), st.floats(-20, 40))


@st.composite
def any_head(draw: st.DrawFn, name: str = "any") -> Head:
    return Head(
        id=name,
        zone="front",
        at_ft=draw(places),
        radius_ft=draw(st.floats(3.0, 25.0)),
        start_deg=draw(st.floats(-360, 360)),
        sweep_deg=draw(st.floats(20, 360)),
        flow_gpm=draw(st.floats(0.1, 10.0)),
        profile=draw(st.sampled_from([None, "cone", "flat", "doughnut", (1.0, 0.4, 0.8)])),
    )


def field_of(notebook: Notebook, heads: Mapping[str, Head]) -> RateField:
    field = RateField()
    field.lay(list(notebook.zones.values()), list(heads.values()), live=False)
    return field


@settings(max_examples=25)
@given(one=any_head(), other=any_head("other"))
def test_all_water_thrown_is_on_the_field(one: Head, other: Head) -> None:
    """Conservation: flow = rate × area ÷ 96.25 (gallon, foot and inch as defined)."""
    field = field_of(watered_yard(), {"any": one, "other": other})
    west, south, east, north = field.bounds_of(field.box)
    rates = field.rates_in(field.box)
    cell_sqft = (east - west) * (north - south) / rates.size
    flow = (one.flow_gpm or 0.0) + (other.flow_gpm or 0.0)
    assert rates.sum() * cell_sqft / RATE_CONSTANT == pytest.approx(flow, rel=1e-6)


@settings(max_examples=25)
@given(moved=any_head("h1"))
def test_a_moved_head_renews_the_field_as_if_it_were_laid_anew(moved: Head) -> None:
    notebook = watered_yard()
    zones, heads = list(notebook.zones.values()), dict(notebook.heads)
    field = field_of(notebook, heads)
    changed = field.lay(zones, list({**heads, "h1": moved}.values()), live=True)
    assert len(changed) == 2
    back = field.lay(zones, list(heads.values()), live=True)
    assert len(back) == 2
    anew = field_of(notebook, heads)
    assert field.box == anew.box
    np.testing.assert_allclose(field.rates_in(field.box), anew.rates_in(anew.box), atol=1e-12)
    assert field.lay(zones, list(heads.values()), live=True) == []


def test_the_field_gives_the_zone_the_mean_and_evenness_of_the_plan() -> None:
    notebook = watered_yard()
    zone = notebook.zones["front"]
    told = coverage_of(notebook, zone)
    assert told is not None
    field = field_of(notebook, notebook.heads)
    rates = field.rates_in(field.box_of(bounds_ft([zone.outline_ft])))
    assert mean_rate(rates, field.shares_of(zone)) == pytest.approx(told.mean_in_per_h, rel=0.005)
    heads = [head for head in notebook.heads.values() if head.zone == "front"]
    assert wasted_share(zone, heads) == pytest.approx(told.wasted_share, abs=1e-9)
    assert 0.05 < told.wasted_share < 0.5


def test_boxes_of_cells_meet_grow_and_cut() -> None:
    box = Box(0, 0, 4, 3)
    assert box.meets(Box(3, 2, 9, 9))
    assert not box.meets(Box(4, 0, 9, 3))
    assert box.grown(1) == Box(-1, -1, 5, 4)
    assert box.grown(1).within(box) == box


@settings(max_examples=50)
@given(st.lists(st.floats(0.001, 20.0), min_size=1, max_size=60))
def test_borders_are_round_and_reach_what_is_to_be_shown(rates: list[float]) -> None:
    borders = borders_for([np.array(rates)])
    between = borders[0]
    assert between in NICE
    assert borders == pytest.approx([between, 2 * between, 3 * between, 4 * between])
    top = float(np.quantile(np.array(rates), TOP_SHARE))
    assert top <= 4.5 * between or between == NICE[-1]
    if between > NICE[0]:
        assert top > 4.5 * NICE[NICE.index(between) - 1]
    assert borders_for([]) == borders_for([np.zeros(4)])


def test_finer_cells_keep_mean_and_straight_slopes() -> None:
    slope = np.add.outer(np.arange(6.0), 2.0 * np.arange(5.0))
    fine = twice_as_fine(slope)
    assert fine.shape == (12, 10)
    assert float(fine.mean()) == pytest.approx(float(slope.mean()), rel=1e-6)
    inner = fine[1:-1, 1:-1]
    np.testing.assert_allclose(np.diff(inner, axis=0), 0.5, atol=1e-5)
    np.testing.assert_allclose(np.diff(inner, axis=1), 1.0, atol=1e-5)


def test_a_picture_has_north_on_top_and_each_step_its_colour() -> None:
    rates = np.array([[0.0, 0.3], [0.5, 3.0]])
    steps = steps_of(rates, (0.4, 0.8, 1.2, 1.6))
    assert steps.tolist() == [[0, 1], [2, 5]]
    colours = rate_colours(LIGHT).inside
    image = image_of(steps, colours)
    assert image.pixelColor(0, 1).alpha() == 0
    for at, colour in (((1, 1), colours[1]), ((0, 0), colours[2]), ((1, 0), colours[5])):
        seen = image.pixelColor(*at)
        # Premultiplied pixels are rounded: a colour comes back to within a step or two.
        for part in (QColor.red, QColor.green, QColor.blue, QColor.alpha):
            assert abs(part(seen) - part(colour)) <= 2, at
