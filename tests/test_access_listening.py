"""What is different where a screen reader listens: its way of pressing, labels, announcements.

Looked at from outside too, through the bus that screen readers use on Linux; what can be held
without one is held here.
"""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from lawnbook.charts.marks import Frame, Picture
from lawnbook.desk import roles, status, widgets
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.roles import give_roles, one_of_several
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.describing import description
from lawnbook.desk.sketch.drawing import ZoneTool
from lawnbook.desk.status import KEPT, TAKEN_OUT
from lawnbook.desk.steps import Steps
from lawnbook.desk.widgets import PageScroll, QuietButton, Words, name_control
from lawnbook.desk.window import BookWindow
from lawnbook.yard.edits import remove
from tests.access_walk import PLACES, opened, settle, turn
from tests.desk_sample import DAY, sample
from tests.page_book import put_away
from tests.sketch_hand import sketch_yard


@pytest.fixture(autouse=True, scope="module")
def _listening() -> Iterator[None]:
    give_roles()
    QAccessible.setActive(True)
    yield
    QAccessible.setActive(False)


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    made = opened(tmp_path_factory.mktemp("heard"), sample("larkspur_corner"), DAY)
    yield made
    made.book.close()
    put_away(made)


@pytest.fixture
def heard(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, bool]]:
    """What is announced, and whether it is urgent."""
    told: list[tuple[str, bool]] = []

    def note(_: QWidget, words: str, *, urgent: bool = False) -> None:
        told.append((words, urgent))

    for module in (widgets, status):
        monkeypatch.setattr(module, "announce", note)
    return told


def named(root: QWidget, spoken: str) -> QAbstractButton:
    """A button that is shown, by its accessible name."""
    return next(
        each
        for each in root.findChildren(QAbstractButton)
        if each.accessibleName() == spoken and each.isVisible()
    )


def test_pages_sections_and_tools_are_turned_by_what_a_screen_reader_presses(
    window: BookWindow,
) -> None:
    """It switches a button without a click: nothing that waits for clicks would follow."""
    for page, sections in PLACES.items():
        tab = named(window, f"{page} page")
        tab.toggle()
        settle()
        assert window.page(page).isVisible()
        assert role_of(tab) == QAccessible.Role.RadioButton
        last = list(sections)[-1]
        named(window, f"{last} section").toggle()
        settle()
        assert named(window, f"{last} section").isChecked()
        assert getattr(window.page(page), "section", last) == last
    named(window.sketch, "Zone").toggle()
    assert isinstance(window.sketch.view.tool, ZoneTool)
    window.sketch.take("Pick")


def role_of(widget: QWidget) -> QAccessible.Role:
    """What it is called; the interface is let go at once."""
    return QAccessible.queryAccessibleInterface(widget).role()


def test_one_of_several_is_chosen_once_whoever_presses_it(qapp: QApplication) -> None:
    page = QWidget()
    button = QuietButton("One", "one", page)
    chosen: list[str] = []
    one_of_several(button, lambda: chosen.append("one"))
    button.click()
    assert chosen == ["one"]
    button.click()
    assert chosen == ["one"] * 2
    button.setChecked(False)
    button.toggle()
    assert chosen == ["one"] * 3
    button.click()
    assert chosen == ["one"] * 4
    roles.check_quietly(button, on=False)
    roles.check_quietly(button)
    assert chosen == ["one"] * 4
    put_away(page)


def labels_of(root: QWidget, box: QComboBox) -> list[str]:
    """What a box is called by the labels that lead to it."""
    labels = [each for each in root.findChildren(QLabel) if each.buddy() is box]
    return [each.text() or each.accessibleName() for each in labels]


def test_every_box_has_one_label_to_be_called_by(window: BookWindow) -> None:
    """On Linux a screen reader hears a box by its value alone, unless a label leads to it."""
    wrong = []
    for page, section in (("Plugs", "Then and now"), ("Feed", "Check"), ("Yard", "Walk round")):
        shown = turn(window, page, section)
        for box in shown.findChildren(QComboBox):
            if box.isVisible():
                role_of(box)
                settle()
                if len(labels_of(window, box)) != 1:
                    wrong.append(f"{page}, {section}: {box.objectName()}")
    assert wrong == []


