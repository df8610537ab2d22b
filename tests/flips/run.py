"""The notebooks that are damaged, and runs over many copies of them."""

import random
import signal
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType

from lawnbook.store.sqlite_store import create
from lawnbook.yard.notebook import Notebook
from tests.desk_sample import DAY, sample
from tests.flips.harm import PAGE, Harm, random_harm
from tests.flips.judging import Judge, Tally

MOST_SECONDS = 60
LAST_DAYS = 40
_YARDS = ("larkspur_corner", "saltbush_court", "hollow_bank")


@dataclass(frozen=True, slots=True)
class Yard:
    """A notebook's bytes, and who judges what becomes of copies of it."""

    name: str
    data: bytes
    judge: Judge

    def flip(self, chance: random.Random, number: int) -> None:
        """Damage one copy at random."""
        harm = random_harm(self.data, chance)
        with _in_time():
            self.judge.judge(harm, f"{self.name} {number} ({harm.kind})")


def judges(folder: Path, yards: Sequence[str] = _YARDS) -> list[Yard]:
    """The notebooks, each with a folder and a judge of its own."""
    return [_yard(folder / name, name, short(sample(name))) for name in yards]


def cut_everywhere(folder: Path, name: str = "saltbush_court") -> Tally:
    """Cut copies of a notebook at every page's end, and at one place within every page."""
    yard = _yard(folder / "cut", name, short(sample(name)))
    chance = random.Random(1)
    for start in range(0, len(yard.data), PAGE):
        for at in (start, start + chance.randrange(1, PAGE)):
            with _in_time():
                yard.judge.judge(Harm("cut", cut_at=at), f"{name} cut at {at}")
    return yard.judge.tally


def short(notebook: Notebook) -> Notebook:
    """The notebook with only the last days of its long tables."""
    return replace(
        notebook,
        weather=MappingProxyType(dict(list(notebook.weather.items())[-LAST_DAYS:])),
        waterings=MappingProxyType(dict(list(notebook.waterings.items())[-LAST_DAYS:])),
    )


def told(title: str, tallies: Iterable[Tally], copies: int) -> str:
    """The outcome as lines."""
    listed = list(tallies)
    lines = [f"{title}: {copies:,} copies"]
    for name in ("opened", "salvaged", "records"):
        counted: Counter[str] = sum((getattr(each, name) for each in listed), Counter())
        lines += [f"  {name}: {what}: {count:,}" for what, count in sorted(counted.items())]
    lines.append(f"  lost or changed without a word: {sum(len(each.faults) for each in listed)}")
    return "\n".join([*lines, *(f"    {fault}" for each in listed for fault in each.faults)])


def _yard(folder: Path, name: str, notebook: Notebook) -> Yard:
    folder.mkdir(parents=True)
    path = folder.with_suffix(".lawnbook")
    create(path, notebook)
    data = path.read_bytes()
    return Yard(name, data, Judge(folder, data, DAY))


@contextmanager
def _in_time() -> Iterator[None]:
    """End a copy that hangs with an error, where the system has an alarm."""
    alarm = getattr(signal, "alarm", None)
    if alarm is None:
        yield
        return
    alarm(MOST_SECONDS)
    try:
        yield
    finally:
        alarm(0)
