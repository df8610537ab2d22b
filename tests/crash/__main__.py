"""Try at length that nothing is lost, and print what was tried.

    python -m tests.crash [KILLS]        processes killed while they edit, 2,000 unless told
    python -m tests.crash power [MOVES]  power cut after every write of 40 edits, or so many

Ends with the first edit that was lost, by an error that names it.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

from tests.crash import kills, power
from tests.crash.recording import versions


def main() -> None:
    """Run what the command line asks for."""
    asked = sys.argv[1:]
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryDirectory() as data:
        # Locks of killed processes stay behind, and are nothing for the user's own data folder.
        os.environ["XDG_DATA_HOME"] = data
        if asked[:1] == ["power"]:
            _cut_power(Path(folder), int(asked[1]) if len(asked) > 1 else 40)
        else:
            for line in kills.run(int(asked[0]) if asked else 2000, Path(folder)).lines():
                print(line)
    print(f"{(time.monotonic() - begun) / 60:.1f} minutes")


def _cut_power(folder: Path, moves: int) -> None:
    print(versions())
    for told, swapped in (("as the store writes", {}), ("with memory for ten pages", power.NARROW)):
        recording = power.recorded(folder, moves, seed=1, swapped=swapped)
        found = power.replayed(recording, folder)
        print(
            f"{told}: {moves} edits, {found.cuts} cuts, {found.states} different disks, all sound"
        )


if __name__ == "__main__":
    main()
