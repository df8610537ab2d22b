"""What is due: waterings, feedings, plugs in spring and autumn, soil tests."""

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest

from lawnbook.plan.due import names_told
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Due, Plan
from lawnbook.plan.workings import told_most, told_most_together
from lawnbook.yard.fields import Outline
from lawnbook.yard.records import Care, Established, Feature, Product, Season, SoilTest
from tests.plan_yards import JUNE, core, product, spot, steady, weather_day, yard, zone


def box(width_ft: float) -> Outline:
    """An outline of a width and 20 ft."""
    return ((0.0, 0.0), (width_ft, 0.0), (width_ft, 20.0), (0.0, 20.0))


def of_kind(plan: Plan, kind: str) -> list[Due]:
    """The due entries of one kind."""
    return [due for due in plan.due if due.kind == kind]


def test_due_stands_in_date_order_and_gathers_zones() -> None:
    side = zone(id="z2", name="Side")
    plan = make_plan(yard(zone(), side, products=[product()]), JUNE)
    assert [due.date for due in plan.due] == sorted(due.date for due in plan.due)
    assert all(due.date >= JUNE for due in plan.due)
    assert of_kind(plan, "water")[0].zones == ("Front", "Side")
    feed = of_kind(plan, "feed")[0]
    pounds = [each.next_feeding.pounds for each in plan.nitrogen if each.next_feeding]
    assert f"{2 * math.floor(pounds[0] * 10) / 10:.1f} lb of Half slow" in feed.what
    assert len(pounds) == 2


def test_roots_that_do_not_reach_the_soil_are_not_told_to_be_watered_with_nothing() -> None:
    shallow = core(date(2026, 4, 1), 1.0, root_depth_in=0.5)
    plan = make_plan(yard(spots=[spot()], cores=[shallow]), JUNE)
    assert plan.zones[0].depth_in == 0
    assert any("No roots reach the soil" in note for note in plan.zones[0].notes)
    assert not of_kind(plan, "water")


def test_the_most_that_may_go_down_is_rounded_down() -> None:
    """Full season: 0.9 lb of 24 % N on 997 sq ft are 3.739 lb, which 3.8 lb would pass."""
    narrow = zone(budget_level="full", outline_ft=((0, 0), (49.85, 0), (49.85, 20), (0, 20)))
    plan = make_plan(yard(narrow, products=[product(slow_n_pct=24.0)]), date(2026, 9, 1))
    upcoming = plan.nitrogen[0].next_feeding
    assert upcoming is not None
    assert upcoming.pounds == pytest.approx(0.9 / 0.24 * 0.997)
    assert "Up to 3.7 lb of Half slow" in of_kind(plan, "feed")[0].what


def test_pounds_due_together_are_the_sum_of_those_that_are_shown() -> None:
    """0.9 lb of 24 % N on 1,000, 510 and 250 sq ft: 3.75, 1.9125 and 0.9375 lb, each cut short."""
    small = zone(id="z2", name="Side", budget_level="full", outline_ft=box(25.5))
    strip = zone(id="z3", name="Strip", budget_level="full", outline_ft=box(12.5))
    shelf = [product(slow_n_pct=24.0)]
    lawns = (zone(budget_level="full"), small, strip)
    plan = make_plan(yard(*lawns, products=shelf), date(2026, 9, 1))
    shown = [told_most(each.next_feeding.pounds) for each in plan.nitrogen if each.next_feeding]
    assert shown == ["3.7", "1.9", "0.93"]
    assert of_kind(plan, "feed")[0].what.startswith("Up to 6.53 lb of Half slow: ")
    assert told_most_together([1234.56, 2.0]) == "1,236.5"


@pytest.mark.parametrize("shelf", [[], [product(n_pct=0.0, slow_n_pct=0.0)]])
def test_no_feeding_is_due_without_a_product_to_spread(shelf: list[Product]) -> None:
    plan = make_plan(yard(latitude_deg=None, climate=[], products=shelf), JUNE)
    assert not of_kind(plan, "feed")
    assert plan.nitrogen[0].next_feeding is not None
    assert plan.nitrogen[0].reason.startswith("No product with nitrogen is on the shelf yet: ")


def test_a_watering_is_due_on_the_day_that_the_rule_allows() -> None:
    """15 June 2026 is a Monday."""
    book = yard(waterings=[])
    (free,) = of_kind(make_plan(book, JUNE), "water")
    ruled = replace(book, water_rules=replace(book.water_rules, days=("Sun",)))
    (due,) = of_kind(make_plan(ruled, JUNE), "water")
    assert free.date < due.date == date(2026, 6, 21)


