"""Findings in words: each rule where it holds and not where it does not, none against another."""

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.sources import SOURCES, cite
from lawnbook.plan.finding_rules import EXCLUDING, RULES
from lawnbook.plan.findings import findings_of
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import Finding
from lawnbook.plan.zone_facts import setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import Care, Core, Established, SoilTest, Spot, Watering
from tests.desk_sample import sample
from tests.plan_yards import core, feeding, product, spot, watering, weather_day, yard, zone

ON = date(2026, 6, 15)
MAY = date(2026, 5, 10)
LAST_MAY = date(2025, 5, 12)
OCTOBER = date(2025, 10, 5)


def findings(book: Notebook, on: date = ON) -> tuple[Finding, ...]:
    """All findings of a yard."""
    plan = make_plan(book, on)
    return findings_of(setting_of(as_of(book, on), on), plan.zones, plan.nitrogen)


def of_plugs(*cores: Core, **tables: Any) -> dict[str, str]:
    """The sentences by rule of a spot with these plugs."""
    found = findings(yard(spots=[spot()], cores=cores, **tables))
    return {each.key: each.sentence for each in found}


def cared(kind: str, note: str = "") -> Care:
    """Care of the plain zone."""
    return Care(id=f"k{kind}", date=MAY, kind=kind, zones=("z1",), note=note)


def every(days: int, depth_in: float) -> list[Watering]:
    """Waterings of a depth up to the day, in the last six weeks."""
    return [watering(ON - timedelta(days=n), depth_in=depth_in) for n in range(1, 42, days)]


def test_every_rule_has_words_and_sources_that_exist() -> None:
    for key, rule in RULES.items():
        assert rule.key == key
        assert rule.words.endswith(".")
        assert rule.source_keys
        assert all(cite(each) for each in rule.source_keys)
    assert {key for group in EXCLUDING for key in group} <= set(RULES)
    assert SOURCES["reducers-trial"].basis == "published"


@pytest.mark.parametrize(
    ("thatch_in", "key"),
    [
        (0.3, "thatch-thin"),
        (0.46, "thatch-thin"),
        (0.48, "thatch-half"),
        (0.53, "thatch-half"),
        (0.54, "thatch-thick"),
        (1.0, "thatch-thick"),
        (1.01, "thatch-over-inch"),
    ],
)
def test_thatch_by_its_depth_with_the_rulers_doubt_at_half_an_inch(
    thatch_in: float, key: str
) -> None:
    """Half an inch: UC IPM and University of Delaware; the ruler's half sixteenth on each side."""
    found = of_plugs(core(MAY, thatch_in))
    assert set(found) == {key}
    assert found[key].startswith(f"gate: {thatch_in:.2f} in of thatch on 10 May 2026")


def test_a_fine_ruler_parts_more_and_pressed_thatch_is_not_called_thin() -> None:
    assert set(of_plugs(core(MAY, 0.48, resolution_in=0.01))) == {"thatch-thin"}
    assert set(of_plugs(core(MAY, 0.3, pressed=True))) == {"thatch-pressed"}
    assert set(of_plugs(core(MAY, 0.8, pressed=True))) == {"thatch-thick"}


def test_the_latest_day_counts_and_its_plugs_are_pooled() -> None:
    found = of_plugs(core(OCTOBER, 1.5), core(MAY, 0.9), core(MAY, 0.7, id="c2"))
    assert "0.80 in" in found["thatch-thick"]


def test_weights_order_and_a_later_plug() -> None:
    over = yard(spots=[spot()], cores=[core(MAY, 1.4), core(date(2026, 9, 1), 0.3)])
    assert [each.weight for each in findings(over)] == ["warn"]
    assert [each.key for each in findings(over, date(2026, 9, 2))] == ["thatch-thin"]
    assert "2 to 3 in apart" in findings(over)[0].rule
    assert "Have buried lines located" in findings(over)[0].rule


