"""A line of plain words: what it comes to, what it asks, and that it never says more than typed."""

import itertools
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from lawnbook.plan.quick_kinds import STARTERS
from lawnbook.plan.quick_words import HELP, LONGEST, read_quick
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put, with_tables
from lawnbook.yard.records import (
    Care,
    Core,
    Feeding,
    Product,
    Record,
    SoilTest,
    Spot,
    Watering,
    WeatherDay,
    Yard,
    Zone,
)

TODAY = date(2026, 6, 12)
"""A Friday."""
SQUARE = ((0.0, 0.0), (50.0, 0.0), (50.0, 40.0), (0.0, 40.0))


def yard(*zones: str, units: Any = "us") -> Notebook:
    """A notebook with zones, a spot and two products."""
    held = new_notebook("Yard")
    rows: list[tuple[str, Record]] = [("yard", Yard(id="yard", name="Yard", units=units))]
    rows += [
        ("zones", Zone(id=f"z{n}", name=name, outline_ft=SQUARE)) for n, name in enumerate(zones)
    ]
    rows += [("spots", Spot(id="s0", name="Signpost")), ("spots", Spot(id="s1", name="Elm"))]
    rows += [
        ("products", Product(id="p0", name="Feather meal 12-0-0", n_pct=12.0, slow_n_pct=10.0,
                             bag_lb=40.0)),
        ("products", Product(id="p1", name="Quick 21", n_pct=21.0)),
    ]  # fmt: skip
    for table, record in rows:
        held = apply(held, put(held, table, record))
    return held


BOOK = yard("Front lawn", "Back lawn", "Zone 7")


def kept(text: str, notebook: Notebook = BOOK) -> list[Any]:
    """The records that a line would keep; it has to be whole."""
    quick = read_quick(text, notebook, TODAY)
    assert quick.is_whole, (text, quick.faults)
    return [after for _, after in quick.change.values() if after is not None]


@pytest.mark.parametrize(
    ("text", "zone", "minutes", "depth", "on"),
    [
        ("watered 30 min front lawn yesterday", "z0", 30, None, date(2026, 6, 11)),
        ("front lawn 30 minutes", "z0", 30, None, TODAY),
        ("0.5 in zone 2", "z1", None, 0.5, TODAY),
        ("1 1/4 in back lawn 3 May", "z1", None, 1.25, date(2026, 5, 3)),
        ("watered back ½ in 2026-05-03", "z1", None, 0.5, date(2026, 5, 3)),
        ('.5" front lawn', "z0", None, 0.5, TODAY),
        ("Watered BACK LAWN, 12.7 mm, 3 days ago", "z1", None, 0.5, date(2026, 6, 9)),
        ("yesterday watered 1 h 10 min in the back lawn", "z1", 70, None, date(2026, 6, 11)),
        ("ran zone 7 for 20 min on Monday", "z2", 20, None, date(2026, 6, 8)),
        ("watered front lawn 30 min last friday", "z0", 30, None, date(2026, 6, 5)),
        ("watered front lawn 30 min a week ago", "z0", 30, None, date(2026, 6, 5)),
        ("watered front lawn 30 min day before yesterday", "z0", 30, None, date(2026, 6, 10)),
        ("watered front lawn 30 min 5/13", "z0", 30, None, date(2026, 5, 13)),
        ("watered front lawn 30 min 13/5/26", "z0", 30, None, date(2026, 5, 13)),
        ("watered front lawn 30 min Dec 24", "z0", 30, None, date(2025, 12, 24)),
        ("watered front lawn 30 min 3rd of may 2024", "z0", 30, None, date(2024, 5, 3)),
    ],
)
def test_waterings(
    text: str, zone: str, minutes: float | None, depth: float | None, on: date
) -> None:
    (record,) = kept(text)
    assert isinstance(record, Watering)
    assert (record.zone, record.minutes, record.date) == (zone, minutes, on)
    assert record.depth_in == pytest.approx(depth) if depth else record.depth_in is None


