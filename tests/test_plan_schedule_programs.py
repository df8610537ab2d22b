"""Who runs with whom: programs and their zones, new turf, thatch that is wetted first."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.plan.schedule import programs_of
from lawnbook.plan.water_model import Establishing
from lawnbook.plan.zone_facts import facts_of, setting_of
from tests.night_yard import MINUTE, MONDAY, TUESDAY, due_zone, ends, lawn, placed, programs, rule
from tests.plan_yards import core, spot

# Programs and their zones


def test_zones_without_a_program_run_together_when_due_for_one_morning() -> None:
    names = [lawn("Front"), lawn("Back"), lawn("Side")]
    due = [TUESDAY, date(2026, 6, 18), MONDAY]
    (program,) = programs(placed(*names), due)
    assert (program.program, program.zones) == ("", ("Front", "Side"))
    assert program.morning == TUESDAY


def test_a_named_program_takes_its_zones_along_for_what_they_have_used() -> None:
    """0.2 in a day × 0.88 (June's Kc of cool-season turf) are left off for a day too early."""
    zones = [lawn(name, 0.35, program="A") for name in ("Front", "Back", "Side")]
    due = [date(2026, 6, 17), TUESDAY, date(2026, 6, 22)]
    (program,) = programs(placed(*zones), due)
    assert (program.program, program.zones) == ("A", ("Front", "Back"))
    assert program.morning == TUESDAY
    minutes = {each.zone: each.minutes for each in program.timer}
    full, early = (60 * depth * 1.2658 / 0.35 for depth in (0.4, 0.4 - 0.2 * 0.88))
    assert minutes["Back"] == pytest.approx(full, abs=1)
    assert minutes["Front"] == pytest.approx(early, abs=1)
    assert "Front is taken along 1 day early, for what it has used by then." in program.words
    assert "Side has used too little yet and is left out." in program.words


def test_programs_of_one_morning_follow_each_other() -> None:
    zones = [lawn("Front", program="A"), lawn("Back"), lawn("Side", program="A")]
    first, second = programs(placed(*zones), [TUESDAY] * 3)
    assert (first.program, second.program) == ("A", "")
    assert first.zones == ("Front", "Side")
    assert second.ends == second.sunrise
    assert first.ends == second.starts
    assert first.ends is not None
    assert first.words == f"Done by {first.ends:%H:%M}, when the next program starts."


def test_programs_of_one_morning_share_what_the_rule_leaves() -> None:
    zones = [lawn("Front", 0.35, program="A"), lawn("Back", 0.35)]
    book = placed(*zones, rules=rule("00:00-04:00"))
    first, second = programs(book, [TUESDAY] * 2, depth_in=0.85)
    assert second.shortfall_minutes == 0
    assert first.allowed_minutes == 240 - second.elapsed_minutes
    assert first.starts is not None
    assert f"{first.starts:%H:%M}" >= "00:00"
    assert "your rule and the next program leave 55 min" in first.words


def test_programs_of_two_mornings_never_meet() -> None:
    """3 in × 1.266 at 0.05 in/h would take more than three days."""
    zones = [lawn("Front", program="A"), lawn("Back", 0.05, program="B")]
    first, second = programs(placed(*zones), [TUESDAY, date(2026, 6, 17)], depth_in=3.0)
    assert (first.program, second.program) == ("A", "B")
    assert second.elapsed_minutes > 3 * 24 * 60
    assert first.ends is not None
    assert second.starts is not None
    assert second.starts >= first.ends


def test_dormant_turf_taken_along_early_gets_its_whole_depth() -> None:
    book = placed(lawn("Front", program="A"), lawn("Back", program="A"))
    setting = setting_of(book, MONDAY)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    days = (TUESDAY, date(2026, 6, 20))
    zones = [due_zone(setting, each, on, 0.5) for each, on in zip(facts, days, strict=True)]
    (program,) = programs_of(setting, [replace(each, rule="survival") for each in zones], facts)
    minutes = {name: [0, 0] for name in program.zones}
    for each in program.timer:
        minutes[each.zone][each.cycle - 1] += each.minutes
    assert minutes["Front"] == minutes["Back"]
    assert "Back is taken along 4 days early." in program.words


def test_who_has_no_place_in_a_program() -> None:
    zones = [
        lawn("Front"),
        lawn("Hose", sprinklers="hose"),
        lawn("Meadow", irrigated=False),
        lawn("Unknown", None),
        lawn("Later"),
    ]
    (program,) = programs(placed(*zones), [TUESDAY, TUESDAY, TUESDAY, TUESDAY, None])
    assert program.zones == ("Front",)
    assert "Unknown has no place in it: the precipitation rate is not known." in program.words
    assert programs(placed(lawn("Unknown", None)), [TUESDAY]) == ()


def test_new_turf_is_not_watered_by_night_programs() -> None:
    book = placed(lawn("Front"), lawn("New"))
    setting = setting_of(book, MONDAY)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    zones = [due_zone(setting, each, TUESDAY, 0.4) for each in facts]
    light = Establishing(
        how="seed",
        since=MONDAY,
        until=date(2026, 7, 20),
        times_a_day=3,
        every_days=1,
        depth_in=0.1,
        run_minutes=5.0,
        words="",
    )
    zones[1] = replace(zones[1], establishing=light)
    (program,) = programs_of(setting, zones, facts)
    assert program.zones == ("Front",)


def test_before_the_next_run_is_known_the_days_own_figures_serve() -> None:
    book = placed(lawn("Front"))
    setting = setting_of(book, MONDAY)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    water = replace(due_zone(setting, facts[0], TUESDAY, 0.4), next_run=None)
    (program,) = programs_of(setting, [water], facts)
    assert water.cycles is not None
    assert len(program.timer) == water.cycles
    assert program.morning == TUESDAY


# Thatch


def test_thick_dry_thatch_is_wetted_first_and_the_cycles_stay() -> None:
    """A tenth of an inch at 1.4 in/h is 4.3 min, told as 5, and half an hour's rest after it."""
    plugs = [core(date(2026, 6, 1), 0.8, root_depth_in=7.0)]
    book = placed(lawn("Front"))
    thick = replace(
        book,
        spots={"s1": replace(spot(), zone="Front")},
        cores={each.id: each for each in plugs},
    )
    (thin_night,), (night,) = (programs(each, [TUESDAY]) for each in (book, thick))
    assert [(each.cycle, each.minutes) for each in thin_night.timer] == [(1, 11), (2, 11)]
    assert [(each.cycle, each.minutes) for each in night.timer] == [(1, 5), (1, 6), (2, 11)]
    assert night.timer[1].starts is not None
    assert night.timer[1].starts - ends(night.timer[0]) == 30 * MINUTE
    assert "Front starts with a short run that wets its thick dry thatch" in night.words
    assert "wets" not in thin_night.words
