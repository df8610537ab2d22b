"""What the cans of a catch test show: clogged heads, the map that does not fit, enough cans."""

from dataclasses import replace

import pytest

from lawnbook.desk.pages.cans_figures import (
    Can,
    Reading,
    bare_cans,
    figures_of,
    map_rates,
    nearest_head,
)
from lawnbook.desk.pages.cans_words import clogged_words, enough_words, rate_words
from lawnbook.plan.coverage import rates_at
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import apply, put
from tests.cans_book import (
    PLACES,
    with_heads,
)
from tests.page_book import (
    page_notebook,
)


def test_only_the_zone_s_own_heads_run_in_a_test() -> None:
    notebook = with_heads(page_notebook())
    own = map_rates(notebook, "front", [(38.0, 5.0)])
    assert own == rates_at(notebook, [(38.0, 5.0)], "front")
    reaching = replace(notebook.heads["h1"], at_ft=(45.0, 5.0))
    nearer = apply(notebook, put(notebook, "heads", reaching))
    assert map_rates(nearer, "front", [(38.0, 5.0)]) == own
    assert rates_at(nearer, [(38.0, 5.0)])[0] > (own[0] or 0)


READING = Reading(run_minutes=60)
"""Inches in an hour are inches an hour."""


@pytest.mark.parametrize(
    ("caught", "maps", "clogged", "misfit"),
    [
        ([0.5, 0.5, 0.5, 0.2, 0.5, 0.5], [0.5] * 6, [4], False),
        ([0.25, 0.25, 0.25, 0.1, 0.25, 0.25], [0.5] * 6, [4], False),
        ([0.5, 0.5, 0.5, 0.31, 0.5, 0.5], [0.5] * 6, [], False),
        ([0.5, 0.1, 0.5, 0.1, 0.5, 0.1], [0.5] * 6, [], True),
        ([0.5, 0.5, 0.5, 0.1, 0.5, 0.1, 0.5, 0.5], [0.5] * 8, [4, 6], False),
        ([0.5, 0.1, 0.5], [0.5] * 3, [], False),
        ([0.5, 0.5, 0.5, 0.5, 0.0], [0.5, 0.5, 0.5, 0.5, 0.02], [], False),
        ([0.5, 0.5, 0.5, 0.1], [0.5, 0.5, 0.5, None], [], False),
    ],
    ids=[
        "one low",
        "one low among low",
        "just not",
        "as many low as not",
        "two low",
        "too few",
        "at the map's edge",
        "no map there",
    ],
)
def test_a_can_far_below_its_fellows_is_told_apart(
    caught: list[float], maps: list[float | None], clogged: list[int], misfit: bool
) -> None:
    places: tuple[Point, ...] = tuple((float(k), 0.0) for k in range(len(caught)))
    told = figures_of(bare_cans(caught, places, maps), READING)
    assert told is not None
    assert [can.number for can in told.cans if can.clogged] == clogged
    assert told.misfit is misfit


def test_a_map_that_fits_no_can_is_said_to_be_wrong() -> None:
    notebook = with_heads(page_notebook())
    told = figures_of(bare_cans([0.5, 0.1, 0.5, 0.1, 0.5, 0.1], PLACES, [0.5] * 6), READING)
    assert told is not None
    assert clogged_words(notebook, "front", told).startswith("Many cans are far from")


@pytest.mark.parametrize(
    ("at_ft", "north_deg", "expected"),
    [
        ((3.0, 0.0), 0.0, (3.0, "west")),
        ((3.0, 3.0), 0.0, (18**0.5, "southwest")),
        ((0.0, 8.0), 0.0, (8.0, "south")),
        ((40.0, 20.0), 0.0, (5.0, "north")),
        ((37.0, 22.0), 0.0, (18**0.5, "northeast")),
        ((0.0, 8.0), 90.0, (8.0, "east")),
        ((3.0, 0.0), -90.0, (3.0, "north")),
    ],
)
def test_the_nearest_head_is_named_by_the_compass(
    at_ft: Point, north_deg: float, expected: tuple[float, str]
) -> None:
    """`north_deg` is clockwise from the top of the page: at 90 north is to the right."""
    notebook = with_heads(page_notebook())
    turned = replace(notebook, yard=replace(notebook.yard, north_deg=north_deg))
    found = nearest_head(turned, "front", at_ft)
    assert found is not None
    assert found[0] == pytest.approx(expected[0])
    assert found[1] == expected[1]
    assert nearest_head(turned, "nowhere", at_ft) is None


def test_enough_cans_are_said_to_be_enough() -> None:
    even = figures_of(bare_cans([0.5, 0.5, 0.51, 0.49], (), ()), READING)
    uneven = figures_of(bare_cans([0.2, 0.8, 0.5, 0.4], (), ()), READING)
    assert even is not None
    assert uneven is not None
    assert enough_words(even) == "Rate within 10 %: 4 cans are enough here (90 % confidence)."
    assert enough_words(uneven).startswith("Rate within 10 %: it would take ")
    assert uneven.enough is not None
    assert uneven.enough > 4
    assert rate_words(even).startswith("4 cans: 0.50 in/h, between 0.49 and 0.51")


def test_blank_cans_count_for_nothing() -> None:
    told = figures_of(bare_cans([0.4, None, 0.6], (), ()), READING)
    assert told is not None
    assert told.caught == 2
    assert told.in_per_h == pytest.approx(0.5)
    assert told.cans[1] == Can(number=2)
    assert figures_of(bare_cans([None, 0.0], (), ()), READING) is None
