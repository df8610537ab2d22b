"""Where a notebook was left, recent ones, drops on the window, and the desktop's own files."""

import configparser
import os
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import cast
from xml.etree import ElementTree as ET

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QFileOpenEvent, QImage
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QMenu, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.dropping import meant_by
from lawnbook.desk.file_opens import FileOpens
from lawnbook.desk.leaves import open_leaf
from lawnbook.desk.pages.photo_tray import PhotoTray
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import MOST_PLACES, Settings
from lawnbook.desk.spread import TABS
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.migrations import APPLICATION_ID
from lawnbook.yard.places import resource
from tests.desk_sample import DAY
from tests.leaf_hand import child
from tests.small_book import small_notebook

pytest_plugins = ["tests.desk_book"]

GEOJSON = (
    '{"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {"name": "New"},'
    '"geometry": {"type": "Polygon", "coordinates": [[[-95.0, 39.0], [-94.9998, 39.0],'
    "[-94.9998, 39.0002], [-95.0, 39.0]]]}}]}"
)
WEATHER = "date,tmin_f,tmax_f,rain_in\n2026-11-01,40,60,0.1\n"
FEEDINGS = "id,Date,Product\n"


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """A notebook of one zone and one spot: a window on it is there at once."""
    held = OpenNotebook.create(tmp_path / "small.lawnbook", small_notebook(), DAY)
    yield held
    held.close()


def opened(qtbot: QtBot, path: Path, settings: Settings) -> BookWindow:
    window = BookWindow(OpenNotebook.open(path, DAY), settings)
    window.show()
    qtbot.waitUntil(lambda: window.held_plan is not None)
    return window


def close(window: BookWindow) -> None:
    window.close()
    window.deleteLater()
    QApplication.processEvents()


@pytest.fixture
def path(book: OpenNotebook) -> Path:
    """The sample's file, closed again."""
    book.close()
    return book.path


@pytest.fixture
def window(
    qtbot: QtBot, dressed: QApplication, book: OpenNotebook, settings: Settings
) -> Iterator[BookWindow]:
    made = BookWindow(book, settings)
    made.show()
    qtbot.waitUntil(lambda: made.held_plan is not None)
    yield made
    close(made)


def test_a_notebook_opens_at_the_page_section_and_day_it_was_left_at(
    qtbot: QtBot, dressed: QApplication, path: Path, settings: Settings
) -> None:
    window = opened(qtbot, path, settings)
    assert window.place == "Yard"
    window.turn_to("Water")
    cast(YardPage, window.page("Water")).turn_to("Year")
    window.look_at(DAY - timedelta(days=90))
    close(window)
    again = opened(qtbot, path, settings)
    assert again.place == "Water"
    assert cast(YardPage, again.page("Water")).section == "Year"
    assert again.on == DAY - timedelta(days=90)
    assert "as you left it" in cast(QLabel, child(again, "status_words")).text()
    again.back_to_today()
    close(again)
    third = opened(qtbot, path, settings)
    assert (third.place, third.on) == ("Water", DAY)
    close(third)


def test_a_leaf_goes_with_its_book_and_its_size_is_kept(
    qtbot: QtBot, dressed: QApplication, path: Path, settings: Settings
) -> None:
    window = opened(qtbot, path, settings)
    leaf = open_leaf(window, "keys")
    window.close()
    assert not leaf.isVisible()
    assert not settings.leaf_geometry("keys").isEmpty()
    close(window)


@pytest.mark.parametrize("place", [("Nowhere", "Now", ""), ("Water", "Gone", "2026-99-99")])
def test_a_place_that_is_no_more_leads_to_the_beginning(
    qtbot: QtBot,
    dressed: QApplication,
    path: Path,
    settings: Settings,
    place: tuple[str, str, str],
) -> None:
    settings.keep_place(path, *place)
    window = opened(qtbot, path, settings)
    assert window.place in dict(TABS)
    assert window.on == DAY
    close(window)


def test_a_place_is_kept_for_each_notebook_and_the_longest_unopened_goes(
    settings: Settings, tmp_path: Path
) -> None:
    for number in range(MOST_PLACES + 5):
        settings.keep_place(tmp_path / f"{number}.lawnbook", "Water", str(number), "")
    settings.keep_place(tmp_path / "30.lawnbook", "Feed", "Check", "2026-01-02")
    again = Settings(tmp_path / "desk.ini")
    assert again.place_of(tmp_path / "0.lawnbook") == ("", "", "")
    assert again.place_of(tmp_path / "64.lawnbook") == ("Water", "64", "")
    assert again.place_of(tmp_path / "30.lawnbook") == ("Feed", "Check", "2026-01-02")


