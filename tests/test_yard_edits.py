"""Taking records out with what hangs on them, new names, and the notebook as a value."""

from dataclasses import replace
from datetime import date
from types import MappingProxyType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.yard.check import check_notebook
from lawnbook.yard.edits import default_spot_zone, next_name, remove
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import (
    Notebook,
    apply,
    as_of,
    difference,
    inverse,
    new_id,
    new_notebook,
    put,
    with_tables,
)
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError, refused
from lawnbook.yard.records import (
    SINGLES,
    TABLES,
    Care,
    CatchTest,
    Core,
    Feeding,
    Head,
    NBudget,
    NRules,
    Photo,
    Product,
    SoilTest,
    Spot,
    SpreaderRun,
    Watering,
    Zone,
)
from lawnbook.yard.references import Reference, references_of, with_references
from tests.conftest import TODAY
from tests.strategies import notebooks

DAY = date(2026, 5, 1)


def _full() -> Notebook:
    """Two zones with everything that can hang on one."""
    both = MappingProxyType({"a": 2.0, "b": 3.0})
    return with_tables(
        new_notebook("Home"),
        {
            "n_budgets": [NBudget(id="n", name="Mine", by_month=(0.25,) * 12)],
            "zones": [
                Zone(id="a", name="Front", outline_ft=rectangle_ft((0, 0), 50, 20), budget="n"),
                Zone(id="b", rank=1, name="Back", outline_ft=rectangle_ft((60, 0), 50, 20)),
            ],
            "heads": [Head(id="h", zone="a", at_ft=(1, 1))],
            "catch_tests": [
                CatchTest(id="t", zone="a", date=DAY, run_minutes=9, depths_in=(0.1, 0.2))
            ],
            "spots": [Spot(id="s", name="Oak", zone="a"), Spot(id="u", rank=1, name="Elm")],
            "cores": [Core(id="c", spot="s", date=DAY), Core(id="d", rank=1, spot="u", date=DAY)],
            "products": [Product(id="p", name="Slow", n_pct=20, slow_n_pct=10)],
            "feedings": [
                Feeding(id="f", date=DAY, product="p", pounds=both, treated_area_sqft=both),
                Feeding(id="g", rank=1, date=DAY, product="p", pounds=MappingProxyType({"a": 1.0})),
            ],
            "waterings": [Watering(id="w", date=DAY, zone="a", minutes=9)],
            "soil_tests": [SoilTest(id="o", date=DAY, zone="a", ph=7)],
            "care": [Care(id="k", date=DAY, kind="mow", zones=("a", "b"))],
            "photos": [Photo(id="x", core="c", sha256="", data_b64=Picture.of(b""))],
        },
    )


FULL = _full()


def test_a_zone_takes_along_what_stands_on_it() -> None:
    """Heads, tests and waterings go; spots with their plugs stay; feedings keep other zones."""
    after = apply(FULL, remove(FULL, "zones", "a"))
    assert list(after.zones) == ["b"]
    for table in ("heads", "catch_tests", "waterings", "soil_tests"):
        assert not after.table(table), table
    assert after.spots["s"].zone is None
    assert list(after.cores) == ["c", "d"]
    assert list(after.feedings) == ["f"]
    assert after.feedings["f"].pounds == after.feedings["f"].treated_area_sqft == {"b": 3.0}
    assert after.care["k"].zones == ("b",)
    assert after.products is FULL.products


def test_a_spot_takes_its_plugs_and_a_plug_its_photographs() -> None:
    """And no other's."""
    without_spot = apply(FULL, remove(FULL, "spots", "s"))
    assert (list(without_spot.spots), list(without_spot.cores)) == (["u"], ["d"])
    assert not without_spot.photos
    without_core = apply(FULL, remove(FULL, "cores", "c"))
    assert (list(without_core.spots), list(without_core.cores)) == (["s", "u"], ["d"])
    assert not without_core.photos
    assert apply(FULL, remove(FULL, "cores", "d")).photos is FULL.photos


def test_zones_lose_a_removed_budget() -> None:
    """They go back to the published table."""
    after = apply(FULL, remove(FULL, "n_budgets", "n"))
    assert after.zones["a"].budget is None
    assert after.zones["b"] is FULL.zones["b"]


def test_a_product_that_was_spread_stays_on_the_shelf() -> None:
    """Its feedings would no longer add up."""
    with pytest.raises(OwnerError, match=r"^Slow was spread in 2 feedings, .*remove those first"):
        remove(FULL, "products", "p")
    unused = replace(FULL, feedings=MappingProxyType({}))
    assert not apply(unused, remove(unused, "products", "p")).products
    one = apply(FULL, remove(FULL, "feedings", "g"))
    with pytest.raises(OwnerError, match="was spread in a feeding, "):
        remove(one, "products", "p")


def test_a_product_takes_its_spreader_runs_along() -> None:
    """A setting holds for one product only; the runs of others stay, and undo brings all back."""
    other = Product(id="q", rank=1, name="Quick", n_pct=21)
    book = apply(replace(FULL, feedings=MappingProxyType({})), put(FULL, "products", other))
    runs = [
        SpreaderRun(
            id=run_id,
            rank=rank,
            date=DAY,
            product=product,
            spreader="Drop",
            setting="4",
            strip_ft=40,
            width_ft=2,
            used_lb=0.3,
        )
        for rank, (run_id, product) in enumerate([("r", "p"), ("s", "q")])
    ]
    book = apply(book, put(book, "spreader_runs", *runs))
    change = remove(book, "products", "p")
    after = apply(book, change)
    assert (list(after.products), list(after.spreader_runs)) == (["q"], ["s"])
    back = apply(after, inverse(change))
    assert (back.products, back.spreader_runs) == (book.products, book.spreader_runs)


