"""The ledger of feeding: its rows and total, changed and taken out by keys, tables in and out."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QWidget

from lawnbook.desk.pages.feed_ledger import LedgerSection
from lawnbook.desk.pages.feed_ledger_words import EMPTY, NO_ZONE, OXIDES
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.feed_csv import feedings_csv
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import Feeding, Watering
from tests.page_book import (
    FEED_DAY,
    click,
    follow,
    item_of,
    open_book,
    page_notebook,
    part,
    put_away,
    settle,
    text_of,
    unnamed,
)

SPRING, EARLIER = date(2026, 5, 4), date(2025, 9, 6)
HEAD = "date,product,zone,pounds\n"


def fed_notebook() -> Notebook:
    """Three feedings of the page's notebook, one on both zones, one of the year before."""
    notebook = page_notebook()
    spread = [
        ("f1", EARLIER, {"front": 2.0}),
        ("f2", SPRING, {"front": 2.5, "side": 1.0}),
        ("f3", FEED_DAY, {"side": 0.5}),
    ]
    feedings = [
        Feeding(id=name, date=on, product="blend", pounds=MappingProxyType(pounds))
        for name, on, pounds in spread
    ]
    return apply(notebook, put(notebook, "feedings", *feedings))


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    held = open_book(tmp_path, FEED_DAY, fed_notebook())
    yield held
    held.close()


def opened(book: OpenNotebook, zone_id: str = "front") -> LedgerSection:
    """The section, shown and following the book."""
    section = LedgerSection(book)
    section.resize(600, 700)
    follow(book, lambda plan: section.show_plan(plan, zone_id), book.today)
    section.show()
    section.activateWindow()
    settle()
    return section


@pytest.fixture
def ledger(qapp: QApplication, book: OpenNotebook) -> Iterator[LedgerSection]:
    apply_theme(qapp, "light")
    section = opened(book)
    yield section
    put_away(section)


def row(section: LedgerSection, number: int) -> list[str]:
    """The cells of a row that are to be seen."""
    table = section.table
    columns = [c for c in range(table.columnCount()) if not table.isColumnHidden(c)]
    return [item_of(table, number, column).text() for column in columns]


def head(section: LedgerSection, column: int) -> str:
    """The words above a column."""
    item = section.table.horizontalHeaderItem(column)
    assert item is not None
    return item.text()


def said(section: QWidget, name: str) -> str:
    """What a label says, empty where it is hidden."""
    label = part(section, QLabel, name)
    return "" if label.isHidden() else label.text()


def table_file(folder: Path, text: str) -> Path:
    path = folder / "old book.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_rows_of_all_zones_newest_first_and_the_years_total(ledger: LedgerSection) -> None:
    """The lawn's rate is the zones' mean by area: (0.6 × 1,000 + 0.72 × 500) / 1,500."""
    assert ledger.table.rowCount() == 4
    assert row(ledger, 0) == ["10 Sep 2026", "Blend", "Side", "0.50", "0.24", "–", "–"]
    assert row(ledger, 1) == ["4 May 2026", "Blend", "Front", "2.50", "0.60", "–", "–"]
    assert ledger.total.cells() == (
        "2026", "Year so far", "All", "4.00", "0.64", "–", "–",
    )  # fmt: skip
    assert "nitrogen 0.64, phosphate 0, potash 0 lb per 1,000" in (
        ledger.total.accessibleDescription()
    )
    ledger.grab()


def test_one_zone_needs_no_zone_column(ledger: LedgerSection) -> None:
    click(ledger, "ledger_zone")
    assert [row(ledger, n)[0] for n in range(2)] == ["4 May 2026", "6 Sep 2025"]
    assert len(row(ledger, 0)) == 6
    assert ledger.total.cells()[2:5] == ("Front", "2.50", "0.60")
    click(ledger, "ledger_all")
    assert ledger.table.rowCount() == 4


