"""The plausibility rules: what is refused, what is questioned, and the sentence that says so."""

import math
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.yard import spellings
from lawnbook.yard.check import check, check_all, check_notebook
from lawnbook.yard.fields import FieldInfo, Outline, fields_of, without_none
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import Problem, asked, in_one_line, refused
from lawnbook.yard.records import (
    TABLES,
    Care,
    CatchTest,
    ClimateMonth,
    Core,
    Established,
    Feature,
    Feeding,
    Head,
    Ingredient,
    NBudget,
    NRules,
    Photo,
    Product,
    Record,
    Season,
    SoilTest,
    Spot,
    Watering,
    WaterRules,
    WeatherDay,
    Yard,
    Zone,
)
from tests.conftest import TODAY
from tests.strategies import notebooks

FRONT = Zone(id="z", name="Front", outline_ft=rectangle_ft((0, 0), 50, 20))
BACK = Zone(id="b", rank=1, name="Back", outline_ft=rectangle_ft((60, 0), 50, 20))
SLOW = Product(id="p", name="Slow feed", n_pct=20, slow_n_pct=12)
CORE = Core(id="c", spot="s", date=TODAY, thatch_in=(0.6, 0.7))
TEST = CatchTest(id="t", zone="z", date=TODAY, run_minutes=20, depths_in=(0.2, 0.3))
FEEDING = Feeding(id="f", date=TODAY, product="p", pounds=MappingProxyType({"z": 2.0}))
DAY = WeatherDay(id="2026-06-01", date=date(2026, 6, 1), tmin_f=50, tmax_f=80)
MIX = (Ingredient(name="Meal", pounds=10, n_pct=10), Ingredient(name="Sand", pounds=10))


def _notebook() -> Notebook:
    notebook = new_notebook("Home")
    rows: tuple[tuple[str, Record], ...] = (
        ("zones", FRONT),
        ("zones", BACK),
        ("spots", Spot(id="s", name="Oak", zone="z")),
        ("cores", CORE),
        ("products", SLOW),
        ("n_budgets", NBudget(id="n", name="Mine", by_month=(0.25,) * 12)),
        ("weather", DAY),
        ("climate", ClimateMonth(id="07", month=7, tmean_f=70)),
    )
    for table, record in rows:
        notebook = apply(notebook, put(notebook, table, record))
    return notebook


NOTEBOOK = _notebook()
PICTURE = Picture.of(b"a picture")
HASH = PICTURE.sha256


def _with(record: Record, field: str, value: Any) -> Record:
    return replace(record, **{field: value})


def test_a_sound_notebook_has_no_problems() -> None:
    """And neither has a new record that fits in."""
    assert check_notebook(NOTEBOOK, TODAY) == ()
    for record in (
        TEST,
        FEEDING,
        replace(CORE, id="new", clock=3),
        Care(id="k", date=TODAY, kind="mow"),
    ):
        assert check(record, NOTEBOOK, TODAY) == ()


