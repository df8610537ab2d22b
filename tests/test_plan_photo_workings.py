"""How a photograph's readings and the place of the next plug came about."""

import math
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.photo_scale import read_plug
from lawnbook.plan.arithmetic import worked_out
from lawnbook.plan.make import make_plan
from lawnbook.plan.photo_workings import photo_workings, workings_of_mark
from lawnbook.plan.place_workings import place_workings
from lawnbook.plan.plug_places import next_place
from lawnbook.plan.sensitivity import numbers_of, reckoned, sensitivities_of
from lawnbook.plan.working_model import Working
from lawnbook.reading import Reading, reading_here
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.record_plug import PhotoRuler
from tests.desk_sample import samples

ON = date(2026, 6, 15)
SIZE = (800, 1000)
RULER = PhotoRuler(
    known_in=4.0,
    scale=((0.1, 0.1), (0.1, 0.9)),
    crowns=((0.3, 0.2), (0.7, 0.2)),
    thatch_ends=((0.4, 0.4), (0.6, 0.36)),
    roots_end=(0.5, 0.8),
)
"""800 pixels are 4 in; the crowns lie level, thatch ends 200 and 160 pixels below, roots 600."""


def of(figure: str, workings: Iterable[Working]) -> Working:
    """The working whose figure's key begins so."""
    return next(each for each in workings if each.figure.startswith(figure))


def base(working: Working) -> float:
    """The figure reckoned anew from its own numbers."""
    assert working.reckoning is not None
    return reckoned(working.reckoning, numbers_of(working))


def test_scale_and_readings_follow_from_pixels() -> None:
    """200 pixels an inch: 200 pixels below the crowns are an inch of thatch."""
    told = photo_workings(RULER, SIZE)
    assert of("photo_scale", told).value == "200 px/in"
    assert base(of("photo_scale_spread", told)) == pytest.approx(100 * math.sqrt(2) / 800)
    assert [base(of(f"photo_thatch:{n}", told)) for n in (0, 1)] == pytest.approx([1.0, 0.8])
    assert base(of("photo_thatch_mean", told)) == pytest.approx(0.9)
    assert base(of("photo_thatch_spread", told)) == pytest.approx(math.sqrt(0.02))
    assert base(of("photo_roots", told)) == pytest.approx(3.0)
    with reading_here(Reading(units="metric")):
        assert of("photo_scale", photo_workings(RULER, SIZE)).value == "78.7 px/cm"


SHARES = st.tuples(st.floats(0.05, 0.95), st.floats(0.3, 0.95))


@settings(max_examples=40, deadline=None)
@given(ends=st.lists(SHARES, max_size=4), roots=st.none() | SHARES, tilt=st.floats(-0.1, 0.1))
def test_how_fine_is_what_the_reading_of_the_plug_says(
    ends: list[tuple[float, float]], roots: tuple[float, float] | None, tilt: float
) -> None:
    """However the marks lie: the worst of them, rounded up to hundredths of an inch."""
    crowns = ((0.2, 0.1), (0.8, 0.1 + tilt))
    ruler = replace(RULER, crowns=crowns, thatch_ends=tuple(ends), roots_end=roots)
    fine = of("photo_resolution", photo_workings(ruler, SIZE))
    up = max(0.01, math.ceil(base(fine) * 100 - 1e-4) / 100)
    assert up == pytest.approx(read_plug(ruler, *SIZE).resolution_in)
    assert worked_out(fine.filled) == pytest.approx(base(fine), rel=1e-3)


def test_without_crowns_only_the_scale_is_told() -> None:
    """And how fine the picture could be read at best."""
    bare = replace(RULER, crowns=None, thatch_ends=(), roots_end=None)
    told = photo_workings(bare, SIZE)
    assert [each.figure for each in told] == [
        "photo_scale",
        "photo_scale_spread",
        "photo_resolution",
    ]
    assert base(told[2]) <= read_plug(bare, *SIZE).resolution_in
    assert photo_workings(None, SIZE) == ()
    assert photo_workings(replace(RULER, crowns=None), SIZE) == ()


def test_a_mark_opens_its_own_reading() -> None:
    """The scale's ends the scale, a thatch end its depth; the crowns are part of all."""
    told = photo_workings(RULER, SIZE)
    assert [each.figure for each in workings_of_mark(told, "thatch_1")] == ["photo_thatch:1"]
    assert [each.figure for each in workings_of_mark(told, "roots")] == ["photo_roots"]
    assert len(workings_of_mark(told, "scale_0")) == 2
    assert workings_of_mark(told, "crowns_0") == told
    assert workings_of_mark(told, "") == told


def test_a_longer_scale_makes_every_depth_less() -> None:
    """What would change a reading most is the scale."""
    scale, *_ = sensitivities_of(of("photo_thatch:0", photo_workings(RULER, SIZE)))
    assert scale.name == "Scale"
    more, less = scale.changes
    assert [more.raw, less.raw] == pytest.approx([1 / 1.1, 1 / 0.9])


def test_the_place_of_the_next_plug_and_how_far_it_lies_from_old_holes() -> None:
    """For every spot of every sample: the way, and the distances that the words tell."""
    seen = set()
    for notebook in samples().values():
        for spot_id in notebook.spots:
            place, told = next_place(notebook, spot_id, ON), place_workings(notebook, spot_id, ON)
            assert bool(told) == (place is not None)
            if place is None:
                continue
            assert base(of("plug_way", told)) == 30.0 * place.clock
            seen |= {each.figure.split(":")[0] for each in told}
            for each in told:
                if each.figure.startswith("plug_from_last"):
                    assert f"{each.value} from the last hole" in place.words
                if each.figure.startswith("plug_from_nearest"):
                    assert base(each) == place.nearest_old_in
    assert seen == {"plug_way", "plug_from_last", "plug_from_nearest"}


def test_another_hour_of_the_last_plug_leads_to_another_place() -> None:
    """The place is sought anew, as it would be with that hole in the notebook."""
    notebook = samples()["larkspur_corner"]
    spot_id = next(iter(notebook.spots))
    way = of("plug_way", place_workings(notebook, spot_id, ON))
    (last,) = (each for each in sensitivities_of(way) if each.name == "Hour of the last plug")
    own = [c for c in notebook.cores.values() if c.spot == spot_id and c.clock and c.date <= ON]
    core = max(own, key=lambda each: each.date)
    assert core.clock is not None
    for change, hour in zip(last.changes, (core.clock + 1, core.clock - 1), strict=True):
        moved = apply(notebook, put(notebook, "cores", replace(core, clock=(hour - 1) % 12 + 1)))
        place = next_place(moved, spot_id, ON)
        assert place is not None
        assert change.raw == 30.0 * place.clock


def test_the_width_of_a_trends_interval_follows_its_plugs() -> None:
    """Upper less lower end, found anew from changed plugs by the trend's own method."""
    for notebook in samples().values():
        plan = make_plan(notebook, ON)
        assert plan.yard_thatch is not None
        evidence = plan.yard_thatch.evidence
        assert evidence.ci95 is not None
        low, high = evidence.ci95
        width = of("slope_ci95", evidence.workings)
        assert base(width) == pytest.approx(high - low)
        assert worked_out(width.filled) == pytest.approx(high - low, abs=1e-4)
        assert any(each.size > 0 for each in sensitivities_of(width))
