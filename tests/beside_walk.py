"""What stands beside or over the pages, opened one after another to look whether its words fit.

The welcome page, leaves, dialogs, the line for noting down, workings, menus, the strips of the
sketch, the foot of the page, and every section with its folds open. Used by the tests of text
sizes, and by the longer `python -m tests.looks_walk`.
"""

from collections.abc import Callable, Collection, Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, cast

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QSize
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QMessageBox, QWidget

from lawnbook.desk import dialogs
from lawnbook.desk.leaf import Leaf
from lawnbook.desk.leaves import leaf_titles, open_leaf
from lawnbook.desk.mishap_dialog import MishapDialog
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.photo_keepers import KeptPhoto
from lawnbook.desk.pages.photo_window import PhotoWindow
from lawnbook.desk.quick_add import open_quick_add
from lawnbook.desk.rescue import DamagedDialog, SalvagedDialog
from lawnbook.desk.restore import EarlierCopies
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.panel_keys import open_menu
from lawnbook.desk.sketch.toolbox import TOOLS
from lawnbook.desk.theme import px
from lawnbook.desk.wait_dialog import WaitDialog
from lawnbook.desk.welcome import WelcomeWindow
from lawnbook.desk.window import BookWindow
from lawnbook.desk.workings import WorkingLink, WorkingPanel
from lawnbook.store.backups import keep_copy
from lawnbook.store.salvage_told import SalvageTold, TableTold
from lawnbook.yard.notebook import put
from tests.text_room import SLACK_PX, faults
from tests.words_walk import SECTIONS

ROOM = QSize(1280, 800)
"""The least screen that the window is made for."""
TODAY = date(2026, 6, 15)
LONG = "The yard behind the old schoolhouse by the river"
Seen = tuple[str, QWidget, list[str]]
"""What was opened, its widget while it is shown, and what is wrong with it."""


def settle(rounds: int = 6) -> None:
    """Let everything that was put off happen: plans, layouts, deletions."""
    for _ in range(rounds):
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def look(name: str, shown: QWidget) -> Seen:
    """What a window of its own cuts off, or needs beyond the least screen."""
    settle()
    found = faults(shown)
    for kind, size in (("is", shown.size()), ("needs", shown.minimumSizeHint())):
        if size.width() > ROOM.width() + SLACK_PX or size.height() > ROOM.height() + SLACK_PX:
            found.append(f"{kind} {size.toTuple()}, more than the screen's {ROOM.toTuple()}")
    return name, shown, found


def put_away(shown: QWidget) -> None:
    """Close what was opened, for good."""
    shown.close()
    shown.deleteLater()
    settle(2)


def welcome(folder: Path) -> Iterator[Seen]:
    """The first page: without any notebook yet, and with several and a refusal."""
    page = WelcomeWindow(Settings(folder / "welcome.ini"))
    page.resize(QSize(px(1000), px(700)).boundedTo(ROOM))
    page.show()
    yield look("welcome", page)
    for number in range(6):
        page.settings.remember(folder / f"{LONG} {number}.lawnbook")
    page.refresh()
    page.say("The yard has no name yet; give it one, such as Home.")
    yield look("welcome with notebooks", page)
    page.resize(QSize(px(920), 620).boundedTo(ROOM))
    yield look("welcome at its least", page)
    put_away(page)


def leaves(host: QWidget) -> Iterator[Seen]:
    """Every leaf, as large as it opens on the least screen, and at its least."""
    for kind in leaf_titles():
        leaf: Leaf = open_leaf(host, kind)
        leaf.resize(QSize(px(leaf.SIZE_PX.width()), px(leaf.SIZE_PX.height())).boundedTo(ROOM))
        yield look(f"leaf {kind}", leaf)
        least = QSize(px(leaf.LEAST_PX.width()), leaf.LEAST_PX.height())
        leaf.resize(least.boundedTo(ROOM).expandedTo(leaf.minimumSize()))
        yield look(f"leaf {kind} at its least", leaf)
        put_away(leaf)


