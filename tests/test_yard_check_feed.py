"""What feeds the lawn, checked: products, mixes, feedings, calibration runs, soil tests."""

from dataclasses import replace
from datetime import date
from types import MappingProxyType

import pytest

from lawnbook.yard.check import check, check_notebook
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import asked, refused
from lawnbook.yard.records import (
    Care,
    Established,
    Feeding,
    Ingredient,
    NBudget,
    NRules,
    Product,
    Record,
    Season,
    SoilTest,
    SprayerRun,
    SpreaderRun,
    Zone,
)
from tests.conftest import TODAY

FRONT = Zone(id="z", name="Front", outline_ft=((0, 0), (50, 0), (50, 20), (0, 20)))
SLOW = Product(id="p", name="Slow feed", n_pct=20, slow_n_pct=12)
JUG = Product(id="j", name="Jug", form="liquid", n_pct=16, jug_gal=2.5, density_lb_per_gal=10.2)
MIX = (Ingredient(name="Meal", pounds=10, n_pct=10), Ingredient(name="Sand", pounds=10))
FEEDING = Feeding(id="f", date=TODAY, product="p", pounds=MappingProxyType({"z": 2.0}))
RUN = SpreaderRun(
    id="r",
    date=TODAY,
    product="p",
    spreader="Broadcast",
    setting="5",
    strip_ft=50,
    width_ft=5,
    used_lb=1,
)
SPRAY = SprayerRun(
    id="r", date=TODAY, sprayer="Backpack", area_sqft=500, used_gal=1, tank_gal=4, seconds=90
)
BARRED = Care(id="k", date=TODAY, kind="pre-emergent", no_seed_until=date(2026, 9, 15))
SOIL = SoilTest(id="o", date=TODAY, zone="z", p_ppm=0.0, depth_in=4, thatch="off")

NINE = (0.0,) * 9
TABLE = NBudget(id="t", name="Ours", by_month=(0.0,) * 12)


def with_records(notebook: Notebook, **records: Record) -> Notebook:
    """A notebook with a record more in each table named."""
    for table, record in records.items():
        notebook = apply(notebook, put(notebook, table, record))
    return notebook


NOTEBOOK = with_records(new_notebook("Home"), zones=FRONT, products=SLOW)


def part(n_pct: float, slow_n_pct: float = 0.0) -> tuple[Ingredient, ...]:
    """A mix of one part."""
    return (Ingredient(name="X", pounds=1, n_pct=n_pct, slow_n_pct=slow_n_pct),)


REFUSED: list[tuple[Record, str, str]] = [
    (replace(SLOW, ingredients=part(2, 3)), "ingredients",
     "X: slow nitrogen of 3 % is more than all its nitrogen, 2 %; enter percent of"),
    (replace(SLOW, bag_lb=0.0), "bag_lb", "Bag of 0 lb is too little; enter 0.1 lb or more."),
    (replace(JUG, density_lb_per_gal=0.0), "density_lb_per_gal", "enter 1 lb/gal or more."),
    (replace(JUG, density_lb_per_gal=0.9), "density_lb_per_gal",
     "Density of 0.9 lb/gal is too little; if it was 0.9 kg/L, enter 7.51."),
    (replace(TABLE, by_month=(0.0, 0.0, 7.0, *NINE)), "by_month",
     "Budget by month, Mar, of 7 lb per 1,000 sq ft is more than it can be; enter 0 to 6 lb"),
    (replace(RUN, spreader=" "), "spreader", "a setting holds for one spreader only."),
    (replace(RUN, setting=""), "setting", "enter what its dial or gate was set to."),
    (replace(RUN, product="x"), "product", 'there is no "x" in products; choose Slow feed.'),
    (replace(RUN, strip_ft=0.0), "strip_ft", "Length of the strip of 0 ft is too little"),
    (replace(RUN, used_lb=float("inf")), "used_lb", "Used must be a finite number"),
    (replace(SPRAY, sprayer=""), "sprayer", "Sprayer is empty; enter your name for it."),
    (replace(SPRAY, used_gal=-1.0), "used_gal", "Water used of -1 gal is too little"),
    (replace(BARRED, no_seed_until=date(2026, 6, 14)), "no_seed_until",
     "No seed before: 14 Jun 2026 is before the day itself, 15 Jun 2026; enter a later day"),
    (replace(SOIL, depth_in=30), "depth_in", "Sampled to of 30 in is more than it can be"),
]  # fmt: skip


