"""The sketch as marks: to scale, numbered, its labels on free places."""

import importlib
import math
from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from lawnbook.charts.marks import (
    Disc,
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Words,
    diagonals,
    shortened,
    told_apart,
)
from lawnbook.charts.sketch_marks import EMPTY, sketch_marks
from lawnbook.plan.make import make_plan
from lawnbook.reading import Reading, reading_as
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, Head, Spot, Zone
from tests.plan_fixture import ON, square, yard_of

FRAME = Frame(300, 220)
shapes = importlib.import_module("shapely.geometry")


def sketch(notebook: Notebook, frame: Frame = FRAME) -> Picture:
    """The sketch with its plan."""
    return sketch_marks(notebook, make_plan(notebook, ON), frame=frame)


def of_fill(picture: Picture, fill: str) -> list[Polygon]:
    """Polygons of one fill."""
    return [m for m in picture.marks if isinstance(m, Polygon) and m.fill == fill]


def test_zones_are_to_scale_and_right_side_up() -> None:
    """Areas keep their ratio, the scale bar its feet, and north is up."""
    notebook = yard_of(2)
    second = replace(notebook.zones["zone1"], outline_ft=square(46, 0, 20))
    notebook = replace(notebook, zones={**notebook.zones, "zone1": second})
    picture = sketch(notebook)
    one, two = (shapes.Polygon(m.rings[0]) for m in of_fill(picture, "turf"))
    assert one.area / two.area == pytest.approx(4.0)
    bar = next(m for m in picture.marks if isinstance(m, Polyline) and m.width == 1.0)
    length = bar.lines[0][1][0] - bar.lines[0][0][0]
    told = next(w for w in picture.words() if w.endswith(" ft"))
    assert length / float(told.split()[0]) == pytest.approx(math.sqrt(one.area) / 40)
    house = next(m for m in picture.marks if isinstance(m, Polygon) and m.fill == "paper")
    assert max(y for _, y in house.rings[0]) < one.bounds[1]


def test_hole_is_cut_by_running_the_other_way() -> None:
    """Outline and hole turn against each other, whichever way they were drawn."""

    def turn(ring: tuple[tuple[float, float], ...]) -> float:
        pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
        return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs)

    for hole in (square(10, -10, 10), tuple(reversed(square(10, -10, 10)))):
        notebook = yard_of(1)
        zone = replace(notebook.zones["zone0"], holes_ft=(hole,))
        rings = of_fill(sketch(replace(notebook, zones={"zone0": zone})), "turf")[0].rings
        assert turn(rings[0]) > 0 > turn(rings[1])


def test_tree_in_the_turf_is_no_black_ring() -> None:
    """A dashed ring in the tone of leaves in place of the hole's edge; a wide bed keeps its own."""
    notebook, tree = yard_of(1), square(14, -14, 6)
    feature = Feature(id="oak", kind="tree", name="oak", outline_ft=tree)
    for hole, edges in ((tree, 1), (square(10, -10, 14), 2)):
        zone = replace(notebook.zones["zone0"], holes_ft=(hole,))
        book = replace(notebook, zones={"zone0": zone}, features={"oak": feature})
        polygons = [m for m in sketch(book).marks if isinstance(m, Polygon)]
        turf = next(each for each in polygons if each.edge == "ink")
        assert len(turf.rings) == edges
        (ring,) = (each for each in polygons if each.edge == "verdure")
        assert ring.dash
        assert ring.width < turf.width


def number_of(picture: Picture, text: str) -> Words:
    """The words of a zone's number."""
    return next(m for m in picture.marks if isinstance(m, Words) and m.text == text)


@pytest.mark.parametrize("zones", [1, 3, 8, 40])
def test_every_zone_has_its_number_inside(zones: int) -> None:
    """Each number lies in its own zone, however many there are."""
    picture = sketch(yard_of(zones))
    for index, mark in enumerate(of_fill(picture, "turf")):
        word = number_of(picture, str(index + 1))
        assert shapes.Polygon(mark.rings[0]).contains(shapes.Point(word.at))


def test_number_keeps_off_the_spot() -> None:
    """A spot in the very middle of a zone is not hidden under the number."""
    notebook = yard_of(1)
    spot = replace(notebook.spots["spot0"], at_ft=(20.0, -20.0))
    picture = sketch(replace(notebook, spots={"spot0": spot}))
    dots = [m for m in picture.marks if isinstance(m, Disc) and m.fill == "ink"]
    rings = [m for m in picture.marks if isinstance(m, Disc) and m.radius > 5]
    assert math.dist(dots[0].at, rings[0].at) > rings[0].radius + dots[0].radius


