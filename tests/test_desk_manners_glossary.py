"""The glossary: its terms hang together, its pictures teach, its figures are the program's."""

import itertools

import pytest
from PySide6.QtCore import QUrl
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from lawnbook.agronomy.jar_test import Shares, texture_of
from lawnbook.agronomy.soil import SOILS
from lawnbook.agronomy.sources import SOURCES
from lawnbook.charts import glossary_texture
from lawnbook.charts.glossary import PICTURES, WIDTH_PT, described, picture
from lawnbook.charts.glossary_heads import CANS
from lawnbook.charts.marks import Disc, Frame, Polygon, Polyline, Words, rough_width
from lawnbook.charts.palette import PALETTES
from lawnbook.desk.leaf_glossary import painted
from lawnbook.desk.looks import Looks
from lawnbook.desk.theme import apply_looks
from lawnbook.reading import Reading, read_in, reading_as
from lawnbook.yard.amounts import told
from lawnbook.yard.glossary import Term, by_key, glossary
from tests.leaf_hand import Host, text_leaf

pytest_plugins = ["tests.desk_book", "tests.leaf_book"]

TERMS = glossary()
WANTED = """
thatch verdure crown plug root-depth precipitation-rate lower-quarter catch-can cycle-and-soak
eto etc kc depletion field-capacity available-water intake-rate slow-nitrogen quick-nitrogen
npk growth-potential coring overseeding backflow-preventer blow-out ribbon-test jar-test
matched-precipitation head-spacing hydrozone microclimate slope leaf-area-index
"""


def test_the_terms_of_the_trade_are_there_once_each() -> None:
    keys = [term.key for term in TERMS]
    assert len(set(keys)) == len(keys) >= 40
    assert set(keys) >= set(WANTED.split())
    assert [t.name for t in TERMS] == sorted((t.name for t in TERMS), key=str.casefold)


@pytest.mark.parametrize("term", TERMS, ids=lambda term: term.key)
def test_a_term_is_two_sentences_whose_numbers_have_a_source(term: Term) -> None:
    sentences = [each for each in term.words.replace("N. ", "N ").split(". ") if each]
    assert len(sentences) == 2, sentences
    assert term.words.endswith(".")
    assert "!" not in term.words
    assert set(term.sources) <= set(SOURCES)
    if any(letter.isdigit() for letter in term.words):
        assert term.sources, term.key
    assert set(term.see) <= set(by_key())
    assert term.key not in term.see
    assert not term.picture or term.picture in PICTURES


def test_every_picture_is_shown_by_a_term_and_described() -> None:
    used = {term.picture for term in TERMS if term.picture}
    assert used == set(PICTURES)
    assert len(PICTURES) >= 14
    assert all(described(name).endswith(".") for name in PICTURES)
    assert len({described(name) for name in PICTURES}) == len(PICTURES)


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_stays_in_its_frame_with_words_large_enough(name: str) -> None:
    made = picture(name)
    assert made.words(), name
    for mark in made.marks:
        if isinstance(mark, Words):
            assert mark.size >= 9
            wide = rough_width(mark.text, mark.size)
            share = {"left": 0.0, "center": 0.5, "right": 1.0}[mark.align]
            left = mark.at[0] - share * wide
            assert left > -4, mark.text
            assert left + 0.9 * wide <= WIDTH_PT, mark.text
        for x, y in points_of(mark):
            assert -1 <= x <= WIDTH_PT + 1
            assert -1 <= y <= made.frame.height + 1


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_names_roles_that_every_palette_has(name: str) -> None:
    roles = {
        role
        for mark in picture(name).marks
        for role in (getattr(mark, each, "") for each in ("fill", "edge", "role", "halo"))
        if role
    }
    assert roles
    for each in PALETTES.values():
        assert all(str(getattr(each, role)).startswith("#") for role in roles), each.name


def points_of(mark: object) -> list[tuple[float, float]]:
    if isinstance(mark, Polygon):
        return [point for ring in mark.rings for point in ring]
    if isinstance(mark, Polyline):
        return [point for line in mark.lines for point in line]
    return [mark.at] if isinstance(mark, Disc | Words) else []


