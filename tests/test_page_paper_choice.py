"""The paper chosen in one section of the sheet page holds in the others, as soon as they show."""

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt, QUrl
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.clipboard import one_file_in
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.settings import Settings
from lawnbook.session.open_notebook import OpenNotebook
from tests.desk_hand import child, shown

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


def pressed(page: QWidget, name: str) -> bool:
    """Whether a button is the one that is chosen."""
    button = child(page, name)
    assert isinstance(button, QPushButton)
    return button.isChecked()


def test_a_paper_chosen_in_the_review_is_that_of_plan_and_handover(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    page = SheetPage(book, settings)
    shown(qtbot, page, book)
    preview = child(page, "sheet_preview")
    letter = preview.heightForWidth(600)
    assert pressed(page, "paper_letter")
    page.turn_to("Year in review")
    QTest.mouseClick(child(page, "review_paper_a4"), Qt.MouseButton.LeftButton, pos=QPoint(8, 8))
    page.turn_to("Plan")
    assert settings.paper == "a4"
    assert pressed(page, "paper_a4")
    assert not pressed(page, "paper_letter")
    assert preview.heightForWidth(600) > letter, "the preview shows the paper that is printed on"
    page.turn_to("Hand over")
    assert pressed(page, "handover_paper_a4")


@pytest.mark.parametrize(
    ("names", "found"),
    [
        (["a.csv"], "a.csv"),
        (["A.CSV", "b.png"], "A.CSV"),
        (["a.csv", "b.csv"], None),
        (["b.png"], None),
        ([], None),
    ],
)
def test_one_file_of_a_kind_is_taken_of_what_is_dragged(names: list[str], found: str) -> None:
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(f"/there/{each}") for each in names])
    path = one_file_in(held, (".csv", ".tsv"))
    assert (path.name if path else None) == found
