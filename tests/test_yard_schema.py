"""The yard file's schema: the one in resources is the one the rules make, and it means it."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator

from lawnbook.yard.check import check_notebook
from lawnbook.yard.codec import from_plain, to_plain
from lawnbook.yard.fields import fields_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import resource, sample_yards
from lawnbook.yard.problems import refused
from lawnbook.yard.records import SINGLES, TABLES
from lawnbook.yard.schema import (
    FORMAT,
    SCHEMA_NAME,
    VERSION,
    schema_text,
    yard_file_schema,
)
from tests.conftest import TODAY
from tests.strategies import notebooks

SCHEMA = yard_file_schema()
VALIDATOR = Draft202012Validator(SCHEMA, format_checker=Draft202012Validator.FORMAT_CHECKER)
ZONE = {"name": "Front", "outline_ft": [[0, 0], [4, 0], [4, 4]]}


def _file(**tables: Any) -> dict[str, Any]:
    return {"format": FORMAT, "version": VERSION, "yard": {"name": "Home"}, **tables}


def _plain(notebook: Notebook) -> dict[str, Any]:
    tables: dict[str, Any] = {}
    for table in TABLES:
        rows = [to_plain(record) for record in notebook.table(table).values()]
        tables[table] = rows[0] if table in SINGLES else rows
    return {"format": FORMAT, "version": VERSION, **tables}


def test_the_shipped_schema_is_the_one_the_rules_make() -> None:
    """Run ``python -m lawnbook.yard.schema`` after changing a field."""
    assert resource(SCHEMA_NAME).read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_a_sound_one() -> None:
    """Against the draft's own meta-schema (JSON Schema 2020-12, by jsonschema)."""
    Draft202012Validator.check_schema(SCHEMA)


def test_every_field_is_described_and_no_other_is_let_in() -> None:
    """In every table and every nested record."""
    records = [
        SCHEMA["properties"][name] if name in SINGLES else SCHEMA["properties"][name]["items"]
        for name in TABLES
    ]
    for name, kind, record in zip(TABLES, TABLES.values(), records, strict=True):
        assert list(record["properties"]) == ["id", *(info.name for info in fields_of(kind))]
        assert record["additionalProperties"] is False
        assert SCHEMA["properties"][name]["description"].endswith(".")
    for record in [*records, *SCHEMA["$defs"].values()]:
        assert record["additionalProperties"] is False
        for each in record["properties"].values():
            assert each["description"].endswith(".")
    assert set(SCHEMA["$defs"]) == {"season", "established", "habit", "ingredient", "photoruler"}


@settings(deadline=None, max_examples=40)
@given(notebooks())
def test_every_sound_notebook_keeps_the_schema(notebook: Notebook) -> None:
    """What the rules allow, the schema allows."""
    assert refused(check_notebook(notebook, TODAY)) == ()
    VALIDATOR.validate(json.loads(json.dumps(_plain(notebook))))


@pytest.mark.parametrize(
    "changed",
    [
        {"zone": []},
        {"version": 2},
        {"format": "other"},
        {"yard": {}},
        {"yard": {"name": "Home", "id": "other"}},
        {"yard": {"name": "Home", "latitude_deg": 91}},
        {"zones": ZONE},
        {"zones": [{**ZONE, "outline_ft": [[0, 0], [4, 0]]}]},
        {"zones": [{**ZONE, "outline_ft": [[0, 0, 1], [4, 0], [4, 4]]}]},
        {"zones": [{**ZONE, "colour": "green"}]},
        {"zones": [{**ZONE, "grass": "hot"}]},
        {"zones": [{**ZONE, "slope_pct": True}]},
        {"zones": [{**ZONE, "allowed_depletion": 0}]},
        {"zones": [{**ZONE, "habit": {"minutes": 5}}]},
        {"zones": [{**ZONE, "habit": {"minutes": 5, "days_per_week": 2, "hour": 6}}]},
        {"zones": [{"outline_ft": ZONE["outline_ft"]}]},
        {"cores": [{"spot": "a", "date": "15.6.2026"}]},
        {"cores": [{"spot": "a", "date": "2026-02-30"}]},
        {"cores": [{"spot": "a", "date": "2026-06-15", "thatch_in": [9]}]},
        {"cores": [{"spot": "a", "date": "2026-06-15", "worms": 2.5}]},
        {"feedings": [{"date": "2026-06-15", "product": "p", "pounds": {"z": 0}}]},
        {"n_budgets": [{"name": "N", "by_month": [0, 0]}]},
        {"n_rules": {"blackouts": [{"start": "13-01", "end": "01-01"}]}},
        {"water_rules": {"hours": ["8-10"]}},
        {"water_rules": {"days": ["Monday"]}},
        {"heads": [{"zone": "z", "at_ft": [1, 1], "profile": "bell"}]},
        {"photos": [{"core": "c", "sha256": "x", "data_b64": "AA=="}]},
        {"weather": [], "weather_csv": "weather.csv"},
        {"weather_csv": 5},
    ],
    ids=str,
)
def test_what_the_rules_refuse_the_schema_refuses(changed: dict[str, Any]) -> None:
    """One thing wrong each; the file is sound without it."""
    assert VALIDATOR.is_valid(_file(zones=[ZONE]))
    assert not VALIDATOR.is_valid(_file(**changed))


def test_an_empty_field_may_be_null_where_it_may_be_left_out() -> None:
    """Schema and reader agree on it."""
    zone = {**ZONE, "soil": None, "budget": None, "established": None}
    assert VALIDATOR.is_valid(_file(zones=[zone]))
    record, problems = from_plain(TABLES["zones"], zone, "zones[0]")
    assert record is not None
    assert problems == ()


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: path.name)
def test_the_sample_yards_keep_the_schema(path: Any) -> None:
    """They are the first yard files that anybody reads."""
    VALIDATOR.validate(json.loads(path.read_text(encoding="utf-8")))


def test_the_programs_own_files_are_found() -> None:
    """And a missing one is a broken installation, said plainly."""
    assert resource("fonts/Inter-Regular.ttf").is_file()
    with pytest.raises(FileNotFoundError, match="The installation lacks its file"):
        resource("no-such-file")
