"""Photographs beside a plug's form: added, dropped, pasted, read in a thread, and called off."""

import gc
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import date
from pathlib import Path
from threading import Event

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QImage
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QPushButton, QVBoxLayout, QWidget

from lawnbook.desk.pages import photo_loading, photo_tray
from lawnbook.desk.pages.photo_thumbs import Thumb
from lawnbook.desk.pages.photo_tray import PhotoTray
from lawnbook.desk.pages.photo_window import PhotoWindow
from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.widgets import TextField
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.photo_reading import TakenIn
from lawnbook.yard.notebook import put
from lawnbook.yard.photos import photos_of
from tests.page_book import click, part, put_away, settle, text_of, unnamed
from tests.photo_book import PLUG_DAY, SIZE_PX, drag, jpeg, photo, photo_book


@pytest.fixture
def book(tmp_path: Path, today: date) -> Iterator[OpenNotebook]:
    """A notebook with two plugs and no photograph."""
    made = photo_book(tmp_path, today)
    yield made
    made.close()


@pytest.fixture
def tray(qapp: QApplication, book: OpenNotebook) -> Iterator[PhotoTray]:
    """A tray for a new plug, on a page with a field to type in."""
    apply_theme(qapp, "light")
    page = QWidget()
    field = TextField(page)
    field.setObjectName("note")
    made = PhotoTray(book, page)
    made.paste_on(page)
    column = QVBoxLayout(page)
    column.addWidget(field)
    column.addWidget(made)
    page.resize(600, 300)
    page.show()
    page.activateWindow()
    settle()
    yield made
    QApplication.clipboard().clear()
    put_away(page)


def until(true: Callable[[], bool]) -> None:
    """Let the window work until something holds, for ten seconds at most."""
    for _ in range(1000):
        if true():
            break
        QTest.qWait(10)
    settle()
    assert true()


def wait(tray: PhotoTray) -> None:
    """Until all is read."""
    until(lambda: not tray.is_reading())


def written(folder: Path, name: str, data: bytes) -> Path:
    """A file of these bytes."""
    path = folder / name
    path.write_bytes(data)
    return path


def shown(tray: PhotoTray) -> list[Thumb]:
    """The thumbnails that show."""
    settle()
    return [each for each in tray.findChildren(Thumb) if each.isVisible()]


def test_photos_wait_for_a_new_plug_and_propose_its_day(tray: PhotoTray, tmp_path: Path) -> None:
    days = QSignalSpy(tray.date_proposed)
    tray.add_files([written(tmp_path, "a.jpg", jpeg("2026:05:01 09:00:00"))])
    wait(tray)
    assert [days.at(i)[0] for i in range(days.count())] == [date(2026, 5, 1)]
    (waiting,) = tray.photos_for("c9")
    assert waiting.core == "c9"
    assert (waiting.width_px, waiting.height_px) == SIZE_PX
    assert waiting.taken_on == date(2026, 5, 1)
    assert len(shown(tray)) == 1
    tray.clear()
    assert tray.photos_for("c9") == ()
    assert shown(tray) == []


def test_several_files_are_read_in_order_and_a_bad_one_is_said(
    tray: PhotoTray, tmp_path: Path
) -> None:
    field = part(tray.window(), TextField, "note")
    QTest.keyClicks(field, "half typed")
    paths = [
        written(tmp_path, "a.jpg", jpeg("2026:05:01 09:00:00")),
        written(tmp_path, "words.txt", b"not a picture"),
        written(tmp_path, "b.jpg", jpeg("2026:05:02 09:00:00")),
        tmp_path / "gone.jpg",
    ]
    tray.add_files(paths)
    assert text_of(tray, "photo_busy") == "Reading a.jpg and 3 more…"
    wait(tray)
    assert [each.taken_on for each in tray.photos_for("")] == [
        date(2026, 5, 1),
        date(2026, 5, 2),
    ]
    said = text_of(tray, "photo_refused")
    assert "words.txt" in said
    assert "gone.jpg" in said
    assert field.text() == "half typed"
    assert text_of(tray, "photo_busy") == ""


def test_a_corrupt_date_is_noted_and_the_photo_kept(tray: PhotoTray, tmp_path: Path) -> None:
    days = QSignalSpy(tray.date_proposed)
    tray.add_files([written(tmp_path, "a.jpg", jpeg("2026:13:77 09:00:00"))])
    wait(tray)
    assert days.count() == 0
    assert len(tray.photos_for("")) == 1
    assert "date cannot be read" in text_of(tray, "photo_noted")


