"""The commands without a window: what they print, what they write and with what status they end."""

import importlib
import json
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from lawnbook import cli
from lawnbook.plan.make import make_plan
from lawnbook.plan.render import plan_json
from lawnbook.store.sqlite_store import load
from lawnbook.store.yardfile import load_any, read_yard_text, write_yard_text
from lawnbook.yard.places import sample_yards

TODAY = date(2026, 11, 25)
SAMPLES = sample_yards()
LARKSPUR = next(path for path in SAMPLES if path.stem == "larkspur_corner")


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A sample yard as a notebook."""
    path = tmp_path / "home.lawnbook"
    assert cli.main(["import", str(LARKSPUR), "-o", str(path)], TODAY) == 0
    return path


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str, str]:
    """Run a command line; its status, and what it said on stdout and stderr."""
    capsys.readouterr()
    status = cli.main([str(each) for each in arguments], TODAY)
    said = capsys.readouterr()
    return status, said.out, said.err


PLAN_KEYS = {
    "zones": (
        "zone area_sqft precipitation_rate_in_per_h rate_source du_lq multiplier etc_in_per_day "
        "rooted_soil_in bearable_depth_in limited_by depth_in interval_days "
        "interval_days_by_month shortfall_in_per_day target_depth_in target_interval_days "
        "roots_needed_in run_minutes cycles minutes_per_cycle soak_minutes next_watering gallons"
    ),
    "nitrogen": (
        "zone year applied_by_month quick_by_month budget_by_month applied_year budget_year "
        "left_this_month left_this_year next_feeding"
    ),
    "thatch": (
        "spot plugs latest_in first_in change_in slope_in_per_year ci95 half_inch_between verdict"
    ),
}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_plan_as_json_has_its_promised_keys(
    capsys: pytest.CaptureFixture[str], path: Path
) -> None:
    status, out, err = run(capsys, "plan", path, "--on", "2026-06-15", "--json")
    assert (status, err) == (0, "")
    plan = json.loads(out)
    assert plan["on"] == "2026-06-15"
    assert {"due", "cautions", "sources"} <= plan.keys()
    for table, keys in PLAN_KEYS.items():
        assert plan[table], table
        for row in plan[table]:
            assert set(keys.split()) <= row.keys()
    assert all(len(row["interval_days_by_month"]) == 12 for row in plan["zones"])


def test_the_plan_is_the_plan(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    on = date(2026, 7, 4)
    _, out, _ = run(capsys, "plan", home, "--on", on, "--json")
    expected: Mapping[str, Any] = plan_json(make_plan(load(home), on))
    assert json.loads(out) == json.loads(json.dumps(expected))
    assert len(out.splitlines()) > len(expected) + len(expected["zones"])


def test_the_plan_is_for_today_unless_told(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    by_default = run(capsys, "plan", home)
    assert by_default == run(capsys, "plan", home, "--on", TODAY)
    assert by_default != run(capsys, "plan", home, "--on", "2026-06-15")
    assert all(len(line) <= 100 for line in by_default[1].splitlines())


def test_a_yard_file_and_its_notebook_have_the_same_plan(
    capsys: pytest.CaptureFixture[str], home: Path, tmp_path: Path
) -> None:
    yard = tmp_path / "home.json"
    assert run(capsys, "export", home, "-o", yard)[0] == 0
    assert run(capsys, "plan", yard, "--json") == run(capsys, "plan", home, "--json")


def test_import_and_export_lose_nothing(
    capsys: pytest.CaptureFixture[str], home: Path, tmp_path: Path
) -> None:
    first, second = tmp_path / "first.json", tmp_path / "second.json"
    again = tmp_path / "again.lawnbook"
    for arguments in (
        ("export", home, "-o", first),
        ("import", first, "-o", again),
        ("export", again, "-o", second),
    ):
        assert run(capsys, *arguments)[0] == 0
    assert first.read_bytes() == second.read_bytes()
    assert load(again) == load(home)
    assert len(load(home).weather) == len(load_any(LARKSPUR, TODAY).weather) > 0


@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595, 842))])
def test_the_sheet_is_one_page_of_its_paper(
    capsys: pytest.CaptureFixture[str],
    home: Path,
    tmp_path: Path,
    paper: str,
    size: tuple[int, int],
) -> None:
    """Letter: 8.5 × 11 in (ANSI/ASME Y14.1); A4: 210 × 297 mm (ISO 216); 72 points to the inch."""
    pdfium = importlib.import_module("pypdfium2")
    target = tmp_path / "plan.pdf"
    status, out, _ = run(
        capsys, "sheet", home, "-o", target, "--paper", paper, "--on", "2026-06-15"
    )
    assert status == 0
    assert str(target) in out
    document = pdfium.PdfDocument(target)
    assert len(document) == 1
    assert document[0].get_size() == pytest.approx(size, abs=1)
    text = document[0].get_textpage().get_text_range()
    assert "Front lawn" in text
    document.close()


def spread(*more: object) -> list[object]:
    """The arguments after the notebook of a check before spreading."""
    return ["--product", "Feather meal 12-0-0", "--on", "2026-09-05", "--json", *more]


def test_the_check_says_within_and_over_by_its_status(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    little = run(capsys, "spread-check", home, *spread("--zone", "Front lawn", "--pounds", 2))
    much = run(capsys, "spread-check", home, *spread("--zone", "Front lawn", "--pounds", "200"))
    assert (little[0], json.loads(little[1])["within"]) == (0, True)
    assert (much[0], json.loads(much[1])["within"]) == (1, False)
    check = json.loads(much[1])
    assert {"within", "zones", "earliest_date", "cautions"} <= check.keys()
    keys = "zone n_lb_per_1000 quick_lb_per_1000 month_after year_after max_lb binding"
    assert set(keys.split()) <= check["zones"][0].keys()
    most = check["zones"][0]["max_lb"]
    at_most = spread("--zone", "Front lawn", "--pounds", most)
    beyond = spread("--zone", "Front lawn", "--pounds", most * 1.01)
    assert run(capsys, "spread-check", home, *at_most)[0] == 0
    assert run(capsys, "spread-check", home, *beyond)[0] == 1


def test_zones_are_known_by_name_number_and_id_and_share_by_area(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    front, corner = list(load(home).zones)[:2]
    said = {
        run(capsys, "spread-check", home, *spread("--zone", a, "--zone", b, "--pounds", 5))
        for a, b in [("FRONT lawn", "corner lawn"), ("1", "2"), (front, corner), (front, "2")]
    }
    assert len(said) == 1
    rows = json.loads(next(iter(said))[1])["zones"]
    assert [row["zone"] for row in rows] == ["Front lawn", "Corner lawn"]
    rates = [row["n_lb_per_1000"] for row in rows]
    assert rates[0] == pytest.approx(rates[1]), "by area means the same rate on every zone"


def test_a_zone_named_twice_is_counted_once(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    once = spread("--zone", "1", "--pounds", 5)
    twice = spread("--zone", "1", "--zone", "Front lawn", "--pounds", 5)
    assert run(capsys, "spread-check", home, *once) == run(capsys, "spread-check", home, *twice)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_is_planned_whatever_the_clock_says(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, path: Path
) -> None:
    """Its records are invented, so that none of them is in anybody's future."""
    early, copy = date(2025, 5, 1), tmp_path / path.name
    assert cli.main(["plan", str(path), "--json"], early) == 0
    assert json.loads(capsys.readouterr().out)["on"] == "2025-05-01"
    kept = load_any(path, early)
    assert 0 < len(kept.cores) < len(load_any(path, TODAY).cores)
    assert all(core.date <= early for core in kept.cores.values())
    copy.write_text(write_yard_text(load_any(path, TODAY)))
    assert cli.main(["plan", str(copy)], early) == 2, "a yard of the owner's own is another matter"