def test_several_zones_are_several_waterings_in_one_change() -> None:
    records = kept("watered front lawn and back lawn 20 min in 2 cycles")
    assert [(each.zone, each.minutes, each.cycles) for each in records] == [
        ("z0", 20, 2),
        ("z1", 20, 2),
    ]
    assert len(kept("watered 20 min everywhere")) == 3
    assert len(kept("watered all 20 min")) == 3
    assert [each.zone for each in kept("watered 20 min zones 1 and 3")] == ["z0", "z2"]
    rows = [replace(each, irrigated=False) for each in BOOK.zones.values()]
    dry = with_tables(BOOK, {"zones": rows})
    assert "none is irrigated" in " ".join(
        read_quick("watered 20 min everywhere", dry, TODAY).faults
    )
    assert len(kept("watered 20 min front lawn", dry)) == 1
    after = apply(BOOK, read_quick("watered 20 min all zones", BOOK, TODAY).change)
    assert not check_notebook(after, TODAY)
    assert [each.rank for each in after.waterings.values()] == [0, 1, 2]


def test_a_feeding_is_checked_before_spreading_and_shared_by_area() -> None:
    (record,) = kept("fed 2 lb feather meal front lawn 3 May")
    assert isinstance(record, Feeding)
    assert record.product == "p0"
    assert dict(record.pounds) == {"z0": 2.0}
    assert record.treated_area_sqft["z0"] == pytest.approx(2000)
    within = read_quick("fed 2 lb feather meal front lawn 3 May", BOOK, TODAY)
    assert within.notes[0].startswith("Within budget")
    assert not within.questions
    over = read_quick("fed 200 lb feather meal front lawn 3 May", BOOK, TODAY)
    assert over.is_whole
    assert over.questions[0].startswith("Not within budget")
    (shared,) = kept("fed 6 lb feather meal front lawn, back lawn, zone 7")
    assert dict(shared.pounds) == pytest.approx({"z0": 2.0, "z1": 2.0, "z2": 2.0})
    (every,) = kept("fed 6 lb each feather meal front lawn, back lawn")
    assert dict(every.pounds) == {"z0": 6.0, "z1": 6.0}
    (bags,) = kept("spread 1/2 bag of feather meal on back lawn")
    assert dict(bags.pounds) == {"z1": 20.0}
    (metric,) = kept("fed 1 kg quick 21 front lawn")
    assert metric.pounds["z0"] == pytest.approx(2.20462, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "kind", "zones", "cost", "note"),
    [
        ("mowed", "mowing", (), None, ""),
        ("mowed back lawn 2.5 in", "mowing", ("z1",), None, "Cut at 2.5 in."),
        ("aeration front lawn cost 80", "aeration", ("z0",), 80.0, ""),
        ("cored front lawn", "aeration", ("z0",), None, ""),
        ("overseeding back cost 12.50 note rye: 3 lb", "overseeding", ("z1",), 12.5, "rye: 3 lb"),
        ("care edging front lawn", "edging", ("z0",), None, ""),
        ("mowing height front lawn", "mowing height", ("z0",), None, ""),
        ("note mushrooms, 3 lb of them", "note", (), None, "mushrooms, 3 lb of them"),
    ],
)  # fmt: skip
def test_care(text: str, kind: str, zones: tuple[str, ...], cost: float | None, note: str) -> None:
    (record,) = kept(text)
    assert isinstance(record, Care)
    assert (record.kind, record.zones, record.cost, record.note) == (kind, zones, cost, note)


def test_kinds_of_care_of_this_notebook_are_known() -> None:
    care = Care(id="c", date=TODAY, kind="rolling the paths")
    book = apply(BOOK, put(BOOK, "care", care))
    assert kept("rolling the paths yesterday", book)[0].kind == "rolling the paths"


def test_rain_soil_and_plug() -> None:
    (rain,) = kept("rain 0.4 yesterday")
    assert isinstance(rain, WeatherDay)
    assert (rain.id, rain.gauge_in) == ("2026-06-11", 0.4)
    assert kept("rained 1/4 in")[0].gauge_in == 0.25
    assert kept("rain 10 mm")[0].gauge_in == pytest.approx(10 / 25.4)
    (soil,) = kept("soil test front lawn ph 6.4 om 3.1 p 25 k 140 depth 4")
    assert isinstance(soil, SoilTest)
    assert (soil.zone, soil.ph, soil.om_pct, soil.p_ppm) == ("z0", 6.4, 3.1, 25)
    assert (soil.k_ppm, soil.depth_in) == (140, 4)
    (plug,) = kept("plug signpost thatch 7/8 3/4 roots 4.5 sponge 2 clock 4 3 May note dry")
    assert isinstance(plug, Core)
    assert (plug.spot, plug.thatch_in, plug.root_depth_in) == ("s0", (0.875, 0.75), 4.5)
    assert (plug.sponge, plug.clock, plug.note, plug.date) == (2, 4, "dry", date(2026, 5, 3))
    assert kept("plug elm pressed thatch 22 mm")[0].pressed


