"""How the ledger of feeding, the shelf and the tools came to their figures."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.desk.pages.feed_ledger_words import rate_told, year_total
from lawnbook.plan.arithmetic import worked_out
from lawnbook.plan.calibration import spreader_advice
from lawnbook.plan.fed_rows import fed_rows
from lawnbook.plan.fed_workings import (
    fed_row_workings,
    months_workings,
    phosphorus_workings,
    year_total_workings,
)
from lawnbook.plan.feed_model import FedRow
from lawnbook.plan.product_workings import label_workings, mix_workings, product_workings
from lawnbook.plan.sensitivity import numbers_of, reckoned, sensitivities_of
from lawnbook.plan.tool_workings import setting_workings
from lawnbook.plan.working_model import Working
from lawnbook.reading import Reading, reading_here
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Ingredient, Product, SpreaderRun
from tests.desk_sample import samples

ON = date(2026, 6, 15)


def of(figure: str, workings: Iterable[Working]) -> Working:
    """The working whose figure's key begins so."""
    return next(each for each in workings if each.figure.startswith(figure))


def base(working: Working) -> float:
    """The figure reckoned anew from its own numbers."""
    assert working.reckoning is not None
    return reckoned(working.reckoning, numbers_of(working))


def lines() -> Iterator[tuple[Notebook, FedRow]]:
    """Every line of the ledgers of all samples."""
    for notebook in samples().values():
        yield from ((notebook, row) for row in fed_rows(notebook, ON))


def test_each_line_of_the_ledger_is_worked_out_as_it_stands() -> None:
    """Product × share ÷ area, and for water depth × nitrogen in it."""
    kinds = set()
    for notebook, row in lines():
        told = fed_row_workings(notebook, row)
        rates = {"fed_n": row.n_lb_per_1000, "fed_quick": row.quick_lb_per_1000,
                 "fed_p2o5": row.p2o5_lb_per_1000, "fed_k2o": row.k2o_lb_per_1000}  # fmt: skip
        if row.kind == "water":
            rates = {"fed_water": row.n_lb_per_1000}
        for figure, rate in rates.items():
            found = [each for each in told if each.figure.startswith(f"{figure}:")]
            assert bool(found) == (rate > 0), (row, figure)
            for each in found:
                assert base(each) == pytest.approx(rate, rel=1e-12)
                assert worked_out(each.filled) == pytest.approx(rate, rel=1e-3)
                kinds.add(figure)
    assert kinds >= {"fed_n", "fed_quick", "fed_k2o", "fed_water"}


def test_the_years_total_is_the_sum_that_stands_below_the_ledger() -> None:
    """Of each zone alone and of the lawn, weighted by area."""
    for notebook in samples().values():
        for zone_id in ("", *notebook.zones):
            rows = fed_rows(notebook, ON, zone_id)
            cells = year_total(rows, notebook, ON, zone_id, metric=False).cells
            told = {each.figure: each for each in year_total_workings(notebook, rows, ON, zone_id)}
            for figure, cell in zip(("total_n", "total_p2o5", "total_k2o"), cells[4:], strict=True):
                shown = told.get(figure)
                assert ("–" if shown is None else rate_told(base(shown), metric=False)) == cell
            pounds = told.get("total_lb")
            assert cells[3] == (f"{base(pounds):.2f}" if pounds else "0.00")


def test_many_lines_of_a_year_are_summed_in_one_line_more() -> None:
    """The panel stays short, the sum stays whole."""
    notebook = samples()["larkspur_corner"]
    (row, *_) = fed_rows(notebook, ON)
    zone_id = row.zone_id
    many = [row] * 100
    total = of("total_n", year_total_workings(notebook, many, row.date, zone_id))
    assert len(total.inputs) == 41
    assert base(total) == pytest.approx(100 * row.n_lb_per_1000)


def test_a_line_whose_product_is_gone_has_no_working() -> None:
    """Nothing is known of what it held."""
    notebook = samples()["larkspur_corner"]
    row = replace(fed_rows(notebook, ON)[0], product_id="gone", kind="feeding")
    assert fed_row_workings(notebook, row) == ()
    assert year_total_workings(replace(notebook, zones={}), [row], ON) == ()


UREA = Product(
    id="u", name="Urea", n_pct=46.0, slow_n_pct=11.5, k2o_pct=4.0, bag_lb=50.0, price=46.0
)


def test_a_label_gives_slow_share_nitrogen_in_the_package_and_its_price() -> None:
    """50 lb of 46 percent are 23 lb of nitrogen; at 46.00 a bag a pound of it costs 2.00."""
    told = product_workings(UREA)
    assert of("slow_share", told).value == "25\u00a0%"
    assert (of("package_n", told).value, base(of("package_n", told))) == ("23.00 lb", 23.0)
    price = of("price_n", told)
    assert (price.value, base(price)) == ("2.00 per lb", 2.0)
    by_name = {each.name: each for each in sensitivities_of(price)}
    assert by_name["Price of a package"].changes[0].figure == pytest.approx(2.2)
    assert by_name["Bag"].changes[0].figure == pytest.approx(2.0 / 1.1)
    assert [each.value for each in told[:2]] == ["46\u00a0%", "4\u00a0%"]
    with reading_here(Reading(units="metric")):
        metric = of("price_n", product_workings(UREA))
    assert metric.value == "4.41 per kg"


