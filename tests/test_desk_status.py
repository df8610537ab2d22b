"""The line at the foot: what undo would take back, in the room that there is."""

from datetime import date
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from lawnbook.desk.status import LONGEST_NAME, StatusLine, in_short, redo_words, undo_words
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Spot
from tests.small_book import small_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
TODAY = date(2026, 6, 15)
WHOLE = "watering of Corner lawn by the long hedge, 15 Jun 2026"


def test_a_long_edit_keeps_what_and_when(qtbot: QtBot, tmp_path: Path) -> None:
    """Only the middle of its name goes; hint and screen reader have it whole."""
    book = OpenNotebook.create(tmp_path / "foot.lawnbook", small_notebook(), TODAY)
    line = StatusLine(book)
    qtbot.addWidget(line)
    for label, shown in (
        (WHOLE, "watering of Corner la…e, 15 Jun 2026"),
        (WHOLE[:LONGEST_NAME], WHOLE[:LONGEST_NAME]),
    ):
        book.edit(put(book.notebook, "spots", Spot(id="s" * 16, name=label)), label)
        line.refresh()
        assert line.undo_button.text() == f"Undo {shown}"
        assert line.undo_button.accessibleName() == f"Undo {label}"
        assert line.undo_button.toolTip() == f"Undo {label}"
    book.close()


def test_no_other_word_hides_that_a_change_is_not_on_disk(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OwnerError("foot.lawnbook: the disk is full; free some space, or save elsewhere.")

    book = OpenNotebook.create(tmp_path / "foot.lawnbook", small_notebook(), TODAY)
    line = StatusLine(book)
    qtbot.addWidget(line)
    with monkeypatch.context() as patch:
        patch.setattr("lawnbook.store.sqlite_store.Store.write", refuse)
        book.edit(put(book.notebook, "spots", Spot(id="s" * 16, name="new")), "new spot")
        line.say("Written: yard.json", "good")
        assert line.words.text() == "Written: yard.json Not on disk yet (1 change waits)."
        assert line.words.property("role") == "refuse"
    book.retry()
    line.say("Written: yard.json", "good")
    assert (line.words.text(), line.words.property("role")) == ("Written: yard.json", "good")
    book.close()


def test_a_menu_shows_a_long_edit_as_short_and_a_sign_of_and_as_it_is() -> None:
    assert in_short(undo_words, WHOLE) == "Undo watering of Corner la…e, 15 Jun 2026"
    assert in_short(redo_words, "zone Front & side") == "Redo zone Front && side"
    assert in_short(undo_words, "") == "Undo"
