"""What the water page says: the answer, the rate, the roots, the months, the cans."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.desk.pages.water_words import (
    STALE,
    answer_sentence,
    assumed_sentence,
    crowns_sentence,
    first_needs,
    month_sentence,
    next_words,
    rate_sentence,
    rooting_reminder,
    roots_now_sentence,
    table_row,
    target_sentence,
    unwatered_sentence,
)
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import ZoneWater
from lawnbook.yard.numbers import day
from tests.page_book import WATER_DAY, page_notebook
from tests.water_fixture import establishing

UNKNOWN_RUN = "How long to run cannot be said until the precipitation rate is known."


def zone_water(name: str = "Front") -> ZoneWater:
    plan = make_plan(page_notebook(), WATER_DAY)
    return next(zone for zone in plan.zones if zone.zone == name)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {"depth_in": 0.41, "interval_days": 2, "run_minutes": 27.0, "cycles": 3,
             "minutes_per_cycle": 9.0, "soak_minutes": 21.0, "gallons": 1260.0},
            "Water 0.41 in every 2 days: 3 cycles of 9 min with 21 min soak, 1,260 gallons.",
        ),
        (
            {"depth_in": 0.2, "interval_days": 1, "run_minutes": 12.4, "cycles": 1,
             "minutes_per_cycle": 12.4, "soak_minutes": 0.0, "gallons": 90.0},
            "Water 0.20 in every day: 13 min in one run, 90 gallons.",
        ),
        (
            {"depth_in": 0.2, "interval_days": 3, "run_minutes": None, "gallons": None},
            f"Water 0.20 in every 3 days. {UNKNOWN_RUN}",
        ),
        (
            {"depth_in": 0.22, "interval_days": 1, "run_minutes": None, "gallons": 15.2},
            f"Water 0.22 in every day, 15 gallons. {UNKNOWN_RUN}",
        ),
    ],
)  # fmt: skip
def test_the_answer_in_words(changes: dict[str, Any], said: str) -> None:
    zone = replace(zone_water(), next_watering=None, next_allowed=None, **changes)
    assert answer_sentence(zone, WATER_DAY) == said


@pytest.mark.parametrize(
    ("following", "said"),
    [
        (date(2026, 6, 17), "Next: Wed 17 Jun."),
        (date(2027, 4, 16), "Next: Fri 16 Apr 2027."),
        (WATER_DAY, "Next: today."),
        (date(2026, 6, 14), "Next: today."),
    ],
)
def test_when_next_is_said_on_a_line_of_its_own(following: date, said: str) -> None:
    zone = replace(zone_water(), next_watering=following, next_allowed=following)
    assert answer_sentence(zone, WATER_DAY).splitlines()[-1] == said


def test_the_day_that_the_owners_rule_allows_is_the_one_told() -> None:
    used_up, allowed = date(2026, 7, 3), date(2026, 7, 6)
    zone = replace(zone_water(), next_watering=used_up, next_allowed=allowed)
    assert next_words(zone, WATER_DAY) == "Next: Mon 6 Jul, as your rule allows."
    assert table_row(zone, WATER_DAY)[-1] == "6 Jul"
    never = replace(zone, next_allowed=None)
    assert next_words(never, WATER_DAY) == ""
    assert table_row(never, WATER_DAY)[-1] == "–"


def test_a_zone_that_rests_on_assumed_values_is_marked_and_they_are_named() -> None:
    front = replace(zone_water(), defaults=("roots 6 in",))
    side = replace(zone_water("Side"), defaults=("soil loam", "DU 0.65"))
    sound = replace(front, defaults=())
    assert table_row(front, WATER_DAY)[0] == "1 Front *"
    assert table_row(sound, WATER_DAY)[0] == "1 Front"
    assert assumed_sentence((sound,)) == ""
    assert assumed_sentence((front,)) == "* assumed until measured or entered: roots 6 in."
    assert assumed_sentence((front, side)) == (
        "* assumed until measured or entered: roots 6 in (Front); soil loam, DU 0.65 (Side)."
    )


def test_what_a_zone_needs_first() -> None:
    known = page_notebook().zones["front"]
    bare = replace(known, soil=None)
    unknown = replace(zone_water(), precipitation_rate_in_per_h=None)
    assert first_needs(known, zone_water()) == ("", "")
    ground, rate = first_needs(bare, unknown)
    assert ground.startswith("Say first what ground this is")
    assert "set out some cans" in rate
    assert first_needs(replace(bare, irrigated=False), unknown) == ("", "")


def test_no_watering_is_told_with_its_reason() -> None:
    zone = replace(zone_water(), depth_in=None, reason="Outside the irrigation season.")
    assert (
        answer_sentence(zone, WATER_DAY) == "No watering is planned: outside the irrigation season."
    )


def test_what_is_not_irrigated_is_told_once() -> None:
    reason = "Not irrigated: no watering is planned."
    zone = replace(zone_water(), depth_in=None, irrigated=False, reason=reason)
    assert answer_sentence(zone, WATER_DAY) == reason
    bare = replace(zone, precipitation_rate_in_per_h=None, rate_source=None)
    assert rate_sentence(bare) == "Not irrigated: no rate is needed."


def test_new_turf_is_said_to_have_a_rule_of_its_own_beside_the_months() -> None:
    assert rooting_reminder(replace(zone_water(), establishing=None)) == ""
    rule = establishing()
    told = rooting_reminder(replace(zone_water(), establishing=rule))
    assert told == f"Until {day(rule.until)} the rule of new {rule.how} takes the place of these."


@pytest.mark.parametrize(
    ("thatch_in", "told"), [(0.74, "from the crowns down, 0.7 in of thatch among it."),
                            (0.04, "from the crowns down.")],
)  # fmt: skip
def test_from_where_roots_are_counted_is_said(thatch_in: float, told: str) -> None:
    assert told in crowns_sentence(thatch_in)


def test_where_the_rate_comes_from_is_said() -> None:
    # 3.66 × 45 mL ÷ (20 min × 9 sq in) = 0.915 in/h; lowest quarter 40 of 45 (the catch-can
    # method of the Irrigation Association, as in New Mexico State University Guide H-510).
    assert (
        rate_sentence(zone_water())
        == "0.92 in/h from the catch test; lowest quarter 0.89 of the mean."
    )
    # 96.25 × 5 gpm ÷ 500 sq ft.
    assert rate_sentence(zone_water("Side")) == (
        "0.96 in/h from the flows of its heads; evenness never measured, 0.65 assumed."
    )
    bare = replace(zone_water(), precipitation_rate_in_per_h=None, rate_source=None)
    assert "set out cans" in rate_sentence(bare)


def test_a_stale_catch_test_is_said_in_words_not_by_colour_alone() -> None:
    told = rate_sentence(replace(zone_water(), rate_stale=True))
    assert told.endswith(f" {STALE} Set out the cans again.")
    assert STALE not in rate_sentence(zone_water())


def test_roots_now_and_the_target() -> None:
    zone = zone_water()
    # 6 in of loam bear 0.40 × 0.17 × 6 = 0.41 in; an inch needs 14.7 in.
    assert "Roots reach 6.0 in into the soil (assumed until the first plug)" in roots_now_sentence(
        zone
    )
    # June's 0.24 in a day of ETo × 0.86: one day's use fits into that, two days' do not.
    assert roots_now_sentence(zone).endswith(
        "bear up to 0.41 in at a time, which covers one whole day of use, 0.21 in."
    )
    assert "needs roots 14.7 in into the soil: 8.7 in to go." in target_sentence(zone)
    thirsty = replace(zone, limited_by="one day")
    assert roots_now_sentence(thirsty).endswith("at a time, less than one day's use.")
    sparing = replace(zone, limited_by="target")
    assert roots_now_sentence(sparing).endswith("and bear up to 0.41 in at a time.")
    # 14.706 less 1.75 is 12.956, but the reader sees 14.7 less 1.8.
    shallow = replace(zone, rooted_soil_in=1.75, roots_needed_in=14.706)
    assert "12.9 in to go" in target_sentence(shallow)
    deep = replace(zone, rooted_soil_in=20.0)
    assert target_sentence(deep).endswith("is within what these roots bear.")


def test_a_row_says_today_and_dashes_what_is_unknown() -> None:
    zone = zone_water()
    assert table_row(replace(zone, next_allowed=WATER_DAY), WATER_DAY)[-1] == "today"
    bare = replace(
        zone, precipitation_rate_in_per_h=None, rate_source=None, run_minutes=None, cycles=None
    )
    assert table_row(bare, WATER_DAY)[1] == "–"
    assert table_row(bare, WATER_DAY)[3:5] == ("–", "–")
    soaked = replace(zone, cycles=2, minutes_per_cycle=15.6, soak_minutes=59.2)
    assert table_row(soaked, WATER_DAY)[4] == "2 × 16 (59)"


def test_a_month_without_watering_says_why() -> None:
    january = zone_water().months[0]
    assert month_sentence(january) == january.reason
    assert january.reason


def test_each_reason_for_no_water_is_said_once() -> None:
    front = zone_water()
    dry = replace(front, zone="Side", depth_in=None, reason="Not irrigated.")
    verge = replace(dry, zone="Verge")
    resting = replace(dry, zone="Back", reason="Dormant in January.")
    assert unwatered_sentence((front, front)) == ""
    assert unwatered_sentence((dry,)) == "", "the answer says it"
    assert unwatered_sentence((dry, verge)) == "None is watered: not irrigated."
    assert unwatered_sentence((front, dry, resting, verge)) == (
        "Side, Verge not watered: not irrigated. Back not watered: dormant in January."
    )


def test_a_rate_that_is_missing_for_a_reason_says_it() -> None:
    why = "Precipitation rate is not known: 1 of 3 heads has no flow."
    bare = replace(zone_water(), precipitation_rate_in_per_h=None, rate_source=None, reason=why)
    assert rate_sentence(bare) == why
