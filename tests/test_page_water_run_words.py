"""What the water page says of runs, nights, the year and the heads' throw."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from lawnbook.desk.pages.water_run_words import (
    along_sentence,
    money,
    next_title,
    night_rows,
    night_sentence,
    night_title,
    other_days,
    other_nights,
    program_of,
    rain_sentence,
    run_figures,
    unusual_sentence,
    used_sentence,
    weekday,
)
from lawnbook.desk.pages.water_spread_words import (
    cans_beside_map,
    coverage_figures,
    coverage_sentences,
)
from lawnbook.desk.pages.water_words import (
    answer_sentence,
    attention,
    growth_sentence,
    next_words,
    thatch_over_roots_in,
)
from lawnbook.desk.pages.water_year_words import (
    dry_year_sentence,
    year_description,
    year_heads,
    year_rows,
)
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.water_model import RainCredit
from tests.page_book import page_notebook
from tests.water_fixture import (
    CREDIT,
    ON,
    coverage,
    establishing,
    next_run,
    program,
    stretch,
    zone_year,
)


def plan_of_page() -> Plan:
    return make_plan(page_notebook(), ON)


def front() -> ZoneWater:
    return plan_of_page().zones[0]


def test_the_figures_of_a_run_have_their_words() -> None:
    assert run_figures(next_run()) == (
        ("0.42 in", "net depth"),
        ("3 × 10 min", "cycles, 24 min soak between"),
        ("1,290 gal", "of water"),
        ("7.74", "cost, at your price"),
        ("6.0 in", "of soil wetted"),
    )
    bare = replace(next_run(), cost=None, run_minutes=None, cycles=None, minutes_per_cycle=None)
    assert [value for value, _ in run_figures(bare)] == ["0.42 in", "–", "1,290 gal", "6.0 in"]
    once = replace(next_run(), run_minutes=12.2, cycles=1, minutes_per_cycle=12.2)
    assert run_figures(once)[1] == ("13 min", "in one run")
    assert run_figures(once, places=2)[1] == ("13 min", "at each of 2 places")
    assert run_figures(bare, places=2)[1] == run_figures(bare)[1]


def test_new_turf_is_watered_in_parts_of_a_day_and_not_in_cycles() -> None:
    light = replace(next_run(), run_minutes=12.0, cycles=2, minutes_per_cycle=6.0)
    assert run_figures(light, 2)[1] == ("2 × 6 min", "twice that day")
    rule = replace(establishing(), times_a_day=3)
    zone = replace(front(), establishing=rule, cycles=3, minutes_per_cycle=4.0, run_minutes=12.0)
    assert ": 4 min three times that day," in answer_sentence(zone, ON)


@pytest.mark.parametrize(
    ("ahead", "told"),
    [(0, "Next watering: today"), (-1, "Next watering: today"), (2, "Next watering: Wed 17 Jun")],
)
def test_the_day_of_the_next_run(ahead: int, told: str) -> None:
    assert next_title(next_run(ON + timedelta(days=ahead)), ON) == told


@pytest.mark.parametrize(
    ("ahead", "night", "told"),
    [
        (0, 1, "Due today: tonight’s run"),
        (1, 1, "Next watering: tonight, by Tue 16 Jun"),
        (2, 1, "Next watering: Wed 17 Jun"),
        (2, 2, "Next watering: Wed 17 Jun"),
        (0, 2, "Next watering: today"),
    ],
)
def test_what_is_due_and_run_tonight_is_one_watering(ahead: int, night: int, told: str) -> None:
    run = next_run(ON + timedelta(days=ahead))
    program_tonight = replace(program(), morning=ON + timedelta(days=night))
    assert next_title(run, ON, program_tonight) == told
    zone = replace(front(), next_watering=run.date, next_allowed=run.date)
    following = next_words(zone, ON, tonight=night == 1)
    assert (following == "Due today: tonight’s run.") == (ahead == 0 and night == 1)
    assert ("taken along tonight" in following) == (ahead > night)


def test_a_run_taken_along_early_says_why_its_minutes_are_fewer() -> None:
    """The timer gives the front zone 3 × 10 min; its own run of two days later takes 46."""
    tonight = replace(program(), morning=ON + timedelta(days=1))
    later = replace(next_run(ON + timedelta(days=2)), run_minutes=46.0, minutes_per_cycle=46 / 3)
    zone = replace(front(), next_run=later)
    told = along_sentence(zone, tonight, ON)
    assert told.startswith("The timer does it tonight, 1 day early, with the rest of its program: ")
    assert "30 min, not 48, as less is used up by then." in told
    assert along_sentence(zone, replace(tonight, morning=later.date), ON) == ""
    assert along_sentence(zone, None, ON) == ""
    same = replace(zone, next_run=next_run(ON + timedelta(days=2)))
    assert ": 30 min. That run" in along_sentence(same, tonight, ON)
    # Two lengths that are compared are both in minutes, as a timer is set, however long.
    long = replace(tonight, timer=tuple(replace(each, minutes=44) for each in tonight.timer))
    longest = replace(later, run_minutes=150.0, minutes_per_cycle=50.0)
    assert "132 min, not 150," in along_sentence(replace(zone, next_run=longest), long, ON)


def test_a_run_of_another_depth_than_the_usual_is_told() -> None:
    zone = replace(front(), depth_in=0.17, next_run=next_run(ON, 0.36))
    assert unusual_sentence(zone) == (
        "0.36 in this time, not the usual 0.17 in: by what is used up."
    )
    assert unusual_sentence(replace(zone, depth_in=0.361)) == ""
    assert unusual_sentence(replace(zone, rule="light")) == ""


def test_all_used_up_is_told_without_figures() -> None:
    words, short = used_sentence(replace(next_run(), share_used=1.0, stress=0.0))
    assert words == (
        "By that dawn all of the roots’ water is used up, and the grass can draw no more."
    )
    assert short


def test_a_day_of_another_year_has_its_year() -> None:
    assert weekday(ON.replace(year=2027), ON) == "Tue 15 Jun 2027"


def test_what_is_used_up_by_then_and_whether_the_grass_is_short() -> None:
    assert used_sentence(next_run()) == (
        "By that dawn 41\u00a0% of the roots’ water is used up; the grass is not short.",
        False,
    )
    # FAO-56 eq. 84: Ks = (1 - 0.7) / (1 - 0.4) = 0.5 with 70 % used up at p = 0.4.
    words, short = used_sentence(replace(next_run(), share_used=0.7, stress=0.5))
    assert words.endswith("the grass draws only 50\u00a0% of its full use.")
    assert short
    past = used_sentence(replace(next_run(), share_used=0.0, past_roots_in=0.12))[0]
    assert past.startswith("By that dawn none of the roots’ water")
    assert past.endswith("0.12 in of this watering would drain past the roots.")


def test_other_days_are_told_unless_they_are_the_next_itself() -> None:
    run = next_run()
    today = next_run(ON, 0.21)
    zone = replace(front(), next_run=run, today_run=today, sooner_run=None)
    assert other_days(zone, ON) == (
        "Today instead: 0.21 in, 3 × 10 min, 1,290 gal, 7.74 at your price.",
    )
    assert other_days(replace(zone, next_run=today), ON) == ()
    sooner = replace(zone, today_run=None, sooner_run=next_run(ON + timedelta(days=1)))
    assert other_days(sooner, ON)[0].startswith("Sooner, Tue 16 Jun, the last day your rule")
    (only,) = other_days(replace(zone, sooner_run=today), ON)
    assert only.startswith("Sooner, today, the last day your rule")


@pytest.mark.parametrize(
    ("credit", "told"),
    [
        (None, ""),
        (RainCredit(fallen_in=0.0, counted_in=0.0, days_moved=0), ""),
        (
            RainCredit(fallen_in=0.04, counted_in=0.0, days_moved=0),
            "Rain of 0.04 in in the last week was too little at a time to count.",
        ),
        (
            RainCredit(fallen_in=0.62, counted_in=0.62, days_moved=3),
            "Rain of 0.62 in in the last week moved this by 3 days.",
        ),
        (
            CREDIT,
            "Rain of 0.70 in in the last week, 0.62 in of it counted, moved this by 3 days.",
        ),
        (
            RainCredit(fallen_in=0.62, counted_in=0.62, days_moved=0),
            "Rain of 0.62 in in the last week did not change the day.",
        ),
    ],
)
def test_rain_in_words(credit: RainCredit | None, told: str) -> None:
    assert rain_sentence(credit) == told


def test_a_night_in_words_and_rows() -> None:
    run = program()
    assert night_title(run, ON) == "Night of Tue 16 to Wed 17 Jun, program A"
    assert night_title(run, ON + timedelta(days=1)) == "Tonight, program A"
    assert night_title(replace(run, program=""), ON + timedelta(days=2)) == "This morning"
    assert night_sentence(run) == ("Starts 03:20, done 04:48: 88 min in all, soaks counted in.")
    assert night_sentence(program(timed=False)) == "88 min in all, soaks counted in."
    assert night_rows(run) == (
        ("front", ("1 Front", "03:20, 03:54, 04:38", "3 × 10")),
        ("side", ("2 Side", "03:30, 04:10", "2 × 12")),
    )
    assert night_rows(program(timed=False))[0] == ("front", ("1 Front", "3 cycles", "3 × 10"))
    first = replace(run.timer[0], minutes=4)
    wetted = replace(run, timer=(first, *run.timer[1:]))
    assert night_rows(wetted)[0][1][2] == "4 + 10 + 10 = 24"
    over_months = replace(run, morning=date(2026, 7, 1), program="")
    assert night_title(over_months, ON) == "Night of Tue 30 Jun to Wed 1 Jul"


def test_a_zone_finds_its_night_and_the_others_are_told_in_a_line() -> None:
    run = program()
    other = replace(run, program="B", zones=("Back",), timer=())
    plan = replace(plan_of_page(), programs=(other, run))
    assert program_of(plan, plan.zones[0]) is run
    assert other_nights(plan.programs, run, ON) == (
        "Also due. Night of Tue 16 to Wed 17 Jun, program B: Back."
    )
    assert other_nights((run,), run, ON) == ""
    assert program_of(replace(plan, programs=()), plan.zones[0]) is None


def test_sections_are_marked_where_something_wants_a_look() -> None:
    plan = replace(plan_of_page(), programs=(program(shortfall=28),))
    marks = attention(replace(front(), rate_stale=True), plan)
    assert marks["Now"] == "The night is too short for this program."
    assert "older than a change" in marks["Sprinklers"]
    calm = attention(front(), replace(plan, programs=(program(),)))
    assert calm == {"Now": "", "Sprinklers": ""}


def test_the_year_has_a_column_for_each_way_and_money_only_with_a_price() -> None:
    year = zone_year(full=True)
    assert year_heads(year) == ("", "Plan", "Old habit", "No dry year")
    rows = dict(year_rows(year))
    assert rows["Waterings"] == ("41", "182", "50")
    assert rows["Water, gal"] == ("18,400", "31,000", "23,000")
    assert rows["At your price"] == ("110.40", "186.00", "138.00")
    # 18,400 / 800 in wet the soil of 18,400 / 623.4 in put down.
    assert rows["  of each inch put down"][0] == f"{623.4 / 800:.2f}"
    assert rows["Roots’ water used up, driest day"][0] == "46\u00a0%"
    alone = zone_year(habit=False)
    free = replace(alone, plan=replace(alone.plan, cost=None, gross_in=0.0))
    assert year_heads(free) == ("", "Plan")
    assert "At your price" not in dict(year_rows(free))
    assert dict(year_rows(free))["  of each inch put down"] == ("–",)
    assert "Water, gal: Plan 18,400, Old habit 31,000" in year_description(zone_year())


def test_what_a_dry_year_costs_and_spares() -> None:
    year = zone_year(full=True)
    assert year.full is not None
    dry = replace(year, plan=replace(year.plan, stress_days=24))
    assert dry_year_sentence(dry, "less") == (
        "It costs 20 more days short of water a year, 24 instead of 4, and spares 4,600 gallons."
    )
    assert dry_year_sentence(year, "less").startswith(
        "It costs no more days short of water than without it, 4,"
    )
    one = replace(year, plan=replace(year.plan, stress_days=5))
    assert "1 more day short" in dry_year_sentence(one, "survival")
    assert dry_year_sentence(dry, "off") == ""
    assert dry_year_sentence(None, "less") == ""
    assert dry_year_sentence(zone_year(), "less") == ""


def test_the_map_in_figures_and_words() -> None:
    assert [value for value, _ in coverage_figures(coverage())] == [
        "0.86 in/h", "0.58", "0.74", "0.71", "12\u00a0%",
    ]  # fmt: skip
    words = " ".join(coverage_sentences(coverage()))
    assert words.startswith("Computed from 6 heads and 2 heads of neighbouring zones.")
    assert (
        "7\u00a0% of the zone gets less than half the mean; driest is near 4 ft east, 3 ft" in words
    )
    even = replace(
        coverage(), dry_share=0.0, wet_share=0.0, neighbours=0, without_flow=1, assumed_profiles=1
    )
    told = coverage_sentences(even)
    assert told[0] == "Computed from 5 heads."
    assert told[1].startswith("No patch")
    assert told[2].startswith("1 head without a flow has been left out")
    assert told[3].startswith("1 head taken to throw a cone")


def test_cans_and_map_are_set_side_by_side_only_where_there_are_both() -> None:
    zone = replace(front(), coverage=coverage())
    assert cans_beside_map(zone) == (
        "The cans measured 0.92 in/h, DU 0.89; the map computes 0.86 in/h, DU 0.58. "
        "The plan goes by the cans."
    )
    assert cans_beside_map(replace(zone, rate_source="meter")) == ""
    assert cans_beside_map(replace(zone, coverage=None)) == ""


def test_how_the_roots_grow() -> None:
    assert growth_sentence(stretch()) == (
        "By these plugs the roots go down 1.4 in a year. Next plugs: 12 Sep 2026."
    )
    unknown = replace(stretch(), growth_in_per_year=None, plug_due=None)
    assert growth_sentence(unknown).endswith("cannot be told from these plugs yet.")
    assert "not getting deeper" in growth_sentence(replace(stretch(), growth_in_per_year=-0.2))
    assert thatch_over_roots_in(stretch()) == pytest.approx(0.6)


def test_money_has_no_sign_of_its_own() -> None:
    assert money(1234.5) == "1,234.50"
