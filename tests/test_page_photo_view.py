"""Marking a photograph by hand and by keys: each drag one edit, each nudge one pixel."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton

from lawnbook.desk.pages import photo_marks, photo_words
from lawnbook.desk.pages.photo_bench import PhotoBench
from lawnbook.desk.pages.photo_handles import Handle, Loupe
from lawnbook.desk.pages.photo_keepers import KeptPhoto
from lawnbook.desk.pages.photo_view import PhotoView
from lawnbook.desk.theme import apply_theme
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.record_plug import PhotoRuler
from tests.page_book import click, part, put_away, settle, text_of, type_into, unnamed
from tests.photo_book import PLUG_DAY, RULER, SIZE_PX, at, drag, key, photo, photo_book

NEAR = 0.004
"""Half a pixel of the view, as a share of the picture."""


class Bench:
    """A bench on one photograph of the notebook."""

    def __init__(self, folder: Path, today: date, ruler: PhotoRuler | None) -> None:
        self.photo = photo("c2", ruler)
        self.book = photo_book(folder, today, self.photo)
        self.bench = PhotoBench()
        self.bench.resize(640, 760)
        self.bench.show_photo(KeptPhoto(self.book, self.photo.id))
        self.book.subscribe(lambda _: self.bench.refresh())
        self.bench.show()
        self.bench.activateWindow()
        settle()

    @property
    def view(self) -> PhotoView:
        """The picture."""
        return self.bench.view

    @property
    def ruler(self) -> PhotoRuler:
        """The marks as the notebook holds them."""
        held = self.book.notebook.photos[self.photo.id].ruler
        assert held is not None
        return held

    def handle(self, name: str) -> Handle:
        """A mark's handle."""
        return part(self.bench, Handle, f"mark_{name}")

    def close(self) -> None:
        """Put all away."""
        put_away(self.bench)
        self.book.close()


@pytest.fixture
def fresh(qapp: QApplication, tmp_path: Path, today: date) -> Iterator[Bench]:
    """A photograph without marks."""
    apply_theme(qapp, "light")
    made = Bench(tmp_path, today, None)
    yield made
    made.close()


@pytest.fixture
def marked(qapp: QApplication, tmp_path: Path, today: date) -> Iterator[Bench]:
    """A photograph with all its marks."""
    apply_theme(qapp, "light")
    made = Bench(tmp_path, today, RULER)
    yield made
    made.close()


def close_to(found: Point, wanted: Point) -> bool:
    """Whether a hand that points by whole pixels of the view came as near as it can."""
    return abs(found[0] - wanted[0]) < NEAR and abs(found[1] - wanted[1]) < NEAR


def edits(book: OpenNotebook) -> int:
    """How many edits can be undone; all of them are, and done again."""
    count = 0
    while book.undo_label:
        book.undo()
        count += 1
    for _ in range(count):
        book.redo()
    return count


def test_a_plug_is_read_with_five_drags(fresh: Bench) -> None:
    bench, view = fresh.bench, fresh.view
    drag(view, (0.1, 0.9), (0.35, 0.9))
    drag(view, (0.4, 0.2), (0.7, 0.2))
    drag(view, (0.5, 0.45), (0.5, 0.4))
    drag(view, (0.6, 0.3), (0.6, 0.42))
    bench.turn_to("Deepest roots")
    drag(view, (0.55, 0.7), (0.55, 0.8))
    assert [close_to(*pair) for pair in zip(fresh.ruler.scale, RULER.scale, strict=True)] == [
        True,
        True,
    ]
    assert len(fresh.ruler.thatch_ends) == 2
    assert fresh.ruler.roots_end is not None
    assert edits(fresh.book) == 5, "each drag is one edit"
    assert "Thatch 0.6" in text_of(bench, "photo_state")
    click(bench, "photo_take")
    core = fresh.book.notebook.cores["c2"]
    assert core.thatch_in == pytest.approx((0.6, 0.66), abs=0.02)
    assert core.root_depth_in == pytest.approx(1.8, abs=0.02)
    assert core.resolution_in is not None
    assert "0.50 →" in text_of(bench, "photo_done")
    fresh.book.undo()
    assert fresh.book.notebook.cores["c2"].thatch_in == (0.5,)


def test_two_presses_make_a_line_as_well_as_a_drag(fresh: Bench) -> None:
    for share in ((0.1, 0.9), (0.35, 0.9)):
        QTest.mouseClick(fresh.view, Qt.MouseButton.LeftButton, pos=at(fresh.view, share))
        QTest.mouseMove(fresh.view, at(fresh.view, (0.35, 0.9)))
    assert close_to(fresh.ruler.scale[1], (0.35, 0.9))


def test_the_picture_keeps_its_place_as_the_scale_is_done(fresh: Bench) -> None:
    """The next press must meet what the eye was on."""
    before = fresh.view.geometry()
    drag(fresh.view, (0.1, 0.9), (0.35, 0.9))
    settle()
    assert part(fresh.bench, QPushButton, "photo_step_crowns").isChecked()
    assert fresh.view.geometry() == before