SLIP_SENTENCE = "Thatch of 25 in is more than any lawn has; if it was 25 millimetres, enter 0.98."
FUTURE_SENTENCE = (
    "Date: 3 Aug 2027 is in the future; enter the day it happened, 15 Jun 2026 or before."
)
REFUSED: list[tuple[Record, str, str]] = [
    (_with(CORE, "thatch_in", (25.0,)), "thatch_in", SLIP_SENTENCE),
    (_with(CORE, "thatch_in", (-0.1,)), "thatch_in", "Thatch of -0.1 in is too little; enter 0 in"),
    (_with(CORE, "thatch_in", (math.nan,)), "thatch_in", "Thatch must be a finite number"),
    (_with(CORE, "root_depth_in", math.inf), "root_depth_in", "must be a finite number"),
    (_with(CORE, "root_depth_in", 150.0), "root_depth_in", "150 millimetres, enter 5.91."),
    (_with(CORE, "root_depth_in", 5000.0), "root_depth_in", "any lawn has; enter 0 to 60 in."),
    (_with(CORE, "date", date(2027, 8, 3)), "date", FUTURE_SENTENCE),
    (_with(CORE, "date", date(206, 6, 1)), "date", "too long ago; check the year."),
    (_with(CORE, "spot", "elm"), "spot", 'Spot: there is no "elm" in spots; choose Oak.'),
    (_with(CORE, "sponge", 5), "sponge", "Sponge of 5 is more than it can be; enter 0 to 4."),
    (_with(CORE, "thatch_in", ()), "thatch_in", "enter at least the thatch or the root depth."),
    (replace(CORE, thatch_in=(), note=" ", clock=3, pressed=True), "thatch_in", "show something"),
    (_with(FRONT, "name", "  "), "name", "Name is empty; enter one."),
    (_with(FRONT, "name", "a\x00b"), "name", "cannot be shown (code 0); take it out."),
    (_with(CORE, "note", "a\ud800"), "note", "cannot be shown (code 55296)"),
    (_with(FRONT, "slope_pct", 1e300), "slope_pct", "Slope of 1e+300 % is more than it can be"),
    (_with(FRONT, "name", "a\nb"), "name", "one line of at most 200"),
    (_with(FRONT, "name", "x" * 201), "name", "one line of at most 200"),
    (_with(BACK, "name", " front "), "name", "already in use; choose another"),
    (_with(FRONT, "grass", "hot"), "grass", 'Grass "hot" is not known; choose cool or warm.'),
    (_with(FRONT, "allowed_depletion", 0.0), "allowed_depletion", "enter 0.05 or more."),
    (_with(FRONT, "microclimate", 1e-300), "microclimate", "factor of 1e-300 is too little"),
    (_with(FRONT, "name", "a\u2028b"), "name", "one line of at most 200"),
    (_with(FRONT, "name", "a\x9b31m"), "name", "cannot be shown (code 155)"),
    (_with(FRONT, "budget", "yours"), "budget", 'no "yours" in n_budgets; choose Mine.'),
    (_with(FRONT, "outline_ft", ((0, 0), (9, 9))), "outline_ft", "at least 3 corners, and has 2"),
    (_with(FRONT, "outline_ft", ((0, 0), (9, 9), (9, 0), (0, 9))), "outline_ft", "must not cross"),
    (_with(FRONT, "outline_ft", ((0, 0), (0.1, 0), (0, 0.1))), "outline_ft", "enclose some ground"),
    (_with(FRONT, "outline_ft", ((0, 0), (1, 0), (0, 9000))), "outline_ft", "is more than it can"),
    (_with(FRONT, "holes_ft", (((1, 1), (2, 2)),)), "holes_ft", "A hole needs at least 3 corners"),
    (_with(FRONT, "holes_ft", (rectangle_ft((45, 5), 9, 9),)), "holes_ft", "reaches outside"),
    (_with(FRONT, "holes_ft", (rectangle_ft((5, 5), 9, 9), rectangle_ft((8, 8), 9, 9))), "holes_ft",
     "Holes 1 and 2 overlap; join them"),
    (_with(FRONT, "holes_ft", (((1, 1), (4, 4), (4, 1), (1, 4)),)), "holes_ft", "must not cross"),
    (_with(FRONT, "established", Established(date=date(2027, 1, 1))), "established", "the future"),
    (Feature(id="x", kind="bed", outline_ft=((0, 0), (1, 1))), "outline_ft", "at least 3 corners"),
    (Head(id="h", zone="q", at_ft=(1, 1)), "zone", 'no "q" in zones; choose Front, Back.'),
    (Head(id="h", zone="z", at_ft=(1, 1), profile="bell"), "profile", "cone, flat or doughnut"),
    (Head(id="h", zone="z", at_ft=(1, 1), profile=(1.0,)), "profile", "at least two depths"),
    (Head(id="h", zone="z", at_ft=(1, 1), profile=(0.0, 0.0)), "profile", "not all 0"),
    (Head(id="h", zone="z", at_ft=(1, 1), profile=(1.0, -1.0)), "profile", "none below 0"),
    (Head(id="h", zone="z", at_ft=(1, 1), sweep_deg=0), "sweep_deg", "Arc of 0° is too little"),
    (Head(id="h", zone="z", at_ft=(1, 1), changed_on=date(2027, 1, 1)), "changed_on", "the future"),
    (_with(TEST, "depths_in", ()), "volumes_ml", "Enter what the cans caught"),
    (_with(TEST, "depths_in", (0.0, 0.0)), "depths_in", "Every can is empty"),
    (_with(TEST, "volumes_ml", (20.0,)), "depths_in", "one of them, not both"),
    (replace(TEST, depths_in=(), volumes_ml=(20.0, 21.0)), "can_mouth_sqin", "need the can mouth"),
    (_with(TEST, "at_ft", ((1.0, 1.0),)), "at_ft", "given for 1 of 2 cans; give one for each"),
    (_with(SLOW, "slow_n_pct", 60.0), "slow_n_pct", "percent of the product, as the label states"),
    (replace(SLOW, n_pct=50.0, p2o5_pct=30, k2o_pct=30), "n_pct", "add up to 110 %"),
    (_with(SLOW, "ingredients", (Ingredient(name="X", pounds=0, n_pct=20),)), "ingredients",
     "weigh nothing"),
    (_with(SLOW, "ingredients", (Ingredient(name="X", pounds=1, n_pct=70, k2o_pct=40),)),
     "ingredients", "X: its parts add up to 110 %"),
    (_with(FEEDING, "pounds", MappingProxyType({})), "pounds", "A feeding needs a zone"),
    (_with(FEEDING, "pounds", MappingProxyType({"q": 1.0})), "pounds", 'Pounds: there is no "q"'),
    (_with(FEEDING, "pounds", MappingProxyType({"z": 0.0})), "pounds", "too little; enter more"),
    (_with(FEEDING, "product", "x"), "product", 'there is no "x" in products; choose Slow feed.'),
    (_with(FEEDING, "treated_area_sqft", MappingProxyType({"b": 5.0})), "treated_area_sqft",
     "Back has an area treated but no pounds"),
    (Watering(id="w", date=TODAY, zone="z"), "minutes", "needs its minutes or its depth"),
    (Watering(id="w", date=TODAY, zone="z", minutes=5, depth_in=1), "depth_in", "not both"),
    (replace(DAY, tmin_f=90), "tmin_f", "90°F is above the highest, 80°F; exchange them."),
    (replace(DAY, id="x"), "date", "Date: 1 Jun 2026 is already entered"),
    (WeatherDay(id="x", date=date(2026, 6, 2)), "date", 'belongs to the record "2026-06-02"'),
    (ClimateMonth(id="x", month=7), "month", "Month: Jul is already entered"),
    (ClimateMonth(id="13", month=13), "month", "Month of 13 is more than it can be"),
    (ClimateMonth(id="01", month=13), "month", "Month of 13 is more than it can be"),
    (NBudget(id="m", name="M", by_month=(0.5,) * 11), "by_month", "has 11 entries; enter one"),
    (NBudget(id="m", name="mine", by_month=(0.5,) * 12), "name", "already in use"),
    (NRules(id="n_rules", blackouts=(Season(start="02-30", end="03-01"),)), "blackouts",
     'First day "02-30" is not a day of the year; write month and day, such as "04-15"'),
    (NRules(id="n_rules", blackouts=(Season(start="2-3", end="03-01"),)), "blackouts", "not a day"),
    (WaterRules(id="water_rules", hours=("8-10",)), "hours", 'write it as "18:00-08:00"'),
    (WaterRules(id="water_rules", hours=("08:00-08:00",)), "hours", "is not a span of hours"),
    (WaterRules(id="water_rules", hours=("24:00-08:00",)), "hours", "is not a span of hours"),
    (SoilTest(id="o", date=TODAY, zone="z", ph=70), "ph", "pH of 70 is more than it can be"),
    (Care(id="k", date=TODAY, kind=""), "kind", "Kind is empty"),
    (Care(id="k", date=TODAY, kind="mow", zones=("z", "q")), "zones", 'there is no "q" in zones'),
    (Photo(id="x", core="c", sha256="0" * 64, data_b64=PICTURE), "sha256", "does not match"),
    (Photo(id="x", core="c", sha256=HASH, data_b64=PICTURE, marks=(("root", 0.5, 1.5),)), "marks",
     "Marks of 1.5 is more than it can be; enter 0 to 1."),
    (Photo(id="x", core="c", sha256="zz", data_b64=PICTURE), "sha256", "64 digits"),
    (Photo(id="x", core="q", sha256=HASH, data_b64=PICTURE), "core", 'Plug: there is no "q"'),
    (Yard(id="yard", name=""), "name", "Name is empty"),
    (Yard(id="yard", name="H", latitude_deg=91), "latitude_deg", "Latitude of 91° is more than"),
    (Yard(id="yard", name="H", time_zone="Mars/Base"), "time_zone", 'write it as "America/Denver"'),
    (Yard(id="yard", name="H", time_zone="../etc"), "time_zone", "is not known"),
    (Yard(id="yard", name="H", water_source="x" * 20001), "water_source", "longer than 20,000"),
]  # fmt: skip