@pytest.mark.parametrize(
    ("roots_in", "confined"), [(0.5, True), (0.8, True), (0.85, True), (0.9, False), (3.0, False)]
)
def test_roots_confined_to_the_thatch(roots_in: float, confined: bool) -> None:
    found = of_plugs(core(MAY, 0.8, root_depth_in=roots_in))
    assert ("roots-in-thatch" in found) is confined


@pytest.mark.parametrize(
    ("then", "before_in", "now_in", "key"),
    [
        (LAST_MAY, 2.0, 2.5, "roots-deeper"),
        (LAST_MAY, 2.0, 2.4, None),
        (LAST_MAY, 3.0, 2.5, "roots-shallower"),
        (OCTOBER, 2.0, 4.0, None),
        (date(2026, 4, 20), 2.0, 4.0, None),
        (LAST_MAY, 0.1, 0.75, "roots-in-thatch"),
    ],
)
def test_roots_of_one_season_are_compared(
    then: date, before_in: float, now_in: float, key: str | None
) -> None:
    plugs = [core(then, 0.7, root_depth_in=before_in), core(MAY, 0.7, root_depth_in=now_in)]
    told = {each for each in of_plugs(*plugs) if each.startswith("roots")}
    assert told == ({key} if key else set())


def test_roots_at_the_cut_end() -> None:
    assert "roots-beyond" in of_plugs(core(MAY, 0.7, root_depth_in=4.0, core_depth_in=4.0))
    assert "roots-beyond" not in of_plugs(core(MAY, 0.7, root_depth_in=3.9, core_depth_in=4.0))


@pytest.mark.parametrize(
    ("thatch_in", "soil", "key"),
    [(0.8, 0, "thatch-bare"), (0.3, 0, None), (0.8, 1, None), (0.8, 2, "thatch-mixing")],
)
def test_soil_in_the_thatch(thatch_in: float, soil: int, key: str | None) -> None:
    found = set(of_plugs(core(MAY, thatch_in, soil_in_thatch=soil)))
    assert found & {"thatch-bare", "thatch-mixing"} == ({key} if key else set())


@pytest.mark.parametrize(
    ("thatch", "soil", "key"),
    [
        ("dry", "moist", "thatch-dry"),
        ("dry", "wet", "thatch-dry"),
        ("dry", "dry", None),
        ("dry", None, None),
        ("wet", "dry", "thatch-holds-water"),
        ("wet", "wet", None),
        ("moist", "dry", None),
    ],
)
def test_moisture(thatch: Any, soil: Any, key: str | None) -> None:
    found = set(of_plugs(core(MAY, thatch_moisture=thatch, soil_moisture=soil)))
    assert found == ({key} if key else set())


def test_plugs_of_a_day_that_disagree_say_nothing_of_moisture() -> None:
    dry = core(MAY, thatch_moisture="dry", soil_moisture="moist")
    wet = replace(dry, id="c2", thatch_moisture="wet")
    assert of_plugs(dry, wet) == {}


@pytest.mark.parametrize(("days", "told"), [(0, True), (1, True), (2, False)])
def test_thatch_dry_soon_after_water(days: int, told: bool) -> None:
    dry = core(MAY, thatch_moisture="dry", soil_moisture="dry")
    then = MAY - timedelta(days=days)
    assert ("thatch-dry" in of_plugs(dry, waterings=[watering(then, depth_in=0.5)])) is told
    rain = of_plugs(dry, weather=[weather_day(then, rain_in=0.4)])
    assert ("thatch-dry" in rain) is told
    drops = of_plugs(dry, weather=[weather_day(then, rain_in=0.4, gauge_in=0.1)])
    assert "thatch-dry" not in drops


