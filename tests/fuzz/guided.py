"""Fuzzing that watches which lines a file reaches: `python -m tests.fuzz.guided PARSER [-runs=N]`.

It needs atheris (`pip install atheris`), which has wheels for few machines and so is in an extra of
its own. Options that begin with a hyphen are libFuzzer's. What it starts from are the sound files.
"""

import importlib
import sys
import tempfile
from pathlib import Path
from typing import Any


def main(given: list[str]) -> int:
    """Run the reader that is named first on what libFuzzer makes up; a fault ends it."""
    guide: Any = importlib.import_module("atheris")
    with guide.instrument_imports(include=["lawnbook.store", "lawnbook.yard"]):
        targets: Any = importlib.import_module("tests.fuzz.targets")
        running: Any = importlib.import_module("tests.fuzz.running")
    (name,) = running.known([each for each in given if not each.startswith("-")][:1])[:1]
    target = targets.TARGETS[name]
    with tempfile.TemporaryDirectory() as told:
        folder, corpus = Path(told) / "case", Path(told) / "corpus"
        folder.mkdir()
        corpus.mkdir()
        for number, data in enumerate(target.seeds()):
            (corpus / f"seed{number}").write_bytes(data)

        def one(data: bytes) -> None:
            outcome = running.Outcome()
            running.run_case(target, data, folder, outcome, "this case")
            if outcome.faults:
                raise AssertionError(outcome.faults[0])

        options = [each for each in given if each.startswith("-")]
        guide.Setup([sys.argv[0], *options, str(corpus)], one)
        guide.Fuzz()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