@pytest.mark.parametrize(("record", "field", "words"), REFUSED, ids=lambda v: str(v)[:40])
def test_what_cannot_be_is_refused(record: Record, field: str, words: str) -> None:
    """With the field it belongs to, and a sentence that says how to mend it."""
    problems = refused(check(record, NOTEBOOK, TODAY))
    told = [problem.sentence for problem in problems if problem.field == field]
    assert any(words in sentence for sentence in told), problems
    assert all(sentence.endswith((".", "?")) for sentence in told)


ASKED: list[tuple[Record, str, str]] = [
    (_with(CORE, "thatch_in", (4.0, 4.1)), "thatch_in", "4 millimetres, enter 0.16, or keep"),
    (_with(CORE, "thatch_in", (0.5, 1.6)), "thatch_in", "differ by 1.1 in"),
    (_with(CORE, "worms", 60), "worms", "Worms of 60 is unusually high; look at it again"),
    (_with(FRONT, "microclimate", 0.4), "microclimate", "unusually low"),
    (_with(FRONT, "precipitation_in_per_h", 10.0), "precipitation_in_per_h", "enter 0.39"),
    (_with(TEST, "depths_in", (0.3,)), "depths_in", "One can shows no evenness"),
    (_with(FEEDING, "pounds", MappingProxyType({"z": 11.0})), "pounds", "Front gets 2.2 lb of"),
    (replace(FEEDING, treated_area_sqft=MappingProxyType({"z": 100.0})), "pounds", "gets 4 lb of"),
    (_with(FEEDING, "treated_area_sqft", MappingProxyType({"z": 1200.0})), "treated_area_sqft",
     "on Front, 1,200 sq ft, is more than the zone's 1,000 sq ft"),
    (_with(SLOW, "ingredients", MIX), "n_pct", "this mix holds 5 % nitrogen, and 20 % is entered"),
    (_with(SLOW, "n_pct", 60.0), "n_pct", "Nitrogen of 60 % is unusually high"),
    (replace(DAY, rain_in=15.0), "rain_in", "if it was 15 millimetres, enter 0.59"),
    (Head(id="h", zone="z", at_ft=(1, 1), flow_gpm=40), "flow_gpm", "40 litres a minute, enter"),
]  # fmt: skip


