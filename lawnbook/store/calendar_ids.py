"""What a calendar calls the zones and spots of a yard file that gives them no ids.

Read as a notebook, such a record gets a random id each time, and a calendar of today would not know
the entries of yesterday's. So it goes by the yard's name and its own.
"""

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from lawnbook.store.files import YARD_SUFFIX, read_text_bounded
from lawnbook.store.strict_json import parse_json
from lawnbook.store.yardfile import MOST_BYTES
from lawnbook.yard.notebook import Notebook

LETTERS = 16
"""As many as a random id has."""


def steady_ids(path: Path, notebook: Notebook) -> dict[str, str]:
    """From an id made up in reading to one that is the same in every reading of the file.

    By id of `notebook`, which was read from `path`; empty for a file that keeps its own ids.
    """
    if path.suffix.lower() != YARD_SUFFIX:
        return {}
    data = parse_json(read_text_bounded(path, MOST_BYTES), "yard file")
    return dict(_steady(data, notebook, "zones")) | dict(_steady(data, notebook, "spots"))


def _steady(data: Mapping[str, Any], notebook: Notebook, table: str) -> Iterator[tuple[str, str]]:
    """The records of a table that the file gives no id; no two of a table share a name."""
    for plain, record_id in zip(data.get(table, ()), notebook.table(table), strict=True):
        if not plain.get("id"):
            parts = (notebook.yard.name, table, str(plain.get("name", "")).strip().casefold())
            told = hashlib.sha256("\n".join(parts).encode("utf-8")).hexdigest()
            yield record_id, told[:LETTERS]
