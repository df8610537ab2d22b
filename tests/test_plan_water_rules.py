"""The local watering rule in a zone's plan: the days it allows, the hours it leaves open."""

from dataclasses import replace
from datetime import date
from typing import Literal

from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Season
from tests.plan_yards import JUNE, steady, water, watering, yard, zone

Weekday = Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]


def with_days(book: Notebook, *days: Weekday) -> Notebook:
    """The notebook under a rule that allows some weekdays."""
    return replace(book, water_rules=replace(book.water_rules, days=days))


def test_the_first_day_that_the_rule_allows_stands_beside_the_day_it_is_needed() -> None:
    """17 June 2026 is a Wednesday (from memory)."""
    book = yard(climate=steady(0.2), waterings=[watering(JUNE)])
    needed = date(2026, 6, 17)
    assert (water(book).next_watering, water(book).next_allowed) == (needed, needed)
    cases: list[tuple[tuple[Weekday, ...], date]] = [
        (("Mon", "Sat"), date(2026, 6, 20)),
        (("Wed",), needed),
    ]
    for days, allowed in cases:
        ruled = water(with_days(book, *days))
        assert (ruled.next_watering, ruled.next_allowed) == (needed, allowed)
        told = [note for note in ruled.notes if "rule" in note]
        sentence = (
            "Your rule allows Sat 20 Jun, or sooner Mon 15 Jun; the allowance is used up on "
            "Wed 17 Jun."
        )
        assert told == ([] if allowed == needed else [sentence])


def test_a_day_before_the_plans_is_never_proposed() -> None:
    dry = [watering(date(2026, 6, 1), depth_in=0.0)]
    ruled = water(with_days(yard(climate=steady(0.2), waterings=dry), "Sun", "Tue"))
    assert (ruled.next_watering, ruled.next_allowed) == (JUNE, date(2026, 6, 16))
    assert any(note.startswith("Your rule allows Tue 16 Jun; ") for note in ruled.notes)


def test_no_day_is_taken_after_the_season_has_ended() -> None:
    """The season ends on Thursday, 18 June 2026; the plan's day is Monday, the 15th."""
    season = Season(start="04-01", end="06-18")
    book = yard(season=season, climate=steady(0.2), waterings=[watering(JUNE)])
    cases: list[tuple[Weekday, str]] = [("Sun", ""), ("Tue", "; Tue 16 Jun is the last")]
    for only, chance in cases:
        ruled = water(with_days(book, only))
        assert (ruled.next_watering, ruled.next_allowed) == (date(2026, 6, 17), None)
        sentence = f"Your rule allows no day between Wed 17 Jun and the season's end{chance}."
        assert sentence in ruled.notes


def test_hours_too_short_for_run_and_soaks_are_told() -> None:
    """Two cycles of some 15 min and a soak of an hour do not fit into an hour and a quarter."""
    steep = zone(soil="clay", slope_pct=12, precipitation_in_per_h=0.5, default_root_depth_in=4)
    book = yard(steep, climate=steady(0.2))
    figures = water(book)
    assert figures.cycles == 2
    assert figures.run_minutes is not None
    assert figures.run_minutes < 75
    told = {
        hours: any("your rule allows in a day" in note for note in water(ruled).notes)
        for hours in ("05:00-06:15", "22:00-06:00")
        for ruled in [replace(book, water_rules=replace(book.water_rules, hours=(hours,)))]
    }
    assert told == {"05:00-06:15": True, "22:00-06:00": False}
