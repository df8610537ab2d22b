"""Words that are nearly a name or a verb: what they may have meant is asked, and never taken."""

import pytest

from lawnbook.plan.quick_words import read_quick
from tests.test_quick_words import BOOK, TODAY, yard

ONE = yard("Front lawn")
HEDGE = yard("Front lawn", "All day")


@pytest.mark.parametrize(
    ("typed", "asked", "line"),
    [
        ("watered 30 min bak lawn", "Back lawn", "watered 30 min Back lawn"),
        ("fed 2 lb fether meal back lawn", "Feather meal 12-0-0",
         "fed 2 lb Feather meal 12-0-0 back lawn"),
        ("areated front lawn", "aerated", "aerated front lawn"),
        ("moved front lawn", "mowed", "mowed front lawn"),
        ("plug signpst thatch 7/8", "Signpost", "plug Signpost thatch 7/8"),
        ("rian 0.4 in", "ran or rain", "rain 0.4 in"),
        ("bak lawn", "Back lawn", "Back lawn"),
    ],
)  # fmt: skip
def test_a_near_spelling_is_asked_about_and_not_taken(typed: str, asked: str, line: str) -> None:
    quick = read_quick(typed, BOOK, TODAY)
    assert not quick.is_whole
    assert f"Did you mean {asked}?" in quick.faults[0]
    assert line in quick.proposals
    if line != "Back lawn":
        assert read_quick(line, BOOK, TODAY).is_whole


def test_each_piece_is_asked_about_and_the_rest_stays_not_understood() -> None:
    quick = read_quick("wattered frnt lawn 30 min qqqq", BOOK, TODAY)
    said = " ".join(quick.faults)
    assert "“frnt lawn” is not understood. Did you mean Front lawn?" in said
    assert "“wattered” is not understood. Did you mean watered" in said
    assert "“wattered frnt lawn qqqq” is not understood. Leave it out" in said


def test_a_name_that_needs_quotation_marks_is_proposed_in_them() -> None:
    quick = read_quick("watered 30 min awl day", HEDGE, TODAY)
    assert 'watered 30 min "All day"' in quick.proposals


@pytest.mark.parametrize("typed", ["watered 30 min xyzzy", "watered 30 min bac", "aerat"])
def test_nothing_is_asked_where_nothing_is_near_or_it_is_still_typed(typed: str) -> None:
    assert "Did you mean" not in " ".join(read_quick(typed, BOOK, TODAY).faults)


def test_a_length_that_does_not_belong_is_told_as_it_was_typed() -> None:
    quick = read_quick("fed 2 lb feather meal front lawn 18 mm", BOOK, TODAY)
    assert quick.faults == ("18 mm does not belong here; leave it out.",)


def test_the_lawn_by_itself_names_no_zone() -> None:
    """Of several it is asked which; the only one needs no name."""
    asked = read_quick("watered the lawn 30 min", BOOK, TODAY)
    assert asked.faults == ("Zone: say which, Front lawn, Back lawn or Zone 7.",)
    assert read_quick("watered the lawn 30 min", ONE, TODAY).is_whole
    assert read_quick("mowed the grass", BOOK, TODAY).is_whole
