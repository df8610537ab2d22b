"""Colour scales of the sketch: order readable without hue, ink readable on every step."""

import itertools
from dataclasses import replace

import pytest

from lawnbook.charts.palette import DARK, LIGHT, PRINT, Palette
from lawnbook.desk.sketch.colour_scales import SCALES
from lawnbook.desk.sketch.tinting import CHOICES, ColourBy, legend, pin_tint, tints
from lawnbook.plan.day_figures import Figures, plan_figures
from lawnbook.plan.day_waters import Waters
from lawnbook.plan.make import make_plan
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Core
from tests.conftest import TODAY
from tests.sketch_hand import sketch_yard

SCALED: tuple[ColourBy, ...] = tuple(each for each in CHOICES if each in SCALES)


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def with_plug(notebook: Notebook, thatch_in: float) -> Notebook:
    """The sketch yard with a plug pulled at its spot."""
    core = Core(id="c", spot="elm", date=TODAY, thatch_in=(thatch_in,), root_depth_in=5.0)
    return apply(notebook, put(notebook, "cores", core))


def figures_of(notebook: Notebook) -> Figures:
    """What the sketch shows of a notebook today."""
    return plan_figures(make_plan(notebook, TODAY))


@pytest.mark.parametrize("by", SCALED)
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda each: each.name)
def test_steps_run_one_way_in_lightness(by: ColourBy, palette: Palette) -> None:
    steps = [luminance(each) for each in SCALES[by].colours(palette)]
    runs = [b - a for a, b in itertools.pairwise(steps)]
    assert all(run < -0.05 for run in runs) or all(run > 0.01 for run in runs)


@pytest.mark.parametrize("by", SCALED)
def test_neighbouring_steps_on_dark_paper_stand_apart(by: ColourBy) -> None:
    """By lightness alone: about the most that five steps have between the paper and 4.5 to 1."""
    for one, other in itertools.pairwise(SCALES[by].colours(DARK)):
        assert contrast(one, other) >= 1.245


@pytest.mark.parametrize("by", SCALED)
def test_the_lowest_step_on_dark_paper_is_no_hole_in_it(by: ColourBy) -> None:
    lowest = SCALES[by].colours(DARK)[0]
    assert luminance(lowest) > luminance(DARK.paper)
    assert contrast(lowest, DARK.paper) >= 1.1


@pytest.mark.parametrize("by", SCALED)
@pytest.mark.parametrize("palette", [LIGHT, DARK, PRINT], ids=lambda each: each.name)
def test_ink_reads_on_every_step(by: ColourBy, palette: Palette) -> None:
    # WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
    for step in SCALES[by].colours(palette):
        assert contrast(palette.ink, step) >= 4.5


@pytest.mark.parametrize("by", SCALED)
def test_a_legend_has_a_word_between_every_two_steps(by: ColourBy) -> None:
    shown = legend(by, LIGHT)
    assert shown is not None
    assert len(shown.borders) == len(shown.colours) - 1 == len(SCALES[by].limits)
    assert legend("Nothing", LIGHT) is None


@pytest.mark.parametrize(
    ("thatch_in", "step"), [(0.1, 0), (0.25, 1), (0.49, 1), (0.5, 2), (0.8, 3), (1.4, 4)]
)
def test_a_zone_takes_the_colour_of_its_plugs(thatch_in: float, step: int) -> None:
    notebook = with_plug(sketch_yard(), thatch_in)
    figures = figures_of(notebook)
    made = tints(notebook, figures, "Thatch", LIGHT)
    assert made["front"].colour == SCALES["Thatch"].colours(LIGHT)[step]
    assert made["front"].words == f"thatch {thatch_in:.2f} in"
    assert made["back"].unknown
    assert made["back"].words == "no plug yet"
    pin = pin_tint(figures, "Thatch", "elm", LIGHT)
    assert pin is not None
    assert pin.colour == made["front"].colour
    assert pin.words == f"{thatch_in:.1f}"


def test_rooted_soil_is_unknown_until_a_plug_shows_it() -> None:
    notebook = with_plug(sketch_yard(), 1.0)
    made = tints(notebook, figures_of(notebook), "Rooted soil", DARK)
    assert made["front"].words == "roots 4.0 in"
    assert made["back"].unknown


def test_nitrogen_left_says_when_a_zone_is_over() -> None:
    notebook = sketch_yard()
    over = replace(figures_of(notebook), n_left_this_year={"front": -0.3})
    made = tints(notebook, over, "Nitrogen left", LIGHT)
    assert made["front"].words == "0.3 lb over"
    assert made["front"].colour == SCALES["Nitrogen left"].colours(LIGHT)[0]


@pytest.mark.parametrize(
    ("by", "value", "step", "words"),
    [
        ("Run time", 9.6, 0, "run 10 min"),
        ("Run time", 40.0, 3, "run 40 min"),
        ("Days between", 1, 0, "every day"),
        ("Days between", 5, 3, "every 5 days"),
        ("Watering depth", 0.41, 1, "0.41 in deep"),
    ],
)
def test_a_zone_takes_the_colour_of_its_waterings(
    by: ColourBy, value: float, step: int, words: str
) -> None:
    notebook = with_plug(sketch_yard(), 0.5)
    waters = Waters({"front": value}, {"front": value}, {"front": value})
    made = tints(notebook, replace(figures_of(notebook), waters=lambda: waters), by, LIGHT)
    assert made["front"].colour == SCALES[by].colours(LIGHT)[step]
    assert made["front"].words == words
    assert made["back"].unknown


WATERS = ("Run time", "Days between", "Watering depth")


def test_waterings_are_not_reckoned_for_other_colours() -> None:
    """A day of the film stays cheap."""

    def asked() -> Waters:
        raise AssertionError("nobody asked for the waterings")

    notebook = with_plug(sketch_yard(), 0.5)
    figures = replace(figures_of(notebook), waters=asked)
    for by in CHOICES:
        if by not in WATERS:
            tints(notebook, figures, by, LIGHT)


@pytest.mark.parametrize("by", ["Nitrogen left", "Fed in 30 days", "Soil water"])
def test_a_pin_takes_its_zones_colour_where_a_spot_has_no_figure_of_its_own(by: ColourBy) -> None:
    """And says nothing: the thatch would be read as nitrogen or water."""
    notebook = with_plug(sketch_yard(), 0.8)
    figures = replace(figures_of(notebook), soil_water={"front": 0.5})
    pin = pin_tint(figures, by, "elm", LIGHT)
    assert pin is not None
    assert pin.words == ""
    assert pin.colour == tints(notebook, figures, by, LIGHT)["front"].colour
    plain = pin_tint(figures, "Nothing", "elm", LIGHT)
    assert plain is not None
    assert (plain.colour, plain.words) == ("", "0.8")


@pytest.mark.parametrize("by", CHOICES)
def test_without_a_plan_every_zone_is_plain(by: ColourBy) -> None:
    made = tints(sketch_yard(), None, by, LIGHT)
    assert {each.colour for each in made.values()} == {made["front"].colour}
    assert not any(each.unknown for each in made.values())
