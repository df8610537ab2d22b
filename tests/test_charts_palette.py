"""The three palettes: what is read can be read, and what is told apart can be told apart.

The contrast formula and both limits are those of the W3C's Web Content Accessibility Guidelines
2.1: 4.5:1 for text (success criterion 1.4.3), 3:1 for the parts of a picture (1.4.11).
"""

import dataclasses

import pytest

from lawnbook.charts.palette import PALETTES, PRINT, Palette

TEXT_ROLES = ("ink", "quiet", "accent", "good", "warn", "bad", "water", "feed")
EACH = pytest.mark.parametrize("palette", PALETTES.values(), ids=PALETTES.keys())


def luminance(colour: str) -> float:
    """Relative luminance of sRGB, WCAG 2.1."""
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.1."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_formula_at_its_ends() -> None:
    """Black on white is 21:1, a colour on itself 1:1 (WCAG 2.1, definition of contrast ratio)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#123456", "#123456") == pytest.approx(1.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@EACH
@pytest.mark.parametrize("role", TEXT_ROLES)
@pytest.mark.parametrize("surface", ["paper", "card"])
def test_text_can_be_read(palette: Palette, role: str, surface: str) -> None:
    """Every role that words take stands out from what it is written on."""
    assert contrast(getattr(palette, role), getattr(palette, surface)) >= 4.5


@EACH
def test_words_on_accent_and_tabs_can_be_read(palette: Palette) -> None:
    """A button's words and a tab's name."""
    assert contrast(palette.on_accent, palette.accent) >= 4.5
    for field in dataclasses.fields(palette):
        if field.name.startswith("tab_"):
            assert contrast(palette.ink, getattr(palette, field.name)) >= 4.5, field.name


@EACH
def test_parts_of_the_plug_stand_apart(palette: Palette) -> None:
    """Roots on soil, ink lines on thatch, a worm on soil and a bar on paper."""
    assert contrast(palette.root, palette.soil) >= 3
    assert contrast(palette.shade, palette.thatch) >= 3
    assert contrast(palette.thatch, palette.soil) >= 1.8
    assert contrast(palette.ink, palette.paper) >= 3
    assert contrast(palette.feed, palette.paper) >= 3
    assert contrast(palette.worm, palette.soil) >= 2.2


def test_ink_on_what_the_sheet_tints() -> None:
    """On paper, figures and numbers also stand on stone and on turf."""
    for surface in (PRINT.stone, PRINT.turf):
        assert contrast(PRINT.ink, surface) >= 4.5
        assert contrast(PRINT.quiet, surface) >= 4.5
