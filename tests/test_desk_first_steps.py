"""First steps on the yard page: cards in any order, and the ways that lead to and from them."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.agronomy.usual_rates import USUAL_RATES
from lawnbook.desk.pages import weather_card
from lawnbook.desk.pages.first_steps import CARDS
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.yard import FIRST_STEPS, OVERVIEW, YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.plan.assumed import is_assumed_square
from lawnbook.plan.first_steps import ORDER
from lawnbook.reading import Reading, reading_as
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import put
from lawnbook.yard.records import ClimateMonth, Zone

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton
ZONE = Zone(id="front", name="Front", outline_ft=((0, 0), (40, 0), (40, 25), (0, 25)))


class Steps:
    """A hand at the first steps of a window."""

    def __init__(self, qtbot: QtBot, window: BookWindow) -> None:
        self.qtbot, self.window, self.book = qtbot, window, window.book

    def part(self, name: str) -> QWidget:
        """A control by its name, within the yard page or anywhere in the window."""
        page = self.window.page("Yard")
        found = page.findChild(QWidget, name) or self.window.findChild(QWidget, name)
        assert found is not None, name
        return found

    def click(self, name: str) -> None:
        """Click in the middle of a control that is in sight."""
        assert self.part(name).isVisible(), name
        QTest.mouseClick(self.part(name), LEFT)
        self.qtbot.wait(5)

    def unfold(self, step: str) -> None:
        """Open a step's card, if it is folded."""
        if self.part(f"first_{step}").isHidden():
            self.click(f"first_{step}_fold")

    def fill(self, name: str, text: str) -> None:
        """Type into a field and leave it by Tab."""
        field = self.part(name)
        field.setFocus()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Tab)
        self.qtbot.wait(5)

    def choose(self, name: str, words: str) -> None:
        """Choose in a list by the arrow keys."""
        box = self.part(name)
        assert isinstance(box, QComboBox)
        box.setFocus()
        QTest.keyClick(box, Qt.Key.Key_Home)
        while not box.currentText().startswith(words):
            assert box.currentIndex() < box.count() - 1, words
            QTest.keyClick(box, Qt.Key.Key_Down)
        self.qtbot.wait(5)

    def told(self, step: str) -> str:
        """How far a step is, in its heading."""
        return self.part(f"first_{step}_fold").accessibleDescription()

    def words(self, name: str) -> str:
        """What a label says."""
        label = self.part(name)
        assert isinstance(label, QLabel)
        return label.text()

    @property
    def page(self) -> YardPage:
        """The yard page."""
        page = self.window.page("Yard")
        assert isinstance(page, YardPage)
        return page


