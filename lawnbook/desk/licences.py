"""The licences of all that Lawnbook is made with: as installed, else as recorded when it was built.

No Qt here: `resources/licences.py` writes `resources/licences.json` with it, which a build without
the metadata of its parts (a frozen one) reads instead.
"""

import json
import re
import sys
import sysconfig
from collections.abc import Iterator, Mapping
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path
from platform import python_version

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.places import resource

RECORD = "licences.json"
PACKED, INDEX = "licences", "index.json"
"""Folder and list of what a standalone program carries (`resources/packaging/terms.py`)."""
PYTHON = "Python"
_ROOT = "lawnbook"
_NAME = re.compile(r"[A-Za-z0-9._-]+")
_TEXT = re.compile(r"(?:licen[cs]e|copying|notice)", re.IGNORECASE)
_LONGEST = 60
"""Letters of a licence's name; what is longer is the licence itself."""


@dataclass(frozen=True, slots=True)
class Part:
    """Something that Lawnbook is made with; `text` is empty where it carries none."""

    name: str
    version: str
    licence: str
    text: str


def parts() -> tuple[Part, ...]:
    """All that is installed because Lawnbook needs it, and Python, by name.

    Where Lawnbook's own metadata are missing these are the parts it was built with.
    """
    try:
        found = installed()
    except PackageNotFoundError:
        found = {}
    told = found or recorded()
    return tuple(sorted(told.values(), key=lambda part: part.name.lower()))


def installed() -> Mapping[str, Part]:
    """The parts that are installed here, by their normal name.

    PackageNotFoundError where Lawnbook itself is not installed as a package.
    """
    found = {name: _part(held) for name, held in _needed(_wanted())}
    found[PYTHON.lower()] = Part(PYTHON, python_version(), "PSF-2.0", _python_text())
    return found


def recorded() -> Mapping[str, Part]:
    """The parts as they were recorded at the latest build; empty where there is no record."""
    try:
        rows = json.loads(resource(RECORD).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {normal(row["name"]): Part(**row) for row in rows}


def packed_in() -> Path | None:
    """The folder of a standalone program with the licences of all it carries; None elsewhere.

    It lies beside the program, and on macOS among the resources of its bundle.
    """
    beside = Path(sys.executable).parent
    places = (beside / PACKED, beside.parent / "Resources" / PACKED)
    frozen = getattr(sys, "frozen", False)
    return next((each for each in places if frozen and (each / INDEX).is_file()), None)


def carried(folder: Path) -> tuple[tuple[str, str], ...]:
    """What a standalone program carries of the system it was made on: name and version."""
    try:
        rows = json.loads((folder / INDEX).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return ()
    return tuple((each["name"], each["version"]) for each in rows if each["kind"] == "system")


def normal(name: str) -> str:
    """A distribution's name as it is compared (PyPA name normalization, PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def _wanted() -> list[str]:
    """What Lawnbook itself asks for: by pyproject.toml in a checkout, else by its metadata.

    The metadata of a checkout are as old as its latest installation.
    """
    project = resource(RECORD).parent.parent / "pyproject.toml"
    if project.is_file():
        import tomllib

        held: list[str] = tomllib.loads(project.read_text("utf-8"))["project"]["dependencies"]
        return held
    return list(distribution(_ROOT).requires or ())


def _needed(wanted_first: list[str]) -> Iterator[tuple[str, Distribution]]:
    """All distributions that are asked for, whether directly or by another of them."""
    seen, waiting = {normal(_ROOT)}, list(wanted_first)
    while waiting:
        wanted = waiting.pop()
        name = _NAME.match(wanted)
        # What only an extra asks for is no part of the program.
        if name is None or "extra ==" in wanted or normal(name[0]) in seen:
            continue
        seen.add(normal(name[0]))
        try:
            held = distribution(name[0])
        except PackageNotFoundError:
            # Asked for on another system or by another Python only.
            continue
        waiting += held.requires or ()
        yield normal(name[0]), held


def _part(held: Distribution) -> Part:
    return Part(held.name, held.version, _licence_of(held), _text_of(held))


def _licence_of(held: Distribution) -> str:
    """The short name of a licence, from whichever field of the metadata has it."""
    for field in ("License-Expression", "License"):
        told = str((held.metadata.get_all(field) or [""])[0]).strip()
        if told and len(told) <= _LONGEST and "\n" not in told and not told.startswith("Copyright"):
            return told
    classed = [str(each) for each in held.metadata.get_all("Classifier") or ()]
    names = [each.rpartition(" :: ")[2] for each in classed if each.startswith("License ::")]
    return names[0] if names else tr("see its text")


def _text_of(held: Distribution) -> str:
    """The texts that came with a distribution, one below the other."""
    texts: list[str] = []
    for each in sorted(held.files or (), key=str):
        if ".dist-info" in str(each) and _TEXT.search(each.name):
            path = Path(str(held.locate_file(each)))
            if path.is_file():
                texts.append(path.read_text(encoding="utf-8", errors="replace").strip())
    return "\n\n\n".join(dict.fromkeys(texts))


def _python_text() -> str:
    """Python's own licence, where this Python has it beside its library."""
    path = Path(sysconfig.get_path("stdlib")) / "LICENSE.txt"
    if path.is_file():
        return path.read_text(encoding="utf-8", errors="replace").strip()
    held = recorded().get(PYTHON.lower())
    return held.text if held is not None else ""
