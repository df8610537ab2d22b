"""Charts for a metric reader: round ticks of the shown unit, no US unit, nothing cut; in words."""

import inspect
import re
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import cache

import pytest
from PySide6.QtGui import QPainter

from lawnbook.charts import figures
from lawnbook.charts.first_and_latest import first_and_latest_marks
from lawnbook.charts.ledger import ledger_marks
from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, Words
from lawnbook.charts.nitrogen import nitrogen_marks, short_pounds
from lawnbook.charts.pair import pair_marks
from lawnbook.charts.profile import profile_marks
from lawnbook.charts.profile_hits import profile_hits
from lawnbook.charts.release import release_marks
from lawnbook.charts.season import season_marks
from lawnbook.charts.season_hits import season_hits
from lawnbook.charts.season_layout import season_height_pt
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.charts.stretch import inch_marks, inch_words, stretch_marks
from lawnbook.charts.summaries import SUMMARIES
from lawnbook.charts.thatch_trend import trend_hits, trend_marks
from lawnbook.charts.told_sketch import sketch_summary
from lawnbook.charts.trend_layout import Trends
from lawnbook.charts.year_water import year_marks
from lawnbook.plan.ledger import zone_ledger
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Evidence
from lawnbook.plan.release import release_of
from lawnbook.plan.season_year import season_year, year_of
from lawnbook.plan.season_year_model import SeasonYear
from lawnbook.plan.water_model import Stretch, ZoneLedger
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.reading import Reading, Units, reading_as
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import Ink, Style
from lawnbook.yard.notebook import as_of
from lawnbook.yard.records import Zone
from tests.desk_sample import samples

pytestmark = pytest.mark.usefixtures("qapp")
ON = date(2026, 6, 15)
FRAMES = (Frame(400, 260), Frame(560, 300), Frame(900, 420))
NAMES = ("larkspur_corner", "saltbush_court")
US_UNIT = re.compile(
    r"(?:\d|[½¼])[\s\u00a0](?:in|ft|gal|lb)\b(?! (?:the|all) )|\b(?:sq ft|inch|inches|gallons|lb)\b"
)
NUMBER = re.compile(r"[\d,]+(?:\.\d+)?")


@pytest.fixture(name="units", params=["us", "metric"])
def both_units(request: pytest.FixtureRequest) -> Iterator[Units]:
    """Each of the readings in turn."""
    units: Units = request.param
    with reading_as(Reading(units=units)):
        yield units


@pytest.fixture(name="_metric")
def metric_reader() -> Iterator[None]:
    """Everything is read in metric units meanwhile."""
    with reading_as(Reading(units="metric")):
        yield


class Held:
    """What the charts of a sample's first zone and spots are drawn from, in one reading."""

    def __init__(self, name: str) -> None:
        self.notebook = samples()[name]
        self.plan: Plan = make_plan(self.notebook, ON)
        self.zone = self.plan.zones[0]
        self.nitrogen = self.plan.nitrogen[0]
        setting = setting_of(as_of(self.notebook, ON), ON)
        zone = setting.notebook.zones[self.zone.zone_id]
        self.ledger: ZoneLedger = zone_ledger(setting, facts_of(setting, zone, 1))
        self.curve = release_of(self.notebook, self.zone.zone_id, ON)
        self.year: SeasonYear = season_year(self.notebook, self.plan, year_of(self.notebook, ON))
        self.spot = next(each for each in self.plan.thatch if each.columns)

    @property
    def evidence(self) -> Evidence:
        """What the plugs of the spot show."""
        assert self.spot.evidence is not None
        return self.spot.evidence

    @property
    def stretch(self) -> Stretch:
        """The steps of the zone, whose season may have ended."""
        found = next((each.stretch for each in self.plan.zones if each.stretch), None)
        assert found is not None
        return found

    def pictures(self) -> dict[str, Callable[[Frame], Picture]]:
        """Every chart, on any frame."""
        spot, plan = self.spot, self.plan
        trends = Trends(self.evidence, plan.thatch, frozenset({plan.thatch[-1].spot_id}))
        year = self.zone.water_year
        assert year is not None
        days = sorted({each.date for each in spot.columns})
        first, last = ([c for c in spot.columns if c.date == on] for on in (days[0], days[-1]))
        return {
            "profile": lambda frame: profile_marks(spot.columns, frame, spot.line),
            "brief": lambda frame: profile_marks(spot.columns, frame, spot.line, "brief"),
            "first": lambda frame: first_and_latest_marks(spot.columns, frame),
            "pair": lambda frame: pair_marks(first, last, frame),
            "trend": lambda frame: trend_marks(trends, (), frame, ON),
            "nitrogen": lambda frame: nitrogen_marks(self.nitrogen, frame, 0.3, 9),
            "release": lambda frame: release_marks(self.curve, frame, ON),
            "ledger": lambda frame: ledger_marks(self.ledger, frame, self.zone.next_watering),
            "year": lambda frame: year_marks(year, frame),
            "stretch": lambda frame: stretch_marks(self.stretch, 6.0, frame),
            "inch": lambda frame: inch_marks(self.stretch, (0.6, 4.2), Frame(170, frame.height)),
            "season": lambda frame: season_marks(
                self.year, Frame(frame.width, season_height_pt(self.year))
            ),
            "sketch": lambda frame: sketch_marks(self.notebook, plan, frame=frame),
        }


