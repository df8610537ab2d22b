"""A file that is given up in its last moment is not there; one past it is told as written."""

import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from lawnbook.desk import handover_run
from lawnbook.desk.handover_run import Ended, HandoverRun
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.handover import Handover, Wants, prepared, write_prepared
from lawnbook.store.handover_zip import Member
from lawnbook.store.outlines_svg import write_svg
from lawnbook.store.outlines_written import write_geojson
from lawnbook.store.tables_out import write_tables
from lawnbook.store.yardfile import write_yard
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import GivenUpError
from tests.desk_sample import DAY, sample

pytest_plugins = ["tests.desk_book"]

LONG_S = 60.0
Last = Callable[[], None]
Writer = Callable[[Notebook, Path, Last], object]


def _handover(notebook: Notebook, path: Path, last: Last) -> None:
    handover = prepared(notebook, make_plan(notebook, DAY), Wants())
    write_prepared(handover, {}, path, lambda _name: None, last)


def _tables(notebook: Notebook, path: Path, last: Last) -> None:
    write_tables(notebook, path, "zones", DAY, last=last)


def _yard(notebook: Notebook, path: Path, last: Last) -> None:
    write_yard(notebook, path, last=last)


WRITERS: dict[str, Writer] = {
    "yard.json": _yard,
    "zones.csv": _tables,
    "tables.zip": _tables,
    "tables.xlsx": _tables,
    "over.zip": _handover,
    "yard.geojson": write_geojson,
    "yard.svg": write_svg,
}


@pytest.mark.parametrize("name", WRITERS)
def test_given_up_in_its_last_moment_the_earlier_file_stays(tmp_path: Path, name: str) -> None:
    notebook, path, asked = sample("saltbush_court"), tmp_path / name, list[bool]()
    WRITERS[name](notebook, path, lambda: asked.append(path.exists()))
    assert asked == [False]
    written = path.read_bytes()

    def given_up() -> None:
        raise GivenUpError

    with pytest.raises(GivenUpError):
        WRITERS[name](sample("larkspur_corner"), path, given_up)
    assert path.read_bytes() == written
    assert list(tmp_path.iterdir()) == [path]


def test_a_handover_past_its_last_moment_is_told_as_written(
    qtbot: QtBot, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settled, go, told = threading.Event(), threading.Event(), list[Ended]()

    def packed(
        _handover: Handover, _painted: object, _path: Path, _between: object, last: Last
    ) -> tuple[Member, ...]:
        last()
        settled.set()
        go.wait(LONG_S)
        return (Member("README.txt", 1),)

    monkeypatch.setattr(handover_run, "documents_of", lambda _: ())
    monkeypatch.setattr(handover_run, "write_prepared", packed)
    run = HandoverRun()
    run.ended.connect(told.append)
    run.start(book, make_plan(book.notebook, DAY), tmp_path / "over.zip", Wants())
    assert settled.wait(LONG_S)
    run.give_up()
    assert (told, run.is_running) == ([], True)
    go.set()
    qtbot.waitUntil(lambda: bool(told))
    assert [(each.refused, len(each.members)) for each in told] == [("", 1)]
    run.finish()
    run.deleteLater()
