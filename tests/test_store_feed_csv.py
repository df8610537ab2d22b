"""Feedings as a table: out and in again without loss, tables of the owner's own, faults by line."""

import csv
import io
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.units import lb_per_1000_to_g_per_m2
from lawnbook.store.cells import shielded, unshielded
from lawnbook.store.feed_csv import COLUMNS, FeedingsRead, feedings_csv, read_feedings
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import Feeding, Ingredient, NRules, Product, Season, Zone
from tests.conftest import TODAY
from tests.strategies import notebooks, texts

NOTHING: MappingProxyType[str, Feeding] = MappingProxyType({})


def book(*feedings: Feeding) -> Notebook:
    """Two zones of 1,000 and 500 sq ft, a blend, a tea without nitrogen, and a name like a sum."""
    tea = (Ingredient(name="Water", pounds=8.345),)
    return with_tables(
        new_notebook("Home"),
        {
            "zones": [
                Zone(id="z", name="Front", outline_ft=rectangle_ft((0, 0), 40, 25)),
                Zone(id="b", rank=1, name="Bäck", outline_ft=rectangle_ft((50, 0), 20, 25)),
            ],
            "products": [
                Product(id="p", name="Blend", n_pct=25, p2o5_pct=5, k2o_pct=10, slow_n_pct=15),
                Product(id="t", rank=1, name="Tea", n_pct=3, ingredients=tea),
                Product(id="s", rank=2, name="=1+2", n_pct=10),
            ],
            "feedings": feedings,
        },
    )


def fed(pounds: float = 2.0, **changes: Any) -> Feeding:
    """A feeding of the front zone."""
    on_front = MappingProxyType({"z": pounds})
    made = Feeding(id="f" * 16, date=date(2026, 5, 4), product="p", pounds=on_front)
    return replace(made, **changes)


def read(text: str, notebook: Notebook | None = None) -> FeedingsRead:
    """What a table adds to a notebook."""
    return read_feedings(text, notebook or book(), TODAY)


def unranked(notebook: Notebook) -> dict[str, Feeding]:
    """Feedings without their places in the owner's order."""
    return {key: replace(each, rank=0) for key, each in notebook.feedings.items()}


@settings(max_examples=60)
@given(notebooks())
def test_what_goes_out_comes_in_again_whole(notebook: Notebook) -> None:
    """Every feeding, to the last digit; and all of them are repeats where they are already."""
    text = feedings_csv(notebook)
    bare = replace(notebook, feedings=NOTHING)
    back = read_feedings(text, bare, TODAY)
    assert (back.problems, back.repeats) == ((), 0)
    found = (*back.feedings, *back.doubtful)
    assert {each.id: each for each in found} == unranked(notebook)
    again = read_feedings("\ufeff" + text, notebook, TODAY)
    assert (again.feedings, again.doubtful, again.problems) == ((), (), ())
    assert again.repeats == len(notebook.feedings)


@given(texts)
def test_text_that_a_spreadsheet_would_run_is_shielded_and_comes_back(text: str) -> None:
    for told in (text, f"={text}", f"'{text}", f"'-{text}", f" @{text}"):
        out = shielded(told)
        assert out.strip()[:1] not in {"=", "+", "-", "@"}
        assert unshielded(out) == told


def test_one_line_for_each_feeding_and_zone_with_what_it_was() -> None:
    both = MappingProxyType({"z": 2.0, "b": 1.0})
    area = MappingProxyType({"b": 250.0})
    spread = fed(pounds=0, spreader="=Drop", setting="4 1/2", treated_area_sqft=area)
    text = feedings_csv(book(replace(spread, pounds=both)))
    head, front, back = csv.reader(io.StringIO(text))
    assert tuple(head) == COLUMNS
    metric = f"{lb_per_1000_to_g_per_m2(0.5):.6g}"
    assert front == [
        "2026-05-04", "Blend", "Front", "2.0", "0.907185", "", "0.5", "0.1", "0.2", metric,
        "'=Drop", "4 1/2", "f" * 16,
    ]  # fmt: skip
    assert back[2:7] == ["Bäck", "1.0", "0.453592", "250.0", "1"]
    assert "\r" not in text


