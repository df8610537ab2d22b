"""Long lists are filled as far as they are seen, and between two events for the rest."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QCheckBox
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages import season_checklists
from lawnbook.desk.pages.record_table import AT_ONCE, RecordTable, Row
from lawnbook.desk.pages.season_checklist_row import StepRow
from lawnbook.desk.pages.season_checklists import ChecklistsSection
from lawnbook.desk.settings import Settings
from lawnbook.plan.checklists import CHECKLISTS
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]

ROWS = 3 * AT_ONCE


@pytest.fixture
def table(qtbot: QtBot) -> RecordTable:
    """A table of many rows, just shown."""
    made = RecordTable(("Day", "Amount"), ("rows", "Rows"))
    qtbot.addWidget(made)
    made.show_rows([Row(f"id{n}", (f"day {n}", str(n))) for n in range(ROWS)])
    return made


def test_rows_below_come_between_two_events(qtbot: QtBot, table: RecordTable) -> None:
    assert table.rowCount() == ROWS
    assert table.cell(AT_ONCE - 1, 0) is not None
    assert table.cell(ROWS - 1, 0) is None
    qtbot.waitUntil(lambda: table.cell(ROWS - 1, 0) is not None)
    items = [table.cell(n, 1) for n in range(ROWS)]
    assert [each.text() for each in items if each] == [str(n) for n in range(ROWS)]


def test_a_row_that_is_asked_for_is_there(table: RecordTable) -> None:
    item = table.item(ROWS - 1, 0)
    assert item is not None
    assert item.text() == f"day {ROWS - 1}"
    table.show_rows([Row("one", ("today", "1"))])
    assert (table.rowCount(), table.item(1, 0)) == (1, None)


def test_steps_below_come_between_two_events(
    qtbot: QtBot, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    section = ChecklistsSection(book, Settings(tmp_path / "desk.ini"))
    qtbot.addWidget(section)
    section.show_plan(make_plan(book.notebook, DAY))
    monkeypatch.setattr(season_checklists, "AT_ONCE", 2)

    def boxes() -> list[QCheckBox]:
        rows = section.findChildren(StepRow)
        return [row.box for row in rows if not row.isHidden()]

    for name in reversed(CHECKLISTS):
        section.turn_to(name)
    assert len(boxes()) == 2
    qtbot.waitUntil(lambda: len(boxes()) > 6)
