"""Keeps the languages in step with the program: `python resources/translate.py [LANGUAGE…]`.

Every text that goes through `tr` is gathered from the sources and written to
`resources/languages/LANGUAGE.ts`, for Qt Linguist or an editor of text: new ones as unfinished,
those that are gone taken out. Run it after any change of a text; a test holds that it was run.
"""

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from string import Formatter
from typing import TypeAlias
from xml.sax.saxutils import escape

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "resources" / "languages"
Places: TypeAlias = dict[str, list[str]]

RULE_TEXTS = ("help", "slip", "too_much")
"""What a field's rule says beside its label and unit."""

TABLES = frozenset({"MetricUnit", "RecordTable", "_per", "Species", "MonthlyBudget"})
"""Makers of things whose first text, or texts, are looked up where they are shown."""

WORDED = re.compile(r"lawnbook/(yard/record_|plan/.*model|desk/sketch/|desk/pages/photo_marks)")
"""Where the words of a Literal are shown: what a record or plan may hold, the sketch's tools."""

CODE = re.compile(r"[a-z]+(_[a-z]+)+|#[0-9a-f]{6}|[a-z]+\?|.*\(\?:.*")
"""What is a code by its look: a name in the program, a colour, a pattern."""

SHOWN = re.compile(
    r"(TABS|SECTIONS|HEADS?|HEADINGS|CHOICES|MONTHS|WEEKDAYS|WORDS|CAPTION|CAPTION_TEXT|TOOLS|NAMES|TITLES|NOUNS|KINDS|IN_FULL|"
    r"BEYOND_LAWNS|BY_GROWTH|OVERVIEW|FIRST_STEPS|(?<![A-Z_])_?HELP|(?<![A-Z])_HELP_METRIC)$"
)
"""Names of the tables of words that are looked up where they are shown."""

KEYED = re.compile(r"LATER|CHECKLIST_NAMES|TOOLS")
"""Names of the tables whose keys are so: the sections of a page, by what they are called."""


def texts() -> Places:
    """Every text of the program with the places where it stands, in order of the sources."""
    found: Places = {}
    for path in sorted((ROOT / "lawnbook").rglob("*.py")):
        name = path.relative_to(ROOT).as_posix()
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for line, text in _of_tree(tree, name):
            found.setdefault(text, []).append(f"{name}:{line}")
    return found


def _of_tree(tree: ast.Module, name: str) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            for text in _of_call(node):
                yield node.lineno, text
        elif _is_literal(node) and WORDED.match(name):
            for part in ast.walk(node):
                if isinstance(part, ast.expr):
                    yield from ((part.lineno, text) for text in _constants(part))
        elif isinstance(node, ast.AnnAssign | ast.Assign) and node.value is not None:
            target = node.target if isinstance(node, ast.AnnAssign) else node.targets[0]
            if isinstance(target, ast.Tuple) and all(SHOWN.search(_name(e)) for e in target.elts):
                yield from ((node.lineno, text) for text in _constants(node.value))
            if isinstance(target, ast.Name) and KEYED.fullmatch(target.id):
                held = node.value.args[0] if isinstance(node.value, ast.Call) else node.value
                keys = held.keys if isinstance(held, ast.Dict) else []
                yield from ((node.lineno, t) for key in keys if key for t in _constants(key))
            elif isinstance(target, ast.Name) and SHOWN.search(target.id):
                yield from ((node.lineno, text) for text in _constants(node.value))
                if target.id.endswith("NOUNS"):
                    yield from ((node.lineno, text) for text in _plurals(node.value))


def _plurals(node: ast.expr) -> Iterator[str]:
    """What `counted` makes of the nouns of a table, but for those that stand with their plural."""
    values = node.values if isinstance(node, ast.Dict) else []
    for value in values:
        if isinstance(value, ast.Constant) and isinstance(value.value, str):
            yield f"{value.value}s"


