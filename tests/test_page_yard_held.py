"""The Shapes section keeps what is locked, and what is typed for one shape stays with that one."""

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QLineEdit, QPushButton

from lawnbook.desk.sketch.drawing import ZoneTool
from lawnbook.yard.notebook import put
from lawnbook.yard.shape_edits import locked
from tests.page_book import click, part, text_of, type_into
from tests.test_page_yard_shapes import BACK, FRONT, Desk, K, desk

__all__ = ["desk"]

HEAD = ("heads", "head")


def _lock(desk: Desk, *keys: tuple[str, str]) -> None:
    desk.book.edit(locked(desk.book.notebook, keys, True), "lock")
    desk.control.choose_all(keys)


@pytest.mark.parametrize("column", [1, 2, 3, 4, 5])
def test_no_figure_of_a_locked_outline_is_typed_over(desk: Desk, column: int) -> None:
    _lock(desk, FRONT)
    before = desk.book.notebook
    desk.retype(0, column, "33")
    assert "locked" in text_of(desk.page, "shapes_corner_problem")
    assert desk.book.notebook is before


@pytest.mark.parametrize("key", [K.Key_Insert, K.Key_Delete])
def test_no_corner_of_a_locked_outline_comes_or_goes(desk: Desk, key: K) -> None:
    _lock(desk, FRONT)
    before = desk.book.notebook
    desk.at(1, 1)
    desk.type("", key)
    assert "locked" in text_of(desk.page, "shapes_corner_problem")
    assert desk.book.notebook is before


@pytest.mark.parametrize(
    ("field", "button"),
    [
        ("shapes_turn_deg", "shapes_turn_do"),
        ("shapes_move_right", "shapes_move_do"),
        ("shapes_strip_width", "shapes_strip_do"),
        ("shapes_line_from_right", "shapes_line_split"),
        ("shapes_line_from_right", "shapes_line_mirror"),
    ],
)
def test_no_typed_form_changes_what_is_locked(desk: Desk, field: str, button: str) -> None:
    _lock(desk, FRONT)
    before = desk.book.notebook
    type_into(desk.page, field, "5")
    pressed = part(desk.page, QPushButton, button)
    assert not pressed.isEnabled()
    assert "locked" in pressed.toolTip()
    assert desk.book.notebook is before


def test_the_place_of_a_locked_head_cannot_be_typed(desk: Desk) -> None:
    _lock(desk, HEAD)
    assert not part(desk.page, QLineEdit, "shapes_place_right").isEnabled()


def test_a_figure_refused_for_one_head_is_not_left_for_another(desk: Desk) -> None:
    other = replace(desk.book.notebook.heads["head"], id="other", at_ft=(20.0, 15.0))
    desk.book.edit(put(desk.book.notebook, "heads", other), "another head")
    desk.control.choose_all((HEAD,))
    type_into(desk.page, "shapes_place_right", "9000")
    assert text_of(desk.page, "shapes_place_problem")
    desk.control.choose_all((("heads", "other"),))
    assert part(desk.page, QLineEdit, "shapes_place_right").text() == "20.00"
    assert not text_of(desk.page, "shapes_place_problem")
    type_into(desk.page, "shapes_place_up", "12")
    assert desk.book.notebook.heads["other"].at_ft == (20.0, 12.0)


def test_no_corner_is_taken_out_that_is_not_chosen(desk: Desk) -> None:
    desk.control.choose_all((FRONT,))
    desk.at(2, 1)
    assert part(desk.page, QPushButton, "shapes_corner_remove").isEnabled()
    desk.control.choose_all((BACK,))
    assert not part(desk.page, QPushButton, "shapes_corner_remove").isEnabled()
    click(desk.page, "shapes_corner_add")
    assert len(desk.zone("back").outline_ft) == len(desk.zone("front").outline_ft) + 1


def test_what_was_removed_in_the_middle_of_a_drag_stays_removed(desk: Desk) -> None:
    zone = desk.zone("back")
    moved = replace(zone, outline_ft=tuple((x + 1, y) for x, y in zone.outline_ft))
    desk.control.choose_all((BACK,))
    desk.control.remove_chosen()
    after = desk.book.notebook
    assert desk.control.keep_draft({BACK: moved}, "move Back")
    assert desk.book.notebook is after


def test_a_new_zone_minds_names_in_small_letters(desk: Desk) -> None:
    small = replace(desk.zone("back"), name="zone 4")
    desk.book.edit(put(desk.book.notebook, "zones", small), "rename")
    desk.window.sketch.take("Zone")
    tool = desk.window.sketch.view.tool
    assert isinstance(tool, ZoneTool)
    ring = ((300.0, 0.0), (320.0, 0.0), (320.0, 20.0), (300.0, 20.0))
    assert tool.finish(ring)
    assert [each.name for each in desk.book.notebook.zones.values()][-1] == "Zone 5"
