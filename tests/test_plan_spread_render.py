"""The check before spreading as text: every part under its heading, aligned, nothing too wide."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.plan.feed_model import (
    PassZone,
    Shopping,
    SpreaderAdvice,
    SpreadPass,
    TankPlan,
    WateringIn,
    ZoneLoad,
)
from lawnbook.plan.model import BindingRule, SpreadCheck, ZoneSpread
from lawnbook.plan.render import spread_text

ON = date(2026, 9, 12)

RULE = BindingRule(
    rule="month budget",
    limit=0.83,
    value=0.9,
    source="A county's table",
    sentence="September may take 0.83 lb.",
    broken=True,
)


def spread(name: str, **values: Any) -> ZoneSpread:
    """A zone's part of an invented check."""
    zone = ZoneSpread(
        zone=name,
        zone_id=name,
        within=True,
        pounds=3.0,
        area_sqft=800.0,
        n_lb_per_1000=0.9,
        quick_lb_per_1000=0.45,
        month_after=0.9,
        month_budget=0.83,
        year_after=1.4,
        year_budget=2.75,
        over_by_lb_per_1000=0.0,
        max_lb=2.7777,
        binding=(RULE,),
        load=ZoneLoad(spread_lb=3.0, area_sqft=800.0, lb_per_1000=3.75),
        watering_in=WateringIn(
            depth_in=0.25,
            run_minutes=30.0,
            cycles=1,
            minutes_per_cycle=30.0,
            words="30 min for 0.25 in.",
            source="Somebody's practice",
        ),
    )
    return replace(zone, **values)


def check(*zones: ZoneSpread, **values: Any) -> SpreadCheck:
    """An invented check of some zones."""
    plain = SpreadCheck(
        within=all(zone.within for zone in zones),
        on=ON,
        product="Half slow",
        zones=zones,
        earliest_date=ON,
        verdict="Within budget on 12 Sep 2026.",
        cautions=("Read the label.",),
    )
    return replace(plain, **values)


FULL = check(
    spread("Front", load=ZoneLoad(
        spread_lb=3.0, area_sqft=800.0, lb_per_1000=3.75, strip_sqft=200.0, kept_out_lb=0.75,
        strips=("pond", "ditch"), volume_gal=0.3,
    )),
    spread("Back lawn beyond the very old and crooked apple tree by the lane", max_lb=16.666),
    notes=("0.60 in of rain is expected.",),
    split=(
        SpreadPass(
            date=ON,
            zones=(
                PassZone(zone="Front", zone_id="Front", pounds=2.7777, n_lb_per_1000=0.83),
                PassZone(zone="Back", zone_id="Back", pounds=16.666, n_lb_per_1000=0.83),
            ),
            pounds=19.4437,
        ),
        SpreadPass(
            date=date(2026, 10, 1),
            zones=(PassZone(zone="Front", zone_id="Front", pounds=0.229, n_lb_per_1000=0.07),),
            pounds=0.229,
        ),
    ),
    shopping=Shopping(
        count=1, package="bag", size=50.0, unit="lb", needed=6.0, left_over=44.0, cost=31.0,
        words="To buy, if you have none: 1 bag of 50 lb.",
    ),
    settings=(
        SpreaderAdvice(
            spreader="Drop", setting="4.8", lb_per_1000=3.8, wanted_lb_per_1000=3.75,
            basis="between", runs=2, words="Setting 4.8 lies between 3 and 5.",
        ),
    ),
    tanks=(
        TankPlan(
            sprayer="Backpack", covers_sqft=4000.0, gal_per_1000=1.0, full_tanks=1, tank_gal=4.0,
            product_lb=10.0, product_fl_oz=125.0, last_spray_gal=2.2, last_lb=5.5,
            last_fl_oz=69.0, walk_seconds_per_1000=180.0, words="Backpack: 1 full tank.",
        ),
    ),
)  # fmt: skip

HEADINGS = [
    "RULES", "IN PASSES", "TO LOAD", "TO BUY", "SPREADER", "TANKS", "WATERING IN", "NOTES",
    "CAUTIONS",
]  # fmt: skip


