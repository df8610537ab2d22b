"""The plugs page: places, sections, the columns under the pointer, and what is next."""

from dataclasses import replace
from datetime import date
from typing import cast

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.charts.clock_face import Hole, clock_face_marks, face_told
from lawnbook.charts.marks import Disc, Frame
from lawnbook.desk.pages import plug_words
from lawnbook.desk.pages.chart_pointer import ChartPointer
from lawnbook.desk.pages.plugs import SECTIONS, PlugsPage
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_clash import clash_words, holes_apart_in
from lawnbook.plan.plug_model import Place
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import new_notebook, put
from lawnbook.yard.records import Core, Spot, Zone
from tests.desk_hand import child, press, shown, words
from tests.desk_sample import DAY
from tests.page_book import out_of_reading_order, settle, unnamed

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton
OURS = ("Columns", "Next")
MADE_HERE = tuple(each for each in SECTIONS if each != "Then and now")
"""That section has a file of its own, and so have its tests."""


@pytest.fixture
def page(qtbot: QtBot, book: OpenNotebook) -> PlugsPage:
    """The plugs page of Larkspur Corner at its first spot."""
    made = PlugsPage(book)
    shown(qtbot, made, book)
    return made


def pick(page: PlugsPage, steps: int) -> None:
    """Walk the list of places by keys."""
    page.picker.setFocus()
    key = Qt.Key.Key_Down if steps > 0 else Qt.Key.Key_Up
    for _ in range(abs(steps)):
        QTest.keyClick(page.picker, key)


@pytest.mark.parametrize("section", MADE_HERE)
def test_every_section_is_turned_to_and_shows_what_is_picked(page: PlugsPage, section: str) -> None:
    QTest.mouseClick(child(page, f"plugs_section_{section.lower()}"), LEFT)
    assert page.section == section
    pick(page, -1)
    assert page.place.kind == "zone"
    assert unnamed(page) == []


@pytest.mark.parametrize("section", ["Columns", "Trend", "Next"])
def test_a_new_plug_is_one_press_away(page: PlugsPage, book: OpenNotebook, section: str) -> None:
    """From any section, with a kept plug in the form: the form at the top, ready for a reading."""
    page.columns.open_plug(next(iter(book.notebook.cores)))
    page.turn_to(section)
    QTest.mouseClick(child(page, "plugs_new"), LEFT)
    settle()
    field = page.columns.entry.panel.form.editor("thatch_in")
    assert page.section == "Columns"
    assert not page.columns.entry.panel.is_open
    assert field.hasFocus()
    heading = child(page, "plugs_scroll").mapToGlobal(QPoint(0, 0)).y()
    assert 0 <= field.mapToGlobal(QPoint(0, 0)).y() - heading < 160


def test_a_place_picked_is_told_so_that_the_sketch_lights_it(
    page: PlugsPage, book: OpenNotebook
) -> None:
    told: list[tuple[str, str]] = []
    page.selected.connect(lambda table, record_id: told.append((table, record_id)))
    pick(page, -1)
    pick(page, -1)
    zone = next(iter(book.notebook.zones))
    assert told == [("zones", zone), ("", "")]
    assert page.place == Place("yard", "")


def test_a_zone_shows_the_mean_of_its_spots_and_each_of_them(
    page: PlugsPage, book: OpenNotebook
) -> None:
    pick(page, -1)
    plan = make_plan(book.notebook, DAY)
    assert words(page, "plugs_verdict") == plan.zone_thatch[0].evidence.verdict
    spots = cast(RecordTable, child(page, "plug_spots"))
    assert spots.rowCount() == 2
    listed = cast(RecordTable, child(page, "cores_list"))
    assert not listed.isColumnHidden(1)
    spots.setFocus()
    press(Qt.Key.Key_Down, Qt.Key.Key_Down)
    spot_id = spots.picked_id()
    press(Qt.Key.Key_Return)
    assert page.place == Place("spot", spot_id)
    assert listed.isColumnHidden(1)


def test_a_zone_selected_on_the_sketch_shows_its_mean_and_one_of_one_spot_that_spot(
    page: PlugsPage, book: OpenNotebook
) -> None:
    front, corner = list(book.notebook.zones)[:2]
    page.select("zones", front)
    assert page.place == Place("zone", front)
    page.select("zones", corner)
    assert page.place.kind == "spot"