def test_a_very_short_scale_is_a_question(fresh: Bench) -> None:
    """Shorter than a twentieth of the picture's longer side; a longer one is taken as it is."""
    width = SIZE_PX[0]
    share = photo_words.SHORT_SCALE * max(SIZE_PX) / width
    for factor, asked in ((0.9, True), (1.1, False)):
        scale = ((0.1, 0.9), (0.1 + factor * share, 0.9))
        told, role = photo_words.state_words(replace(RULER, scale=scale), SIZE_PX)
        assert ("So short a scale reads poorly" in told) is asked
        assert (role == "ask") is asked
    drag(fresh.view, (0.1, 0.9), (0.1 + 0.8 * share, 0.9))
    assert photo_words.SHORT in text_of(fresh.bench, "photo_state")


def test_two_presses_on_one_place_make_no_line_and_that_is_said(fresh: Bench) -> None:
    hint = []
    for _ in range(2):
        QTest.mouseClick(fresh.view, Qt.MouseButton.LeftButton, pos=at(fresh.view, (0.1, 0.9)))
        hint.append(text_of(fresh.bench, "photo_hint"))
    assert hint == [photo_words.OTHER_END, photo_words.SAME_END]
    assert fresh.book.notebook.photos[fresh.photo.id].ruler is None
    QTest.mouseClick(fresh.view, Qt.MouseButton.LeftButton, pos=at(fresh.view, (0.35, 0.9)))
    assert close_to(fresh.ruler.scale[1], (0.35, 0.9))


def test_a_first_scale_that_is_refused_is_said_and_may_be_drawn_again(fresh: Bench) -> None:
    fresh.view.zoom_by(12)
    drag(fresh.view, (0.5, 0.5), (0.502, 0.5))
    assert "The two ends of the scale lie on the same place" in text_of(fresh.bench, "photo_state")
    assert part(fresh.bench, QPushButton, "photo_step_scale").isChecked()
    fresh.view.show_whole()
    drag(fresh.view, (0.1, 0.9), (0.35, 0.9))
    assert part(fresh.bench, QPushButton, "photo_step_crowns").isChecked()


def test_without_a_scale_nothing_can_be_taken(fresh: Bench) -> None:
    assert not part(fresh.bench, QPushButton, "photo_take").isEnabled()
    assert "Mark the scale first" in text_of(fresh.bench, "photo_state")
    for step in ("crowns", "thatch_ends", "deepest_roots"):
        assert not part(fresh.bench, QPushButton, f"photo_step_{step}").isEnabled()


def test_a_plug_is_read_by_keys_alone(fresh: Bench) -> None:
    view = fresh.view
    view.setFocus()
    for step in ("Scale", "Crowns", "Thatch ends"):
        fresh.bench.turn_to(step)
        view.setFocus()
        key(view, Qt.Key.Key_Return)
    assert len(fresh.ruler.thatch_ends) == 1
    before = fresh.ruler.thatch_ends[0]
    handle = fresh.handle("thatch_0")
    handle.setFocus(Qt.FocusReason.TabFocusReason)
    key(handle, Qt.Key.Key_Down)
    key(handle, Qt.Key.Key_Right, shift=True)
    after = fresh.ruler.thatch_ends[0]
    assert after[1] - before[1] == pytest.approx(1 / SIZE_PX[1])
    assert after[0] - before[0] == pytest.approx(10 / SIZE_PX[0])
    assert edits(fresh.book) == 5, "each nudge is one edit"
    key(handle, Qt.Key.Key_Delete)
    assert len(fresh.ruler.thatch_ends) == 0


def test_tab_walks_the_marks_in_the_order_of_the_steps(marked: Bench) -> None:
    marked.view.setFocus()
    walked = []
    for _ in range(6):
        now = QApplication.focusWidget()
        assert now is not None
        QTest.keyClick(now, Qt.Key.Key_Tab)
        found = QApplication.focusWidget()
        assert isinstance(found, Handle)
        walked.append(found.accessibleName())
    assert walked == [photo_marks.spoken(each) for each in photo_marks.points_of(RULER)]
    assert unnamed(marked.bench) == []


def test_while_a_mark_is_dragged_it_is_enlarged_with_its_reading(marked: Bench) -> None:
    view, loupe = marked.view, part(marked.bench, Loupe, "photo_loupe")
    assert not loupe.isVisible()
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=at(view, (0.5, 0.4)))
    assert loupe.isVisible()
    assert loupe.words == "0.60 in"
    QTest.mouseMove(view, at(view, (0.5, 0.5)))
    assert loupe.words.startswith("0.9")
    assert marked.ruler.thatch_ends == RULER.thatch_ends, "nothing is kept before it is let go"
    assert view.rect().contains(loupe.geometry())
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=at(view, (0.5, 0.5)))
    assert not loupe.isVisible()
    assert close_to(marked.ruler.thatch_ends[0], (0.5, 0.5))


def test_escape_drops_a_drag(marked: Bench) -> None:
    view = marked.view
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=at(view, (0.5, 0.4)))
    QTest.mouseMove(view, at(view, (0.6, 0.6)))
    key(view, Qt.Key.Key_Escape)
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=at(view, (0.6, 0.6)))
    assert marked.ruler == RULER