@pytest.mark.parametrize("frame", [Frame(294, 160), Frame(294, 60), Frame(120, 200)])
@pytest.mark.parametrize("columns", [40, 8])
def test_numbers_never_cover_each_other(columns: int, frame: Frame) -> None:
    """Small zones far from a large one: what would collide is left out, and the foot counts it."""
    book = yard_of(1)
    first = book.zones["zone0"]
    small = {
        f"s{n}": replace(
            first,
            id=f"s{n}",
            rank=n + 1,
            name=f"Small {n}",
            outline_ft=square(25 * (n % columns), 300 + 25 * (n // columns), 20),
        )
        for n in range(40)
    }
    picture = sketch(replace(book, zones={**book.zones, **small}), frame)
    words = [m for m in picture.marks if isinstance(m, Words)]
    shown = [m for m in words if m.text.isdigit()]
    (told,) = [m.text for m in words if m.text.endswith("left out")]
    assert told == f"{41 - len(shown)} numbers left out"
    assert "1" in [m.text for m in shown]
    assert min(m.size for m in words) >= 8
    # A digit of Inter is 0.62 em wide and 0.73 em high (measured on the font).
    for one, other in combinations(shown, 2):
        room = 0.31 * (len(one.text) * one.size + len(other.text) * other.size)
        apart = abs(one.at[1] - other.at[1]) > 0.73 * max(one.size, other.size)
        assert apart or abs(one.at[0] - other.at[0]) > room


def test_unnumbered_sketch() -> None:
    """Without numbers no zone's number is written."""
    notebook = yard_of(2)
    plain = sketch_marks(notebook, make_plan(notebook, ON), numbered=False, frame=FRAME)
    assert "1" not in plain.words()
    assert "1" in sketch(notebook).words()


def test_everything_stays_in_the_frame() -> None:
    """Outlines and words lie inside, for wide and tall frames."""
    for frame in (FRAME, Frame(500, 120), Frame(160, 400)):
        for mark in sketch(yard_of(6), frame).marks:
            for x, y in _points(mark):
                assert -0.5 <= x <= frame.width + 0.5
                assert -0.5 <= y <= frame.height + 0.5


def _points(mark: Mark) -> list[tuple[float, float]]:
    match mark:
        case Polygon(rings=rings):
            return [point for ring in rings for point in ring]
        case Disc(at=at) | Words(at=at):
            return [at]
        case _:
            return []


def test_arrow_turns_with_north() -> None:
    """With north to the right of the page the arrow's tip lies right of its tail."""
    notebook = yard_of(1)
    notebook = replace(notebook, yard=replace(notebook.yard, north_deg=90.0))
    arrow = [m for m in sketch(notebook).marks if isinstance(m, Polygon) and m.fill == "ink"][-1]
    tip, tail = arrow.rings[0][0], arrow.rings[0][1]
    assert tip[0] > tail[0] + 3
    assert tip[1] == pytest.approx(tail[1])


def test_head_waters_into_its_zone() -> None:
    """A head at the upper left corner sweeping from east to south reaches into the square."""
    picture = sketch(yard_of(1))
    arc = next(m for m in picture.marks if isinstance(m, Polyline) and m.alpha == 0.5).lines[0]
    lawn = shapes.Polygon(of_fill(picture, "turf")[0].rings[0])
    assert all(lawn.buffer(0.01).contains(shapes.Point(point)) for point in arc)


def test_empty_yard_says_so() -> None:
    """Nothing drawn yet: a sentence."""
    assert sketch(yard_of(0)).words() == (EMPTY,)


def test_zone_without_area_does_not_fail() -> None:
    """A zone squeezed to a line (a file may hold it for a moment) still makes a picture."""
    flat = Zone(id="z", name="Line", outline_ft=((0, 0), (10, 0), (5, 0.001)))
    assert sketch(replace(yard_of(0), zones={"z": flat})).marks


def test_hatching_stays_in_its_box() -> None:
    """Diagonals of a box end on its sides, evenly apart, none missing at either end."""
    lines = diagonals(10, 20, 40, 35, gap=3)
    assert len(lines) == pytest.approx((30 + 15) / 3, abs=1)
    for (ax, ay), (bx, by) in lines:
        assert 10 - 1e-9 <= ax <= bx <= 40 + 1e-9
        assert 20 - 1e-9 <= by <= ay <= 35 + 1e-9
        assert bx - ax == pytest.approx(ay - by)
    feet = [ax + ay for (ax, ay), _ in lines]
    assert all(other - one == pytest.approx(3) for one, other in pairwise(feet))


def test_labels_of_spots_keep_apart() -> None:
    """Spots a few feet apart: what is written does not overlap, what cannot be is left out."""
    notebook = yard_of(1)
    first = notebook.spots["spot0"]
    spots = {
        f"s{n}": replace(first, id=f"s{n}", name=f"marker {n}", at_ft=(4.0 + 3 * n, -20.0))
        for n in range(12)
    }
    picture = sketch(replace(notebook, spots=spots))
    words = [m for m in picture.marks if isinstance(m, Words) and m.text.startswith("marker")]
    assert 2 <= len(words) <= 12
    boxes = []
    for word in words:
        width = 4.4 * len(word.text)
        left = word.at[0] - {"left": 0, "center": 0.5, "right": 1}[word.align] * width
        boxes.append((left, word.at[1] - 6, left + width, word.at[1] + 1))
    for one, other in combinations(boxes, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        along = min(one[3], other[3]) - max(one[1], other[1])
        assert across <= 0 or along <= 0


@pytest.mark.parametrize(
    ("text", "most", "told"),
    [
        ("peg by the letterbox", 20, "peg by the letterbox"),
        ("peg by the letterbox", 18, "peg by the…"),
        ("peg by the letterbox", 11, "peg by the…"),
        ("peg by the letterbox", 10, "peg by…"),
        ("1 Hinterlandmeadow", 10, "1 Hinterl…"),
        ("one, two", 6, "one…"),
        ("letterbox", 1, "…"),
    ],
)
def test_text_is_shortened_between_words(text: str, most: int, told: str) -> None:
    """Within a word only where the rest would be less than half of what finds room."""
    assert shortened(text, lambda short: len(short) <= most) == told


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (("Front", "Back"), ("Front", "Back")),
        (("Front lawn by the road", "Back"), ("Front lawn by…", "Back")),
        (
            ("Zone with long name 1", "Zone with long name 22", "Side"),
            ("Zone with…1", "Zone with…22", "Side"),
        ),
        (("Zone with long name", "Zone with long name b"), ("Zone with…name", "Zone…name b")),
        (
            ("Zone with long name a1", "Zone with long name a2", "Zone with long hedge"),
            ("Zone…name a1", "Zone…name a2", "Zone with…hedge"),
        ),
        (
            ("Hinterlandmeadowside1", "Hinterlandmeadowside2"),
            ("Hinterland…ide1", "Hinterland…ide2"),
        ),
        (
            ("Zone with long " + "a" * 20, "Zone with long " + "b" * 20),
            ("Zon…" + "a" * 10 + "…", "Zon…" + "b" * 10 + "…"),
        ),
        (("Zone with long name", "Zone with long name"), ("Zone with long…",) * 2),
    ],
)
def test_names_stay_told_apart(names: tuple[str, ...], told: tuple[str, ...]) -> None:
    """Cut in the middle where cut ends would be alike; equal names cannot be told apart."""
    assert told_apart(names, [lambda text: len(text) <= 15] * len(names)) == told


def test_name_of_a_spot_is_whole_where_it_finds_room() -> None:
    """Beside its dot in the middle of a wide lawn; shortened where the frame is narrow."""
    book = yard_of(1)
    book = replace(book, spots={"spot0": replace(book.spots["spot0"], name="peg by the letterbox")})
    plan = make_plan(book, ON)
    assert "peg by the letterbox" in sketch_marks(book, plan, frame=Frame(400, 300)).words()
    assert "peg by the…" in sketch_marks(book, plan, frame=Frame(100, 100)).words()


@pytest.mark.parametrize("long", [1, 2, 3, 8])
def test_the_key_keeps_its_words_apart_in_longer_languages(long: int) -> None:
    """The next sign begins after the words before it, or is left out for lack of room."""
    notebook = yard_of(1)
    head = Head(id="head", zone="zone0", at_ft=(10.0, 10.0))
    spot = Spot(id="mark", zone="zone0", name="mark", at_ft=(20.0, 20.0))
    notebook = replace(notebook, heads={"head": head}, spots={"mark": spot})
    told = {each: " ".join([each] * long) for each in ("plug spot", "head")}
    with reading_as(Reading(words=told)):
        picture = sketch(notebook, Frame(320, 220))
    named = [m for m in picture.marks if isinstance(m, Words) and m.text in told.values()]
    assert len(named) == (2 if long < 3 else 1 if long == 3 else 0)
    for before, after in pairwise(named):
        # Inter's letters are 0.56 em on average.
        assert after.at[0] - 8 > before.at[0] + 0.56 * 8.5 * len(before.text) - 4
    if named:
        assert named[-1].at[0] + 0.56 * 8.5 * len(named[-1].text) < 320 - 26
