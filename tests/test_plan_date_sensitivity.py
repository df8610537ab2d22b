"""What would move a date that a rule found: each input changed, and the rule asked again."""

from collections.abc import Iterator
from datetime import date

import pytest

from lawnbook.plan.care_windows import care_windows
from lawnbook.plan.make import make_plan
from lawnbook.plan.sensitivity import Sensitivity, numbers_of, reckoned, sensitivities_of
from lawnbook.plan.working_model import DATE, Working
from lawnbook.plan.zone_facts import setting_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Care, NRules, Season, SoilTest
from tests.plan_yards import climate, core, product, spot, yard, zone

ON = date(2026, 4, 10)
WARM_F = (46.0, 50.0, 57.0, 65.0, 73.0, 80.0, 84.0, 83.0, 77.0, 66.0, 56.0, 48.0)


def notebook() -> Notebook:
    """A zone with lines in the ground, a plug of autumn, an old soil test and days without feed."""
    return yard(
        zone(sprinklers="in-ground"),
        season=Season(start="04-30", end="10-15"),
        spots=[spot()],
        cores=[core(date(2025, 10, 20), 0.8)],
        soil_tests=[SoilTest(id="s1", date=date(2023, 5, 1), zone="z1", ph=6.4)],
        n_rules=[NRules(id="rules", blackouts=(Season(start="04-20", end="05-10"),))],
    )


def task_working(figure: str) -> Working:
    """The working of a date that is due."""
    plan = make_plan(notebook(), ON)
    return next(w for task in plan.tasks for w in task.workings if w.figure == figure)


def moved(working: Working) -> dict[str, list[date]]:
    """The dates that each input would make of it."""
    return {
        each.name: [date.fromordinal(round(change.raw)) for change in each.changes]
        for each in sensitivities_of(working)
    }


@pytest.mark.parametrize(
    ("figure", "name", "dates"),
    [
        # Half a year after 20 October is 18 April: 18 days more or less of 180.
        ("plug_due", "Days between plugs", [date(2026, 5, 6), ON]),
        ("plug_due", "Last plug", [date(2026, 4, 19), date(2026, 4, 17)]),
        ("soil_test_due", "Years a test holds", [date(2027, 5, 1), ON]),
        ("soil_test_due", "Last soil test", [date(2026, 5, 2), date(2026, 4, 30)]),
        ("lines_due", "Season begins", [date(2026, 4, 17), date(2026, 4, 15)]),
        ("lines_due", "Days before it", [date(2026, 4, 15), date(2026, 4, 17)]),
        ("no_feed", "First day", [date(2026, 4, 21), date(2026, 4, 19)]),
    ],
)
def test_a_date_moves_with_what_its_rule_rests_on(
    figure: str, name: str, dates: list[date]
) -> None:
    """By hand, from the rule."""
    assert moved(task_working(figure))[name] == dates


def of_windows() -> Iterator[Working]:
    """The weeks for care of a cool and a warm yard, north and south."""
    for grass, tmean in (("cool", None), ("warm", WARM_F)):
        for latitude in (41.0, -35.0):
            given = tmean or climate_f()
            turned = given if latitude > 0 else (*given[6:], *given[:6])
            book = yard(zone(grass=grass), latitude_deg=latitude, climate=climate(tmean_f=turned))
            for window in care_windows(setting_of(book, ON), 2026):
                yield from window.workings


def climate_f() -> tuple[float, ...]:
    """Mean temperatures of a yard of the north."""
    return (30.0, 34.0, 42.0, 52.0, 62.0, 71.0, 76.0, 74.0, 66.0, 54.0, 42.0, 32.0)


def test_weeks_for_care_are_found_again_from_the_same_numbers() -> None:
    """Both ends of every window, of both grasses and hemispheres."""
    made = list(of_windows())
    assert len(made) >= 12
    for each in made:
        assert each.reckoning is not None
        assert each.reckoning.unit == DATE
        found = date.fromordinal(round(reckoned(each.reckoning, numbers_of(each))))
        assert each.value.startswith(day(found))


def of(working: Working, name: str) -> Sensitivity:
    """What one input does."""
    return next(each for each in sensitivities_of(working) if each.name == name)


def test_a_day_more_of_healing_ends_the_weeks_a_day_sooner() -> None:
    """And a warmer year brings cool-season grass on sooner in spring, later again in autumn."""
    book = yard(zone(), climate=climate(tmean_f=climate_f()))
    windows = [each for each in care_windows(setting_of(book, ON), 2026) if each.kind == "aeration"]
    spring, autumn = windows
    opens, _ = spring.workings
    closes = autumn.workings[1]
    assert [
        each.change for each in of(closes, "Days of growth that are left after it").changes
    ] == [
        -1.0,
        1.0,
    ]
    warmer, colder = (each.change for each in of(opens, "Temperatures of the usual year").changes)
    assert warmer < 0 < colder
    warmer, colder = (each.change for each in of(closes, "Temperatures of the usual year").changes)
    assert colder < 0 < warmer


def test_the_day_to_mow_by_and_the_last_day_to_feed_are_found_again() -> None:
    """From the same numbers the same day; a lower cut is outgrown sooner."""
    book = yard(
        zone(mow_height_in=3.0),
        climate=climate(tmean_f=climate_f()),
        products=[product(bag_lb=40.0)],
        care=[Care(id="m1", date=date(2026, 5, 25), kind="mowing")],
    )
    plan = make_plan(book, date(2026, 6, 1))
    listed = (*plan.mowing[0].workings, *plan.nitrogen[0].workings)
    found = {each.figure: each for each in listed}
    for figure in ("next_mowing", "next_feeding_until"):
        made = found[figure]
        assert made.reckoning is not None
        again = date.fromordinal(round(reckoned(made.reckoning, numbers_of(made))))
        assert made.value == day(again)
    higher, lower = (each.change for each in of(found["next_mowing"], "Height of cut").changes)
    assert lower < 0 <= higher
    faster, slower = (
        each.change for each in of(found["next_mowing"], "Growth of all days").changes
    )
    assert faster < 0 < slower