def test_a_mix_carries_what_its_recipe_holds() -> None:
    row = feedings_csv(book(fed(product="t"))).splitlines()[1].split(",")
    assert row[6:10] == ["0", "0", "0", "0"]


def test_a_product_named_like_a_formula_is_found_again() -> None:
    notebook = book(fed(product="s"))
    text = feedings_csv(notebook)
    assert ",'=1+2," in text
    assert read(text).feedings == (fed(product="s"),)
    assert read("date,product,zone,pounds\n2026-05-04,=1+2,Front,2\n").feedings[0].product == "s"


@pytest.mark.parametrize(
    "text",
    [
        "date,product,zone,pounds\n2026-05-04,Blend,Front,2\n",
        "\ufeffDate;Product;Zone;Pounds\r\n2026-05-04;blend; FRONT ;2,0\r\n",
        "Day\tFertilizer\tZone\tlb\n4.5.2026\tBlend\tFront\t2\n",
        "\n\n ZONE , Date , N lb per 1000 , Product\nFront,2026-05-04,0.5,BLEND\n\n",
        'date,product,zone,"N, lb per 1,000 sq ft"\n2026-05-04,Blend,Front,.5\n',
        "date;product;zone;N g/m²\n2026-05-04;Blend;Front;2,441214\n",
        "date,product,zone,pounds\r2026-05-04,Blend,Front,2\r",
        "zone,date,product,pounds,treated area\nz,5/4/2026,p,2,\nb,5/31/2026,p,1,\n",
        "date,product,zone,pounds,n_lb_per_1000\n2026-05-04,Blend,Front,2,0.5\n",
    ],
)
def test_simpler_tables_are_understood(text: str) -> None:
    """Columns by name in any order, commas, semicolons or tabs; names in any case; either rate."""
    found = read(text)
    assert found.problems == ()
    assert found.feedings[0].date == date(2026, 5, 4)
    assert found.feedings[0].product == "p"
    assert dict(found.feedings[0].pounds) == pytest.approx({"z": 2.0}, rel=1e-5)


def test_lines_of_one_feeding_are_joined() -> None:
    """By its number; else by day, product, spreader and setting."""
    numbered = "date,product,zone,pounds,feeding\n2026-05-04,Blend,Front,2,1\n"
    numbered += "2026-05-04,Blend,Bäck,1,1\n2026-05-04,Blend,Front,2,2\n"
    first, second = read(numbered).feedings
    assert (dict(first.pounds), dict(second.pounds)) == ({"z": 2.0, "b": 1.0}, {"z": 2.0})
    assert len({first.id, second.id, "1", "2"}) == 4, "a number is no id to keep"
    head = "date,product,zone,pounds,treated_area_sqft,spreader,setting\n"
    plain = f"{head}2026-05-04,Blend,Front,2,800,Drop,4\n2026-05-04,Blend,Bäck,1,,Drop,4\n"
    (joined,) = read(plain).feedings
    assert dict(joined.pounds) == {"z": 2.0, "b": 1.0}
    assert dict(joined.treated_area_sqft) == {"z": 800.0}
    assert (joined.spreader, joined.setting) == ("Drop", "4")
    assert len(read(plain.replace("Bäck,1,,Drop,4", "Bäck,1,,Drop,5")).feedings) == 2


