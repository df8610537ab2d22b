"""Nitrogen: what was fed, what is left of month and year, and the next day to feed."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.nitrogen import nitrogen_on
from lawnbook.plan.spread import check_spread
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, NBudget, Season, Zone
from tests.plan_yards import (
    JUNE,
    SQUARE_1000,
    feeding,
    product,
    rules,
    steady,
    watering,
    yard,
    zone,
)

AUTUMN = date(2026, 9, 20)
FULL = zone(budget_level="full")
MILD = steady(0.2)
"""A climate in which every month grows."""


def nitrogen(book: Notebook, on: date = AUTUMN) -> ZoneNitrogen:
    """The nitrogen of a yard's first zone."""
    return make_plan(book, on).nitrogen[0]


def test_sixty_pounds_of_twenty_percent_on_12_000_sq_ft_are_one_pound() -> None:
    """The worked example of a country extension page: 5 lb per 1,000 sq ft, 60 lb in all."""
    large = zone(outline_ft=((0.0, 0.0), (120.0, 0.0), (120.0, 100.0), (0.0, 100.0)))
    fed = [feeding(date(2026, 9, 1), 60.0)]
    book = yard(large, products=[product(n_pct=20.0, slow_n_pct=5.0)], feedings=fed)
    figures = nitrogen(book)
    assert figures.applied_by_month[8] == pytest.approx(1.0)
    assert figures.quick_by_month[8] == pytest.approx(0.75)
    assert figures.applied_year == pytest.approx(1.0)


@pytest.mark.parametrize(("level", "year"), [("lean", 2.0), ("middle", 2.75), ("full", 3.5)])
def test_the_published_table_by_level(level: str, year: float) -> None:
    """Virginia Department of Conservation and Recreation: Sep 0.5–0.9, year 2–3.5, summer 0."""
    figures = nitrogen(yard(zone(budget_level=level)))
    assert 0.5 <= figures.budget_by_month[8] <= 0.9
    assert figures.budget_by_month[5:8] == (0.0, 0.0, 0.0)
    assert figures.budget_year == pytest.approx(year)
    assert figures.left_this_month == figures.budget_by_month[8]
    assert level in figures.budget_name


def test_the_full_table_is_its_highs() -> None:
    """Virginia Department of Conservation and Recreation: Sep, Oct, early Nov 0.9, May 0.5."""
    months = (0.0, 0.0, 0.0, 0.0, 0.5, 0.0, 0.0, 0.0, 0.9, 0.9, 0.9, 0.0)
    assert nitrogen(yard(FULL)).budget_by_month == pytest.approx(months)


def test_fine_fescue_takes_less_in_the_year() -> None:
    """Virginia Department of Conservation and Recreation: fine fescues 1–2 lb."""
    assert nitrogen(yard(zone(species="fine fescue"))).budget_year == pytest.approx(1.5)


def test_left_is_the_lesser_of_month_and_year_and_negative_when_over() -> None:
    fed = [feeding(date(2026, 4, 1), 10.0), feeding(date(2026, 9, 1), 2.0)]
    book = yard(products=[product()], feedings=fed)
    figures = nitrogen(book)
    assert figures.applied_year == pytest.approx(2.88)
    assert figures.left_this_year == pytest.approx(2.75 - 2.88)
    assert figures.left_this_month == pytest.approx(2.75 - 2.88)
    over = nitrogen(book, date(2026, 4, 2))
    assert over.left_this_month == pytest.approx(-2.4)


def test_the_rolling_total_takes_thirty_days_the_day_itself_included() -> None:
    fed = [feeding(date(2026, 8, 21), 1.0), feeding(date(2026, 8, 22), 1.0), feeding(AUTUMN, 1.0)]
    assert nitrogen(yard(products=[product()], feedings=fed)).rolling_30_days == pytest.approx(0.48)


