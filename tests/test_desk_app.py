"""How a notebook comes into a window: the welcome page, samples, yard files, and refusals."""

import json
import subprocess
import sys
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.app import Desk, free_path
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS
from lawnbook.desk.theme import palette
from lawnbook.desk.welcome import WelcomeWindow, describe_sample
from lawnbook.desk.widgets import OneLine
from lawnbook.desk.window import BookWindow
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import write_yard_text
from lawnbook.yard.notebook import new_notebook
from lawnbook.yard.places import sample_yards
from tests.desk_sample import DAY, sample

pytest_plugins = ["tests.desk_book"]

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def desk(dressed: QApplication, settings: Settings, tmp_path: Path) -> Iterator[Desk]:
    """A desk whose new notebooks go to the test's own folder."""
    settings.folder = tmp_path
    held = Desk(dressed, settings, DAY)
    yield held
    if held.window is not None:
        held.window.close()
    if held.welcome is not None:
        held.welcome.close()
        held.welcome.deleteLater()
    held.deleteLater()


def page_of(desk: Desk) -> WelcomeWindow:
    assert desk.welcome is not None
    return desk.welcome


def window_of(desk: Desk) -> BookWindow:
    assert desk.window is not None
    return desk.window


def child(page: QWidget, name: str) -> QWidget:
    found = page.findChild(QWidget, name)
    assert found is not None, name
    return found


def problem(page: QWidget) -> str:
    return cast(QLabel, child(page, "welcome_problem")).text()


def test_a_yard_is_begun_by_its_name_and_enter(qtbot: QtBot, desk: Desk, tmp_path: Path) -> None:
    desk.show_welcome()
    field = page_of(desk).name_field
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert "no name yet" in problem(page_of(desk))
    QTest.keyClicks(field, "Elm Corner")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert desk.welcome is None
    assert window_of(desk).windowTitle().startswith("Elm Corner")
    assert (tmp_path / "Elm Corner.lawnbook").is_file()
    qtbot.wait(10)


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: path.stem)
def test_every_sample_opens_as_a_copy(qtbot: QtBot, desk: Desk, tmp_path: Path, path: Path) -> None:
    before = path.read_bytes()
    desk.show_welcome()
    title, line = describe_sample(path)
    assert "zones" in line
    QTest.mouseClick(child(page_of(desk), f"sample_{path.stem}"), LEFT)
    held = make_plan(window_of(desk).book.notebook, DAY)
    known = make_plan(sample(path.stem), DAY)
    assert [(s.spot, s.verdict) for s in held.thatch] == [(s.spot, s.verdict) for s in known.thatch]
    assert [z.run_minutes for z in held.zones] == [z.run_minutes for z in known.zones]
    assert window_of(desk).book.path == tmp_path / f"{title}.lawnbook"
    assert path.read_bytes() == before
    qtbot.wait(10)


def test_a_sample_opens_whatever_the_clock_says(
    qtbot: QtBot, dressed: QApplication, settings: Settings, tmp_path: Path
) -> None:
    settings.folder = tmp_path
    early = Desk(dressed, settings, DAY.replace(year=2025))
    early.open_sample(sample_yards()[0])
    cores = window_of(early).book.notebook.cores
    assert cores
    assert all(core.date <= DAY.replace(year=2025) for core in cores.values())
    qtbot.wait(10)
    window_of(early).close()
    early.deleteLater()


def test_a_recent_notebook_is_gone_on_with(
    qtbot: QtBot, desk: Desk, settings: Settings, book: OpenNotebook
) -> None:
    path = book.path
    book.close()
    settings.remember(path)
    desk.show_welcome()
    QTest.mouseClick(child(page_of(desk), f"recent_{path.stem}"), LEFT)
    assert window_of(desk).book.path == path
    qtbot.wait(10)


def test_a_file_that_is_no_notebook_is_said_on_the_welcome_page(desk: Desk, tmp_path: Path) -> None:
    wrong = tmp_path / "letter.lawnbook"
    wrong.write_text("Dear neighbour")
    desk.open(wrong)
    assert desk.window is None
    assert "letter.lawnbook" in problem(page_of(desk))
    assert wrong.read_text() == "Dear neighbour"