def test_single_records_go_back_to_their_defaults() -> None:
    """There is always exactly one."""
    ruled = apply(FULL, put(FULL, "n_rules", NRules(id="n_rules", min_days=30)))
    assert apply(ruled, remove(ruled, "n_rules", "n_rules")).n_rules == NRules(id="n_rules")


def test_removing_nothing_is_our_own_error() -> None:
    """A window that asks for it has a bug."""
    with pytest.raises(KeyError):
        remove(FULL, "zones", "nowhere")
    with pytest.raises(KeyError):
        remove(FULL, "gnomes", "a")


@settings(deadline=None, max_examples=50)
@given(notebooks(), st.data())
def test_no_removal_leaves_a_reference_that_leads_nowhere(
    notebook: Notebook, data: st.DataObject
) -> None:
    """The notebook stays sound, and undoing gives back an equal one in the same order."""
    table = data.draw(
        st.sampled_from([name for name in TABLES if name not in SINGLES and notebook.table(name)])
        if any(notebook.table(name) for name in TABLES if name not in SINGLES)
        else st.just("n_rules")
    )
    record_id = data.draw(st.sampled_from(list(notebook.table(table))))
    try:
        change = remove(notebook, table, record_id)
    except OwnerError:
        assert table == "products"
        assert any(each.product == record_id for each in notebook.feedings.values())
        return
    after = apply(notebook, change)
    assert table in SINGLES or notebook.find(table, record_id) is not None
    assert table in SINGLES or after.find(table, record_id) is None
    assert refused(check_notebook(after, TODAY)) == ()
    back = apply(after, inverse(change))
    assert back == notebook
    assert all(list(back.table(name)) == list(notebook.table(name)) for name in TABLES)


@settings(deadline=None, max_examples=30)
@given(notebooks(), notebooks())
def test_the_difference_leads_from_one_notebook_to_the_other(
    before: Notebook, after: Notebook
) -> None:
    """And back again."""
    change = difference(before, after)
    assert apply(before, change) == after
    assert apply(after, inverse(change)) == before
    assert difference(after, after) == {}


@settings(deadline=None, max_examples=30)
@given(notebooks(), st.dates(date(1995, 1, 1), TODAY))
def test_the_past_holds_only_what_was_dated_by_then(notebook: Notebook, on: date) -> None:
    """Outlines and settings are undated; nothing leads to what had not happened."""
    past = as_of(notebook, on)
    assert past.zones is notebook.zones
    assert all(core.date <= on for core in past.cores.values())
    assert all(day.date <= on for day in past.weather.values())
    assert len(past.cores) == sum(core.date <= on for core in notebook.cores.values())
    assert refused(check_notebook(past, TODAY)) == ()
    assert as_of(past, on) == past


@settings(deadline=None, max_examples=40)
@given(notebooks())
def test_references_can_be_found_and_renamed(notebook: Notebook) -> None:
    """Renaming forth and back gives the same record; renaming to itself the very same object."""
    for table in TABLES:
        for record in notebook.table(table).values():
            for each in references_of(record):
                assert each.target in notebook.table(each.table)
                assert each.place.split("[")[0].split(".")[0] == each.field
            renamed = with_references(record, lambda reference: reference.target + "-")
            targets = [each.target + "-" for each in references_of(record)]
            assert [each.target for each in references_of(renamed)] == targets
            assert with_references(renamed, lambda reference: reference.target[:-1]) == record
            assert with_references(record, lambda reference: reference.target) is record


def test_references_carry_their_place() -> None:
    """As the yard file has it."""
    assert references_of(FULL.care["k"]) == (
        Reference("zones", "zones[0]", "zones", "a"),
        Reference("zones", "zones[1]", "zones", "b"),
    )
    places = [each.place for each in references_of(FULL.feedings["g"])]
    assert places == ["product", "pounds.a"]


def test_new_names_are_the_first_free_ones() -> None:
    """Counting from how many there are, and never one in use."""
    assert next_name(new_notebook("Home"), "zones", "Zone") == "Zone 1"
    assert next_name(FULL, "zones", "Zone") == "Zone 3"
    third = Zone(id="q", name="zone 3", outline_ft=rectangle_ft((0, 50), 9, 9))
    more = apply(FULL, put(FULL, "zones", replace(third, name="zone 4")))
    assert next_name(more, "zones", "Zone") == "Zone 5"
    assert next_name(FULL, "heads", "Head") == "Head 2"


def test_a_new_spot_belongs_to_the_zone_it_lies_in() -> None:
    """Or to the only one where its place is not known."""
    assert default_spot_zone(FULL, (10, 10)) == "a"
    assert default_spot_zone(FULL, (70, 10)) == "b"
    assert default_spot_zone(FULL, (55, 10)) is None
    assert default_spot_zone(FULL, None) is None
    alone = apply(FULL, remove(FULL, "zones", "a"))
    assert default_spot_zone(alone, None) == "b"


def test_new_records_come_last_and_ids_never_repeat() -> None:
    """The owner's order is kept when one is replaced."""
    ids = {new_id() for _ in range(1000)}
    assert len(ids) == 1000
    zone = Zone(id="q", name="Side", outline_ft=rectangle_ft((0, 50), 9, 9))
    after = apply(FULL, put(FULL, "zones", zone))
    assert list(after.zones) == ["a", "b", "q"]
    renamed = apply(after, put(after, "zones", replace(after.zones["a"], name="Lawn")))
    assert list(renamed.zones) == ["a", "b", "q"]
    assert renamed.heads is FULL.heads