@cache
def held(name: str, units: Units) -> Held:
    """A sample's charts in a reading; made within it, as the plan's sentences are."""
    with reading_as(Reading(units=units)):
        return Held(name)


def box(ink: Ink, words: Words) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a text in points, by the font itself."""
    wide = ink.width(words.text, Style(words.face, words.size))
    left = words.at[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[words.align] * wide
    return left, words.at[1] - 0.74 * words.size, left + wide, words.at[1] + 0.21 * words.size


@pytest.mark.parametrize("name", NAMES)
def test_words_stand_within_the_picture_and_apart(name: str, units: Units) -> None:
    """Nothing cut, nothing over anything else, nothing under 7 points: in both readings."""
    ensure_qt()
    ink = Ink(QPainter())
    for kind, draw in held(name, units).pictures().items():
        for frame in FRAMES:
            picture = draw(frame)
            texts = [mark for mark in picture.marks if isinstance(mark, Words)]
            placed = [(mark.text, box(ink, mark)) for mark in texts]
            assert min(mark.size for mark in texts) >= 7.0
            for number, (text, (left, top, right, bottom)) in enumerate(placed):
                told = (kind, frame.width, text)
                assert left >= 0, told
                assert right <= picture.frame.width, told
                assert top >= 0, told
                assert bottom <= picture.frame.height, told
                for other, (x0, y0, x1, y1) in placed[:number]:
                    across, down = min(right, x1) - max(left, x0), min(bottom, y1) - max(top, y0)
                    assert across < 0.8 or down < 0.8, (*told, other)


@pytest.mark.usefixtures("_metric")
@pytest.mark.parametrize("name", NAMES)
def test_no_us_unit_is_left(name: str) -> None:
    """In the pictures, under the pointer, and in the words for those who cannot see them."""
    of = held(name, "metric")
    told = [text for draw in of.pictures().values() for text in draw(FRAMES[1]).words()]
    hits = (
        *profile_hits(of.spot.columns, FRAMES[1]),
        *trend_hits(of.evidence, (), FRAMES[1], ON),
        *season_hits(of.year, FRAMES[1]),
    )
    told += [each.words for each in hits]
    told += [sketch_summary(of.notebook), inch_words(of.stretch, 4.2), *summaries_of(of).values()]
    assert [each for each in told if US_UNIT.search(each)] == []


def held_zones() -> tuple[Zone, ...]:
    """The zones of the sample, in their order."""
    return tuple(samples()["larkspur_corner"].zones.values())


def span_of(points: Sequence[tuple[float, float]]) -> float:
    """How far apart the outermost points are, from left to right."""
    return max(x for x, _ in points) - min(x for x, _ in points)


def right_aligned(picture: Picture, colour: str = "quiet") -> list[float]:
    """The numbers of a scale at the left, from nothing on."""
    found = [
        float(mark.text.replace(",", ""))
        for mark in picture.marks
        if isinstance(mark, Words)
        and mark.align == "right"
        and mark.role == colour
        and NUMBER.fullmatch(mark.text)
    ]
    return sorted(found)


@pytest.mark.usefixtures("_metric")
@pytest.mark.parametrize("kind", ["profile", "trend", "nitrogen", "release", "year", "first"])
@pytest.mark.parametrize("name", NAMES)
def test_ticks_are_round_in_the_shown_unit(name: str, kind: str) -> None:
    """Steps of one, two or five times a power of ten, the first of them nothing or one step."""
    for frame in FRAMES:
        numbers = right_aligned(held(name, "metric").pictures()[kind](frame))
        assert len(numbers) >= 2, kind
        step = numbers[1] - numbers[0]
        assert f"{step:.3e}"[:5] in {"1.000", "2.000", "2.500", "5.000"}, (kind, numbers)
        for number in numbers:
            assert number / step == pytest.approx(round(number / step)), (kind, numbers)


@pytest.mark.usefixtures("_metric")
def test_a_tick_stands_where_its_millimetres_lie() -> None:
    """Ten millimetres lie at 10 ÷ 25.4 in, between nothing and the line of the inch (25.4 mm)."""
    picture = held("larkspur_corner", "metric").pictures()["trend"](Frame(560, 300))
    places = {mark.text: mark.at[1] for mark in picture.marks if isinstance(mark, Words)}
    nothing, inch = places["0"], places["25 mm"]
    assert places["10"] == pytest.approx(nothing + (inch - nothing) * 10 / 25.4)
    assert places["13 mm"] == pytest.approx((nothing + inch) / 2)


def test_the_half_inch_keeps_its_place_and_is_told_in_millimetres() -> None:
    """The limit is half an inch in both readings; only its name follows the reader."""
    kept: dict[Units, list[tuple[float, float]]] = {}
    lines: tuple[tuple[Units, tuple[str, str]], ...] = (
        ("us", ("½ in", "1 in")),
        ("metric", ("13 mm", "25 mm")),
    )
    for units, names in lines:
        with reading_as(Reading(units=units)):
            picture = held("larkspur_corner", units).pictures()["trend"](Frame(560, 300))
        found = [m for m in picture.marks if isinstance(m, Words) and m.text in names]
        assert sorted(each.text for each in found) == sorted(names)
        kept[units] = [each.at for each in found]
    assert kept["us"] == kept["metric"]


@pytest.mark.usefixtures("_metric")
def test_the_scale_bar_is_of_whole_metres() -> None:
    """A round number, and as long as so many metres are of the yard: 3.28084 ft each."""
    for frame, metres in ((Frame(320, 220), 5), (Frame(900, 420), 10)):
        picture = held("larkspur_corner", "metric").pictures()["sketch"](frame)
        assert f"{metres} m" in picture.words()
        bar = next(m for m in picture.marks if isinstance(m, Polyline) and len(m.lines) == 4)
        (start, _), (end, _) = bar.lines[0]
        turf = next(m for m in picture.marks if isinstance(m, Polygon) and m.fill == "turf")
        drawn, outline = turf.rings[0], next(iter(held_zones())).outline_ft
        per_ft = span_of(drawn) / span_of(outline)
        assert end - start == pytest.approx(metres * 3.28084 * per_ft, rel=1e-4)


def test_grams_keep_their_nought() -> None:
    """A pound's hundredths are told without it where it is narrow; grams have a digit less."""
    assert short_pounds(0.1) == ".10"
    with reading_as(Reading(units="metric")):
        assert short_pounds(0.1) == "0.5"
        assert short_pounds(-0.1) == "−0.5"
        assert short_pounds(0.006) == "0"
    with reading_as(Reading(point=",", group=".")):
        assert short_pounds(0.1) == ",10"


