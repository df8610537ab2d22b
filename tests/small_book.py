"""A small notebook and the tools that tests of the file and of the open notebook share."""

import os
import subprocess
import sys
import textwrap
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from lawnbook.yard.notebook import Change, Key, Notebook, apply, new_notebook, put
from lawnbook.yard.records import Record, Spot, Zone


def small_notebook() -> Notebook:
    """A notebook with one zone and one spot."""
    notebook = new_notebook("Small")
    zone = Zone(id="front", name="Front", outline_ft=((0.0, 0.0), (30.0, 0.0), (30.0, 20.0)))
    notebook = apply(notebook, put(notebook, "zones", zone))
    return apply(notebook, put(notebook, "spots", Spot(id="elm", name="Elm", zone="front")))


def rename(notebook: Notebook, name: str) -> Change:
    """The change that gives the yard another name."""
    return put(notebook, "yard", replace(notebook.yard, name=name))


class Watched(Mapping[Key, tuple[Record | None, Record | None]]):
    """A change that has something done while it is being written."""

    def __init__(self, change: Change, look: Callable[[], None]) -> None:
        self.change = change
        self.look = look

    def __getitem__(self, key: Key) -> tuple[Record | None, Record | None]:
        return self.change[key]

    def __len__(self) -> int:
        return len(self.change)

    def __iter__(self) -> Iterator[Key]:
        self.look()
        return iter(self.change)


def in_child(code: str, *arguments: object) -> "subprocess.CompletedProcess[str]":
    """Run Python code in a process of its own that finds this project wherever it runs."""
    root = str(Path(__file__).resolve().parent.parent)
    return subprocess.run(
        [sys.executable, "-c", textwrap.dedent(code), *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env={**os.environ, "PYTHONPATH": root},
    )
