"""Notebooks that somebody made by hand to do harm: what is done to a sound file, by name."""

import os
import sqlite3
from collections.abc import Callable, Mapping
from contextlib import closing
from functools import partial
from pathlib import Path
from types import MappingProxyType

Harm = Callable[[Path], None]

ENDLESS = "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n)"
"""A query without end, where nothing bounds it."""


def by_sql(*statements: str, path: Path) -> None:
    """Run statements on a file as any SQLite tool would, its schema open to writing."""
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("PRAGMA writable_schema = ON")
        for each in statements:
            raw.execute(each)


def by_bytes(change: Callable[[bytes], bytes], path: Path) -> None:
    """Put other bytes in the place of a file's."""
    path.write_bytes(change(path.read_bytes()))


def _sql(*statements: str) -> Harm:
    return partial(_by_sql, statements)


def _by_sql(statements: tuple[str, ...], path: Path) -> None:
    by_sql(*statements, path=path)


def _instead(table: str, what: str) -> tuple[str, ...]:
    """Put a view or another table where one of ours was."""
    return (f"ALTER TABLE {table} RENAME TO hidden", what)


def lax(path: Path, statement: str) -> None:
    """Write what a strict table refuses: its strictness is taken away meanwhile."""
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        kept = raw.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
        raw.execute("PRAGMA writable_schema = ON")
        raw.execute("UPDATE sqlite_master SET sql = replace(sql, ') STRICT', ')')")
        raw.execute("UPDATE sqlite_master SET sql = replace(sql, ' REAL', ' BLOB')")
        raw.execute("UPDATE sqlite_master SET sql = replace(sql, ' INTEGER', ' BLOB')")
        raw.execute("UPDATE sqlite_master SET sql = replace(sql, ' TEXT', ' BLOB')")
        raw.execute("UPDATE sqlite_master SET sql = replace(sql, ' NOT NULL', '')")
        raw.execute("PRAGMA writable_schema = RESET")
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("PRAGMA ignore_check_constraints = ON")
        raw.execute(statement)
        raw.execute("PRAGMA writable_schema = ON")
        raw.executemany("UPDATE sqlite_master SET sql = ?2 WHERE name = ?1", kept)


def _value(statement: str) -> Harm:
    return partial(lax, statement=statement)


