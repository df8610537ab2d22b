"""Long writing and reading tells how far it is, and leaves nothing where it is given up."""

from collections.abc import Callable
from pathlib import Path

import pytest

from lawnbook.store.steps import Between
from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_out import write_tables
from lawnbook.store.yardfile import write_yard
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import GivenUpError
from tests.desk_sample import DAY, sample

Write = Callable[[Notebook, Path, Between], None]


def tables(notebook: Notebook, path: Path, between: Between) -> None:
    """All tables, or the waterings as CSV."""
    write_tables(notebook, path, "waterings" if path.suffix == ".csv" else "", DAY, between)


class GivesUp:
    """Lets so many steps pass, and gives up at the next."""

    def __init__(self, passing: int) -> None:
        self._left = passing

    def __call__(self, _done: int, _of: int) -> None:
        if self._left == 0:
            raise GivenUpError
        self._left -= 1


WRITERS = [
    pytest.param(tables, "all.xlsx", id="workbook"),
    pytest.param(tables, "all.zip", id="zip"),
    pytest.param(tables, "waterings.csv", id="csv"),
    pytest.param(write_yard, "yard.json", id="yard file"),
]


@pytest.mark.parametrize(("write", "name"), WRITERS)
def test_written_in_counted_steps_and_given_up_at_any_of_them(
    write: Write, name: str, tmp_path: Path
) -> None:
    told: list[tuple[int, int]] = []
    write(sample("larkspur_corner"), tmp_path / name, lambda done, of: told.append((done, of)))
    assert len(told) > 1
    assert all(0 <= done <= of for done, of in told)
    for path in tmp_path.iterdir():
        path.unlink()
    for last in (0, len(told) - 1):
        with pytest.raises(GivenUpError):
            write(sample("larkspur_corner"), tmp_path / name, GivesUp(last))
        assert list(tmp_path.iterdir()) == []


def test_reading_counts_each_row_twice_and_may_be_given_up(tmp_path: Path) -> None:
    notebook, path = sample("larkspur_corner"), tmp_path / "waterings.csv"
    write_tables(notebook, path, "waterings", DAY)
    told: list[tuple[int, int]] = []
    read_tables(path, notebook, DAY, between=lambda done, of: told.append((done, of)))
    assert {of for _, of in told} == {2 * (len(notebook.waterings) + 1)}
    assert told == sorted(told)

    def give_up(_done: int, _of: int) -> None:
        raise GivenUpError

    with pytest.raises(GivenUpError):
        read_tables(path, notebook, DAY, between=give_up)
