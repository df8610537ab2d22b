"""What is read of a file once it has passed its checks: the notebook, and the questions it raises.

Reading a notebook's own file needs nothing of the yard file, the handover and the weather tables;
`store.yardfile` joins all of them.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.store.sqlite_store import load
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError, Problem, asked, in_one_line, refused


@dataclass(frozen=True, slots=True)
class Checked:
    """A notebook as read, with the questions that its values raise."""

    notebook: Notebook
    questions: tuple[Problem, ...]


def load_notebook(path: Path, today: date) -> Checked:
    """A notebook file, checked like what comes from elsewhere. OwnerError names the file."""
    notebook = load(path)
    with named(path.name):
        return checked(notebook, today)


def checked(notebook: Notebook, today: date, weather: str = "") -> Checked:
    """The notebook with its questions; OwnerError for the first thing that cannot be kept.

    `weather` names the table that the daily weather was read from, where it was one of its own.
    """
    problems = check_notebook(notebook, today)
    if weather:
        problems = tuple(_by_day(problem, weather) for problem in problems)
    for problem in refused(problems):
        raise OwnerError(in_one_line(problem))
    return Checked(notebook, asked(problems))


def _by_day(problem: Problem, weather: str) -> Problem:
    """A problem with its place as the table shows it, which has days and no numbered records."""
    if problem.table != "weather":
        return problem
    _, _, field = problem.where.partition(".")
    place = f"{problem.record_id}.{field}" if problem.record_id else field
    return replace(problem, where=f"{weather} {place}")


@contextmanager
def named(name: str) -> Iterator[None]:
    """Put a file's or a field's name before whatever is said of what is in it."""
    try:
        yield
    except OwnerError as error:
        raise OwnerError(f"{name}: {error}") from error
