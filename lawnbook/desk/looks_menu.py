"""The part of the View menu that says how the program looks: theme, contrast, size of text."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu

from lawnbook.desk.looks import LEAST_PERCENT, STEP_PERCENT, Looks, ThemeName, percent_in_reach
from lawnbook.desk.theme import apply_looks
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow

THEMES: tuple[tuple[ThemeName, str], ...] = (
    ("system", tr("As the s&ystem")),
    ("light", tr("&Light")),
    ("dark", tr("Dar&k")),
)
LARGER_KEYS = ("Ctrl+Shift+.",)
SMALLER_KEYS = ("Ctrl+Shift+,",)
NORMAL_KEYS = ("Ctrl+0",)


def fill_looks_menus(window: "BookWindow", menu: QMenu) -> None:
    """Add the menu of looks, and the three entries for the size of text."""
    looks = menu.addMenu(tr("Loo&k"))
    group = QActionGroup(looks)
    themes: dict[ThemeName, QAction] = {}
    for theme, words in THEMES:
        action = looks.addAction(tr(words))
        action.setCheckable(True)
        action.triggered.connect(lambda _=False, theme=theme: choose_theme(window, theme))
        group.addAction(action)
        themes[theme] = action
    looks.addSeparator()
    high = looks.addAction(tr("&High contrast"))
    high.setCheckable(True)
    high.triggered.connect(lambda on: choose_contrast(window, high=on))

    def check() -> None:
        held = window.settings.looks
        themes[held.theme].setChecked(True)
        high.setChecked(held.contrast == "high")

    looks.aboutToShow.connect(check)
    check()
    _size(window, menu, tr("La&rger text"), LARGER_KEYS, STEP_PERCENT)
    _size(window, menu, tr("S&maller text"), SMALLER_KEYS, -STEP_PERCENT)
    _size(window, menu, tr("&Normal text"), NORMAL_KEYS, None)


def choose_theme(window: "BookWindow", theme: ThemeName) -> None:
    """Wear another theme, and remember it."""
    _wear(window, replace(window.settings.looks, theme=theme))


def choose_contrast(window: "BookWindow", *, high: bool) -> None:
    """Wear high contrast or not, and remember it."""
    _wear(window, replace(window.settings.looks, contrast="high" if high else "normal"))


def change_size(window: "BookWindow", by_percent: int | None) -> None:
    """Make all text larger or smaller by some percent, or as written with None; remember it."""
    held = window.settings.looks
    wanted = LEAST_PERCENT if by_percent is None else held.scale_percent + by_percent
    percent = percent_in_reach(wanted)
    _wear(window, replace(held, scale_percent=percent))
    window.status.say(tr("Text at {percent} %.", percent=percent))


def _size(
    window: "BookWindow", menu: QMenu, words: str, keys: tuple[str, ...], by_percent: int | None
) -> None:
    action = menu.addAction(words)
    action.setShortcuts([QKeySequence(key) for key in keys])
    action.triggered.connect(lambda: change_size(window, by_percent))


def _wear(window: "BookWindow", looks: Looks) -> None:
    window.settings.looks = looks
    app = QApplication.instance()
    if isinstance(app, QApplication):
        apply_looks(app, looks)
