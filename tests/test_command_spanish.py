"""The command line in Spanish: helps and slips whole, the library's own sentences among them."""

import argparse
import ast
import json
import re
from pathlib import Path
from typing import NoReturn

import pytest

from lawnbook.cli import COMMANDS
from lawnbook.command_slips import SLIP_WORDS, VALUE_NAMES, slip_told
from lawnbook.languages import PSEUDO, words_of
from lawnbook.reading import Reading, reading_as
from lawnbook.store.backups import backups_folder
from tests.language_walk import is_untold, owners_words
from tests.small_book import in_child

ROOT = Path(__file__).resolve().parent.parent
SAMPLE = ROOT / "sample_yards" / "larkspur_corner.json"
SPANISH = Reading(language="es", words=words_of("es", ROOT / "resources" / "languages"))

FOR_PROGRAMMERS = (
    "conflicting", ".__call__()", "'required' is an invalid", "mutually exclusive arguments must",
    "%r is not callable", "cannot merge actions", "invalid option string", "dest= is required",
    "invalid conflict_resolution", "cannot have multiple", "unknown parser", 'argument "-" with',
    "unexpected option string", "%(prog)s: error",
)  # fmt: skip
"""How the library's sentences begin that only a mistake in our own code brings about."""

TOLD_ELSEWHERE = {
    "usage: ", "positional arguments", "options", "show this help message and exit",
    "show program's version number and exit", "%(heading)s:", "subcommands",
}  # fmt: skip


def library_says() -> list[str]:
    """Every sentence of the library of the command line that it looks up in gettext."""
    tree = ast.parse(Path(argparse.__file__).read_text("utf-8"))
    calls = [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in ("_", "ngettext")
    ]
    return [
        text.value
        for call in calls
        for text in call.args
        if isinstance(text, ast.Constant) and isinstance(text.value, str)
    ]


def test_every_slip_that_the_library_tells_has_words_of_ours() -> None:
    said = [text for text in library_says() if text not in TOLD_ELSEWHERE]
    ours = {text for text in said if not text.startswith(FOR_PROGRAMMERS)}
    assert ours - set(SLIP_WORDS) == set()
    assert len(ours) > 10


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["--paper", "a5"], "--paper: 'a5' no es una opción válida (elija entre 'letter', 'a4')"),
        (["--on"], "--on: falta un valor"),
        (["--json=3"], "--json: no admite ningún valor, y se le dio '3'"),
        (["--what"], "argumentos que no se reconocen: --what"),
        (["--pounds", "2", "--rate", "1"], "--rate: no se puede usar junto con --pounds"),
        (["--number", "x"], "--number: no se puede leer 'x'"),
        ([], "hace falta uno de estos argumentos: --pounds --rate"),
        (["--rate", "1", "--two", "2"], "--two: se esperan 2 valores"),
    ],
)
def test_the_librarys_slips_are_told_in_spanish(arguments: list[str], told: str) -> None:
    parser = _Parser(exit_on_error=False)
    parser.add_argument("--paper", choices=("letter", "a4"))
    parser.add_argument("--on")
    parser.add_argument("--number", type=int)
    parser.add_argument("--two", nargs=2)
    parser.add_argument("--json", action="store_true")
    one = parser.add_mutually_exclusive_group(required="--what" not in arguments)
    one.add_argument("--pounds")
    one.add_argument("--rate")
    assert _slip_of(parser, arguments) == told


class _SlippedError(Exception):
    """What a parser complains of."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise _SlippedError(message)


def _slip_of(parser: argparse.ArgumentParser, arguments: list[str]) -> str:
    with reading_as(SPANISH):
        try:
            parser.parse_args(arguments)
        except argparse.ArgumentError as slip:
            return slip_told(str(slip))
        except _SlippedError as slip:
            return slip_told(str(slip))
    return ""


SAID = """
import io, json, sys
from contextlib import redirect_stderr, redirect_stdout
from datetime import date
from pathlib import Path
from typing import NoReturn
from lawnbook.start import choose_language
choose_language(Path("/nowhere"), {"LANGUAGE": sys.argv[1]})
from lawnbook.cli import main
told = []
for arguments in json.loads(sys.argv[2]):
    out, slip = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(slip):
        try:
            main(arguments, date(2026, 6, 15))
        except SystemExit:
            pass
    told.append(out.getvalue() + slip.getvalue())
print(json.dumps(told))
"""


def _told(language: str, calls: list[list[str]]) -> list[str]:
    child = in_child(SAID, language, json.dumps(calls))
    assert child.returncode == 0, child.stderr
    held: list[str] = json.loads(child.stdout)
    return held


HELPS = [["--help"], *([command, "--help"] for command in COMMANDS)]


def test_the_helps_are_whole_in_spanish_and_name_no_value_in_english() -> None:
    plain = _told("en", HELPS)
    told = _told("es", HELPS)
    for call, english, spanish in zip(HELPS, plain, told, strict=True):
        assert spanish.startswith("uso: lawnbook"), call
        same = {line.strip() for line in english.splitlines()} & {
            line.strip() for line in spanish.splitlines()
        }
        assert {line for line in same if len(line.split()) > 2} == set(), call
        assert not set(VALUE_NAMES) & set(re.findall(r"[\w.]+", spanish)), call


CUT = re.compile(r"«?[^«»\s]*…|\b(?:max|min|exp)\(")
"""What a cell of a table has room for, and the names of functions in a formula."""


def test_what_the_commands_print_is_told(tmp_path: Path) -> None:
    """In the made-up language nothing stays English, in tables, workings and answers."""
    book, sheet = tmp_path / "a.lawnbook", tmp_path / "a.xlsx"
    sample = str(SAMPLE)
    calls = [
        ["plan", sample],
        ["plan", sample, "--working", "Front lawn"],
        ["spread-check", sample, "--zone", "1", "--rate", "1", "--product", "Feather meal 12-0-0"],
        ["import", sample, "-o", str(book)],
        ["tables", str(book), "-o", str(sheet)],
        ["take-tables", str(sheet), "-o", str(book), "--dry-run"],
        ["export", str(book), "-o", str(tmp_path / "b.json")],
        ["calendar", sample, "-o", str(tmp_path / "a.ics")],
        ["backups", str(book)],
        ["salvage", str(book), "-o", str(tmp_path / "c.lawnbook")],
        ["plan", "nothing.json"],
        ["sheet", sample, "-o", str(sheet)],
        ["plna"],
    ]
    files = (
        str(backups_folder()),
        str(tmp_path),
        str(tmp_path.resolve()),
        str(ROOT),
        str(Path.cwd()),
    )
    own = [*files, *owners_words(), *COMMANDS, "plna", "nothing.json", ".json", ".ics"]
    for call, told in zip(calls, _told(PSEUDO, calls), strict=True):
        whole = re.sub(r"(?<=\S)\n {2,}(?=\S)", " ", told)
        untold = [line for line in whole.splitlines() if is_untold(CUT.sub(" ", line), own)]
        assert told, call
        assert untold == [], call
