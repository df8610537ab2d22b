"""`python -m tests.fuzz [CASES] [PARSER ...]`: break files and see what the readers make of them.

SEED in the environment gives other cases; a fault names its case, and the same number gives the
same bytes again. Exit status 1 where a fault was found.
"""

import os
import sys

from tests.fuzz.running import known, run_many

USUAL_CASES = 1_000


def main(given: list[str]) -> int:
    """Run the cases that are asked for, and print a line for each parser."""
    cases = int(given.pop(0)) if given and given[0].isdigit() else USUAL_CASES
    seed = int(os.environ.get("SEED", "1"))
    failed = False
    for name in known(given):
        found = run_many(name, range(cases), seed)
        failed |= bool(found.faults)
        print(
            f"{name:10} {found.cases:>7,} cases: {found.read:,} read, {found.refused:,} refused, "
            f"{len(found.faults):,} faults; slowest {found.slowest_s:.2f} s, memory grew by "
            f"{found.growth_kib / 1024:.0f} MB",
            flush=True,
        )
        for kind, count in found.by_kind().most_common(12):
            first = next(each for each in found.faults if each.endswith(kind)).partition(": ")[0]
            print(f"    {count:,} x {kind} ({first})", flush=True)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
