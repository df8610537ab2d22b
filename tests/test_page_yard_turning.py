"""What a section of the yard page shows on the sketch goes with it, and no other wipes it."""

from dataclasses import replace
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_exchange import ExchangeSection
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.preview import PreviewItem
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from tests.desk_hand import child, press, shown
from tests.test_page_yard_exchange import map_file

__all__ = ["map_file"]

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

RETURN = Qt.Key.Key_Return


class Hand:
    """The yard page with the sketch it works on."""

    def __init__(self, qtbot: QtBot, book: OpenNotebook) -> None:
        self.book = book
        self.scene = SketchScene(book.notebook)
        self.control = SketchControl(book, self.scene, self.scene)
        self.page = YardPage(book, None, self.control)
        shown(qtbot, self.page, book)

    def previewed(self) -> bool:
        """Whether anything is drawn that is not kept."""
        items = [each for each in self.scene.items() if isinstance(each, PreviewItem)]
        return any(not each.childrenBoundingRect().isEmpty() for each in items)

    def field(self, name: str) -> QLineEdit:
        """A line to type in."""
        return cast(QLineEdit, child(self.page, name))


@pytest.fixture
def hand(qtbot: QtBot, book: OpenNotebook) -> Hand:
    return Hand(qtbot, book)


def _walk(hand: Hand) -> None:
    """A closed triangle, typed."""
    hand.page.turn_to("Walk round")
    child(hand.page, "walk_side_1").setFocus()
    for each in ("30", "40", "50"):
        press(each, RETURN)


def test_a_walk_is_shown_again_when_its_section_is_turned_to(hand: Hand) -> None:
    _walk(hand)
    assert hand.previewed()
    for other in ("Check", "In and out", "Overview", "Shapes"):
        hand.page.turn_to(other)
        assert not hand.previewed(), other
        hand.page.turn_to("Walk round")
        assert hand.previewed(), other


def test_a_choice_on_the_sketch_leaves_what_another_section_shows(
    hand: Hand, map_file: Path
) -> None:
    _walk(hand)
    hand.page.turn_to("In and out")
    section = hand.page.findChild(ExchangeSection)
    assert section is not None
    section.read_outlines(map_file)
    assert hand.previewed()
    hand.control.choose(Choice("zones", next(iter(hand.book.notebook.zones))))
    assert hand.previewed()


def _type_a_turn(hand: Hand) -> None:
    hand.page.turn_to("Shapes")
    hand.control.choose(Choice("zones", next(iter(hand.book.notebook.zones))))
    hand.field("shapes_turn_deg").setFocus()
    press("45")
    assert hand.previewed()


@pytest.mark.parametrize("leave", ["another section", "another choice", "an edit"])
def test_a_turn_that_was_only_typed_goes_from_the_sketch(hand: Hand, leave: str) -> None:
    _type_a_turn(hand)
    first, second = list(hand.book.notebook.zones.values())[:2]
    if leave == "another section":
        hand.page.turn_to("Overview")
    elif leave == "another choice":
        hand.control.choose(Choice("zones", second.id))
    else:
        renamed = replace(first, name="Elsewhere")
        hand.control.edit(put(hand.book.notebook, "zones", renamed), "rename")
    assert not hand.previewed()