HEAD = "date,product,zone,pounds,treated_area_sqft,n_lb_per_1000,feeding\n"
FAULTS = [
    ("2026-05-04,Blnd,Front,2", 'Product: there is no "Blnd" on the shelf; write Blend, or add'),
    ("2026-05-04,Guano,Front,2", 'no "Guano" on the shelf; write Blend, Tea, =1+2, or add it'),
    ("2026-05-04,Blend,Frnt,2", 'Zone: there is no "Frnt" in the yard; write Front, or add'),
    ("2026-05-04,Blend,,2", "Zone is missing; enter it, or take the line out."),
    ("2026-05-04,Blend,Front,", "Pounds is missing; enter it, or the nitrogen in n_lb_per_1000."),
    ("2026-05-04,Tea,Front,,,0.5", "Tea holds no nitrogen to reckon by; enter its pounds."),
    ("2026-05-04,Blend,Front,two", 'Pounds "two" is not a number; write it as 12.5.'),
    ("2026-05-04,Blend,Front,-2", 'Pounds "-2" is not a number'),
    ("2026-05-04,Blend,Front,0", "Pounds of 0 lb is too little; enter more than 0 lb."),
    ("2026-05-04,Blend,Front,1e999", "Pounds must be a finite number"),
    ('2026-05-04,Blend,Front,"2,5"', 'Pounds "2,5" is not a number'),
    ("2027-05-04,Blend,Front,2", "Date: 4 May 2027 is in the future"),
    ("2026-02-30,Blend,Front,2", "Date must be a date such as 2026-06-15"),
    ("31.2.2026,Blend,Front,2", 'Date "31.2.2026" is no day; write every date as 2026-11-16'),
    ("5/4/2026,Blend,Front,2", 'Date "5/4/2026" may be month/day or day/month'),
    (",Blend,Front,2", "Date is missing; enter it, or take the line out."),
    ("2026-05-04,Blend,Front,2,0", "Area treated of 0 sq ft is too little"),
    ("2026-05-04,Blend,Front,2,,,,x", "there are more cells than columns; take the extra ones"),
    (f"2026-05-04,Blend,Front,2,,,{'x' * 65}", "a name has at most 64 letters"),
]


@pytest.mark.parametrize(("line", "told"), FAULTS, ids=[line[:30] for line, _ in FAULTS])
def test_a_bad_line_is_told_by_its_number_and_the_good_ones_stay(line: str, told: str) -> None:
    found = read(f"{HEAD}2026-04-01,Blend,Front,1\n\n{line}\n2026-06-01,Blend,Front,1\n")
    assert [each.date.month for each in found.feedings] == [4, 6]
    (problem,) = found.problems
    assert problem.startswith("Line 4: ")
    assert told in problem


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "Line 1: the table is empty; its first line names the columns: date, product, zone"),
        ("\ufeff \n", "Line 1: the table is empty"),
        (",,\n,\n", "Line 1: there is no column date and no column product and no column zone;"),
        ("date,zone,pounds\n", "Line 1: there is no column product;"),
        ("day,crop\n", "Line 1: there is no column product and no column zone;"),
        ("date,product,zone\n", "Line 1: there is no column pounds, n_lb_per_1000 or n_g_per_m2"),
        ("date,day,product,zone,lb\n", 'Line 1: the column "date" stands twice; keep one of them.'),
        ('date,product,zone,lb\n2026-05-04,"Blend,Front,2\n', "Line 2: a quotation mark stands"),
    ],
)
def test_what_is_no_table_of_feedings_gives_one_problem(text: str, told: str) -> None:
    found = read(text)
    assert (found.feedings, found.repeats) == ((), 0)
    (problem,) = found.problems
    assert problem.startswith(told)


def test_unknown_columns_are_told_and_passed_over() -> None:
    found = read("date,product,zone,pounds,mood\n2026-05-04,Blend,Front,2,good\n")
    assert len(found.feedings) == 1
    assert found.problems == (
        'Line 1: the column "mood" is not one of feedings and is passed over.',
    )


def test_a_zone_twice_in_one_feeding_is_not_guessed_at() -> None:
    found = read("date,product,zone,lb\n2026-05-04,Blend,Front,2\n2026-05-04,Blend,Front,3\n")
    assert dict(found.feedings[0].pounds) == {"z": 2.0}
    assert "Line 3: Front stands twice in one feeding of 4 May 2026; add" in found.problems[0]


def test_one_feeding_has_one_day_and_product() -> None:
    found = read(f"{HEAD}2026-05-04,Blend,Front,2,,,a\n2026-05-05,Blend,Bäck,2,,,a\n")
    assert len(found.feedings) == 1
    assert 'Line 3: feeding "a" has another day, product, spreader' in found.problems[0]


def test_pounds_go_before_a_rate_that_says_otherwise() -> None:
    found = read(f"{HEAD}2026-05-04,Blend,Front,2,,0.9\n")
    assert dict(found.feedings[0].pounds) == {"z": 2.0}
    (problem,) = found.problems
    assert problem.startswith("Line 2: 2 lb of Blend are 0.50 lb of nitrogen per 1,000 sq ft, and ")
    assert problem.endswith("0.90 is written; the pounds count.")


