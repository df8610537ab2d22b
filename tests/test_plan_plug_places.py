"""Free places for plugs round a spot's mark, and what speaks against a spot's own place."""

import itertools
import math
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.plug_model import PlugPlace
from lawnbook.plan.plug_places import CLEAR_IN, hole_at, next_place, spot_concerns
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Core, Feature, FeatureKind, Head, Spot
from tests.plan_yards import core, spot, yard, zone

ON = date(2026, 6, 15)
MIDDLE: Point = (25.0, 10.0)
"""The middle of the plain zone of 50 by 20 ft."""


def holed(*clocks: int | None, at_ft: Point | None = MIDDLE, ring_in: float = 12.0) -> Notebook:
    """A yard whose spot has had a plug every half year at these hours."""
    return yard(spots=[spot(at_ft=at_ft)], cores=_plugs(*clocks, ring_in=ring_in))


def _plugs(*clocks: int | None, ring_in: float = 12.0) -> list[Core]:
    first = date(2010, 4, 1)
    return [
        core(first + timedelta(days=180 * n), 0.8, id=f"c{n}", clock=clock, ring_in=ring_in, rank=n)
        for n, clock in enumerate(clocks)
    ]


def feature(kind: FeatureKind, outline_ft: Outline) -> Feature:
    """A feature without a name."""
    return Feature(id="x1", kind=kind, outline_ft=outline_ft)


def place_of(book: Notebook, on: date = ON) -> PlugPlace:
    """The proposed place, which there is."""
    place = next_place(book, "s1", on)
    assert place is not None
    return place


@pytest.mark.parametrize(
    ("clock", "east_in", "north_in"),
    [(12, 0, 12), (3, 12, 0), (6, 0, -12), (9, -12, 0), (1, 6, 12 * math.sqrt(3) / 2)],
)
def test_a_clock_lies_on_the_sketch_with_twelve_up(
    clock: int, east_in: float, north_in: float
) -> None:
    x, y = hole_at(MIDDLE, clock, 12.0)
    assert ((x - 25) * 12, (y - 10) * 12) == pytest.approx((east_in, north_in), abs=1e-9)


def test_an_hour_that_no_clock_has_is_our_bug() -> None:
    with pytest.raises(ValueError, match="no hour 13"):
        hole_at(MIDDLE, 13, 12.0)


def test_neighbours_lie_as_far_apart_as_a_chord_of_thirty_degrees() -> None:
    """A chord is 2 r sin(half the angle): 6.2 in between hours, 12 in between every second."""
    twelve, one, two = (hole_at((0, 0), clock, 12.0) for clock in (12, 1, 2))
    assert 12 * math.dist(twelve, one) == pytest.approx(6.21, abs=0.005)
    assert 12 * math.dist(twelve, two) == pytest.approx(12.0)


def test_the_first_plug_goes_up_on_the_sketch() -> None:
    place = place_of(holed())
    assert (place.clock, place.ring_in, place.nearest_old_in) == (12, 12.0, None)
    assert place.at_ft == pytest.approx((25.0, 11.0))
    assert "12 o'clock, 12 in from the mark" in place.words


def test_a_spot_without_a_place_has_hours_too() -> None:
    place = place_of(holed(12, at_ft=None))
    assert (place.clock, place.at_ft) == (2, None)


def test_one_goes_round_clockwise_and_fills_the_gaps_before_the_second_ring() -> None:
    clocks: list[int | None] = []
    for _ in range(12):
        clocks.append(place_of(holed(*clocks)).clock)
    assert clocks[:6] == [12, 2, 4, 6, 8, 10]
    assert sorted(each for each in clocks if each) == list(range(1, 13))
    assert place_of(holed(*clocks)).ring_in == 24.0