def _asked(window: BookWindow, _: Path) -> QWidget:
    ways = (
        dialogs.WayOn("stay", "Stay here", "stay"),
        dialogs.WayOn("elsewhere", "Keep it elsewhere…", "go"),
        dialogs.WayOn("abandon", "Close and lose them", "lose"),
    )
    texts = (
        "The latest changes are not on disk.",
        f"The disk on which {LONG}.lawnbook lies is full; make room on it.",
    )
    return dialogs.question(window, "close_with_trouble", texts, ways, "stay")


def _told(window: BookWindow, folder: Path) -> QWidget:
    words = dialogs.pictures_lost_told(3, folder / f"{LONG}.lawnbook")
    dialogs.tell(window, "Lawnbook", words)
    box = window.findChild(QMessageBox, "told")
    assert box is not None
    return box


def _copies(window: BookWindow, folder: Path) -> QWidget:
    path, root = window.book.path, folder / "copies"
    for day in (3, 4, 9):
        moment = datetime(2026, 5, day, 9, 5, tzinfo=UTC)
        keep_copy(path, f"{day}", moment, root)
    made = EarlierCopies(path, root, lambda: window.book.notebook, TODAY, window)
    made.resize(QSize(px(1120), px(640)).boundedTo(ROOM))
    made.show()
    waited_for(lambda: made.list.rowCount() > 0 and bool(made.title.text()))
    waited_for(made.open_button.isEnabled)
    return made


def _salvaged(window: BookWindow, folder: Path) -> QWidget:
    told = SalvageTold(
        tables=(TableTold("waterings", kept=812, lost=40, may_lack=True),),
        notes=("Two pages could not be read.",),
    )
    return SalvagedDialog(told, folder / f"{LONG}.lawnbook", True, window)


def _mishap(window: BookWindow, folder: Path) -> QWidget:
    made = MishapDialog("key", "report", folder / "reports" / "mishap-2026-06-15.txt", window)
    made.count("other", "report")
    return made


def _waiting(window: BookWindow, _: Path) -> QWidget:
    made = WaitDialog("The plan is being reckoned for the sheet…", window)
    made.went_on(12, 340)
    return made


def _photo(window: BookWindow, _: Path) -> QWidget:
    photo_id = next(iter(window.book.notebook.photos))
    made = PhotoWindow(KeptPhoto(window.book, photo_id), "Photo of a new plug", window)
    made.resize(QSize(px(860), px(800)).boundedTo(ROOM))
    return made


DIALOGS: dict[str, Callable[[BookWindow, Path], QWidget]] = {
    "question": _asked,
    "told": _told,
    "earlier copies": _copies,
    "damaged": lambda window, _: DamagedDialog(
        f"{LONG}.lawnbook is damaged: the disk image is malformed.", True, window
    ),
    "salvaged": _salvaged,
    "mishap": _mishap,
    "waiting": _waiting,
    "photo": _photo,
}
"""What opens over the window, and how it comes up, with words as long as they become."""


def over(window: BookWindow, folder: Path) -> Iterator[Seen]:
    """Every dialog, as large as it opens."""
    for name, make in DIALOGS.items():
        if name == "photo" and not window.book.notebook.photos:
            continue
        shown = make(window, folder)
        shown.show()
        yield look(f"dialog {name}", shown)
        put_away(shown)


QUICK_LINES = ("", "watered 30 min", "fed 12 lb", "mowed 9 in yesterday", "plug 0.4 roots 3", "?")


def quick(window: BookWindow) -> Iterator[Seen]:
    """The line for noting down: empty, with fields, proposals and faults, and with its examples."""
    made = open_quick_add(window)
    for line in QUICK_LINES:
        made.line.setText("" if line == "?" else line)
        if line == "?":
            made.line.help_asked.emit()
        settle()
        yield f"quick add {line!r}", made, faults(window)
    made.line.help_asked.emit()
    made.line.clear()
    made.hide()


