"""The signs of numbers and dates by the environment and by the desktop."""

import locale
from typing import Any

import pytest
from PySide6.QtCore import QLocale

from lawnbook import signs
from lawnbook.desk.reader import follow_system, read_by
from lawnbook.reading import Reading, reading
from lawnbook.signs import Signs, is_month_first, parted, read_with, signs_of

GERMAN = {"decimal_point": ",", "thousands_sep": "."}


@pytest.fixture
def known(monkeypatch: pytest.MonkeyPatch) -> list[tuple[int, str | None]]:
    """A machine that has German and American locales and no others; what was set, in order."""
    asked: list[tuple[int, str | None]] = []
    now = {locale.LC_NUMERIC: "C", locale.LC_TIME: "C"}

    def set_locale(category: int, name: str | None = None) -> str:
        if name is not None:
            if name not in {"C", "de_DE.UTF-8", "en_US.UTF-8"}:
                raise locale.Error("unsupported locale setting")
            asked.append((category, name))
            now[category] = name
        return now[category]

    def convention() -> dict[str, Any]:
        if now[locale.LC_NUMERIC].startswith("de"):
            return GERMAN
        return {"decimal_point": ".", "thousands_sep": ","}

    monkeypatch.setattr(locale, "setlocale", set_locale)
    monkeypatch.setattr(locale, "localeconv", convention)
    monkeypatch.setattr(
        locale,
        "nl_langinfo",
        lambda _: "%m/%d/%Y" if now[locale.LC_TIME].startswith("en_US") else "%d.%m.%Y",
    )
    return asked


@pytest.mark.parametrize(
    ("environment", "expected"),
    [
        ({}, Signs()),
        ({"LANG": "C.UTF-8"}, Signs()),
        ({"LANG": "POSIX"}, Signs()),
        ({"LANG": "de_DE.UTF-8"}, Signs(",", ".")),
        ({"LANG": "en_US.UTF-8"}, Signs(month_first=True)),
        ({"LANG": "en_US.UTF-8", "LC_NUMERIC": "de_DE.UTF-8"}, Signs(",", ".", month_first=True)),
        ({"LANG": "de_DE.UTF-8", "LC_TIME": "en_US.UTF-8"}, Signs(",", ".", month_first=True)),
        ({"LC_ALL": "C", "LANG": "de_DE.UTF-8"}, Signs()),
        ({"LC_ALL": "", "LANG": "de_DE.UTF-8"}, Signs(",", ".")),
        ({"LANG": "xx_YY.UTF-8"}, Signs()),
    ],
)
def test_signs_by_the_environment(
    known: list[tuple[int, str | None]], environment: dict[str, str], expected: Signs
) -> None:
    assert signs_of(environment) == expected
    # The process is left as it was.
    assert [name for _, name in known[-1:]] in ([], ["C"])
    assert locale.setlocale(locale.LC_NUMERIC) == locale.setlocale(locale.LC_TIME) == "C"


@pytest.mark.parametrize(
    ("pattern", "first"),
    [
        ("%m/%d/%Y", True), ("%D", True), ("%d/%m/%y", False), ("%Y-%m-%d", False),
        ("%e. %B %Y", False), ("M/d/yy", True), ("dd.MM.yy", False), ("yyyy-MM-dd", False),
        ("", False),
    ],
)  # fmt: skip
def test_which_dates_begin_with_the_month(pattern: str, first: bool) -> None:
    assert is_month_first(pattern) == first


@pytest.mark.parametrize(
    ("point", "group", "expected"),
    [
        (",", ".", (",", ".")),
        (",", " ", (",", "\u00a0")),
        (",", "", (",", "")),
        ("\u066b", "\u066c", (".", "\u066c")),
        (".", ".", (".", "")),
    ],
)
def test_signs_can_be_told_apart(point: str, group: str, expected: tuple[str, str]) -> None:
    assert parted(point, group) == expected


# Unicode's CLDR, as Qt has it: what these locales write.
@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("C", Signs()),
        ("en_US", Signs(month_first=True)),
        ("en_GB", Signs()),
        ("de_DE", Signs(",", ".")),
        ("es_ES", Signs(",", ".")),
        ("sv_SE", Signs(",", "\u00a0")),
    ],
)
def test_signs_by_the_desktop(name: str, expected: Signs) -> None:
    held = Reading(units="metric", language="es", words={"a": "b"})
    assert read_by(held, QLocale(name)) == read_with(held, expected)


def test_following_the_system_leaves_units_and_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QLocale, "system", lambda: QLocale("de_DE"))
    follow_system("es")
    assert reading() == Reading(language="es", point=",", group=".")


def test_under_the_tests_environment_nothing_changes() -> None:
    before = reading()
    follow_system()
    assert reading() == before == Reading()
    assert signs.NO_BREAK == "\u00a0"
