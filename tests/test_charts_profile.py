"""The profile columns: to scale, the same on every drawing, and never crowded."""

import io
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import combinations, pairwise

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from lawnbook.charts.figures import profile_drawing
from lawnbook.charts.free_places import Labels
from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, Words
from lawnbook.charts.paint import paint
from lawnbook.charts.palette import LIGHT
from lawnbook.charts.plug import Plug, plug_marks
from lawnbook.charts.profile import EMPTY, profile_marks
from lawnbook.charts.profile_layout import Detail, lay_out
from lawnbook.plan.plug_model import PlugColumn, SpotThatch
from tests.plan_fixture import plug, plugs, spot_of
from tests.trend_fixture import means

FRAME = Frame(460, 300)
SMALL = Frame(213, 150)


def drawn(column: PlugColumn, pt_per_in: float = 40.0) -> Plug:
    """A column 50 points wide whose crowns lie at 60."""
    return Plug(column, 100.0, 50.0, 60.0, 340.0, pt_per_in, 25.0)


def polygons(marks: Sequence[object], fill: str) -> list[Polygon]:
    """The polygons of one fill."""
    return [each for each in marks if isinstance(each, Polygon) and each.fill == fill]


def ys(shape: Polygon | Polyline) -> list[float]:
    """All heights of a mark's points."""
    rings = shape.rings if isinstance(shape, Polygon) else shape.lines
    return [y for ring in rings for _, y in ring]


@pytest.mark.parametrize("thatch", [0.05, 0.5, 1.2, 3.4])
def test_thatch_is_to_scale(thatch: float) -> None:
    """The band runs from the crowns down by its inches."""
    band = polygons(plug_marks(drawn(plug(1, date(2026, 5, 1), thatch))), "thatch")[0]
    assert min(ys(band)) == pytest.approx(60.0)
    assert max(ys(band)) == pytest.approx(60.0 + 40.0 * thatch)


@pytest.mark.parametrize("depth", [0.4, 2.0, 6.5])
def test_deepest_root_ends_at_the_depth_that_was_read(depth: float) -> None:
    """One root reaches exactly so deep, none deeper; the tick beside the column is there too."""
    marks = plug_marks(drawn(plug(1, date(2026, 5, 1), 0.5, root_depth_in=depth)))
    longest = max(max(ys(each)) for each in polygons(marks, "root") if each.alpha == 1.0)
    assert longest == pytest.approx(60.0 + 40.0 * depth)
    ticks = [each for each in marks if isinstance(each, Polyline) and each.width == 1.0]
    assert ys(ticks[-1]) == pytest.approx([60.0 + 40.0 * depth] * 2)


def test_spread_of_the_readings_is_to_scale() -> None:
    """The bar beside the column runs one standard deviation each way."""
    marks = plug_marks(drawn(plug(1, date(2026, 5, 1), 1.0, spread_in=0.2)))
    bar = marks[-1]
    assert isinstance(bar, Polyline)
    assert min(ys(bar)) == pytest.approx(60 + 40 * 0.8)
    assert max(ys(bar)) == pytest.approx(60 + 40 * 1.2)


@pytest.mark.parametrize(("level", "share"), [(1, 0.25), (2, 0.5), (4, 1.0)])
def test_soil_in_the_thatch_is_hatched_from_below(level: int, share: float) -> None:
    """The hatched part is that share of the thatch, at its lower end."""
    marks = plug_marks(drawn(plug(1, date(2026, 5, 1), 1.0, soil_in_thatch=level)))
    patch = polygons(marks, "soil")[1]
    assert max(ys(patch)) == pytest.approx(100.0)
    assert min(ys(patch)) == pytest.approx(100.0 - 40.0 * share)
    hatch = next(each for each in marks if isinstance(each, Polyline) and each.alpha == 0.62)
    assert min(ys(hatch)) >= min(ys(patch)) - 1e-6
    assert max(ys(hatch)) <= max(ys(patch)) + 1e-6


def test_roots_never_jiggle() -> None:
    """A plug is drawn alike every time, and unlike another plug."""
    column = plug(7, date(2026, 5, 1), 0.8)
    assert plug_marks(drawn(column)) == plug_marks(drawn(column))
    other = plug(8, date(2026, 5, 1), 0.8)
    assert plug_marks(drawn(column)) != plug_marks(drawn(other))


def test_pressed_plug_has_a_plate_and_no_grass() -> None:
    """It is marked on the picture and named beneath it."""
    column = plug(1, date(2026, 5, 1), 0.8, pressed=True)
    assert not polygons(plug_marks(drawn(column)), "verdure")
    assert "plate and arrows: read pressed" in profile_marks([column], FRAME).words()
    assert polygons(plug_marks(drawn(plug(1, date(2026, 5, 1), 0.8))), "verdure")


