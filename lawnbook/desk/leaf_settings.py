"""Settings: everything the owner can choose, on one page; each takes effect at once."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QEvent, QSize, QUrl
from PySide6.QtGui import QDesktopServices, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QHBoxLayout, QWidget

from lawnbook.desk.dialogs import choose_folder
from lawnbook.desk.leaf import Leaf
from lawnbook.desk.looks import LEAST_PERCENT, MOST_PERCENT, STEP_PERCENT, Looks
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.settings import Settings
from lawnbook.desk.settings_habits import HabitsCard
from lawnbook.desk.settings_rows import Choice, SettingsCard, Tick, at_first
from lawnbook.desk.theme import apply_looks
from lawnbook.desk.widgets import LinkButton, OneLine, PageScroll, QuietButton
from lawnbook.desk.window import BookWindow
from lawnbook.languages import LANGUAGES
from lawnbook.reading import tr
from lawnbook.store.backups import backups_folder


class SettingsLeaf(Leaf):
    """The page. What is taken away here can be had back with Undo; nothing is asked."""

    SIZE_PX = QSize(800, 760)

    def __init__(self, host: QWidget) -> None:
        super().__init__("settings", host)
        self._undo: Callable[[], None] | None = None
        self._scroll = PageScroll(self)
        self.body.addWidget(self._scroll)
        for card in (self._looks_card(), self._words_card(), self._paper_card()):
            self._scroll.body.addWidget(card)
        self.habits = HabitsCard(self.settings, self._book_window, self)
        self._scroll.body.addWidget(self.habits)
        self._scroll.body.addWidget(self._files_card())
        self._scroll.body.addLayout(self._all_row())
        self._scroll.body.addStretch(1)
        QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), self, self._take_back)
        self.settings.changed.connect(self.refresh)
        window = self._book_window
        if window is not None:
            self.destroyed.connect(window.book.subscribe(lambda _: self.refresh()))
        self.refresh()

    @property
    def _book_window(self) -> BookWindow | None:
        return self.host if isinstance(self.host, BookWindow) else None

    def begin(self) -> None:
        """The keyboard starts at the first setting."""
        self.theme.setFocus()

    def changeEvent(self, event: QEvent) -> None:
        """What was changed elsewhere meanwhile is shown when the leaf is turned to again."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.refresh()

    def refresh(self) -> None:
        """Show everything as it is set now."""
        held = self.settings
        looks = held.looks
        self.theme.show_value(looks.theme)
        self.contrast.show_value(looks.contrast)
        self.percent.show_value(looks.scale_percent)
        self.motion.show_value(looks.motion)
        self.language.show_value(held.language)
        self.paper.show_value(held.paper)
        check_quietly(self.workings, on=held.workings)
        window = self._book_window
        self.units.setEnabled(window is not None)
        if window is not None:
            self.units.show_value(window.book.notebook.yard.units)
        self.folder.setText(str(held.folder))
        recent = len(held.recent)
        some = tr("1 notebook") if recent == 1 else tr("{count} notebooks", count=recent)
        self.recent.setText(some if recent else tr("None yet"))
        self.clear.setEnabled(bool(recent))
        self.habits.refresh()

    def _looks_card(self) -> SettingsCard:
        card = SettingsCard(tr("Looks"), self)
        add = partial(self._looks_row, card)
        self.theme: Choice[Any] = add(
            ("theme", tr("Theme")),
            (("system", tr("As the system")), ("light", tr("Light")), ("dark", tr("Dark"))),
            at_first(tr("as the system")),
        )
        self.contrast: Choice[Any] = add(
            ("contrast", tr("Contrast")),
            (("normal", tr("Normal")), ("high", tr("High"))),
            at_first(tr("normal; high where the system asks for it")),
        )
        sizes = range(LEAST_PERCENT, MOST_PERCENT + 1, STEP_PERCENT)
        self.percent: Choice[Any] = add(
            ("scale_percent", tr("Size of text")),
            tuple((each, tr("{percent} %", percent=each)) for each in sizes),
            at_first(tr("100 %")),
        )
        self.motion: Choice[Any] = add(
            ("motion", tr("Motion")),
            (("system", tr("As the system")), ("full", tr("Shown")), ("still", tr("Left out"))),
            at_first(tr("as the system, where it can be asked")),
        )
        return card

    def _looks_row(
        self,
        card: SettingsCard,
        named: tuple[str, str],
        values: tuple[tuple[Any, str], ...],
        default: str,
    ) -> Choice[Any]:
        name, label = named
        made: Choice[Any] = Choice(name, label, values, partial(self._dress, name), self)
        card.add_row(label, made, default)
        return made

    def _dress(self, name: str, value: object) -> None:
        """Wear another look, at once and everywhere."""
        changed: dict[str, Any] = {name: value}
        self.settings.looks = replace(self.settings.looks, **changed)
        self._wear(self.settings.looks)

    def _wear(self, looks: Looks) -> None:
        app = QApplication.instance()
        if isinstance(app, QApplication):
            apply_looks(app, looks)

    def _words_card(self) -> SettingsCard:
        card = SettingsCard(tr("Units and words"), self)
        self.units: Choice[Any] = Choice(
            "units",
            tr("Units of this notebook"),
            (("us", tr("US customary")), ("metric", tr("Metric"))),
            self._choose_units,
            self,
        )
        is_book = self._book_window is not None
        how = at_first(
            tr("US customary. An edit of this notebook: Undo in the book takes it back.")
        )
        card.add_row(
            tr("Units of this notebook"),
            self.units,
            how if is_book else tr("Each notebook has its own: open one first."),
        )
        languages = (("system", tr("As the system")), *LANGUAGES.items())
        self.language: Choice[Any] = Choice(
            "language", tr("Language"), languages, self._choose_language, self
        )
        card.add_row(
            tr("Language"), self.language, f"{at_first(tr('as the system'))}. {next_start()}"
        )
        return card

    def _choose_units(self, units: Any) -> None:
        window = self._book_window
        if window is not None:
            window.units.choose(units)

    def _choose_language(self, language: Any) -> None:
        self.settings.language = language
        self.foot.say(next_start(), "caption")

    def _paper_card(self) -> SettingsCard:
        card = SettingsCard(tr("On paper"), self)
        self.paper: Choice[Any] = Choice(
            "paper",
            tr("Paper"),
            (("letter", tr("Letter")), ("a4", tr("A4"))),
            self._choose_paper,
            self,
        )
        first = tr("Letter") if Settings.first_paper() == "letter" else tr("A4")
        card.add_row(tr("Paper"), self.paper, at_first(first))
        self.workings = Tick(
            "workings",
            tr("Print the workings too"),
            self._print_workings,
            self,
        )
        card.add_row(tr("Sheet"), self.workings, at_first(tr("the page alone")))
        return card

    def _choose_paper(self, paper: Any) -> None:
        self.settings.paper = paper

    def _print_workings(self, wanted: bool) -> None:
        self.settings.workings = wanted

    def _files_card(self) -> SettingsCard:
        card = SettingsCard(tr("Files"), self)
        self.folder = OneLine("", self)
        self.folder.setObjectName("setting_folder")
        choose = QuietButton(tr("Choose…"), "setting_choose_folder", self)
        choose.setAccessibleName(tr("Choose the folder for new notebooks"))
        choose.clicked.connect(self._choose_folder)
        first = Settings.first_folder()
        card.add_row(
            tr("New notebooks"), self.folder, at_first(tr("{folder}", folder=first)), choose
        )
        copies = backups_folder()
        where = OneLine(str(copies), self)
        where.setObjectName("setting_copies")
        look = QuietButton(tr("Open the folder"), "setting_open_copies", self)
        look.setAccessibleName(tr("Open the folder of earlier copies"))
        look.clicked.connect(lambda: self.open_folder(copies))
        kept = tr("Kept by itself; File, Earlier copies shows those of the open notebook.")
        card.add_row(tr("Earlier copies"), where, kept, look)
        self.recent = OneLine("", self)
        self.recent.setObjectName("setting_recent")
        self.clear = QuietButton(tr("Clear the list"), "setting_clear_recent", self)
        self.clear.clicked.connect(self._clear_recent)
        note = tr("The files stay where they are; only the list is emptied.")
        card.add_row(tr("Recent notebooks"), self.recent, note, self.clear)
        return card

    def _choose_folder(self) -> None:
        folder = choose_folder(self, self.settings.folder)
        if folder is not None:
            self.settings.folder = folder

    def open_folder(self, folder: Path) -> None:
        """Show a folder in the system's own window, or say why not."""
        if not folder.is_dir():
            self.foot.say(tr("Nothing is kept there yet."), "ask")
        elif not QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder))):
            self.foot.say(tr("It could not be shown; it is {folder}", folder=folder), "ask")

    def _clear_recent(self) -> None:
        before = self.settings.recent
        self.settings.forget_recent()
        self._offer(tr("The list of recent notebooks is empty."), partial(self._list_again, before))

    def _list_again(self, paths: tuple[Path, ...]) -> None:
        for path in reversed(paths):
            self.settings.remember(path)
        self.refresh()

    def _all_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        everything = QuietButton(
            tr("Set everything back to how it was at first"), "setting_all_back", self
        )
        everything.clicked.connect(self._set_all_back)
        self.undo = LinkButton(tr("Undo"), "setting_undo", self)
        self.undo.clicked.connect(self._take_back)
        self.undo.hide()
        row.addWidget(everything)
        row.addWidget(self.undo)
        row.addStretch(1)
        return row

    def _set_all_back(self) -> None:
        before = dict(self.settings.preferences())
        self._put_back({})
        told = tr("All settings are as they were at first; those of the notebook stay.")
        self._offer(told, partial(self._put_back, before))

    def _put_back(self, preferences: dict[str, object]) -> None:
        self.settings.put_back(preferences)
        self._wear(self.settings.looks)
        self.habits.use()

    def _offer(self, told: str, undo: Callable[[], None]) -> None:
        self._undo = undo
        self.undo.show()
        self.foot.say(told, "caption")

    def _take_back(self) -> None:
        undo, self._undo = self._undo, None
        self.undo.hide()
        if undo is not None:
            undo()
            self.foot.say(tr("Taken back."), "caption")


def next_start() -> str:
    """That a choice is not seen before the next start."""
    return tr("Takes effect the next time Lawnbook is opened.")