def test_a_mark_never_leaves_the_picture(marked: Bench) -> None:
    drag(marked.view, (0.55, 0.8), (0.55, 1.4))
    assert marked.ruler.roots_end is not None
    assert marked.ruler.roots_end[1] == 1.0


def test_a_thatch_end_above_the_crowns_is_explained_and_kept(marked: Bench) -> None:
    drag(marked.view, (0.5, 0.4), (0.5, 0.1))
    assert close_to(marked.ruler.thatch_ends[0], (0.5, 0.1))
    assert "above the crowns" in text_of(marked.bench, "photo_state")
    assert not part(marked.bench, QPushButton, "photo_take").isEnabled()


def test_ends_of_the_scale_on_one_place_are_refused_in_words(marked: Bench) -> None:
    drag(marked.view, (0.1, 0.9), (0.35, 0.9))
    assert "same place" in text_of(marked.bench, "photo_state")
    assert marked.ruler == RULER, "the marks are as they were"


@pytest.mark.parametrize(("typed", "known_in"), [("2", 2.0), ("25.4 mm", 1.0), ("1 1/2", 1.5)])
def test_the_known_distance_is_typed_in_inches_or_millimetres(
    marked: Bench, typed: str, known_in: float
) -> None:
    marked.bench.turn_to("Scale")
    type_into(marked.bench, "photo_known", typed)
    assert marked.ruler.known_in == pytest.approx(known_in)


@pytest.mark.parametrize("typed", ["", "an inch", "0", "900"])
def test_a_wrong_distance_is_said_and_what_was_typed_stays(marked: Bench, typed: str) -> None:
    marked.bench.turn_to("Scale")
    field = type_into(marked.bench, "photo_known", typed)
    assert text_of(marked.bench, "photo_known_words") != ""
    assert field.text() == typed
    assert marked.ruler.known_in == 1.0


def test_a_coin_is_a_known_distance(marked: Bench) -> None:
    marked.bench.turn_to("Scale")
    box = part(marked.bench, QComboBox, "photo_coin")
    box.setFocus()
    while "US quarter" not in box.currentText():
        before = box.currentIndex()
        key(box, Qt.Key.Key_Down)
        assert box.currentIndex() != before
    assert marked.ruler.known_in == pytest.approx(24.26 / 25.4)
    assert part(marked.bench, QLineEdit, "photo_known").text() == "0.9551"


def test_a_distance_typed_before_the_scale_is_drawn_counts(fresh: Bench) -> None:
    type_into(fresh.bench, "photo_known", "3")
    drag(fresh.view, (0.1, 0.9), (0.35, 0.9))
    assert fresh.ruler.known_in == 3.0


def test_the_wheel_zooms_where_the_keyboard_is_and_else_scrolls_the_page(marked: Bench) -> None:
    view = marked.view

    def turn() -> bool:
        middle = QPointF(view.width() / 2, view.height() / 2)
        event = QWheelEvent(
            middle,
            view.mapToGlobal(middle),
            QPointF(0, 0).toPoint(),
            QPointF(0, 120).toPoint(),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(view, event)
        return event.isAccepted()

    part(marked.bench, QPushButton, "photo_step_thatch_ends").setFocus()
    assert not turn()
    view.setFocus()
    assert turn()
    assert view.zoom() > 1
    key(view, Qt.Key.Key_0)
    assert view.zoom() == 1
    key(view, Qt.Key.Key_Plus)
    key(view, Qt.Key.Key_Plus)
    handle = marked.handle("scale_0")
    handle.setFocus(Qt.FocusReason.TabFocusReason)
    assert view.rect().contains(at(view, RULER.scale[0])), "a mark reached by keys is in sight"


def test_undo_takes_a_drag_back_on_the_picture(marked: Bench) -> None:
    drag(marked.view, (0.5, 0.4), (0.5, 0.5))
    assert marked.handle("thatch_0").accessibleDescription().startswith("0.9")
    marked.book.undo()
    assert marked.ruler == RULER
    assert marked.handle("thatch_0").accessibleDescription() == "0.60 in"


def test_what_is_taken_is_said_before_and_after(marked: Bench) -> None:
    said = text_of(marked.bench, "photo_change")
    assert "thatch 0.50 → 0.60 in" in said
    assert "roots 2.00 → 1.80 in" in said
    click(marked.bench, "photo_take")
    assert marked.book.undo_label.startswith("photo's readings into the plug of 3 May 2026")
    assert not part(marked.bench, QPushButton, "photo_take").isEnabled()
    assert marked.book.notebook.cores["c2"].date == PLUG_DAY


def test_an_unlikely_reading_is_a_question_and_not_a_refusal(marked: Bench) -> None:
    marked.bench.turn_to("Scale")
    type_into(marked.bench, "photo_known", "8")
    assert "unusually high" in text_of(marked.bench, "photo_change")
    click(marked.bench, "photo_take")
    assert marked.book.notebook.cores["c2"].thatch_in == pytest.approx((4.8,))
