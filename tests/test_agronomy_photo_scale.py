"""Reading a plug from a photograph: scale, depths square to the crowns, and how fine."""

import math
from dataclasses import dataclass, replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.photo_scale import (
    COINS,
    PhotoReading,
    Share,
    foot_on_crowns,
    px_per_in,
    read_plug,
    too_thin_pct,
)
from lawnbook.agronomy.sources import SOURCES

SIZE_PX = (2000, 1500)
PX_PER_IN = 200.0


@dataclass(frozen=True)
class Marks:
    """Marks in shares of the picture, as a photo ruler holds them."""

    known_in: float = 1.0
    scale: tuple[Share, Share] = ((0.1, 0.1), (0.2, 0.1))
    crowns: tuple[Share, Share] | None = ((0.4, 0.2), (0.6, 0.2))
    thatch_ends: tuple[Share, ...] = ((0.45, 0.3), (0.55, 0.32))
    roots_end: Share | None = (0.5, 0.6)


def on(marks: Marks, size_px: tuple[int, int] = SIZE_PX) -> PhotoReading:
    """What the marks read on a picture of this size."""
    return read_plug(marks, *size_px)


def turned(share: Share, degrees: float, factor: float) -> Share:
    """A point after the picture was turned about its middle and made smaller, on square paper."""
    x, y = share[0] * SIZE_PX[0] - 1000, share[1] * SIZE_PX[1] - 750
    a = math.radians(degrees)
    turned_x, turned_y = x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a)
    return 0.5 + factor * turned_x / 3000, 0.5 + factor * turned_y / 3000


def all_turned(marks: Marks, degrees: float, factor: float) -> Marks:
    """Every mark turned; for a picture of 3,000 pixels square."""

    def one(share: Share) -> Share:
        return turned(share, degrees, factor)

    assert marks.crowns is not None
    return Marks(
        known_in=marks.known_in,
        scale=(one(marks.scale[0]), one(marks.scale[1])),
        crowns=(one(marks.crowns[0]), one(marks.crowns[1])),
        thatch_ends=tuple(one(each) for each in marks.thatch_ends),
        roots_end=None if marks.roots_end is None else one(marks.roots_end),
    )


def test_depths_are_pixels_over_the_scale() -> None:
    read = on(Marks())
    assert read.px_per_in == pytest.approx(PX_PER_IN)
    assert read.thatch_in == pytest.approx((0.1 * 1500 / 200, 0.12 * 1500 / 200))
    assert read.root_depth_in == pytest.approx(0.4 * 1500 / 200)


def test_depths_are_square_to_slanting_crowns() -> None:
    """A 3-4-5 triangle: crowns that fall 3 in 4; a mark 100 px straight below is 80 px off."""
    crowns = ((800 / 2000, 300 / 1500), (1200 / 2000, 600 / 1500))
    below = (1000 / 2000, 550 / 1500)
    read = on(Marks(crowns=crowns, thatch_ends=(below,), roots_end=None))
    assert read.thatch_in == pytest.approx((80 / 200,))
    assert read.root_depth_in is None


@given(
    degrees=st.floats(0, 360),
    factor=st.floats(0.3, 1.0),
    deep=st.lists(st.floats(0.22, 0.5), min_size=1, max_size=5),
)
def test_turning_and_reducing_a_picture_changes_no_reading(
    degrees: float, factor: float, deep: list[float]
) -> None:
    marks = Marks(thatch_ends=tuple((0.45, each) for each in deep))
    upright = on(marks)
    other = read_plug(all_turned(marks, degrees, factor), 3000, 3000)
    assert other.thatch_in == pytest.approx(upright.thatch_in)
    assert other.root_depth_in == pytest.approx(upright.root_depth_in)
    assert other.px_per_in == pytest.approx(upright.px_per_in * factor)
    assert other.resolution_in >= upright.resolution_in


@given(known_in=st.floats(0.1, 12), factor=st.floats(0.2, 4))
def test_readings_grow_with_the_known_distance(known_in: float, factor: float) -> None:
    once, more = on(Marks(known_in=known_in)), on(Marks(known_in=known_in * factor))
    assert more.thatch_in == pytest.approx(tuple(each * factor for each in once.thatch_in))


