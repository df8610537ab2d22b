"""Whose each library in the standalone folder is, and the texts of their licences beside it.

A library comes from Python, from one of its distributions, or from the system that the folder is
built on, where Debian's packages have their texts in /usr/share/doc. Each text becomes a file of
the folder `licences`, with `index.json` that says which of them goes with which library; About
reads it. A library whose terms nobody knows stops the build.
"""

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterable, Iterator
from importlib.metadata import PackageNotFoundError, distribution, distributions
from pathlib import Path
from typing import Any

from lawnbook.desk.licences import INDEX, PACKED, Part, installed, normal

Entry = tuple[str, str, str]
"""What the packager takes: where it goes, where it is from, and what it is."""
Row = dict[str, Any]
"""What the index says of one owner: name, version, licence, texts and files."""

LIBRARY = re.compile(r"\.(?:so|dylib|dll|pyd)(?:\.[0-9.]+)?$", re.IGNORECASE)
DOC, COMMON = Path("/usr/share/doc"), Path("/usr/share/common-licenses")
REFERS = re.compile(r"/usr/share/common-licenses/([A-Za-z0-9.-]*[A-Za-z0-9])")
OF_QT = ("LGPL-3.txt", "GPL-3.txt", "Qt-others.txt")
QT = frozenset({"pyside6-essentials", "shiboken6"})
PACKER = "pyinstaller"
"""Its starter becomes our program, and it leaves hooks in it."""
RUNTIME, OURS = "python", "lawnbook"


def collect(packed: Iterable[Entry], ours: Path, folder: Path) -> list[tuple[str, str]]:
    """Write the texts and the index into a folder; the packager's data of it.

    `packed` are libraries and modules, `ours` is `resources/licences`. RuntimeError names what is
    packed and has no terms that we know of.
    """
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    parts, files = installed(), by_owner(packed, ours.parent.parent)
    unknown = files.pop("", [])
    rows = [_row(owner, sorted(held), parts, ours, folder) for owner, held in sorted(files.items())]
    unknown += [row["name"] for row in rows if not row["texts"]]
    if unknown:
        raise RuntimeError(f"packed without terms that we know of: {', '.join(unknown)}")
    rows += _common(rows, folder)
    (folder / INDEX).write_text(json.dumps(rows, ensure_ascii=False, indent=1), encoding="utf-8")
    return [(str(each), PACKED) for each in sorted(folder.iterdir())]


def distribution_files() -> dict[str, str]:
    """Which distribution each file among those installed here belongs to, by its whole path."""
    found = {}
    for held in distributions():
        name, top = normal(held.name), os.path.realpath(str(held.locate_file("")))
        for each in held.files or ():
            found[os.path.normpath(f"{top}/{each}")] = name
    return found


def by_owner(packed: Iterable[Entry], root: Path) -> dict[str, list[str]]:
    """The libraries of each owner, those of nobody under "": Python, distributions, packages.

    Modules count too: who has only these has no libraries. What lies in `root` and has no other
    owner is ours.
    """
    whose = distribution_files()
    found: dict[str, list[str]] = {RUNTIME: [], PACKER: []}
    strange: dict[str, list[str]] = {}
    for place, source, kind in packed:
        if kind == "SYMLINK" or not Path(source).is_file():
            # A link stays with its file, and a package that is only a name has none.
            continue
        real = os.path.realpath(source)
        owner = whose.get(real) or (RUNTIME if is_of_python(Path(real)) else "")
        # The environment may lie in `root` too, and what it holds is not ours.
        if owner == OURS or (not owner and Path(real).is_relative_to(root)):
            continue
        held = found.setdefault(owner, []) if owner else strange.setdefault(real, [])
        held += [place] if LIBRARY.search(place) or not owner else []
    packages = system_packages(strange)
    for real, places in strange.items():
        found.setdefault(packages.get(real, ""), []).extend(places)
    return found


def is_of_python(real: Path) -> bool:
    """Whether a file came with Python itself, wherever that lies."""
    base = Path(os.path.realpath(sys.base_prefix))
    own = base not in {Path("/"), Path("/usr"), Path("/usr/local")} and real.is_relative_to(base)
    return own or re.search(r"/(?:libpython3|python3\.\d+/)", real.as_posix()) is not None


