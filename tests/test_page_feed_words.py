"""What the feed page says: where a zone stands, what binds, the ledger's rows."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.desk.pages.feed_rules_words import limits_summary, soil_lines, soil_summary
from lawnbook.desk.pages.feed_words import (
    binding_lines,
    feed_attention,
    idle_sentence,
    load_table,
    most_words,
    next_feeding_words,
    pass_words,
    slow_sentence,
    standing_sentence,
    strip_lines,
    water_lines,
    zone_sentence,
)
from lawnbook.plan.feed_model import PassZone, SoilState, SpreadPass, WateringIn, ZoneLoad
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import BindingRule, NextFeeding, SpreadCheck, ZoneSpread
from lawnbook.plan.spread import check_spread
from lawnbook.yard.notebook import apply, new_notebook, put
from lawnbook.yard.records import NRules, Season
from tests.page_book import FEED_DAY, fed, page_notebook


@pytest.mark.parametrize(
    ("n_pct", "slow", "said"),
    [
        # A 24-0-8 with 15 % slow: 62.5 % of its nitrogen is slow (UC IPM's ratio of the label).
        (24.0, 15.0, "9 % quick and 15 % slow, both of the product: 62 % of its nitrogen is slow."),
        (21.0, 0.0, "21 % quick and 0 % slow, both of the product: 0 % of its nitrogen is slow."),
        (0.0, 0.0, "This product carries no nitrogen."),
    ],
)
def test_the_slow_part_is_told_both_ways(n_pct: float, slow: float, said: str) -> None:
    assert slow_sentence(n_pct, slow) == said


def test_more_slow_than_all_is_a_mistake() -> None:
    assert "cannot be more than all of it" in slow_sentence(10, 12)


def test_where_a_zone_stands() -> None:
    september = make_plan(page_notebook(), FEED_DAY).nitrogen[0]
    assert standing_sentence(september, FEED_DAY) == (
        "Front: September has room for 0.90 lb N per 1,000 sq ft. Up to 3.7 lb of Blend today."
    )
    june = date(2026, 6, 15)
    summer = make_plan(page_notebook(), june).nitrogen[0]
    assert standing_sentence(summer, june) == (
        "Front: June allows no nitrogen. Next room: 1 Sep 2026, up to 3.7 lb of Blend "
        "(0.90 lb N per 1,000 sq ft)."
    )
    waiting = replace(
        september,
        reason="Your rule asks for 21 days.",
        next_feeding=NextFeeding(
            date=date(2026, 9, 28), pounds=2.0, product="Blend", n_lb_per_1000=0.48
        ),
    )
    assert next_feeding_words(waiting, FEED_DAY) == (
        "Your rule asks for 21 days. Next room: 28 Sep 2026, up to 2.0 lb of Blend "
        "(0.48 lb N per 1,000 sq ft)."
    )
    full = apply(page_notebook(), put(page_notebook(), "feedings", fed(5)))
    # 5 lb of 24 % N on 1,000 sq ft is 1.2 lb N: 0.3 more than the month takes.
    over = make_plan(full, FEED_DAY).nitrogen[0]
    assert "September is over by 0.30 lb N" in standing_sentence(over, FEED_DAY)


def test_a_rule_that_binds_everywhere_is_said_once() -> None:
    check = check_spread(page_notebook(), "blend", {"front": 9.0, "side": 9.0}, FEED_DAY)
    lines = binding_lines(check, most=9)
    assert len(set(lines)) == len(lines)
    rule = BindingRule(
        rule="month", limit=0.7, value=1.0, source="a table", sentence="Too much.", broken=True
    )
    same = tuple(replace(each, binding=(rule,)) for each in check.zones)
    assert binding_lines(replace(check, zones=same)) == ("Too much. (a table)",)
    one = (replace(same[0], binding=(rule,)), replace(same[1], binding=()))
    assert binding_lines(replace(check, zones=one)) == ("Front: Too much. (a table)",)
    many = tuple(replace(rule, sentence=f"Rule {k}.") for k in range(7))
    long = binding_lines(replace(check, zones=(replace(same[0], binding=many),)))
    assert long[-2:] == ("and 2 more.", "Source: a table.")


def test_no_room_is_told_as_none() -> None:
    check = check_spread(page_notebook(), "blend", {"front": 1.0}, date(2026, 7, 1))
    assert most_words(check.zones[0]) == "none"


def test_the_limits_in_short() -> None:
    rules = NRules(
        id="n_rules", max_total_lb=0.9, year_lb=3.2, blackouts=(Season(start="11-15", end="03-01"),)
    )
    assert limits_summary(rules) == "0.9 lb at once, 3.2 a year, 15 Nov to 1 Mar none"
    assert limits_summary(NRules(id="n_rules")) == "the usual ones"


def test_what_is_said_with_nothing_to_check() -> None:
    assert "Draw a zone" in idle_sentence(new_notebook("Bare"), "")
    assert idle_sentence(page_notebook(), "Room.") == "Room."


def test_percentages_that_cannot_be_are_left_to_their_fields() -> None:
    assert slow_sentence(1e6, 0.0) == slow_sentence(120, 20) == slow_sentence(20, -1) == ""


def test_a_zone_over_its_budget_says_by_how_much() -> None:
    said = {
        pounds: zone_sentence(
            check_spread(page_notebook(), "blend", {"front": pounds}, FEED_DAY).zones[0], FEED_DAY
        )
        for pounds in (2.5, 4.0)
    }
    # 2.5 lb of 24 % N on 1,000 sq ft is 0.60 lb, 40 % of it quick; 4 lb is 0.96 of 0.90.
    assert said[2.5] == (
        "Front, fits: 0.60 lb N per 1,000 sq ft, 0.24 of it quick. With this, September has had "
        "0.60 of the 0.90 allowed, and the year 0.60 of the 3.50 allowed."
    )
    assert said[4.0].startswith("Front, over by 0.06: 0.96 lb N per 1,000 sq ft, 0.38 of it quick.")


def test_phosphate_and_potash_that_come_with_it_are_told() -> None:
    spread = check_spread(page_notebook(), "blend", {"front": 2.5}, FEED_DAY).zones[0]
    both = replace(spread, p2o5_lb_per_1000=0.2, k2o_lb_per_1000=0.05)
    assert "0.24 of it quick, with 0.20 lb P₂O₅ and 0.05 lb K₂O. With" in zone_sentence(
        both, FEED_DAY
    )
    assert "quick, with 0.05 lb K₂O." in zone_sentence(
        replace(both, p2o5_lb_per_1000=0.0), FEED_DAY
    )


def test_a_month_that_allows_nothing_is_not_told_as_a_share() -> None:
    july = date(2026, 7, 15)
    spread = check_spread(page_notebook(), "blend", {"front": 1.0}, july).zones[0]
    assert "July has had 0.24 where none is allowed, and the year" in zone_sentence(spread, july)


def test_what_binds_in_most_zones_comes_first_and_its_zones_are_not_all_named() -> None:
    check = check_spread(page_notebook(), "blend", {"front": 9.0, "side": 9.0}, FEED_DAY)
    (front, side) = check.zones
    few = BindingRule(rule="a", limit=1, value=2, source="a table", sentence="Few.", broken=True)
    many = replace(few, rule="b", sentence="Many.")
    zones = (
        replace(front, binding=(few,)),
        *(replace(side, zone=f"Zone {k}", binding=(many,)) for k in range(30)),
    )
    first, second, *_ = binding_lines(replace(check, zones=zones))
    assert first.startswith("Zone 0, Zone 1")
    assert first.endswith("more: Many.")
    assert "Zone 29" not in first
    assert second == "Front: Few."


def loaded(zone: str, pounds: float, **load: Any) -> ZoneSpread:
    """A zone's part of a check with what to load for it."""
    checked = check_spread(page_notebook(), "blend", {"front": 1.0}, FEED_DAY).zones[0]
    held = ZoneLoad(spread_lb=pounds, area_sqft=1000.0, lb_per_1000=pounds, **load)
    return replace(checked, zone=zone, zone_id=zone.lower(), pounds=pounds, load=held)


