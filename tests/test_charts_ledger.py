"""The season's picture of the root zone: the curve, the lines, what came, what ran short."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from lawnbook.charts.ledger import ledger_marks
from lawnbook.charts.ledger_days import (
    DRAIN_PT,
    FOOT_PT,
    SHOWN_DAYS,
    last_day,
    ledger_words,
    shown_days,
)
from lawnbook.charts.marks import Frame, Mark, Picture, Polygon, Polyline, Words
from tests.water_fixture import ON, ledger_of

FRAME = Frame(440, 190)
NEXT = ON + timedelta(days=2)


def lines(picture: Picture, role: str, *, dashed: bool = False) -> list[Polyline]:
    return [
        mark
        for mark in picture.marks
        if isinstance(mark, Polyline) and mark.role == role and bool(mark.dash) == dashed
    ]


def fills(picture: Picture, role: str, alpha: float) -> list[Polygon]:
    return [
        mark
        for mark in picture.marks
        if isinstance(mark, Polygon) and (mark.fill, mark.alpha) == (role, alpha)
    ]


def curve_of(picture: Picture) -> list[tuple[float, float]]:
    longest = max(lines(picture, "ink"), key=lambda mark: len(mark.lines[0]))
    return list(longest.lines[0])


def extent(mark: Mark) -> tuple[float, float, float, float]:
    if isinstance(mark, Polygon):
        points = [point for ring in mark.rings for point in ring]
    elif isinstance(mark, Polyline):
        points = [point for line in mark.lines for point in line]
    else:
        points = [mark.at]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def test_the_curve_lies_at_each_days_depletion_on_one_scale() -> None:
    ledger = ledger_of(40)
    picture = ledger_marks(ledger, FRAME, NEXT)
    drawn = [y for _, y in curve_of(picture)][1:]
    season = shown_days(ledger, FRAME, NEXT)
    full, foot = season.full, FRAME.height - FOOT_PT - DRAIN_PT
    share = (np.array(drawn) - full) / (foot - full)
    assert share * 1.02 == pytest.approx(ledger.depletion_in)


def test_only_the_last_120_days_are_shown() -> None:
    assert len(curve_of(ledger_marks(ledger_of(400), FRAME, NEXT))) == SHOWN_DAYS + 1
    assert len(curve_of(ledger_marks(ledger_of(30), FRAME, NEXT))) == 31


def test_the_owners_line_and_the_line_of_stress_are_told_apart_where_they_differ() -> None:
    one = ledger_marks(ledger_of(allowance_in=0.41), FRAME, NEXT)
    assert "water again" in one.words()
    assert "grass runs short" not in one.words()
    two = ledger_marks(ledger_of(allowance_in=0.6), FRAME, NEXT)
    assert "grass runs short" in two.words()
    at = {mark.text: mark.at[1] for mark in two.marks if isinstance(mark, Words)}
    assert at["full"] < at["grass runs short"] < at["water again"] < at["all used up"]


def test_a_zone_that_is_not_watered_has_no_line_for_the_next_watering() -> None:
    dry = replace(ledger_of(), irrigation_in=np.zeros(150))
    words = ledger_marks(dry, FRAME, None).words()
    assert "water again" not in words
    assert "watering" not in words
    assert "grass runs short" in words


def test_names_of_lines_never_touch() -> None:
    close = replace(ledger_of(), allowance_in=np.full(150, 0.43))
    picture = ledger_marks(close, FRAME, NEXT)
    right = shown_days(close, FRAME, NEXT).right
    heights = sorted(m.at[1] for m in picture.marks if isinstance(m, Words) and m.at[0] > right)
    assert min(np.diff(heights[1:])) >= 10


def test_rain_that_did_not_count_is_pale_and_waterings_have_their_own_mark() -> None:
    ledger = ledger_of(40)
    picture = ledger_marks(ledger, FRAME, NEXT)
    solid, pale = fills(picture, "water", 1.0), fills(picture, "water", 0.35)
    # The first of each look is the key's.
    assert len(solid[1].rings) == np.count_nonzero(ledger.rain_in > ledger.ignored_in)
    lost = ledger.ignored_in + ledger.runoff_in
    assert len(pale[1].rings) == np.count_nonzero(lost > 0)
    drops = [m for m in fills(picture, "accent", 1.0) if len(m.rings[0]) > 4]
    assert len(drops[-1].rings) == np.count_nonzero(ledger.irrigation_in > 0)


def test_bars_are_as_long_as_what_came() -> None:
    ledger = ledger_of(40)
    season = shown_days(ledger, FRAME, NEXT)
    bars = fills(ledger_marks(ledger, FRAME, NEXT), "water", 1.0)[1].rings
    lengths = [ring[2][1] - ring[0][1] for ring in bars]
    assert lengths == pytest.approx([season.drop(0.6)] * len(lengths))


def test_short_days_are_shaded_hatched_and_named_only_where_there_are_any() -> None:
    picture = ledger_marks(ledger_of(), FRAME, NEXT)
    assert "short of water" in picture.words()
    assert any(m.alpha == 0.35 for m in fills(picture, "bad", 0.35))
    never = replace(ledger_of(), stress_from_in=np.full(150, 1.02))
    calm = ledger_marks(never, FRAME, NEXT)
    assert "short of water" not in calm.words()
    assert not fills(calm, "bad", 0.35)


def test_days_of_filled_eto_are_marked_on_the_axis() -> None:
    ledger = ledger_of(120)
    picture = ledger_marks(ledger, FRAME, NEXT)
    season = shown_days(ledger, FRAME, NEXT)
    assert "ETo filled in" in picture.words()
    marked = [m for m in lines(picture, "quiet") if m.width == 2.4 and m.alpha < 1]
    assert extent(marked[0])[2] == pytest.approx(season.x(40))
    known = replace(ledger, eto_from=("Hargreaves",) * 120)
    assert "ETo filled in" not in ledger_marks(known, FRAME, NEXT).words()


def test_the_look_ahead_is_dashed_to_the_next_watering() -> None:
    picture = ledger_marks(ledger_of(), FRAME, NEXT)
    ahead = lines(picture, "ink", dashed=True)[0].lines[0]
    assert len(ahead) == 3
    assert "next 17 Jun" in picture.words()
    due = last_day(ledger_of())
    assert "due today" in ledger_marks(ledger_of(), FRAME, due).words()
    assert ledger_words(ledger_of(), due).endswith("Watering is due today.")
    none = ledger_marks(ledger_of(), FRAME, None)
    assert not lines(none, "ink", dashed=True)
    assert not any(word.startswith("next") for word in none.words())


def test_drained_water_hangs_below_the_tank() -> None:
    ledger = ledger_of()
    picture = ledger_marks(ledger, FRAME, NEXT)
    below = fills(picture, "water", 0.55)[0]
    assert extent(below)[1] == pytest.approx(FRAME.height - FOOT_PT - DRAIN_PT)
    assert "drained past" in picture.words()
    dry = ledger_marks(replace(ledger, drained_in=np.zeros(150)), FRAME, NEXT)
    assert "drained past" not in dry.words()


@pytest.mark.parametrize("days", [1, 2, 8, 150, 730])
@pytest.mark.parametrize("frame", [Frame(430, 180), Frame(400, 150), Frame(700, 260)])
def test_everything_stays_on_the_page(days: int, frame: Frame) -> None:
    for mark in ledger_marks(ledger_of(days), frame, NEXT).marks:
        left, top, right, foot = extent(mark)
        assert -1 <= left <= right <= frame.width + 1
        assert -1 <= top <= foot <= frame.height + 1


def test_no_roots_in_the_soil_make_a_picture_too() -> None:
    zero = np.zeros(5)
    bare = replace(
        ledger_of(5), capacity_in=zero, depletion_in=zero, stress_from_in=zero, allowance_in=zero
    )
    assert "0.00 of 0.00 in used up" in ledger_marks(bare, FRAME, None).words()


def test_nothing_is_written_below_nine_points() -> None:
    words = [m for m in ledger_marks(ledger_of(), FRAME, NEXT).marks if isinstance(m, Words)]
    assert min(word.size for word in words) >= 9


def test_the_picture_in_words_adds_up() -> None:
    ledger = ledger_of(40)
    words = ledger_words(ledger, NEXT)
    assert words.startswith(f"15 Jun 2026: {ledger.depletion_in[-1]:.2f} in of the 1.02 in")
    # Five rains of 0.7 in less 0.1 that ran off each, and four of 0.02 that did not count.
    assert "3.58 in of rain fell, 3.00 in of it counted" in words
    assert f"{np.count_nonzero(ledger.irrigation_in)} waterings" in words
    assert f"{ledger.drained_in.sum():.2f} in drained past the roots" in words
    short = np.count_nonzero(ledger.depletion_in > 0.415)
    assert f"Short of water on {short} days." in words
    assert words.endswith("Next watering 17 Jun.")


def test_a_ledger_of_one_day_says_so() -> None:
    words = ledger_words(ledger_of(1), None)
    assert "On that day 0.70 in of rain fell" in words
    assert words.endswith("Never short.")


def test_days_without_rain_on_record_do_not_say_that_none_fell() -> None:
    held = ledger_of(1)
    dry = replace(held, rain_in=np.zeros_like(held.rain_in))
    assert "On that day no rain is on record; 0 waterings." in ledger_words(dry, None)


def test_months_are_named_along_the_foot() -> None:
    words = ledger_marks(ledger_of(150, on=date(2026, 9, 20)), FRAME, None).words()
    assert [each for each in words if each in ("Jun", "Jul", "Aug")] == ["Jun", "Jul", "Aug"]