STRANGE_SCHEMA: Mapping[str, Harm] = MappingProxyType(
    {
        "a trigger": _sql(
            "CREATE TRIGGER t AFTER UPDATE ON yard BEGIN DELETE FROM zones; END",
        ),
        "a trigger that loads code": _sql(
            "CREATE TRIGGER t AFTER INSERT ON waterings "
            "BEGIN SELECT load_extension('evil.so'); END",
        ),
        "an endless view": _sql(
            *_instead("yard", "CREATE VIEW yard AS @ SELECT * FROM n".replace("@", ENDLESS))
        ),
        "a view that writes files": _sql(
            *_instead("yard", "CREATE VIEW yard AS SELECT writefile('evil', 'x') AS name")
        ),
        "one more view": _sql("CREATE VIEW v AS SELECT 1"),
        "a virtual table": _sql("CREATE VIRTUAL TABLE words USING fts5 (x)"),
        "a virtual table of ours": _sql(
            *_instead("care", "CREATE VIRTUAL TABLE care USING fts5 (x)")
        ),
        "one more table": _sql("CREATE TABLE more (x TEXT)"),
        "one more column": _sql("ALTER TABLE zones ADD COLUMN more TEXT"),
        "a generated column": _sql(
            "ALTER TABLE zones ADD COLUMN more TEXT AS (hex(randomblob(9))) VIRTUAL"
        ),
        "a check with functions": _sql(
            "UPDATE sqlite_master SET sql = replace(sql, 'tmin_f REAL', "
            "'tmin_f REAL CHECK (length(hex(zeroblob(tmin_f * 1000000))) > 0)') "
            "WHERE name = 'weather'"
        ),
        "a default with functions": _sql(
            "UPDATE sqlite_master SET sql = replace(sql, 'tmin_f REAL', "
            "'tmin_f REAL DEFAULT (hex(randomblob(100000000)))') WHERE name = 'weather'"
        ),
        "an index": _sql("CREATE INDEX i ON zones (name)"),
        "an index on an expression": _sql("CREATE INDEX i ON zones (hex(zeroblob(1000)))"),
        "a partial index": _sql("CREATE INDEX i ON zones (name) WHERE abs(rank) > 3"),
        "a table without strictness": _sql(
            "UPDATE sqlite_master SET sql = replace(sql, ') STRICT', ')') WHERE name = 'zones'"
        ),
        "a table less": _sql("DROP TABLE ticks"),
        "thousands of tables": _sql(
            "BEGIN", *(f"CREATE TABLE t{n} (x)" for n in range(3_000)), "COMMIT"
        ),
        "a schema of megabytes": _sql(
            "CREATE TABLE more (x TEXT DEFAULT '" + "x" * 2_000_000 + "')",
        ),
        "a schema that is no SQL": _sql(
            "UPDATE sqlite_master SET sql = 'CREATE TABLE zones (id, (((' WHERE name = 'zones'"
        ),
        "a schema as deep as a mine": _sql(
            "UPDATE sqlite_master SET sql = replace(sql, 'tmin_f REAL', 'tmin_f REAL CHECK "
            + "(" * 5_000
            + "1"
            + ")" * 5_000
            + "') WHERE name = 'weather'"
        ),
        "steps with a check": _sql(
            "DROP TABLE _sqlite_migrations",
            "CREATE TABLE _sqlite_migrations (id CHECK (hex(id) > 3), name, applied_at)",
        ),
        "a statistics table": _sql("ANALYZE"),
    }
)
"""Files whose schema is not of Lawnbook."""

_DEEP = "[" * 100_000 + "]" * 100_000
WRONG_ROWS: Mapping[str, Harm] = MappingProxyType(
    {
        "NaN where a number must be": _value("UPDATE zones SET slope_pct = 9e999 - 9e999"),
        "infinity": _value("UPDATE zones SET slope_pct = 9e999"),
        "a number beyond all": _value("UPDATE zones SET slope_pct = 1e308"),
        "a number below all": _value("UPDATE zones SET microclimate = -1e300"),
        "a rank at the end of counting": _value("UPDATE zones SET rank = 9223372036854775807"),
        "a list of numbers beyond all": _value(
            "UPDATE zones SET outline_ft = '[[1e308, 0], [0, 1], [1, 1]]'"
        ),
        "text for a number": _value("UPDATE zones SET slope_pct = 'steep'"),
        "bytes for text": _value("UPDATE zones SET name = x'00ff00'"),
        "bytes for a list": _value("UPDATE zones SET outline_ft = x'00ff00'"),
        "a number for text": _value("UPDATE zones SET name = 5"),
        "a number for an id": _value("UPDATE zones SET id = 5"),
        "an empty cell": _value("UPDATE zones SET name = CAST(x'ff' AS TEXT)"),
        "letters that are none": _value("UPDATE spots SET name = CAST(x'c328' AS TEXT)"),
        "half a letter": _value("UPDATE spots SET name = CAST(x'eda080' AS TEXT)"),
        "a rank beyond counting": _value("UPDATE zones SET rank = 'first'"),
        "a flag of seven": _value("UPDATE zones SET irrigated = 7"),
        "no such word": _value("UPDATE zones SET grass = 'plastic'"),
        "no such day": _value('UPDATE zones SET established = \'{"date": "2026-02-31"}\''),
        "a list that is none": _value("UPDATE zones SET outline_ft = '{}'"),
        "a list of words": _value('UPDATE zones SET outline_ft = \'[["a", "b"], [1, 2]]\''),
        "a list of infinities": _value("UPDATE zones SET outline_ft = '[[1e999, 0], [0, 1]]'"),
        "a list of NaN": _value("UPDATE zones SET outline_ft = '[[NaN, 0], [0, 1]]'"),
        "a number of a million digits": _value(
            "UPDATE zones SET outline_ft = '[[@, 0], [0, 1]]'".replace("@", "9" * 1_000_000)
        ),
        "no JSON": _value("UPDATE zones SET outline_ft = '[[1, 2'"),
        "100,000 lists within lists": _value(
            "UPDATE zones SET outline_ft = '@'".replace("@", _DEEP)
        ),
        "a zone that is not there": _value("UPDATE spots SET zone = 'nowhere'"),
        "no yard": _value("DELETE FROM yard"),
        "two yards": _value(
            "INSERT INTO yard (id, rank, name, north_deg, units, target_depth_in, water_source, "
            "drought) VALUES ('two', 1, 'Two', 0.0, 'us', 1.0, '', 'off')"
        ),
    }
)
"""Files of our own schema with rows that no Lawnbook has written."""


