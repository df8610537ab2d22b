"""Builds what is handed out: wheel, sdist, and the program as a folder that needs no Python.

    python resources/packaging/build.py wheel       dist/*.whl and dist/*.tar.gz
    python resources/packaging/build.py standalone  dist/lawnbook/, a folder with the program in it
    python resources/packaging/build.py check       all of them in build/, each started and tried

Run it with the Python of the project's environment, on the system that the program is for: none of
these builds crosses over. `check` draws a sheet and a plan with each, without a screen, from a
folder that has nothing of the project in it.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from terms import missing

from lawnbook.desk.licences import PACKED

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PROGRAM = "lawnbook.exe" if os.name == "nt" else "lawnbook"
SAMPLE = "larkspur_corner.json"
SECONDS_OPEN = 6
"""So long the window is watched; what is missing from a build shows as its pages are made."""

OLDEST_GLIBC = "the program runs on systems whose C library is no older than this machine's"


def say(line: str) -> None:
    """One line for the person at the terminal, at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def run(command: Sequence[str | Path], folder: Path, **environment: str) -> str:
    """What a command printed; CalledProcessError, after its complaints, where it fails."""
    done = subprocess.run(
        [str(each) for each in command],
        cwd=folder,
        env={**os.environ, **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    if done.returncode:
        say(done.stdout)
        raise subprocess.CalledProcessError(done.returncode, command)
    return done.stdout


def make_wheel(out: Path) -> tuple[Path, Path]:
    """Build the sdist, and the wheel from the sdist, as whoever has only the sdist would."""
    hatch: list[str | Path] = [sys.executable, "-m", "hatchling", "build", "-d", out]
    run([*hatch, "-t", "sdist"], ROOT)
    sdist = next(out.glob("*.tar.gz"))
    with tempfile.TemporaryDirectory() as unpacked:
        shutil.unpack_archive(sdist, unpacked, filter="data")
        run([*hatch, "-t", "wheel"], next(Path(unpacked).iterdir()))
    return next(out.glob("*.whl")), sdist


def make_standalone(out: Path) -> Path:
    """Build the folder with the program, its Python and its libraries; the program's path."""
    command = [sys.executable, "-m", "PyInstaller", "--noconfirm", "--log-level", "WARN"]
    places: list[str | Path] = ["--distpath", out, "--workpath", ROOT / "build" / "packing"]
    run([*command, *places, HERE / "lawnbook.spec"], ROOT)
    folder = out / "lawnbook"
    # Where whoever opens the folder sees them; the program on macOS is sealed as it is.
    shutil.move(folder / "_internal" / PACKED, folder / PACKED)
    return folder / PROGRAM


def try_program(command: Sequence[str | Path], sample: Path, **environment: str) -> None:
    """Start a program without a screen and see a plan, a sheet and a window come of it.

    RuntimeError where what it made is not that.
    """
    surroundings = {**environment, "QT_QPA_PLATFORM": "offscreen", "PYTHONNOUSERSITE": "1"}
    with tempfile.TemporaryDirectory() as elsewhere:
        folder = Path(elsewhere)
        plan = run(
            [*command, "plan", sample, "--on", "2026-06-15", "--json"], folder, **surroundings
        )
        if not json.loads(plan)["zones"]:
            raise RuntimeError("the plan has no zones")
        sheet = folder / "sheet.pdf"
        run([*command, "sheet", sample, "-o", sheet, "--on", "2026-06-15"], folder, **surroundings)
        if not sheet.read_bytes().startswith(b"%PDF-"):
            raise RuntimeError("the sheet is no PDF")
        workbook = folder / "tables.xlsx"
        run([*command, "tables", sample, "-o", workbook], folder, **surroundings)
        calendar = folder / "due.ics"
        run([*command, "calendar", sample, "-o", calendar], folder, **surroundings)
        notebook = folder / "yard.lawnbook"
        run([*command, "import", sample, "-o", notebook], folder, **surroundings)
        _try_window([*command, notebook], folder, surroundings)


def _try_window(command: Sequence[str | Path], folder: Path, surroundings: dict[str, str]) -> None:
    """The window opens and stays open: it is ended after a while, without a complaint."""
    home = {"HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "XDG_DATA_HOME": str(folder)}
    with subprocess.Popen(
        [str(each) for each in command],
        cwd=folder,
        env={**os.environ, **surroundings, **home},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    ) as window:
        try:
            window.wait(SECONDS_OPEN)
        except subprocess.TimeoutExpired:
            window.terminate()
        else:
            raise RuntimeError(f"the window ended by itself: {window.communicate()[0]}")
        told = window.communicate()[0]
        if "Traceback" in told:
            raise RuntimeError(told)


def check() -> None:
    """Build everything into build/ and try it."""
    out = ROOT / "build" / "handed-out"
    shutil.rmtree(out, ignore_errors=True)
    out.mkdir(parents=True)
    wheel, sdist = make_wheel(out)
    say(f"made {sdist.name} and, from it, {wheel.name}")
    with tempfile.TemporaryDirectory() as installed:
        pip = [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--target", installed]
        run([*pip, wheel], out)
        sample = Path(installed) / "lawnbook" / "_data" / "sample_yards" / SAMPLE
        found = run(
            [sys.executable, "-c", "import lawnbook; print(lawnbook.__file__)"],
            out,
            PYTHONPATH=installed,
        )
        if not found.startswith(installed):
            raise RuntimeError(f"another Lawnbook was tried: {found}")
        try_program([sys.executable, "-m", "lawnbook"], sample, PYTHONPATH=installed)
    say("the wheel was installed and tried")
    program = make_standalone(out)
    sample = program.parent / "_internal" / "lawnbook" / "_data" / "sample_yards" / SAMPLE
    try_program([program], sample)
    if bare := missing(program.parent):
        raise RuntimeError(f"packed without the text of a licence: {', '.join(bare)}")
    size = sum(each.lstat().st_size for each in program.parent.rglob("*"))
    say(f"the standalone program was built ({size / 1e6:,.0f} MB) and tried")


def main() -> int:
    """Do what the first argument names; 2 for anything else."""
    errand = sys.argv[1] if len(sys.argv) > 1 else ""
    dist = ROOT / "dist"
    if errand == "wheel":
        say(" and ".join(str(each) for each in make_wheel(dist)))
    elif errand == "standalone":
        say(f"{make_standalone(dist)}; {OLDEST_GLIBC}")
    elif errand == "check":
        check()
    else:
        say(__doc__ or "")
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