@pytest.mark.parametrize("name", PICTURES)
def test_no_words_of_a_picture_lie_on_others(name: str) -> None:
    boxes = []
    for mark in picture(name).marks:
        if isinstance(mark, Words):
            wide = 0.9 * rough_width(mark.text, mark.size)
            left = mark.at[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[mark.align] * wide
            boxes.append((mark.text, left, left + wide, mark.at[1] - 7, mark.at[1] + 1))
    for a, b in itertools.combinations(boxes, 2):
        apart = a[2] <= b[1] or b[2] <= a[1] or a[4] <= b[3] or b[4] <= a[3]
        assert apart, (a[0], b[0])


def test_the_texture_triangle_is_that_of_the_published_definitions() -> None:
    """Names stand in their class, and each line parts two classes (USDA, Handbook 18)."""
    for sand, clay, words in glossary_texture.CLASS_WORDS_TO_TELL:
        assert texture_of(Shares(sand, 100 - sand - clay, clay)) == " ".join(words)
    for line in glossary_texture.LINES:
        for (sand_a, clay_a), (sand_b, clay_b) in itertools.pairwise(line):
            along = (sand_b - sand_a, clay_b - clay_a)
            sand, clay = sand_a + along[0] / 2, clay_a + along[1] / 2
            length = (along[0] ** 2 + along[1] ** 2) ** 0.5
            aside = (-along[1] / length, along[0] / length)
            classes = {
                texture_of(Shares(s, 100 - s - c, c))
                for s, c in (
                    (sand + side * aside[0], clay + side * aside[1]) for side in (-1.0, 1.0)
                )
            }
            assert len(classes) == 2, line


def test_the_numbers_of_the_terms_are_those_that_the_program_reckons_with() -> None:
    terms = by_key()
    loam, sand = SOILS["loam"], SOILS["sand"]
    assert told(loam.available_water_in_per_in, 2, "in") in terms["available-water"].words
    assert told(sand.intake_in_per_h, 2, "in/h") in terms["intake-rate"].words
    bearable = 6 * loam.available_water_in_per_in * 0.40
    assert told(bearable, 2, "in") in terms["bearable-depth"].words
    assert f"{1 / (0.4 + 0.6 * 0.65):.2f}" in terms["multiplier"].words
    quarter = CANS[: len(CANS) // 4]
    du = (sum(quarter) / len(quarter)) / (sum(CANS) / len(CANS))
    assert f"DU = {du:.2f}" in picture("lower_quarter").words()
    assert list(CANS) == sorted(CANS)


def test_amounts_are_told_in_the_units_of_the_notebook(host: Host) -> None:
    with reading_as(Reading()):
        leaf = text_leaf(host, "glossary", "Root depth")
        assert "6 in is assumed" in leaf.text.toPlainText()
        leaf.close()
        read_in("metric")
        leaf = text_leaf(host, "glossary", "Root depth")
        assert "mm is assumed" in leaf.text.toPlainText()


def test_terms_lead_to_one_another_and_each_names_its_source(host: Host) -> None:
    leaf = text_leaf(host, "glossary", "thatch")
    text = leaf.text.toPlainText()
    assert "Source: Half an inch of thatch: UC IPM" in text
    assert "See also: Plug (core), Coring (core aeration), Mat" in text
    leaf.follow(QUrl("section:coring"))
    assert leaf.contents.picked == "coring"


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_a_picture_wears_the_theme_and_the_size_of_the_text(
    qapp: QApplication, host: Host, theme: str
) -> None:
    apply_looks(qapp, Looks(theme="dark" if theme == "dark" else "light"))
    plain = painted("profile", 2000, 1.0, 96)
    assert plain.width() == round(WIDTH_PT * 96 / 72)
    colours = colours_of(plain.toImage())
    assert {PALETTES[theme].thatch, PALETTES[theme].soil} <= colours
    apply_looks(qapp, Looks(theme="light", scale_percent=200))
    assert painted("profile", 2000, 1.0, 96).width() == pytest.approx(2 * plain.width(), abs=1)
    assert painted("profile", 300, 2.0, 96).width() == 600


def colours_of(image: QImage) -> set[str]:
    across, down = range(0, image.width(), 3), range(0, image.height(), 3)
    return {image.pixelColor(x, y).name() for x in across for y in down}


def test_a_picture_is_laid_out_for_other_frames_too() -> None:
    for draw, height in PICTURES.values():
        made = draw(Frame(WIDTH_PT * 1.2, height))
        assert made.frame.width == WIDTH_PT * 1.2
