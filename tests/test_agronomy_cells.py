"""Cells over a yard: they cover what they should, and each knows how much of it is inside."""

import importlib
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.cells import grid_over, inside_cells, inside_shares
from tests.strategies import holes_of, outlines

shapely = importlib.import_module("shapely")


@given(
    st.tuples(st.floats(-500, 500), st.floats(-500, 500)),
    st.tuples(st.floats(0, 200), st.floats(0, 200)),
    st.floats(0.5, 30),
)
def test_cells_cover_the_box_and_little_more(
    corner: tuple[float, float], size: tuple[float, float], step_ft: float
) -> None:
    """Lines are whole multiples of the step, so that cells of two boxes are the same cells."""
    (x, y), (width, height) = corner, size
    grid = grid_over((x, y, x + width, y + height), step_ft)
    west, south, east, north = grid.bounds_ft
    slack = 1e-6
    assert x - step_ft - slack <= west <= x + slack
    assert y - step_ft - slack <= south <= y + slack
    assert x + width - slack <= east <= x + width + 2 * step_ft + slack
    assert y + height - slack <= north <= y + height + 2 * step_ft + slack
    assert west / step_ft == pytest.approx(round(west / step_ft), abs=1e-6)
    assert (len(grid.xs), len(grid.ys)) == (grid.columns, grid.rows)
    assert np.allclose(np.diff(grid.x_lines), step_ft)


@pytest.mark.parametrize("bounds", [(0, 0, -1, 5), (0, 5, 1, 0), (0, 0, math.inf, 1)])
def test_no_box_no_cells(bounds: tuple[float, float, float, float]) -> None:
    with pytest.raises(ValueError, match="bounds_ft"):
        grid_over(bounds, 1.0)
    with pytest.raises(ValueError, match="step_ft"):
        grid_over((0.0, 0.0, 1.0, 1.0), 0.0)


@settings(deadline=None, max_examples=25)
@given(st.data())
def test_shares_and_middles_against_polygon_clipping(data: st.DataObject) -> None:
    """Each cell clipped by the shapely library, outlines either way round, holes taken out."""
    outline = data.draw(outlines())
    holes = data.draw(holes_of(outline))
    ring = outline[::-1] if data.draw(st.booleans()) else outline
    ground = shapely.Polygon(outline, holes)
    west, south, east, north = ground.bounds
    # A box that cuts through the shape: what lies beyond it must not leak in.
    grid = grid_over((west + (east - west) / 4, south - 3, east + 5, (south + north) / 2), 31.0)
    inside = inside_cells(ring, holes, grid)
    for row in range(grid.rows):
        for column in range(grid.columns):
            cell = shapely.box(
                grid.x_lines[column],
                grid.y_lines[row],
                grid.x_lines[column + 1],
                grid.y_lines[row + 1],
            )
            part = ground.intersection(cell)
            share = float(inside.shares[row, column])
            assert share == pytest.approx(part.area / grid.cell_sqft, abs=1e-8)
            if share > 1e-4:
                middle = float(inside.xs[row, column]), float(inside.ys[row, column])
                assert middle == pytest.approx((part.centroid.x, part.centroid.y), abs=1e-3)


@settings(deadline=None, max_examples=50)
@given(st.data(), st.floats(3, 90))
def test_shares_add_up_to_the_area(data: st.DataObject, step_ft: float) -> None:
    outline = data.draw(outlines())
    holes = data.draw(holes_of(outline))
    ground = shapely.Polygon(outline, holes)
    grid = grid_over(ground.bounds, step_ft)
    shares = inside_shares(outline, holes, grid)
    assert float(shares.sum()) * grid.cell_sqft == pytest.approx(ground.area, rel=1e-7)
    assert float(shares.min()) >= 0.0
    assert float(shares.max()) <= 1.0


def test_too_few_corners_hold_nothing() -> None:
    grid = grid_over((0.0, 0.0, 3.0, 3.0), 1.0)
    assert not inside_shares(((0.0, 0.0), (3.0, 3.0)), (), grid).any()
