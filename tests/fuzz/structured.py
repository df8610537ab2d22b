"""Files broken by what they are made of: JSON by values, a zip by members, rows by cells."""

import copy
import io
import json
import math
import random
import sqlite3
import struct
import warnings
import zipfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from lawnbook.yard.records import TABLES
from tests.fuzz.breaking import broken
from tests.hostile_books import lax

ODD: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 7, 1e308, -1e308, 1e-308, 2**63, 10**400),
    *(float("nan"), float("inf"), "", " ", "x", "\0", "\ud800", "\u202e", "a\nb", "x" * 5_000),
    *("../../x", "C:\\x", "CON", "front", "none of them", "12:00-12:00", "99-99"),
    *("2026-02-30", "2026-06-15", "9999-12-31", "0001-01-01"),
    *([], {}, [[]], [[0, 0]], [0] * 12, [None], ["x"], {"a": 1}, {"front": -1}, [1e300, -1e300]),
    *([[0, 0], [0, 0], [0, 0]], [[0, 0], [1, 1], [0, 1], [1, 0]]),
)
NAMES = (
    "../../x", "/etc/passwd", "C:\\x", "CON", "a\0b", "x/../../y", "notebook.lawnbook", "yard.json",
    "Zones.csv", "zones.csv", "xl/workbook.xml", "__MACOSX/zones.csv", "ä.csv", "", "a" * 300,
)  # fmt: skip

_DELETE = "DELETE FROM {table}"
_UPDATE = "UPDATE OR REPLACE {table} SET {column} = {value}"


def broken_json(seeds: Sequence[bytes], chance: random.Random) -> bytes:
    """A JSON text with some of its values taken out, doubled or made odd."""
    whole = json.loads(chance.choice(seeds))
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        holder, key = _somewhere(whole, chance)
        if holder is None:
            continue
        way = chance.randrange(5)
        if way == 0:
            del holder[key]
        elif way == 1 and isinstance(holder, list):
            holder.insert(key, copy.deepcopy(holder[key]))
        elif way == 2 and isinstance(holder, dict):
            holder[chance.choice(("id", "name", "zone", "date", key[:-1], key + "s"))] = (
                copy.deepcopy(holder[key])
            )
        else:
            holder[key] = copy.deepcopy(chance.choice(ODD))
    return json.dumps(whole).encode()


def _somewhere(whole: Any, chance: random.Random) -> tuple[Any, Any]:
    """A list or record somewhere in a value, and a key of it."""
    holder, key = None, None
    here = whole
    while isinstance(here, dict | list) and here and (holder is None or chance.random() < 0.8):
        holder = here
        key = chance.choice([*here]) if isinstance(here, dict) else chance.randrange(len(here))
        here = here[key]
    return holder, key


def broken_zip(seeds: Sequence[bytes], chance: random.Random) -> bytes:
    """A zip with a member broken, renamed, doubled, made a link, or packed as a bomb."""
    out = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(io.BytesIO(chance.choice(seeds))) as held:
        # A name that stands twice is what is wanted here.
        warnings.simplefilter("ignore")
        infos = held.infolist()
        spoilt = chance.randrange(len(infos))
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
            for number, info in enumerate(infos):
                data = held.read(info)
                if number != spoilt:
                    made.writestr(info.filename, data)
                    continue
                _write_spoilt(made, info.filename, data, chance)
    written = bytearray(out.getvalue())
    if chance.random() < 0.3:
        _lie_about_sizes(written, chance)
    return bytes(written)


def _write_spoilt(made: zipfile.ZipFile, name: str, data: bytes, chance: random.Random) -> None:
    way = chance.randrange(6)
    if way == 0:
        return
    if way == 1:
        made.writestr(name, bytes(chance.choice((*(2**20,) * 9, 40 * 2**20))))
    elif way == 2:
        made.writestr(chance.choice(NAMES) or "x", data)
    elif way == 3:
        made.writestr(name, data)
        made.writestr(chance.choice((name, name.upper(), *NAMES)) or "x", data)
    elif way == 4:
        link = zipfile.ZipInfo(name)
        link.external_attr = 0o120777 << 16
        made.writestr(link, "/etc/passwd")
    else:
        made.writestr(name, broken((data,), chance))


def _lie_about_sizes(data: bytearray, chance: random.Random) -> None:
    """Put another size or method into an entry of the zip's directory (APPNOTE 4.3.12)."""
    at = bytes(data).find(b"PK\x01\x02")
    if at >= 0:
        offset, size = chance.choice(((10, 2), (20, 4), (24, 4), (42, 4)))
        wrong = chance.choice((0, 1, 8, 12, 14, 93, 2**31, 2**32 - 1)) % 2 ** (8 * size)
        data[at + offset : at + offset + size] = struct.pack("<I", wrong)[:size]


def broken_rows(seed: bytes, path: Path, chance: random.Random) -> None:
    """A notebook's file with an odd value in one of its cells, or a row taken out."""
    path.write_bytes(seed)
    table = chance.choice([*TABLES])
    with sqlite3.connect(path) as raw:
        columns = [row[1] for row in raw.execute(f"PRAGMA table_info({table})")]
    raw.close()
    column = chance.choice(columns)
    odd = chance.choice(ODD)
    value = json.dumps(odd) if isinstance(odd, list | dict) else odd
    told = _literal(value)
    if chance.random() < 0.15:
        lax(path, _DELETE.format(table=table))
    else:
        lax(path, _UPDATE.format(table=table, column=column, value=told))


def _literal(value: Any) -> str:
    """A value as SQL writes it."""
    if value is None:
        return "NULL"
    if isinstance(value, str):
        return f"CAST(x'{value.encode(errors='surrogatepass').hex()}' AS TEXT)"
    if isinstance(value, bool):
        return str(int(value))
    try:
        return repr(value) if math.isfinite(value) else "9e999"
    except OverflowError:
        return "9e999"