def test_what_was_not_read_is_not_drawn() -> None:
    """No thatch, no roots, no worms: a dash, and no such part."""
    bare = plug(
        1, date(2026, 5, 1), None, root_depth_in=None, worms=None, sponge=None, soil_in_thatch=None
    )
    marks = plug_marks(drawn(bare))
    assert not polygons(marks, "thatch")
    assert not [each for each in polygons(marks, "root") if each.alpha == 1.0]
    words = profile_marks([bare], FRAME).words()
    assert words.count("–") == 2
    assert "worms" not in words


def level_lines(picture: Picture) -> dict[str, float]:
    """The heights of the half-inch and one-inch lines, told by their dashes."""
    dashed = [each for each in picture.marks if isinstance(each, Polyline) and each.dash]
    names = {(5.0, 2.6): "half", (1.2, 2.4): "one"}
    return {names[each.dash]: ys(each)[0] for each in dashed if each.dash in names}


def test_half_inch_line_lies_at_half_an_inch() -> None:
    """Measured against the band of a plug with one inch of thatch."""
    picture = profile_marks([plug(1, date(2026, 5, 1), 1.0)], FRAME)
    band = polygons(picture.marks, "thatch")[0]
    crowns, end = min(ys(band)), max(ys(band))
    lines = level_lines(picture)
    assert lines["one"] == pytest.approx(end)
    assert lines["half"] == pytest.approx((crowns + end) / 2)


def test_trend_runs_where_the_plan_says() -> None:
    """At each plug's date the line lies at the trend's inches, whatever the column shows."""
    columns = [plug(n, date(2022 + n, 5, 1), 0.9) for n in range(4)]
    line = ((columns[0].date, 1.0), (columns[-1].date, 0.5))
    picture = profile_marks(columns, FRAME, line)
    trend = next(m for m in picture.marks if isinstance(m, Polyline) and m.role == "accent")
    lines = level_lines(picture)
    assert len(trend.lines[0]) == 4
    assert ys(trend)[0] == pytest.approx(lines["one"])
    assert ys(trend)[-1] == pytest.approx(lines["half"])


def test_no_trend_without_one() -> None:
    """Two plugs without a line: nothing is drawn across them."""
    picture = profile_marks(plugs(2), FRAME)
    assert not [m for m in picture.marks if isinstance(m, Polyline) and m.role == "accent"]


def test_figures_stand_over_and_under_the_columns() -> None:
    """Thatch to the hundredth, roots to the tenth, dates, and each year once."""
    words = profile_marks(plugs(5), FRAME).words()
    for text in (
        "1.20",
        "1.04",
        "2.0",
        "3.0",
        "3 May",
        "3 Sep",
        "2017",
        "2018",
        "2019",
        "roots, in",
    ):
        assert text in words
    assert words.count("2017") == 1


def test_too_many_plugs_keep_the_first_and_the_latest() -> None:
    """What was left out is said."""
    picture = profile_marks(plugs(60), Frame(300, 240))
    assert "1.20" in picture.words()
    assert {"2017", "2046"} <= set(picture.words())
    shown = [mark for mark in picture.marks if isinstance(mark, Polygon) and mark.edge == "paper"]
    assert f"{60 - len(shown)} plugs left out after the first" in picture.words()


def test_no_plug_yet() -> None:
    """An empty spot says what will stand there, in one line or two."""
    assert profile_marks([], FRAME).words() == (" ".join(EMPTY),)
    assert profile_marks([], SMALL).words() == EMPTY


def boxes(picture: Picture) -> list[tuple[str, float, float, float, float]]:
    """Each text with its true box in points, measured on the painted figure."""
    figure = Figure(figsize=(picture.frame.width / 72, picture.frame.height / 72), dpi=72)
    FigureCanvasAgg(figure)
    paint(figure, picture, LIGHT)
    figure.savefig(io.BytesIO(), dpi=72)
    extents = [(t.get_text(), t.get_window_extent()) for t in figure.findobj(Text)]
    return [(text, box.x0, box.y0, box.x1, box.y1) for text, box in extents]


FRAMES: tuple[tuple[Frame, Detail], ...] = (
    (FRAME, "full"),
    (Frame(330, 170), "full"),
    (SMALL, "brief"),
    (Frame(204, 118), "brief"),
    (Frame(212, 330), "brief"),
)