def questionable(tmp_path: Path) -> Path:
    """A yard file with a plug that looks like millimetres typed as inches."""
    notebook = load_any(LARKSPUR, TODAY)
    plain = json.loads(write_yard_text(notebook))
    for core in plain["cores"][2:4]:
        core["thatch_in"] = [7.5]
    path = tmp_path / "doubt.json"
    path.write_text(json.dumps(plain))
    return path


def test_a_question_is_a_note_beside_a_plan(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    status, out, err = run(capsys, "plan", questionable(tmp_path))
    assert status == 0
    assert "WATER" in out
    assert err.startswith("note: doubt.json: cores[2].thatch_in[0]: Thatch")
    assert err.endswith("(and 1 more like it)\n")
    assert err.count("\n") == 1


def test_a_question_stops_an_import_until_it_is_kept_as_it_is(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    yard, target = questionable(tmp_path), tmp_path / "new.lawnbook"
    status, out, err = run(capsys, "import", yard, "-o", target)
    assert (status, out) == (2, "")
    assert err.startswith("doubt.json: cores[2].thatch_in[0]: Thatch")
    assert "or add --keep-as-is" in err
    assert not target.exists()
    assert run(capsys, "import", yard, "-o", target, "--keep-as-is")[0] == 0
    assert load(target) == read_yard_text(yard.read_text(), TODAY, None)
    assert run(capsys, "plan", target)[2] == "", "what was kept is not questioned for ever"