def checked_with(*zones: ZoneSpread) -> SpreadCheck:
    return replace(
        check_spread(page_notebook(), "blend", {"front": 1.0}, FEED_DAY), zones=tuple(zones)
    )


def test_what_to_load_leaves_out_columns_that_nobody_needs() -> None:
    heads, lines = load_table(checked_with(loaded("Front", 2.5)))
    assert heads == ("Zone", "Product, lb", "on sq ft", "lb per 1,000 sq ft")
    assert lines == (("Front", ("2.50", "1,000", "2.50")),)


def test_what_to_load_tells_strips_volumes_and_sums() -> None:
    strip = {"strip_sqft": 200.0, "kept_out_lb": 0.5, "strips": ("Pond", "Drain")}
    check = checked_with(
        loaded("Front", 2.5, volume_gal=0.25, **strip), loaded("Side", 1.0, volume_gal=0.1)
    )
    heads, lines = load_table(check)
    assert heads[2] == "or fl oz"
    assert heads[-1] == "Kept back, lb"
    assert [name for name, _ in lines] == ["Front", "Side", "All zones"]
    # A quarter of a gallon of 128 fl oz is 32.
    assert lines[0][1] == ("2.50", "32.0", "1,000", "2.50", "0.50")
    assert lines[1][1][-1] == "–"
    assert lines[2][1] == ("3.50", "44.8", "2,000", "", "0.50")
    (said,) = strip_lines(check)
    assert said.startswith(
        "Front: 200 sq ft along Pond, Drain get nothing, and the weight leaves them out: the "
    )


