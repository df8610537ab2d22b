"""How the benchmarks measure: medians of a thing and of its floor, taken in turn in one run."""

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

Work = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: seconds (or bytes) of a thing and of its floor, and the aim.

    `allowed` is the most that the thing may take, as a multiple of its floor.
    """

    what: str
    floor: str
    measured: float
    floor_measured: float
    allowed: float
    unit: str = "ms"

    @property
    def ratio(self) -> float:
        """The thing as a multiple of its floor."""
        return self.measured / self.floor_measured


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What every part measures with: a scratch folder, two notebooks, and how often to repeat."""

    folder: Path
    sample: Path
    big: Path
    repeats: int


def seconds_of(work: Work) -> float:
    """Seconds that a piece of work takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def median(measure: Callable[[], float], repeats: int) -> float:
    """The median of several measurements, after one that does not count."""
    measure()
    return statistics.median(measure() for _ in range(repeats))


def in_turn(
    measure: Callable[[], float], floor: Callable[[], float], repeats: int
) -> tuple[float, float]:
    """The medians of a thing and of its floor, one after the other so that both see the machine.

    The first of each does not count.
    """
    measure(), floor()
    pairs = [(measure(), floor()) for _ in range(repeats)]
    return statistics.median(a for a, _ in pairs), statistics.median(b for _, b in pairs)


def child(code: str, *arguments: str) -> Callable[[], float]:
    """A measurement of a fresh Python process that runs some code, with a screenless Qt."""
    return lambda: seconds_of(lambda: told_by_child(code, *arguments))


def told_by_child(code: str, *arguments: str) -> str:
    """What a fresh Python process prints; bytecode is kept, as where the program is installed."""
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments],
        check=True,
        capture_output=True,
        text=True,
        env=child_environment(),
    )
    return done.stdout


def child_environment() -> dict[str, str]:
    """The environment of measured processes: offscreen, bytecode kept in a scratch folder."""
    kept = Path(os.environ.get("LAWNBOOK_BENCH_BYTECODE", Path.home() / ".cache/lawnbook-bench"))
    return {
        **os.environ,
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONDONTWRITEBYTECODE": "",
        "PYTHONPYCACHEPREFIX": str(kept),
    }
