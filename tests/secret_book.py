"""A sample yard in which every free text, id and place is a secret that a handover may leave out.

The fields are found from the records' own rules, so that a field of tomorrow is a secret too.
"""

from collections.abc import Iterator
from dataclasses import is_dataclass, replace
from itertools import count
from typing import Any

from lawnbook.yard.backdrops import new_backdrop
from lawnbook.yard.fields import choices_of, fields_of, without_none
from lawnbook.yard.notebook import Notebook, put, with_tables
from lawnbook.yard.notebook import apply as applied
from lawnbook.yard.records import SINGLES, TABLES, Record
from lawnbook.yard.references import with_references
from tests.desk_sample import sample

SECRET = "Zyxqv"
"""How every secret word begins; nothing else does."""

LABELS = frozenset({"products"})
"""Tables whose words are labels and stay."""

LATITUDE, LONGITUDE, ELEVATION = 40.4817263, -93.7352941, 1187.25
ORIGIN = (40.4829471, -93.7361852)
TIME_ZONE = "America/Kentucky/Monticello"
COORDINATES = ("40.48", "93.73", "1187.25", "1,187", "Kentucky/M", "Monticello")


def secret_book(stem: str = "larkspur_corner") -> Notebook:
    """The sample with secrets for all of its words, with photographs and a picture below it."""
    notebook = _with_text_everywhere(sample(stem))
    backdrop = new_backdrop(notebook, f"{SECRET} aerial", _png(), (2, 2))
    notebook = applied(notebook, put(notebook, "backdrops", backdrop))
    numbers = count(1)
    tables = {
        table: [
            each if table in LABELS else _secretly(each, numbers)
            for each in notebook.table(table).values()
        ]
        for table in TABLES
    }
    return with_tables(notebook, _with_secret_ids(tables))


def _with_text_everywhere(notebook: Notebook) -> Notebook:
    """A place to the last digit, and marks on the photographs."""
    yard = replace(
        notebook.yard,
        latitude_deg=LATITUDE,
        longitude_deg=LONGITUDE,
        elevation_ft=ELEVATION,
        time_zone=TIME_ZONE,
        origin_latitude_deg=ORIGIN[0],
        origin_longitude_deg=ORIGIN[1],
        water_source="x",
    )
    photos = [replace(each, marks=(("x", 0.5, 0.5),)) for each in notebook.photos.values()]
    spread = [
        replace(each, spreader="x", setting="5 x") for each in notebook.spreader_runs.values()
    ]
    rules = replace(notebook.n_rules, name="x")
    return with_tables(
        notebook, {"yard": [yard], "photos": photos, "spreader_runs": spread, "n_rules": [rules]}
    )


def _secretly(record: Any, numbers: Iterator[int]) -> Any:
    """The record, or a part of one, with secrets in every field of free words that holds any."""
    changed: dict[str, Any] = {}
    for info in fields_of(type(record)):
        value = getattr(record, info.name)
        rule = info.rule
        if is_dataclass(value):
            changed[info.name] = _secretly(value, numbers)
        elif info.name == "marks":
            changed[info.name] = tuple((f"{SECRET} {next(numbers)}", x, y) for _, x, y in value)
        elif without_none(info.type) is str and not rule.refers_to and rule.kind == "plain":
            is_free = not choices_of(info.type) and info.name != "sha256"
            if is_free and (value or info.name in ("note", "found")):
                changed[info.name] = f"{SECRET} {next(numbers)}"
    return replace(record, **changed)


def _with_secret_ids(tables: dict[str, list[Record]]) -> dict[str, list[Record]]:
    settled = {*SINGLES, "weather", "climate"}
    ids = {
        each.id: f"{SECRET}-{table}-{n}"
        for table, rows in tables.items()
        if table not in settled
        for n, each in enumerate(rows)
    }
    return {
        table: [
            with_references(
                replace(each, id=ids.get(each.id, each.id)),
                lambda reference: ids.get(reference.target, reference.target),
            )
            for each in rows
        ]
        for table, rows in tables.items()
    }


def _png() -> bytes:
    from io import BytesIO

    from PIL import Image

    out = BytesIO()
    Image.new("RGB", (2, 2), "green").save(out, "PNG")
    return out.getvalue()
