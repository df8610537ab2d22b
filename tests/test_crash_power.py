"""The power is cut after every write; whatever the disk then holds is the last value or the next.

The long run is `python -m tests.crash power`.
"""

from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.crash import power
from tests.crash.kills import Lost

TRUNCATE, DELETE = "PRAGMA journal_mode = TRUNCATE", "PRAGMA journal_mode = DELETE"


@pytest.fixture(autouse=True)
def _own_data(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Locks lie in a data folder of this test's own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("data")))


@pytest.mark.parametrize(("swapped", "seed"), [({}, 1), (power.NARROW, 11)])
def test_a_kept_edit_outlives_a_power_cut(
    tmp_path: Path, swapped: Mapping[str, str], seed: int
) -> None:
    recording = power.recorded(tmp_path, 2, seed, swapped)
    found = power.replayed(recording, tmp_path)
    assert found.cuts == len(recording.events)
    assert found.states > 60


@pytest.mark.parametrize(
    "swapped",
    [
        pytest.param({power.FULL: "PRAGMA synchronous = OFF"}, id="no sync at all"),
        pytest.param({TRUNCATE: DELETE}, id="the journal's end is not synced with the folder"),
    ],
)
def test_weaker_settings_would_be_found_out(tmp_path: Path, swapped: Mapping[str, str]) -> None:
    """With DELETE the journal may be back after a power cut, and takes a kept edit away.

    sqlite.org/pragma.html, "synchronous": EXTRA exists for that; TRUNCATE needs it not.
    """
    with pytest.raises(Lost):
        power.replayed(power.recorded(tmp_path, 3, 1, swapped), tmp_path)


def test_an_edit_is_synced_in_the_order_that_makes_it_safe(tmp_path: Path) -> None:
    """The journal with its folder, its count, the file, the journal's end (atomiccommit.html)."""
    recording = power.recorded(tmp_path, 1, 5)
    kinds = [event.kind for event in recording.events]
    edit = recording.events[kinds.index("begun") : kinds.index("kept")]
    synced = [(each.is_journal, each.folder) for each in edit if each.kind == "sync"]
    assert synced == [(True, True), (True, False), (False, False), (True, False)]
    assert [edit[-2].kind, edit[-2].at, edit[-1].kind] == ["truncate", 0, "sync"]
