"""Measure what an owner waits for against the least it could cost here, and print a table.

    python -m tests.bench [REPEATS] [PART ...]

Each row is a median over the repeats of what Lawnbook does, of its floor, and their ratio. Figures
depend on the machine; the ratios hardly do. Parts are starts, plans, files, paints and sketch, all
of them where none is named; `growth` shows how cost grows at 1, 10 and 100 times.
"""

import sys
import tempfile
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from types import MappingProxyType

from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import load_any
from lawnbook.yard.places import sample_yards
from tests.bench import files, paints, plans, sketch_parts, starts
from tests.bench.big_yard import TODAY, big_yard
from tests.bench.measure import Bench, Row

SAMPLE = next(path for path in sample_yards() if path.stem == "larkspur_corner")
PARTS: Mapping[str, Callable[[Bench], Iterable[Row]]] = MappingProxyType(
    {
        "starts": starts.rows,
        "plans": plans.rows,
        "files": files.rows,
        "paints": paints.rows,
        "sketch": sketch_parts.rows,
    }
)
HEAD = f"{'what':46}{'floor':46}{'measured':>12}{'floor':>10}{'ratio':>8}{'aim':>8}"


def main(arguments: list[str]) -> None:
    """Print the table of the parts that are named, or of all."""
    counts = [int(each) for each in arguments if each.isdigit()]
    named = [each for each in arguments if not each.isdigit()]
    with tempfile.TemporaryDirectory() as folder:
        bench = _made(Path(folder), counts[0] if counts else 7)
        parts = [each for each in PARTS if each in named or not named]
        if parts:
            print(HEAD)
        for name in parts:
            for row in PARTS[name](bench):
                print(_line(row), flush=True)
        if "growth" in named:
            _show_growth(bench)


def _show_growth(bench: Bench) -> None:
    for line in files.growth(bench.folder, bench.repeats):
        print(line, flush=True)
    for what, plain, whole in plans.growth(bench.repeats):
        print(f"{what:8}plan {_times(plain)}    with all its promises kept {_times(whole)}")
    for line in paints.growth(bench):
        print(line, flush=True)


def _times(seconds: Iterable[float]) -> str:
    return " ".join(f"{1e3 * each:9.1f}" for each in seconds) + " ms"


def _made(folder: Path, repeats: int) -> Bench:
    sample, big = folder / "sample.lawnbook", folder / "big.lawnbook"
    create(sample, load_any(SAMPLE, TODAY))
    create(big, big_yard())
    return Bench(folder=folder, sample=sample, big=big, repeats=repeats)


def _line(row: Row) -> str:
    scale = 1e3 if row.unit == "ms" else 1.0
    told = [f"{scale * each:,.2f}" for each in (row.measured, row.floor_measured)]
    return (
        f"{row.what:46}{row.floor:46}{told[0] + ' ' + row.unit:>12}{told[1]:>10}"
        f"{row.ratio:8.2f}{row.allowed:8.2f}"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