def drop(tray: PhotoTray, url: QUrl) -> bool:
    """Drag something onto the tray and let it go; whether the tray took it."""
    held = QMimeData()
    held.setUrls([url])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    copy = Qt.DropAction.CopyAction
    enter = QDragEnterEvent(QPointF(5, 5).toPoint(), copy, held, left, none)
    QApplication.sendEvent(tray, enter)
    QApplication.sendEvent(tray, QDropEvent(QPointF(5, 5), copy, held, left, none))
    return enter.isAccepted()


def test_files_are_dropped(tray: PhotoTray, tmp_path: Path) -> None:
    assert drop(tray, QUrl.fromLocalFile(str(written(tmp_path, "a.jpg", jpeg()))))
    wait(tray)
    assert len(tray.photos_for("")) == 1


def test_a_drop_that_is_no_file_is_said(tray: PhotoTray) -> None:
    drop(tray, QUrl("https://example.org/a.jpg"))
    assert "save it first" in text_of(tray, "photo_refused")


def test_a_picture_is_pasted_even_from_within_a_field(tray: PhotoTray) -> None:
    image = QImage(*SIZE_PX, QImage.Format.Format_RGB32)
    image.fill(QColor("sienna"))
    QApplication.clipboard().setImage(image)
    field = part(tray.window(), TextField, "note")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    wait(tray)
    (pasted,) = tray.photos_for("")
    assert (pasted.width_px, pasted.height_px) == SIZE_PX
    assert field.text() == ""


def test_words_are_pasted_into_the_field(tray: PhotoTray) -> None:
    QApplication.clipboard().setText("by the gate")
    field = part(tray.window(), TextField, "note")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert field.text() == "by the gate"
    assert not tray.is_reading()


def test_a_copied_file_is_pasted_and_an_empty_clipboard_is_said(
    tray: PhotoTray, tmp_path: Path
) -> None:
    QApplication.clipboard().clear()
    click(tray, "photo_paste")
    assert "Nothing to paste" in text_of(tray, "photo_refused")
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(str(written(tmp_path, "a.jpg", jpeg())))])
    QApplication.clipboard().setMimeData(held)
    click(tray, "photo_paste")
    wait(tray)
    assert len(tray.photos_for("")) == 1
    assert text_of(tray, "photo_refused") == ""


