"""What people type for days, seasons and lists, and what our fields make of it."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from lawnbook.desk import entry
from lawnbook.desk.line_fields import DayField
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Season

TODAY = date(2026, 6, 15)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("15 Jun 2026", date(2026, 6, 15)),
        ("Jun 15, 2026", date(2026, 6, 15)),
        ("june 15 2026", date(2026, 6, 15)),
        ("2026-06-15", date(2026, 6, 15)),
        ("6/15/2026", date(2026, 6, 15)),
        ("6/15/26", date(2026, 6, 15)),
        ("6/15", date(2026, 6, 15)),
        ("16 Jun", date(2025, 6, 16)),
        ("29 feb", date(2024, 2, 29)),
        ("today", TODAY),
        ("yesterday", date(2026, 6, 14)),
        ("-3", date(2026, 6, 12)),
    ],
)
def test_days_as_people_write_them(text: str, day: date) -> None:
    assert entry.parse_day(text, TODAY) == day


@pytest.mark.parametrize("text", ["", "soon", "31 Jun 2026", "13/13/2026", "J 3", "ju 3", "1 2 3"])
def test_what_is_no_day_is_refused_with_the_mend(text: str) -> None:
    with pytest.raises(OwnerError, match="15 Jun 2026"):
        entry.parse_day(text, TODAY)


def test_a_day_without_year_needs_a_today() -> None:
    with pytest.raises(OwnerError, match="has no year"):
        entry.parse_day("15 Jun")


@given(st.dates(date(1950, 1, 1), date(2099, 12, 31)))
def test_a_day_survives_being_shown(day: date) -> None:
    assert entry.parse_day(entry.format_day(day), TODAY) == day


@given(st.integers(0, 365))
def test_a_day_of_the_year_survives_being_shown(offset: int) -> None:
    held = (date(2024, 1, 1) + timedelta(days=offset)).strftime("%m-%d")
    assert entry.parse_month_day(entry.format_month_day(held)) == held


@pytest.mark.parametrize("text", ["15 Apr", "Apr 15", "4/15", "04-15", "april 15"])
def test_days_of_the_year(text: str) -> None:
    assert entry.parse_month_day(text) == "04-15"


@pytest.mark.parametrize("text", ["30 Feb", "Apr", "15", "4/31"])
def test_what_is_no_day_of_the_year_is_refused(text: str) -> None:
    with pytest.raises(OwnerError, match="15 Apr"):
        entry.parse_month_day(text)


@pytest.mark.parametrize("text", ["15 Nov to 1 Mar", "15 Nov – 1 Mar", "11/15 to 3/1"])
def test_a_season_may_run_over_new_year(text: str) -> None:
    assert entry.parse_season(text) == Season(start="11-15", end="03-01")


def test_seasons_and_lists_survive_being_shown() -> None:
    seasons = (Season(start="11-15", end="03-01"), Season(start="07-01", end="07-31"))
    assert entry.parse_seasons(entry.format_seasons(seasons)) == seasons
    assert entry.parse_list(entry.plain_list((1.0, 2.5, 0.0625))) == (1.0, 2.5, 0.0625)


def test_a_season_of_one_day_is_refused() -> None:
    with pytest.raises(OwnerError, match="needs two days"):
        entry.parse_season("15 Apr")


def test_a_fraction_is_no_whole_number() -> None:
    assert entry.parse_whole("4") == 4
    with pytest.raises(OwnerError, match=r"^Days: 4\.5 is not a whole number"):
        entry.parse_whole("4.5", "Days")


def test_a_word_for_a_whole_number_names_the_field() -> None:
    with pytest.raises(OwnerError, match=r'^Days "x" is not a number'):
        entry.parse_whole("x", "Days")


@pytest.mark.parametrize(
    ("text", "key"), [("31 Dec 9999", Qt.Key.Key_Up), ("0001-01-01", Qt.Key.Key_PageDown)]
)
def test_the_first_and_the_last_day_there_is_stay(qtbot: QtBot, text: str, key: Qt.Key) -> None:
    field = DayField(TODAY)
    qtbot.addWidget(field)
    field.setText(text)
    QTest.keyClick(field, key)
    assert field.text() == entry.format_day(entry.parse_day(text))
