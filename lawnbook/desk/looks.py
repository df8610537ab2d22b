"""How the program looks to this owner: theme, contrast, size of text, motion; no Qt widgets.

One `Looks` is worn at a time, as there is one application; `theme.apply_looks` puts it on.
"""

import os
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from lawnbook.frozen import dataclass

ThemeName = Literal["light", "dark", "system"]
Contrast = Literal["normal", "high"]
Motion = Literal["system", "full", "still"]
LEAST_PERCENT, MOST_PERCENT, STEP_PERCENT = 100, 200, 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Looks:
    """The choices: `scale_percent` is the size of text, from 100 to 200."""

    theme: ThemeName = "system"
    contrast: Contrast = "normal"
    scale_percent: int = LEAST_PERCENT
    motion: Motion = "system"


class _Worn:
    """The looks in use."""

    looks = Looks()


def looks() -> Looks:
    """The looks in use now."""
    return _Worn.looks


def wear(wanted: Looks) -> None:
    """Take these for the looks in use; to be seen they need `theme.apply_looks`."""
    _Worn.looks = wanted


def percent_in_reach(percent: int) -> int:
    """A size of text in percent, brought into the range that the pages are laid out for."""
    return min(max(percent, LEAST_PERCENT), MOST_PERCENT)


def is_still() -> bool:
    """Whether motion is to be left out: the owner's choice, else the desktop's where it tells."""
    motion = _Worn.looks.motion
    if motion != "system":
        return motion == "still"
    return _desktop_is_still()


def _desktop_is_still() -> bool:
    """Whether the desktop asks for no motion; where it cannot tell, it is taken not to ask."""
    windows = QGuiApplication.platformName() == "windows"
    tells = windows or "KDE" in os.environ.get("XDG_CURRENT_DESKTOP", "")
    return tells and not QApplication.isEffectEnabled(Qt.UIEffect.UI_General)