def test_a_plug_selected_elsewhere_opens_in_the_form_once(
    page: PlugsPage, book: OpenNotebook
) -> None:
    core = list(book.notebook.cores.values())[-1]
    page.turn_to("Next")
    page.select("cores", core.id)
    assert page.section == "Columns"
    assert page.place == Place("spot", core.spot)
    assert page.columns.entry.panel.open_id == core.id
    page.turn_to("Next")
    page.select("cores", core.id)
    assert page.section == "Next"


def test_a_column_clicked_on_the_chart_opens_its_plug(
    qtbot: QtBot, page: PlugsPage, book: OpenNotebook
) -> None:
    qtbot.waitUntil(
        lambda: page.findChild(QWidget, "profile_columns_pointer") is not None, timeout=9000
    )
    pointer = child(page, "profile_columns_pointer")
    at = QPoint(round(pointer.width() * 0.45), pointer.height() // 2)
    QTest.mouseMove(pointer, at)
    assert cast(ChartPointer, pointer).marked() == ()
    QTest.mouseClick(pointer, LEFT, pos=at)
    ringed = [hit.key for hit in cast(ChartPointer, pointer).marked()]
    assert ringed == [page.columns.entry.panel.open_id]
    opened = page.columns.entry.panel.open_id
    assert book.notebook.cores[opened].spot == page.place.id
    assert child(page, "cores_thatch_in").hasFocus()


def test_the_weightiest_finding_stands_under_the_columns_and_leads_on(
    page: PlugsPage, book: OpenNotebook
) -> None:
    plan = make_plan(book.notebook, DAY)
    zone_id = book.notebook.spots[page.place.id].zone or ""
    found = plug_words.findings_at(plan, page.place, zone_id)
    assert words(page, "plugs_finding") == found[0].sentence
    assert words(page, "plugs_more") == f"{len(found) - 1} more under Next"
    QTest.mouseClick(child(page, "plugs_more"), LEFT)
    assert page.section == "Next"
    assert [words(page, f"finding_{n}_words") for n in range(len(found))] == [
        each.sentence for each in found
    ]


@pytest.mark.qt_log_ignore("This plugin does not support")
def test_a_finding_opens_its_rule_and_source(page: PlugsPage, book: OpenNotebook) -> None:
    page.turn_to("Next")
    finding = plug_words.findings_at(make_plan(book.notebook, DAY), page.place, "")[0]
    QTest.mouseClick(child(page, "finding_0_rule"), LEFT)
    panel = next(
        each for each in QApplication.topLevelWidgets() if each.objectName() == "working_panel"
    )
    told = " ".join(each.text() for each in panel.findChildren(QLabel))
    assert finding.rule in told
    assert finding.source in told
    QTest.keyClick(panel, Qt.Key.Key_Escape)


def test_what_is_next_shows_each_spot_with_its_clock_face(
    page: PlugsPage, book: OpenNotebook
) -> None:
    pick(page, -2)
    page.turn_to("Next")
    plan = make_plan(book.notebook, DAY)
    for plug in plan.next_plugs:
        assert plug.place is not None
        face = child(page, f"next_{plug.spot_id}_face").accessibleDescription()
        assert face.endswith(f"next at {plug.place.clock} o'clock")
    first = next(each for each in plan.next_plugs if each.first)
    assert words(page, "next_first") == f"Look here first: {first.why_first}"
    hidden = len(plan.findings) - 8
    assert words(page, "next_findings_all") == f"Show {hidden} more"
    QTest.mouseClick(child(page, "next_findings_all"), LEFT)
    assert words(page, f"finding_{len(plan.findings) - 1}_words") == plan.findings[-1].sentence
    assert child(page, "finding_8_rule").hasFocus()
    assert words(page, "next_findings_all") == ""
    QTest.mouseClick(child(page, f"next_{first.spot_id}_turn"), LEFT)
    assert page.place == Place("spot", first.spot_id)


def test_a_spot_is_left_untreated_and_the_sods_history_kept(
    page: PlugsPage, book: OpenNotebook
) -> None:
    page.turn_to("Next")
    spot_id, zone = page.place.id, next(iter(book.notebook.zones.values()))
    QTest.mouseClick(cast(QCheckBox, child(page, "next_comparison")), LEFT, pos=QPoint(10, 15))
    assert book.notebook.spots[spot_id].comparison
    sod = cast(QLineEdit, child(page.next, "established_sod_from"))
    sod.setFocus()
    QTest.keyClicks(sod, "a farm up the valley")
    QTest.keyClick(sod, Qt.Key.Key_Tab)
    began = book.notebook.zones[zone.id].established
    assert began is not None
    assert began.sod_from == "a farm up the valley"
    assert zone.established is not None
    assert began == replace(zone.established, sod_from="a farm up the valley")


def test_tab_goes_through_the_page_as_it_is_read(page: PlugsPage) -> None:
    # Tall enough that nothing scrolls, or what scrolls away stands above what does not.
    page.resize(620, 1700)
    settle(200)
    assert out_of_reading_order(page, 20) == []


def test_a_zone_without_a_spot_says_so_and_takes_one(
    qtbot: QtBot, empty_book: OpenNotebook
) -> None:
    ring = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
    zones = [Zone(id=each, name=each, outline_ft=ring) for each in ("front", "back")]
    empty_book.edit(put(empty_book.notebook, "zones", *zones), "zones")
    spot = Spot(id="elm", name="Elm", zone="front")
    empty_book.edit(put(empty_book.notebook, "spots", spot), "spot")
    page = PlugsPage(empty_book)
    shown(qtbot, page, empty_book)
    page.select("zones", "back")
    assert child(page, "add_spot").isVisible()
    assert not child(page, "plugs_verdict").isVisible()
    QTest.mouseClick(child(page, "add_spot"), LEFT)
    added = empty_book.notebook.spots[page.place.id]
    assert added.zone == "back"
    assert words(page, "plugs_verdict").startswith("Cannot say yet")
    for section in OURS:
        page.turn_to(section)
    box = cast(QComboBox, child(page, "cores_spot"))
    assert box.currentData() == added.id


def test_holes_are_measured_round_the_mark() -> None:
    """Neighbours on the ring are 6.2 in apart, opposite holes 24 in: plane trigonometry."""
    core = Core(id="a", spot="s", date=date(2026, 5, 1), clock=12)
    assert holes_apart_in(core, replace(core, clock=1)) == pytest.approx(6.2117, abs=1e-3)
    assert holes_apart_in(core, replace(core, clock=6)) == pytest.approx(24.0)
    assert holes_apart_in(core, replace(core, ring_in=24.0)) == pytest.approx(12.0)
    assert holes_apart_in(core, replace(core, clock=None)) == float("inf")


@pytest.mark.parametrize(
    ("clock", "ring_in", "told"),
    [
        (12, None, "That is the hole of 1 May 2026 (12 o'clock)"),
        (12, 14.0, "That is 2 in from the hole of 1 May 2026"),
        (1, 12.0, ""),
        (None, None, ""),
    ],
)
def test_a_place_in_an_old_hole_is_told(
    clock: int | None, ring_in: float | None, told: str
) -> None:
    old = Core(id="old", spot="s", date=date(2026, 5, 1), clock=12)
    held = new_notebook("Home")
    held = replace(held, cores={"old": old})
    new = Core(id="new", spot="s", date=date(2026, 9, 1), clock=clock, ring_in=ring_in)
    said = clash_words(held, new)
    assert said.startswith(told) if told else said == ""
    assert clash_words(held, replace(new, date=date(2026, 4, 1))) == ""
    assert clash_words(held, old) == ""


def test_the_clock_face_is_to_scale_with_north_up() -> None:
    frame = Frame(100.0, 100.0)
    marks = clock_face_marks((Hole(12, 12.0), Hole(3, 24.0)), Hole(6, 12.0), frame).marks
    up, right, down = (each.at for each in marks if isinstance(each, Disc))
    assert up[0] == pytest.approx(50.0)
    assert 50.0 - up[1] == pytest.approx(down[1] - 50.0)
    assert right[0] - 50.0 == pytest.approx(2 * (50.0 - up[1]))
    assert face_told((Hole(12, 12.0),), None) == "Old holes at 12 o'clock"
    assert face_told((), Hole(6, 12.0)) == "No old hole with an hour; next at 6 o'clock"