def summaries_of(of: Held) -> dict[str, str]:
    """Each figure of `charts.figures` in words, given what the figure is given."""
    year = of.zone.water_year
    assert year is not None
    given: dict[str, tuple[object, ...]] = {
        "profile_figure": (of.spot,),
        "trend_figure": (of.evidence, ()),
        "nitrogen_figure": (of.nitrogen, 0.3, 9),
        "release_figure": (of.curve, ON),
        "ledger_figure": (of.ledger, of.zone.next_watering),
        "year_figure": (year,),
        "stretch_figure": (of.stretch, 6.0),
        "season_figure": (of.year,),
    }
    return {name: SUMMARIES[name](*values) for name, values in given.items()}


def latest_of(of: Held, units: Units) -> dict[str, str]:
    """The latest value of each figure as the plan holds it, worked out here."""
    mm, g = (25.4, 4.88243) if units == "metric" else (1.0, 1.0)
    places = 1 if units == "metric" else 2
    applied = [each for each in of.nitrogen.applied_by_month if each > 0]
    year = of.zone.water_year
    assert of.spot.latest_in is not None
    assert year is not None
    done = max(each.date for each in of.year.marks if not each.planned)
    total = year.plan.gallons * (3.785411784 if units == "metric" else 1.0)
    so_far = sum(sum(each.daily_lb[: (ON - of.curve.start).days + 1]) for each in of.curve.layers)
    return {
        "profile_figure": f"{of.spot.latest_in * mm:.{places}f} ",
        "trend_figure": f"{of.evidence.points[-1].thatch_in * mm:.{places}f} ",
        "nitrogen_figure": f"{applied[-1] * g:.{places}f}",
        "release_figure": f"{so_far * g:.{places}f}",
        "ledger_figure": f"{float(of.ledger.depletion_in[-1]) * mm:.{places}f}",
        "year_figure": f"{total:,.0f}",
        "stretch_figure": f"{of.stretch.steps[-1].depth_in * mm:.{places}f}",
        "season_figure": f"{done.day} {done:%b} {done.year}",
    }


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_is_told_in_words_with_its_latest_value(name: str, units: Units) -> None:
    """Walked by name, so that a new figure without words fails here."""
    drawn = {each for each, _ in inspect.getmembers(figures, inspect.isfunction)}
    assert set(SUMMARIES) == {each for each in drawn if each.endswith("_figure")}
    of = held(name, units)
    told = summaries_of(of)
    for figure, value in latest_of(of, units).items():
        assert value in told[figure], (figure, told[figure])
        sentences = re.findall(r"[.?](?= [A-Z]|$)", told[figure])
        assert 2 <= len(sentences) <= 7, told[figure]