def _write_ahead(path: Path) -> None:
    """A file in write-ahead mode with a log of somebody's changes beside it."""
    raw = sqlite3.connect(path, isolation_level=None)
    raw.execute("PRAGMA journal_mode = WAL")
    raw.execute("UPDATE yard SET name = 'Theirs'")
    data = path.read_bytes(), path.with_name(path.name + "-wal").read_bytes()
    raw.close()
    path.write_bytes(data[0])
    path.with_name(path.name + "-wal").write_bytes(data[1])


def _log_alone(path: Path) -> None:
    """A log beside a file that is in no write-ahead mode: SQLite would read it all the same."""
    plain = path.read_bytes()
    _write_ahead(path)
    path.write_bytes(plain)


def _journal_of_several(path: Path) -> None:
    """A journal by which SQLite would delete the file that it names, once it is played back."""
    victim = str(path.with_name("victim.txt")).encode()
    path.with_name("victim.txt").write_text("dear to somebody")
    head = bytes.fromhex("d9d505f920a163d7") + bytes(4) + bytes(4) + (1).to_bytes(4, "big")
    head += (512).to_bytes(4, "big") + (4096).to_bytes(4, "big")
    name = bytes(4) + victim + len(victim).to_bytes(4, "big")
    name += (sum(victim) & 0xFFFFFFFF).to_bytes(4, "big") + bytes.fromhex("d9d505f920a163d7")
    path.with_name(path.name + "-journal").write_bytes(head.ljust(512, b"\0") + name)


def _link_for_a_journal(path: Path) -> None:
    """A journal that is a link: what SQLite writes would go where it leads."""
    path.with_name(path.name + "-journal").symlink_to(path.with_name("elsewhere.txt"))


def _pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def _device(path: Path) -> None:
    path.unlink()
    path.symlink_to("/dev/zero")


def _loop(path: Path) -> None:
    path.unlink()
    path.symlink_to(path)


def _folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def _other_database(path: Path) -> None:
    path.unlink()
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("CREATE TABLE contacts (name TEXT)")


STRANGE_PLACES: Mapping[str, Harm] = MappingProxyType(
    {
        "write-ahead mode with a log": _write_ahead,
        "a log alone": _log_alone,
        "a journal of several files": _journal_of_several,
        "a link for a journal": _link_for_a_journal,
        "a pipe": _pipe,
        "a device": _device,
        "a link to itself": _loop,
        "a folder": _folder,
        "another program's database": _other_database,
        "an encrypted file": partial(by_bytes, lambda data: os.urandom(len(data))),
        "an empty file": partial(by_bytes, lambda _: b""),
        "a header alone": partial(by_bytes, lambda data: data[:100]),
        "half a page": partial(by_bytes, lambda data: data[:2_000]),
        "pages of no size": partial(by_bytes, lambda data: data[:16] + b"\0\3" + data[18:]),
        "nonsense after the header": partial(by_bytes, lambda data: data[:100] + b"x" * 8_092),
    }
)
"""Files that are none, or that have something beside them."""
