"""Colours that stand for different things can be told apart without red and green, or any hue.

Seen as by whoever lacks one kind of cones: Machado, Oliveira and Fernandes 2009, "A
physiologically-based model for simulation of color vision deficiency", IEEE Transactions on
Visualization and Computer Graphics 15(6), 1291-1298, doi:10.1109/TVCG.2009.113: their matrices
of severity 1.0, on linear RGB.
"""

import itertools
from typing import Any

import numpy as np
import pytest

from lawnbook.charts.palette import DARK, HIGH_DARK, HIGH_LIGHT, LIGHT, Palette
from lawnbook.desk.sketch.colour_scales import SCALES
from lawnbook.desk.sketch.tinting import CHOICES, ColourBy
from tests.test_sketch_colours import contrast, luminance

Array = np.ndarray[Any, np.dtype[np.float64]]

SEEN = {
    "protan": np.array(
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ]
    ),
    "deutan": np.array(
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ]
    ),
    "grey": np.array([[0.2126, 0.7152, 0.0722]] * 3),
}
"""Three ways of seeing; grey is the luminance of WCAG 2.2."""
XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
"""Linear sRGB to CIE XYZ (IEC 61966-2-1)."""
LEAST = 5.0
"""Of CIE 1976 L*a*b* colour difference; about 2.3 is just noticed (from memory)."""
SCALED: tuple[ColourBy, ...] = tuple(each for each in CHOICES if each in SCALES)
PALETTES = pytest.mark.parametrize(
    "palette", [LIGHT, DARK, HIGH_LIGHT, HIGH_DARK], ids=lambda each: each.name
)


def lab(colour: str, way: str) -> Array:
    """A colour in CIE L*a*b*, as it is seen."""
    parts = np.array([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    seen = np.clip(SEEN[way] @ linear, 0, 1)
    ratio = XYZ @ seen / (XYZ @ np.ones(3))
    x, y, z = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def apart(one: str, other: str, way: str) -> float:
    """How far two colours are from each other, as they are seen."""
    return float(np.linalg.norm(lab(one, way) - lab(other, way)))


def test_white_and_black_look_the_same_to_all() -> None:
    for way in SEEN:
        assert apart("#ffffff", "#000000", way) == pytest.approx(100, abs=0.1)


def test_red_and_green_of_one_lightness_draw_together_without_one_kind_of_cones() -> None:
    red, green = "#b04a3a", "#5f7a2a"
    for way in ("protan", "deutan"):
        assert apart(red, green, way) < 40
    assert np.linalg.norm(SEEN["deutan"].sum(axis=1) - 1) < 1e-5


@PALETTES
@pytest.mark.parametrize("by", SCALED)
@pytest.mark.parametrize("way", SEEN)
def test_no_two_steps_of_a_scale_look_alike(palette: Palette, by: ColourBy, way: str) -> None:
    for one, other in itertools.combinations(SCALES[by].colours(palette), 2):
        assert apart(one, other, way) >= LEAST


@pytest.mark.parametrize("palette", [HIGH_LIGHT, HIGH_DARK], ids=lambda each: each.name)
@pytest.mark.parametrize("by", SCALED)
def test_high_contrast_keeps_the_order_and_the_ink(palette: Palette, by: ColourBy) -> None:
    steps = SCALES[by].colours(palette)
    runs = [luminance(b) - luminance(a) for a, b in itertools.pairwise(steps)]
    assert all(run < -0.05 for run in runs) or all(run > 0.01 for run in runs)
    assert min(contrast(palette.ink, each) for each in steps) >= 4.5