def system_packages(paths: Iterable[str]) -> dict[str, str]:
    """The packages of Debian that brought files, by path; without those that none did."""
    # Where /lib leads to /usr/lib, the record may have either.
    asked = {each: path for path in paths for each in (path, path.removeprefix("/usr"))}
    if not asked or shutil.which("dpkg-query") is None:
        return {}
    command = ["dpkg-query", "-S", *asked]
    told = subprocess.run(command, capture_output=True, text=True, check=False).stdout
    lines = (each.partition(": ") for each in told.splitlines())
    return {asked[path]: name.partition(":")[0] for name, _, path in lines if path in asked}


def missing(program: Path) -> list[str]:
    """What is wrong with the terms of a built folder: libraries without, and texts not there."""
    folder = program / PACKED
    rows: list[Row] = json.loads((folder / INDEX).read_text(encoding="utf-8"))
    told = {Path(each).name for row in rows for each in row["files"]}
    texts = {each for row in rows for each in row["texts"]}
    libraries = (each for each in program.rglob("*") if LIBRARY.search(each.name))
    bare = {each.name for each in libraries if not each.is_symlink()} - told
    gone = {each for each in texts if not (folder / each).stat().st_size}
    return [*sorted(bare), *sorted(gone)]


def _row(owner: str, held: list[str], parts: Any, ours: Path, folder: Path) -> Row:
    """What the index says of an owner, whose texts are written into the folder."""
    if owner in QT:
        for name in OF_QT:
            shutil.copy(ours / name, folder / name)
        return _told(parts[owner], held, list(OF_QT), "distribution")
    if owner in parts:
        part: Part = parts[owner]
        return _told(part, held, _written(f"{owner}.txt", part.text, folder), "distribution")
    if (DOC / owner / "copyright").is_file():
        text = (DOC / owner / "copyright").read_text(encoding="utf-8", errors="replace")
        part = Part(owner, _system_version(owner), "", text)
        return _told(part, held, _written(f"{owner}.txt", text, folder), "system")
    try:
        found = distribution(owner)
    except PackageNotFoundError:
        return _told(Part(owner, "", "", ""), held, [], "system")
    # Of distributions that Lawnbook does not ask for only what packs it leaves something behind.
    text = "\n".join(_own_texts(owner)) if owner == PACKER else ""
    part = Part(owner, found.version, "GPL-2.0 with an exception for what it packs", text)
    return _told(part, held, _written(f"{owner}.txt", text, folder), "distribution")


def _told(part: Part, held: list[str], texts: list[str], kind: str) -> Row:
    return {
        "name": part.name,
        "version": part.version,
        "licence": part.licence,
        "kind": kind,
        "texts": texts,
        "files": held,
    }


def _written(name: str, text: str, folder: Path) -> list[str]:
    if not text.strip():
        return []
    (folder / name).write_text(text, encoding="utf-8")
    return [name]


def _own_texts(owner: str) -> Iterator[str]:
    for each in distribution(owner).files or ():
        if re.search(r"copying|licen[cs]e", each.name, re.IGNORECASE):
            yield Path(str(each.locate())).read_text(encoding="utf-8", errors="replace")


def _system_version(package: str) -> str:
    asked = ["dpkg-query", "-W", "-f", "${Version}\n", package]
    done = subprocess.run(asked, capture_output=True, text=True, check=True)
    return done.stdout.partition("\n")[0]


def _common(rows: Iterable[Row], folder: Path) -> list[Row]:
    """The licences that Debian's texts only refer to, in full."""
    texts = [folder / each for row in rows for each in row["texts"]]
    told = {name for each in texts for name in REFERS.findall(each.read_text(encoding="utf-8"))}
    made = []
    for name in sorted(told):
        if (COMMON / name).is_file():
            text = (COMMON / name).read_text(encoding="utf-8", errors="replace")
            part = Part(name, "", "", text)
            made.append(_told(part, [], _written(f"common-{name}.txt", text, folder), "common"))
    return made