def hand_at(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> Iterator[Steps]:
    """For a fixture: a hand at a notebook's window, which is closed afterwards."""
    window = BookWindow(book, settings)
    window.resize(1280, 800)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(lambda: window.held_plan is not None)
    qtbot.wait(10)
    yield Steps(qtbot, window)
    window.close()
    window.deleteLater()


@pytest.fixture
def steps(qtbot: QtBot, empty_book: OpenNotebook, settings: Settings) -> Iterator[Steps]:
    yield from hand_at(qtbot, empty_book, settings)


def test_an_empty_book_opens_at_its_first_steps_with_the_first_one_open(steps: Steps) -> None:
    assert steps.page.section == FIRST_STEPS
    assert tuple(kind.STEP for kind in CARDS) == ORDER
    open_now = [step for step in ORDER if not steps.part(f"first_{step}").isHidden()]
    assert open_now == ["size"]
    assert all(steps.told(step).startswith("Open: ") for step in ORDER)


def test_a_book_of_years_opens_at_the_overview_and_the_steps_are_a_menu_away(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = BookWindow(book, settings)
    window.show()
    qtbot.waitUntil(lambda: window.held_plan is not None)
    window.turn_to("Yard")
    hand = Steps(qtbot, window)
    assert hand.page.section == OVERVIEW
    assert hand.part("yard_section_first steps").isHidden()
    window.lead_to("First steps: habit")
    assert hand.page.section == FIRST_STEPS
    assert not hand.part("first_habit").isHidden()
    hand.page.turn_to(OVERVIEW)
    assert not hand.part("yard_section_first steps").isHidden()
    window.close()
    window.deleteLater()


SIZES = (
    ("Length", {"length": "40", "width": "25' 6\""}, 1020.0, False),
    ("A circle", {"across": "30"}, 706.86, False),
    ("Only", {"area": "1,250"}, 1250.0, True),
    ("Only", {"area": "100 m2"}, 1076.39, True),
)
NO_SIZES = (
    ("Length", "length", "", "missing"),
    ("Length", "length", "long", "not a length"),
    ("Only", "area", "-4", "larger than nothing"),
    ("A circle", "across", "0", "larger than nothing"),
)


def test_a_size_is_typed_in_any_way_that_it_is_known(steps: Steps) -> None:
    for way, figures, area, is_square in SIZES:
        steps.choose("first_size_way", way)
        for name, text in figures.items():
            steps.fill(f"first_size_{name}", text)
        steps.fill("first_size_name", f"{way} {area:.0f}")
        steps.click("first_put_down")
        *_, zone = steps.book.notebook.zones.values()
        assert zone_area_sqft(zone) == pytest.approx(area, rel=1e-3)
        assert (zone.name, is_assumed_square(zone)) == (f"{way} {area:.0f}", is_square)
        assert steps.told("size").startswith("At a default" if is_square else "Done")
        # The next one that is open lies unfolded below; this one stays.
        assert not steps.part("first_place").isHidden()
        assert not steps.part("first_size").isHidden()
    assert len(steps.book.notebook.zones) == len(SIZES)


def test_a_size_that_cannot_be_is_told_below_and_keeps_nothing(steps: Steps) -> None:
    for way, name, text, told in NO_SIZES:
        steps.choose("first_size_way", way)
        field = steps.part(f"first_size_{name}")
        assert isinstance(field, QLineEdit)
        field.clear()
        steps.fill(f"first_size_{name}", text)
        if way == "Length":
            steps.fill("first_size_width", "20")
        steps.click("first_put_down")
        assert told in steps.words("first_size_problem")
    assert not steps.book.notebook.zones


def test_metric_figures_are_metres(steps: Steps) -> None:
    with reading_as(Reading(units="metric")):
        steps.fill("first_size_length", "10")
        steps.fill("first_size_width", "8")
        steps.click("first_put_down")
    (zone,) = steps.book.notebook.zones.values()
    assert zone_area_sqft(zone) == pytest.approx(80 * 10.7639, rel=1e-3)


def test_who_does_not_know_the_rate_sees_what_the_range_does_before_taking_it(
    steps: Steps,
) -> None:
    steps.click("first_size_leave")
    months = [ClimateMonth(id=f"{m:02d}", month=m, eto_in_per_day=0.2) for m in range(1, 13)]
    steps.book.edit(put(steps.book.notebook, "climate", *months), "climate")
    steps.unfold("sprinklers")
    steps.choose("first_kind", "rotors")
    shown = steps.part("first_span").accessibleDescription()
    assert "0.20 in/h" in shown
    assert "0.80 in/h" in shown
    assert "by the plan" in shown
    assert "4.0 times" in steps.words("first_span_words")
    (zone,) = steps.book.notebook.zones.values()
    assert zone.precipitation_in_per_h is None
    steps.click("first_take_rate")
    (zone,) = steps.book.notebook.zones.values()
    assert zone.precipitation_in_per_h == USUAL_RATES["rotors"].middle_in_per_h
    assert steps.told("sprinklers").startswith("At a default: the usual rate of rotors")


def test_a_jar_is_told_with_its_doubt_and_taken_over_only_when_asked(steps: Steps) -> None:
    steps.click("first_size_leave")
    steps.unfold("ground")
    steps.click("first_jar_fold")
    for layer, depth in (("sand", "1 3/4"), ("silt", "2"), ("clay", "1 1/4")):
        steps.fill(f"first_jar_{layer}", depth)
    told = steps.words("first_jar_answer")
    assert "35 % sand, 40 % silt, 25 % clay: loam." in told.replace("\u00a0", " ")
    assert "clay loam" in told
    (zone,) = steps.book.notebook.zones.values()
    assert zone.soil is None
    steps.click("first_jar_take")
    (zone,) = steps.book.notebook.zones.values()
    assert zone.soil == "loam"
    assert steps.told("ground").startswith("Done: loam")


def test_a_ribbon_is_told_and_what_stands_for_its_class(steps: Steps) -> None:
    steps.click("first_size_leave")
    steps.unfold("ground")
    steps.click("first_ribbon_fold")
    steps.fill("first_ribbon_length", "1 1/2")
    steps.choose("first_ribbon_feel", "gritty")
    assert "sandy clay loam" in steps.words("first_ribbon_answer")
    steps.click("first_ribbon_take")
    (zone,) = steps.book.notebook.zones.values()
    assert zone.soil == "clay loam"
    steps.choose("first_ribbon_holds", "not even")
    assert steps.words("first_ribbon_answer") == "By feel: sand."
    assert steps.part("first_ribbon_length").isHidden()


def test_a_step_is_left_and_taken_up_again(steps: Steps) -> None:
    steps.click("first_place_fold")
    steps.click("first_place_leave")
    assert steps.told("place").startswith("At a default")
    steps.click("first_place_leave")
    assert steps.told("place").startswith("Open")
    steps.book.undo()
    assert "place" in steps.book.notebook.yard.steps_left


def test_the_first_plug_gets_a_spot_in_the_zone_and_leads_to_the_form(steps: Steps) -> None:
    steps.click("first_size_leave")
    steps.unfold("plug")
    caution = steps.part("first_plug").findChildren(QLabel)
    assert any("buried lines" in each.text() for each in caution)
    steps.click("first_enter_plug")
    (spot,) = steps.book.notebook.spots.values()
    (zone,) = steps.book.notebook.zones
    assert spot.zone == zone
    assert spot.at_ft is not None
    assert steps.window.place == "Plugs"
    focus = QApplication.focusWidget()
    steps.qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
    assert focus is not None


def test_steps_of_several_zones_are_of_the_one_that_is_picked(steps: Steps) -> None:
    back = replace(ZONE, id="back", name="Back")
    steps.book.edit(put(steps.book.notebook, "zones", ZONE, back), "zones")
    steps.qtbot.wait(20)
    assert not steps.part("first_zone").isHidden()
    steps.window.select("zones", "back")
    assert steps.window.place == "Yard"
    steps.unfold("ground")
    steps.choose("first_zone_soil", "sandy loam")
    assert steps.book.notebook.zones["back"].soil == "sandy loam"
    assert steps.book.notebook.zones["front"].soil is None
    assert "1 of 2 zones" in steps.told("ground")


def test_every_button_leads_to_its_tool_page_or_file(
    steps: Steps, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps.click("first_draw")
    assert steps.window.sketch.drawing
    steps.click("first_trace")
    assert steps.page.section == "Backdrop"
    steps.page.turn_to(FIRST_STEPS)
    steps.click("first_size_leave")
    asked: list[object] = []
    monkeypatch.setattr(weather_card, "choose_weather", lambda *args: asked.append(args))
    steps.click("first_read_weather")
    assert steps.page.section == OVERVIEW
    assert len(asked) == 1
    steps.page.turn_to(FIRST_STEPS)
    steps.unfold("sprinklers")
    steps.click("first_heads")
    head = steps.part("sketch_tool_head")
    assert isinstance(head, QAbstractButton)
    assert head.isChecked()
    steps.click("first_cans")
    assert steps.window.place == "Water"
    assert not steps.part("tests_part").isHidden()


def test_every_default_has_a_link_that_leads_to_where_it_is_told(steps: Steps) -> None:
    steps.click("first_size_leave")
    steps.unfold("sprinklers")
    links = [
        each
        for each in steps.part("first_assumed").findChildren(QAbstractButton)
        if not each.isHidden()
    ]
    assert len(links) >= 8
    by_name = {each.accessibleName(): each for each in links}
    QTest.mouseClick(by_name["Change: Soil"], LEFT)
    assert not steps.part("first_ground").isHidden()
    QTest.mouseClick(by_name["Change: Target depth"], LEFT)
    assert steps.page.section == OVERVIEW
    assert QApplication.focusWidget() is steps.part("yard_target_depth_in")
    steps.page.turn_to(FIRST_STEPS)
    links = steps.part("first_assumed").findChildren(QAbstractButton)
    depletion = next(e for e in links if e.accessibleName() == "Change: Allowed depletion")
    QTest.mouseClick(depletion, LEFT)
    assert steps.window.place == "Water"


def test_put_away_they_are_gone_and_come_back_from_the_menu(steps: Steps) -> None:
    steps.click("first_put_away")
    assert steps.page.section == OVERVIEW
    steps.qtbot.waitUntil(lambda: steps.part("yard_section_first steps").isHidden())
    steps.window.turn_to("Water")
    steps.qtbot.wait(10)
    assert steps.part("step_line").isHidden()
    steps.window.lead_to(FIRST_STEPS)
    assert steps.page.section == FIRST_STEPS
    assert "put away" not in steps.book.notebook.yard.steps_left


def test_an_empty_page_names_the_step_it_waits_for_and_leads_there(steps: Steps) -> None:
    for page in ("Plugs", "Water", "Feed", "Season", "Sheet"):
        steps.window.turn_to(page)
        steps.qtbot.waitUntil(lambda: steps.part("step_line").isVisible())
        assert "first zone" in steps.words("step_line_words"), page
        steps.click("step_line_go")
        assert steps.window.place == "Yard"
        assert steps.page.section == FIRST_STEPS
        assert QApplication.focusWidget() is steps.part("first_size_fold")


def test_the_line_below_a_page_follows_what_is_told(steps: Steps) -> None:
    steps.click("first_size_leave")
    steps.window.turn_to("Water")
    steps.qtbot.waitUntil(lambda: "weather" in steps.words("step_line_words"))
    steps.window.turn_to("Plugs")
    steps.qtbot.waitUntil(lambda: "first plug" in steps.words("step_line_words"))
    steps.window.turn_to("Yard")
    steps.qtbot.waitUntil(lambda: steps.part("step_line").isHidden())


def cut_off(section: QWidget) -> list[str]:
    """What in a section has less room than its words need."""
    found = []
    for each in section.findChildren(QWidget):
        if not each.isVisible() or not isinstance(each, QLabel | QAbstractButton | QLineEdit):
            continue
        least = each.heightForWidth(each.width()) if each.hasHeightForWidth() else 0
        words = each.text() or each.objectName()
        if each.height() < least:
            found.append(f"{words}: {each.height()} of {least} high")
        if each.mapTo(section, each.rect().topRight()).x() > section.width():
            found.append(f"{words}: beyond the right edge")
        one_line = isinstance(each, QLabel) and not each.wordWrap()
        if one_line and each.width() < each.sizeHint().width() - 1:
            found.append(f"{words}: {each.width()} of {each.sizeHint().width()} wide")
    return found


def test_nothing_of_the_cards_is_cut_off(steps: Steps) -> None:
    steps.click("first_size_leave")
    for fold in steps.page.findChildren(Fold):
        fold.unfold()
    section = steps.part("first_steps")
    for size in ((1220, 700), (1280, 800), (1440, 900)):
        steps.window.resize(*size)
        for _ in range(100):
            steps.qtbot.wait(10)
            if not cut_off(section):
                break
        assert cut_off(section) == [], size