def test_files_are_chosen(tray: PhotoTray, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    chosen = (written(tmp_path, "a.jpg", jpeg()), written(tmp_path, "b.jpg", jpeg()))
    monkeypatch.setattr(photo_tray, "choose_photos", lambda *_: chosen)
    click(tray, "photo_add")
    wait(tray)
    assert len(shown(tray)) == 2
    assert unnamed(tray) == []


def test_a_photo_of_an_open_plug_is_kept_at_once(
    tray: PhotoTray, book: OpenNotebook, tmp_path: Path
) -> None:
    days, asked = QSignalSpy(tray.date_proposed), QSignalSpy(tray.open_asked)
    tray.show_core("c2")
    tray.add_files([written(tmp_path, "a.jpg", jpeg("2026:05:01 09:00:00"))])
    wait(tray)
    (kept,) = photos_of(book.notebook, "c2")
    assert days.count() == 0
    assert "The camera dates it 1 May 2026, the plug is of 3 May 2026" in text_of(
        tray, "photo_noted"
    )
    assert book.notebook.cores["c2"].date == PLUG_DAY
    QTest.mouseClick(shown(tray)[0], Qt.MouseButton.LeftButton)
    assert asked.at(0) == [kept.id]
    book.undo()
    assert photos_of(book.notebook, "c2") == ()
    tray.show_core("")
    assert shown(tray) == []


def test_a_waiting_photo_is_read_in_a_window_and_its_marks_undone(
    tray: PhotoTray, tmp_path: Path
) -> None:
    taken = QSignalSpy(tray.readings)
    tray.add_files([written(tmp_path, "a.jpg", jpeg())])
    wait(tray)
    QTest.mouseClick(shown(tray)[0], Qt.MouseButton.LeftButton)
    window = part(tray, PhotoWindow, "photo_window")
    settle()
    drag(window.bench.view, (0.1, 0.9), (0.35, 0.9))
    drag(window.bench.view, (0.4, 0.2), (0.7, 0.2))
    drag(window.bench.view, (0.5, 0.45), (0.5, 0.4))
    click(window, "photo_take")
    (fields,) = taken.at(0)
    assert fields["thatch_in"] == pytest.approx((0.6,), abs=0.02)
    assert "root_depth_in" not in fields
    assert "In the form now" in text_of(window, "photo_done")
    (marked,) = tray.photos_for("c9")
    assert marked.ruler is not None
    QTest.keyClick(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    (undone,) = tray.photos_for("c9")
    assert undone.ruler is not None
    assert undone.ruler.thatch_ends == ()
    click(window, "photo_remove")
    assert tray.photos_for("c9") == ()
    assert shown(tray) == []


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> Iterator[Event]:
    """Reading that lasts until the event is set."""
    go_on = Event()

    def read(path: Path, _today: date) -> TakenIn:
        assert go_on.wait(10)
        return TakenIn(jpeg(), *SIZE_PX, None)

    monkeypatch.setattr(photo_loading, "take_in", read)
    yield go_on
    go_on.set()


def test_what_is_being_read_is_called_off(tray: PhotoTray, slow: Event) -> None:
    tray.add_files([Path("a.jpg"), Path("b.jpg")])
    assert part(tray, QPushButton, "photo_stop").isVisible()
    click(tray, "photo_stop")
    assert not tray.is_reading()
    slow.set()
    tray.add_files([Path("c.jpg")])
    wait(tray)
    assert len(tray.photos_for("")) == 1, "only the one that was added later"


def test_a_tray_put_away_while_it_reads_leaves_nothing_behind(
    qapp: QApplication, book: OpenNotebook, slow: Event
) -> None:
    tray = PhotoTray(book)
    told = QSignalSpy(tray.date_proposed)
    tray.add_files([Path("a.jpg"), Path("b.jpg")])
    slow.set()
    put_away(tray)
    settle()
    # Garbage is collected again once nobody reads.
    until(gc.isenabled)
    assert told.count() == 0


def test_our_own_mistake_is_said_and_raised_where_it_can_be_told(
    qapp: QApplication, today: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_path: Path, _today: date) -> TakenIn:
        raise ZeroDivisionError

    monkeypatch.setattr(photo_loading, "take_in", broken)
    raised: list[type[BaseException]] = []
    monkeypatch.setattr("sys.excepthook", lambda kind, *_: raised.append(kind))
    loader = photo_loading.PhotoLoader(today)
    told: list[photo_loading.Outcome] = []
    loader.read.connect(told.append)
    loader.start([Path("a.jpg")])
    until(lambda: not loader.waiting())
    loader.finish()
    loader.deleteLater()
    assert [each.refused for each in told] == [photo_loading.OUR_BUG]
    assert raised == [ZeroDivisionError]


def test_a_lost_picture_shows_as_unreadable(
    qapp: QApplication, tmp_path: Path, today: date
) -> None:
    lost, whole = photo("c2"), photo("c2", colour="navy")
    book = photo_book(tmp_path, today, lost, whole)
    with closing(sqlite3.connect(book.path)) as raw, raw:
        raw.execute("UPDATE pictures SET data = x'00' WHERE sha256 = ?", (lost.sha256,))
    tray = PhotoTray(book)
    tray.show_core("c2")
    tray.show()
    images = {each.row.photo_id: (each.grab(), each.image)[1] for each in shown(tray)}
    assert {key: image is None or image.isNull() for key, image in images.items()} == {
        lost.id: True,
        whole.id: False,
    }
    put_away(tray)
    book.close()


def test_a_photo_taken_back_leaves_the_open_plug(
    qapp: QApplication, book: OpenNotebook, today: date
) -> None:
    apply_theme(qapp, "light")
    page = PlugsPage(book)
    page.show_plan(make_plan(book.notebook, today))
    book.edit(put(book.notebook, "photos", photo("c2")), "photo")
    page.show_plan(make_plan(book.notebook, today))
    page.select("cores", "c2")
    page.show()
    assert len(shown(page.columns.entry.tray)) == 1
    steps: tuple[tuple[Callable[[], None], list[str]], ...] = (
        (book.undo, []),
        (book.redo, ["Photo 1"]),
    )
    for take, names in steps:
        take()
        page.show_plan(make_plan(book.notebook, today))
        assert [each.accessibleName() for each in shown(page.columns.entry.tray)] == names
    put_away(page)


def test_of_photographs_read_one_by_one_only_the_last_is_made_anew(
    tray: PhotoTray, tmp_path: Path
) -> None:
    """A row of hundreds stood still with each of them else."""
    tray.add_files([written(tmp_path, f"{n}.jpg", jpeg()) for n in range(3)])
    wait(tray)
    before = tray.findChildren(Thumb)
    assert [each.row.words for each in before] == ["Photo 1", "Photo 2", "Photo 3"]
    tray.add_files([written(tmp_path, "more.jpg", jpeg())])
    wait(tray)
    after = tray.findChildren(Thumb)
    assert after[:3] == before
    assert [each.row.words for each in after] == ["Photo 1", "Photo 2", "Photo 3", "Photo 4"]
    lefts = [each.x() for each in after]
    assert lefts == sorted(set(lefts))