def test_an_own_table_takes_the_place_of_the_published_one() -> None:
    table = NBudget(id="b", name="Mine", by_month=(0.0,) * 8 + (0.4, 0.3, 0.2, 0.1))
    book = yard(zone(budget="b"), n_budgets=[table])
    figures = nitrogen(book)
    assert figures.budget_name == "Mine"
    assert figures.budget_year == pytest.approx(1.0)
    capped = yard(zone(budget="b"), n_budgets=[replace(table, year_lb=0.9)])
    assert nitrogen(capped).budget_year == 0.9
    typed = yard(zone(budget="b", annual_n_lb_per_1000=0.8), n_budgets=[table])
    assert nitrogen(typed).budget_year == 0.8


def test_the_owners_rule_for_the_year_binds_where_it_is_less() -> None:
    assert nitrogen(yard(n_rules=rules(year_lb=1.5))).budget_year == 1.5
    assert nitrogen(yard(n_rules=rules(year_lb=9.0))).budget_year == pytest.approx(2.75)


def test_the_year_runs_july_to_june_south_of_the_equator_and_the_table_shifts() -> None:
    fed = [
        feeding(date(2025, 6, 30), 1.0),
        feeding(date(2025, 7, 1), 1.0),
        feeding(date(2026, 3, 1), 1.0),
    ]
    book = yard(FULL, latitude_deg=-33.0, products=[product()], feedings=fed)
    figures = nitrogen(book, date(2026, 3, 10))
    assert (figures.year, figures.year_label) == (2025, "2025–26")
    assert figures.applied_year == pytest.approx(0.48)
    assert figures.budget_by_month[2] == pytest.approx(0.9)
    assert figures.applied_by_month[5] == 0
    assert nitrogen(book, date(2026, 7, 1)).applied_year == 0


def test_redrawing_a_zone_never_rewrites_what_was_fed() -> None:
    half = ((0.0, 0.0), (25.0, 0.0), (25.0, 20.0), (0.0, 20.0))
    frozen = [feeding(date(2026, 9, 1), 2.0, treated_area_sqft={"z1": 1000.0})]
    drawn = [
        yard(zone(outline_ft=outline), products=[product()], feedings=frozen)
        for outline in (SQUARE_1000, half)
    ]
    assert [nitrogen(book).applied_year for book in drawn] == pytest.approx([0.48, 0.48])


def test_a_strip_left_out_is_out_of_the_area_treated() -> None:
    fed = [feeding(date(2026, 9, 1), 2.0, treated_area_sqft={"z1": 800.0})]
    figures = nitrogen(yard(products=[product()], feedings=fed))
    assert figures.applied_year == pytest.approx(0.6)


def test_the_next_feeding_waits_for_a_month_with_room_and_takes_the_most_that_passes() -> None:
    upcoming = nitrogen(yard(FULL, products=[product()]), JUNE).next_feeding
    assert upcoming is not None
    assert upcoming.date == date(2026, 9, 1)
    assert upcoming.n_lb_per_1000 == pytest.approx(0.9)
    assert upcoming.pounds == pytest.approx(0.9 / 0.24)
    assert upcoming.product == "Half slow"


def test_the_quick_limit_holds_the_next_feeding_down() -> None:
    """Cornell Cooperative Extension: at most 0.5 lb of quick nitrogen at once."""
    upcoming = nitrogen(yard(products=[product(slow_n_pct=0.0)]), JUNE).next_feeding
    assert upcoming is not None
    assert upcoming.n_lb_per_1000 == pytest.approx(0.5)


def test_the_product_last_fed_is_proposed() -> None:
    shelf = [product(), product(id="p2", name="Meal", n_pct=10.0, slow_n_pct=9.0)]
    fed = [feeding(date(2026, 5, 1), 1.0, product="p2"), feeding(date(2026, 4, 1), 1.0)]
    upcoming = nitrogen(yard(products=shelf, feedings=fed), JUNE).next_feeding
    assert upcoming is not None
    assert upcoming.product == "Meal"


