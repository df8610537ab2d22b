"""What a notebook's file holds at a glance: some counts and the latest entry, by SQL alone."""

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.picture_shelf import connected_to_read
from lawnbook.yard.numbers import counted, day

_COUNTED = ("zones", "cores", "feedings", "waterings")
_DATED = ("cores", "feedings", "waterings", "catch_tests", "soil_tests", "care")


def _statement(*words: str) -> str:
    # Every word is a name from our own tables.
    return " ".join(words)


_COUNTS = _statement(
    "SELECT", ", ".join(_statement("(SELECT count(*) FROM", each, ")") for each in _COUNTED)
)
_LATEST = _statement(
    "SELECT max(day) FROM (",
    " UNION ALL ".join(_statement("SELECT max(date) AS day FROM", each) for each in _DATED),
    ")",
)


@dataclass(frozen=True, slots=True)
class Glance:
    """How much a notebook holds; `latest` is the day of the newest entry but weather."""

    zones: int
    plugs: int
    feedings: int
    waterings: int
    latest: date | None


def glance(path: Path) -> Glance | None:
    """What a notebook's file holds, of an older version too; None where it cannot be read."""
    try:
        with closing(connected_to_read(path)) as connection:
            counts = connection.execute(_COUNTS).fetchone()
            latest = connection.execute(_LATEST).fetchone()[0]
        day_of_latest = date.fromisoformat(latest) if latest else None
        zones, plugs, feedings, waterings = map(int, counts)
        return Glance(zones, plugs, feedings, waterings, day_of_latest)
    except (sqlite3.Error, ValueError, TypeError):
        return None


def holds_told(held: Glance | None) -> str:
    """What a notebook holds, in one line."""
    if held is None:
        return tr("cannot be read")
    counts = ", ".join(counted(getattr(held, f"{one}s"), one) for one in _TOLD)
    latest = (
        tr("latest entry {latest}", latest=day(held.latest))
        if held.latest
        else tr("no dated entry")
    )
    return f"{counts}; {latest}"


_TOLD = ("zone", "plug", "feeding", "watering")