def test_rates_in_grams(ledger: LedgerSection) -> None:
    """0.60 lb per 1,000 sq ft are 2.93 g/m2, and 2.5 lb of product 1.13 kg."""
    click(ledger, "ledger_metric")
    assert row(ledger, 1)[3:5] == ["1.13", "2.93"]
    assert head(ledger, 3) == "Product\nkg"
    assert ledger.total.cells()[3:5] == ("1.81", "3.12")
    assert "Whole lawn: 1.81 kg" in ledger.total.accessibleDescription()
    assert item_of(ledger.table, 1, 0).toolTip().startswith("4 May 2026: 1.13 kg of Blend on 1,000")
    click(ledger, "ledger_us")
    assert row(ledger, 1)[3:5] == ["2.50", "0.60"]
    assert head(ledger, 3) == "Product\nlb"


def test_a_metric_yard_begins_with_grams(qapp: QApplication, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "yard", replace(book.notebook.yard, units="metric")), "units")
    section = opened(book)
    assert section.metric_button.isChecked()
    assert row(section, 1)[4] == "2.93"
    put_away(section)


def test_what_lies_ahead_of_the_day_is_said_to_be_left_out(ledger: LedgerSection) -> None:
    ledger.show_plan(make_plan(fed_notebook(), SPRING), "front")
    assert ledger.table.rowCount() == 3
    assert said(ledger, "ledger_later") == "1 feeding after 4 May 2026 not shown."


def test_enter_asks_for_a_change_and_delete_takes_out(
    ledger: LedgerSection, book: OpenNotebook
) -> None:
    """A feeding is one, on however many zones; taking it out is one edit and comes back."""
    asked = QSignalSpy(ledger.edit_asked)
    assert part(ledger, QWidget, "feedings_edit").isHidden()
    ledger.pick("f2")
    assert not part(ledger, QWidget, "feedings_edit").isHidden()
    ledger.table.setFocus()
    QTest.keyClick(ledger.table, Qt.Key.Key_Return)
    click(ledger, "feedings_edit")
    assert [asked.at(n) for n in range(asked.count())] == [["f2"], ["f2"]]
    QTest.keyClick(ledger.table, Qt.Key.Key_Delete)
    assert list(book.notebook.feedings) == ["f1", "f3"]
    assert ledger.table.rowCount() == 2
    assert said(ledger, "ledger_said") == "The feeding of 4 May 2026 on 2 zones is taken out."
    book.undo()
    assert ledger.table.rowCount() == 4
    assert len(book.notebook.feedings) == 3


def test_a_feeding_picked_elsewhere_is_found_among_all_zones(ledger: LedgerSection) -> None:
    click(ledger, "ledger_zone")
    ledger.pick("f3")
    assert ledger.all_button.isChecked()
    assert ledger.table.picked_id() == f"feeding/{FEED_DAY}/side/f3"
    ledger.pick("gone")
    assert ledger.table.picked_id() == ""


def test_the_waters_rows_are_told_apart_and_cannot_be_changed(
    qapp: QApplication, book: OpenNotebook
) -> None:
    """15 mg/L in an inch: 0.078 lb per 1,000 sq ft."""
    yard = replace(book.notebook.yard, water_n_mg_per_l=15)
    book.edit(put(book.notebook, "yard", yard), "water")
    wet = Watering(id="w", date=date(2026, 7, 1), zone="front", depth_in=1.0)
    book.edit(put(book.notebook, "waterings", wet), "watering")
    section = opened(book)
    assert row(section, 1)[1:5] == ["Irrigation water, July", "Front", "–", "0.08"]
    assert item_of(section.table, 1, 1).font().italic()
    assert not item_of(section.table, 0, 1).font().italic()
    section.table.selectRow(1)
    assert section.table.picked_id().startswith("water/")
    assert part(section, QWidget, "feedings_remove").isHidden()
    asked = QSignalSpy(section.edit_asked)
    section.table.setFocus()
    QTest.keyClick(section.table, Qt.Key.Key_Delete)
    QTest.keyClick(section.table, Qt.Key.Key_Return)
    assert (asked.count(), len(book.notebook.waterings)) == (0, 1)
    apply_theme(qapp, "dark")
    assert item_of(section.table, 1, 1).font().italic()
    put_away(section)


