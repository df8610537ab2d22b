"""Try at length that nothing is lost, and print what was tried.

    python -m tests.crash [KILLS]

Ends with the first edit that was lost, by an error that names the seed.
"""

import sys
import tempfile
import time
from pathlib import Path

from tests.crash import kills


def main() -> None:
    """Run what the command line asks for."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        for line in kills.run(count, Path(folder)).lines():
            print(line)
    print(f"{(time.monotonic() - begun) / 60:.1f} minutes")


if __name__ == "__main__":
    main()