SEASON = Season(start="04-20", end="10-15")


@pytest.mark.parametrize(
    ("on", "due"),
    [
        (date(2026, 9, 14), None),
        (date(2026, 9, 15), date(2026, 10, 15)),
        (date(2026, 10, 15), date(2026, 10, 15)),
        (date(2026, 10, 16), date(2026, 10, 16)),
        (date(2026, 11, 14), date(2026, 11, 14)),
        (date(2026, 11, 15), None),
    ],
)
def test_the_irrigation_is_shut_down_at_the_seasons_end(on: date, due: date | None) -> None:
    """Told until a month after it, for nothing says yet that it was done (common practice)."""
    book = yard(zone(), zone(id="z2", name="Dry", irrigated=False), season=SEASON)
    shut = [each for each in make_plan(book, on).due if each.what.startswith("Shut down")]
    assert [each.date for each in shut] == ([] if due is None else [due])
    assert all(each.zones == () and each.kind == "check" for each in shut)
    assert all(each.keys == ("winter blow-out:yard",) for each in shut)


def test_nothing_is_shut_down_where_no_frost_comes_or_no_line_lies_in_the_ground() -> None:
    on = date(2026, 10, 1)
    mild = yard(season=SEASON, climate=steady(0.1))
    hose = yard(zone(sprinklers="hose"), season=SEASON)
    whole = yard(season=Season(start="01-01", end="12-31"))
    for book, day in ((mild, on), (hose, on), (yard(), on), (whole, date(2026, 12, 20))):
        assert not any(each.what.startswith("Shut") for each in make_plan(book, day).due)
    southern = yard(season=Season(start="09-15", end="05-15"), latitude_deg=-33.0)
    plan = make_plan(southern, date(2026, 5, 1))
    assert [d.date for d in plan.due if d.what.startswith("Shut")] == [date(2026, 5, 15)]


def test_waterings_by_the_calendar_are_due_for_reasons_of_their_own() -> None:
    began = Established(date=date(2026, 6, 12), how="seed")
    sown = zone(id="z2", name="Patch", established=began)
    light, deep = sorted(
        of_kind(make_plan(yard(sown, zone(), climate=steady(0.2)), JUNE), "water"),
        key=lambda due: due.zones,
        reverse=True,
    )
    assert (light.zones, deep.zones) == (("Patch",), ("Front",))
    assert "until it has rooted" in light.why
    assert "roots bear" in deep.why


def test_the_depth_due_is_that_of_the_run_and_not_the_usual_one() -> None:
    """Ten dry days have used more than the allowance: the run refills it, as the page tells."""
    days = [
        weather_day(JUNE - timedelta(days=ago), reported_eto_in=0.2, rain_in=0.0)
        for ago in range(10)
    ]
    plan = make_plan(yard(zone(), climate=steady(0.2), weather=days), JUNE)
    (front,) = plan.zones
    assert front.next_run is not None
    assert front.depth_in is not None
    assert front.next_run.depth_in > front.depth_in + 0.05
    (due,) = of_kind(plan, "water")
    assert due.what == f"Water {front.next_run.depth_in:.2f} in: Front"


def test_no_watering_is_due_outside_the_season() -> None:
    season = Season(start="05-01", end="05-31")
    assert not of_kind(make_plan(yard(season=season), JUNE), "water")


@pytest.mark.parametrize(
    ("on", "latitude_deg", "last", "due"),
    [
        (date(2026, 4, 10), 41, None, date(2026, 4, 10)),
        (date(2026, 4, 10), 41, date(2026, 3, 1), None),
        (date(2026, 8, 10), 41, date(2026, 4, 10), date(2026, 10, 7)),
        (date(2026, 8, 10), 41, date(2025, 10, 1), date(2026, 9, 1)),
        (date(2026, 8, 10), 41, date(2026, 5, 31), date(2026, 10, 1)),
        (date(2026, 10, 20), 41, date(2026, 6, 10), date(2026, 10, 20)),
        (date(2026, 10, 20), 41, date(2026, 7, 20), None),
        (date(2026, 3, 10), -33, date(2025, 12, 5), date(2026, 4, 1)),
        (date(2026, 1, 10), 41, None, None),
        (date(2026, 2, 20), -33, None, date(2026, 3, 1)),
        (date(2026, 11, 2), -33, None, date(2026, 11, 2)),
    ],
)
def test_plugs_are_due_in_spring_and_autumn_half_a_year_apart(
    on: date, latitude_deg: float, last: date | None, due: date | None
) -> None:
    """(common practice)"""
    cores = [core(last, 0.5)] if last is not None else []
    plan = make_plan(yard(latitude_deg=latitude_deg, spots=[spot()], cores=cores), on)
    assert [each.date for each in of_kind(plan, "plug")] == ([] if due is None else [due])


