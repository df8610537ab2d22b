"""Record the licences of all that Lawnbook is made with, for a build that cannot ask for them.

    .venv/bin/python resources/licences.py

Writes `resources/licences.json` from what is installed here; run it when a dependency changes and
before a standalone build. `tests/test_desk_manners_about.py` holds the two together.
"""

import json
from dataclasses import asdict
from pathlib import Path

from lawnbook.desk.licences import RECORD, installed


def main() -> None:
    """Write the record beside this file."""
    rows = [asdict(part) for _, part in sorted(installed().items())]
    text = json.dumps(rows, ensure_ascii=False, indent=1)
    (Path(__file__).resolve().parent / RECORD).write_text(f"{text}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
