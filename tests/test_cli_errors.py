"""Bad input: one line that names file, field and mend, status 2, and nothing written."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.yard.places import sample_yards
from tests.conftest import TODAY
from tests.small_book import in_child

SAMPLE = sample_yards()[0]
SQUARE = [[0, 0], [30, 0], [30, 20], [0, 20]]
HOME = {
    "format": "lawnbook-yard",
    "version": 1,
    "yard": {"name": "Home"},
    "zones": [{"name": "Front", "outline_ft": SQUARE}],
    "products": [{"name": "Ten", "n_pct": 10}],
}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a good yard file, bad ones, notebooks, and other people's files."""
    monkeypatch.chdir(tmp_path)
    Path("home.json").write_text(json.dumps(HOME))
    Path("bad.json").write_text(json.dumps(HOME | {"zones": [{"name": "Front"}]}))
    Path("bare.json").write_text(json.dumps(HOME | {"products": []}))
    for name in ("note.txt", "list.json", "letter.pdf"):
        Path(name).write_text("thatch")
    for name in ("empty.json", "empty.lawnbook"):
        Path(name).touch()
    Path("link.json").symlink_to("home.json")
    assert cli.main(["import", "home.json", "-o", "book.lawnbook"], TODAY) == 0
    book = Path("book.lawnbook").read_bytes()
    Path("book.pdf").write_bytes(book)
    Path("trunk.lawnbook").write_bytes(book[: len(book) // 2])
    return tmp_path


def state(folder: Path) -> dict[str, bytes]:
    """Every file of a folder with its content."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


CHECK = "spread-check home.json --zone Front --product Ten --pounds 5"
BAD = [
    ("plan", "required: NOTEBOOK"),
    ("plan nowhere.json", "nowhere.json: there is no such file"),
    (
        "plan bad.json",
        'bad.json: zones[0].outline_ft (Front): Outline is missing: add "outline_ft"',
    ),
    ("plan note.txt", "note.txt: this is not a Lawnbook notebook"),
    ("plan .", "this is a folder"),
    ("plan home.json --on yesterday", "--on: The day must be a date such as 2026-06-15"),
    ("plan home.json --on 20260615", "--on: The day must be a date such as 2026-06-15"),
    ("plan home.json --on 0001-01-01", "--on: 1 Jan 1 is too far away; enter a day between 1800"),
    ("plan home.json --on 9999-12-31 --json", "--on: 31 Dec 9999 is too far away"),
    ("plan trunk.lawnbook", "trunk.lawnbook: the file is damaged"),
    ("plan empty.json", "empty.json: the file is empty"),
    ("plan empty.lawnbook", "empty.lawnbook: this is not a Lawnbook notebook"),
    ("plan home.json --on 2026-02-30", "--on:"),
    ("plan home.json --frobnicate", "unrecognized arguments: --frobnicate"),
    ("plan home.json --js", "unrecognized arguments: --js"),
    ("plan home.json extra", "unrecognized arguments: extra"),
    ("sheet home.json", "required: -o/--output"),
    ("sheet home.json -o plan.png", "plan.png: The sheet's name ends in .pdf"),
    ("sheet home.json -o .pdf", ".pdf: The sheet's name ends in .pdf; name it yard.pdf."),
    ("sheet home.json -o no/plan.pdf", "plan.pdf: the folder"),
    ("sheet home.json -o plan.pdf --paper a3", "invalid choice: 'a3'"),
    ("sheet bad.json -o plan.pdf", "bad.json: zones[0].outline_ft (Front):"),
    ("sheet home.json -o plan.pdf --on 1-1-1", "--on:"),
    ("spread-check home.json --product Ten --pounds 5", "required: --zone"),
    (CHECK.replace("Front", "Side"), 'home.json: --zone: there is no "Side"; choose from Front.'),
    (CHECK.replace("Front", "2"), 'home.json: --zone: there is no "2"'),
    (CHECK.replace("Ten", "Six"), 'home.json: --product: there is no "Six"; choose from Ten.'),
    (CHECK.replace("home", "bare"), "bare.json: --product: there is no"),
    (CHECK.replace(" 5", " lots"), '--pounds: "lots" is not a number'),
    (CHECK.replace(" 5", " nan"), '--pounds: "nan" is not a number'),
    (CHECK.replace(" 5", " -3"), "--pounds: Pounds of -3 lb is too little; enter more than 0 lb."),
    (CHECK.replace(" 5", " 0"), "--pounds: Pounds of 0 lb is too little; enter more than 0 lb."),
    (CHECK.replace(" 5", " 1e300"), "--pounds: Pounds of 1e+300 lb is more than it can be"),
    ("import home.json -o home.db", "home.db: A notebook's name ends in .lawnbook"),
    ("import home.json -o home", "home: A notebook's name ends in .lawnbook; name it home.lawn"),
    ("import home.json -o book.lawnbook", "book.lawnbook: this file is already there"),
    ("import home.json -o no/a.lawnbook", "a.lawnbook: the folder"),
    ("import bad.json -o new.lawnbook", "bad.json: zones[0].outline_ft (Front):"),
    ("import book.lawnbook -o new.lawnbook", "book.lawnbook: this is a notebook already; copy"),
    ("import note.txt -o new.lawnbook", "note.txt: A yard file's name ends in .json"),
    ("import home.json -o .", ".: A notebook's name ends in .lawnbook; name it yard.lawnbook"),
    ("export book.lawnbook -o book.yaml", "book.yaml: A yard file's name ends in .json"),
    ("export book.lawnbook -o no/book.json", "book.json: the folder"),
    ("export home.json -o home.json", "home.json: this is the file that is read; name another"),
    ("export home.json -o link.json", "link.json: this is the file that is read; name another"),
    ("export book.lawnbook -o list.json", "list.json: this file is not a yard file; choose"),
    ("sheet home.json -o letter.pdf", "letter.pdf: this file is not a PDF; choose another name."),
    ("sheet book.pdf -o book.pdf", "book.pdf: this is the file that is read; name another"),
    ("export note.txt -o note.json", "note.txt: this is not a Lawnbook notebook"),
    ("--nonsense", "unrecognized arguments: --nonsense"),
    ("plann home.json", 'plann: there is no such command or file; did you mean "plan"?'),
    ("plna", 'plna: there is no such command or file; did you mean "plan"?'),
    ("Sheet home.json -o a.pdf", 'did you mean "sheet"?'),
    ("spread_check home.json --zone 1", 'did you mean "spread-check"?'),
    ("frob", "frob: there is no such command or file; see lawnbook --help for the commands."),
    ("./foo.lawnbook", "foo.lawnbook: there is no such file in "),
    ("foo.json", "foo.json: there is no such file in "),
    ("no/foo", "foo: there is no such file in "),
    ("home.json/foo.json", "foo.json: "),
    ("x" * 300, "x" * 300),
    ("grass home.json", "unrecognized arguments: home.json"),
]


@pytest.mark.parametrize(("line", "part"), BAD, ids=[line for line, _ in BAD])
def test_bad_input_is_one_line_and_writes_nothing(
    folder: Path, capsys: pytest.CaptureFixture[str], line: str, part: str
) -> None:
    before = state(folder)
    capsys.readouterr()
    assert cli.main(line.split(), TODAY) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert part in said.err
    assert state(folder) == before


def test_what_an_error_quotes_cannot_steer_the_terminal(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sly = json.dumps(HOME | {"yard": {"name": "Home", "\x1b[31m\n": 1}})
    Path("sly.json").write_text(sly)
    capsys.readouterr()
    assert cli.main(["plan", "sly.json"], TODAY) == 2
    said = capsys.readouterr().err
    assert said.startswith("sly.json: yard.\\x1b[31m")
    assert said.count("\n") == 1
    assert said.strip().isprintable()


@pytest.mark.parametrize("word", ["frob", "./foo.lawnbook", "foo.json"])
def test_a_file_that_is_missing_is_told_before_a_window_is_begun(folder: Path, word: str) -> None:
    child = in_child(
        """
        import sys
        from lawnbook import cli

        sys.argv = ["lawnbook", sys.argv[1]]
        status = cli.main()
        print([name for name in sys.modules if name.startswith(("PySide6", "lawnbook.desk"))])
        sys.exit(status)
        """,
        word,
    )
    assert (child.returncode, child.stdout.strip()) == (2, "[]")
    assert child.stderr.count("\n") == 1
    assert "there is no such" in child.stderr


def test_an_earlier_output_of_the_same_kind_is_replaced_and_a_link_stays(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("aim.json").symlink_to("yard.json")
    for name in ("yard.json", "plan.pdf"):
        Path(name).touch()
    for _ in range(2):
        assert cli.main(["export", "book.lawnbook", "-o", "aim.json"], TODAY) == 0
        assert cli.main(["sheet", "book.lawnbook", "-o", "plan.pdf"], TODAY) == 0
    assert Path("aim.json").is_symlink()
    assert json.loads(Path("yard.json").read_text())["yard"] == {"name": "Home"}
    assert Path("plan.pdf").read_bytes().startswith(b"%PDF-")


def lawnbook(*arguments: object, **environment: str) -> "subprocess.CompletedProcess[str]":
    """Run the command in a process of its own, on a machine without a screen."""
    screens = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    bare = {name: value for name, value in os.environ.items() if name not in screens}
    return subprocess.run(
        [sys.executable, "-m", "lawnbook", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env={**bare, "PYTHONPATH": str(Path(cli.__file__).parent.parent), **environment},
    )


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere there is always a screen")
def test_without_a_screen_the_plan_is_printed_and_the_sheet_written(folder: Path) -> None:
    done = lawnbook("home.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert "WATER" in done.stdout
    assert "There is no screen here" in done.stdout
    assert "home-plan.pdf" in done.stdout
    assert Path("home-plan.pdf").read_bytes().startswith(b"%PDF-")


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere there is always a screen")
def test_without_a_screen_and_a_notebook_the_mend_is_named(folder: Path) -> None:
    done = lawnbook()
    assert (done.returncode, done.stdout) == (2, "")
    assert "name a notebook" in done.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="needs a POSIX pipe")
def test_a_reader_that_goes_away_changes_nothing_else(folder: Path) -> None:
    command = f"{sys.executable} -m lawnbook plan {SAMPLE}"
    piped = f"set -o pipefail; {command} --on 2026-06-15 --json | head -c 1 >/dev/null"
    done = subprocess.run(
        ["bash", "-c", piped],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env={**os.environ, "PYTHONPATH": str(Path(cli.__file__).parent.parent)},
    )
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_output_that_cannot_be_written_is_told(folder: Path) -> None:
    command = f"{sys.executable} -m lawnbook plan home.json > /dev/full"
    done = subprocess.run(
        ["bash", "-c", command],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env={**os.environ, "PYTHONPATH": str(Path(cli.__file__).parent.parent)},
    )
    assert done.returncode == 2
    assert done.stderr.startswith("the output cannot be written")
    assert done.stderr.count("\n") == 1


def test_a_terminal_of_few_letters_gets_the_plan_all_the_same(folder: Path) -> None:
    done = lawnbook("plan", SAMPLE, "--on", "2026-06-15", PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, "")
    assert "WATER" in done.stdout


def test_help_and_version_end_well() -> None:
    told = lawnbook("--help")
    assert told.returncode == 0
    for command in cli.COMMANDS:
        assert f"lawnbook {command} " in told.stdout
        assert lawnbook(command, "--help").returncode == 0
    assert lawnbook("--version").stdout.startswith("Lawnbook ")


def test_a_mistake_of_ours_becomes_a_report_without_the_owners_words(folder: Path) -> None:
    child = in_child(
        """
        import os, sys
        os.environ["XDG_STATE_HOME"] = sys.argv[1]
        from lawnbook import cli, plan_commands

        def broken(notebook, on):
            raise KeyError(notebook.yard.name)

        plan_commands.make_plan = broken
        sys.argv = ["lawnbook", "plan", "home.json"]
        sys.exit(cli.main())
        """,
        folder / "state",
    )
    assert child.returncode == 1
    assert child.stdout == ""
    assert "Traceback" not in child.stderr
    assert child.stderr.count("\n") == 1
    (report,) = (folder / "state").rglob("lawnbook-report-*.txt")
    assert str(report) in child.stderr
    text = report.read_text()
    assert "builtins.KeyError" in text
    assert "lawnbook/cli.py" in text
    assert "Home" not in text
