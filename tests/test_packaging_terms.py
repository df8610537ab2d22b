"""The licences in the standalone folder: each library has an owner, each owner a text."""

import json
import runpy
import sys
from pathlib import Path

import pytest

from lawnbook.desk import licences
from lawnbook.desk.leaf_about import AboutLeaf
from lawnbook.desk.licences import INDEX, PACKED
from lawnbook.yard.places import resource
from tests.leaf_hand import Host

pytest_plugins = ["tests.desk_book", "tests.leaf_book"]

TERMS = runpy.run_path(str(resource("packaging/terms.py")))
OURS = resource("licences")


def numpy_library() -> str:
    """A library of a distribution."""
    whose: dict[str, str] = TERMS["distribution_files"]()
    return next(path for path, name in whose.items() if name == "numpy" and ".so" in path)


def test_every_library_has_its_owner_and_every_owner_a_text(tmp_path: Path) -> None:
    packed = [
        ("numpy/core.so", numpy_library(), "EXTENSION"),
        ("libnumpy.so", numpy_library(), "SYMLINK"),
        ("lawnbook.start", str(OURS.parent.parent / "lawnbook/start.py"), "PYMODULE"),
        ("mpl_toolkits", "-", "PYMODULE"),
    ]
    made = TERMS["collect"](packed, OURS, tmp_path / "texts")
    assert {folder for _, folder in made} == {PACKED}
    rows = {row["name"]: row for row in json.loads((tmp_path / "texts" / INDEX).read_text("utf-8"))}
    assert rows["numpy"]["files"] == ["numpy/core.so"]
    assert set(rows) >= {"numpy", "Python", "pyinstaller"}
    for row in rows.values():
        assert row["texts"]
        assert all((tmp_path / "texts" / each).stat().st_size > 500 for each in row["texts"])


def test_a_library_whose_terms_nobody_knows_stops_the_build(tmp_path: Path) -> None:
    stray = tmp_path / "libstray.so.1"
    stray.write_bytes(b"\x7fELF")
    with pytest.raises(RuntimeError, match=r"libstray\.so\.1"):
        TERMS["collect"]([("libstray.so.1", str(stray), "BINARY")], OURS, tmp_path / "texts")


def test_a_folder_is_missed_what_its_index_does_not_tell(tmp_path: Path) -> None:
    folder = tmp_path / PACKED
    folder.mkdir()
    (folder / "zlib1g.txt").write_text("Terms", "utf-8")
    row = {"name": "zlib1g", "texts": ["zlib1g.txt"], "files": ["libz.so.1"]}
    (folder / INDEX).write_text(json.dumps([row]), "utf-8")
    (tmp_path / "libz.so.1").touch()
    assert TERMS["missing"](tmp_path) == []
    (tmp_path / "libother.so.2.0").touch()
    (tmp_path / "words.txt").touch()
    (folder / "zlib1g.txt").write_text("", "utf-8")
    assert TERMS["missing"](tmp_path) == ["libother.so.2.0", "zlib1g.txt"]


def test_about_names_what_a_standalone_program_carries(
    host: Host, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert licences.packed_in() is None
    folder = tmp_path / PACKED
    folder.mkdir()
    rows = [
        {"name": "libkrb5-3", "version": "1.20", "kind": "system"},
        {"name": "numpy", "version": "2.4", "kind": "distribution"},
    ]
    (folder / INDEX).write_text(json.dumps(rows), "utf-8")
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    monkeypatch.setattr(sys, "executable", str(tmp_path / "lawnbook"))
    assert licences.packed_in() == folder
    told = AboutLeaf(host).read_passages()
    carried = next(each for each in told if each.title == "Libraries of the system")
    assert "libkrb5-3 1.20" in carried.plain
    assert str(folder) in carried.plain
    assert "numpy" not in carried.plain
    (folder / INDEX).write_text("[", "utf-8")
    assert licences.carried(folder) == ()


def test_an_environment_inside_the_project_is_not_the_projects(tmp_path: Path) -> None:
    library = numpy_library()
    around = next(each for each in Path(library).parents if each.name == "site-packages").parent
    packed = [("numpy/core.so", library, "EXTENSION")]
    assert TERMS["by_owner"](packed, around)["numpy"] == ["numpy/core.so"]