def test_a_product_that_a_rule_holds_back_gives_way_to_another_on_the_shelf() -> None:
    """Phosphate without a soil test is held back, and a product without any is there."""
    starter = product(name="Starter", p2o5_pct=20.0, starter=True)
    plain = product(id="p2", name="Plain")
    alone = nitrogen(yard(products=[starter], climate=MILD))
    assert alone.next_feeding is None
    assert "put a product without phosphate on the shelf" in alone.reason
    both = nitrogen(yard(products=[starter, plain], climate=MILD))
    assert both.next_feeding is not None
    assert (both.next_feeding.product, both.reason) == ("Plain", "")


def test_a_bare_shelf_gives_pounds_of_nitrogen() -> None:
    upcoming = nitrogen(yard(FULL), JUNE).next_feeding
    assert upcoming is not None
    assert upcoming.product == ""
    assert upcoming.pounds == pytest.approx(0.9)


def test_a_table_that_feeds_early_november_sends_nobody_out_late() -> None:
    """Virginia DCR: early November; its first half (common practice)."""
    book = yard(products=[product()], climate=MILD)
    early = nitrogen(book, date(2026, 11, 15)).next_feeding
    late = nitrogen(book, date(2026, 11, 16)).next_feeding
    assert early is not None
    assert late is not None
    assert (early.date, late.date) == (date(2026, 11, 15), date(2027, 5, 1))
    southern = yard(products=[product()], latitude_deg=-35.0, climate=MILD)
    coming = nitrogen(southern, date(2026, 5, 16)).next_feeding
    assert coming is not None
    assert coming.date == date(2026, 11, 1)
    for on, told in ((date(2026, 11, 15), False), (date(2026, 11, 16), True)):
        cautions = check_spread(book, "p1", {"z1": 1.0}, on).cautions
        assert any("16 Nov 2026 is late for Front" in each for each in cautions) is told


def test_the_next_feeding_leaves_the_strips_out_and_is_the_most_that_the_check_passes() -> None:
    west, south = SQUARE_1000[0]
    shore = rectangle_ft((west - 20.0, south - 10.0), 100.0, 10.0)
    brook = Feature(id="w", kind="water", name="brook", outline_ft=shore)
    book = yard(products=[product()], features=[brook], n_rules=rules(waterside_ft=10.0))
    upcoming = nitrogen(book, AUTUMN).next_feeding
    assert upcoming is not None
    assert upcoming.strips == ("brook",)
    assert 0 < upcoming.area_sqft < 1000
    assert upcoming.pounds == pytest.approx(
        upcoming.n_lb_per_1000 * upcoming.area_sqft / 1000 / 0.24
    )
    checked = [
        check_spread(book, "p1", {"z1": share * upcoming.pounds}, upcoming.date).within
        for share in (1.0, 1.01)
    ]
    assert checked == [True, False]


def test_a_zone_that_strips_take_whole_has_no_next_feeding() -> None:
    pond = Feature(id="w", kind="water", name="pond", outline_ft=SQUARE_1000, no_spread_ft=5.0)
    figures = nitrogen(yard(products=[product()], features=[pond]), AUTUMN)
    assert figures.next_feeding is None
    assert figures.reason.startswith("All of it lies in the strip along pond")


def test_the_next_feeding_stands_as_far_from_the_last_as_the_passes_of_a_split() -> None:
    """Two weeks (common practice), unless the owner's rule says; a trace of nitrogen is none."""
    fed, after = date(2026, 9, 5), date(2026, 9, 19)
    shelf = [product()]
    for pounds, min_days, wanted in (
        (1.5, None, after),
        (1.5, 1, fed),
        (0.15, None, fed),
    ):
        book = yard(
            products=shelf,
            climate=MILD,
            feedings=[feeding(fed, pounds)],
            n_rules=rules(min_days=min_days),
        )
        zone = nitrogen(book, fed)
        assert zone.next_feeding is not None
        assert zone.next_feeding.date == wanted
        assert ("14 days apart" in zone.reason) is (wanted == after)
        assert zone.left_this_month > 0.05


