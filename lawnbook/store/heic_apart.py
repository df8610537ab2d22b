"""A HEIC photograph decoded by a process of its own: what breaks its reader breaks nothing else.

libheif, which reads HEIC, is written in a language in which a file made on purpose can end the
program: of 20,000 broken files the fuzzer found one that does. So the file's bytes are handed to a
child, which gives back a PNG without loss, or ends. Run as a program, this module is that child; it
imports nothing of Lawnbook.

A packaged program has no Python to start a child with: it starts itself, with `CHILD` as its first
word, which its launcher hands on to `main`.
"""

import contextlib
import importlib
import importlib.util
import io
import subprocess
import sys
from pathlib import Path
from typing import Any

CHILD = "--be-the-reader-of-heic"
"""The first word by which a packaged program is told to be the child."""

SECONDS = 60
MOST_BYTES = 3 * 2**30
TOO_LARGE, BROKEN, NO_READER = 4, 3, 5
_PIXELS_IN_A_MEGAPIXEL = 1e6


def as_png(data: bytes, most_megapixels: int) -> tuple[int, bytes]:
    """How a child that read a HEIC's bytes ended, and the PNG it made.

    The status is 0, or one of `TOO_LARGE`, `BROKEN` and `NO_READER`.
    """
    if importlib.util.find_spec("pi_heif") is None:
        return NO_READER, b""
    # -P: modules are not looked for beside this file, whose neighbours bear common names.
    reader = [CHILD] if getattr(sys, "frozen", False) else ["-P", str(Path(__file__))]
    command = [sys.executable, *reader, str(most_megapixels)]
    try:
        child = subprocess.run(
            command, input=data, capture_output=True, check=False, timeout=SECONDS
        )
    except subprocess.TimeoutExpired:
        return BROKEN, b""
    known = (0, TOO_LARGE, NO_READER)
    return (child.returncode if child.returncode in known else BROKEN), child.stdout


def _read(source: io.BytesIO, out: Any, most_megapixels: int) -> int:
    """Read a HEIC and write it as a PNG, with the camera's data and its colours; the status."""
    try:
        reader: Any = importlib.import_module("pi_heif")
    except ImportError:
        return NO_READER
    image = reader.HeifImageFile(source)
    if image.width * image.height > most_megapixels * _PIXELS_IN_A_MEGAPIXEL:
        return TOO_LARGE
    image.load()
    kept = {name: image.info[name] for name in ("exif", "icc_profile") if image.info.get(name)}
    image.save(out, "PNG", compress_level=1, **kept)
    return 0


def _bound_memory() -> None:
    """Let the system end this process where a file would make it fill the memory."""
    with contextlib.suppress(ImportError, OSError, ValueError):
        limits: Any = importlib.import_module("resource")
        limits.setrlimit(limits.RLIMIT_AS, (MOST_BYTES, limits.getrlimit(limits.RLIMIT_AS)[1]))


def main() -> int:
    """Be the child: a HEIC on standard input, a PNG on standard output."""
    _bound_memory()
    out = io.BytesIO()
    status = _read(io.BytesIO(sys.stdin.buffer.read()), out, int(sys.argv[1]))
    sys.stdout.buffer.write(out.getvalue())
    return status


if __name__ == "__main__":
    sys.exit(main())