@pytest.mark.parametrize(
    ("tested", "due"),
    [
        (None, JUNE),
        (date(2020, 1, 1), JUNE),
        (date(2023, 7, 1), date(2026, 7, 1)),
        (date(2024, 2, 29), None),
    ],
)
def test_the_soil_is_tested_every_three_years(tested: date | None, due: date | None) -> None:
    """Virginia Cooperative Extension: every three or four years."""
    tests = [SoilTest(id="t", date=tested, zone="z1")] if tested is not None else []
    plan = make_plan(yard(soil_tests=tests), JUNE)
    assert [each.date for each in of_kind(plan, "test")] == ([] if due is None else [due])


def test_a_test_of_leap_day_falls_due_on_the_first_of_march() -> None:
    tested = SoilTest(id="t", date=date(2024, 2, 29), zone="z1")
    plan = make_plan(yard(soil_tests=[tested]), date(2027, 2, 1))
    assert [each.date for each in of_kind(plan, "test")] == [date(2027, 3, 1)]


def pre_emergent(until: date | None, *zones: str, put_down: date = date(2026, 4, 1)) -> Care:
    """A pre-emergent herbicide that keeps seed off until a day."""
    return Care(
        id=f"c{put_down}{until}",
        date=put_down,
        kind="pre-emergent",
        zones=zones,
        no_seed_until=until,
    )


def seed_dates(*care: Care, on: date = JUNE) -> list[tuple[date, tuple[str, ...]]]:
    """When seed may be sown again, and where, in a yard of two zones."""
    plan = make_plan(yard(zone(), zone(id="z2", name="Side"), care=care), on)
    return [(each.date, each.zones) for each in plan.due if "seed may be sown" in each.what]


def test_seed_may_be_sown_again_when_the_label_of_a_pre_emergent_lets_it() -> None:
    august = date(2026, 8, 1)
    assert seed_dates(pre_emergent(august)) == [(august, ("Front", "Side"))]
    assert seed_dates(pre_emergent(august, "z2")) == [(august, ("Side",))]
    assert seed_dates(pre_emergent(None)) == []
    plan = make_plan(yard(care=[pre_emergent(august)]), JUNE)
    (due,) = (each for each in plan.due if "seed" in each.what)
    assert due.kind == "feed"
    assert due.what == "By the label, seed may be sown again: Front"
    assert due.why == "The pre-emergent of 1 Apr 2026 keeps seed from coming up until then."


def test_of_two_pre_emergents_the_one_that_lasts_longer_decides() -> None:
    first = pre_emergent(date(2026, 7, 20), put_down=date(2026, 3, 1))
    second = pre_emergent(date(2026, 8, 1), "z1", put_down=date(2026, 5, 1))
    found = seed_dates(first, second)
    assert found == [(date(2026, 7, 20), ("Side",)), (date(2026, 8, 1), ("Front",))]


@pytest.mark.parametrize(
    ("on", "told"),
    [
        (date(2026, 6, 1), False),
        (date(2026, 6, 2), True),
        (date(2026, 8, 1), True),
        (date(2026, 8, 2), False),
    ],
)
def test_the_day_for_seed_is_told_from_sixty_days_before(on: date, told: bool) -> None:
    assert bool(seed_dates(pre_emergent(date(2026, 8, 1)), on=on)) == told


def test_long_rows_of_names_are_counted() -> None:
    assert names_told(list("abcde")) == "a, b, c, d, e"
    assert names_told(list("abcdefg")) == "a, b, c, d and 3 more"


def test_cautions_defer_to_label_law_and_licensed_practice() -> None:
    cautions = " ".join(make_plan(yard(), JUNE).cautions)
    for words in ("product label", "Local fertilizer law", "licensed", "811", "Children", "water"):
        assert words.lower() in cautions.lower()
    dry = " ".join(make_plan(yard(zone(irrigated=False)), JUNE).cautions)
    assert "Backflow" not in dry


def test_the_plan_too_tells_the_strip_beside_water() -> None:
    pond = Feature(id="f", kind="water", name="pond", outline_ft=box(4.0), no_spread_ft=10.0)
    cautions = make_plan(yard(zone(), features=[pond]), JUNE).cautions
    assert "Leave 10 ft beside the pond unfed: the strip reaches into Front." in cautions
