"""Nitrogen becoming available as a picture: to scale, layers told apart, words that never meet."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations

import pytest
from matplotlib.text import Text

from lawnbook.charts.figures import release_figure
from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, Words, rough_width
from lawnbook.charts.palette import LIGHT
from lawnbook.charts.release import release_chart_words, release_marks, year_words
from lawnbook.plan.feed_model import ReleaseCurve, ReleaseLayer

FRAME = Frame(460, 190)
START, TODAY = date(2026, 1, 1), date(2026, 9, 15)


def layer(on: date, pounds: float, days: int = 28, **values: object) -> ReleaseLayer:
    """A layer that gives its pounds evenly over so many days from its own."""
    first = max(0, (on - START).days)
    daily = [pounds / days if first <= n < first + days else 0.0 for n in range(365)]
    kind = values.get("kind", "feeding")
    return ReleaseLayer(
        date=on,
        product=str(values.get("product", "Slow Twenty")),
        daily_lb=tuple(daily),
        applied_lb=pounds,
        before_lb=0.0,
        after_lb=0.0,
        kind="water" if kind == "water" else "feeding",
    )


def curve_of(*layers: ReleaseLayer, usable: bool = True, start: date = START) -> ReleaseCurve:
    """A curve of these layers, growth using 0.01 lb a day."""
    return ReleaseCurve(
        zone="Front",
        zone_id="z1",
        start=start,
        days=365,
        layers=layers,
        usable_daily_lb=(0.01,) * 365 if usable else None,
        reason="",
        notes=(),
        source="",
    )


def many(count: int) -> ReleaseCurve:
    """So many feedings from March on, water below them."""
    fed = [
        layer(date(2026, 3, 1) + timedelta(days=round(230 * n / count)), 0.4) for n in range(count)
    ]
    return curve_of(layer(date(2026, 5, 1), 0.3, 90, kind="water"), *fed)


def areas(picture: Picture, fill: str) -> list[Polygon]:
    """The layers of one colour, below key and labels and wider than a swatch."""
    found = [each for each in picture.marks if isinstance(each, Polygon) and each.fill == fill]
    return [each for each in found if max(x for x, _ in each.rings[0]) > 35 and height(each) > 6]


def height(area: Polygon) -> float:
    """How high a polygon is, in points."""
    heights = [y for _, y in area.rings[0]]
    return max(heights) - min(heights)


def test_layers_are_to_scale() -> None:
    """Twice the pounds in the same days are twice as high."""
    picture = release_marks(
        curve_of(layer(date(2026, 3, 1), 0.8), layer(date(2026, 9, 1), 0.4)), FRAME
    )
    first, second = (height(each) for each in areas(picture, "feed")[:2])
    assert first / second == pytest.approx(2.0)


def test_a_layer_stands_on_those_before_it() -> None:
    """Two alike: the foot of the upper is the top of the lower all along."""
    picture = release_marks(
        curve_of(layer(date(2026, 3, 1), 0.4), layer(date(2026, 3, 1), 0.4)), FRAME
    )
    lower, upper = (each.rings[0] for each in areas(picture, "feed")[:2])
    half = len(lower) // 2
    assert upper[half:] == tuple(reversed(lower[:half]))


def test_a_week_is_drawn_up_to_each_day() -> None:
    """Nothing before the day it was put down; after a week of 0.7 lb in 7 days all of it."""
    curve = curve_of(layer(date(2026, 3, 1), 0.7, 7), usable=False)
    ring = areas(release_marks(curve, FRAME), "feed")[0].rings[0]
    day = (460 - 42) / 365
    assert min(x for x, _ in ring) == pytest.approx(34 + 59 * day)
    assert max(x for x, _ in ring) == pytest.approx(34 + (59 + 13) * day)
    tops = sorted({y for x, y in ring})
    assert len(tops) == 8  # seven steps up and the foot, the same steps down


def test_a_frosty_day_is_no_notch() -> None:
    even = layer(date(2026, 3, 1), 0.28)
    gap = list(even.daily_lb)
    gap[70] = 0.0
    ring = areas(release_marks(curve_of(replace(even, daily_lb=tuple(gap))), FRAME), "feed")
    assert len(ring) == 1


def test_neighbours_are_told_apart_without_colour() -> None:
    """Every other layer is pale with upright strokes."""
    picture = release_marks(many(4), FRAME)
    solid = [each for each in areas(picture, "feed") if each.alpha == 1.0]
    pale = [each for each in areas(picture, "feed") if each.alpha < 1.0]
    assert (len(solid), len(pale)) == (2, 2)
    strokes = [m for m in picture.marks if isinstance(m, Polyline) and m.role == "feed"]
    assert len(strokes) >= 2


def test_water_is_spread_over_its_month_and_keeps_its_pounds() -> None:
    once = layer(date(2026, 6, 10), 0.3, 1, kind="water")
    picture = release_marks(curve_of(once, usable=False), FRAME)
    area = areas(picture, "water")[-1]
    wide = max(x for x, _ in area.rings[0]) - min(x for x, _ in area.rings[0])
    assert wide == pytest.approx((460 - 42) * 30 / 365)
    assert "irrigation water" in picture.words()


def boxes(picture: Picture) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Every text with the box it takes."""
    found = []
    for mark in picture.marks:
        if isinstance(mark, Words):
            width, (x, y) = rough_width(mark.text, mark.size), mark.at
            left = x - {"left": 0.0, "center": width / 2, "right": width}[mark.align]
            found.append((mark.text, (left, y - 7, left + width, y + 1)))
    return found


