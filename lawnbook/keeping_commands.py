"""The commands about earlier copies of a notebook, and about what can be read of a damaged one."""

import argparse
import json
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from lawnbook.command_parts import Command, add_json, add_output
from lawnbook.reading import tr
from lawnbook.store.backups import EarlierCopy, backups_folder, copies_of, made_told
from lawnbook.store.glance import glance, holds_told
from lawnbook.store.salvage import salvage
from lawnbook.store.salvage_told import told_lines
from lawnbook.store.sqlite_store import load
from lawnbook.terminal import say
from lawnbook.yard.compared import difference_told, differences
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TITLES

DONE, SOMETHING_MISSING = 0, 1


def _backups_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "notebook",
        type=Path,
        metavar="NOTEBOOK",
        help=tr("a notebook, also one that is damaged or gone"),
    )
    add_json(parser)


def _backups(options: argparse.Namespace, _today: date) -> int:
    copies = copies_of(options.notebook, backups_folder())
    if options.json:
        plain = {"notebook": str(options.notebook), "copies": [_plain(each) for each in copies]}
        say(json.dumps(plain, indent=2, ensure_ascii=False))
    elif copies:
        say("\n".join(line for each in copies for line in _lines(each)))
    else:
        say(
            tr(
                "There is no earlier copy of {name} yet. The window keeps one of each session "
                "in {backups_folder}",
                name=options.notebook.name,
                backups_folder=backups_folder(),
            )
        )
    return DONE


def _plain(copy: EarlierCopy) -> dict[str, object]:
    held = glance(copy.path)
    counts = {} if held is None else {name: getattr(held, name) for name in _COUNTS}
    latest = None if held is None or held.latest is None else held.latest.isoformat()
    made = copy.made.isoformat()
    size = {"made": made, "path": str(copy.path), "size_bytes": copy.size_bytes}
    return {**size, "readable": held is not None, **counts, "latest": latest}


_COUNTS = ("zones", "plugs", "feedings", "waterings")


def _lines(copy: EarlierCopy) -> Iterator[str]:
    yield f"{made_told(copy.made)}  {holds_told(glance(copy.path))}"
    yield f"  {copy.path}"


def _salvage_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "file", type=Path, metavar="FILE", help=tr("a damaged notebook; it stays as it is")
    )
    add_output(parser, "NOTEBOOK")


def _salvage(options: argparse.Namespace, today: date) -> int:
    told = salvage(options.file, options.output, today)
    say("\n".join((*told_lines(told), *_compared(options.file, options.output))))
    say(tr("What could be read is in {output}", output=options.output))
    return DONE if told.is_whole else SOMETHING_MISSING


def _compared(path: Path, fresh: Path) -> Iterator[str]:
    """How what was salvaged differs from the newest earlier copy, where there is one."""
    for copy in copies_of(path, backups_folder())[:1]:
        try:
            found = differences(load(copy.path), load(fresh))
        except OwnerError as problem:
            yield tr("The newest earlier copy cannot be read: {problem}", problem=problem)
            return
        yield tr(
            "Compared with the copy of {made_told}, in {path}:",
            made_told=made_told(copy.made),
            path=copy.path,
        )
        for each in found:
            yield f"  {tr(TITLES[each.table])}: {difference_told(each)}"
        if not found:
            yield tr("  the same in every table")


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "backups": Command(tr("The earlier copies of a notebook."), _backups_arguments, _backups),
        "salvage": Command(
            tr(
                "What can be read of a damaged notebook, into a new one: exit status 1 where "
                "something is missing."
            ),
            _salvage_arguments,
            _salvage,
        ),
    }
)
"""The commands, by their names."""
