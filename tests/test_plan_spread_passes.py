"""A split into passes, and what to load, buy, set and mix for a spread."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from lawnbook.plan.feed_model import SpreadPass
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread, pounds_for_rate, share_by_area
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, NBudget, Season, SprayerRun, SpreaderRun
from tests.plan_yards import climate, feeding, product, rules, yard, zone

AUTUMN = date(2026, 9, 1)
SIDE = zone(id="z2", name="Side")
ROOMY = NBudget(id="b", name="Roomy", by_month=(2.0,) * 12, year_lb=12.0)


def roomy(*zones: Any, **tables: Any) -> Notebook:
    """A yard whose months take 2 lb, with a product all of whose nitrogen is slow."""
    lawns = zones or (zone(budget="b"),)
    given = {
        "climate": climate(tmean_f=(70.0,) * 12),
        "n_budgets": [ROOMY],
        "products": [product(n_pct=25.0, slow_n_pct=25.0)],
        **tables,
    }
    return yard(*lawns, **given)


def check(book: Notebook, pounds: float, on: date = AUTUMN) -> SpreadCheck:
    """The check of pounds of "p1" on the plain zone."""
    return check_spread(book, "p1", {"z1": pounds}, on)


def told(split: tuple[SpreadPass, ...]) -> list[tuple[date, float]]:
    """The days of a split and their pounds."""
    return [(each.date, round(each.pounds, 6)) for each in split]


def test_more_than_one_application_may_bring_is_split_two_weeks_apart() -> None:
    """10 lb of 25 % N are 2.5 lb N: 1 lb at once (Michigan State) and 2 lb in the month."""
    split = check(roomy(), 10.0).split
    assert told(split) == [
        (AUTUMN, 4.0),
        (date(2026, 9, 15), 4.0),
        (date(2026, 10, 1), 2.0),
    ]
    assert [each.zones[0].n_lb_per_1000 for each in split] == pytest.approx([1.0, 1.0, 0.5])


@pytest.mark.parametrize(("min_days", "second"), [(None, 14), (7, 7), (0, 1), (14, 14), (30, 30)])
def test_the_owners_days_between_feedings_stand_in_for_two_weeks(
    min_days: int | None, second: int
) -> None:
    split = check(roomy(n_rules=rules(min_days=min_days)), 8.0).split
    assert told(split)[0] == (AUTUMN, 4.0)
    # The day after is one on which all of an application's limit is free again.
    assert told(split)[1] == (AUTUMN + timedelta(days=second), 4.0)


def test_how_far_apart_the_passes_are_and_by_whose_rule_is_told() -> None:
    usual, own = "The passes are at least 14 days apart (common practice).", "at least 30 days"
    assert usual in check(roomy(), 8.0).notes
    assert not any("apart" in note for note in check(roomy(), 2.0).notes)
    ruled = check(roomy(n_rules=rules(name="Ash County", min_days=30)), 8.0).notes
    assert any(own in note and "Ash County" in note for note in ruled)


def test_what_passes_whole_needs_no_split() -> None:
    assert check(roomy(), 4.0).split == ()
    assert check(roomy(), 0.0).split == ()
    wait = roomy(n_rules=rules(blackouts=(Season(start="08-01", end="09-30"),)))
    later = check(wait, 4.0)
    assert later.earliest_date == date(2026, 10, 1)
    assert later.split == ()


def test_what_two_years_do_not_hold_has_no_split() -> None:
    book = yard(products=[product()])
    assert check(book, 200.0).split == ()
    assert check(roomy(n_rules=rules(min_slow_pct=100.0), products=[product()]), 9.0).split == ()


def test_the_first_pass_counts_what_was_fed_that_day() -> None:
    book = roomy(feedings=[feeding(AUTUMN, 3.0)])
    assert told(check(book, 4.0).split) == [(AUTUMN, 1.0), (date(2026, 9, 15), 3.0)]


def test_no_pass_is_put_late_into_a_month_that_is_fed_early() -> None:
    """Virginia's cool-season table feeds early November: with the growth for it, none after."""
    warm = climate(tmean_f=(60.0,) * 12)
    book = yard(zone(budget_level="full"), products=[product(slow_n_pct=24.0)], climate=warm)
    split = check(book, 5.0, date(2026, 11, 20)).split
    assert split
    assert all(each.date.month != 11 or each.date.day <= 15 for each in split)


