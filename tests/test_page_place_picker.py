"""The choice of what plugs are looked at: yard, zones and their spots."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QStyleOptionComboBox
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.place_picker import (
    YARD,
    PlacePicker,
    first_place,
    offers,
    place_of,
    spots_at,
    still_there,
)
from lawnbook.plan.plug_model import Place
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import Spot
from tests.page_book import page_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def notebook() -> Notebook:
    """Front with elm, oak and an untreated strip; side with gate; a spot of no zone."""
    held = page_notebook()
    spots = (
        Spot(id="elm", name="Elm", zone="front"),
        Spot(id="oak", name="Oak", at_ft=(5.0, 5.0)),
        Spot(id="strip", name="Strip", zone="front", comparison=True),
        Spot(id="far", name="Far", at_ft=(500.0, 500.0)),
    )
    return apply(held, put(held, "spots", *spots))


def test_each_place_stands_under_its_zone_and_says_of_how_many_spots_it_is(
    notebook: Notebook,
) -> None:
    told = [(place.kind, place.id, words.strip()) for place, words in offers(notebook)]
    assert told == [
        ("yard", "", "The yard, mean of 4 spots"),
        ("zone", "front", "Front, mean of 2 spots"),
        ("spot", "elm", "Elm"),
        # Without a zone of its own a spot belongs to the one it lies in.
        ("spot", "oak", "Oak"),
        ("spot", "strip", "Strip, untreated"),
        ("zone", "side", "Side, 1 spot"),
        ("spot", "gate", "Gate"),
        ("spot", "far", "Far, in no zone"),
    ]


def test_a_zone_says_that_it_has_no_spot_or_untreated_ones_only(notebook: Notebook) -> None:
    gate = notebook.spots["gate"]
    untreated = apply(notebook, put(notebook, "spots", replace(gate, comparison=True)))
    bare = apply(notebook, {("spots", "gate"): (gate, None)})
    assert "Side, untreated spots only" in [words for _, words in offers(untreated)]
    assert "Side, no spot yet" in [words for _, words in offers(bare)]


@pytest.mark.parametrize(
    ("table", "record_id", "wanted"),
    [
        ("spots", "elm", Place("spot", "elm")),
        ("zones", "front", Place("zone", "front")),
        ("zones", "side", Place("spot", "gate")),
        ("spots", "gone", None),
        ("heads", "h1", None),
        ("", "", None),
    ],
)
def test_what_is_selected_leads_to_its_place(
    notebook: Notebook, table: str, record_id: str, wanted: Place | None
) -> None:
    found = None if not table else place_of(notebook, table, record_id)
    assert found == wanted


def test_a_place_that_is_gone_gives_way_to_the_first_spot(notebook: Notebook) -> None:
    assert still_there(notebook, Place("spot", "gone")) == first_place(notebook)
    assert still_there(notebook, Place("zone", "front")) == Place("zone", "front")
    assert still_there(notebook, YARD) == YARD
    assert first_place(new_notebook("Home")) == YARD
    assert [each.id for each in spots_at(notebook, Place("zone", "front"))] == [
        "elm",
        "oak",
        "strip",
    ]


def test_the_owner_walks_the_list_by_keys_and_each_place_is_told(
    qtbot: QtBot, notebook: Notebook
) -> None:
    picker = PlacePicker("place")
    qtbot.addWidget(picker)
    picker.show_places(notebook)
    picker.show()
    picker.setFocus()
    told: list[Place] = []
    picker.place_picked.connect(told.append)
    for _ in range(2):
        QTest.keyClick(picker, Qt.Key.Key_Down)
    assert told == [Place("zone", "front"), Place("spot", "elm")]
    option = QStyleOptionComboBox()
    picker.initStyleOption(option)
    assert option.currentText == "Elm"
    # Filled again after an edit, the choice stays, and nobody is told.
    picker.show_places(apply(notebook, put(notebook, "spots", Spot(id="new", name="New"))))
    assert picker.place() == Place("spot", "elm")
    assert len(told) == 2
    assert not picker.choose(Place("spot", "gone"))


def test_without_a_spot_there_is_nothing_to_choose(qtbot: QtBot) -> None:
    picker = PlacePicker("place")
    qtbot.addWidget(picker)
    picker.show_places(new_notebook("Home"))
    assert picker.isHidden()
    assert picker.place() == YARD
