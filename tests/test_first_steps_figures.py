"""The first steps open how each figure came about: defaults, the usual range, a jar, the steps."""

from collections.abc import Iterator
from datetime import date

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from lawnbook.desk.figures import hand_on
from lawnbook.desk.pages.first_steps import FirstStepsSection
from lawnbook.desk.pages.first_steps_assumed import AssumedCard
from lawnbook.desk.pages.first_steps_soil import JarPanel
from lawnbook.desk.pages.first_steps_sprinklers import SprinklersCard
from lawnbook.desk.widgets import Caption, LinkButton
from lawnbook.desk.window import BookWindow
from lawnbook.plan.assumed import square_of, with_usual_rate
from lawnbook.plan.assumed_workings import assumed_workings, span_workings
from lawnbook.plan.assumptions import Assumption, assumptions
from lawnbook.plan.make import make_plan
from lawnbook.plan.rate_span import rate_span
from lawnbook.plan.sensitivity import numbers_of, reckoned, sensitivities_of
from lawnbook.yard.notebook import Notebook
from tests.access_walk import opened, settle, turn
from tests.figure_walk import unopened
from tests.page_book import put_away
from tests.plan_yards import yard, zone

ON = date(2026, 6, 15)


def notebook() -> Notebook:
    """A zone of which nothing was measured: a square, and the usual rate of rotors."""
    square = zone(outline_ft=square_of(2000, (0, 0)), assumed=("square",))
    return yard(with_usual_rate(square, "rotors"))


@pytest.fixture(scope="module")
def steps(
    qapp: QApplication, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[FirstStepsSection]:
    """The first steps in a window, all unfolded."""
    window: BookWindow = opened(tmp_path_factory.mktemp("steps"), notebook(), ON)
    turn(window, "Yard", "First steps")
    found = window.findChild(FirstStepsSection)
    assert found is not None
    yield found
    window.book.close()
    put_away(window)


def test_every_default_opens_its_working(steps: FirstStepsSection) -> None:
    """By a click on either of its words, and by F1 on the link that changes it."""
    card = steps.findChild(AssumedCard)
    assert card is not None
    rows = assumptions(notebook(), make_plan(notebook(), ON))
    links = [each for each in card.findChildren(LinkButton) if each.isVisible()]
    words = [each for each in card.findChildren(Caption) if each.isVisible()]
    assert len(links) == len(words) == len(rows) >= 8
    for widget, row in zip((*links, *words), (*rows, *rows), strict=True):
        hand = hand_on(widget)
        assert hand is not None
        assert row.value in (made := hand.workings())[0].value or made[0].label == row.what


def test_defaults_name_their_sources_and_what_rests_on_them() -> None:
    """Six inches of roots feed the rooted soil; the usual rate is the middle of its range."""
    plan = make_plan(notebook(), ON)
    made = {each.what: assumed_workings(notebook(), plan, each) for each in _assumed()}
    roots, rooted = made["Root depth"]
    assert "Six inches of roots" in roots.source
    assert rooted.label == "Front: Rooted soil"
    assert sensitivities_of(rooted)[0].name == "Root depth"
    rate = made["Precipitation rate"][0]
    assert rate.filled == "√(0.20 × 0.80)"
    assert "University of Florida" in rate.source
    assert [each.label for each in made["Outline"][1:]] == ["Area", "Edge"]


def _assumed() -> tuple[Assumption, ...]:
    return assumptions(notebook(), make_plan(notebook(), ON))


def test_a_range_tells_its_minutes_at_both_ends() -> None:
    """As the plan has them: four times the minutes at a fourth of the rate."""
    book = notebook()
    front = book.zones["z1"]
    span = rate_span(book, front, "rotors", ON)
    made = span_workings(book, front, "rotors", span, ON)
    runs = [each for each in made if each.figure == "run_minutes"]
    inches = [each for each in made if each.figure == "inch_minutes"]
    for found, ends in (
        (runs, (span.low.run_minutes, span.high.run_minutes)),
        (inches, (span.inch_low, span.inch_high)),
    ):
        for working, minutes in zip(found, ends, strict=True):
            assert working.reckoning is not None
            assert reckoned(working.reckoning, numbers_of(working)) == pytest.approx(minutes)


def test_the_range_on_the_card_and_the_jar_open(steps: FirstStepsSection) -> None:
    """No figure of the section is left without a working, whatever is open."""
    card = steps.cards["sprinklers"]
    assert isinstance(card, SprinklersCard)
    card.kind.setCurrentIndex(2)
    card.kind.activated.emit(2)
    jar = steps.findChild(JarPanel)
    assert jar is not None
    jar.unfold()
    for line, depth in zip(jar.findChildren(QLineEdit), ("2", "1", "1"), strict=True):
        QTest.keyClicks(line, depth)
    settle()
    assert "50" in jar.answer.text()
    assert unopened(steps, {}) == []
    hand = hand_on(jar.answer)
    assert hand is not None
    assert [each.value for each in hand.workings()][:1] == ["50\u00a0%"]
    heads = [hand_on(each.fold.heading) for each in steps.cards.values()]
    assert [bool(each and each.workings()) for each in heads] == [
        True, False, True, False, False, True, False,
    ]  # fmt: skip