def test_crumbs_are_not_worth_a_pass() -> None:
    """0.04 lb N are left of September, and October takes it all."""
    book = roomy(feedings=[feeding(date(2026, 8, 30), 1.0)], n_rules=rules(max_total_lb=0.5))
    own = NBudget(id="b", name="Tight", by_month=(0.54,) * 12, year_lb=12.0)
    split = check(replace(book, n_budgets={"b": own}), 4.0).split
    assert [each.date for each in split] == [AUTUMN, date(2026, 10, 1)]


def test_no_crumb_is_left_for_a_last_pass() -> None:
    """Of 1.01 lb N one application may bring 1 lb: 0.91 lb now leave 0.1, a pass of its own."""
    split = check(roomy(), 4.04).split
    assert told(split) == [(AUTUMN, 3.64), (date(2026, 9, 15), 0.4)]


def test_zones_share_the_days_of_a_split() -> None:
    """Front was fed in September up to its month, Side was not: Side begins, both go on."""
    book = roomy(
        zone(budget="b"),
        replace(SIDE, budget="b"),
        feedings=[feeding(date(2026, 9, 1), 4.0), replace(feeding(date(2026, 9, 1), 4.0), id="g")],
    )
    checked = check_spread(book, "p1", {"z1": 4.0, "z2": 8.0}, AUTUMN)
    days = [(each.date, [part.zone for part in each.zones]) for each in checked.split]
    assert days == [
        (AUTUMN, ["Side"]),
        (date(2026, 9, 15), ["Side"]),
        (date(2026, 10, 1), ["Front"]),
    ]
    assert [each.pounds for each in checked.split] == pytest.approx([4.0, 4.0, 4.0])


SHORE = Feature(
    id="x",
    kind="water",
    name="pond",
    outline_ft=rectangle_ft((-10.0, -30.0), 70.0, 30.0),
    no_spread_ft=5.0,
)


def test_an_area_by_hand_goes_before_the_strips() -> None:
    book = roomy(features=[SHORE])
    by_hand = check_spread(book, "p1", {"z1": 1.0}, AUTUMN, {"z1": 600.0}).zones[0]
    assert by_hand.area_sqft == 600
    assert by_hand.load is not None
    assert (by_hand.load.strip_sqft, by_hand.load.kept_out_lb) == (0, 0)
    whole = check_spread(
        book, "p1", {"z1": 1.0}, AUTUMN, conditions=Conditions(leave_strips=False)
    ).zones[0]
    assert whole.area_sqft == pytest.approx(1000)
    assert whole.load is not None
    assert whole.load.strips == ()


def test_what_is_spread_and_what_is_kept_out_are_the_whole_zones() -> None:
    """250 of 1,000 sq ft lie in the strip: of 4 lb at one rate over all, 3 are spread."""
    load = check(roomy(features=[SHORE]), 3.0).zones[0].load
    assert load is not None
    assert load.strip_sqft == pytest.approx(250)
    assert load.spread_lb + load.kept_out_lb == pytest.approx(4.0)
    assert load.lb_per_1000 == pytest.approx(4.0)
    assert load.strips == ("pond",)
    assert load.volume_gal is None


def test_rates_and_shares_are_of_the_area_that_is_treated() -> None:
    book = roomy(zone(), replace(SIDE, outline_ft=rectangle_ft((0, 50), 50, 20)), features=[SHORE])
    pounds = pounds_for_rate(book, "p1", ["z1", "z2"], 0.5)
    assert pounds == pytest.approx({"z1": 1.5, "z2": 2.0})
    assert share_by_area(book, ["z1", "z2"], 7.0) == pytest.approx({"z1": 3.0, "z2": 4.0})
    over_all = Conditions(leave_strips=False)
    assert pounds_for_rate(book, "p1", ["z1"], 0.5, conditions=over_all) == pytest.approx({"z1": 2})
    shares = share_by_area(book, ["z1", "z2"], 8.0, conditions=over_all)
    assert shares == pytest.approx({"z1": 4.0, "z2": 4.0})
    assert check_spread(book, "p1", pounds, AUTUMN).zones[0].n_lb_per_1000 == pytest.approx(0.5)