def test_several_records_are_checked_as_each_in_turn() -> None:
    """Kept records by their own places in the table, a new one by the place behind the last."""
    book = _notebook()
    wrong = [replace(each, slope_pct=-1.0) for each in (BACK, FRONT, replace(BACK, id="new"))]
    found = check_all(wrong, book, TODAY)
    assert found == tuple(p for each in wrong for p in check(each, book, TODAY))
    places = [problem.where for problem in found if problem.field == "slope_pct"]
    assert places == ["zones[1].slope_pct", "zones[0].slope_pct", "zones[2].slope_pct"]


@pytest.mark.parametrize(("record", "field", "words"), ASKED, ids=lambda v: str(v)[:40])
def test_what_is_doubtful_is_asked(record: Record, field: str, words: str) -> None:
    """The owner may keep it, so nothing is refused."""
    problems = check(record, NOTEBOOK, TODAY)
    assert refused(problems) == ()
    told = [problem.sentence for problem in asked(problems) if problem.field == field]
    assert any(words in sentence for sentence in told), problems
    assert all("all the same" in sentence for sentence in told)


@pytest.mark.parametrize(
    "record",
    [
        replace(CORE, thatch_in=(1.5,), root_depth_in=1.0),
        replace(CORE, thatch_in=(0.5, 1.5)),
        replace(CORE, thatch_in=(), root_depth_in=0.0),
        replace(CORE, thatch_in=(), worms=0),
        replace(CORE, thatch_in=(), note="too dry to pull"),
        replace(FRONT, holes_ft=(rectangle_ft((5, 5), 5, 5), rectangle_ft((10, 5), 5, 5))),
        replace(FRONT, holes_ft=(rectangle_ft((0, 0), 5, 5),)),
        replace(FEEDING, treated_area_sqft=MappingProxyType({"z": 1005.0})),
        replace(FEEDING, pounds=MappingProxyType({"z": 10.0})),
        replace(FRONT, established=Established(date=date(1999, 5, 1), how="sod")),
        replace(SLOW, n_pct=5.0, slow_n_pct=5.0, ingredients=MIX),
        NRules(id="n_rules", blackouts=(Season(start="11-15", end="02-29"),)),
        WaterRules(id="water_rules", days=("Mon", "Thu"), hours=("18:00-08:00",)),
        Yard(id="yard", name="H", time_zone="America/Denver"),
        Watering(id="w", date=TODAY, zone="z", minutes=0),
        Photo(id="x", core="c", sha256=HASH, data_b64=PICTURE),
        Head(id="h", zone="z", at_ft=(1, 1), profile=(1.0, 0.5, 0.0)),
    ],
    ids=lambda v: str(v)[:40],
)
def test_what_is_sound_passes_unasked(record: Record) -> None:
    """Limits are not crossed by reaching them; thatch may be deeper than the roots."""
    assert check(record, NOTEBOOK, TODAY) == ()


