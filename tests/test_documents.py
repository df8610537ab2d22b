"""README and DEVELOPERS say what is there: the file map, the commands, the pictures."""

import ast
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from lawnbook.cli import main

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
MAPPED = ("lawnbook/**/*.py", "resources/*.*", "resources/*/*.*", "sample_yards/*", "tests/**/*.py")
ERRANDS = re.findall(r"^python3 resources/start.py (\w+)$", README, re.MULTILINE)
VERBS = sorted(set(re.findall(r"^lawnbook ([a-z-]+) ", README, re.MULTILINE)))
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "lawnbook",
    "resources",
    "tests",
    "sample_yards",
}


def tracked() -> set[str]:
    """Every file of the project's own, as paths from its root."""
    files = {each for pattern in MAPPED for each in ROOT.glob(pattern)}
    return {
        each.relative_to(ROOT).as_posix()
        for each in files
        if each.is_file() and "__pycache__" not in each.parts and each.suffix != ".lawnbook"
    }


def in_the_map() -> dict[str, str]:
    """The lines of the file map: path to what it says of it."""
    return dict(re.findall(r"^- `([^`]+)`: (.+)$", DEVELOPERS, re.MULTILINE))


def first_line(path: Path) -> str:
    """What a module says of itself in its first line, without the full stop."""
    words = ast.get_docstring(ast.parse(path.read_text("utf-8"))) or ""
    return " ".join(words.split("\n\n")[0].split()).rstrip(".")


def test_the_file_map_is_the_tree() -> None:
    listed, there = set(in_the_map()), tracked()
    missing = [
        f"- `{each}`: {first_line(ROOT / each)}"
        for each in sorted(there - listed)
        if each.endswith(".py")
    ]
    assert listed == there, "missing lines:\n" + "\n".join(missing)


def test_the_file_map_says_what_the_modules_say() -> None:
    wrong = [
        path
        for path, words in in_the_map().items()
        if path.endswith(".py") and words != first_line(ROOT / path)
    ]
    assert wrong == []


def test_the_top_level_holds_what_it_should() -> None:
    if shutil.which("git") is None:
        pytest.skip("git is not on this machine")
    listing = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if listing.returncode != 0:
        pytest.skip("not a git checkout")
    tops = {line.split("/")[0] for line in listing.stdout.splitlines()}
    assert {top for top in tops if not top.startswith(".")} <= TOP_LEVEL


def test_the_readme_links_and_pictures_are_there() -> None:
    links = re.findall(r"\]\(([^)#:]+)\)", README + DEVELOPERS)
    assert "resources/pictures/window.png" in links
    assert "resources/pictures/sheet.png" in links
    assert [link for link in links if not (ROOT / link).is_file()] == []


@pytest.mark.parametrize("errand", ERRANDS)
def test_the_two_commands_are_errands_of_the_script(errand: str) -> None:
    script = (ROOT / "resources" / "start.py").read_text("utf-8")
    assert f'"{errand}"' in script


def test_the_readme_has_exactly_the_two_commands() -> None:
    assert ERRANDS == [
        "yard",
        "tests",
    ]


def test_the_script_says_what_it_does_without_an_errand() -> None:
    script = ROOT / "resources" / "start.py"
    said = subprocess.run(
        [sys.executable, str(script)], capture_output=True, text=True, check=False
    )
    assert said.returncode == 2
    assert "a sample yard in the window" in said.stdout


@pytest.mark.parametrize("verb", VERBS)
def test_every_command_of_the_readme_has_its_help(
    verb: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main([verb, "--help"])
    assert left.value.code == 0
    help_text = capsys.readouterr().out
    (usage,) = re.findall(rf"^lawnbook {verb} (.+)$", README, re.MULTILINE)
    for option in re.findall(r"--?[a-z]+", usage):
        assert option in help_text
