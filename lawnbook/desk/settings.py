"""What the window remembers between two days: theme, paper, recent notebooks, its own place."""

from pathlib import Path
from typing import Literal

from platformdirs import user_config_path, user_documents_path
from PySide6.QtCore import QByteArray, QSettings

from lawnbook.desk.sketch.habits import LONGEST_STEP_FT, SHORTEST_STEP_FT, Habits
from lawnbook.desk.theme import ThemeName

Paper = Literal["letter", "a4"]
MOST_RECENT = 8


class Settings:
    """A small text file of preferences; nothing of a notebook's content is ever in it."""

    def __init__(self, path: Path | None = None) -> None:
        """Read the preferences at `path`, or in the user's configuration folder."""
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

    @property
    def paper(self) -> Paper:
        """The paper that the sheet is laid out for."""
        return "a4" if self._ini.value("paper", "letter") == "a4" else "letter"

    @paper.setter
    def paper(self, name: Paper) -> None:
        self._ini.setValue("paper", name)

    @property
    def workings(self) -> bool:
        """Whether the sheet is followed by its workings."""
        return str(self._ini.value("workings", "no")) == "yes"

    @workings.setter
    def workings(self, wanted: bool) -> None:
        self._ini.setValue("workings", "yes" if wanted else "no")

    @property
    def folder(self) -> Path:
        """Where new notebooks go: the folder used last, else the owner's documents."""
        held = Path(str(self._ini.value("folder", "")))
        return held if str(held) != "." and held.is_dir() else user_documents_path()

    @folder.setter
    def folder(self, path: Path) -> None:
        self._ini.setValue("folder", str(path))

    @property
    def recent(self) -> tuple[Path, ...]:
        """The notebooks opened last that are still there, newest first."""
        held = self._ini.value("recent", [])
        listed = held if isinstance(held, list) else [held]
        return tuple(
            path for path in (Path(str(each)) for each in listed if each) if path.is_file()
        )

    def remember(self, path: Path) -> None:
        """Put a notebook on top of the recent ones."""
        whole = path.absolute()
        others = [each for each in self.recent if each != whole]
        self._ini.setValue("recent", [str(each) for each in (whole, *others)][:MOST_RECENT])

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