def test_what_the_notebook_has_is_a_repeat_with_or_without_its_id() -> None:
    """Each feeding of the notebook answers to one of the table's; a changed one is told."""
    held = book(fed())
    plain = "date,product,zone,pounds\n2026-05-04,Blend,Front,2\n"
    assert (read(plain, held).feedings, read(plain, held).repeats) == ((), 1)
    by_rate = "date,product,zone,n_lb_per_1000\n2026-05-04,Blend,Front,0.5\n"
    assert read(by_rate, held).repeats == 1
    twice = (
        "date,product,zone,pounds,feeding\n2026-05-04,Blend,Front,2,1\n2026-05-04,Blend,Front,2,2\n"
    )
    found = read(twice, held)
    assert (found.feedings, len(found.doubtful), found.repeats) == ((), 1, 1)
    assert any("same feeding of 4 May 2026 is already entered" in each for each in found.doubts)
    changed = read(feedings_csv(book(fed(pounds=3))), held)
    assert (changed.feedings, changed.repeats) == ((), 0)
    assert "is in the notebook with other figures; change it there" in changed.problems[0]
    area = MappingProxyType({"z": 1000.0})
    assert read(plain, book(fed(treated_area_sqft=area))).repeats == 1, "the whole zone was treated"


def test_pounds_go_before_kilograms_that_say_otherwise() -> None:
    """Kilograms stand beside the pounds for reading on; alone they are not taken in."""
    head = "date,product,zone,pounds,kg\n"
    assert read(f"{head}2026-05-04,Blend,Front,2,0.907\n").problems == ()
    found = read(f"{head}2026-05-04,Blend,Front,2,2\n")
    assert dict(found.feedings[0].pounds) == {"z": 2.0}
    assert found.problems == ("Line 2: 2 lb are 0.907 kg, and 2 is written; the pounds count.",)
    alone = read("date,product,zone,kg\n2026-05-04,Blend,Front,2\n")
    assert "there is no column pounds" in alone.problems[0]


def test_doubtful_feedings_are_asked_about_and_set_apart() -> None:
    """One that an ounce was meant for, or in a blackout, is not among those that are sound."""
    rules = NRules(id="n_rules", blackouts=(Season(start="05-01", end="05-10"),))
    lines = "2026-05-04,Blend,Front,9\n2026-06-04,Blend,Front,2\n"
    found = read(f"{HEAD}{lines}", replace(book(), n_rules=rules))
    assert [each.date.month for each in found.feedings] == [6]
    assert [each.date.month for each in found.doubtful] == [5]
    assert found.problems == ()
    assert any("Line 2: Front gets 2.25 lb of nitrogen" in each for each in found.doubts)
    assert any("Line 2: 4 May 2026 lies in your blackout" in each for each in found.doubts)


@pytest.mark.parametrize(
    ("cells", "pounds"),
    [
        ("2.5;1", 2.5),
        ("2,5;1", 2.5),
        ("1.250,5;1", 1250.5),
        ("1,250.5;1", 1250.5),
        ("1,250;1", 1.25),
        ("0,125;1", 0.125),
    ],
)
def test_decimal_commas(cells: str, pounds: float) -> None:
    """Between semicolons a comma is a decimal mark, unless a point says otherwise."""
    text = f"date;product;zone;pounds;mood\n2026-05-04;Blend;Front;{cells}\n"
    found = read(text, book())
    (feeding,) = (*found.feedings, *found.doubtful)
    assert feeding.pounds["z"] == pounds


def test_a_comma_between_tabs_that_may_be_either_is_asked_for() -> None:
    text = "date\tproduct\tzone\tpounds\n2026-05-04\tBlend\tFront\t1,250\n"
    assert 'Pounds "1,250" may be a thousand or a decimal' in read(text).problems[0]
    text += "2026-05-05\tBlend\tFront\t2,5\n"
    assert [each.pounds["z"] for each in read(text).feedings] == [1.25, 2.5]


@given(st.text(max_size=80))
def test_no_text_breaks_the_reading(text: str) -> None:
    for told in (text, HEAD + text, f"{HEAD}2026-05-04,Blend,Front,{text}"):
        read(told)
