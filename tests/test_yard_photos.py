"""Photographs as records: made, found, and what is asked or refused of them and of their plugs."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.yard.check import check, check_notebook
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.photos import new_photo, photos_of
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import Problem
from lawnbook.yard.record_plug import PhotoRuler
from lawnbook.yard.records import Core, Photo, Record
from tests.conftest import TODAY
from tests.kept_photos import PLUG, RULER, photo, photo_notebook, unreadable

HELD = photo_notebook()
MARKED = HELD.photos["photo 1"]


def problems(record: Record, notebook: Notebook = HELD) -> tuple[Problem, ...]:
    """What is said of a record beside the small notebook's."""
    return check(record, notebook, TODAY)


def test_a_new_photograph_stands_for_its_bytes() -> None:
    made = new_photo("plug", b"bytes of a picture", (900, 1200), date(2026, 5, 8))
    assert made.data_b64 == Picture.of(b"bytes of a picture")
    assert made.sha256 == made.data_b64.sha256
    assert (made.core, made.width_px, made.height_px) == ("plug", 900, 1200)
    assert made.taken_on == date(2026, 5, 8)
    assert made.id != new_photo("plug", b"bytes of a picture", (900, 1200)).id
    assert problems(made) == ()


def test_a_plugs_photographs_come_in_their_order_and_unread() -> None:
    second = replace(photo(3), core="second", data_b64=unreadable(photo(3).data_b64))
    plug = Core(id="second", spot="elm", date=date(2025, 5, 9), thatch_in=(0.5,))
    notebook = apply(HELD, put(HELD, "cores", plug))
    notebook = apply(notebook, put(notebook, "photos", second))
    assert [each.id for each in photos_of(notebook, "plug")] == ["photo 1", "photo 2"]
    assert [each.id for each in photos_of(notebook, "second")] == ["photo 3"]
    assert photos_of(notebook, "none") == ()
    assert check_notebook(notebook, TODAY) == ()


def test_the_same_photograph_twice_on_a_plug_is_a_question() -> None:
    again = replace(photo(2), id="again")
    (asked,) = problems(again)
    assert (asked.severity, asked.field) == ("ask", "data_b64")
    assert "This photograph is already with the plug" in asked.sentence
    notebook = apply(HELD, put(HELD, "photos", again))
    assert [each.record_id for each in check_notebook(notebook, TODAY)] == ["again"]
    plug = replace(PLUG, id="second", date=date(2025, 5, 9))
    elsewhere = apply(HELD, put(HELD, "cores", plug))
    assert problems(replace(again, core="second"), elsewhere) == ()


LIKE_A_POINT = PhotoRuler(known_in=1.0, scale=((0.5, 0.5), (0.5, 0.5)))
NEARLY = PhotoRuler(known_in=1.0, scale=((0.5, 0.5), (0.55, 0.55)))


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"ruler": LIKE_A_POINT}, "ruler", "The two ends of the scale lie on the same place"),
        ({"ruler": NEARLY}, "ruler", "The two ends of the scale lie on the same place"),
        ({"ruler": replace(RULER, known_in=0.0)}, "ruler", "Known distance of 0 in is too little"),
        ({"ruler": replace(RULER, scale=((0.1, 0.9), (1.6, 0.9)))}, "ruler", "Scale of 1.6"),
        ({"width_px": None}, "width_px", "width and height in pixels, or neither"),
        ({"height_px": None}, "height_px", "width and height in pixels, or neither"),
        ({"width_px": None, "height_px": None}, "width_px", "The photo ruler needs"),
        ({"width_px": 0}, "width_px", "Width of 0 px is too little"),
        ({"height_px": 20_001}, "height_px", "Height of 20,001 px"),
    ],
)
def test_a_photograph_that_cannot_be_measured_is_refused(
    changed: dict[str, Any], field: str, words: str
) -> None:
    wrong: Photo = replace(MARKED, **changed)
    told = [each for each in problems(wrong) if each.severity == "refuse" and each.field == field]
    assert any(words in each.sentence for each in told), problems(wrong)


def test_the_ends_of_a_scale_are_told_apart_by_pixels() -> None:
    """Five hundredths of a picture of 33 by 24 px are a pixel or two, of a large one many."""
    assert problems(replace(MARKED, ruler=NEARLY, width_px=900, height_px=1200)) == ()


@pytest.mark.parametrize(
    ("readings", "field", "words"),
    [
        ({"thatch_in": (0.75, 1.5), "core_depth_in": 1.25}, "thatch_in",
         "Thatch to 1.5 in reaches beyond the plug, which is 1.25 in long; look at both again"),
        ({"thatch_in": (), "root_depth_in": 5.0, "core_depth_in": 4.0}, "root_depth_in",
         "Roots to 5 in reach beyond the plug, which is 4 in long; look at both again"),
        ({"root_depth_in": 4.2, "core_depth_in": 4.0, "resolution_in": 0.0625}, "root_depth_in",
         "Roots to 4.2 in reach beyond"),
        ({"thatch_in": (0.5, 1.75)}, "thatch_in", "differ by 1.25 in"),
    ],
)  # fmt: skip
def test_what_lies_below_the_cut_end_of_a_plug_is_asked_about(
    readings: dict[str, Any], field: str, words: str
) -> None:
    (asked,) = problems(replace(PLUG, **readings))
    assert (asked.severity, asked.field) == ("ask", field)
    assert words in asked.sentence
    assert asked.sentence.endswith("all the same.")


@pytest.mark.parametrize(
    "readings",
    [
        {"thatch_in": (1.25,), "core_depth_in": 1.25},
        {"root_depth_in": 4.0, "core_depth_in": 4.0},
        {"root_depth_in": 4.125, "core_depth_in": 4.0},
        {"root_depth_in": 4.25, "core_depth_in": 4.0, "resolution_in": 0.25},
        {"root_depth_in": 9.0},
    ],
)
def test_what_ends_with_the_plug_or_a_mark_below_is_not(readings: dict[str, Any]) -> None:
    assert problems(replace(PLUG, **readings)) == ()