def test_only_what_could_be_opened_moves_the_folder_of_new_yards(
    desk: Desk, settings: Settings, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, elsewhere = settings.folder, tmp_path / "elsewhere"
    elsewhere.mkdir()
    wrong = elsewhere / "wrong.lawnbook"
    wrong.write_text("no notebook")
    monkeypatch.setattr("lawnbook.desk.app.choose_open", lambda *_: wrong)
    desk.show_welcome()
    desk.ask_open()
    assert settings.folder == before
    right = elsewhere / "right.lawnbook"
    create(right, new_notebook("Right"))
    monkeypatch.setattr("lawnbook.desk.app.choose_open", lambda *_: right)
    desk.ask_open()
    assert settings.folder == elsewhere


def test_a_yard_file_becomes_a_notebook_beside_it(qtbot: QtBot, desk: Desk, tmp_path: Path) -> None:
    folder = tmp_path / "files"
    folder.mkdir()
    (folder / "yard.json").write_text(write_yard_text(sample("hollow_bank")), encoding="utf-8")
    desk.open(folder / "yard.json")
    assert window_of(desk).book.path == folder / "Hollow Bank.lawnbook"
    qtbot.wait(10)


def test_a_sample_named_on_the_command_line_opens_as_a_copy(
    qtbot: QtBot, desk: Desk, tmp_path: Path
) -> None:
    path = sample_yards()[0]
    before = sorted(each.name for each in path.parent.iterdir())
    for name in ("Hollow Bank.lawnbook", "Hollow Bank 2.lawnbook"):
        desk.open(path)
        assert window_of(desk).book.path == tmp_path / name
    assert sorted(each.name for each in path.parent.iterdir()) == before
    qtbot.wait(10)


def test_a_yard_file_in_a_folder_that_cannot_be_written_to_goes_to_the_owners_own(
    qtbot: QtBot, desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "disc").mkdir()
    yard = tmp_path / "disc" / "yard.json"
    yard.write_text(write_yard_text(sample("hollow_bank")), encoding="utf-8")
    monkeypatch.setattr("os.access", lambda folder, _: folder != yard.parent)
    desk.open(yard)
    assert window_of(desk).book.path == tmp_path / "Hollow Bank.lawnbook"
    assert [each.name for each in yard.parent.iterdir()] == ["yard.json"]
    qtbot.wait(10)


def test_what_looks_like_a_slip_in_a_yard_file_is_asked(
    qtbot: QtBot, desk: Desk, tmp_path: Path
) -> None:
    plain = json.loads(write_yard_text(sample("hollow_bank")))
    for core in plain["cores"][:7]:
        core["thatch_in"] = [7.5]
    (tmp_path / "yard.json").write_text(json.dumps(plain), encoding="utf-8")
    desk.open(tmp_path / "yard.json")
    box = window_of(desk).findChild(QMessageBox, "told")
    assert isinstance(box, QMessageBox)
    assert "cores[0].thatch_in[0]: Thatch of 7.5 in is unusually high" in box.text()
    assert box.text().endswith("And 2 more like these.")
    box.close()
    qtbot.wait(10)


def test_one_book_makes_room_for_the_next(qtbot: QtBot, desk: Desk) -> None:
    desk.begin("First")
    first = window_of(desk)
    desk.begin("Second")
    assert window_of(desk) is not first
    assert window_of(desk).windowTitle().startswith("Second")
    assert not first.isVisible()
    qtbot.wait(10)


def test_trouble_with_a_book_open_is_told_in_front_of_it(
    qtbot: QtBot, desk: Desk, tmp_path: Path
) -> None:
    desk.begin("First")
    desk.open(tmp_path / "nowhere.lawnbook")
    box = window_of(desk).findChild(QMessageBox, "told")
    assert isinstance(box, QMessageBox)
    assert "nowhere.lawnbook" in box.text()
    box.close()
    qtbot.wait(10)


def test_the_theme_is_changed_from_the_menu_and_remembered(
    qtbot: QtBot, desk: Desk, settings: Settings
) -> None:
    desk.begin("First")
    window_of(desk).theme_asked.emit("dark")
    assert palette().name == "dark"
    assert settings.theme == "dark"
    qtbot.wait(10)


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Home", "Home"),
        ("a/b\\c:d", "a-b-c-d"),
        ("  ...  ", "Yard"),
        ("Élan vert", "Élan vert"),
        ("x" * 300, "x" * 80),
    ],
)
def test_a_yards_name_makes_a_file_name_that_is_free(tmp_path: Path, name: str, stem: str) -> None:
    first = free_path(tmp_path, name)
    assert first.name == f"{stem}.lawnbook"
    first.write_text("taken")
    assert free_path(tmp_path, name).name == f"{stem} 2.lawnbook"


