"""The languages: which one is read, the made-up one, and that Spanish is whole and in step."""

import ast
import importlib.util
import json
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.languages import PSEUDO, language_chosen, language_of, pseudo, words_of
from lawnbook.reading import Reading, reading_as, tr
from tests.small_book import in_child

ROOT = Path(__file__).resolve().parent.parent


def translate() -> ModuleType:
    """The program that keeps the languages in step, which lies among the resources."""
    spec = importlib.util.spec_from_file_location("translate", ROOT / "resources/translate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("environment", "language"),
    [
        ({}, "en"),
        ({"LANG": "es_ES.UTF-8"}, "es"),
        ({"LANG": "es_MX"}, "es"),
        ({"LANG": "es_ES.UTF-8", "LC_ALL": "C.UTF-8"}, "en"),
        ({"LANG": "C", "LANGUAGE": "fr:es:en"}, "es"),
        ({"LANG": "de_DE.UTF-8"}, "en"),
        ({"LC_MESSAGES": "es", "LANG": "en_US.UTF-8"}, "es"),
        ({"LANGUAGE": PSEUDO}, PSEUDO),
    ],
)
def test_the_environment_chooses_as_gettext_reads_it(
    environment: dict[str, str], language: str
) -> None:
    # GNU gettext manual, 2.3 "Setting the Locale through Environment Variables".
    assert language_of(environment) == language


@pytest.mark.parametrize(
    ("held", "language"),
    [
        ("[General]\nlanguage=es\n", "es"),
        ("[General]\nlanguage=en\n", "en"),
        ("[General]\nlanguage=system\n", "es"),
        ("[General]\ntheme=dark\n", "es"),
        ("no settings at all", "es"),
        ("[General]\nlanguage=@Invalid()\n", "es"),
    ],
)
def test_what_is_set_in_the_window_comes_before_the_environment(
    tmp_path: Path, held: str, language: str
) -> None:
    settings = tmp_path / "desk.ini"
    settings.write_text(held, encoding="utf-8")
    assert language_chosen(settings, {"LANG": "es_ES"}) == language


@given(st.text(alphabet="abc XYZ{}&\n.", max_size=40))
def test_the_made_up_language_keeps_places_and_length_grows(text: str) -> None:
    told = pseudo(text)
    assert len(told) >= len(text)
    for part in ("{", "}", "\n", "&"):
        assert told.count(part) == text.count(part)


def test_a_text_with_values_is_told_in_the_made_up_language() -> None:
    with reading_as(Reading(words=words_of(PSEUDO, ROOT))):
        assert tr("{count} zones", count=3) == "«3 zóñés··»"
        assert tr("12.5 %") == "12.5 %"


def test_spanish_is_whole_and_in_step_with_the_sources() -> None:
    tool = translate()
    found, held = tool.texts(), tool.held("es")
    assert sorted(set(found) - set(held)) == [], "run resources/translate.py, then translate"
    assert sorted(set(held) - set(found)) == []
    wrong = [text for text in found if tool.places_of(text) != tool.places_of(held[text])]
    assert wrong == []


def test_spanish_keeps_the_white_space_and_the_keys_of_its_texts() -> None:
    held = translate().held("es")
    edges = [
        text
        for text, told in held.items()
        if (text[:1].isspace(), text[-1:].isspace()) != (told[:1].isspace(), told[-1:].isspace())
        or text.count("\n") != told.count("\n")
    ]
    assert edges == []


def test_every_text_is_told_by_a_constant_and_its_values() -> None:
    """A text that is glued together before it is looked up is never found in a language."""
    glued = []
    for path in (ROOT / "lawnbook").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                first = node.args[0] if node.func.id == "tr" and node.args else None
                if isinstance(first, ast.JoinedStr | ast.BinOp):
                    glued.append(f"{path.name}:{node.lineno}")
    assert glued == []


CODES = """
import json, os, sys
from datetime import date
from lawnbook.start import choose_language
from pathlib import Path
choose_language(Path("/nowhere"), {"LANGUAGE": sys.argv[1]})
from lawnbook.cli import main
main(["plan", sys.argv[2], "--json"], date(2026, 6, 15))
"""


def _codes(held: object, path: str = "") -> dict[str, object]:
    """All that is no sentence in a plan's JSON: keys, numbers and words of one or two."""
    if isinstance(held, dict):
        found: dict[str, object] = {}
        for key, value in held.items():
            found |= _codes(value, f"{path}/{key}")
        return found
    if isinstance(held, list):
        found = {}
        for at, value in enumerate(held):
            found |= _codes(value, f"{path}/{at}")
        return found
    return {path: held}


CODED = ("rate_source", "limited_by", "zone", "spot", "grass", "on", "date")


@pytest.mark.parametrize("language", ["es", PSEUDO])
def test_numbers_and_codes_of_the_json_are_the_same_in_every_language(language: str) -> None:
    sample = str(ROOT / "sample_yards/larkspur_corner.json")
    plain, told = (
        _codes(json.loads(in_child(CODES, each, sample).stdout)) for each in ("en", language)
    )
    assert list(plain) == list(told)
    for path, value in plain.items():
        if not isinstance(value, str) or path.rpartition("/")[2] in CODED:
            assert told[path] == value, path


@pytest.mark.parametrize("language", [PSEUDO, "es"])
def test_every_page_is_told_whole_in_another_language(language: str) -> None:
    """Nothing is left in English, and nothing is cut off in a window of 1280 × 800."""
    walk = [sys.executable, "-m", "tests.language_walk", language]
    # The walk waits for figures and charts; how long that takes says nothing here.
    child = subprocess.run(walk, cwd=ROOT, capture_output=True, text=True, check=False, timeout=300)
    assert child.returncode == 0, child.stderr
    walked = json.loads(child.stdout)
    assert walked["untold"] == {}
    assert walked["cut"] == {}
