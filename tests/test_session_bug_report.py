"""Reports of our own mistakes: enough to find them, and nothing that the owner wrote."""

from pathlib import Path

import pytest

from lawnbook import __version__
from lawnbook.session.bug_report import key_of, report_of, sentence_about, write_report
from lawnbook.yard.numbers import parse_number
from lawnbook.yard.problems import OwnerError

SECRET = "Grandmother's lilac"


def caught() -> BaseException:
    """A mistake with another behind it, both speaking of an entry."""
    try:
        try:
            parse_number(SECRET)
        except OwnerError as error:
            raise KeyError(SECRET) from error
    except KeyError as error:
        return error
    raise AssertionError("nothing was raised")


def test_a_report_names_kinds_and_places_and_no_entry() -> None:
    lines = report_of(caught()).splitlines()
    assert __version__ in lines[0]
    assert lines.index("builtins.KeyError") < lines.index("lawnbook.yard.problems.OwnerError")
    assert any(line.startswith("  lawnbook/yard/numbers.py:") for line in lines)
    assert "lilac" not in "".join(lines)


def test_a_report_of_a_ring_of_causes_ends() -> None:
    first, second = ValueError("a"), TypeError("b")
    first.__cause__, second.__cause__ = second, first
    assert report_of(first).count("builtins.") == 2


def deeper(times: int) -> None:
    """Fail far down."""
    if times == 0:
        raise ValueError(SECRET)
    deeper(times - 1)


def test_of_many_calls_the_middle_is_left_out() -> None:
    with pytest.raises(ValueError, match="lilac") as caught_deep:
        deeper(300)
    lines = report_of(caught_deep.value).splitlines()
    assert len(lines) < 90
    assert any("more calls)" in line for line in lines)


def test_the_parts_of_a_group_are_told_and_none_of_their_words() -> None:
    group = ExceptionGroup(SECRET, [KeyError(SECRET), TypeError(SECRET)])
    report = report_of(group)
    assert "builtins.KeyError" in report
    assert "builtins.TypeError" in report
    assert "lilac" not in report


def test_the_same_place_is_the_same_mistake() -> None:
    assert key_of(caught()) == key_of(caught())
    assert key_of(caught()) != key_of(ValueError(SECRET))


def test_a_report_is_written_where_it_says(tmp_path: Path) -> None:
    sentence = sentence_about(caught(), tmp_path / "logs")
    (report,) = (tmp_path / "logs").iterdir()
    assert sentence.endswith(str(report))
    assert report.read_text(encoding="utf-8") == report_of(caught())


def test_where_no_report_can_be_written_that_is_told(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.touch()
    assert write_report(caught(), blocked) is None
    assert "could not be written (KeyError)" in sentence_about(caught(), blocked)