@pytest.mark.parametrize("width", [250.0, 340.0, 460.0, 640.0])
@pytest.mark.parametrize("count", [0, 1, 6, 20])
def test_no_words_meet(width: float, count: int) -> None:
    picture = release_marks(many(count), Frame(width, 190), TODAY)
    for (one, a), (other, b) in combinations(boxes(picture), 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one} meets {other}"
        assert a[0] >= 0
        assert a[2] <= width + 1


def test_days_to_come_stand_back_and_today_is_named() -> None:
    picture = release_marks(many(3), FRAME, TODAY)
    assert "today" in picture.words()
    wash = [
        m for m in picture.marks if isinstance(m, Polygon) and m.fill == "paper" and m.alpha < 1
    ]
    assert len(wash) == 1
    assert "today" not in release_marks(many(3), FRAME, date(2025, 6, 1)).words()
    assert "today" not in release_marks(many(3), FRAME).words()


def test_growth_can_use_is_a_line_only_where_it_is_known() -> None:
    def lines(curve: ReleaseCurve) -> int:
        marks = release_marks(curve, FRAME).marks
        return len([m for m in marks if isinstance(m, Polyline) and m.role == "good"])

    fed = layer(date(2026, 5, 1), 0.5)
    assert lines(curve_of(fed)) == 2  # the line and its swatch
    assert lines(curve_of(fed, usable=False)) == 0


def test_an_empty_year_says_so() -> None:
    words = release_marks(curve_of(usable=False), FRAME, TODAY).words()
    assert "Nothing that is down becomes available in 2026." in words
    assert not any(word.endswith("lb in 2026") for word in words)


def test_a_feeding_of_the_year_before_is_named_with_its_year() -> None:
    words = release_marks(curve_of(layer(date(2025, 12, 20), 0.5)), FRAME).words()
    assert "20 Dec 2025" in words


def test_the_year_runs_from_its_own_first_month() -> None:
    south = curve_of(start=date(2026, 7, 1))
    assert year_words(south) == "2026–27"
    assert year_words(curve_of()) == "2026"
    words = release_marks(south, FRAME).words()
    assert words.index("Jul") < words.index("Dec") < words.index("Jan") < words.index("Jun")


def test_words_tell_what_the_picture_shows() -> None:
    told = release_chart_words(many(8), TODAY)
    assert told.startswith(
        "Front, 2026: 3.50 lb N per 1,000 sq ft becomes available, from 9 layers."
    )
    assert "And 3 more." in told
    assert "Growth can use 3.65 in the year." in told
    assert release_chart_words(curve_of(), TODAY).startswith("Nothing that is down")


def test_nothing_is_written_below_nine_points() -> None:
    words = [m for m in release_marks(many(20), FRAME, TODAY).marks if isinstance(m, Words)]
    assert min(word.size for word in words) >= 9


def test_the_figure_is_painted() -> None:
    figure = release_figure(many(3), LIGHT, today=TODAY)
    assert "today" in [text.get_text() for text in figure.findobj(Text)]
