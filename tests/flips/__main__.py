"""Damage copies of small notebooks at random and say what became of every record.

    python -m tests.flips [COPIES] [SEED]

500 copies unless told. Ends with status 1 where a record is lost or changed and nothing tells so.
"""

import random
import sys
import tempfile
import time
from pathlib import Path

from tests.flips.run import cut_everywhere, judges, told

COPIES, SEED = 500, 20261128


def main(arguments: list[str]) -> int:
    """Run as told on the command line; the exit status."""
    copies = int(arguments[0]) if arguments else COPIES
    chance = random.Random(int(arguments[1]) if len(arguments) > 1 else SEED)
    started = time.monotonic()
    faults = 0
    with tempfile.TemporaryDirectory() as folder:
        held = judges(Path(folder))
        for number in range(copies):
            held[number % len(held)].flip(chance, number)
        print(told("Random damage", [each.judge.tally for each in held], copies))
        faults += sum(len(each.judge.tally.faults) for each in held)
        cuts = cut_everywhere(Path(folder))
        print(told("Cut at every page and between", [cuts], cuts.opened.total()))
        faults += len(cuts.faults)
    print(f"{time.monotonic() - started:.0f} s")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
