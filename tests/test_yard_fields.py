"""Fields described once: what forms, files and checks read from the records' annotations."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from lawnbook.yard import places
from lawnbook.yard.fields import (
    choices_of,
    field_of,
    fields_of,
    is_number_by_zone,
    without_none,
)
from lawnbook.yard.records import SINGLES, TABLES, Core, Feeding, Record, Zone


def test_fields_come_in_order_without_id_and_rank() -> None:
    """The order of the form and of the yard file."""
    names = [info.name for info in fields_of(Core)]
    assert names[:3] == ["spot", "date", "thatch_in"]
    assert not {"id", "rank"} & set(names)
    assert fields_of(Core) is fields_of(Core)


def test_one_field_by_name() -> None:
    """And an unknown one is our own error."""
    info = field_of(Core, "date")
    assert (info.type, info.required, info.rule.dated) == (date, True, True)
    assert field_of(Zone, "slope_pct").default == 0.0
    with pytest.raises(KeyError, match="Core has no field depth"):
        field_of(Core, "depth")


def test_kinds_of_fields() -> None:
    """What a form builds its editors from."""
    assert choices_of(field_of(Zone, "grass").type) == ("cool", "warm")
    assert choices_of(field_of(Core, "soil_moisture").type) == ("dry", "moist", "wet")
    assert choices_of(field_of(Zone, "name").type) == ()
    assert without_none(field_of(Core, "root_depth_in").type) is float
    assert without_none(field_of(Zone, "name").type) is str
    assert is_number_by_zone(field_of(Feeding, "pounds").type)
    assert not is_number_by_zone(field_of(Zone, "outline_ft").type)


@pytest.mark.parametrize("kind", TABLES.values(), ids=TABLES.keys())
def test_rules_are_sound(kind: type[Record]) -> None:
    """Limits in order, questions inside refusals, slips with a factor, references to tables."""
    for info in fields_of(kind):
        rule = info.rule
        assert rule.label
        assert rule.low is None or rule.above is None
        least = rule.low if rule.low is not None else rule.above
        assert least is None or rule.high is None or least < rule.high
        if rule.ask_above is not None:
            assert rule.high is None or rule.ask_above < rule.high
        if rule.ask_below is not None:
            assert least is None or least < rule.ask_below
        assert bool(rule.slip) is (rule.slip_factor != 1.0)
        assert rule.refers_to == "" or rule.refers_to in TABLES
        assert not info.required or not isinstance(info.default, Mapping)


def test_tables_come_after_those_they_refer_to() -> None:
    """So that a file can be read in one pass; single records bear their table's name."""
    seen: list[str] = []
    for name, kind in TABLES.items():
        assert all(
            info.rule.refers_to in seen for info in fields_of(kind) if info.rule.refers_to
        ), name
        seen.append(name)
    assert set(TABLES) >= SINGLES


def test_files_are_found_in_a_wheel_and_in_a_checkout(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Inside the package where they are packed with it, else one level up."""
    package = tmp_path / "lawnbook"
    for root in (tmp_path, package / "_data"):
        (root / "resources").mkdir(parents=True)
        (root / "resources" / "a.txt").write_text(root.name, encoding="utf-8")
        (root / "sample_yards").mkdir()
        (root / "sample_yards" / "b.json").write_text("{}", encoding="utf-8")
    monkeypatch.setattr(places, "_PACKAGE", package)
    assert places.resource("a.txt") == package / "_data" / "resources" / "a.txt"
    monkeypatch.setattr(places, "_PACKAGE", tmp_path / "elsewhere")
    assert places.resource("a.txt") == tmp_path / "resources" / "a.txt"
    assert [path.name for path in places.sample_yards()] == ["b.json"]