def test_always_wet() -> None:
    days = (date(2025, 5, 1), OCTOBER, MAY)
    wet = [core(on, thatch_moisture="wet", soil_moisture="wet") for on in days]
    assert set(of_plugs(*wet)) == {"always-wet"}
    assert of_plugs(*wet[1:]) == {}
    assert of_plugs(wet[0], replace(wet[1], thatch_moisture="moist"), wet[2]) == {}
    assert of_plugs(*wet, core(date(2026, 6, 1))) == {}


@pytest.mark.parametrize(
    ("thatch_in", "sponge", "key"),
    [(0.3, 3, "sponge-soft"), (0.3, 2, None), (0.8, 0, "sponge-firm"), (0.8, 4, None)],
)
def test_sponge_and_ruler(thatch_in: float, sponge: int, key: str | None) -> None:
    found = {each for each in of_plugs(core(MAY, thatch_in, sponge=sponge)) if "sponge" in each}
    assert found == ({key} if key else set())


def test_worms() -> None:
    none = [core(OCTOBER, worms=0), core(MAY, worms=0)]
    assert set(of_plugs(*none)) == {"worms-none"}
    assert of_plugs(none[1]) == {}
    assert of_plugs(none[0], replace(none[1], soil_moisture="dry")) == {}
    assert set(of_plugs(none[0], core(MAY, worms=3))) == {"worms-many"}
    assert of_plugs(none[0], core(MAY, worms=2)) == {}


@pytest.mark.parametrize(("high", "told"), [(0.9, True), (0.85, False)])
def test_uneven_readings(high: float, told: bool) -> None:
    assert ("uneven" in of_plugs(core(MAY, 0.5, high))) is told


def test_light_daily_watering_against_deep_and_seldom() -> None:
    deep_roots = [core(MAY, 0.3, root_depth_in=8.0)]
    light = of_plugs(*deep_roots, waterings=every(1, 0.15))
    assert "about 0.15 in every day since" in light["watering-light"]
    assert light["watering-light"].endswith("; today's roots ask for every 2 days.")
    deep = of_plugs(*deep_roots, waterings=every(5, 0.7))
    assert "watering-deep" in deep
    assert "watering-light" not in deep
    between = of_plugs(*deep_roots, waterings=every(3, 0.4))
    assert not {"watering-deep", "watering-light"} & set(between)


def test_daily_watering_that_shallow_roots_ask_for_is_not_reproached() -> None:
    """Half an inch of rooted soil bears one day's use: the plan itself waters every day."""
    shallow = core(MAY, 0.3, root_depth_in=0.9)
    assert make_plan(yard(spots=[spot()], cores=[shallow]), ON).zones[0].interval_days == 1
    assert "watering-light" not in of_plugs(shallow, waterings=every(1, 0.15))


def test_minutes_without_a_rate_tell_no_depth() -> None:
    waterings = [watering(ON - timedelta(days=n), minutes=10.0) for n in range(1, 40)]
    found = of_plugs(core(MAY, 0.3, root_depth_in=8.0), waterings=waterings)
    assert "the record shows every day since" in found["watering-light"]


@pytest.mark.parametrize(
    ("tested", "ph", "told"),
    [(MAY, 5.9, True), (MAY, 6.0, False), (date(2020, 5, 1), 5.0, False)],
)
def test_soil_ph(tested: date, ph: float, told: bool) -> None:
    """Cook 2008, Oregon State University: pH below 6."""
    tests = [SoilTest(id="t", date=tested, zone="z1", ph=ph)]
    assert ("ph-acid" in of_plugs(soil_tests=tests)) is told


def test_nitrogen_over_the_years_budget() -> None:
    much = [feeding(date(2026, m, 1), 10.0, id=f"f{m}") for m in (3, 4, 5)]
    over = of_plugs(products=[product()], feedings=much)
    assert "7.20 lb of nitrogen" in over["n-over"]
    within = of_plugs(products=[product()], feedings=much[:1])
    assert "n-over" not in within