def _of_call(node: ast.Call) -> Iterator[str]:
    called = node.func.attr if isinstance(node.func, ast.Attribute) else _name(node.func)
    if called in ("tr", "said", "pass_over") and node.args:
        yield from _constants(node.args[0])
    elif called in ("counted", "and_joined", "EntrySetting"):
        yield from _nouns_of(called, node)
    elif called == "Rule":
        for each in node.args[:3]:
            yield from _constants(each)
        for keyword in node.keywords:
            if keyword.arg in (*RULE_TEXTS, "label", "unit"):
                yield from _constants(keyword.value)
    elif called in TABLES and node.args:
        yield from _constants(node.args[0])
    elif called == "told" and len(node.args) > 2:
        yield from _constants(node.args[2])


def _nouns_of(called: str, node: ast.Call) -> Iterator[str]:
    """Nouns that are looked up with their number, and the word between several."""
    words = [text for each in node.args[1:] for text in _constants(each)]
    yield from words
    if called == "counted" and len(words) == 1:
        yield f"{words[0]}s"
    elif called == "and_joined":
        yield "and"
    for keyword in node.keywords:
        if keyword.arg == "noun" and isinstance(keyword.value, ast.Constant):
            noun = str(keyword.value.value)
            yield from (noun, f"{noun}es" if noun.endswith("x") else f"{noun}s")


def _constants(node: ast.expr) -> Iterator[str]:
    """The texts an expression may be: a constant, or one of several chosen between."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        if any(letter.isalpha() for letter in node.value) and not CODE.fullmatch(node.value):
            yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _constants(node.body)
        yield from _constants(node.orelse)
    elif isinstance(node, ast.Tuple | ast.List | ast.Set):
        for each in node.elts:
            yield from _constants(each)
    elif isinstance(node, ast.Dict):
        for value in node.values:
            yield from _constants(value)
    elif isinstance(node, ast.Call) and _name(node.func) == "MappingProxyType":
        yield from _constants(node.args[0])


def _is_literal(node: ast.AST) -> bool:
    return isinstance(node, ast.Subscript) and _name(node.value) == "Literal"


def _name(node: ast.expr) -> str:
    return node.id if isinstance(node, ast.Name) else ""


def places_of(text: str) -> list[str]:
    """The names of a text's places, with their formats, in any order: alike in every language."""
    return sorted(
        f"{name}!{conversion}:{spec}"
        for _, name, spec, conversion in Formatter().parse(text)
        if name is not None
    )


def held(language: str) -> dict[str, str]:
    """The finished translations of a language by their English texts."""
    from lawnbook.languages import words_of

    return dict(words_of(language, FOLDER))


def write(language: str, found: Places, words: Mapping[str, str]) -> int:
    """Write a language's file anew; how many texts are still unfinished."""
    contexts: dict[str, list[str]] = {}
    for text, at in found.items():
        contexts.setdefault(_room(at[0]), []).append(_message(text, at, words.get(text, "")))
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        "<!DOCTYPE TS>",
        f'<TS version="2.1" language="{language}" sourcelanguage="en">',
    ]
    for room in sorted(contexts):
        lines += ["<context>", f"    <name>{room}</name>", *contexts[room], "</context>"]
    FOLDER.mkdir(exist_ok=True)
    (FOLDER / f"{language}.ts").write_text("\n".join([*lines, "</TS>", ""]), encoding="utf-8")
    return sum(1 for text in found if not words.get(text))


def _room(place: str) -> str:
    parts = place.split("/")
    return parts[1] if len(parts) > 2 else "commands"


def _message(text: str, at: list[str], translation: str) -> str:
    where = at[0].rpartition(":")[0]
    told = f"<translation>{escape(translation)}</translation>"
    if not translation:
        told = '<translation type="unfinished"></translation>'
    return (
        f'    <message>\n        <location filename="{where}"/>\n'
        f"        <source>{escape(text)}</source>\n        {told}\n    </message>"
    )


def main() -> int:
    """Bring the languages up to the sources; 1 where a text is unfinished."""
    sys.path.insert(0, str(ROOT))
    languages = sys.argv[1:] or sorted(path.stem for path in FOLDER.glob("*.ts"))
    found = texts()
    unfinished = 0
    for language in languages:
        left = write(language, found, held(language))
        unfinished += left
        sys.stdout.write(f"{language}: {len(found)} texts, {left} unfinished\n")
    return 1 if unfinished else 0


if __name__ == "__main__":
    sys.exit(main())