def workings(window: BookWindow) -> Iterator[Seen]:
    """The panel of every link to a working that is shown in a section."""
    for link in window.findChildren(WorkingLink):
        if link.isVisible() and link.workings():
            panel = WorkingPanel.open_below(link, link.workings())
            yield look(f"working {link.objectName()} {link.accessibleName()}", panel)
            put_away(panel)


def unfolded(window: BookWindow, page: str, section: str) -> str:
    """Turn to a section, open all its folds, and tell its name."""
    window.turn_to(page)
    shown = cast(Any, window.page(page))
    shown.turn_to(section)
    settle()
    for fold in shown.findChildren(Fold):
        if fold.isVisible():
            fold.unfold()
    settle()
    return f"{page}, {section} unfolded"


def sections(window: BookWindow, of: Collection[str] = SECTIONS) -> Iterator[Seen]:
    """Every section with all folds open, and the workings that it links to on some pages."""
    for page, names in SECTIONS.items():
        for section in names:
            name = unfolded(window, page, section)
            yield name, window, faults(window)
            if page in of:
                for told, panel, found in workings(window):
                    yield f"{name}: {told}", panel, found


def sketch(window: BookWindow) -> Iterator[Seen]:
    """The strips of every tool, of everything that can be chosen, and of moving it."""
    window.turn_to("Yard")
    window.lay_sketch(whole=True)
    settle()
    panel, control = window.sketch, window.sketch.control
    for name in TOOLS:
        panel.take(name)
        settle()
        yield f"tool {name}", window, faults(window)
    panel.tool("Pick")
    for table in ("zones", "features", "heads", "spots"):
        for key in list(window.book.notebook.table(table))[:1]:
            control.choose_all(((table, key),))
            settle()
            yield f"chosen {table}", window, faults(window)
            control.move_wanted.emit()
            settle()
            yield f"moved {table}", window, faults(window)
    control.choose_all(())
    window.lay_sketch(whole=False)
    settle()


def menus(window: BookWindow) -> Iterator[Seen]:
    """Every menu, opened: it must fit the screen."""
    for each in window.menuBar().actions():
        of_bar = each.menu()
        if isinstance(of_bar, QMenu):
            of_bar.aboutToShow.emit()
            window.sketch.control.choose_all(())
    for found in window.findChildren(QMenu):
        yield from _popped(found, window)
    control = window.sketch.control
    for table in ("zones", "heads"):
        for key in list(window.book.notebook.table(table))[:1]:
            control.choose_all(((table, key),))
            open_menu(window.sketch, None)
            menu = QApplication.activePopupWidget()
            assert menu is not None
            yield look(f"menu of {table}", menu)
            menu.close()
            settle(2)
    control.choose_all(())


def _popped(menu: QMenu, window: BookWindow) -> Iterator[Seen]:
    name = menu.title().replace("&", "") or menu.objectName() or "menu"
    menu.popup(window.mapToGlobal(QPoint(0, 0)))
    yield look(f"menu {name}", menu)
    menu.close()


def foot(window: BookWindow) -> Iterator[Seen]:
    """The foot of the page with a long undo, and with a trouble."""
    notebook = window.book.notebook
    zone = next(iter(notebook.zones.values()), None)
    if zone is not None:
        for name in (zone.name.upper(), LONG):
            changed = replace(zone, name=name)
            label = f"name of {name} {name}"
            window.book.edit(put(window.book.notebook, "zones", changed), label)
            settle()
            yield f"status after {label}", window, faults(window)
        window.book.undo()
        settle()
        yield "status with undo and redo", window, faults(window)
        window.book.undo()
        settle()


def waited_for(is_so: Callable[[], bool]) -> None:
    """Let the window work until something is so; given up after ten seconds."""
    for _ in range(200):
        if is_so():
            return
        QTest.qWait(50)
