"""The short menus of the window, and the keys that work everywhere in it."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Literal

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu

from lawnbook.desk.dialogs import choose_export
from lawnbook.desk.figures import FigureKey
from lawnbook.desk.leaves import add_leaf_actions
from lawnbook.desk.looks_menu import fill_looks_menus
from lawnbook.desk.menu_icons import dress_menus
from lawnbook.desk.shape_menu import fill_shape_menu
from lawnbook.desk.spread import TABS
from lawnbook.desk.units_choice import fill_units_menu
from lawnbook.reading import tr
from lawnbook.yard.places import sample_yards
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.printing import Ask, Said
    from lawnbook.desk.window import BookWindow


def build_menus(window: "BookWindow") -> None:
    """Give the window its menus and keys."""
    bar = window.menuBar()
    bar.setNativeMenuBar(False)
    _file(window, bar.addMenu(tr("&File")))
    _edit(window, bar.addMenu(tr("&Edit")))
    _shape_later(window, bar.addMenu(tr("&Shape")))
    _view(window, bar.addMenu(tr("&View")))
    _help(window, bar.addMenu(tr("&Help")))
    dress_menus(window)


def title_of_sample(stem: str) -> str:
    """A sample yard's name from its file's."""
    return stem.replace("_", " ").title()


def _file(window: "BookWindow", menu: QMenu) -> None:
    _add(menu, tr("&New yard…"), window.new_asked.emit, ["Ctrl+N"])
    _add(menu, tr("&Open…"), window.open_asked.emit, ["Ctrl+O"])
    _recent_later(window, menu.addMenu(tr("Open recen&t")))
    samples = menu.addMenu(tr("Open a &sample"))
    for path in sample_yards():
        title = title_of_sample(path.stem)
        _add(samples, title, lambda _=False, path=path: window.sample_asked.emit(path))
    menu.addSeparator()
    _add(menu, tr("&Print the sheet…"), lambda: _sheet(window, "ask_print"), ["Ctrl+P"])
    pdf = ["Ctrl+Shift+P"]
    _add(menu, tr("&Save the sheet as PDF…"), lambda: _sheet(window, "ask_save"), pdf)
    _add(menu, tr("Print the s&ketch as it is seen…"), lambda: _print_sketch(window))
    _add(menu, tr("Save the sketch as P&DF…"), lambda: _save_sketch(window))
    _add(
        menu,
        tr("Save the c&alendar…"),
        lambda: save_calendar(window),
    )
    menu.addSeparator()
    _add(menu, tr("&Export a yard file…"), lambda: export(window), ["Ctrl+E"])
    _add(menu, tr("&Keep it elsewhere…"), window.move_out)
    _add(menu, tr("Ea&rlier copies…"), window.copies_asked.emit)
    menu.addSeparator()
    _add(menu, tr("&Close"), window.close, ["Ctrl+W"])
    _add(menu, tr("&Quit"), QApplication.closeAllWindows, ["Ctrl+Q"])


def _recent_later(window: "BookWindow", menu: QMenu) -> None:
    """List the notebooks opened last whenever the menu opens; what is gone is left out."""

    def fill() -> None:
        menu.clear()
        here = window.book.path.absolute()
        others = [path for path in window.settings.recent if path != here]
        for path in others:
            open_it = partial(window.watch.path_asked.emit, path)
            words = path.stem.replace("&", "&&")
            _add(menu, words, lambda _=False, go=open_it: go()).setToolTip(str(path))
        if not others:
            _add(menu, tr("No other notebook yet"), fill).setEnabled(False)

    menu.setToolTipsVisible(True)
    menu.aboutToShow.connect(fill)


def _edit(window: "BookWindow", menu: QMenu) -> None:
    menu.addAction(window.undo_action)
    menu.addAction(window.redo_action)
    window.undo_action.setShortcut(QKeySequence("Ctrl+Z"))
    window.redo_action.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
    window.undo_action.triggered.connect(window.undo)
    window.redo_action.triggered.connect(window.redo)
    menu.addSeparator()
    _add(menu, tr("&Note something down…"), lambda: _note_down(window), ["Ctrl+K"])
    menu.addSeparator()
    add_leaf_actions(window, menu, ("settings",))


def _note_down(window: "BookWindow") -> None:
    from lawnbook.desk.quick_add import open_quick_add

    open_quick_add(window)


def _shape_later(window: "BookWindow", menu: QMenu) -> None:
    """Fill the menu once the first page is there, or when it opens sooner."""

    def fill() -> None:
        fill_shape_menu(menu, window.sketch.control)

    menu.aboutToShow.connect(fill)
    window.opened.connect(fill)


def _view(window: "BookWindow", menu: QMenu) -> None:
    for number, (name, _) in enumerate(TABS, 1):
        _add(menu, tr(name), lambda _=False, name=name: window.open_at(name), [f"Ctrl+{number}"])
    menu.addSeparator()
    _add(menu, tr("Look at another &day"), lambda: _to_day(window), ["Ctrl+D"])
    _add(menu, tr("Back to &today"), window.back_to_today, ["Ctrl+T"])
    _add(menu, tr("From sketch to page"), window.switch_side, ["F6"])
    menu.addAction(window.whole_action)
    window.whole_action.setCheckable(True)
    window.whole_action.setShortcut(QKeySequence("F9"))
    window.whole_action.toggled.connect(lambda on: window.lay_sketch(whole=on))
    menu.addSeparator()
    fill_units_menu(window, menu.addMenu(tr("&Units")))
    menu.addSeparator()
    fill_looks_menus(window, menu)


def _help(window: "BookWindow", menu: QMenu) -> None:
    _add(menu, tr("&First steps"), lambda: window.lead_to("First steps"))
    add_leaf_actions(window, menu, ("help", "glossary", "keys", "news"))
    FigureKey(window, lambda: window.help_asked.emit(""))
    window.opened.connect(lambda: _open_figures(window))
    menu.addSeparator()
    add_leaf_actions(window, menu, ("about",))
    window.opened.connect(lambda: _offer_news(window))


def _open_figures(window: "BookWindow") -> None:
    """Once the first page is there: figures on the sketch open their workings."""
    from lawnbook.desk.sketch_figures import SketchFigures

    SketchFigures(window)


def _offer_news(window: "BookWindow") -> None:
    from lawnbook.desk.news_link import offer_news

    offer_news(window)


def _sheet(window: "BookWindow", what: Literal["ask_print", "ask_save"]) -> None:
    """Print the sheet, or save it, once the plan of the day is there."""
    window.with_plan(lambda _: getattr(window.open_sheet(), what)())


def _print_sketch(window: "BookWindow") -> None:
    from lawnbook.desk.printing import ask_print

    sketch_out(window, ask_print)


def _save_sketch(window: "BookWindow") -> None:
    from lawnbook.desk.printing import ask_save

    sketch_out(window, ask_save)


def sketch_out(window: "BookWindow", ask: "Ask") -> None:
    """Put the sketch as it is seen on paper; the status line says how it went."""
    from lawnbook.desk.printing import put_out

    def tell(said: "Said") -> None:
        window.status.say(said.words, said.role)

    put_out(ask, window.writing, window.sketch_page(), tell)


def save_calendar(window: "BookWindow") -> None:
    """Save what is due from the day of the book on; the status line says how it went."""
    from lawnbook.desk.calendar_out import put_calendar

    def tell(said: "Said") -> None:
        window.status.say(said.words, said.role)

    window.with_plan(lambda plan: put_calendar(window.writing, window.book, plan, tell))


def export(window: "BookWindow") -> None:
    """Ask where, and write the yard file there; the status line says how it went."""
    from lawnbook.session.planning import takes_long
    from lawnbook.store.handover_book import with_pictures_apart
    from lawnbook.store.yardfile import write_yard

    if window.writing.in_the_way:
        window.status.say(window.writing.in_the_way, "refuse")
        return
    path = choose_export(window, window.book.path)
    if path is None:
        return
    notebook = with_pictures_apart(window.book.notebook, window.book.path)
    pictured = bool(notebook.photos or notebook.backdrops)

    def then(outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            window.status.say(str(outcome), "refuse")
        else:
            window.status.say(tr("Written: {path}", path=path))

    window.writing.write(
        tr("Writing {name}…", name=path.name),
        path.name,
        lambda stop: write_yard(notebook, path, stop.step, stop.settle),
        then,
        at_once=not (pictured or takes_long(notebook)),
    )


def _to_day(window: "BookWindow") -> None:
    window.ribbon.field.setFocus()
    window.ribbon.field.selectAll()


def _add(menu: QMenu, text: str, slot: Callable[..., object], keys: Sequence[str] = ()) -> QAction:
    action = QAction(text, menu)
    action.setShortcuts([QKeySequence(key) for key in keys])
    action.triggered.connect(slot)
    menu.addAction(action)
    return action