@pytest.mark.parametrize(
    ("thatch_in", "severities"),
    [
        (0.0, []),
        (3.0, []),
        (3.01, ["ask"]),
        (8.0, ["ask"]),
        (8.01, ["refuse"]),
        (-0.01, ["refuse"]),
    ],
)
def test_limits_include_their_ends(thatch_in: float, severities: list[str]) -> None:
    """Thatch is questioned above 3 in and refused above 8."""
    problems = check(replace(CORE, thatch_in=(thatch_in,)), NOTEBOOK, TODAY)
    assert [problem.severity for problem in problems] == severities


def test_a_problem_knows_its_place_for_a_form_and_for_a_reader() -> None:
    """Table, id and field; and the path as the yard file has it."""
    bad = replace(CORE, thatch_in=(0.5, 25.0), date=date(2027, 1, 1))
    date_problem, thatch_problem, doubt = check(bad, NOTEBOOK, TODAY)
    assert (thatch_problem.table, thatch_problem.record_id, thatch_problem.field) == (
        "cores", "c", "thatch_in",
    )  # fmt: skip
    assert thatch_problem.where == "cores[0].thatch_in[1]"
    assert date_problem.where == "cores[0].date"
    assert doubt.severity == "ask"
    assert in_one_line(date_problem).startswith("cores[0].date: Date: 1 Jan 2027")
    yard = check(Yard(id="yard", name=""), NOTEBOOK, TODAY)
    assert yard[0].where == "yard.name"
    new = check(replace(bad, id="other"), NOTEBOOK, TODAY)
    assert new[0].where == "cores[1].date"
    fed = check(replace(FEEDING, pounds=MappingProxyType({"z": -1.0})), NOTEBOOK, TODAY)
    assert fed[0].where == "feedings[0].pounds.Front", "ids may be made up; the name is not"


def test_a_name_may_stay_as_it_is_and_of_twins_the_later_is_named() -> None:
    """Replacing a record by itself is no duplicate; a form names either of two as it is edited."""
    assert check(replace(FRONT, slope_pct=5), NOTEBOOK, TODAY) == ()
    twins = apply(NOTEBOOK, put(NOTEBOOK, "zones", replace(BACK, name="FRONT")))
    assert [p.where for p in check_notebook(twins, TODAY)] == ["zones[1].name"]
    assert [p.where for p in check(FRONT, twins, TODAY)] == ["zones[0].name"]
    assert [p.where for p in check(replace(FRONT, name="back"), NOTEBOOK, TODAY)] == [
        "zones[0].name"
    ]
    assert check(replace(BACK, name="Side"), twins, TODAY) == ()


