"""What is due on the season page: the list by keyboard, and ticking off below its lines."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QLabel, QLineEdit, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.season_due_form import DoneForm
from lawnbook.desk.pages.season_due_words import head_of, when
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.desk.widgets import PageScroll
from lawnbook.desk.workings import WorkingPanel
from lawnbook.plan.model import Due
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import Care, NRules, Season
from tests.page_book import click, part, settle, text_of, type_into, unnamed
from tests.season_book import ON, key, rows_of, season_notebook, shown_section, tick

Shown = tuple[YearSection, OpenNotebook]
ENTER, ESC = Qt.Key.Key_Return, Qt.Key.Key_Escape


@pytest.fixture
def shown(qapp: QApplication, tmp_path: Path) -> Iterator[Shown]:
    """The section on the first of September, which is today."""
    yield from shown_section(qapp, tmp_path, season_notebook())


def form(section: YearSection) -> DoneForm | None:
    """The form where it is open."""
    found = section.findChild(DoneForm)
    return found if found is not None and not found.isHidden() else None


def kinds(section: YearSection) -> list[str]:
    """The kinds of the lines, from top to bottom."""
    return [row.due.kind for row in rows_of(section)]


def test_the_list_stands_in_date_order_with_a_done_button_each(shown: Shown) -> None:
    section, _ = shown
    rows = rows_of(section)
    assert kinds(section) == ["water", "mow", "feed", "plug", "test", "care", "care"]
    assert [row.button.text() for row in rows][2:5] == ["Done", "Enter plug", "Done"]
    assert rows[0].accessibleName().startswith("now: Water 0.88 to 0.89 in: Front, Side")
    assert all(row.working.isVisible() for row in rows)


@pytest.mark.parametrize(
    ("due_on", "head"),
    [
        (date(2026, 8, 20), "Now"),
        (ON, "Now"),
        (date(2026, 9, 2), "Next two weeks"),
        (date(2026, 9, 15), "Next two weeks"),
        (date(2026, 9, 16), "Later"),
    ],
)
def test_each_day_stands_under_its_head(due_on: date, head: str) -> None:
    assert head_of(due_on, ON) == head


def test_the_last_day_is_told_where_there_is_one() -> None:
    due = Due(date=date(2026, 9, 5), kind="feed", what="", zones=(), why="")
    assert when(due, ON) == ("5 Sep", "")
    assert when(replace(due, latest=date(2026, 9, 30)), ON) == ("5 Sep", "to 30 Sep")
    assert when(replace(due, date=ON, latest=ON), ON) == ("now", "")


def test_enter_twice_records_the_waterings_in_one_step(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "water")[0])
    assert text_of(section, "season_done_date") == "1 Sep 2026"
    minutes = [float(text_of(section, f"season_done_amount_{n}")) for n in (0, 1)]
    key(ENTER)
    new = [each for each in book.notebook.waterings.values() if each.date == ON]
    assert [(each.zone, each.minutes) for each in new] == [
        ("z1", minutes[0]),
        ("z2", minutes[1]),
    ]
    assert form(section) is None
    assert text_of(section, "season_said").startswith("Recorded: ")
    assert book.undo_label == "watering of Front, Side, 1 Sep 2026"
    later = rows_of(section, "water")
    assert all(row.due.date > ON for row in later)
    assert any(row.hasFocus() for row in rows_of(section))


def test_take_back_undoes_it_and_is_gone_then(shown: Shown) -> None:
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "mow")[0])
    key(ENTER)
    assert len(book.notebook.care) == 2
    click(section, "season_take_back")
    assert book.notebook == before
    assert text_of(section, "season_said") == ""
    assert part(section, QPushButton, "season_take_back").isHidden()


def test_another_edit_ends_the_offer_to_take_back(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "mow")[0])
    key(ENTER)
    book.edit(put(book.notebook, "care", Care(id="x", date=ON, kind="topdressing")), "other")
    settle()
    assert part(section, QPushButton, "season_take_back").isHidden()
    section.take_back()
    assert "x" in book.notebook.care


def test_zones_amounts_and_day_may_be_other_ones(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "water")[0])
    QTest.keyClick(part(section, QLineEdit, "season_done_date"), Qt.Key.Key_Down)
    QTest.keyClick(part(section, QCheckBox, "season_done_tick_1"), Qt.Key.Key_Space)
    type_into(section, "season_done_amount_0", "30")
    key(ENTER)
    *_, watering = book.notebook.waterings.values()
    assert len(book.notebook.waterings) == 3
    assert (watering.date, watering.zone, watering.minutes) == (date(2026, 8, 31), "z1", 30.0)


def test_escape_gives_up_and_the_line_has_the_keyboard_again(shown: Shown) -> None:
    section, book = shown
    before = book.notebook
    row = rows_of(section, "water")[0]
    tick(row, Qt.Key.Key_Space)
    assert form(section) is not None
    key(ESC)
    assert form(section) is None
    assert row.hasFocus()
    assert book.notebook is before


def test_enter_on_leave_it_leaves_it(shown: Shown) -> None:
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "mow")[0])
    part(section, QPushButton, "season_done_leave").setFocus()
    key(ENTER)
    assert form(section) is None
    assert book.notebook is before


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("season_done_amount_0", "half", "Minutes for Front"),
        ("season_done_amount_0", "2000", "1,440"),
        ("season_done_date", "2 Sep 2026", "in the future"),
        ("season_done_date", "someday", "is not a date"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_recorded(
    shown: Shown, field: str, text: str, words: str
) -> None:
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "water")[0])
    type_into(section, field, text)
    key(ENTER)
    note = part(section, QLabel, "season_done_note")
    assert note.property("role") == "refuse"
    assert note.text()
    assert words in note.text()
    assert book.notebook is before
    assert form(section) is not None


def test_no_zone_ticked_is_refused(shown: Shown) -> None:
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "test")[0])
    for number in (0, 1):
        QTest.keyClick(part(section, QCheckBox, f"season_done_tick_{number}"), Qt.Key.Key_Space)
    click(section, "season_done_record")
    assert "Tick at least one zone" in text_of(section, "season_done_note")
    assert book.notebook is before


def test_a_feeding_that_passes_is_recorded_at_once_with_its_verdict_seen(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "feed")[0])
    assert "ithin" in text_of(section, "season_done_verdict")
    key(ENTER)
    new = [each for each in book.notebook.feedings.values() if each.date == ON]
    assert [set(each.pounds) for each in new] == [{"z1", "z2"}]
    assert "feed" not in [row.due.kind for row in rows_of(section) if row.due.date <= ON]


def test_a_feeding_that_does_not_pass_is_asked_about_first(shown: Shown) -> None:
    """May and June are spent by then: 15 Jul is in a month that the table leaves out."""
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "feed")[0])
    type_into(section, "season_done_date", "15 Jul 2026")
    key(ENTER)
    assert book.notebook is before
    assert "only if it is already down" in text_of(section, "season_done_note")
    assert text_of(section, "season_done_record") == "It was spread: record it"
    key(ENTER)
    assert [each.date for each in book.notebook.feedings.values()][-1] == date(2026, 7, 15)


def test_another_amount_is_another_question(shown: Shown) -> None:
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "feed")[0])
    type_into(section, "season_done_date", "15 Jul 2026")
    key(ENTER)
    type_into(section, "season_done_amount_0", "2")
    assert text_of(section, "season_done_record") == "Record it"
    key(ENTER)
    assert book.notebook is before
    assert text_of(section, "season_done_record") == "It was spread: record it"


def test_a_doubtful_amount_is_asked_about_first(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "water")[0])
    type_into(section, "season_done_amount_0", "600")
    key(ENTER)
    assert text_of(section, "season_done_record") == "Record it all the same"
    assert len(book.notebook.waterings) == 2
    key(ENTER)
    assert len(book.notebook.waterings) == 4


def test_a_soil_test_without_its_figures_is_kept_until_they_come(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "test")[0])
    key(ENTER)
    assert "until the laboratory answers" in text_of(section, "season_done_note")
    key(ENTER)
    assert [each.zone for each in book.notebook.soil_tests.values()] == ["z1", "z2"]
    assert rows_of(section, "test") == []


def test_care_is_one_entry_for_its_zones(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "care")[0])
    key(ENTER)
    entry = [each for each in book.notebook.care.values() if each.kind == "aeration"]
    assert [each.zones for each in entry] == [("z1", "z2")]


def test_a_plug_asks_for_its_spot_and_leads_to_it(shown: Shown, qtbot: QtBot) -> None:
    section, book = shown
    before = book.notebook
    tick(rows_of(section, "plug")[0])
    assert text_of(section, "season_spot_1") == "steps"
    key(Qt.Key.Key_Tab)
    with qtbot.waitSignal(section.plug_asked) as told:
        key(ENTER)
    assert told.args == ["s2"]
    assert not part(section, QPushButton, "season_spot_1").isVisible()
    assert book.notebook is before


def test_escape_leaves_the_choice_of_spots(shown: Shown) -> None:
    section, _ = shown
    row = rows_of(section, "plug")[0]
    tick(row)
    key(ESC)
    assert row.hasFocus()
    assert not part(section, QPushButton, "season_spot_0").isVisible()


def test_the_arrows_walk_the_list_and_w_shows_a_working(shown: Shown) -> None:
    section, _ = shown
    rows = rows_of(section)
    rows[0].setFocus(Qt.FocusReason.TabFocusReason)
    steps = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_End, Qt.Key.Key_Down, Qt.Key.Key_Home)
    places = []
    for each in steps:
        key(each)
        places.append(next(n for n, row in enumerate(rows) if row.hasFocus()))
    last = len(rows) - 1
    assert places == [0, 1, last, last, 0]
    key(Qt.Key.Key_W)
    panel = rows[0].findChild(WorkingPanel)
    assert panel is not None
    QTest.keyClick(panel, ESC)
    settle()


def test_what_is_typed_stays_while_the_book_changes_elsewhere(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "water")[0])
    type_into(section, "season_done_amount_0", "33")
    book.edit(put(book.notebook, "care", Care(id="x", date=ON, kind="topdressing")), "other")
    settle()
    still_open = form(section)
    assert still_open is not None
    assert text_of(section, "season_done_amount_0") == "33"
    below = section.due.layout()
    assert below is not None
    water = rows_of(section, "water")[0]
    assert below.indexOf(still_open) == below.indexOf(water) + 1


def test_every_control_of_the_open_form_has_its_names(shown: Shown) -> None:
    section, _ = shown
    tick(rows_of(section, "feed")[0])
    assert unnamed(section) == []


def test_days_closed_to_feeding_are_only_told(qapp: QApplication, tmp_path: Path) -> None:
    held = season_notebook()
    closed = NRules(id="n_rules", blackouts=(Season(start="08-25", end="09-05"),))
    book = apply(held, {("n_rules", "n_rules"): (held.n_rules, closed)})
    for section, opened in shown_section(qapp, tmp_path, book):
        told = rows_of(section, "feed")[0]
        assert "closed" in told.due.what
        assert not told.button.isVisible()
        before = opened.notebook
        tick(told)
        assert form(section) is None
        assert opened.notebook is before


def test_a_past_day_is_the_day_that_is_proposed(qapp: QApplication, tmp_path: Path) -> None:
    on, today = date(2026, 9, 1), date(2026, 9, 20)
    for section, book in shown_section(qapp, tmp_path, season_notebook(), on, today):
        tick(rows_of(section, "mow")[0])
        assert text_of(section, "season_done_date") == "1 Sep 2026"
        key(ENTER)
        assert [each.date for each in book.notebook.care.values()][-1] == on


def test_of_a_coming_day_today_is_proposed(qapp: QApplication, tmp_path: Path) -> None:
    on, today = date(2026, 9, 5), ON
    for section, _ in shown_section(qapp, tmp_path, season_notebook(), on, today):
        tick(rows_of(section, "mow")[0])
        assert text_of(section, "season_done_date") == "1 Sep 2026"


def test_what_keeps_a_line_from_being_recorded_is_scrolled_into_sight(shown: Shown) -> None:
    section, _ = shown
    page = PageScroll()
    page.body.addWidget(section)
    page.resize(620, 420)
    page.show()
    page.activateWindow()
    settle(20)
    tick(rows_of(section, "feed")[0])
    settle(20)
    opened = form(section)
    assert opened is not None
    assert wholly_seen(opened)
    type_into(section, "season_done_date", "2 Sep 2027")
    key(ENTER)
    settle(20)
    note = part(section, QLabel, "season_done_note")
    assert "in the future" in note.text()
    assert wholly_seen(note)
    section.setParent(None)
    page.close()
    page.deleteLater()


def wholly_seen(widget: QWidget) -> bool:
    """Whether no part of a widget is cut off by the page it scrolls in."""
    return widget.visibleRegion().boundingRect() == widget.rect()


def test_one_line_at_a_time_says_why(shown: Shown) -> None:
    """The first to begin with, then the one that took the keyboard; all of them are heard."""
    section, _ = shown
    rows = rows_of(section)

    def opened() -> list[int]:
        whys = (part(section, QLabel, f"season_due_{n}_why") for n in range(len(rows)))
        return [number for number, why in enumerate(whys) if why.isVisible()]

    assert opened() == [0]
    rows[0].setFocus(Qt.FocusReason.TabFocusReason)
    key(Qt.Key.Key_Down)
    assert opened() == [1]
    assert all(row.due.why in row.accessibleDescription() for row in rows)
