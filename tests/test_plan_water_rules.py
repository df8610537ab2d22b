"""The local watering rule in a zone's plan: the days it allows, the hours it leaves open."""

from dataclasses import replace
from datetime import date
from typing import Literal

import pytest

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
        told = [note for note in ruled.notes if "Your rule" in note and "at best" not in note]
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
        assert not any("at best" in note for note in ruled.notes)
        assert (ruled.next_watering, ruled.next_allowed) == (date(2026, 6, 17), None)
        sentence = f"Your rule allows no day between Wed 17 Jun and the season's end{chance}."
        assert sentence in ruled.notes


GAPS: list[tuple[tuple[Weekday, ...], float, str]] = [
    (("Mon",), 0.2, "every 7 days at best, and the roots last 2 days: short by 0.82 in"),
    (("Mon", "Sat"), 0.2, "every 2 to 5 days at best, and the roots last 2 days: short by 0.47 in"),
    (("Mon", "Wed", "Fri", "Sun"), 0.2, ""),
    (("Mon", "Wed", "Fri", "Sun"), 0.6, "the roots last less than 1 day: short by 0.65 in"),
    ((), 0.6, ""),
]


@pytest.mark.parametrize(("days", "eto", "told"), GAPS)
def test_a_gap_longer_than_the_roots_bear_is_told_with_what_is_short(
    days: tuple[Weekday, ...], eto: float, told: str
) -> None:
    """Loam and roots of 6 in bear 0.40 × 0.17 × 6 = 0.408 in; a week uses 7 × 0.88 × 0.2.

    0.88 is June's Kc of cool-season turf (University of California, by month).
    """
    ruled = water(with_days(yard(climate=steady(eto)), *days))
    notes = [note for note in ruled.notes if "at best" in note]
    assert len(notes) == bool(told)
    assert all(told in note and note.endswith(" in where no rain falls.") for note in notes)


def test_a_gap_that_the_roots_bear_though_the_target_is_less_is_not_short() -> None:
    deep = zone(default_root_depth_in=30, target_depth_in=0.4)
    ruled = water(with_days(yard(deep, climate=steady(0.2)), "Mon"))
    assert ruled.interval_days is not None
    assert ruled.interval_days < 7
    assert not any("at best" in note for note in ruled.notes)


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