@pytest.mark.parametrize(("record", "field", "words"), REFUSED, ids=lambda v: str(v)[:40])
def test_what_cannot_be_is_refused(record: Record, field: str, words: str) -> None:
    """With the field it belongs to, and a sentence that says how to mend it."""
    told = [p.sentence for p in refused(check(record, NOTEBOOK, TODAY)) if p.field == field]
    assert any(words in sentence for sentence in told), told


ASKED: list[tuple[Record, str, str]] = [
    (replace(SLOW, ingredients=MIX), "n_pct",
     "this mix holds 5 % nitrogen, and 20 % is entered; the recipe counts."),
    (replace(JUG, density_lb_per_gal=None), "density_lb_per_gal",
     "enter the weight per gallon from the label (water is 8.345 lb/gal)"),
    (replace(JUG, density_lb_per_gal=1.2), "density_lb_per_gal",
     "Density of 1.2 lb/gal is unusually low; if it was 1.2 kg/L, enter 10.01, or keep"),
    (replace(JUG, density_lb_per_gal=6.9), "density_lb_per_gal", "low; look at it again, or keep"),
    (replace(JUG, density_lb_per_gal=15.1), "density_lb_per_gal", "unusually high; look at it"),
    (Product(id="e", name="Empty"), "n_pct",
     "Empty holds no nitrogen, phosphate or potash by these figures; copy the label's, or keep"),
    (replace(TABLE, by_month=(*NINE, 0.0, 1.6, 0.0)), "by_month",
     "Budget by month, Nov, of 1.6 lb per 1,000 sq ft is unusually high"),
    (NRules(id="n_rules", max_total_lb=0.5, max_quick_lb=0.7), "max_quick_lb",
     "Quick nitrogen of 0.7 lb at once is more than all nitrogen at once, 0.5 lb; correct one"),
    (replace(FEEDING, date=date(2011, 6, 1)), "date",
     "1 Jun 2011 is more than 15 years ago; check the year, or keep"),
    (replace(JUG, density_lb_per_gal=None, n_pct=0, ingredients=MIX), "density_lb_per_gal",
     "enter the weight per gallon by weighing one (water is 8.345 lb/gal)"),
    (replace(FEEDING, pounds=MappingProxyType({"z": 11.0})), "pounds",
     "if ounces were meant, 11 oz are 0.69 lb and give 0.14 lb; check pounds"),
    (replace(RUN, used_lb=16.0), "used_lb", "16 lb over this strip is 64 lb of product per 1,000"),
    (replace(SPRAY, used_gal=4.5), "used_gal", "4.5 gal is more than the tank's 4 gal"),
    (replace(SPRAY, area_sqft=90.0), "area_sqft", "1 gal on 90 sq ft is 11.111 gal per 1,000"),
    (replace(SOIL, p_ppm=None), "ph", "has no figure yet"),
]  # fmt: skip


@pytest.mark.parametrize(("record", "field", "words"), ASKED, ids=lambda v: str(v)[:40])
def test_what_is_doubtful_is_asked(record: Record, field: str, words: str) -> None:
    """The owner may keep it, so nothing is refused."""
    problems = check(record, NOTEBOOK, TODAY)
    assert refused(problems) == ()
    told = [problem.sentence for problem in asked(problems) if problem.field == field]
    assert any(words in sentence for sentence in told), problems
    assert all("all the same" in sentence for sentence in told)


