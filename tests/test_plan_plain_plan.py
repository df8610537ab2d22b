"""The plan in plain text: short lines, few bytes, what a timer needs, and what is left out told."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.plan.plain_plan import CAUTION, MOST_BYTES, MOST_LETTERS, plain_plan
from lawnbook.plan.workings import run_minutes_told, told_most
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Established, WaterRules
from tests.desk_sample import sample
from tests.plan_fixture import yard_of
from tests.plan_yards import JUNE, product, yard, zone

SAMPLES = ("hollow_bank", "larkspur_corner", "saltbush_court")
DAYS = (date(2026, 3, 1), JUNE, date(2026, 11, 25))


def text_of(book: Notebook, on: date = JUNE) -> str:
    """The text of a notebook's plan, within its limits."""
    text = plain_plan(book, make_plan(book, on))
    assert len(text.encode("utf-8")) <= MOST_BYTES
    assert all(len(line) <= MOST_LETTERS < 40 for line in text.split("\n"))
    assert text.endswith(f"\n{CAUTION}")
    return text


@pytest.mark.parametrize("stem", SAMPLES)
@pytest.mark.parametrize("on", DAYS)
def test_the_samples_are_told_whole(stem: str, on: date) -> None:
    book = sample(stem)
    plan, text = make_plan(book, on), text_of(book, on)
    lines = text.split("\n")
    assert lines[0] == plan.yard
    assert lines[1] == f"Yard plan of {day(on)}"
    assert text.isascii()
    assert "more in the notebook" not in text
    for water, feed in zip(plan.zones, plan.nitrogen, strict=True):
        at = lines.index(f"{water.number} {water.zone}")
        block = lines[at : lines.index("", at)]
        upcoming = feed.next_feeding
        if upcoming is not None:
            assert any(line.endswith(f"{told_most(upcoming.pounds)} lb") for line in block)
            assert f"of {upcoming.product}" in block
        if water.irrigated and water.rule == "deep":
            assert any(line.startswith("Summer") for line in block)
        assert ("No irrigation" in block) == (not water.irrigated)


@pytest.mark.parametrize("stem", SAMPLES)
def test_programs_starts_and_minutes_are_the_timers(stem: str) -> None:
    book = sample(stem)
    plan, lines = make_plan(book, JUNE), text_of(book).split("\n")
    for night in plan.programs:
        for zone_id in {each.zone_id for each in night.timer}:
            mine = [each for each in night.timer if each.zone_id == zone_id]
            at = lines.index(f"{mine[0].number} {mine[0].zone}")
            block = " ".join(lines[at : lines.index("", at)])
            assert (f"program {night.program}" in block) == bool(night.program)
            for each in mine:
                assert each.starts is None or f"{each.starts:%H:%M}" in block
                assert str(each.minutes) in block


@pytest.mark.parametrize(
    ("latitude_deg", "season", "months"),
    [
        (41.0, "Spring", (3, 4, 5)),
        (41.0, "Summer", (6, 7, 8)),
        (41.0, "Autumn", (9, 10, 11)),
        (-33.0, "Spring", (9, 10, 11)),
        (-33.0, "Winter", (6, 7, 8)),
        (-33.0, "Autumn", (3, 4, 5)),
    ],
)
def test_seasons_tell_minutes_and_days_of_their_months(
    latitude_deg: float, season: str, months: tuple[int, ...]
) -> None:
    book = yard(zone(precipitation_in_per_h=1.0), latitude_deg=latitude_deg)
    watered = [
        each
        for each in make_plan(book, JUNE).zones[0].months
        if each.month in months and each.interval_days is not None
    ]
    runs = [run for run in map(run_minutes_told, watered) if run is not None]
    days = [each.interval_days for each in watered if each.interval_days is not None]
    line = next(each for each in text_of(book).split("\n") if each.startswith(season))
    minutes, often = line.removeprefix(f"{season} ").split(" min ")
    assert [int(each) for each in minutes.split("-")] == sorted({min(runs), max(runs)})
    told = often.removeprefix("every ").removesuffix(" days")
    assert [int(each) for each in told.split("-")] == sorted({min(days), max(days)})


def test_many_zones_are_counted_and_the_first_told() -> None:
    text = text_of(yard_of(40))
    shown = [line for line in text.split("\n") if ": " in line and "Lawn " in line]
    assert 20 <= len(shown) < 40
    assert f"and {40 - len(shown)} zones more in the notebook" in text
    assert shown[0].startswith("1 Lawn 1: ")


@pytest.mark.parametrize("zones", range(1, 16))
def test_no_zone_is_left_out_while_a_line_of_each_fits(zones: int) -> None:
    text = text_of(yard_of(zones))
    assert all(f"{n} Lawn {n}" in text for n in range(1, zones + 1))
    assert "more in the notebook" not in text


def test_days_of_the_owners_rule_stand_at_the_head() -> None:
    rule = WaterRules(id="water_rules", days=("Sat", "Tue"))
    assert text_of(yard(water_rules=[rule])).split("\n")[2] == "Watering days: Tue, Sat"


def test_new_seed_is_watered_light_and_often() -> None:
    new = zone(
        precipitation_in_per_h=1.0, established=Established(date=date(2026, 6, 10), how="seed")
    )
    text = text_of(yard(new))
    assert "New seed until" in text
    assert " x a day" in text


def test_without_a_rate_the_depth_is_told_and_without_a_shelf_nitrogen() -> None:
    text = text_of(yard(zone(budget_level="full")))
    assert "in, minutes not known" in text
    assert "\nof nitrogen" in text


def test_an_empty_yard_says_so() -> None:
    assert "No zone is drawn yet." in text_of(yard_of(0))


def test_names_in_other_letters_are_likened_or_kept() -> None:
    book = yard(zone(name="Süd–Wiese ½ “alt”\tß"), products=[product(name="Dünger\n12–0–0")])
    text = text_of(replace(book, yard=replace(book.yard, name="Åsa’s 庭 🌱")))
    assert text.split("\n")[0] == "Asa's 庭 🌱"
    assert '1 Sud-Wiese 1/2 "alt" ss' in text
    assert "of Dunger 12-0-0" in text


def test_no_place_is_told() -> None:
    book = sample("larkspur_corner")
    at = replace(book.yard, latitude_deg=40.7357, longitude_deg=-111.8833)
    text = text_of(replace(book, yard=at))
    assert not any(each in text for each in ("40.7", "111.8"))


@settings(deadline=None, max_examples=60)
@given(
    st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=200),
    st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=200), max_size=30),
)
def test_any_names_stay_within_the_limits(name: str, zones: list[str]) -> None:
    lawns = [zone(id=f"z{n}", rank=n, name=each) for n, each in enumerate(zones)]
    book = yard(*lawns, products=[product(name=name)])
    book = replace(book, yard=replace(book.yard, name=name))
    assert text_of(book) == text_of(book)