@given(st.lists(st.tuples(st.integers(1, 12), st.sampled_from((8.0, 12.0, 24.0))), max_size=14))
def test_never_near_an_old_hole_while_both_rings_have_room(
    holes: list[tuple[int, float]],
) -> None:
    plugs = [
        core(ON - timedelta(days=400 - n), 0.8, id=f"c{n}", clock=clock, ring_in=ring, rank=n)
        for n, (clock, ring) in enumerate(holes)
    ]
    place = place_of(yard(spots=[spot(at_ft=MIDDLE)], cores=plugs))
    assert place.at_ft is not None
    away = [12 * math.dist(place.at_ft, hole_at(MIDDLE, c, r)) for c, r in holes]
    assert min(away, default=99.0) >= CLEAR_IN - 1e-6
    assert place.nearest_old_in == (pytest.approx(min(away)) if away else None)


def test_a_replicate_of_the_day_takes_its_own_place() -> None:
    book = holed()
    taken = []
    for n in range(3):
        taken.append(place_of(book).clock)
        plugs = [core(ON, 0.8, id=f"c{i}", clock=c) for i, c in enumerate(taken)]
        book = yard(spots=[spot(at_ft=MIDDLE)], cores=plugs)
        assert len(plugs) == n + 1
    assert len(set(taken)) == 3


def test_a_later_plug_is_not_known_yet() -> None:
    book = yard(spots=[spot(at_ft=MIDDLE)], cores=[core(date(2026, 9, 1), 0.8, clock=12)])
    assert place_of(book, ON).clock == 12
    assert place_of(book, date(2026, 9, 1)).clock == 2


def test_plugs_without_an_hour_are_told() -> None:
    assert "1 older plug has no clock position: look for its hole" in place_of(holed(None)).words
    assert "2 older plugs have no clock position" in place_of(holed(None, 3, None)).words


def test_full_rings_give_the_oldest_hole_healed_as_new_turf() -> None:
    inner, outer = _plugs(*range(1, 13)), _plugs(*range(1, 13), ring_in=24.0)
    later = [replace(c, id=f"o{c.id}", date=c.date + timedelta(days=3000)) for c in outer]
    place = place_of(yard(spots=[spot(at_ft=MIDDLE)], cores=[*inner, *later]))
    assert (place.clock, place.ring_in, place.nearest_old_in) == (1, 12.0, 0.0)
    assert "1 Apr 2010: it healed as new turf" in place.words


def test_a_place_lies_in_the_zone() -> None:
    """A foot from the north-west corner only hours between 3 and 6 o'clock lie in the zone."""
    place = place_of(holed(at_ft=(0.5, 19.5)))
    assert place.clock == 3
    second = place_of(holed(3, at_ft=(0.5, 19.5)))
    assert second.clock == 5


def test_a_place_lies_on_no_feature_nor_near_a_head_or_a_line() -> None:
    bed = feature("bed", rectangle_ft((20.0, 10.3), 10.0, 5.0))
    line = replace(feature("buried line", rectangle_ft((27.4, 0.0), 0.5, 12.0)), id="x2")
    head = Head(id="h1", zone="z1", at_ft=hole_at(MIDDLE, 7, 12.0))
    book = yard(spots=[spot(at_ft=MIDDLE)], features=[bed, line], heads=[head])
    assert place_of(book).clock == 9, "a bed up, a line to the right, and the head's pipe below"


def test_there_may_be_no_place_at_all() -> None:
    house = feature("house", rectangle_ft((15.0, 5.0), 20.0, 10.0))
    book = yard(spots=[spot(at_ft=MIDDLE)], features=[house])
    assert next_place(book, "s1", ON) is None
    assert next_place(book, "no such spot", ON) is None


def test_the_holes_of_a_spot_beside_count() -> None:
    """A comparison spot 2 ft to the north: its 6 o'clock is this one's 12."""
    beside = Spot(id="s2", name="strip", at_ft=(25.0, 12.0), zone="z1", comparison=True)
    plug = replace(core(date(2025, 4, 1), 0.8, clock=6), spot="s2")
    book = yard(spots=[spot(at_ft=MIDDLE), beside], cores=[plug])
    place = place_of(book)
    assert place.clock == 2
    assert place.nearest_old_in == pytest.approx(12.0)
    strip = next_place(book, "s2", ON)
    assert strip is not None
    assert strip.clock == 8