def test_rules_put_the_next_feeding_off() -> None:
    blackout = rules(blackouts=(Season(start="08-15", end="10-04"),))
    upcoming = nitrogen(yard(products=[product()], n_rules=blackout), JUNE).next_feeding
    assert upcoming is not None
    assert upcoming.date == date(2026, 10, 5)
    fed = [feeding(date(2026, 9, 10), 1.0)]
    spaced = yard(products=[product()], feedings=fed, n_rules=rules(min_days=30))
    later = nitrogen(spaced).next_feeding
    assert later is not None
    assert later.date == date(2026, 10, 10)


def test_a_shelf_that_is_too_quick_has_no_next_feeding_and_says_why() -> None:
    figures = nitrogen(yard(products=[product()], n_rules=rules(min_slow_pct=60.0)))
    assert figures.next_feeding is None
    assert "Half slow" in figures.reason
    never = nitrogen(yard(zone(annual_n_lb_per_1000=0.0), products=[product()]))
    assert never.next_feeding is None
    assert never.reason


def july_or_august(*fed: tuple[date, float]) -> Notebook:
    """A warm-season yard fed on some days."""
    warm: Zone = zone(grass="warm", budget_level="full")
    shelf = [product(n_pct=25.0, slow_n_pct=20.0)]
    return yard(warm, products=shelf, feedings=[feeding(on, lb) for on, lb in fed])


def test_july_or_august_either_not_both() -> None:
    """Virginia Department of Conservation and Recreation, warm season: "Jul or Aug 1.0"."""
    august = date(2026, 8, 10)
    assert nitrogen(july_or_august(), august).left_this_month == pytest.approx(1.0)
    fed = july_or_august((date(2026, 7, 1), 1.0))
    assert nitrogen(fed, august).left_this_month == 0
    assert nitrogen(fed, date(2026, 7, 10)).left_this_month == pytest.approx(0.75)
    last_year = july_or_august((date(2025, 7, 1), 1.0))
    assert nitrogen(last_year, august).left_this_month == pytest.approx(1.0)


def test_every_figure_has_its_working() -> None:
    fed = [feeding(date(2026, 9, 1), 1.0)]
    figures = nitrogen(yard(FULL, products=[product()], feedings=fed))
    by_figure = {working.figure: working for working in figures.workings}
    assert set(by_figure) == {
        "applied_year",
        "rolling_30_days",
        "left_this_year",
        "left_this_month",
        "released_year",
        "growth_potential",
        "usable_month",
        "next_feeding",
        "next_feeding_until",
    }
    assert by_figure["left_this_month"].filled == "min(0.90 − 0.24, 3.26)"
    (month,) = by_figure["applied_year"].inputs
    assert month.origin == "feeding of 1 Sep 2026"
    assert all(working.source for working in figures.workings)


def test_water_and_growth_have_workings_of_their_own() -> None:
    book = yard(
        zone(budget_spread="growth", precipitation_in_per_h=1.5),
        waterings=[watering(date(2026, 9, 1), depth_in=2.0)],
    )
    well = replace(book, yard=replace(book.yard, water_n_mg_per_l=10.0))
    by_figure = {working.figure: working for working in nitrogen(well).workings}
    assert {"water_year", "budget_month"} <= set(by_figure)
    assert by_figure["water_year"].filled == "2.00 × 10.00 × 0.0052023"
    assert "0.227 lb per acre" in by_figure["water_year"].source
    assert by_figure["budget_month"].label == "Budget of September"
    assert "growth potential" in by_figure["budget_month"].formula


SUMMER = Season(start="04-20", end="10-15")