def test_fifty_thousand_void_calls_do_not_abort_the_installed_pyside() -> None:
    """PySide6 6.12.0 loses a reference to None in each, and Python 3.11 then aborts."""
    code = (
        "from PySide6.QtWidgets import QApplication, QLabel\n"
        "app = QApplication([])\n"
        "label = QLabel()\n"
        "for number in range(25_000):\n"
        "    label.setObjectName('a')\n"
        "    label.setText('b')\n"
        "print('alive')\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, timeout=120
    )
    assert (done.returncode, done.stdout.strip()) == (0, "alive"), done.stderr


def test_a_notebook_is_opened_and_painted_before_anything_heavy_is_loaded(
    tmp_path: Path,
) -> None:
    OpenNotebook.create(tmp_path / "home.lawnbook", sample("larkspur_corner"), DAY).close()
    code = (
        "import sys\n"
        "from datetime import date\n"
        "from pathlib import Path\n"
        "from PySide6.QtWidgets import QApplication\n"
        "from lawnbook.desk.app import Desk\n"
        "from lawnbook.desk.settings import Settings\n"
        "from lawnbook.desk.theme import apply_theme\n"
        "folder = Path(sys.argv[1])\n"
        "app = QApplication([])\n"
        "apply_theme(app, 'light')\n"
        "settings = Settings(folder / 'desk.ini')\n"
        "settings.folder = folder\n"
        "desk = Desk(app, settings, date(2026, 11, 25))\n"
        "desk.open(folder / 'home.lawnbook')\n"
        "assert not desk.window.grab().isNull()\n"
        "heavy = [name for name in ('matplotlib', 'pandas', 'sqlite_utils', 'scipy')\n"
        "         if name in sys.modules]\n"
        "print(heavy)\n"
        "desk.window.close()\n"
    )
    root = Path(__file__).resolve().parent.parent
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        cwd=root,
    )
    assert done.stdout.strip() == "[]", done.stderr


def test_recent_notebooks_never_lie_on_one_another(
    qtbot: QtBot, desk: Desk, settings: Settings, tmp_path: Path
) -> None:
    folder = tmp_path / "a folder with a name as long as people give them" / "and another in it"
    folder.mkdir(parents=True)
    settings.folder = folder
    for number in range(8):
        (folder / f"Yard {number}.lawnbook").write_text("kept")
        settings.remember(folder / f"Yard {number}.lawnbook")
    desk.show_welcome("Something went wrong; choose another file.")
    page = page_of(desk)
    page.resize(page.minimumSize())
    qtbot.wait(10)
    rows = [child(page, f"recent_Yard {number}") for number in range(7, -1, -1)]
    assert all(row.height() >= 40 for row in rows)
    for above, below in pairwise(rows):
        assert above.geometry().bottom() < below.geometry().top()
    last = rows[-1]
    last.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.wait(10)
    assert last.visibleRegion().boundingRect().height() >= 20
    whole = [label for label in page.findChildren(OneLine) if label.toolTip()]
    assert str(folder / "Yard 0.lawnbook") in [label.toolTip() for label in whole]
    assert all("…" in label.text() for label in whole)


def unnamed(root: QWidget) -> list[str]:
    """What takes the keyboard under a widget without a spoken name; folded parts count too."""
    return [
        f"{type(each).__name__} {each.objectName()}"
        for each in root.findChildren(QWidget)
        if each.focusPolicy() != Qt.FocusPolicy.NoFocus
        and not each.isHidden()
        and not each.accessibleName().strip()
    ]


@pytest.mark.parametrize("stem", ["", "larkspur_corner", "saltbush_court"])
def test_whatever_takes_the_keyboard_has_a_name(qtbot: QtBot, desk: Desk, stem: str) -> None:
    desk.show_welcome()
    assert unnamed(page_of(desk)) == []
    if stem:
        desk.open_sample(next(path for path in sample_yards() if path.stem == stem))
    else:
        desk.begin("Empty")
    window = window_of(desk)
    for name, _ in TABS:
        window.turn_to(name)
        qtbot.wait(10)
        assert unnamed(window) == [], name
    assert len(window.findChildren(QLineEdit)) > 50
