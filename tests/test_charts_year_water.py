"""The year's water by month: plan, habit and money on one scale; and a night's program."""

from dataclasses import replace
from datetime import timedelta

import pytest

from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, Words
from lawnbook.charts.night import (
    MOST_LANES,
    clock,
    lanes,
    night_height_pt,
    night_marks,
    night_words,
)
from lawnbook.charts.year_water import year_chart_words, year_marks
from lawnbook.plan.water_model import ProgramRun
from tests.water_fixture import program, zone_year

FRAME = Frame(440, 170)


def heights(picture: Picture, fill: str, edge: str) -> list[float]:
    """Heights of the bars of a look, the key's left out."""
    rings = [
        ring
        for mark in picture.marks
        if isinstance(mark, Polygon) and (mark.fill, mark.edge) == (fill, edge)
        for ring in mark.rings
    ]
    return [ring[2][1] - ring[0][1] for ring in rings if ring[2][1] > 35]


def test_plan_and_habit_share_one_scale() -> None:
    picture = year_marks(zone_year(), FRAME)
    plan, habit = heights(picture, "water", ""), heights(picture, "", "quiet")
    assert (len(plan), len(habit)) == (5, 7)
    assert plan[0] / habit[0] == pytest.approx((18_400 / 5) / (31_000 / 7))


def test_habit_is_told_without_colour_by_its_hatching() -> None:
    hatched = [m for m in year_marks(zone_year(), FRAME).marks if isinstance(m, Polyline)]
    assert any(mark.role == "quiet" and len(mark.lines) > 20 for mark in hatched)
    alone = year_marks(zone_year(habit=False), FRAME)
    assert "old habit" not in alone.words()
    assert heights(alone, "", "quiet") == []


def test_the_dry_years_full_plan_is_a_stroke_over_its_months() -> None:
    picture = year_marks(zone_year(full=True), FRAME)
    strokes = [m for m in picture.marks if isinstance(m, Polyline) and m.role == "accent"]
    assert len(strokes[-1].lines) == 5
    assert "plan, no dry year" in picture.words()
    assert "plan, no dry year" not in year_marks(zone_year(), FRAME).words()


def test_the_money_scale_is_the_gallons_at_their_price() -> None:
    """The fixture's water costs 6 for 1,000 gallons: 4,000 gallons are 24."""
    picture = year_marks(zone_year(), FRAME)
    at = {m.text: m.at[1] for m in picture.marks if isinstance(m, Words)}
    assert at["4,000"] == pytest.approx(at["24"])
    year = zone_year()
    free = replace(year, plan=replace(year.plan, cost=None))
    words = year_marks(free, FRAME).words()
    assert "24" not in words
    assert "at your price" not in words


@pytest.mark.parametrize("gallons", [0.0, 3.0, 90.0, 18_400.0, 2_400_000.0])
def test_any_size_of_year_has_a_scale_of_a_few_lines(gallons: float) -> None:
    year = zone_year(habit=False)
    plan = replace(year.plan, gallons=gallons, gallons_by_month=(gallons, *[0.0] * 11), cost=None)
    picture = year_marks(replace(year, plan=plan), FRAME)
    ticks = [m for m in picture.marks if isinstance(m, Words) and m.text[0].isdigit()]
    assert 2 <= len(ticks) <= 6
    assert all(0 <= m.at[1] <= FRAME.height for m in ticks)


def test_the_year_in_words() -> None:
    words = year_chart_words(zone_year())
    assert words.startswith("plan: 18,400 gallons in the year, most in May, 3,680; old habit: 31,")


def test_a_night_shows_each_start_as_long_as_it_runs() -> None:
    run = program()
    picture = night_marks(run, "front", Frame(440, night_height_pt(run, "front")))
    boxes = [
        (mark, ring)
        for mark in picture.marks
        if isinstance(mark, Polygon) and mark.fill == "water"
        for ring in mark.rings
    ]
    widths = [ring[1][0] - ring[0][0] for _, ring in boxes]
    # Three cycles of 10 minutes, then two of 12.
    assert widths == pytest.approx([widths[0]] * 3 + [1.2 * widths[0]] * 2)
    assert [mark.alpha for mark, _ in boxes] == [1.0] * 3 + [0.45] * 2
    hours = {m.text: m.at[0] for m in picture.marks if isinstance(m, Words)}
    assert boxes[0][1][0][0] == pytest.approx(
        hours["04:00"] - (hours["05:00"] - hours["04:00"]) * 40 / 60
    )
    assert "sunrise 05:28" in picture.words()


def test_a_night_in_words_and_none_without_clock_times() -> None:
    assert night_words(program()) == (
        "03:20 Front, 10 min; 03:30 Side, 12 min; 03:54 Front, 10 min; 04:10 Side, 12 min; "
        "04:38 Front, 10 min; done 04:48; sunrise 05:28."
    )
    untimed = program(timed=False)
    assert night_words(untimed) == ""
    assert night_marks(untimed, "front", FRAME).marks == ()


def test_a_night_past_midnight_counts_on() -> None:
    run = _moved(program(), hours=-5)
    assert run.starts is not None
    assert clock(run.starts) == "22:20"
    words = night_marks(run, "front", FRAME).words()
    assert "00:00" in words


def test_many_zones_share_a_lane_but_the_shown_one() -> None:
    run = program()
    timer = tuple(
        replace(run.timer[0], zone=f"Zone {k}", zone_id=f"z{k}", number=k)
        for k in range(MOST_LANES + 5)
    )
    crowded = replace(run, timer=timer)
    assert [name for name, _, _ in lanes(crowded, "z4")] == ["4 Zone 4", "16 others"]
    assert [name for name, _, _ in lanes(crowded, "none")] == ["17 zones"]
    assert night_height_pt(crowded, "z4") == night_height_pt(run, "front")


def _moved(run: ProgramRun, hours: int) -> ProgramRun:
    """A run whose clock times lie some hours later; the sunrise stays."""
    by = timedelta(hours=hours)
    assert run.starts is not None
    assert run.ends is not None
    timer = tuple(
        replace(each, starts=None if each.starts is None else each.starts + by)
        for each in run.timer
    )
    return replace(run, starts=run.starts + by, ends=run.ends + by, timer=timer)