def test_a_feeding_entered_twice_is_asked() -> None:
    """It would count twice against the budget; another day or amount is another feeding."""
    fed = apply(NOTEBOOK, put(NOTEBOOK, "feedings", FEEDING))
    (problem,) = check(replace(FEEDING, id="again"), fed, TODAY)
    assert (problem.severity, problem.field) == ("ask", "date")
    assert "same feeding of 15 Jun 2026 is already entered" in problem.sentence
    assert check(replace(FEEDING, id="other", date=date(2026, 6, 1)), fed, TODAY) == ()
    assert check(FEEDING, fed, TODAY) == ()
    twice = apply(fed, put(fed, "feedings", replace(FEEDING, id="again")))
    assert [p.where for p in check_notebook(twice, TODAY)] == ["feedings[1].date"]


def test_a_plug_entered_twice_is_asked() -> None:
    """It would weigh double in the trend; another note or ruler makes it no other plug."""
    again = replace(CORE, id="again", rank=1, note="once more", resolution_in=0.0625)
    (problem,) = check(again, NOTEBOOK, TODAY)
    assert (problem.severity, problem.field) == ("ask", "date")
    assert "plug of 15 Jun 2026 with the same readings is already entered" in problem.sentence
    assert check(CORE, NOTEBOOK, TODAY) == ()
    assert check(replace(again, clock=3), NOTEBOOK, TODAY) == ()
    assert check(replace(again, thatch_in=(0.6, 0.8)), NOTEBOOK, TODAY) == ()
    twice = apply(NOTEBOOK, put(NOTEBOOK, "cores", again))
    assert [p.where for p in check_notebook(twice, TODAY)] == ["cores[1].date"]


def test_a_machine_without_time_zones_trusts_the_name(monkeypatch: pytest.MonkeyPatch) -> None:
    """Such machines exist; a yard file must still open on them."""
    monkeypatch.setattr(spellings, "available_timezones", set)
    assert check(Yard(id="yard", name="H", time_zone="Elsewhere/Town"), NOTEBOOK, TODAY) == ()


_ANY = st.floats() | st.integers(-9, 9).map(float)
_CORNERS = st.lists(st.tuples(_ANY, _ANY), max_size=6).map(tuple)


@given(_CORNERS, st.lists(_CORNERS, max_size=2).map(tuple), st.lists(_ANY, max_size=3))
def test_no_numbers_break_the_check(outline: Outline, holes: tuple[Outline, ...], n: Any) -> None:
    """Infinities, values that are none and giants end in sentences, in one line each."""
    zone = replace(FRONT, outline_ft=outline, holes_ft=holes)
    broken = apply(NOTEBOOK, put(NOTEBOOK, "zones", zone))
    broken = apply(broken, put(broken, "feedings", FEEDING))
    broken = apply(broken, put(broken, "cores", replace(CORE, thatch_in=tuple(n))))
    sentences = [problem.sentence for problem in check_notebook(broken, TODAY)]
    assert all(len(sentence) < 250 and "\n" not in sentence for sentence in sentences)
    corners = [each for ring in (outline, *holes) for corner in ring for each in corner]
    if any(not abs(each) <= 5000 for each in corners):
        assert refused(check(zone, NOTEBOOK, TODAY))


@settings(deadline=None, max_examples=30)
@given(notebooks(), st.data())
def test_any_number_past_its_limit_is_refused(notebook: Notebook, data: st.DataObject) -> None:
    """Every field that has a limit keeps it, whatever else the record holds."""
    table = data.draw(st.sampled_from([name for name in TABLES if notebook.table(name)]))
    record = data.draw(st.sampled_from(list(notebook.table(table).values())))
    numbers = [info for info in fields_of(type(record)) if _is_plain_number(info)]
    if not numbers:
        return
    info = data.draw(st.sampled_from(numbers))
    broken = _with(record, info.name, (info.rule.high or 0) + 1)
    problems = refused(check(broken, notebook, TODAY))
    assert _about(problems, info.name)


def _is_plain_number(info: FieldInfo) -> bool:
    return info.rule.high is not None and without_none(info.type) in {int, float}


def _about(problems: tuple[Problem, ...], field: str) -> bool:
    return any(problem.field == field for problem in problems)
