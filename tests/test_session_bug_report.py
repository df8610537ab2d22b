"""Reports of our own mistakes: enough to find them, and nothing that the owner wrote."""

from pathlib import Path

from lawnbook import __version__
from lawnbook.session.bug_report import report_of, sentence_about, write_report
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