def test_a_box_with_a_label_beside_it_gets_no_other(qapp: QApplication) -> None:
    page = QWidget()
    column = QVBoxLayout(page)
    plain, labelled, label = QComboBox(page), QComboBox(page), QLabel("Beside it", page)
    label.setBuddy(labelled)
    for box, name in ((plain, "Plain"), (labelled, "Labelled")):
        name_control(box, name, name)
        column.addWidget(box)
        role_of(box)
    settle()
    assert labels_of(page, plain) == ["Plain"]
    assert labels_of(page, labelled) == ["Beside it"]
    put_away(page)


def test_what_is_refused_is_heard_at_once_and_what_is_done_in_turn(
    qapp: QApplication, heard: list[tuple[str, bool]]
) -> None:
    words = Words("", "refuse")
    words.say("Too deep.", "refuse")
    words.say("Too deep.", "refuse")
    words.say("", "refuse")
    words.say("Saved.", "good")
    words.say("A quiet note.", "caption")
    assert heard == [("Too deep.", True), ("Saved.", False)]
    put_away(words)


def test_the_foot_is_heard_when_it_says_something_else(
    window: BookWindow, heard: list[tuple[str, bool]]
) -> None:
    book = window.book
    book.edit(remove(book.notebook, "waterings", next(iter(book.notebook.waterings))), "take out")
    book.undo()
    assert [each for each in heard if each[0] in (TAKEN_OUT, KEPT)] == [
        (TAKEN_OUT, False),
        (KEPT, False),
    ]
    window.status.say("The disk is full.", "refuse")
    assert heard[-1] == ("The disk is full.", True)


def test_a_scale_of_steps_tells_its_step_before_what_it_means(qapp: QApplication) -> None:
    steps = Steps("Sponge")
    assert steps.accessibleDescription() == "not chosen, of 0 to 4"
    name_control(steps, "sponge", "Sponge", "How springy it feels.")
    steps.set_value(3)
    assert steps.accessibleDescription() == "3, of 0 to 4. How springy it feels."
    steps.setAccessibleDescription(steps.accessibleDescription())
    steps.set_value(None)
    assert steps.accessibleDescription() == "not chosen, of 0 to 4. How springy it feels."
    put_away(steps)


def test_the_body_of_a_page_is_read_after_the_names_of_its_sections(window: BookWindow) -> None:
    for page in PLACES:
        shown = turn(window, page, next(iter(PLACES[page])))
        parts = [type(each) for each in shown.children() if isinstance(each, QWidget)]
        assert parts.index(SectionRow) < parts.index(PageScroll), page


def test_a_row_without_words_of_its_own_tells_its_figures_by_their_heads(
    qapp: QApplication,
) -> None:
    table = RecordTable(("Date", "Thatch\nin", "Note"), ("trial", "Trial"))
    table.show_rows([Row("a", ("1 May", "0.75", "")), Row("b", ("2 May", "", ""), "In words")])
    role = Qt.ItemDataRole.AccessibleDescriptionRole
    assert [table.model().index(row, 1).data(role) for row in (0, 1)] == [
        "Date 1 May; Thatch in 0.75",
        "In words",
    ]
    put_away(table)


def test_what_is_chosen_is_heard_without_the_list_of_all() -> None:
    """It is heard at every step from one shape to the next."""
    yard = sketch_yard()
    zone = next(iter(yard.zones))
    words = description(yard, Choice("zones", zone))
    assert words.startswith("Zone 1, 600 square feet: Front is chosen. ")
    assert "Zone 2 Back" not in words
    assert "Zone 2 Back" in description(yard, None)


def test_the_label_of_the_unit_says_what_it_is_the_unit_of(window: BookWindow) -> None:
    shown = turn(window, "Feed", "Check")
    labels = [each for each in shown.findChildren(QLabel) if each.buddy() is not None]
    of = next(each for each in labels if each.text() == "of")
    assert of.accessibleName() == "How much is counted as"


def test_a_picture_waits_for_its_place(qapp: QApplication) -> None:
    """A screen may ask for it before the page is laid out, when it is as low as a new widget."""
    drawn: list[Frame] = []

    def draw(frame: Frame) -> Picture:
        drawn.append(frame)
        return Picture(frame, ())

    view = MarksView("trial", "Trial")
    view.show_picture(draw, "Words", 200)
    view.resize(100, 30)
    view.grab()
    assert drawn == []
    view.resize(view.sizeHint())
    view.grab()
    assert len(drawn) == 1
    put_away(view)
