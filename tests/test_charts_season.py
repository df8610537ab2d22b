"""The picture of the year: what is drawn, where, and what the pointer finds."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest

from lawnbook.charts.marks import Disc, Frame, Picture, Polygon, Polyline, Words, rough_width
from lawnbook.charts.season import NO_CURVES, season_marks
from lawnbook.charts.season_hits import key_of, record_of, season_hits, season_words
from lawnbook.charts.season_layout import ROW_NAMES, lay_out_season, season_height_pt
from lawnbook.plan.make import make_plan
from lawnbook.plan.season_year import season_year
from lawnbook.plan.season_year_model import SeasonYear
from lawnbook.yard.records import Season
from tests.plan_yards import JUNE, product, rules, watering, yard, zone
from tests.test_plan_season_year import RECORDS

FRAMES = (Frame(430.0, 290.0), Frame(330.0, 290.0), Frame(700.0, 400.0))


def a_year(year: int = 2026) -> SeasonYear:
    """A year with something in every row, the irrigation season and a blackout."""
    book = yard(
        zone(precipitation_in_per_h=0.8),
        season=Season(start="04-15", end="10-15"),
        n_rules=rules(blackouts=(Season(start="11-15", end="03-01"),)),
        **RECORDS,
    )
    return season_year(book, make_plan(book, JUNE), year)


def points(picture: Picture) -> Iterator[tuple[float, float]]:
    """Every point that is drawn, words by both of their ends."""
    for mark in picture.marks:
        match mark:
            case Polygon():
                yield from (point for ring in mark.rings for point in ring)
            case Polyline():
                yield from (point for line in mark.lines for point in line)
            case Disc():
                yield mark.at
            case Words():
                wide = rough_width(mark.text, mark.size)
                left = mark.at[0] - wide * {"left": 0.0, "center": 0.5, "right": 1.0}[mark.align]
                yield from ((left, mark.at[1]), (left + wide, mark.at[1]))


@pytest.mark.parametrize("frame", FRAMES)
def test_nothing_leaves_the_frame(frame: Frame) -> None:
    for x, y in points(season_marks(a_year(), frame)):
        assert -0.5 <= x <= frame.width + 0.5
        assert 0 <= y <= frame.height


@pytest.mark.parametrize("frame", FRAMES)
def test_words_of_the_key_and_the_rows_stand_apart(frame: Frame) -> None:
    words = [mark for mark in season_marks(a_year(), frame).marks if isinstance(mark, Words)]
    boxes = []
    for mark in words:
        wide = rough_width(mark.text, mark.size)
        left = mark.at[0] - wide * {"left": 0.0, "center": 0.5, "right": 1.0}[mark.align]
        boxes.append((left, mark.at[1] - 7.0, left + wide, mark.at[1], mark.text))
    for number, one in enumerate(boxes):
        for other in boxes[number + 1 :]:
            apart = one[2] <= other[0] or other[2] <= one[0]
            assert apart or one[3] <= other[1] or other[3] <= one[1], (one, other)


def test_it_is_read_without_colour() -> None:
    """Rows and curves are named; done and planned differ in being filled."""
    picture = season_marks(a_year(), FRAMES[0])
    said = picture.words()
    assert set(ROW_NAMES.values()) <= set(said)
    assert {"growth", "water need", "watered", "still to come", "in/day", "15 Jun"} <= set(said)
    fed = [mark for mark in picture.marks if isinstance(mark, Disc) and mark.at[1] > 60]
    assert {mark.fill for mark in fed} == {"feed", "paper"}


def test_the_key_shows_both_shapes_of_what_is_to_come() -> None:
    """Feedings to come are open rounds, waterings, mowings and checks open boxes."""
    marks = season_marks(a_year(), FRAMES[0]).marks
    key = [
        mark
        for mark in marks
        if (isinstance(mark, Disc) and mark.at[1] < 20 and mark.fill == "paper")
        or (isinstance(mark, Polygon) and mark.rings[0][0][1] < 20 and mark.fill == "paper")
    ]
    assert sorted(type(mark).__name__ for mark in key) == ["Disc", "Polygon"]


@pytest.mark.parametrize("width", range(300, 520, 7))
def test_the_months_are_all_named_alike(width: int) -> None:
    picture = season_marks(a_year(2025), Frame(float(width), 290.0))
    foot = max(mark.at[1] for mark in picture.marks if isinstance(mark, Words))
    names = [m.text for m in picture.marks if isinstance(m, Words) and m.at[1] == foot]
    assert len(names) == 12
    assert len({len(name) for name in names}) == 1


def test_today_is_drawn_only_in_its_year() -> None:
    assert "15 Jun" not in season_marks(a_year(2025), FRAMES[0]).words()


@pytest.mark.parametrize("frame", FRAMES)
@pytest.mark.parametrize("month", range(1, 13))
def test_the_line_of_today_runs_through_no_words(frame: Frame, month: int) -> None:
    for day in (1, 8, 15, 22):
        year = replace(a_year(), on=date(2026, month, day))
        x, base = lay_out_season(year, frame).x(year.on), lay_out_season(year, frame).base
        foot = lay_out_season(year, frame).foot
        for mark in season_marks(year, frame).marks:
            if isinstance(mark, Words) and base < mark.at[1] < foot:
                wide = rough_width(mark.text, mark.size)
                left = mark.at[0] - wide * {"left": 0.0, "center": 0.5, "right": 1.0}[mark.align]
                assert not left < x < left + wide, (year.on, mark.text)


def test_another_line_of_spans_asks_for_more_height() -> None:
    year = a_year()
    without = replace(year, spans=tuple(s for s in year.spans if s.kind != "blackout"))
    assert season_height_pt(year) > season_height_pt(without)
    height = season_height_pt(year)
    page = lay_out_season(year, Frame(430.0, height))
    assert page.base - page.top == pytest.approx(78.0, abs=4.0)


def test_each_mark_is_found_where_it_is_drawn() -> None:
    frame, year = FRAMES[0], a_year()
    page, hits = lay_out_season(year, frame), season_hits(year, frame)
    for mark in year.marks:
        x, y = page.x(mark.date), page.row_y(mark.row)
        found = next(hit for hit in hits if hit.holds(x, y))
        if mark.records:
            assert found.key.split() == [key_of(*each) for each in mark.records]
        assert found.words.split("\n")[1:] == list(mark.words)


def test_boxes_of_one_row_never_overlap() -> None:
    days = [watering(date(2026, 6, number), depth_in=0.1) for number in range(1, 15)]
    book = yard(waterings=days)
    year = season_year(book, make_plan(book, JUNE), 2026)
    rows = [hit for hit in season_hits(year, FRAMES[0]) if "Watering," in hit.words]
    assert len(rows) >= 14
    for one, other in pairwise(rows):
        assert one.right <= other.left + 1e-9


def test_months_and_spans_are_told_too() -> None:
    said = [hit.words for hit in season_hits(a_year(), FRAMES[0])]
    assert said[0].startswith("January 2026\n")
    assert "watered" in said[5]
    assert any(words.endswith("Irrigation season, 15 Apr to 15 Oct") for words in said)


@pytest.mark.parametrize(
    ("key", "record"),
    [
        ("waterings/a waterings/b", ("waterings", "a")),
        ("care/x", ("care", "x")),
        (f"{key_of('cores', 'by the elm / 2')} cores/b", ("cores", "by the elm / 2")),
        ("", None),
    ],
)
def test_a_key_leads_to_its_first_record(key: str, record: tuple[str, str] | None) -> None:
    assert record_of(key) == record


def test_the_words_tell_the_year() -> None:
    said = season_words(a_year())
    assert "The year 2026 as of 15 Jun 2026." in said
    assert "needs most water in July" in said
    assert "Recorded: 1 day of watering, 1 day of feeding, 1 mowing," in said


def test_a_yard_without_weather_or_zones_is_drawn_all_the_same() -> None:
    book = yard(climate=[], products=[product()])
    bare = replace(book, zones={})
    for each in (book, bare):
        year = season_year(each, make_plan(each, JUNE), 2026)
        picture = season_marks(year, FRAMES[0])
        assert "Jan" in picture.words()
        assert "in/day" not in picture.words()
        assert NO_CURVES in picture.words()
        assert "Recorded: nothing." in season_words(year)
