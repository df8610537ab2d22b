"""The palettes: what is read can be read, and what is told apart can be told apart.

The contrast formula and the limits are those of the W3C's Web Content Accessibility Guidelines
2.2: 4.5:1 for text (success criterion 1.4.3), 7:1 for text in high contrast (1.4.6), 3:1 for the
parts of a picture, the edges of controls and the ring of the focus (1.4.11).
"""

import dataclasses

import pytest

from lawnbook.charts.palette import DARK, HIGH_DARK, HIGH_LIGHT, LIGHT, PALETTES, PRINT, Palette

TEXT_ROLES = ("ink", "quiet", "accent", "good", "warn", "bad", "water", "feed")
SURFACES = ("paper", "card")
HIGH = pytest.mark.parametrize("palette", [HIGH_LIGHT, HIGH_DARK], ids=lambda each: each.name)
ON_SCREEN = pytest.mark.parametrize(
    "palette", [LIGHT, DARK, HIGH_LIGHT, HIGH_DARK], ids=lambda each: each.name
)
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


@HIGH
@pytest.mark.parametrize("surface", SURFACES)
def test_high_contrast_text_is_easily_read(palette: Palette, surface: str) -> None:
    """Every role that words take, and the words of what cannot be used now by the plain limit."""
    for role in TEXT_ROLES:
        assert contrast(getattr(palette, role), getattr(palette, surface)) >= 7, role
    assert contrast(palette.faint, getattr(palette, surface)) >= 4.5


@HIGH
def test_high_contrast_words_on_accent_tabs_and_notes(palette: Palette) -> None:
    assert contrast(palette.on_accent, palette.accent) >= 7
    for field in dataclasses.fields(palette):
        if field.name.startswith("tab_"):
            assert contrast(palette.ink, getattr(palette, field.name)) >= 7, field.name
    note = mix(palette.paper, palette.thatch, 0.08)
    assert all(contrast(getattr(palette, role), note) >= 7 for role in ("ink", "quiet", "warn"))


@HIGH
@pytest.mark.parametrize("surface", SURFACES)
def test_high_contrast_rules_and_edges_are_seen(palette: Palette, surface: str) -> None:
    for role in ("rule", "edge"):
        assert contrast(getattr(palette, role), getattr(palette, surface)) >= 3, role


@ON_SCREEN
@pytest.mark.parametrize("surface", SURFACES)
def test_the_edge_of_a_field_is_seen(palette: Palette, surface: str) -> None:
    """Without it nobody would know where to type."""
    assert contrast(palette.edge, getattr(palette, surface)) >= 3


@ON_SCREEN
def test_the_ring_of_the_focus_is_seen_against_both_sides(palette: Palette) -> None:
    """Outside lies paper or a card, inside a field or a button's wash.

    A button that is filled with the accent has its ring inside, with the accent on both sides.
    """
    for surface in (palette.paper, palette.card):
        for side in (surface, mix(surface, palette.ink, 0.07)):
            assert contrast(palette.accent, side) >= 3
    assert contrast(palette.on_accent, palette.accent) >= 3


@ON_SCREEN
def test_a_fault_is_seen_at_its_field(palette: Palette) -> None:
    """The edge of a field that is refused or asked about; its sentence stands below it."""
    for role in ("bad", "warn"):
        assert all(contrast(getattr(palette, role), getattr(palette, s)) >= 3 for s in SURFACES)


def mix(first: str, second: str, share: float) -> str:
    """The colour that lies `share` of the way from one to another, as the window mixes it."""
    ends = [[int(each[at : at + 2], 16) for at in (1, 3, 5)] for each in (first, second)]
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in zip(*ends, strict=True))