def test_numbers_that_are_parted_by_a_word_are_never_one_number() -> None:
    for text in ("1 rain 1/2 in", "1 Front lawn 1/2 in", "watered 1 yesterday 1/2 in front lawn"):
        quick = read_quick(text, BOOK, TODAY)
        assert not quick.is_whole
        assert any("“1” of what?" in each for each in quick.faults), quick.faults


def test_a_gauge_that_was_read_is_asked_about_before_it_is_replaced() -> None:
    book = apply(BOOK, read_quick("rain 0.4", BOOK, TODAY).change)
    again = read_quick("rain 0.6", book, TODAY)
    assert again.is_whole
    assert "0.40 in" in again.questions[0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("watered 30 min", "Zone: say which"),
        ("watered front lawn", "Say how long it ran"),
        ("watered 30 front lawn", "“30” of what?"),
        ("watered 30 min lawn", "Zone: say which"),
        ("watered 30 min zone 9", "There is no zone 9"),
        ("watered 30 min 40 min front lawn", "one figure at a time"),
        ("watered 0,5 in front lawn", "with a point"),
        ("watered -3 min front lawn", "not understood"),
        ("watered 30 min signpost", "Signpost is a spot"),
        ("watered 30 min front lawn note windy", "A note cannot be kept with this"),
        ("watered and mowed front lawn", "One thing at a time"),
        ("mowed yesterday and today", "One day at a time"),
        ("mowed 5/3", "is that 3 May 2026 or 5 Mar 2026"),
        ("mowed friday", "is that today or a week ago"),
        ("mowed 31 feb", "there is no such day"),
        ("mowed tomorrow", "in the future"),
        ("mowed 30 min", "30 min does not belong here"),
        ("fed front lawn feather meal", "Pounds: say how much"),
        ("fed 3 lb front lawn", "Product: say which"),
        ("fed 3 bags quick 21 front lawn", "weight of a bag"),
        ("rain", "say how much the gauge held"),
        ("soil test front lawn ph", "put its figure behind it"),
        ("soil test front lawn ph 14", "pH"),
        ("plug thatch 3/4", "Spot: say one"),
        ("plug elm", "Say what it showed"),
        ("note", "write what is to be remembered"),
        ("xyz", "Say what was done"),
        ("watered front lawn 3000 min", "Minutes"),
    ],
)
def test_what_is_missing_or_not_understood_is_said_and_nothing_kept(text: str, said: str) -> None:
    quick = read_quick(text, BOOK, TODAY)
    assert not quick.is_whole
    assert any(said in each for each in quick.faults), quick.faults


def test_a_front_that_begins_two_names_is_asked_about() -> None:
    quick = read_quick("watered 30 min front", yard("Front lawn", "Front strip"), TODAY)
    assert "“front” may be Front lawn or Front strip: say which." in quick.faults


def test_a_bare_number_of_rain_is_asked_about_where_the_owner_reads_metric() -> None:
    quick = read_quick("rain 10", yard("Front", units="metric"), TODAY)
    assert not quick.is_whole
    assert quick.proposals == ("rain 10 in", "rain 10 mm")


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("", STARTERS[0]),
        ("wat", "watered"),
        ("watered 30 min fr", "watered 30 min Front lawn"),
        ("watered 30 min zo", "watered 30 min Zone 7"),
        ("watered 30", "watered 30 min"),
        ("mowed 5/3", "mowed 3 May 2026"),
        ("fed 3 lb fea", "fed 3 lb Feather meal 12-0-0"),
        ("plug", "plug Signpost"),
    ],
)
def test_proposals_carry_a_line_on(text: str, first: str) -> None:
    assert read_quick(text, BOOK, TODAY).proposals[0] == first


@pytest.mark.parametrize("line", [each for each, _ in HELP[:-1]])
def test_the_examples_of_the_help_are_understood(line: str) -> None:
    assert kept(line)


def test_an_over_long_line_is_told_so() -> None:
    quick = read_quick("mowed " * LONGEST, BOOK, TODAY)
    assert not quick.is_whole
    assert str(LONGEST) in quick.faults[0]


