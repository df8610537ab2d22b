"""In a language whose words are longer, rows of controls still find room on the page."""

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.fold import FoldHeading
from lawnbook.desk.pages.photo_tray import PhotoTray
from lawnbook.desk.pages.sheet_tables import TablesSection
from lawnbook.desk.settings import Settings
from lawnbook.languages import Pseudo
from lawnbook.reading import Reading, reading_as
from lawnbook.session.open_notebook import OpenNotebook

pytest_plugins = ["tests.desk_book"]
PAGE_PX, CARD_PX = 529, 499
"""What a page, and a card on it, has across in a window of 1280 pixels."""

MADE: dict[str, tuple[Callable[[OpenNotebook, Settings], QWidget], int]] = {
    "tray": (lambda book, _: PhotoTray(book), CARD_PX),
    "tables": (TablesSection, PAGE_PX),
}


@pytest.mark.parametrize("part", MADE)
@pytest.mark.usefixtures("dressed")
def test_rows_of_controls_need_no_more_than_the_page(
    book: OpenNotebook, settings: Settings, part: str
) -> None:
    make, room = MADE[part]
    with reading_as(Reading(words=Pseudo())):
        made = make(book, settings)
        made.ensurePolished()
        least = made.minimumSizeHint().width()
    made.deleteLater()
    assert 0 < least <= room


@pytest.mark.usefixtures("dressed")
def test_a_folds_summary_without_room_is_told_whole_as_its_tooltip() -> None:
    heading = FoldHeading("Water put down", "water_put_down")
    heading.resize(600, 36)
    heading.say("129, the latest 14 Jun 2026", unfolded=False)
    assert heading.toolTip() == ""
    heading.resize(220, 36)
    heading.show()
    assert heading.toolTip() == "129, the latest 14 Jun 2026"
    heading.say("129", unfolded=False)
    assert heading.toolTip() == ""
    heading.deleteLater()
