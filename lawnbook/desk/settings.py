"""What the window remembers between two days: theme, paper, recent notebooks, its own place."""

from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from platformdirs import user_config_path, user_documents_path
from PySide6.QtCore import QByteArray, QLocale, QObject, QSettings, Signal

from lawnbook.desk.looks import Contrast, Looks, Motion, ThemeName, percent_in_reach
from lawnbook.desk.sketch.habits import LONGEST_STEP_FT, SHORTEST_STEP_FT, Habits

Paper = Literal["letter", "a4"]
LETTER_IN = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE"
"""Countries that print on US Letter; all others on A4 (Unicode CLDR, paper sizes; from memory)."""
Language = Literal["system", "en", "es"]
MOST_RECENT, MOST_REMEMBERED = 8, 24
MOST_PLACES = 60
"""Of how many notebooks it is remembered where each was open."""
_PARTS = 4
_OF_ITS_OWN = ("geometry", "leaf/", "places", "recent", "version_seen")
"""What is no preference: where windows stood and what was seen."""


class Settings(QObject):
    """A small text file of preferences; nothing of a notebook's content is ever in it.

    `changed` tells which preference the owner has just set.
    """

    changed = Signal(str)

    def __init__(self, path: Path | None = None) -> None:
        """Read the preferences at `path`, or in the user's configuration folder."""
        super().__init__()
        held = path or user_config_path("lawnbook", appauthor=False) / "desk.ini"
        self._ini = QSettings(str(held), QSettings.Format.IniFormat)

    @property
    def theme(self) -> ThemeName:
        """The chosen theme; "system" until one is chosen."""
        words = str(self._ini.value("theme", "system"))
        return "light" if words == "light" else "dark" if words == "dark" else "system"

    @theme.setter
    def theme(self, name: ThemeName) -> None:
        self._ini.setValue("theme", name)
        self.changed.emit("theme")

    @property
    def looks(self) -> Looks:
        """How the program looks; what cannot be read is as it was at first."""
        held = Looks()
        contrast: Contrast = "high" if self._ini.value("looks/contrast") == "high" else "normal"
        moves = str(self._ini.value("looks/motion", held.motion))
        motion: Motion = "full" if moves == "full" else "still" if moves == "still" else "system"
        try:
            percent = int(str(self._ini.value("looks/scale_percent", held.scale_percent)))
        except ValueError:
            percent = held.scale_percent
        return Looks(
            theme=self.theme,
            contrast=contrast,
            scale_percent=percent_in_reach(percent),
            motion=motion,
        )

    @looks.setter
    def looks(self, wanted: Looks) -> None:
        self.theme = wanted.theme
        self._ini.setValue("looks/contrast", wanted.contrast)
        self._ini.setValue("looks/scale_percent", wanted.scale_percent)
        self._ini.setValue("looks/motion", wanted.motion)
        self.changed.emit("looks")

    @property
    def paper(self) -> Paper:
        """The paper that the sheet is laid out for; the system's usual one until one is chosen."""
        held = str(self._ini.value("paper", self.first_paper()))
        return "a4" if held == "a4" else "letter"

    @paper.setter
    def paper(self, name: Paper) -> None:
        self._ini.setValue("paper", name)
        self.changed.emit("paper")

    @staticmethod
    def first_paper(locale: QLocale | None = None) -> Paper:
        """The paper of the system's country, Letter where the system names none."""
        spoken = locale or QLocale.system()
        if spoken.language() == QLocale.Language.C:
            return "letter"
        return "letter" if QLocale.territoryToCode(spoken.territory()) in LETTER_IN else "a4"

    @property
    def workings(self) -> bool:
        """Whether the sheet is followed by its workings."""
        return str(self._ini.value("workings", "no")) == "yes"

    @workings.setter
    def workings(self, wanted: bool) -> None:
        self._ini.setValue("workings", "yes" if wanted else "no")
        self.changed.emit("workings")

    @property
    def language(self) -> Language:
        """The language of the words, from the next start on; the system's until one is chosen."""
        held = str(self._ini.value("language", "system"))
        return "en" if held == "en" else "es" if held == "es" else "system"

    @language.setter
    def language(self, name: Language) -> None:
        self._ini.setValue("language", name)
        self.changed.emit("language")

    @property
    def folder(self) -> Path:
        """Where new notebooks go: the folder used last, else the owner's documents."""
        held = Path(str(self._ini.value("folder", "")))
        return held if str(held) != "." and held.is_dir() else self.first_folder()

    @folder.setter
    def folder(self, path: Path) -> None:
        self._ini.setValue("folder", str(path))
        self.changed.emit("folder")

    @staticmethod
    def first_folder() -> Path:
        """Where new notebooks go until another folder is chosen: the owner's documents."""
        return user_documents_path()

    @property
    def recent(self) -> tuple[Path, ...]:
        """The notebooks opened last that are still there, newest first."""
        return tuple(each for each in self._opened() if each.is_file())[:MOST_RECENT]

    def forget_recent(self) -> None:
        """Let the list of recent notebooks be empty; the files stay where they are."""
        self._ini.remove("recent")
        self.changed.emit("recent")

    def remember(self, path: Path) -> None:
        """Put a notebook on top of the recent ones."""
        whole = path.absolute()
        others = [each for each in self._opened() if each != whole]
        self._ini.setValue("recent", [str(each) for each in (whole, *others)][:MOST_REMEMBERED])

    def _opened(self) -> list[Path]:
        """The notebooks opened last, newest first, also those that are not there now.

        One on a drive that is not plugged in is listed again once it is.
        """
        held = self._ini.value("recent", [])
        listed = held if isinstance(held, list) else [held]
        return [Path(str(each)) for each in listed if each]

    @property
    def habits(self) -> Habits:
        """How the owner draws; what cannot be read is as it was at first."""
        held = Habits()
        return Habits(
            step_ft=self._step("step_ft") or held.step_ft,
            fine_ft=self._step("fine_ft") or held.fine_ft,
            grid_ft=self._step("grid_ft"),
            snaps=str(self._ini.value("sketch/snaps", "yes")) != "no",
            sees_through=str(self._ini.value("sketch/sees_through", "no")) == "yes",
        )

    @habits.setter
    def habits(self, habits: Habits) -> None:
        for name in ("step_ft", "fine_ft", "grid_ft"):
            step = getattr(habits, name)
            self._ini.setValue(f"sketch/{name}", "" if step is None else repr(step))
        self._ini.setValue("sketch/snaps", "yes" if habits.snaps else "no")
        self._ini.setValue("sketch/sees_through", "yes" if habits.sees_through else "no")
        self.changed.emit("habits")

    def _step(self, name: str) -> float | None:
        try:
            step = float(str(self._ini.value(f"sketch/{name}", "")))
        except ValueError:
            return None
        return step if SHORTEST_STEP_FT <= step <= LONGEST_STEP_FT else None

    @property
    def geometry(self) -> QByteArray:
        """The window's size and place as it was left; empty at first."""
        held = self._ini.value("geometry")
        return held if isinstance(held, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, place: QByteArray) -> None:
        self._ini.setValue("geometry", place)

    def leaf_geometry(self, kind: str) -> QByteArray:
        """The size and place of a leaf (Help, Settings and so on) as it was left."""
        held = self._ini.value(f"leaf/{kind}")
        return held if isinstance(held, QByteArray) else QByteArray()

    def keep_leaf_geometry(self, kind: str, place: QByteArray) -> None:
        """Keep the size and place of a leaf."""
        self._ini.setValue(f"leaf/{kind}", place)

    def place_of(self, notebook: Path) -> tuple[str, str, str]:
        """Where a notebook was last open: page, section, and the day as ISO, "" for today.

        Three empty words for one that is not known.
        """
        found = self._places().get(str(notebook.absolute()))
        return found if found is not None else ("", "", "")

    def keep_place(self, notebook: Path, page: str, section: str, on: str) -> None:
        """Keep where a notebook was open; the longest unopened of many is forgotten."""
        name = str(notebook.absolute())
        others = {path: held for path, held in self._places().items() if path != name}
        placed = {name: (page, section, on), **others}
        lines = ["\t".join((path, *held)) for path, held in placed.items()]
        self._ini.setValue("places", lines[:MOST_PLACES])

    def _places(self) -> dict[str, tuple[str, str, str]]:
        held = self._ini.value("places", [])
        lines = held if isinstance(held, list) else [held]
        parted = [str(line).split("\t") for line in lines]
        return {each[0]: (each[1], each[2], each[3]) for each in parted if len(each) == _PARTS}

    @property
    def version_seen(self) -> str:
        """The version whose news the owner has seen or was told of; "" before the first start."""
        return str(self._ini.value("version_seen", ""))

    @version_seen.setter
    def version_seen(self, version: str) -> None:
        self._ini.setValue("version_seen", version)

    def preferences(self) -> Mapping[str, object]:
        """Every preference that was chosen, as it is kept; for `put_back`."""
        return {
            key: self._ini.value(key)
            for key in self._ini.allKeys()
            if not key.startswith(_OF_ITS_OWN)
        }

    def put_back(self, preferences: Mapping[str, object]) -> None:
        """Let the preferences be these and no others; with none all are as at first."""
        for key in self.preferences():
            self._ini.remove(key)
        for key, value in preferences.items():
            self._ini.setValue(key, value)
        self.changed.emit("all")