@pytest.mark.parametrize(
    "record",
    [
        replace(SLOW, n_pct=5.0, slow_n_pct=5.0, ingredients=MIX),
        replace(SLOW, n_pct=0.0, slow_n_pct=0.0, ingredients=MIX),
        JUG,
        replace(JUG, density_lb_per_gal=7.0),
        replace(JUG, density_lb_per_gal=15.0),
        Product(id="e", name="Potash", k2o_pct=50),
        replace(TABLE, by_month=(*NINE, 1.5, 0.0, 0.0)),
        NRules(id="n_rules", max_total_lb=0.7, max_quick_lb=0.7),
        NRules(id="n_rules", max_quick_lb=3.0),
        replace(FEEDING, date=date(2011, 6, 16)),
        Product(id="j", name="By weight", form="liquid", n_pct=16, bag_lb=20),
        replace(RUN, used_lb=15.0),
        replace(SPRAY, used_gal=4.0),
        SOIL,
        BARRED,
        replace(BARRED, no_seed_until=TODAY),
        replace(FEEDING, pounds=MappingProxyType({"z": 10.0})),
    ],
    ids=lambda v: str(v)[:40],
)
def test_what_is_sound_passes_unasked(record: Record) -> None:
    """Limits are not crossed by reaching them."""
    assert check(record, NOTEBOOK, TODAY) == ()


def test_a_mix_is_judged_by_what_its_recipe_holds() -> None:
    """Eleven pounds of a tea of next to no nitrogen are no slip, whatever its label fields say."""
    tea = (Ingredient(name="Water", pounds=99), Ingredient(name="Meal", pounds=1, n_pct=10))
    fed = replace(FEEDING, pounds=MappingProxyType({"z": 11.0}))
    book = with_records(NOTEBOOK, products=replace(SLOW, ingredients=tea))
    assert check(fed, book, TODAY) == ()
    assert [problem.field for problem in check(fed, NOTEBOOK, TODAY)] == ["pounds"]
    book = with_records(NOTEBOOK, products=replace(SLOW, n_pct=0, ingredients=part(46)))
    (problem,) = check(replace(fed, pounds=MappingProxyType({"z": 5.0})), book, TODAY)
    assert "Front gets 2.3 lb of nitrogen" in problem.sentence


def test_a_feeding_before_the_turf_was_there_is_asked() -> None:
    """On the day itself it is not; nor where no day of the turf is known."""
    for since, asked_for in ((date(2026, 6, 16), True), (TODAY, False), (None, False)):
        turf = replace(FRONT, established=Established(date=since, how="sod"))
        problems = check(FEEDING, with_records(NOTEBOOK, zones=turf), TODAY)
        assert [(p.severity, p.field) for p in problems] == [("ask", "date")] * asked_for
        told = "15 Jun 2026 is before the turf of Front was established, 16 Jun 2026; correct"
        assert all(told in p.sentence for p in problems)


def test_a_notebook_of_decades_is_not_asked_about_its_first_years_again() -> None:
    old = replace(FEEDING, date=date(2004, 5, 4))
    assert check_notebook(with_records(NOTEBOOK, feedings=old), TODAY) == ()


@pytest.mark.parametrize(
    ("start", "end", "on", "inside"),
    [
        ("11-15", "03-01", date(2026, 1, 5), True),
        ("11-15", "03-01", date(2025, 11, 15), True),
        ("11-15", "03-01", date(2026, 3, 1), True),
        ("11-15", "03-01", date(2026, 3, 2), False),
        ("11-15", "03-01", date(2025, 11, 14), False),
        ("06-01", "06-15", date(2026, 6, 15), True),
        ("06-01", "06-15", date(2026, 5, 31), False),
        ("02-29", "02-29", date(2026, 2, 28), False),
        ("02-29", "02-29", date(2024, 2, 29), True),
        ("13-40", "99-99", date(2026, 6, 15), False),
    ],
)
def test_a_feeding_in_a_blackout_is_asked(start: str, end: str, on: date, inside: bool) -> None:
    """Both ends belong to it, and it may run over New Year."""
    rules = NRules(id="n_rules", name="Ash County", blackouts=(Season(start=start, end=end),))
    problems = check(replace(FEEDING, date=on), with_records(NOTEBOOK, n_rules=rules), TODAY)
    assert [(p.severity, p.field) for p in problems] == [("ask", "date")] * inside
    assert all("in the blackout of Ash County, " in p.sentence for p in problems)
