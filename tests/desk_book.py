"""A sample yard opened as a notebook in a temporary folder, and a clean desk after each test."""

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication

from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import apply_theme
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import new_notebook
from tests.desk_sample import DAY, sample


@pytest.fixture
def dressed(qapp: QApplication) -> Iterator[QApplication]:
    """The application in the light theme; no widget and no timer may be left afterwards."""
    apply_theme(qapp, "light")
    yield qapp
    for _ in range(3):
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        QApplication.processEvents()
        gc.collect()
        if not QApplication.topLevelWidgets():
            break
    left = QApplication.topLevelWidgets()
    names = [f"{type(each).__name__} {each.objectName()}" for each in left]
    for each in left:
        each.deleteLater()
    assert not names, f"left on the desk: {names}"


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """Preferences of this test alone."""
    return Settings(tmp_path / "desk.ini")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """Larkspur Corner, opened for editing."""
    held = OpenNotebook.create(tmp_path / "larkspur.lawnbook", sample("larkspur_corner"), DAY)
    yield held
    held.close()


@pytest.fixture
def empty_book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """A yard with nothing in it yet."""
    held = OpenNotebook.create(tmp_path / "empty.lawnbook", new_notebook("Home"), DAY)
    yield held
    held.close()
