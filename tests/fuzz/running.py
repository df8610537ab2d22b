"""Cases run in a process of their own, each with a limit on its time and its memory.

The process is one that may be killed by what it reads: a crash, a hang or a run on the memory ends
it, is written down as a fault of the case at hand, and the next process goes on with the next case.
"""

import multiprocessing
import os
import random
import resource
import signal
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from pathlib import Path
from types import FrameType

from lawnbook.yard.problems import OwnerError
from tests.fuzz.targets import TARGETS, Target

SECONDS = 20.0
"""What one case may take, of this process's own time."""

MOST_BYTES = 2 * 2**30
"""What the process may have in addresses, libraries included."""

GROWTH_KIB = 700_000
"""How far the memory in use may grow over all of a process's cases."""


@dataclass(slots=True)
class Outcome:
    """What came of a parser's cases: how many, how many were read, refused, and what was wrong."""

    cases: int = 0
    read: int = 0
    refused: int = 0
    slowest_s: float = 0.0
    growth_kib: int = 0
    faults: list[str] = field(default_factory=list)

    def add(self, other: "Outcome") -> None:
        """Count another outcome in."""
        self.cases += other.cases
        self.read += other.read
        self.refused += other.refused
        self.slowest_s = max(self.slowest_s, other.slowest_s)
        self.growth_kib = max(self.growth_kib, other.growth_kib)
        self.faults += other.faults

    def by_kind(self) -> Counter[str]:
        """The faults without their case numbers, counted."""
        return Counter(each.partition(": ")[2] for each in self.faults)


class SlowError(BaseException):
    """A case that takes too long; no reader catches it."""


def run_case(target: Target, data: bytes, folder: Path, outcome: Outcome, label: str) -> None:
    """Run one case and count it; a fault is kept with its label."""
    outcome.cases += 1
    began = time.process_time()
    try:
        target.run(data, folder / f"theirs{target.suffix}")
        outcome.read += 1
    except OwnerError as error:
        outcome.refused += 1
        told = str(error)
        if "\n" in told or not told.strip() or len(told) > 2_000:
            outcome.faults.append(f"{label}: a sentence of {len(told)} letters: {told[:80]!r}")
    except BaseException as error:
        if not isinstance(error, Exception | SlowError):
            raise
        place = traceback.extract_tb(error.__traceback__)[-1]
        kind = f"{type(error).__name__} {Path(place.filename).name}:{place.lineno}"
        outcome.faults.append(f"{label}: {kind} {str(error)[:80]}")
    outcome.slowest_s = max(outcome.slowest_s, time.process_time() - began)


def case_of(target: Target, name: str, seed: int, number: int) -> bytes:
    """The bytes of a numbered case, always the same."""
    return target.case(random.Random(f"{name} {seed} {number}"))


def run_many(name: str, numbers: range, seed: int) -> Outcome:
    """Run numbered cases of a parser, in as many processes as it takes."""
    whole = Outcome()
    left = numbers
    while left:
        done, outcome = _in_child(name, left, seed)
        whole.add(outcome)
        left = left[done:]
    return whole


def _in_child(name: str, numbers: range, seed: int) -> tuple[int, Outcome]:
    """How many of the cases a process got through, the one that ended it included."""
    ours, theirs = multiprocessing.Pipe(duplex=False)
    child = multiprocessing.get_context("fork").Process(
        target=_child, args=(theirs, name, numbers, seed)
    )
    child.start()
    theirs.close()
    begun, outcome = 0, Outcome()
    try:
        while True:
            told = ours.recv()
            if isinstance(told, int):
                begun = told
            else:
                outcome = told
    except EOFError:
        child.join()
    if outcome.cases == 0:
        label = f"case {numbers[begun]} of seed {seed}"
        outcome.cases = begun + 1
        outcome.faults.append(f"{label}: the process ended with {child.exitcode}")
        return begun + 1, outcome
    return len(numbers), outcome


def _child(pipe: Connection, name: str, numbers: range, seed: int) -> None:
    target, outcome = TARGETS[name], Outcome()
    target.seeds()
    signal.signal(signal.SIGVTALRM, _too_slow)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, resource.getrlimit(resource.RLIMIT_AS)[1]))
    before = _used_kib()
    with tempfile.TemporaryDirectory(dir=_memory_folder()) as told:
        folder = Path(told)
        for place, number in enumerate(numbers):
            pipe.send(place)
            signal.setitimer(signal.ITIMER_VIRTUAL, SECONDS)
            run_case(
                target,
                case_of(target, name, seed, number),
                folder,
                outcome,
                f"case {number} of seed {seed}",
            )
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
            _clear(folder, outcome, number, target.suffix)
    outcome.growth_kib = _used_kib() - before
    if outcome.growth_kib > GROWTH_KIB:
        outcome.faults.append(f"all of them: the memory grew by {outcome.growth_kib:,} KiB")
    pipe.send(outcome)
    pipe.close()
    # What a library would do on leaving is no matter here.
    os._exit(0)


def _clear(folder: Path, outcome: Outcome, number: int, suffix: str) -> None:
    """Empty the folder; a file that nobody was to write there is a fault."""
    for each in folder.iterdir():
        if each.name != f"theirs{suffix}":
            outcome.faults.append(f"case {number}: {each.name} was written")
        each.unlink()


def _too_slow(_signal: int, _frame: FrameType | None) -> None:
    raise SlowError(f"more than {SECONDS:.0f} s")


def _used_kib() -> int:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def _memory_folder() -> str | None:
    """A folder in memory where there is one: the cases are written thousands of times."""
    return "/dev/shm" if os.access("/dev/shm", os.W_OK) else None


def known(names: Sequence[str]) -> tuple[str, ...]:
    """The parsers of these names, all for no name. Raises SystemExit for one that is none."""
    if wrong := [each for each in names if each not in TARGETS]:
        raise SystemExit(f"{wrong[0]}: there is no such parser; choose from {', '.join(TARGETS)}")
    return tuple(names) or tuple(TARGETS)
