"""The photographs of a place by date: the open one large, removed, saved, and its plug opened."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.desk.pages import photo_bench, photo_section
from lawnbook.desk.pages.photo_section import PhotoSection, photos_at
from lawnbook.desk.pages.photo_thumbs import Thumb, small_image
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import Place
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import label_point_ft
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from tests.page_book import click, follow, kept_shown, part, settle, text_of, unnamed
from tests.photo_book import RULER, drag, photo, photo_book, photo_notebook

GATE = Place("spot", "gate")


@pytest.fixture
def book(tmp_path: Path, today: date) -> Iterator[OpenNotebook]:
    """The later plug's photograph added before the earlier one's."""
    made = photo_book(tmp_path, today, photo("c2", RULER), photo("c1", colour="olive"))
    yield made
    made.close()


@pytest.fixture
def section(qapp: QApplication, book: OpenNotebook) -> Iterator[PhotoSection]:
    """The section on the gate's photographs."""
    made = PhotoSection(book)
    yield from kept_shown(qapp, made, lambda plan: made.show_plan(plan, GATE), book)


def shown(section: QWidget) -> list[Thumb]:
    """The thumbnails that show."""
    settle()
    return [each for each in section.findChildren(Thumb) if each.isVisible()]


def test_photos_stand_by_date_and_the_latest_is_open(section: PhotoSection) -> None:
    assert [each.row.words for each in shown(section)] == ["3 May 2025", "3 May 2026"]
    assert [each.isChecked() for each in shown(section)] == [False, True]
    assert text_of(section, "photos_title") == "Gate, 3 May 2026"
    assert "Thatch 0.60 in; roots to 1.80 in" in text_of(section, "photo_state")
    assert unnamed(section) == []


def test_another_photo_is_opened_by_a_click_and_by_its_id(section: PhotoSection) -> None:
    QTest.mouseClick(shown(section)[0], Qt.MouseButton.LeftButton)
    assert text_of(section, "photos_title") == "Gate, 3 May 2025"
    assert "Mark the scale first" in text_of(section, "photo_state")
    section.show_photo(shown(section)[1].row.photo_id)
    assert text_of(section, "photos_title") == "Gate, 3 May 2026"


def test_the_open_photo_stays_open_through_edits(section: PhotoSection, book: OpenNotebook) -> None:
    QTest.mouseClick(shown(section)[0], Qt.MouseButton.LeftButton)
    drag(section.bench.view, (0.1, 0.9), (0.35, 0.9))
    assert text_of(section, "photos_title") == "Gate, 3 May 2025"
    assert shown(section)[0].row.marked
    book.undo()
    assert not shown(section)[0].row.marked


def test_a_photo_is_removed_and_undo_brings_it_back(
    section: PhotoSection, book: OpenNotebook
) -> None:
    click(section, "photos_remove")
    assert len(book.notebook.photos) == 1
    assert text_of(section, "photos_title") == "Gate, 3 May 2025"
    assert "Undo brings it back" in text_of(section, "photos_noted")
    assert book.undo_label == "photo of Gate, 3 May 2026 removed"
    book.undo()
    assert len(shown(section)) == 2


def test_the_picture_is_saved_as_it_is_kept(
    section: PhotoSection, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wanted = tmp_path / "gate.jpg"
    monkeypatch.setattr(photo_section, "choose_photo_copy", lambda *_: wanted)
    click(section, "photos_save")
    opened = next(each for each in book.notebook.photos.values() if each.core == "c2")
    assert wanted.read_bytes() == opened.data_b64.data()
    assert text_of(section, "photos_noted") == "Saved as gate.jpg, 800 × 600 pixels."
    wanted = tmp_path / "nowhere" / "gate.jpg"
    click(section, "photos_save")
    assert "is not there" in text_of(section, "photos_noted")


def test_the_photos_plug_is_opened(section: PhotoSection) -> None:
    asked = QSignalSpy(section.selected)
    click(section, "photos_plug")
    assert asked.at(0) == ["cores", "c2"]


@pytest.mark.parametrize(
    ("place", "where"),
    [(Place("zone", "front"), "in Front"), (Place("spot", "gone"), "in the yard")],
)
def test_a_place_without_photos_says_how_to_add_one(
    section: PhotoSection, book: OpenNotebook, today: date, place: Place, where: str
) -> None:
    section.show_plan(make_plan(book.notebook, today), place)
    assert f"No photo of a plug {where} yet" in text_of(section, "photos_empty")
    assert shown(section) == []
    assert not section.bench.isVisible()


def test_a_zone_and_the_yard_hold_the_photos_of_their_spots() -> None:
    notebook = photo_notebook(photo("c1"), photo("c2"))
    for place in (GATE, Place("zone", "side"), Place("yard", "")):
        assert [each.core for each in photos_at(notebook, place)] == ["c1", "c2"]
    assert photos_at(notebook, Place("zone", "front")) == ()


def test_a_zone_drawn_round_a_spot_holds_its_photos() -> None:
    notebook = photo_notebook(photo("c1"))
    spot = notebook.spots["gate"]
    middle = label_point_ft(notebook.zones["side"].outline_ft)
    loose = apply(notebook, put(notebook, "spots", replace(spot, zone=None, at_ft=middle)))
    assert [each.core for each in photos_at(loose, Place("zone", "side"))] == ["c1"]


def test_a_day_of_the_past_shows_the_photos_of_its_plugs(
    section: PhotoSection, book: OpenNotebook
) -> None:
    follow(book, lambda plan: section.show_plan(plan, GATE), date(2025, 12, 1))
    assert [each.row.words for each in shown(section)] == ["3 May 2025"]


def test_a_lost_picture_is_said_and_its_entry_kept(
    section: PhotoSection, book: OpenNotebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone() -> bytes:
        raise OwnerError("The picture is gone.")

    held = photo("c2")
    lost = replace(held, data_b64=Picture(held.sha256, gone))
    assert small_image(lost.data_b64).isNull()
    assert photo_bench.image_of(lost).isNull()
    monkeypatch.setattr(photo_bench, "image_of", lambda _: QImage())
    book.edit(put(book.notebook, "photos", held), "photo")
    section.show_photo(held.id)
    assert "cannot be read any more" in text_of(section, "photo_state")
    assert not part(section, QWidget, "photo_take").isEnabled()