@pytest.mark.parametrize("count", [*range(1, 21), 27])
@pytest.mark.parametrize(("frame", "detail"), FRAMES)
def test_words_stay_apart_and_inside(count: int, frame: Frame, detail: Detail) -> None:
    """From one plug to many, no figure touches another or leaves the picture."""
    columns = plugs(count)
    found = boxes(profile_marks(columns, frame, spot_of(columns).line, detail))
    for text, x0, y0, x1, y1 in found:
        assert x0 >= 0, text
        assert x1 <= frame.width, text
        assert y0 >= 0, text
        assert y1 <= frame.height, text
    for (text, *one), (other_text, *other) in combinations(found, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        along = min(one[3], other[3]) - max(one[1], other[1])
        assert across <= 0.3 or along <= 0.8, (text, other_text)


@pytest.mark.parametrize("count", range(2, 21))
@pytest.mark.parametrize(("frame", "detail"), FRAMES)
def test_no_line_runs_through_words(count: int, frame: Frame, detail: Detail) -> None:
    """Neither trend nor the half-inch and one-inch lines, ticks and bars cross what is written."""
    columns = plugs(count)
    picture = profile_marks(columns, frame, spot_of(columns).line, detail)
    lines = [each.lines for each in picture.marks if isinstance(each, Polyline)]
    sides = [side for rings in lines for ring in rings for side in pairwise(ring)]
    drawn = Labels(frame.width, frame.height, np.array(sides))
    for text, x0, y0, x1, y1 in boxes(picture):
        box = (x0 + 0.5, frame.height - y1 + 1.0, x1 - 0.5, frame.height - y0 - 1.0)
        assert drawn.crossings(box) == 0, text


def test_one_row_of_dates_names_each_year_once() -> None:
    """On paper five plugs need one row: the year stands with its first plug, and stays apart."""
    words = profile_marks(plugs(5), Frame(212, 200), None, "brief").words()
    dates = [text for text in words if text[:3] in ("May", "Sep")]
    assert dates == ["May ’17", "Sep", "May ’18", "Sep", "May ’19"]
    assert "2017" not in words
    assert "2017" in profile_marks(plugs(9), Frame(212, 200), None, "brief").words()


def test_printed_roots_of_six_inches_are_drawn_whole() -> None:
    """A spot whose roots go down six inches keeps them in the picture of a page with four zones."""
    columns = [plug(n, date(2024 + n, 5, 1), 0.9, root_depth_in=5.8) for n in range(3)]
    picture = profile_marks(columns, Frame(212, 138), None, "brief")
    ends = [m for m in picture.marks if isinstance(m, Polyline) and m.width == 1.0]
    assert len(ends) == 3


def test_nothing_is_written_below_nine_points() -> None:
    """On screen no text is smaller than 9 pt."""
    words = [m for m in profile_marks(plugs(12), FRAME).marks if isinstance(m, Words)]
    assert words
    assert min(word.size for word in words) >= 9


def replicated(days: int, a_day: int) -> list[PlugColumn]:
    """So many days, spring and autumn, with so many plugs each."""
    return [
        plug(a_day * turn + each, date(2020 + turn // 2, 5 if turn % 2 == 0 else 9, 24), 0.84)
        for turn in range(days)
        for each in range(a_day)
    ]


@pytest.mark.parametrize(("days", "a_day"), [(1, 3), (3, 2), (5, 3), (9, 2), (12, 4)])
@pytest.mark.parametrize(("frame", "detail"), FRAMES)
def test_plugs_of_a_day_share_its_date(days: int, a_day: int, frame: Frame, detail: Detail) -> None:
    """They stand nearer to each other than to the next day; no words touch."""
    columns = replicated(days, a_day)
    layout = lay_out(columns, frame, detail)
    gaps = [b - a for a, b in pairwise(layout.middles)]
    ends = {day[-1] for day in layout.days}
    same = [gap for n, gap in enumerate(gaps) if n not in ends]
    apart = [gap for n, gap in enumerate(gaps) if n in ends]
    assert not same or not apart or max(same) < min(apart)
    assert min(gaps, default=99) > layout.plug(0).width
    assert layout.start >= 0
    assert layout.end <= frame.width
    found = boxes(profile_marks(columns, frame, None, detail))
    for (text, *one), (other_text, *other) in combinations(found, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        along = min(one[3], other[3]) - max(one[1], other[1])
        assert across <= 0.3 or along <= 0.8, (text, other_text)


def test_one_date_over_three_plugs() -> None:
    """Written once, over the middle one."""
    picture = profile_marks(replicated(2, 3), Frame(600, 300))
    dates = [m for m in picture.marks if isinstance(m, Words) and m.text == "24 May"]
    thatch = [m.at[0] for m in picture.marks if isinstance(m, Words) and m.text == "0.84"]
    assert len(dates) == 1
    assert dates[0].at[0] == pytest.approx(thatch[1])


def test_figures_of_a_day_where_its_plugs_have_no_room() -> None:
    """Three plugs a day in a narrow picture: the day's means under its date, and it is said."""
    columns = [
        replace(each, thatch_in=0.8 + 0.1 * (number % 3), root_depth_in=2.0 + number % 3)
        for number, each in enumerate(replicated(4, 3))
    ]
    picture = profile_marks(columns, Frame(385, 260))
    texts = [m for m in picture.marks if isinstance(m, Words)]
    dates = [m.at[0] for m in texts if m.text in {"24 May", "24 Sep", "May", "Sep"}]
    thatch = [m.at[0] for m in texts if m.text == "0.90"]
    assert thatch == pytest.approx(dates)
    assert len([m for m in texts if m.text == "3.0"]) == 4
    assert "figures: means of a day's plugs" in picture.words()
    wide = profile_marks(columns, Frame(900, 260)).words()
    assert {"0.80", "1.00"} <= set(wide)
    assert not any("means" in text for text in wide)


@pytest.mark.parametrize("change", ["pressed", "cut"])
def test_what_cannot_be_averaged_is_told_by_plug(change: str) -> None:
    """Pressed beside unpressed, or roots that reach the cut end: plugs keep their own figures."""
    columns = replicated(4, 3)
    columns[0] = (
        replace(columns[0], pressed=True)
        if change == "pressed"
        else replace(columns[0], root_depth_in=3.0, core_depth_in=3.0)
    )
    told = profile_marks(columns, Frame(385, 260)).words()
    assert not any("means" in text for text in told)


@pytest.mark.parametrize("count", [1, 4, 9, 40])
@pytest.mark.parametrize(("frame", "detail"), FRAMES)
def test_means_of_a_zone(count: int, frame: Frame, detail: Detail) -> None:
    """The number of spots stands over each mean, counts have a decimal, no words touch."""
    columns = means(count)
    picture = profile_marks(columns, frame, None, detail)
    words = picture.words()
    assert ("spots, of 4" if detail == "full" else "spots") in words
    if detail == "full":
        assert {"2.3", "0.7"} <= set(words)
    if any("left out" in text for text in words):
        assert any("rounds left out" in text for text in words)
    found = boxes(picture)
    for (text, *one), (other_text, *other) in combinations(found, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        along = min(one[3], other[3]) - max(one[1], other[1])
        assert across <= 0.3 or along <= 0.8, (text, other_text)


@pytest.mark.parametrize(("roots", "told"), [(2.8, "2.8+"), (2.0, "2.0"), (None, "–")])
def test_short_plug_ends_at_its_cut(roots: float | None, told: str) -> None:
    """Soil ends where the plug was cut, roots with it; a plus where they may go on below."""
    column = replace(plug(1, date(2026, 5, 1), 0.8, root_depth_in=roots), core_depth_in=2.8)
    marks = plug_marks(drawn(column))
    soil = polygons(marks, "soil")[0]
    assert max(ys(soil)) == pytest.approx(60 + 40 * 2.8)
    lowest = [max(ys(each)) for each in polygons(marks, "root") if each.alpha == 1.0]
    assert max(lowest, default=0.0) <= 60 + 40 * 2.8 + 1e-6
    words = profile_marks([column], FRAME).words()
    assert told in words
    assert any(text.startswith("+: roots reach") for text in words) == (told == "2.8+")


def test_long_plug_is_not_cut() -> None:
    """A plug longer than the picture ends raggedly, as one of unknown length."""
    column = replace(plug(1, date(2026, 5, 1), 0.8), core_depth_in=20.0)
    assert drawn(column).cut is None


def test_a_trend_without_an_interval_is_thin_and_dashed() -> None:
    """Beside "cannot say yet" a bold line would say it all the same: of spots and of zones."""
    columns = plugs(4)
    spot = replace(spot_of(columns), ci95=None)

    def trend(thatch: SpotThatch) -> list[Polyline]:
        marks = profile_drawing(thatch)(FRAME).marks
        return [m for m in marks if isinstance(m, Polyline) and m.role == "accent"]

    (unsure,), (sure,) = trend(spot), trend(replace(spot, ci95=(-0.2, -0.1)))
    assert unsure.lines == sure.lines
    assert unsure.width < sure.width
    assert unsure.dash
    assert not sure.dash


def test_trend_of_many_points_is_followed() -> None:
    """A line with a bend is read at each date, not from end to end."""
    columns = [plug(n, date(2022 + n, 5, 1), 0.9) for n in range(3)]
    line = ((columns[0].date, 1.0), (columns[1].date, 0.5), (columns[2].date, 0.5))
    picture = profile_marks(columns, FRAME, line)
    trend = next(m for m in picture.marks if isinstance(m, Polyline) and m.role == "accent")
    lines = level_lines(picture)
    assert ys(trend) == pytest.approx([lines["one"], lines["half"], lines["half"]])