WORDS = st.sampled_from(
    [
        *(
            "watered",
            "fed",
            "mowed",
            "rain",
            "plug",
            "note",
            "aeration",
            "soil test",
            "front",
            "back",
        ),
        *("lawn", "zone", "2", "30", "min", "0.5", "in", "lb", "12", "feather meal", "7/8", "5/3"),
        *("yesterday", "friday", "3", "may", "cost", "80", "ph", "6.4", "thatch", "roots", "each"),
        *("signpost", "-", ",", ".", '"', "ago", "days", "1e9", "½", "0", "9" * 30, "/", "1/0"),
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.one_of(st.text(max_size=60), st.lists(WORDS, max_size=9).map(" ".join)))
@example("FED:0/0IN")
def test_reading_never_raises_and_keeps_only_what_passes_the_checks(text: str) -> None:
    quick = read_quick(text, BOOK, TODAY)
    assert bool(quick.change) != bool(quick.faults) or not text.strip()
    if quick.is_whole:
        after = apply(BOOK, quick.change)
        assert not [each for each in check_notebook(after, TODAY) if each.severity == "refuse"]
        for (_, record_id), (before, record) in quick.change.items():
            assert before is None, record_id
            for number in _numbers_of(record):
                assert any(number == pytest.approx(each) for each in _numbers_in(text)), text


@settings(max_examples=100, deadline=None)
@given(
    zone=st.sampled_from(["Front lawn", "Back lawn", "Zone 7"]),
    minutes=st.integers(1, 400),
    back=st.integers(0, 400),
    order=st.permutations(range(4)),
)
def test_pieces_in_any_order_say_the_same(
    zone: str, minutes: int, back: int, order: list[int]
) -> None:
    on = TODAY - timedelta(days=back)
    pieces = ["watered", zone, f"{minutes} min", f"{on:%Y-%m-%d}"]
    (record,) = kept(" ".join(pieces[each] for each in order))
    names = {each.id: each.name for each in BOOK.zones.values()}
    assert (names[record.zone], record.minutes, record.date) == (zone, minutes, on)


NAMES = st.one_of(
    st.text(min_size=1, max_size=12).filter(
        lambda name: name.strip() == name and name.isprintable()
    ),
    st.sampled_from(
        ["Rain", "30 min", "Back", "in", "3 May", 'Front "A"', "Mowed strip", "zone 1"]
    ),
)


@settings(max_examples=120, deadline=None)
@given(st.lists(NAMES, min_size=2, max_size=4, unique_by=str.casefold))
@example(["0", "MIN0"])
def test_every_proposal_of_a_zone_is_understood_as_that_zone(names: list[str]) -> None:
    book = yard(*names)
    quick = read_quick("watered 17 min", book, TODAY)
    for line in quick.proposals:
        again = read_quick(line, book, TODAY)
        zones = [each.value for each in again.fields if each.label == "Zone"]
        assert len(zones) == 1
        assert line in (f"watered 17 min {zones[0]}", f'watered 17 min "{zones[0]}"')
        assert [each.value for each in again.fields if each.label == "Ran"] == ["17 min"]


def _numbers_of(record: Record | None) -> list[float]:
    """The figures of a record that a line has to have said."""
    match record:
        case Watering():
            said: list[float | int | None] = [record.minutes, record.depth_in, record.cycles]
        case Feeding():
            said = [sum(record.pounds.values())]
        case Care():
            said = [record.cost]
        case WeatherDay():
            said = [record.gauge_in]
        case SoilTest():
            said = [record.ph, record.om_pct, record.p_ppm, record.k_ppm, record.depth_in]
        case Core():
            said = [*record.thatch_in, record.root_depth_in, record.sponge, record.worms]
        case _:
            said = []
    return [float(each) for each in said if each is not None]


def _numbers_in(text: str) -> list[float]:
    """Every number that a line of the test's words can say, each alone and with its fraction."""
    read: list[float] = []
    for word in text.replace("½", " 1/2").replace(",", " ").replace('"', " ").split():
        top, _, bottom = word.partition("/")
        try:
            read.append(float(top) / float(bottom) if bottom else float(word))
        except (ValueError, ZeroDivisionError):
            continue
    # "1 1/2" may be one number, and "12 lb each" are so many on every zone.
    mixed = [a + b for a, b in itertools.pairwise(read)]
    return [*read, *mixed, *(each * n for each in read for n in (2, 3))]
