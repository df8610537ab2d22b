"""Set everything up on a fresh machine, then open a sample yard or pass the tests.

    python3 resources/start.py yard     a sample yard in the window
    python3 resources/start.py tests    the whole test suite
    python3 resources/start.py setup    only the set-up

Needs Python 3.11 or later with its venv module, and nothing else. It makes a virtual environment
in `.venv` beside the README and installs Lawnbook into it. On Debian and Ubuntu it also installs
Qt's system libraries where they are missing and it may (as root, or with sudo that asks nothing).
"""

import ctypes
import hashlib
import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
OLDEST = 0x030B0000
SAMPLE = ROOT / "sample_yards" / "larkspur_corner.json"
LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
}
"""What Qt loads without a screen, and the Debian package that holds it."""
SCREEN_LIBRARIES = {
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
}
"""What Qt loads besides for a window on X11."""


def say(line: str) -> None:
    """One line for the person at the terminal, at once."""
    print(line, flush=True)


def loads(library: str) -> bool:
    """Whether the system's loader finds a shared library."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def missing_packages(for_tests: bool) -> list[str]:
    """Debian packages that this machine lacks for what is about to run."""
    wanted = LIBRARIES if for_tests else LIBRARIES | SCREEN_LIBRARIES
    packages = [package for library, package in wanted.items() if not loads(library)]
    if for_tests and shutil.which("pdftotext") is None:
        packages.append("poppler-utils")
    return packages


def install_system_packages(packages: list[str]) -> None:
    """Install them through apt where that is allowed, else say what to type."""
    if not packages or shutil.which("apt-get") is None:
        return
    as_root = [] if os.geteuid() == 0 else ["sudo", "-n"]
    if as_root and not _sudo_asks_nothing():
        say("Qt may need these packages: sudo apt-get install " + " ".join(packages))
        return
    say("Installing " + " ".join(packages))
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    subprocess.run([*as_root, "apt-get", "update", "-q"], check=True, env=quiet)
    install = ["apt-get", "install", "-y", "-q", "--no-install-recommends", *packages]
    subprocess.run([*as_root, *install], check=True, env=quiet)


def _sudo_asks_nothing() -> bool:
    if shutil.which("sudo") is None:
        return False
    return subprocess.run(["sudo", "-n", "true"], check=False, capture_output=True).returncode == 0


def python_of_venv() -> Path:
    """The interpreter inside the virtual environment."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def install_lawnbook(extras: str) -> None:
    """Make the virtual environment and install into it, once for each state of pyproject.toml."""
    project = (ROOT / "pyproject.toml").read_bytes()
    stamp = hashlib.sha256(project + str(ROOT).encode()).hexdigest()
    mark = VENV / f"installed{extras}"
    if mark.is_file() and mark.read_text() == stamp:
        return
    if not python_of_venv().is_file():
        say(f"Making a virtual environment in {VENV}")
        venv.create(VENV, with_pip=True)
    say("Installing Lawnbook and what it is built on (a few minutes the first time)")
    pip = [str(python_of_venv()), "-m", "pip", "install", "-q", "--disable-pip-version-check"]
    subprocess.run([*pip, "-e", f"{ROOT}{extras}"], check=True, cwd=ROOT)
    mark.write_text(stamp)


def run(*arguments: str, **environment: str) -> int:
    """Run the virtual environment's Python in the project's folder."""
    command = [str(python_of_venv()), *arguments]
    return subprocess.run(command, check=False, cwd=ROOT, env=os.environ | environment).returncode


def main(arguments: list[str]) -> int:
    """Do what the first argument names; 2 for anything else."""
    errand = arguments[0] if arguments else ""
    if errand not in {"yard", "tests", "setup"}:
        say(__doc__ or "")
        return 2
    if sys.hexversion < OLDEST:
        say("Lawnbook needs Python 3.11 or later; this one is " + sys.version.split()[0])
        return 2
    for_tests = errand != "yard"
    try:
        install_system_packages(missing_packages(for_tests))
        install_lawnbook("[test]" if for_tests else "")
    except subprocess.CalledProcessError as stopped:
        say(f"The set-up stopped at: {' '.join(map(str, stopped.cmd))}")
        say("On Debian and Ubuntu the venv module is the package python3-venv.")
        return 1
    if errand == "tests":
        tests = ["-m", "pytest", "-n", "auto", *arguments[1:]]
        return run(*tests, QT_QPA_PLATFORM="offscreen")
    return run("-m", "lawnbook", str(SAMPLE)) if errand == "yard" else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