def test_the_sketch_is_told_with_areas_and_what_is_chosen() -> None:
    """Each zone with its number and area, and the record by its name."""
    notebook = samples()["larkspur_corner"]
    zone = next(iter(notebook.zones.values()))
    words = sketch_summary(notebook, ("zones", zone.id))
    assert f"Zone 1 {zone.name}, 1,648 sq ft" in words
    assert words.endswith(f"{zone.name} is chosen.")
    with reading_as(Reading(units="metric")):
        assert f"Zone 1 {zone.name}, 153.1 m²" in sketch_summary(notebook)


def test_a_place_without_plugs_says_so() -> None:
    """Neither a range of time nor a value is made up."""
    plan = make_plan(samples()["larkspur_corner"], date(2023, 1, 5))
    spot = plan.thatch[0]
    assert spot.evidence is not None
    assert SUMMARIES["profile_figure"](spot) == f"No plug yet at {spot.spot}."
    assert SUMMARIES["trend_figure"](spot.evidence).startswith("No plug with its thatch read yet")


def test_a_zone_and_the_yard_are_told_by_the_means_of_their_rounds() -> None:
    """The first and the latest round's mean, and the verdict over the spots."""
    plan = held("larkspur_corner", "us").plan
    yard = plan.yard_thatch
    assert yard is not None
    for place in (*plan.zone_thatch, yard):
        words = SUMMARIES["profile_figure"](place)
        latest = place.columns[-1].thatch_in
        assert latest is not None
        assert f"{latest:.2f} in" in words
        assert place.evidence.verdict.rstrip(".") in words
