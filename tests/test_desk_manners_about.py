"""About and What's new: every licence of what is installed, the same in a build, news told once."""

import json
import re
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from lawnbook import __version__
from lawnbook.desk import licences
from lawnbook.desk.leaf_news import news_passages
from lawnbook.desk.news_link import offer_news
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.places import manual, news, resource
from tests.leaf_hand import Host, child, text_leaf

pytest_plugins = ["tests.desk_book", "tests.leaf_book"]

PROJECT = manual().parent / "pyproject.toml"
LEFT = Qt.MouseButton.LeftButton


def asked_for() -> set[str]:
    """What pyproject.toml asks for by name, read without the code that is tested."""
    block = PROJECT.read_text("utf-8").partition("\ndependencies = [")[2].partition("\n]")[0]
    names = re.findall(r'^  "([A-Za-z0-9._-]+)', block, re.MULTILINE)
    return {licences.normal(name) for name in names}


def test_all_that_is_asked_for_is_told_with_what_it_asks_for_itself() -> None:
    told = set(licences.installed())
    assert len(asked_for()) >= 10
    here = {name for name in asked_for() if is_here(name)}
    assert here <= told
    # What matplotlib and pandas bring along themselves.
    assert {"contourpy", "python-dateutil", "pyparsing", "python"} <= told
    assert told.isdisjoint({"pytest", "mypy", "hypothesis", "scipy", "lawnbook"})


def is_here(name: str) -> bool:
    try:
        version(name)
    except PackageNotFoundError:
        return False
    return True


def test_the_record_for_a_build_matches_what_is_installed() -> None:
    """Run resources/licences.py where this fails: a dependency has come, gone or changed."""
    held, here = licences.recorded(), licences.installed()
    assert set(here) <= set(held)
    for name, part in here.items():
        if held[name].version == part.version:
            assert held[name] == part, name
        else:
            assert held[name].licence, name


def test_a_build_without_metadata_tells_the_record(monkeypatch: pytest.MonkeyPatch) -> None:
    def nothing() -> dict[str, licences.Part]:
        raise PackageNotFoundError("lawnbook")

    monkeypatch.setattr(licences, "installed", nothing)
    told = {licences.normal(part.name): part for part in licences.parts()}
    assert told == dict(licences.recorded())
    assert len(told["numpy"].text) > 10_000


def test_without_a_record_nothing_is_made_up(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "licences.json").write_text("{ not", encoding="utf-8")
    monkeypatch.setattr(licences, "resource", lambda name: tmp_path / name)
    assert licences.recorded() == {}


def test_every_part_names_its_licence_and_only_qt_carries_no_text() -> None:
    rows = json.loads(resource("licences.json").read_text("utf-8"))
    silent = {row["name"] for row in rows if not row["text"]}
    assert silent == {"PySide6_Essentials", "shiboken6"}
    assert all(row["licence"] and "\n" not in row["licence"] for row in rows)


def test_about_tells_version_licence_qt_and_fonts(host: Host) -> None:
    leaf = text_leaf(host, "about")
    assert f"Version {__version__}" in leaf.text.toPlainText()
    assert "Permission is hereby granted, free of charge" in leaf.text.toPlainText()
    for section, words in (
        ("Qt and PySide6", "GNU LESSER GENERAL PUBLIC LICENSE"),
        ("Qt and PySide6", "download.qt.io/official_releases/QtForPython"),
        ("Inter", "SIL OPEN FONT LICENSE"),
        ("Source Serif 4", "SIL OPEN FONT LICENSE"),
        ("numpy", "Redistribution and use in source and binary forms"),
        ("Python", "PYTHON SOFTWARE FOUNDATION LICENSE"),
    ):
        leaf.turn_to(section)
        assert words in leaf.text.toPlainText(), section


def test_this_version_has_its_news_and_the_newest_stands_first() -> None:
    versions = [each.title for each in news_passages("en")]
    assert __version__ in versions
    assert versions == sorted(versions, reverse=True)
    assert news("nowhere") == news("en")


@pytest.fixture
def window(
    qtbot: QtBot, dressed: QApplication, empty_book: OpenNotebook, settings: Settings
) -> Iterator[BookWindow]:
    made = BookWindow(empty_book, settings)
    made.show()
    qtbot.waitUntil(lambda: made.held_plan is not None)
    yield made
    made.close()
    made.deleteLater()


def test_nobody_is_told_of_news_at_the_first_start(window: BookWindow) -> None:
    assert window.findChild(QWidget, "status_news") is None
    assert window.settings.version_seen == __version__


def test_an_update_is_told_of_once_at_the_foot(qtbot: QtBot, window: BookWindow) -> None:
    assert offer_news(window, "0.3.0") is not None
    assert offer_news(window, "0.3.0") is None
    link = child(window, "status_news")
    qtbot.waitUntil(link.isVisible)
    QTest.mouseClick(link, LEFT)
    leaf = child(window, "leaf_news")
    assert leaf.isVisible()
    assert not link.isVisible()
    assert window.settings.version_seen == __version__
    qtbot.wait(10)
    leaf.close()