@pytest.mark.parametrize(("grown_on", "told"), [("clay loam", True), ("Loam ", False), ("", False)])
def test_sod_on_another_soil(grown_on: str, told: bool) -> None:
    laid = Established(date=date(2016, 6, 4), how="sod", sod_soil=grown_on)
    found = findings(yard(zone(established=laid)))
    assert [each.key for each in found] == ["sod-layer"] * told


@pytest.mark.parametrize(("laid", "told"), [(date(2024, 6, 4), True), (date(2016, 6, 4), False)])
def test_young_sod_against_the_first_slopes(laid: date, told: bool) -> None:
    turf = zone(established=Established(date=laid, how="sod"))
    book = yard(turf, spots=[spot()], cores=[core(MAY, 0.8)])
    assert ("sod-young" in {each.key for each in findings(book)}) is told


def test_a_comparison_strip() -> None:
    strip = Spot(id="s2", name="strip", zone="z1", comparison=True)
    plug = core(MAY, 0.8)
    book = yard(spots=[spot()], cores=[plug], care=[cared("aeration")])
    assert "strip-missing" in {each.key for each in findings(book)}
    assert "strip-missing" not in of_plugs(plug, care=[cared("mowing")])
    with_strip = yard(spots=[spot(), strip], cores=[plug], care=[cared("aeration")])
    assert [each.key for each in findings(with_strip)][-1] == "strip-unread"
    read = replace(plug, id="c2", spot="s2")
    both = yard(spots=[spot(), strip], cores=[plug, read], care=[cared("aeration")])
    assert not [each for each in findings(both) if each.key.startswith("strip")]


def test_reducers_only_where_such_care_is_recorded() -> None:
    """McCarty and others 2005, Crop Science 45:1529: no treatment prevented thatch and mat."""
    found = of_plugs(care=[cared("microbe food")])
    assert "put down on 10 May 2026" in found["reducers"]
    assert "reducers" in of_plugs(care=[cared("liquid", "a biological thatch reducer")])
    assert of_plugs(care=[cared("topdressing")]) == {}


def test_nothing_is_found_in_an_empty_yard() -> None:
    assert findings(yard()) == ()


FELT = st.sampled_from((None, "dry", "moist", "wet"))
PLUGS = st.builds(
    lambda days, thatch, roots, marks, felt, pressed: core(
        MAY - timedelta(days=days),
        *thatch,
        id=f"c{days}-{thatch}-{marks}",
        root_depth_in=roots,
        sponge=marks[0],
        soil_in_thatch=marks[1],
        worms=marks[2],
        thatch_moisture=felt[0],
        soil_moisture=felt[1],
        pressed=pressed,
    ),
    st.sampled_from((0, 0, 210, 365, 365)),
    st.lists(st.integers(0, 32).map(lambda n: n / 16), max_size=3),
    st.one_of(st.none(), st.integers(0, 64).map(lambda n: n / 16)),
    st.tuples(*[st.one_of(st.none(), st.integers(0, 4))] * 3),
    st.tuples(FELT, FELT),
    st.booleans(),
)


@given(st.lists(PLUGS, max_size=5), st.integers(1, 6), st.floats(0.05, 1.0))
def test_none_contradicts_another_and_each_is_told_once(
    plugs: list[Core], days: int, depth_in: float
) -> None:
    book = yard(spots=[spot()], cores=plugs, waterings=every(days, depth_in))
    found = findings(book)
    told = Counter(each.key for each in found)
    assert all(count == 1 for count in told.values())
    assert [group & set(told) for group in EXCLUDING if len(group & set(told)) > 1] == []
    weights = [("warn", "note", "good").index(each.weight) for each in found]
    assert weights == sorted(weights)


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: str(path.stem))
def test_samples_read_as_sentences_with_rule_and_source(path: Any) -> None:
    for each in findings(sample(path.stem)):
        assert each.sentence.endswith(".")
        assert "!" not in each.sentence + each.rule
        assert each.rule
        assert each.source
