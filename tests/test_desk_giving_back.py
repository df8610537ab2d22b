"""Memory goes back to the system once a window has come to rest, and not while it is at work."""

import platform
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from lawnbook.desk import giving_back
from lawnbook.desk.giving_back import GivingBack
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from tests.conftest import TODAY
from tests.small_book import small_notebook


def test_a_shown_plan_is_followed_by_giving_back(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []

    def trim(pad: int) -> int:
        asked.append(pad)
        return 1

    monkeypatch.setattr(giving_back, "trimmer", lambda: trim)
    monkeypatch.setattr(giving_back, "REST_MS", 0)
    book = OpenNotebook.create(tmp_path / "a.lawnbook", small_notebook(), TODAY)
    window = BookWindow(book, Settings(tmp_path / "s.ini"))
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: asked == [0])
    assert window.held_plan is not None
    window.close()
    assert not any(each.isActive() for each in window.findChildren(GivingBack))


def test_the_gnu_c_library_can_be_asked() -> None:
    giving_back.give_back()
    assert (giving_back.trimmer() is not None) == (platform.libc_ver()[0] == "glibc")