def test_a_table_is_looked_into_before_it_is_one_edit(
    ledger: LedgerSection, book: OpenNotebook, tmp_path: Path
) -> None:
    good = "2024-05-04,Blend,Front,2\n2024-05-04,Blend,Side,1\n2024-09-04,blend,side,9\n"
    bad = "".join(f"2024-06-0{n},Guano,Front,2\n" for n in range(1, 6))
    here = "2026-05-04,Blend,Front,2.5\n2026-05-04,Blend,Side,1\n"
    before = book.notebook
    ledger.read_table(table_file(tmp_path, HEAD + good + bad + here))
    assert said(ledger, "review_told") == (
        "old book.csv: 1 new feeding, 1 in doubt and 1 already here."
    )
    assert said(ledger, "review_problems").startswith("5 lines to look at:\nLine 5: Product: there")
    doubts = said(ledger, "review_doubts")
    assert doubts.startswith("1 line in doubt, left out unless you say so:\nLine 4: Side gets 4.32")
    assert text_of(ledger, "take_feedings") == "Take in 1 feeding"
    assert text_of(ledger, "take_doubtful") == "Take in also the 1 in doubt"
    assert text_of(ledger, "review_listed").count("\n") == 5
    assert book.notebook is before
    click(ledger, "take_feedings")
    assert len(book.notebook.feedings) == 4, "what is in doubt is left out"
    assert ledger.review.isHidden()
    assert said(ledger, "ledger_said") == "1 feeding taken in from old book.csv."
    assert ledger.table.rowCount() == 6
    book.undo()
    assert book.notebook.feedings == before.feedings


def test_what_is_in_doubt_is_taken_in_when_told_so(
    ledger: LedgerSection, book: OpenNotebook, tmp_path: Path
) -> None:
    """900 lb on 1,000 sq ft: the default button has nothing to do with it."""
    text = HEAD + "2024-05-04,Blend,Front,2\n2024-09-04,Blend,Front,900\n"
    ledger.read_table(table_file(tmp_path, text))
    click(ledger, "take_doubtful")
    assert len(book.notebook.feedings) == 5
    assert said(ledger, "ledger_said") == "2 feedings taken in from old book.csv."
    book.undo()
    ledger.read_table(table_file(tmp_path, HEAD + "2024-09-04,Blend,Front,900\n"))
    assert said(ledger, "review_told") == "old book.csv: 1 new feeding in doubt."
    assert part(ledger, QWidget, "take_feedings").isHidden()
    assert text_of(ledger, "take_doubtful") == "Take in the 1 in doubt"
    assert part(ledger, QWidget, "take_doubtful").hasFocus()
    click(ledger, "leave_feedings")
    assert said(ledger, "ledger_said") == "Nothing was taken in."
    assert len(book.notebook.feedings) == 3


def test_the_review_follows_the_notebook(
    ledger: LedgerSection, book: OpenNotebook, tmp_path: Path
) -> None:
    ledger.read_table(table_file(tmp_path, HEAD + "2026-05-05,Blend,Front,2\n"))
    assert text_of(ledger, "take_feedings") == "Take in 1 feeding"
    assert part(ledger, QWidget, "take_doubtful").isHidden()
    day = date(2026, 5, 5)
    same = Feeding(id="f4", date=day, product="blend", pounds=MappingProxyType({"front": 2.0}))
    book.edit(put(book.notebook, "feedings", same), "by hand")
    assert said(ledger, "review_told") == "old book.csv: 1 already here."
    assert part(ledger, QWidget, "take_feedings").isHidden()
    assert text_of(ledger, "leave_feedings") == "Close"