def test_a_fair_place_has_no_concern() -> None:
    assert spot_concerns(yard(), MIDDLE, "z1") == ()
    assert spot_concerns(yard(), MIDDLE, None) == ()


@pytest.mark.parametrize(
    ("at_ft", "words"),
    [
        ((1.5, 10.0), "1' 6\" from the edge of Front"),
        ((25.0, 17.5), "2' 6\" from the edge of Front"),
        ((60.0, 10.0), "outside of Front"),
    ],
)
def test_edges_are_told(at_ft: Point, words: str) -> None:
    concern = spot_concerns(yard(), at_ft, "z1")
    assert len(concern) == 1
    assert words in concern[0]


def test_no_zone_is_told() -> None:
    assert "outside of every zone" in spot_concerns(yard(), (60.0, 10.0), None)[0]


def test_the_edge_of_a_hole_is_an_edge() -> None:
    holed_zone = zone(holes_ft=(rectangle_ft((27.0, 8.0), 4.0, 4.0),))
    assert "2' from the edge" in spot_concerns(yard(holed_zone), MIDDLE, "z1")[0]


@pytest.mark.parametrize(("y", "there"), [(2.0, True), (1.0, False)])
def test_in_a_narrow_zone_the_middle_is_the_best(y: float, there: bool) -> None:
    strip = zone(outline_ft=rectangle_ft((0.0, 0.0), 60.0, 4.0))
    (words,) = spot_concerns(yard(strip), (30.0, y), "z1")
    assert "too narrow for 3 ft" in words
    assert "the middle is the best there is" in words
    assert ("it lies there" in words) is there


@pytest.mark.parametrize(
    ("kind", "x", "told"),
    [
        ("pet patch", 27.9, "It lies 2' 11\" from a pet patch"),
        ("pet patch", 28.1, ""),
        ("pet patch", 24.0, "It lies on a pet patch"),
        ("buried line", 26.9, "It lies 1' 11\" from a buried line"),
        ("buried line", 27.1, ""),
        ("buried line", 24.0, "It lies over a buried line"),
        ("bed", 24.0, "It lies on a bed, which is not turf"),
        ("bed", 26.0, ""),
    ],
)
def test_features_are_told_with_their_own_distances(kind: FeatureKind, x: float, told: str) -> None:
    book = yard(features=[feature(kind, rectangle_ft((x, 5.0), 2.0, 10.0))])
    concerns = spot_concerns(book, MIDDLE, "z1")
    assert len(concerns) == bool(told)
    assert all(words.startswith(told) for words in concerns)
    if kind == "buried line" and told:
        assert "811" in concerns[0]


@pytest.mark.parametrize(("away_ft", "told"), [(2.5, True), (3.5, False)])
def test_a_head_is_told(away_ft: float, told: bool) -> None:
    head = Head(id="h1", zone="z1", at_ft=(25.0, 10.0 + away_ft))
    concerns = spot_concerns(yard(heads=[head]), MIDDLE, "z1")
    assert ["2' 6\" away" in words for words in concerns] == [True] * told


def test_every_sentence_is_one() -> None:
    line = feature("buried line", rectangle_ft((25.5, 5.0), 0.5, 10.0))
    head = Head(id="h1", zone="z1", at_ft=(2.0, 10.0))
    book = yard(features=[line], heads=[head])
    concerns = [spot_concerns(book, at, "z1") for at in (MIDDLE, (1.0, 10.0), (99.0, 9.0))]
    told = list(itertools.chain(*concerns))
    assert len(told) == 4
    assert all(words.endswith((".", ").")) and "!" not in words for words in told)
