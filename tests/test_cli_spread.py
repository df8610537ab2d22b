"""The check before spreading as a command: by pounds or by rate, with rain and a spreader."""

import json
from pathlib import Path
from typing import Any

import pytest

from lawnbook import cli
from lawnbook.plan.spread import pounds_for_rate
from lawnbook.store.yardfile import load_any
from tests.conftest import TODAY

POND = [[60, -5], [80, -5], [80, 25], [60, 25]]
HOME: dict[str, Any] = {
    "format": "lawnbook-yard",
    "version": 1,
    "yard": {"name": "Home", "latitude_deg": 41.0},
    "zones": [
        {"name": "Front", "outline_ft": [[0, 0], [50, 0], [50, 20], [0, 20]]},
        {"name": "Back", "outline_ft": [[0, 40], [50, 40], [50, 80], [0, 80]]},
    ],
    "features": [{"kind": "water", "name": "pond", "outline_ft": POND, "no_spread_ft": 20}],
    "products": [
        {"name": "Ten", "n_pct": 10, "slow_n_pct": 6, "bag_lb": 25, "price": 20},
        {"name": "Potash", "k2o_pct": 50},
    ],
    "climate": [{"month": month, "tmean_f": 68} for month in range(1, 13)],
}
RUN = {"date": "2026-04-01", "product": "Ten", "setting": "5", "strip_ft": 50, "width_ft": 4}


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A yard of two zones, a pond and two spreaders weighed at one setting each."""
    runs = [
        {**RUN, "spreader": "Drop", "used_lb": 0.8},
        {**RUN, "spreader": "Wheel", "used_lb": 0.5},
    ]
    path = tmp_path / "home.json"
    path.write_text(json.dumps(HOME | {"spreader_runs": runs}))
    return path


def checked(
    capsys: pytest.CaptureFixture[str], home: Path, told: str
) -> tuple[int, dict[str, Any], str]:
    """The check of "Ten" on both zones in September: status, JSON, and what stderr says."""
    zones = ["--zone", "Front", "--zone", "Back"]
    day = ["--product", "Ten", "--on", "2026-09-05", "--json"]
    capsys.readouterr()
    status = cli.main(["spread-check", str(home), *zones, *day, *told.split()], TODAY)
    said = capsys.readouterr()
    return status, json.loads(said.out), said.err


def test_a_rate_is_the_rate_of_every_zone(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    status, check, said = checked(capsys, home, "--rate 0.5")
    assert (status, said) == (0, "")
    assert [zone["n_lb_per_1000"] for zone in check["zones"]] == pytest.approx([0.5, 0.5])


def test_a_rate_and_its_pounds_are_the_same_check(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    book = load_any(home, TODAY)
    (ten, *_), zones = book.products, list(book.zones)
    pounds = sum(pounds_for_rate(book, ten, zones, 0.5).values())
    by_rate = checked(capsys, home, "--rate 1/2")[1]
    by_pounds = checked(capsys, home, f"--pounds {pounds}")[1]
    for one, other in zip(by_rate["zones"], by_pounds["zones"], strict=True):
        assert one["pounds"] == pytest.approx(other["pounds"])
        assert one["max_lb"] == other["max_lb"]


def test_too_much_of_a_rate_is_over(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    status, check, _ = checked(capsys, home, "--rate 2")
    assert (status, check["within"]) == (1, False)


def test_ounces_typed_for_pounds_are_asked_about_beside_the_check(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    """More than 2 lb N per 1,000 sq ft is a slip (common practice)."""
    status, check, said = checked(capsys, home, "--pounds 80")
    assert (status, check["within"]) == (1, False)
    lines = said.splitlines()
    assert len(lines) == 2, "one for each zone"
    assert lines[0].startswith("note: Front gets 2.86 lb of nitrogen per 1,000 sq ft; if ounces")
    assert lines[1].startswith("note: Back gets")
    assert checked(capsys, home, "--pounds 5")[2] == ""


def test_rain_ahead_is_in_the_notes(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    def notes(told: str) -> str:
        return " ".join(checked(capsys, home, told)[1]["notes"])

    assert "rain" not in notes("--pounds 5")
    assert "do not spread before it" in notes("--pounds 5 --rain 0.75")
    assert "0.25 in of gentle rain" in notes("--pounds 5 --rain 1/4")
    assert "0.50 in of gentle rain" in notes("--pounds 5 --rain 12.7mm")


def test_the_setting_of_the_spreader_named_is_proposed(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    def spreaders(told: str) -> set[str]:
        return {each["spreader"] for each in checked(capsys, home, told)[1]["settings"]}

    assert spreaders("--pounds 8") == {"Drop", "Wheel"}
    assert spreaders("--pounds 8 --spreader WHEEL") == {"Wheel"}


def test_the_text_says_what_to_load_to_buy_and_to_keep_off(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    zones = ["--zone", "Front", "--zone", "Back", "--product", "Ten"]
    status = cli.main(
        ["spread-check", str(home), *zones, "--rate", "0.5", "--on", "2026-09-05"], TODAY
    )
    text = capsys.readouterr().out
    assert status == 0
    for heading in ("RULES", "TO LOAD", "TO BUY", "SPREADER", "WATERING IN", "CAUTIONS"):
        assert f"\n{heading}\n" in text
    assert "strip sq ft" in text
    assert "1 bag of 25 lb for 20.00" in text
    assert "Leave 20 ft beside the pond unfed" in text
    assert all(len(line) <= 100 for line in text.splitlines())


CHECK = "--zone Front --product Ten"
BAD = [
    (CHECK, "one of the arguments --pounds --rate is required"),
    (f"{CHECK} --pounds 5 --rate 0.5", "argument --rate: not allowed with argument --pounds"),
    (f"{CHECK} --rate much", '--rate: "much" is not a number'),
    (f"{CHECK} --rate 0", "--rate: enter pounds of nitrogen per 1,000 sq ft above zero."),
    (f"{CHECK} --rate -1", "--rate: enter pounds of nitrogen per 1,000 sq ft above zero."),
    (f"{CHECK} --rate 1e300", "--rate: Pounds of "),
    ("--zone Front --product Potash --rate 1", "Potash carries no nitrogen, so it has no rate"),
    (f"{CHECK} --pounds 5 --rain wet", '--rain: "wet" is not a length'),
    (f"{CHECK} --pounds 5 --rain -1", "Rain: -1 in cannot be; enter the inches of the next days"),
    (f"{CHECK} --pounds 5 --rain 99", "Rain: 99 in cannot be; enter the inches of the next days"),
    (
        f"{CHECK} --pounds 5 --spreader Cart",
        'Spreader: there is no "Cart"; choose from Drop, Wheel.',
    ),
]


@pytest.mark.parametrize(("told", "said"), BAD)
def test_bad_input_is_one_line_and_status_2(
    capsys: pytest.CaptureFixture[str], home: Path, told: str, said: str
) -> None:
    before = home.read_bytes()
    status = cli.main(["spread-check", str(home), *told.split()], TODAY)
    out, err = capsys.readouterr()
    assert (status, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1
    assert home.read_bytes() == before


def test_a_spreader_is_calibrated_before_it_is_named(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "bare.json"
    path.write_text(json.dumps(HOME))
    told = f"{CHECK} --pounds 5 --spreader Drop".split()
    assert cli.main(["spread-check", str(path), *told], TODAY) == 2
    assert "calibrate one under Feed first" in capsys.readouterr().err
