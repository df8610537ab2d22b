"""What an edit of shapes did, in words: features without a name by number, scraps told."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from lawnbook.desk.sketch.operations import run_by_name
from lawnbook.desk.sketch.shaping import Strip, make_strip
from lawnbook.yard.edit_words import crumbs_told, told
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Feature, FeatureKind, Zone
from lawnbook.yard.shape_edits import strip_made
from tests.shape_yards import side_by_side
from tests.sketch_hand import Hand, sketch_yard


def features(*named: tuple[FeatureKind, str]) -> tuple[Feature, ...]:
    """Features of 10 by 4 ft, by kind and name."""
    return tuple(
        Feature(id=f"new{i}", kind=kind, name=name, outline_ft=rectangle_ft((20.0 * i, 0), 10, 4))
        for i, (kind, name) in enumerate(named)
    )


@pytest.mark.parametrize(
    ("named", "words"),
    [
        ((("bed", ""),), "New: the bed, 40 sq ft."),
        ((("bed", ""), ("bed", "")), "New: 2 beds, 80 sq ft."),
        (
            (("bed", ""), ("bed", "Roses"), ("bed", ""), ("paving", ""), ("paving", "")),
            "New: 2 beds, 80 sq ft; Roses, 40 sq ft; 2 pieces of paving, 80 sq ft.",
        ),
        (
            (("bed", "A"), ("bed", "B"), ("bed", "C"), ("tree", ""), ("tree", "")),
            "New: A, 40 sq ft; B, 40 sq ft; C, 40 sq ft; and 2 more.",
        ),
    ],
)
def test_features_without_a_name_are_told_by_their_number(
    named: tuple[tuple[FeatureKind, str], ...], words: str
) -> None:
    notebook = side_by_side()
    change = put(notebook, "features", *features(*named))
    assert told(change) == words
    after = apply(notebook, change)
    back = {key: (record, None) for key, (_, record) in change.items()}
    assert told(back).endswith("is gone." if len(named) == 1 else "are gone.")
    assert len(after.features) == len(notebook.features) + len(named)


def test_a_ring_of_a_bed_is_told_as_what_it_is_made_of() -> None:
    notebook = side_by_side()
    words = told(strip_made(notebook, ("zones", "a"), None, 2.0, True, "bed"))
    assert words.endswith("New: 2 beds, 224 sq ft.")


@pytest.mark.parametrize(
    ("crumbs_sqft", "words"),
    [
        (0.0, ""),
        (0.3, "Less than 1 sq ft in scraps too small to keep went."),
        (2.0, "2 sq ft in scraps too small to keep went."),
    ],
)
def test_scraps_in_words(crumbs_sqft: float, words: str) -> None:
    assert crumbs_told(crumbs_sqft) == words


@pytest.fixture
def hand(tmp_path: Path) -> Iterator[Hand]:
    """The front zone, 30 by 20 ft, with a bed across its corner, and a notch by its left edge."""
    made = Hand.on(cornered(), tmp_path)
    yield made
    made.close()


def cornered() -> Notebook:
    notebook = sketch_yard()
    bed = Feature(id="bed", kind="bed", outline_ft=((2.0, 0.0), (4.0, 0.0), (0.0, 4.0), (0.0, 2.0)))
    return apply(notebook, put(notebook, "features", bed))


def test_scraps_of_a_cut_are_told(hand: Hand) -> None:
    hand.panel.control.choose_all((("zones", "front"), ("features", "bed")))
    run_by_name(hand.panel.control, "subtract")
    assert hand.words().endswith("2 sq ft in scraps too small to keep went.")


def test_scraps_of_a_strip_are_told(hand: Hand) -> None:
    """A notch 1.5 ft from the edge: the strip along it parts a scrap of 1 sq ft from the rest."""
    notched = (
        (0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (2.0, 20.0), (2.0, 1.5), (1.0, 1.5), (1.0, 2.5),
        (0.0, 2.5),
    )  # fmt: skip
    front = replace(hand.zone("front"), outline_ft=notched, holes_ft=())
    assert isinstance(front, Zone)
    hand.panel.control.keep("zones", front, "draw")
    assert make_strip(hand.panel.control, ("zones", "front"), Strip(0, 1.5, True, "bed"))
    assert hand.words().endswith("1 sq ft in scraps too small to keep went.")