@pytest.mark.parametrize(
    ("end", "along_crowns"), [((0.5, 0.3), "between"), ((0.6, 0.5), "under an end")]
)
def test_the_resolution_is_what_pointing_a_pixel_off_comes_to(
    end: Share, along_crowns: str
) -> None:
    """Against a trial by chance: every mark a pixel off (normal, both ways), 20,000 times."""
    marks = Marks(thatch_ends=(end,), roots_end=None)
    chance = np.random.default_rng(7)
    points = np.array([*marks.scale, (0.4, 0.2), (0.6, 0.2), end]) * np.array(SIZE_PX)
    off = points + chance.normal(0, 1, (20_000, 5, 2))
    scale = np.hypot(*(off[:, 1] - off[:, 0]).T)
    along, across = off[:, 3] - off[:, 2], off[:, 4] - off[:, 2]
    beside = along[:, 0] * across[:, 1] - along[:, 1] * across[:, 0]
    depths = beside / np.hypot(*along.T) / scale
    wanted = math.sqrt(12) * float(depths.std())
    assert on(marks).resolution_in == pytest.approx(wanted, abs=0.011), along_crowns
    assert on(marks).resolution_in >= wanted - 0.001, "it is rounded up"


@pytest.mark.parametrize("shorter", [2, 5, 10])
def test_a_shorter_scale_reads_coarser(shorter: int) -> None:
    short = Marks(known_in=1 / shorter, scale=((0.1, 0.1), (0.1 + 0.1 / shorter, 0.1)))
    assert on(short).px_per_in == pytest.approx(PX_PER_IN)
    assert on(short).resolution_in > on(Marks()).resolution_in


def test_no_picture_is_trusted_finer_than_a_hundredth() -> None:
    assert read_plug(Marks(), 20_000, 15_000).resolution_in == 0.01


@pytest.mark.parametrize(
    ("marks", "words"),
    [
        (Marks(scale=((0.1, 0.1), (0.1, 0.1))), "scale lie on the same place"),
        (Marks(crowns=((0.4, 0.2), (0.4, 0.2))), "crowns lie on the same place"),
        (Marks(thatch_ends=((0.5, 0.1), (0.5, 0.3))), "above the crowns"),
        (Marks(thatch_ends=((0.5, 0.1), (0.5, 0.3)), roots_end=None), "above the crowns"),
        (Marks(thatch_ends=((0.5, 1.2),)), "off the picture"),
        (Marks(roots_end=(-0.1, 0.4)), "off the picture"),
        (Marks(scale=((0.1, 0.1), (math.nan, 0.1))), "off the picture"),
        (Marks(crowns=None), "Mark the crowns first"),
        (Marks(known_in=0.0), "known distance is missing"),
        (Marks(known_in=math.inf), "known distance is missing"),
    ],
)
def test_what_cannot_be_read_is_said_in_words(marks: Marks, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        on(marks)


def test_a_scale_alone_reads_no_depth() -> None:
    read = on(Marks(crowns=None, thatch_ends=(), roots_end=None))
    assert (read.thatch_in, read.root_depth_in) == ((), None)
    assert px_per_in(Marks(), *SIZE_PX) == pytest.approx(PX_PER_IN)


def test_a_line_through_a_mark_runs_beside_the_crowns() -> None:
    crowns = ((0.3, 0.2), (0.6, 0.4))
    a, b = foot_on_crowns(crowns, (0.5, 0.7), *SIZE_PX)
    assert b[0] - a[0] == pytest.approx(0.3)
    assert b[1] - a[1] == pytest.approx(0.2)
    beside = replace(Marks(), crowns=crowns, thatch_ends=(a, b, (0.5, 0.7)), roots_end=None)
    assert on(beside).thatch_in == pytest.approx((on(beside).thatch_in[0],) * 3)


def test_a_ruler_nearer_to_the_lens_reads_too_thin() -> None:
    """By similar triangles a ruler at 9 in shows an inch 12 / 9 as large as at 12 in."""
    assert too_thin_pct(3, 12) == pytest.approx(100 * (1 - 9 / 12))
    with pytest.raises(ValueError, match="between the lens and the plug"):
        too_thin_pct(12, 12)


@pytest.mark.parametrize(
    ("value", "diameter_in"),
    [("cent", 0.750), ("nickel", 0.835), ("dime", 0.705), ("quarter", 0.955)],
)
def test_coins_of_the_us_are_as_the_mint_gives_them(value: str, diameter_in: float) -> None:
    """United States Mint's specifications at second hand, which give inches beside millimetres."""
    coin = next(each for each in COINS if (each.land, each.value) == ("US", value))
    assert coin.diameter_mm / 25.4 == pytest.approx(diameter_in, abs=0.0006)


def test_where_coins_and_resolution_come_from_is_told() -> None:
    for key in ("us-coins", "other-coins"):
        assert SOURCES[key].basis == "memory"
        assert SOURCES[key].citation.endswith("(from memory)")
    assert "our reckoning" in SOURCES["photo-resolution"].citation
    assert SOURCES["photo-resolution"].basis == "practice"
