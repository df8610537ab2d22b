"""Notebooks as each version of the program left them, kept beside the tests and never made anew.

`tests/old_notebooks/v3.lawnbook.gz` is a file that the third schema's program wrote, byte for byte
(packed only because its pages are mostly empty), and `v3.json` the same notebook as a yard file by
that program; the first had no yard files yet, and its text is of the records themselves. Every
field that a version had is told in it, and none has its usual value. `v5_first` is of the fifth
schema's first day, when its flags were not held to 0 and 1 yet.

Before a new step is added to the schema, keep a file of the version it follows:
`python -m tests.kept_versions`.
"""

import gzip
import sys
from datetime import date
from pathlib import Path

from lawnbook.store.migrations import CURRENT_VERSION
from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import read_yard_text, write_yard_text
from lawnbook.yard.notebook import Notebook

FOLDER = Path(__file__).parent / "old_notebooks"
VERSIONS = ("v1", "v2", "v3", "v4", "v5_first", "v5", "v6", "v7")
DAY = date(2026, 6, 15)


def number_of(version: str) -> int:
    """The schema's number of a kept file."""
    return int(version[1:].partition("_")[0])


def unpacked(version: str, folder: Path) -> Path:
    """A copy of a kept file in a folder, as its program left it."""
    path = folder / f"{version}.lawnbook"
    path.write_bytes(gzip.decompress((FOLDER / f"{version}.lawnbook.gz").read_bytes()))
    return path


def told_text(version: str) -> str:
    """What a kept file holds, as a yard file."""
    return (FOLDER / f"{version}.json").read_text(encoding="utf-8")


def told(version: str) -> Notebook:
    """What a kept file holds, read from its yard file by the program of today."""
    return read_yard_text(told_text(version), DAY, None)


def main() -> int:
    """Keep a notebook of today's version, with what the newest kept one holds. Returns 0."""
    name = f"v{CURRENT_VERSION}"
    notebook = told(VERSIONS[-1])
    made = FOLDER / f"{name}.lawnbook"
    create(made, notebook)
    packed = gzip.compress(made.read_bytes(), mtime=0)
    made.with_name(made.name + ".gz").write_bytes(packed)
    made.unlink()
    (FOLDER / f"{name}.json").write_text(write_yard_text(notebook), encoding="utf-8")
    print(f"{made}.gz: fill in the fields that are new first, in {name}.json, and name it here")
    return 0


if __name__ == "__main__":
    sys.exit(main())
