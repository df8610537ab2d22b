"""The rooms and the one direction between them, Qt's place, and the size of things."""

import ast
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.small_book import in_child

ROOT = Path(__file__).resolve().parent.parent
MODULES = sorted((ROOT / "lawnbook").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))
MOST_LINES, MOST_FUNCTION_LINES, MOST_ARGUMENTS = 400, 60, 6
Function = ast.FunctionDef | ast.AsyncFunctionDef

NO_WINDOW = [
    path
    for path in MODULES
    if path.relative_to(ROOT / "lawnbook").parts[0] not in {"desk", "__main__.py"}
]


def named(path: Path) -> str:
    """A file's path from the project's folder, as a test's name."""
    return path.relative_to(ROOT).as_posix()


def lint_imports(folder: Path) -> "subprocess.CompletedProcess[str]":
    """Hold a checkout against the import contracts of its own pyproject.toml."""
    code = "import importlinter.cli as cli; cli.lint_imports_command(['--no-cache'])"
    return subprocess.run(
        [sys.executable, "-c", f"import sys; sys.path.insert(0, '.'); {code}"],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A copy of the package to plant violations in."""
    ignored = shutil.ignore_patterns("__pycache__")
    shutil.copytree(ROOT / "lawnbook", tmp_path / "lawnbook", ignore=ignored)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_every_room_imports_only_rooms_above_it(checkout: Path) -> None:
    kept = lint_imports(checkout)
    assert kept.returncode == 0, kept.stdout + kept.stderr
    assert "0 broken" in kept.stdout


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("agronomy", "from lawnbook.yard.problems import OwnerError"),
        ("yard", "from lawnbook.plan import model"),
        ("plan", "from lawnbook.store import files"),
        ("store", "from lawnbook.session import planning"),
        ("session", "from lawnbook.charts import palette"),
        ("charts", "from PySide6 import QtGui"),
        ("sheet", "from lawnbook.desk import theme"),
        ("desk", "from lawnbook import cli"),
    ],
)
def test_a_planted_violation_is_caught(checkout: Path, room: str, line: str) -> None:
    planted = checkout / "lawnbook" / room / "planted.py"
    planted.write_text(f"{line}\n")
    broken = lint_imports(checkout)
    assert broken.returncode != 0
    assert "1 broken" in broken.stdout
    assert f"lawnbook.{room}.planted" in broken.stdout


def test_all_but_the_desk_does_without_qts_widgets() -> None:
    modules = [named(path).removesuffix(".py").replace("/", ".") for path in NO_WINDOW]
    assert len(modules) > 40
    child = in_child(
        """
        import importlib, sys
        for name in sys.argv[1:]:
            importlib.import_module(name.removesuffix(".__init__"))
            assert "PySide6.QtWidgets" not in sys.modules, name
        """,
        *modules,
    )
    assert child.returncode == 0, child.stderr


def test_the_plan_is_made_without_heavy_libraries() -> None:
    child = in_child(
        """
        import sys
        import lawnbook.cli
        heavy = {"pandas", "matplotlib", "scipy", "sqlite_utils", "PySide6", "shapely"}
        print(sorted(heavy.intersection(sys.modules)))
        """
    )
    assert child.stdout.strip() == "[]", child.stderr


@pytest.mark.parametrize("path", MODULES, ids=named)
def test_every_module_and_public_name_says_what_it_is(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree), "the module has no docstring"
    silent = [name for name, node in public_names(tree) if not ast.get_docstring(node)]
    assert silent == []


def public_names(
    tree: ast.Module | ast.ClassDef, before: str = ""
) -> Iterator[tuple[str, Function | ast.ClassDef]]:
    """Public classes and functions of a module, methods with their class's name before."""
    for node in tree.body:
        if not isinstance(node, Function | ast.ClassDef) or node.name.startswith("_"):
            continue
        if not (before and is_qt_hook(node)) and not speaks_elsewhere(node):
            yield before + node.name, node
        if isinstance(node, ast.ClassDef):
            yield from public_names(node, f"{node.name}.")


def is_qt_hook(node: Function | ast.ClassDef) -> bool:
    """Whether a method is one that Qt calls and documents, by its spelling."""
    return not node.name.islower() or node.name in {"event", "paint"}


def speaks_elsewhere(node: Function | ast.ClassDef) -> bool:
    """Whether a function's words stand at its getter or at the function it is an overload of."""
    marks = [ast.unparse(mark) for mark in node.decorator_list]
    return any(mark == "overload" or mark.endswith((".overload", ".setter")) for mark in marks)


@pytest.mark.parametrize("path", [*MODULES, *TESTS], ids=named)
def test_files_and_functions_stay_small(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") < MOST_LINES
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, Function):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            assert lines < MOST_FUNCTION_LINES, f"{node.name} has {lines} lines"
            assert arguments_of(node) <= MOST_ARGUMENTS, f"{node.name} has too many arguments"


def arguments_of(function: Function) -> int:
    """How many arguments a function takes, `self` and `cls` left out."""
    every = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
    return sum(each.arg not in {"self", "cls"} for each in every)


@pytest.mark.parametrize("path", [*MODULES, *TESTS], ids=named)
def test_no_rule_is_waived(path: Path) -> None:
    marks = ("# no" + "qa", "# type:" + " ignore", "TO" + "DO", "FIX" + "ME", "except: " + "pass")
    text = path.read_text(encoding="utf-8")
    assert [mark for mark in marks if mark in text] == []
