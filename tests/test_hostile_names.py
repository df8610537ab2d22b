"""Names that the owner typed, as names of files: each stays in its folder, on every system.

What Windows refuses is from "Naming Files, Paths, and Namespaces" of its documentation: the letters
< > : " / \\ | ? *, those below 32, a blank or a dot at the end, and the names of devices with any
ending. POSIX refuses the slash and zero; most file systems take at most 255 bytes.
"""

from pathlib import Path, PurePosixPath, PureWindowsPath

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from lawnbook.desk.dialogs import file_stem
from lawnbook.store.handover_names import Names, is_safe_member, plain_stem, safe_stem

NASTY = (
    "../../etc/passwd", "..", ".", "", " ", "...", "/", "\\", "C:\\x", "C:", "\\\\server\\share",
    "a/b", "CON", "con.txt", "NUL", "nul .x", "COM1", "lpt9.tar.gz", "COM\u00b9", "aux",
    "CONIN$", "a\nb", "a\0b", "trailing.", "trailing ", "-rf", "~", "$HOME",
    "%TEMP%", "x" * 500, "庭" * 300, "é" * 200,
    "\u202egnp.exe", "\ufeff", "\ud800", "a:b", "a?b*c", "<>|\"", "name.lawnbook-journal",
)  # fmt: skip
DEVICES = {"con", "prn", "aux", "nul", "conin$", "conout$"} | {
    f"{port}{sign}" for port in ("com", "lpt") for sign in "0123456789\u00b9\u00b2\u00b3"
}
FORBIDDEN = set('<>:"/\\|?*') | {chr(n) for n in range(32)}


def must_be_a_name(name: str, folder: Path) -> None:
    """A name that both systems take, of a file that lies in the folder itself."""
    assert not FORBIDDEN & set(name)
    assert name.isprintable()
    assert len(name.encode()) <= 255
    assert name[-1] not in " ."
    assert name.partition(".")[0].strip().casefold() not in DEVICES
    assert (folder / name).parent == folder
    assert PurePosixPath(name).parts == PureWindowsPath(name).parts == (name,)
    assert is_safe_member(name)


@given(st.text() | st.sampled_from(NASTY) | st.text(alphabet=" ./\\:CONnul1\u202e"))
@example("COM\u00b2")
def test_any_words_make_a_name_that_stays_in_its_folder(words: str) -> None:
    folder = Path("/chosen")
    must_be_a_name(f"{safe_stem(words)}.pdf", folder)
    for stem in (plain_stem(words), file_stem(words)):
        must_be_a_name(f"{stem or 'yard'}.pdf", folder)


@pytest.mark.parametrize("words", NASTY)
def test_members_of_a_handover_stay_apart_and_in_their_folder(tmp_path: Path, words: str) -> None:
    names = Names()
    taken = [names.take("photos", words, ".jpg") for _ in range(3)]
    assert len({each.casefold() for each in taken}) == 3
    for each in taken:
        assert is_safe_member(each)
        folder, _, name = each.partition("/")
        assert folder == "photos"
        must_be_a_name(name, tmp_path)
        (tmp_path / name).write_bytes(b"x")
    assert len(list(tmp_path.iterdir())) == 3


@pytest.mark.parametrize("name", ["../x", "/x", "C:x", "a/../../x", "\\x", "a\\..\\x", "", "a\0"])
def test_members_of_a_strangers_zip_that_lead_outside_are_known(name: str) -> None:
    assert not is_safe_member(name)
