"""A notebook is a value: immutable tables of records, and Changes from one to the next."""

from collections.abc import Iterable, Mapping
from dataclasses import field, fields, replace
from datetime import date
from typing import Any, TypeVar

from lawnbook.frozen import dataclass
from lawnbook.reading import Units
from lawnbook.yard.records import (
    SINGLES,
    TABLES,
    Backdrop,
    Care,
    CatchTest,
    ClimateMonth,
    Core,
    Feature,
    Feeding,
    Head,
    NBudget,
    NRules,
    Photo,
    Product,
    Record,
    SoilTest,
    Spot,
    SprayerRun,
    SpreaderRun,
    Tick,
    Watering,
    WaterRules,
    WeatherDay,
    Yard,
    Zone,
)
from lawnbook.yard.table import Table, as_table, table_of, until

R = TypeVar("R", bound=Record)
Key = tuple[str, str]
Change = Mapping[Key, tuple[Record | None, Record | None]]
"""From (table, id) to (before, after); None stands for "not there"."""


def _none() -> Mapping[str, R]:
    return Table({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Notebook:
    """One yard's whole notebook. Tables map id to record, in the owner's order.

    An edit shares every table it does not touch, so tables are compared by identity. Every mapping
    it is made of is held as a `Table`.
    """

    yard: Yard
    n_rules: NRules = field(default_factory=lambda: NRules(id="n_rules"))
    water_rules: WaterRules = field(default_factory=lambda: WaterRules(id="water_rules"))
    n_budgets: Mapping[str, NBudget] = field(default_factory=_none)
    zones: Mapping[str, Zone] = field(default_factory=_none)
    features: Mapping[str, Feature] = field(default_factory=_none)
    heads: Mapping[str, Head] = field(default_factory=_none)
    catch_tests: Mapping[str, CatchTest] = field(default_factory=_none)
    spots: Mapping[str, Spot] = field(default_factory=_none)
    cores: Mapping[str, Core] = field(default_factory=_none)
    products: Mapping[str, Product] = field(default_factory=_none)
    feedings: Mapping[str, Feeding] = field(default_factory=_none)
    spreader_runs: Mapping[str, SpreaderRun] = field(default_factory=_none)
    sprayer_runs: Mapping[str, SprayerRun] = field(default_factory=_none)
    waterings: Mapping[str, Watering] = field(default_factory=_none)
    weather: Mapping[str, WeatherDay] = field(default_factory=_none)
    climate: Mapping[str, ClimateMonth] = field(default_factory=_none)
    soil_tests: Mapping[str, SoilTest] = field(default_factory=_none)
    care: Mapping[str, Care] = field(default_factory=_none)
    ticks: Mapping[str, Tick] = field(default_factory=_none)
    photos: Mapping[str, Photo] = field(default_factory=_none)
    backdrops: Mapping[str, Backdrop] = field(default_factory=_none)

    def __post_init__(self) -> None:
        """Hold plain mappings as tables too."""
        for name in _MANY:
            held = getattr(self, name)
            if not isinstance(held, Table):
                object.__setattr__(self, name, as_table(held))

    def table(self, name: str) -> Mapping[str, Record]:
        """A table by its name, single records too; KeyError for an unknown name."""
        if name not in TABLES:
            raise KeyError(name)
        held = getattr(self, name)
        return {held.id: held} if name in SINGLES else held

    def find(self, name: str, record_id: str) -> Record | None:
        """A record by table and id, or None."""
        return self.table(name).get(record_id)


def new_notebook(name: str, units: Units = "us") -> Notebook:
    """An empty notebook for a yard of this name, read in these units."""
    return Notebook(yard=Yard(id="yard", name=name, units=units))


def new_id() -> str:
    """A random id, never reused: 80 bits as 16 letters and digits of base 32."""
    import secrets

    alphabet = "abcdefghijklmnopqrstuvwxyz234567"
    return "".join(secrets.choice(alphabet) for _ in range(16))


def next_rank(notebook: Notebook, table: str) -> int:
    """The rank that puts a new record last in its table."""
    return as_table(notebook.table(table)).highest_rank + 1


def apply(notebook: Notebook, change: Change) -> Notebook:
    """The notebook after a change. Untouched tables stay the same objects.

    A removed single record goes back to its empty default. Raises KeyError for an unknown table.
    """
    touched: dict[str, dict[str, Record | None]] = {}
    singles: dict[str, Any] = {}
    for (table, record_id), (_, after) in change.items():
        if table in SINGLES:
            singles[table] = after if after is not None else _empty_single(table)
        else:
            # Gathered for each table: a change may hold decades of weather.
            touched.setdefault(table, {})[record_id] = after
    tables: dict[str, Any] = {
        name: as_table(notebook.table(name)).changed(delta) for name, delta in touched.items()
    }
    return replace(notebook, **tables, **singles)


def inverse(change: Change) -> Change:
    """The change that takes a change back."""
    return {key: (after, before) for key, (before, after) in change.items()}


def put(notebook: Notebook, table: str, *records: Record) -> Change:
    """The change that adds records or replaces those of the same id.

    A new record whose rank is 0 in a table that already has rows is put last.
    """
    held = notebook.table(table)
    rank = next_rank(notebook, table)
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for record in records:
        before = held.get(record.id)
        after = record
        if before is None and table not in SINGLES and record.rank < rank:
            after = replace(record, rank=rank)
        if before is None:
            rank = max(rank, after.rank) + 1
        change[(table, record.id)] = (before, after)
    return change


def difference(before: Notebook, after: Notebook) -> Change:
    """The change that leads from one notebook to another; equal records are left out."""
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for name in TABLES:
        if getattr(before, name) is getattr(after, name):
            continue
        old, new = before.table(name), after.table(name)
        for record_id in [*old, *(each for each in new if each not in old)]:
            pair = (old.get(record_id), new.get(record_id))
            if pair[0] is not pair[1] and pair[0] != pair[1]:
                change[(name, record_id)] = pair
    return change


def as_of(notebook: Notebook, on: date) -> Notebook:
    """The notebook with only what is dated up to a day; outlines and settings are undated."""
    tables: dict[str, Any] = {}
    for name in _DATED:
        rows = getattr(notebook, name)
        known = until(rows, on)
        if known is not rows:
            tables[name] = known
    cores = tables.get("cores")
    if cores is not None and notebook.photos:
        kept = {k: p for k, p in notebook.photos.items() if p.core in cores}
        tables["photos"] = Table(kept)
    care = tables.get("care")
    if care is not None:
        # What was found may have been mended, and noted as care, on a later day.
        ticks = tables.get("ticks", notebook.ticks)
        tables["ticks"] = Table(
            {
                k: replace(t, care=None) if t.care and t.care not in care else t
                for k, t in ticks.items()
            }
        )
    return replace(notebook, **tables) if tables else notebook


def with_tables(notebook: Notebook, rows_by_table: Mapping[str, Iterable[Record]]) -> Notebook:
    """The notebook with whole tables replaced, as a loader does; a single record from its own."""
    tables: dict[str, Any] = {}
    for name, rows in rows_by_table.items():
        if name in SINGLES:
            tables[name] = next(iter(rows), None) or _empty_single(name)
        else:
            tables[name] = table_of(rows)
    return replace(notebook, **tables)


def _empty_single(table: str) -> Record:
    return Yard(id="yard", name="") if table == "yard" else TABLES[table](id=table)


_MANY = tuple(name for name in TABLES if name not in SINGLES)
_DATED = tuple(name for name in _MANY if any(each.name == "date" for each in fields(TABLES[name])))