def test_a_volume_that_is_not_known_for_all_is_not_summed() -> None:
    _, lines = load_table(checked_with(loaded("Front", 2.5, volume_gal=0.25), loaded("Side", 1.0)))
    assert lines[1][1][1] == lines[2][1][1] == "–"


def test_a_zone_that_gets_nothing_is_not_loaded() -> None:
    assert load_table(checked_with(loaded("Front", 0.0)))[1] == ()


def test_watering_in_is_told_by_zone_and_what_holds_for_all_once() -> None:
    def with_water(zone: str, words: str) -> ZoneSpread:
        water = WateringIn(
            depth_in=0.25, run_minutes=None, cycles=None, minutes_per_cycle=None, words=words
        )
        return replace(loaded(zone, 1.0), watering_in=water)

    rule = "Your watering rule allows none on Thu 10 Sep."
    check = checked_with(
        with_water("Front", f"13 min for 0.25 in. {rule}"),
        with_water("Side", f"10 min for 0.25 in. {rule}"),
        with_water("Back", f"10 min for 0.25 in. {rule}"),
    )
    assert water_lines(check) == (
        "Front: 13 min for 0.25 in.",
        "Side, Back: 10 min for 0.25 in.",
        rule,
    )
    alone = checked_with(with_water("Front", "13 min for 0.25 in."))
    assert water_lines(alone) == ("13 min for 0.25 in.",)


def test_a_pass_tells_day_pounds_and_rates() -> None:
    zones = tuple(
        PassZone(zone=name, zone_id=name, pounds=pounds, n_lb_per_1000=rate)
        for name, pounds, rate in (("Front", 2.0, 0.48), ("Side", 0.5, 0.24))
    )
    part = SpreadPass(date=FEED_DAY, zones=zones, pounds=2.5)
    assert pass_words(part) == (
        "10 Sep 2026: 2.00 lb on Front, 0.50 lb on Side (0.24 to 0.48 lb N per 1,000 sq ft)"
    )


def test_a_section_is_marked_only_for_a_reason() -> None:
    notebook = page_notebook()
    zone = make_plan(notebook, FEED_DAY).nitrogen[0]
    assert set(feed_attention(notebook, zone, FEED_DAY).values()) == {""}
    over = feed_attention(notebook, replace(zone, left_this_year=-0.25), FEED_DAY)
    assert over["Year"] == "Front is over the year's budget by 0.25 lb N."
    assert feed_attention(new_notebook("Bare"), None, FEED_DAY)["Shelf"]


def test_limits_are_summed_up_in_one_line() -> None:
    rules = NRules(id="n_rules", min_slow_pct=20, min_days=30, waterside_ft=10)
    assert limits_summary(rules) == "20 % slow, 30 days apart, 10 ft from water"


def test_the_soil_says_first_when_it_was_tested() -> None:
    soil = SoilState(
        zone="Front",
        zone_id="front",
        tested=None,
        due=FEED_DAY,
        ph=None,
        om_pct=None,
        p_ppm=None,
        k_ppm=None,
        phosphate_allowed=False,
        phosphate_words="Phosphate waits for a test.",
        phosphate_source="a source",
        notes=("A note.",),
    )
    assert soil_lines(soil) == (
        "Front: no soil test on record; one is due.",
        "Phosphate waits for a test. (a source)",
        "A note.",
    )
    assert soil_summary(soil) == "none yet"
    known = replace(soil, tested=date(2025, 4, 2), due=date(2028, 4, 2))
    assert soil_summary(known) == "tested 2 Apr 2025, due 2 Apr 2028"