def lines_under(heading: str, text: str) -> list[str]:
    """The lines of one section."""
    lines = text.splitlines()
    rest = lines[lines.index(heading) + 1 :]
    return rest[: rest.index("")] if "" in rest else rest


def test_every_part_stands_under_its_heading_in_order() -> None:
    lines = spread_text(FULL).splitlines()
    assert [line for line in lines if line.isupper() and line in HEADINGS] == HEADINGS
    assert lines[0] == "Within budget on 12 Sep 2026."
    assert all(len(line) <= 100 for line in lines)
    assert all(line == line.rstrip() for line in lines)


def test_what_is_not_known_takes_no_heading() -> None:
    bare = check(spread("Front", load=None, watering_in=None, binding=()), cautions=())
    lines = spread_text(bare).splitlines()
    assert not set(HEADINGS) & set(lines)


def test_the_most_is_told_by_zone_and_in_all_rounded_down() -> None:
    text = spread_text(FULL)
    assert "Most that passes on 12 Sep 2026: 19.3 lb of Half slow" in text
    assert "First day on which all of it passes: 12 Sep 2026" in text
    none = spread_text(replace(FULL, earliest_date=None))
    assert "First day on which all of it passes: none within two years" in none


def test_a_strip_is_weighed_apart() -> None:
    head, front, back, together = lines_under("TO LOAD", spread_text(FULL))
    assert head.split("  ")[-1].strip() == "along"
    assert front.split() == [
        "Front",
        "3.00",
        "0.30",
        "800",
        "3.75",
        "200",
        "0.75",
        "pond,",
        "ditch",
    ]
    assert back.split()[-4:] == ["3.75", "0", "0.00", "–"]
    assert together == "Together 6.00 lb of Half slow"


def test_without_strips_and_volumes_the_table_is_short() -> None:
    head, row = lines_under("TO LOAD", spread_text(check(spread("Front"))))
    assert head.split() == ["zone", "lb", "on", "sq", "ft", "lb/1,000"]
    assert row.split() == ["Front", "3.00", "800", "3.75"]


def test_what_does_not_pass_is_not_offered_as_today_s_load() -> None:
    text = spread_text(check(spread("Front", within=False)))
    assert "TO LOAD, once it passes" in text
    assert "TO LOAD\n" not in text


def test_a_pass_never_tells_more_than_passes() -> None:
    """2.7777 lb told as 2.78 would no longer pass."""
    _, first, second, third = lines_under("IN PASSES", spread_text(FULL))
    assert first.split() == ["12", "Sep", "2026", "Front", "2.7", "0.83"]
    assert second.split() == ["Back", "16.6", "0.83"]
    assert third.split() == ["1", "Oct", "2026", "Front", "0.22", "0.07"]


def test_what_all_zones_share_is_told_once_with_its_source() -> None:
    text = spread_text(FULL)
    assert text.count("September may take 0.83 lb. [A county's table]") == 1
    assert "- All zones: September may take" in text
    assert lines_under("WATERING IN", text) == [
        "- All zones: 30 min for 0.25 in.",
        "  [Somebody's practice]",
    ]


def test_spreader_and_sprayer_are_named_once() -> None:
    text = spread_text(FULL)
    assert lines_under("SPREADER", text) == ["- Drop: Setting 4.8 lies between 3 and 5."]
    assert lines_under("TANKS", text) == ["- Backpack: 1 full tank."]


@pytest.mark.parametrize(("p2o5", "k2o"), [(0.0, 0.0), (0.05, 0.0), (0.0, 0.07), (0.05, 0.07)])
def test_phosphate_and_potash_are_shown_where_there_are_any(p2o5: float, k2o: float) -> None:
    head = spread_text(
        check(spread("Front", p2o5_lb_per_1000=p2o5, k2o_lb_per_1000=k2o))
    ).splitlines()[2]
    assert ("P2O5" in head, "K2O" in head) == (p2o5 > 0, k2o > 0)
