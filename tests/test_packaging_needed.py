"""What the standalone folder leaves out, nothing that is asked for; the icons of its program."""

import runpy
from pathlib import Path

import pytest
from PIL import Image

from lawnbook.yard.places import resource

PACKAGING = resource("packaging")
ICON, NEEDED = (runpy.run_path(str(PACKAGING / f"{each}.py")) for each in ("icon", "needed"))
Entry = tuple[str, str, str]

QT = "PySide6/Qt/"
FOUND: tuple[Entry, ...] = (
    (f"{QT}plugins/platforms/libqxcb.so", "xcb", "BINARY"),
    (f"{QT}plugins/platforms/libqvnc.so", "vnc", "BINARY"),
    (f"{QT}plugins/platforms/libqminimalegl.so", "egl", "BINARY"),
    (f"{QT}plugins/platformthemes/libqgtk3.so", "gtk theme", "BINARY"),
    (f"{QT}plugins/generic/libqevdevmouseplugin.so", "mouse", "BINARY"),
    (f"{QT}lib/libQt6Gui.so.6", "gui", "BINARY"),
    (f"{QT}lib/libQt6Network.so.6", "network", "BINARY"),
    ("libQt6Gui.so.6", f"{QT}lib/libQt6Gui.so.6", "SYMLINK"),
    ("libQt6Network.so.6", f"{QT}lib/libQt6Network.so.6", "SYMLINK"),
    ("libgtk-3.so.0", "gtk", "BINARY"),
    ("libglib-2.0.so.0", "glib", "BINARY"),
    ("libpango-1.0.so.0", "pango", "BINARY"),
    ("libpython3.11.so.1.0", "python", "BINARY"),
    ("numpy/core.so", "numpy", "EXTENSION"),
    ("numpy.libs/libblas-1.so", "blas", "BINARY"),
)
ASKS = {
    "xcb": ["libQt6Gui.so.6"],
    "gui": ["libglib-2.0.so.0", "libc.so.6"],
    "vnc": ["libQt6Network.so.6"],
    "gtk theme": ["libgtk-3.so.0"],
    "gtk": ["libpango-1.0.so.0", "libglib-2.0.so.0"],
    "numpy": ["libblas-1.so"],
}


def test_unused_plugins_go_with_all_that_is_there_for_them_alone() -> None:
    kept = {each[0] for each in NEEDED["wanted"](FOUND, lambda path: ASKS.get(path, ()))}
    assert kept == {
        f"{QT}plugins/platforms/libqxcb.so",
        f"{QT}lib/libQt6Gui.so.6",
        "libQt6Gui.so.6",
        "libglib-2.0.so.0",
        "libpython3.11.so.1.0",
        "numpy/core.so",
        "numpy.libs/libblas-1.so",
    }


def test_no_link_leads_to_what_was_left_out() -> None:
    kept = [each for each in FOUND if each[1] == "gui"]
    links = [("libQt6Gui.so.6", "gui", "SYMLINK"), ("libQt6Network.so.6", "network", "SYMLINK")]
    data = [*links, ("lawnbook/_data/README.md", "README.md", "DATA")]
    assert NEEDED["without_loose_links"](data, kept) == (data[0], data[2])


def test_of_words_of_qt_only_our_languages_are_kept() -> None:
    words = [f"{QT}translations/{name}.qm" for name in ("qtbase_es", "qtbase_de", "qt_help_es")]
    data = [(each, each, "DATA") for each in (*words, "lawnbook/_data/README.md")]
    kept = [each[0] for each in NEEDED["without_foreign_words"](data, ["es"])]
    assert kept == [words[0], "lawnbook/_data/README.md"]


@pytest.mark.parametrize(("platform", "suffix"), [("win32", ".ico"), ("darwin", ".icns")])
def test_the_icons_of_other_systems_are_made_from_our_pictures(
    tmp_path: Path, platform: str, suffix: str
) -> None:
    made = ICON["made_icon"](resource("icons"), tmp_path / "work", platform)
    assert made is not None
    assert made.endswith(suffix)
    with Image.open(made) as icon:
        sides = {size[0] for size in icon.info["sizes"]}
        icon.load()
        assert icon.size[0] >= 256
    if suffix == ".ico":
        assert sides == set(ICON["ICO_SIDES_PX"])
    else:
        assert {16, 32, 128, 256} <= sides


def test_a_linux_program_has_no_icon_of_its_own(tmp_path: Path) -> None:
    assert ICON["made_icon"](resource("icons"), tmp_path, "linux") is None