def test_the_window_is_as_large_as_it_was_left_and_in_sight(
    qtbot: QtBot, dressed: QApplication, path: Path, settings: Settings
) -> None:
    window = opened(qtbot, path, settings)
    window.resize(1300, 720)
    window.move(5000, 4000)
    QApplication.processEvents()
    close(window)
    again = opened(qtbot, path, settings)
    # A screen that is gone is as if the window had been left beyond the one that is there.
    assert again.screen().availableGeometry().intersects(again.frameGeometry())
    again.move(10, 10)
    again.showMaximized()
    close(again)
    third = opened(qtbot, path, settings)
    assert third.isMaximized()
    close(third)


def test_recent_notebooks_stand_in_the_menu_without_those_that_are_gone(
    window: BookWindow, tmp_path: Path
) -> None:
    asked: list[Path] = []
    window.watch.path_asked.connect(asked.append)
    paths = [tmp_path / name for name in ("a & b.lawnbook", "gone.lawnbook")]
    for each in paths:
        each.write_text("kept")
        window.settings.remember(each)
    window.settings.remember(window.book.path)
    paths[1].unlink()
    menu = next(each for each in window.findChildren(QMenu) if each.title() == "Open recen&t")
    menu.aboutToShow.emit()
    assert [each.text() for each in menu.actions()] == ["a && b"]
    menu.actions()[0].trigger()
    assert asked == [paths[0]]
    paths[0].unlink()
    menu.aboutToShow.emit()
    assert [(each.text(), each.isEnabled()) for each in menu.actions()] == [
        ("No other notebook yet", False)
    ]


@pytest.mark.parametrize(
    ("name", "content", "meant"),
    [
        ("home.lawnbook", "", "open"),
        ("yard.json", '{"format": "lawnbook-yard", "version": 1}', "open"),
        ("map.json", GEOJSON, "outlines"),
        ("map.GeoJSON", GEOJSON, "outlines"),
        ("map.kml", "<kml/>", "outlines"),
        ("days.csv", WEATHER, "weather"),
        ("station.csv", "STATION,DATE,PRCP,TMAX,TMIN\n", "weather"),
        ("feedings.csv", FEEDINGS, "tables"),
        ("tables.xlsx", "", "tables"),
        ("plug.JPG", "", "photos"),
        ("letter.doc", "", ""),
        ("gone.csv", None, "tables"),
    ],
)
def test_what_a_file_is_dropped_for(
    tmp_path: Path, name: str, content: str | None, meant: str
) -> None:
    if content is not None:
        (tmp_path / name).write_text(content, encoding="utf-8")
    assert meant_by(tmp_path / name) == meant


@pytest.mark.parametrize(
    ("inside", "meant"), [("yard/notebook.lawnbook", "open"), ("feedings.csv", "tables")]
)
def test_a_zip_is_a_handover_or_tables_by_what_is_in_it(
    tmp_path: Path, inside: str, meant: str
) -> None:
    with zipfile.ZipFile(tmp_path / "held.zip", "w") as zipped:
        zipped.writestr(inside, "x")
    assert meant_by(tmp_path / "held.zip") == meant
    (tmp_path / "torn.zip").write_text("no zip")
    assert meant_by(tmp_path / "torn.zip") == "open"


def drop(target: QWidget, *paths: Path) -> bool:
    """Drag files over a widget and let go; whether anybody said yes."""
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(str(each)) for each in paths])
    copy, left, none = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier
    enter = QDragEnterEvent(QPoint(5, 5), copy, held, left, none.NoModifier)
    enter.ignore()
    QApplication.sendEvent(target, enter)
    if not enter.isAccepted():
        return False
    event = QDropEvent(QPointF(5, 5), copy, held, left, none.NoModifier)
    QApplication.sendEvent(target, event)
    QApplication.processEvents()
    return event.isAccepted()


@pytest.mark.parametrize("on_sketch", [False, True])
def test_outlines_dropped_on_the_window_are_looked_over(
    qtbot: QtBot, window: BookWindow, tmp_path: Path, on_sketch: bool
) -> None:
    file = tmp_path / "map.geojson"
    file.write_text(GEOJSON, encoding="utf-8")
    before = window.book.notebook
    assert drop(window.sketch.view.viewport() if on_sketch else window, file)
    assert window.place == "Yard"
    section = child(window, "yard_exchange")
    assert section.isVisible()
    qtbot.waitUntil(lambda: bool(section.findChildren(QLineEdit) or section.findChildren(QLabel)))
    assert window.book.notebook is before


def test_weather_and_tables_lead_to_their_previews(
    qtbot: QtBot, window: BookWindow, tmp_path: Path
) -> None:
    days, tables = tmp_path / "days.csv", tmp_path / "feedings.csv"
    days.write_text(WEATHER, encoding="utf-8")
    tables.write_text(FEEDINGS, encoding="utf-8")
    window.resize(window.minimumSize())
    assert drop(window, days)
    assert (window.place, cast(YardPage, window.page("Yard")).section) == ("Yard", "Overview")
    # A table of which nothing needs to be asked is taken in as one step that Undo takes back.
    qtbot.waitUntil(lambda: "day" in window.book.undo_label)
    taken = child(window, "weather_said")
    qtbot.waitUntil(lambda: not taken.visibleRegion().isEmpty())
    before = window.book.notebook
    assert drop(window, tables)
    assert window.place == "Sheet"
    assert child(window, "sheet_tables").isVisible()
    said = cast(QLabel, child(window, "tables_said"))
    review = child(window, "tables_review")
    qtbot.waitUntil(lambda: bool(said.text()) or review.isVisible())
    assert window.book.notebook is before


