"""Fifty processes are killed while they edit; what each had reported as kept is in its file.

The long run is `python -m tests.crash`; 2,000 kills.
"""

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.small_book import in_child

RUN = """
    import sys
    from pathlib import Path
    from tests.crash import kills

    tally = kills.run(int(sys.argv[2]), Path(sys.argv[1]), seed=7)
    print(tally.kills, tally.inside_edit > 0, tally.kept_edits > 0)
    """
FAULT = """
    import sys
    import time
    from pathlib import Path
    from lawnbook.store.sqlite_store import Store
    from tests.crash import kills, moves

    whole = Store.write
    moves._WEIGHTS = (1, 0, 0, 5, 5, 0)

    def in_two(store, *changes):
        for change in changes:
            keys = list(change)
            if {table for table, _ in keys} <= {"waterings", "weather"}:
                for half in (keys[::2], keys[1::2]):
                    whole(store, {key: change[key] for key in half})
                    time.sleep(0.005)
            else:
                whole(store, change)

    Store.write = in_two
    kills.run(200, Path(sys.argv[1]), seed=7)
    """


@pytest.fixture(autouse=True)
def _own_data(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Locks lie in a data folder of this test's own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("data")))


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[Path]:
    """A folder in memory where there is one: a killed process leaves what the system holds."""
    memory = Path("/dev/shm")
    if not memory.is_dir():
        yield tmp_path
        return
    with tempfile.TemporaryDirectory(dir=memory) as name:
        yield Path(name)


def test_what_was_kept_outlives_the_process(folder: Path) -> None:
    child = in_child(RUN, folder, 50)
    assert child.stdout.split() == ["50", "True", "True"], child.stderr


def test_half_an_edit_would_be_found(folder: Path) -> None:
    """Where an edit is two transactions, a kill between them leaves the half of it."""
    child = in_child(FAULT, folder)
    assert child.returncode != 0
    assert "neither the last value kept nor the next" in child.stderr
