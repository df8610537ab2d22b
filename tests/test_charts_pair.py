"""Then and now: two days of one spot on one scale, and the change between them."""

from datetime import date

import pytest

from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline
from lawnbook.charts.pair import EMPTY, pair_marks
from lawnbook.plan.plug_model import PlugColumn
from tests.plan_fixture import plug
from tests.test_charts_profile import boxes

FRAME = Frame(420, 300)
THEN = (plug(1, date(2023, 5, 4), 1.2), plug(2, date(2023, 5, 4), 1.0))
NOW = (plug(3, date(2026, 5, 9), 0.6, root_depth_in=5.0),)


def change(picture: Picture) -> tuple[tuple[float, float], ...]:
    """The line from then to now; empty where there is none."""
    lines = [m for m in picture.marks if isinstance(m, Polyline) and m.role == "accent"]
    return lines[0].lines[0] if lines else ()


def test_both_days_are_on_one_scale() -> None:
    """Thatch of 1.2, 1.0 and 0.6 in from the same crowns, in that proportion."""
    picture = pair_marks(THEN, NOW, FRAME)
    bands = [
        m for m in picture.marks if isinstance(m, Polygon) and m.fill == "thatch" and m.alpha == 1
    ]
    tall = [max(y for _, y in m.rings[0]) - min(y for _, y in m.rings[0]) for m in bands]
    assert [each / tall[0] for each in tall] == pytest.approx([1, 1 / 1.2, 0.5])
    assert len({min(y for _, y in m.rings[0]) for m in bands}) == 1


def test_headings_tell_which_day_is_which() -> None:
    """Then and now with whole dates, each once, over the middle of their columns."""
    words = pair_marks(THEN, NOW, FRAME).words()
    for text in ("then", "now", "4 May 2023", "9 May 2026", "1.20", "1.00", "0.60", "½ in"):
        assert words.count(text) == 1


def test_change_runs_between_the_means() -> None:
    """From 1.1 in then to 0.6 in now: down to up on the page, by half an inch."""
    line = change(pair_marks(THEN, NOW, FRAME))
    heights = [y for _, y in line]
    assert heights[0] == heights[1] > heights[2] == heights[3]
    picture = pair_marks(THEN, NOW, FRAME)
    half, one = (
        next(m for m in picture.marks if isinstance(m, Polyline) and m.dash == dash).lines[0][0][1]
        for dash in ((5.0, 2.6), (1.2, 2.4))
    )
    assert heights[0] - heights[2] == pytest.approx(one - half)


@pytest.mark.parametrize(
    "now",
    [
        (plug(3, date(2026, 5, 9), 0.6, pressed=True),),
        (plug(3, date(2026, 5, 9), None),),
        (),
    ],
    ids=["pressed", "not read", "none"],
)
def test_no_change_is_drawn_where_there_is_none_to_tell(now: tuple[PlugColumn, ...]) -> None:
    """Pressed against unpressed, unread thatch, or one day only."""
    assert change(pair_marks(THEN, now, FRAME)) == ()


def test_nothing_yet() -> None:
    """Without any plug the picture says what it needs."""
    assert pair_marks((), (), FRAME).words() == (EMPTY,)


@pytest.mark.parametrize("width", [250, 330, 420, 700])
@pytest.mark.parametrize("replicates", [1, 2, 4])
def test_words_stay_apart_and_inside(width: float, replicates: int) -> None:
    """However narrow, no date or figure touches another."""
    then = [plug(n, date(2023, 9, 24), 1.2) for n in range(replicates)]
    now = [plug(10 + n, date(2026, 9, 25), 0.6) for n in range(replicates)]
    found = boxes(pair_marks(then, now, Frame(width, 260)))
    for number, (text, x0, _, x1, y1) in enumerate(found):
        assert x0 >= 0, text
        assert x1 <= width, text
        for other, a0, _, a1, b1 in found[:number]:
            assert min(x1, a1) - max(x0, a0) <= 0.3 or abs(y1 - b1) > 8, (text, other)


@pytest.mark.parametrize("height", [40, 80, 120, 200])
def test_in_too_low_a_place_it_is_still_a_picture(height: float) -> None:
    """Lower than half of its height no view asks for it (`MarksView`)."""
    assert pair_marks(THEN, NOW, Frame(330, height)).marks