def test_a_zone_that_is_all_strip_is_refused_by_name() -> None:
    wide = replace(SHORE, no_spread_ft=50.0)
    with pytest.raises(OwnerError, match="all of Front lies in the strip along pond"):
        check(roomy(features=[wide]), 1.0)


def test_settings_are_told_once_for_each_rate() -> None:
    run = SpreaderRun(
        id="r",
        date=date(2026, 4, 1),
        product="p1",
        spreader="Drop",
        setting="5",
        strip_ft=50.0,
        width_ft=2.0,
        used_lb=0.4,
    )
    book = roomy(zone(budget="b"), replace(SIDE, budget="b"), spreader_runs=[run])
    (one,) = check_spread(book, "p1", {"z1": 4.0, "z2": 4.0}, AUTUMN).settings
    assert (one.spreader, one.setting) == ("Drop", "5")
    assert one.wanted_lb_per_1000 == pytest.approx(4.0)
    two = check_spread(book, "p1", {"z1": 4.0, "z2": 2.0}, AUTUMN).settings
    assert [each.wanted_lb_per_1000 for each in two] == pytest.approx([4.0, 2.0])
    assert [each.words.partition(": ")[0] for each in two] == ["Front", "Side"]
    assert check_spread(book, "p1", {"z1": 0.0}, AUTUMN).settings == ()
    later = check_spread(book, "p1", {"z1": 4.0}, date(2026, 3, 1)).settings
    assert not any(each.runs for each in later)


def sprayed(name: str, on: date, **values: Any) -> SprayerRun:
    """A sprayer's calibration: a gallon on 200 sq ft, a tank of 10 gal."""
    run = SprayerRun(
        id=f"{name}{on}", date=on, sprayer=name, area_sqft=200.0, used_gal=1.0, tank_gal=10.0
    )
    return replace(run, **values)


def test_a_liquid_is_told_in_gallons_and_by_tanks_of_each_sprayers_latest_run() -> None:
    liquid = product(
        form="liquid", n_pct=10.0, slow_n_pct=10.0, density_lb_per_gal=10.0, jug_gal=2.5
    )
    runs = [
        sprayed("Backpack", date(2026, 3, 1), tank_gal=3.0),
        sprayed("backpack ", date(2026, 4, 1), tank_gal=4.0),
        sprayed("Tow", date(2026, 4, 1)),
    ]
    book = roomy(products=[liquid], sprayer_runs=runs)
    checked = check(book, 5.0)
    load = checked.zones[0].load
    assert load is not None
    assert load.volume_gal == pytest.approx(0.5)
    assert [each.tank_gal for each in checked.tanks] == [4.0, 10.0]
    assert checked.settings == ()
    assert checked.shopping is not None
    assert (checked.shopping.package, checked.shopping.count) == ("jug", 1)
    named = check_spread(
        book, "p1", {"z1": 5.0}, AUTUMN, conditions=Conditions(spreader="TOW")
    ).tanks
    assert [each.sprayer for each in named] == ["Tow"]
    thick = roomy(products=[replace(liquid, density_lb_per_gal=None)], sprayer_runs=runs)
    bare = check(thick, 5.0).zones[0].load
    assert bare is not None
    assert bare.volume_gal is None


def test_a_check_tells_watering_in_and_notes() -> None:
    checked = check_spread(roomy(), "p1", {"z1": 4.0}, AUTUMN, conditions=Conditions(rain_in=2.0))
    assert checked.zones[0].watering_in is not None
    assert checked.zones[0].watering_in.depth_in == 0.25
    assert any("2.00 in of rain" in note for note in checked.notes)