def dormant(book: Notebook) -> Notebook:
    """The notebook with its lawn let go dormant."""
    return replace(book, yard=replace(book.yard, drought="survival"))


def test_a_dormant_lawn_is_not_fed() -> None:
    """Louisiana State University AgCenter: no feeding of grass dormant from heat or drought."""
    book = yard(FULL, products=[product()], season=SUMMER)
    assert nitrogen(book).next_feeding is not None
    figures = nitrogen(dormant(book))
    assert figures.next_feeding is None
    assert figures.reason == "Let go dormant: no feeding until it grows again."
    assert figures.left_this_month == nitrogen(book).left_this_month


def test_a_dormant_lawn_fails_the_check_until_its_season_is_over() -> None:
    book = dormant(yard(FULL, products=[product()], season=SUMMER))
    check = check_spread(book, "p1", {"z1": 2.0}, AUTUMN)
    assert not check.within
    assert check.zones[0].max_lb == 0
    (rule,) = check.zones[0].binding
    assert (rule.rule, rule.broken) == ("let go dormant", True)
    assert "AgCenter" in rule.source
    assert check.earliest_date == date(2026, 10, 16)
    assert any("let go dormant" in caution for caution in check.cautions)


def test_a_lawn_dormant_all_the_year_has_no_day_to_be_fed() -> None:
    check = check_spread(dormant(yard(FULL, products=[product()])), "p1", {"z1": 2.0}, AUTUMN)
    assert check.earliest_date is None


def test_outside_its_season_a_dry_years_setting_stops_no_feeding() -> None:
    book = dormant(yard(FULL, products=[product()], season=SUMMER))
    october = date(2026, 10, 20)
    assert check_spread(book, "p1", {"z1": 2.0}, october).within
    upcoming = nitrogen(book, october).next_feeding
    assert upcoming is not None
    assert upcoming.date == october


def test_less_water_does_not_stop_a_feeding() -> None:
    book = yard(FULL, products=[product()], season=SUMMER)
    less = replace(book, yard=replace(book.yard, drought="less"))
    assert nitrogen(less).next_feeding == nitrogen(book).next_feeding


def test_the_zone_tells_water_phosphate_potash_release_clippings_and_soil() -> None:
    fed = [feeding(date(2026, 9, 1), 2.0)]
    shelf = [product(p2o5_pct=6.0, k2o_pct=12.0)]
    well = yard(
        zone(clippings="left"),
        products=shelf,
        feedings=fed,
        waterings=[watering(date(2026, 9, 5), depth_in=1.0)],
    )
    figures = nitrogen(replace(well, yard=replace(well.yard, water_n_mg_per_l=10.0)))
    assert figures.p2o5_year == pytest.approx(0.12)
    assert figures.k2o_year == pytest.approx(0.24)
    assert figures.water_by_month[8] == pytest.approx(0.052, abs=0.0005)
    assert figures.applied_year == pytest.approx(0.48 + figures.water_by_month[8])
    assert figures.released is not None
    assert 0 < figures.released.to_come_lb < 0.48
    assert figures.clippings is not None
    assert 0 < figures.clippings.low_lb < figures.clippings.high_lb
    assert figures.soil is not None
    assert figures.soil.tested is None
    assert nitrogen(well).water_by_month == (0.0,) * 12


def test_one_zone_on_another_day_is_what_a_plan_of_that_day_has() -> None:
    fed = [feeding(date(2026, 9, 1), 2.0), feeding(date(2027, 4, 1), 1.0)]
    book = yard(zone(), zone(id="z2", name="Side"), products=[product()], feedings=fed)
    for on in (AUTUMN, date(2027, 5, 1)):
        whole = make_plan(book, on).nitrogen
        alone = tuple(nitrogen_on(book, each.zone_id, on) for each in whole)
        assert alone == whole
    with pytest.raises(KeyError):
        nitrogen_on(book, "nowhere", AUTUMN)