def test_a_jug_weighs_by_its_density() -> None:
    """2.5 gallons of 10 lb at 8 percent hold 2 lb."""
    jug = replace(UREA, form="liquid", bag_lb=None, jug_gal=2.5, density_lb_per_gal=10.0, n_pct=8.0)
    assert base(of("package_n", product_workings(jug))) == pytest.approx(2.0)


@pytest.mark.parametrize(
    "values", [{}, {"n_pct": 0.0, "slow_n_pct": 0.0}, {"n_pct": 10.0, "slow_n_pct": 11.0}]
)
def test_a_label_that_cannot_be_says_nothing(values: dict[str, Any]) -> None:
    """As long as it is typed, or wrong."""
    assert label_workings(values) == ()
    assert product_workings(None) == ()


def test_a_mix_holds_the_mean_of_its_parts_by_weight() -> None:
    """20 lb of 10 percent and 60 lb of nothing are 80 lb of 2.5 percent."""
    parts = (
        Ingredient(name="Urea water", pounds=20.0, n_pct=10.0, k2o_pct=4.0),
        Ingredient(name="Water", pounds=60.0),
    )
    told = mix_workings(parts)
    assert base(of("mix_weight", told)) == 80.0
    assert base(of("mix_n_pct", told)) == pytest.approx(2.5)
    assert base(of("mix_k2o_pct", told)) == pytest.approx(1.0)
    assert [each.figure for each in told] == ["mix_weight", "mix_n_pct", "mix_k2o_pct"]
    mixed = Product(id="m", name="Tea", ingredients=parts, bag_lb=80.0, price=8.0)
    of_shelf = product_workings(mixed)
    assert base(of("package_n", of_shelf)) == pytest.approx(80 * analysis_of(mixed).n_pct / 100)
    assert mix_workings(()) == ()


def test_the_months_of_a_table_are_summed() -> None:
    """Only those that are fed."""
    (told,) = months_workings((0.0, 0.0, 0.5, 0.0, 1.0) + (0.0,) * 7, "typed")
    assert (told.value, base(told)) == ("1.50 lb N per 1,000 sq ft", 1.5)
    assert [each.name for each in told.inputs] == ["March", "May"]
    assert months_workings((0.0,) * 12, "typed") == ()


def test_phosphorus_is_held_against_what_is_enough() -> None:
    """The latest test that says phosphorus, against the rule's own figure or the usual one."""
    notebook = samples()["larkspur_corner"]
    latest = max(
        (each for each in notebook.soil_tests.values() if each.p_ppm), key=lambda each: each.date
    )
    (told,) = phosphorus_workings(notebook, latest.zone)
    assert told.inputs[0].is_default
    assert base(told) == pytest.approx(max(0.0, 45.0 - (latest.p_ppm or 0.0)))
    own = replace(notebook, n_rules=replace(notebook.n_rules, name="Town", p_enough_ppm=25.0))
    (ruled,) = phosphorus_workings(own, latest.zone)
    assert (ruled.inputs[0].is_default, ruled.inputs[0].value) == (False, "25 ppm")
    assert ruled.source.startswith("Town")
    assert phosphorus_workings(notebook, "none") == ()


def run(setting: str, used_lb: float) -> SpreaderRun:
    """A strip of 500 sq ft."""
    return SpreaderRun(id=setting, product="u", spreader="Drop", setting=setting, date=ON,
                       strip_ft=100.0, width_ft=5.0, used_lb=used_lb)  # fmt: skip


def test_a_setting_between_two_runs_follows_rate_and_runs() -> None:
    """Setting 4 gave 2 lb, setting 8 gave 6 lb per 1,000 sq ft: 4 lb want setting 6."""
    notebook = samples()["larkspur_corner"]
    held = apply(notebook, put(notebook, "spreader_runs", run("4", 1.0), run("8", 3.0)))
    (advice,) = spreader_advice(held, "u", 4.0)
    (told,) = setting_workings(held, "u", 4.0)
    assert (advice.setting, told.value, base(told)) == ("6", "6", 6.0)
    by_name = {each.name: each for each in sensitivities_of(told)}
    more, less = by_name["Rate"].changes
    assert [more.raw, less.raw] == pytest.approx([6.4, 5.6])
    more, less = by_name["Product lost at setting 8"].changes
    assert more.raw < 6.0 < less.raw
    assert setting_workings(held, "u", 60.0) == []