def test_a_table_can_be_left_by_keys(
    ledger: LedgerSection, book: OpenNotebook, tmp_path: Path
) -> None:
    before = book.notebook
    ledger.read_table(table_file(tmp_path, HEAD + "2024-05-04,Blend,Front,2\n"))
    assert ledger.review.take.hasFocus()
    QTest.keyClick(ledger.review.take, Qt.Key.Key_Escape)
    assert ledger.review.isHidden()
    assert ledger.read_button.hasFocus()
    assert said(ledger, "ledger_said") == "Nothing was taken in."
    assert book.notebook is before


def test_what_cannot_be_read_is_told(ledger: LedgerSection, tmp_path: Path) -> None:
    ledger.read_table(tmp_path / "gone.csv")
    assert "gone.csv: there is no such file" in said(ledger, "ledger_said")
    ledger.read_table(table_file(tmp_path, "weather,mood\n1,2\n"))
    assert said(ledger, "review_told") == "old book.csv: no feedings that can be taken in."
    assert "there is no column date" in said(ledger, "review_problems")


def test_the_dialogs_save_and_read(
    ledger: LedgerSection, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A name without an ending gets one; what was saved is here already, every line of it."""
    started: list[str] = []

    def save(_parent: QWidget, _title: str, start: str, _kinds: str) -> tuple[str, str]:
        started.append(start)
        return str(tmp_path / "out"), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", save)
    path = tmp_path / "out.csv"
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    click(ledger, "save_feedings")
    assert Path(started[0]).name == "Test yard feedings.csv"
    assert path.read_text(encoding="utf-8") == feedings_csv(book.notebook)
    assert said(ledger, "ledger_said") == "3 feedings saved in out.csv."
    click(ledger, "read_feedings")
    assert said(ledger, "review_told") == "out.csv: 3 already here."
    click(ledger, "leave_feedings")
    zone = replace(book.notebook.zones["side"], name="Bäckle")
    book.edit(put(book.notebook, "zones", zone), "name")
    click(ledger, "save_feedings")
    assert path.read_bytes().startswith(b"\xef\xbb\xbfdate,"), "for spreadsheets"
    ledger.save_table(tmp_path / "nowhere" / "out.csv")
    assert "make it first, or choose another" in said(ledger, "ledger_said")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    click(ledger, "save_feedings")
    click(ledger, "read_feedings")
    assert ledger.review.isHidden()


def test_an_empty_ledger_says_what_to_do(qapp: QApplication, tmp_path: Path) -> None:
    book = open_book(tmp_path, FEED_DAY)
    section = opened(book)
    assert said(section, "ledger_empty") == EMPTY
    assert section.table.isHidden()
    assert section.save_button.isHidden()
    section.read_table(table_file(tmp_path, HEAD + "2024-05-04,Blend,Front,2\n"))
    click(section, "take_feedings")
    assert said(section, "ledger_empty") == ""
    assert section.table.rowCount() == 1
    put_away(section)
    book.close()


def test_a_bare_yard_leads_to_the_sketch(qapp: QApplication, tmp_path: Path) -> None:
    book = open_book(tmp_path, FEED_DAY, new_notebook("Bare"))
    section = opened(book, "")
    assert said(section, "ledger_empty") == NO_ZONE
    assert section.read_button.isHidden()
    put_away(section)
    book.close()


def test_every_control_has_its_names(ledger: LedgerSection, tmp_path: Path) -> None:
    ledger.read_table(table_file(tmp_path, HEAD + "2024-05-04,Blend,Front,2\n"))
    assert unnamed(ledger) == []


def test_a_narrow_page_leaves_out_what_no_row_brought(ledger: LedgerSection) -> None:
    """The blend carries neither phosphate nor potash."""
    hidden = [ledger.table.isColumnHidden(each) for each in OXIDES]
    assert hidden == [False, False]
    ledger.resize(480, 900)
    settle()
    assert [ledger.table.isColumnHidden(each) for each in OXIDES] == [True, True]
    ledger.resize(700, 900)
    settle()
    assert [ledger.table.isColumnHidden(each) for each in OXIDES] == [False, False]
