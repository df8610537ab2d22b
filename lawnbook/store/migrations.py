"""Bringing a notebook's file up to date: the steps it lacks, applied all or nothing.

sqlite-utils applies all pending steps in one transaction together with the version.
"""

import sqlite3
from collections.abc import Callable
from typing import TYPE_CHECKING

from lawnbook.store.schema_steps import STEPS

if TYPE_CHECKING:
    from sqlite_utils import Database, Migrations

APPLICATION_ID = 0x4C_41_57_4E
"""The four bytes "LAWN" in the file's header, which tell a notebook from any other database."""

CURRENT_VERSION = len(STEPS)


def bring_up_to_date(connection: sqlite3.Connection) -> None:
    """Apply every step the file lacks and set its version, all or nothing.

    `connection` is in autocommit mode and outside a transaction. Foreign keys are off while the
    steps run, checked before the commit, and on afterwards. Raises sqlite3.Error, with the file
    as it was.
    """
    from sqlite_utils import Database

    connection.execute("PRAGMA foreign_keys = OFF")
    database = Database(connection, execute_plugins=False)
    connection.execute("BEGIN IMMEDIATE")
    try:
        _steps_as_migrations().apply(database)
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {CURRENT_VERSION}")
        refuse_loose_references(connection)
        connection.execute("COMMIT")
    except BaseException:
        connection.rollback()
        raise
    connection.execute("PRAGMA foreign_keys = ON")


def statements_of(version: int) -> tuple[str, ...]:
    """The statements that make a file of a version, in order."""
    return tuple(each for _, statements in STEPS[: max(version, 0)] for each in statements)


def refuse_loose_references(connection: sqlite3.Connection) -> None:
    """Raise sqlite3.IntegrityError where a row refers to one that is not there."""
    loose = connection.execute("PRAGMA foreign_key_check").fetchone()
    if loose is not None:
        raise sqlite3.IntegrityError(f"a row of {loose[0]} refers to a missing row of {loose[2]}")


def _steps_as_migrations() -> "Migrations":
    from sqlite_utils import Migrations

    migrations = Migrations("lawnbook")
    for name, statements in STEPS:
        migrations(name=name)(_runner(statements))
    return migrations


def _runner(statements: tuple[str, ...]) -> "Callable[[Database], None]":
    def run(database: "Database", /) -> None:
        # One statement at a time: executescript() would commit the transaction around it.
        for statement in statements:
            database.conn.execute(statement)

    return run