def test_photos_go_to_the_plug_in_the_form(
    qtbot: QtBot, window: BookWindow, tmp_path: Path
) -> None:
    files = [tmp_path / "one.png", tmp_path / "two.png"]
    for number, each in enumerate(files):
        image = QImage(40, 30, QImage.Format.Format_RGB32)
        image.fill(number * 5000)
        assert image.save(str(each))
    window.turn_to("Water")
    assert drop(window, *files)
    assert window.place == "Plugs"
    tray = cast(PhotoTray, child(window, "photo_tray"))
    qtbot.waitUntil(lambda: len(tray.photos_for("new")) == 2)


def test_a_notebook_that_is_dropped_is_asked_to_be_opened(
    qtbot: QtBot, window: BookWindow, tmp_path: Path
) -> None:
    asked: list[Path] = []
    window.watch.path_asked.connect(asked.append)
    other = tmp_path / "other.lawnbook"
    other.write_text("x")
    assert drop(window, other)
    qtbot.waitUntil(lambda: asked == [other])


def test_what_is_not_known_is_not_taken_and_several_are_told_apart(
    window: BookWindow, tmp_path: Path
) -> None:
    letter, days = tmp_path / "letter.doc", tmp_path / "days.csv"
    letter.write_text("x")
    days.write_text(WEATHER)
    assert not drop(window, letter)
    assert drop(window, days, tmp_path / "more.csv")
    said = cast(QLabel, child(window, "status_words"))
    assert said.text() == "Drop one file at a time; only photos may be several."


def test_a_file_dropped_on_a_field_does_not_become_its_words(
    window: BookWindow, tmp_path: Path
) -> None:
    window.turn_to("Yard")
    QApplication.processEvents()
    field = next(each for each in window.findChildren(QLineEdit) if each.isVisible())
    before = field.text()
    days = tmp_path / "days.csv"
    days.write_text(WEATHER)
    assert drop(field, days)
    assert field.text() == before


def test_a_notebook_that_the_system_hands_over_is_opened(qapp: QApplication) -> None:
    asked: list[Path] = []
    opens = FileOpens(qapp, asked.append)
    QApplication.sendEvent(qapp, QFileOpenEvent("/yards/home.lawnbook"))
    qapp.removeEventFilter(opens)
    opens.deleteLater()
    assert asked == [Path("/yards/home.lawnbook")]


def test_the_desktop_entry_opens_a_notebook_and_names_its_type() -> None:
    read = configparser.ConfigParser(interpolation=None)
    read.read(resource("desktop/lawnbook.desktop"), encoding="utf-8")
    entry = read["Desktop Entry"]
    assert entry["Exec"] == "lawnbook %f"
    assert entry["MimeType"] == "application/x-lawnbook;"
    assert resource(f"icons/{entry['Icon']}.svg").is_file()
    if shutil.which("desktop-file-validate"):
        done = subprocess.run(
            ["desktop-file-validate", str(resource("desktop/lawnbook.desktop"))],
            capture_output=True,
            text=True,
            check=False,
        )
        assert (done.returncode, done.stdout) == (0, "")


def test_the_type_of_a_notebook_is_told_by_its_name_and_its_first_bytes(path: Path) -> None:
    space = "{http://www.freedesktop.org/standards/shared-mime-info}"
    kind = ET.parse(resource("desktop/lawnbook-mime.xml")).getroot()[0]
    assert kind.get("type") == "application/x-lawnbook"
    glob = kind.find(f"{space}glob")
    assert glob is not None
    assert glob.get("pattern") == f"*{path.suffix}"
    inner = kind.find(f"{space}magic/{space}match/{space}match")
    assert inner is not None
    assert int(str(inner.get("value")), 16) == APPLICATION_ID
    at = int(str(inner.get("offset")))
    assert int.from_bytes(path.read_bytes()[at : at + 4], "big") == APPLICATION_ID


@pytest.mark.skipif(not shutil.which("update-mime-database"), reason="no shared MIME database here")
def test_the_system_takes_the_type_in(tmp_path: Path) -> None:
    packages = tmp_path / "mime" / "packages"
    packages.mkdir(parents=True)
    shutil.copy(resource("desktop/lawnbook-mime.xml"), packages)
    done = subprocess.run(
        ["update-mime-database", str(tmp_path / "mime")],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "XDG_DATA_HOME": str(tmp_path)},
    )
    assert done.returncode == 0, done.stderr
    assert "application/x-lawnbook" in (tmp_path / "mime" / "globs2").read_text("utf-8")
