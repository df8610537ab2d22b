"""Where to pull next: the day, the place, the reminder, and the zone that says least."""

from collections.abc import Sequence
from datetime import date

import pytest

from lawnbook.plan.due import due_of
from lawnbook.plan.next_plugs import NO_PLUG, NO_ROOM, NOT_PLACED, ONE_PLUG, next_plugs_of
from lawnbook.plan.plug_model import Evidence, Interval, NextPlug, ZoneThatch
from lawnbook.plan.tasks import dry_tasks, tasks_with
from lawnbook.plan.zone_facts import Setting, setting_of
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Core, Feature, Spot
from tests.plan_yards import core, spot, yard, zone

ON = date(2026, 9, 15)
BACK = zone(id="z2", name="Back", outline_ft=rectangle_ft((0.0, 30.0), 50.0, 20.0))
BEHIND = Spot(id="s2", name="pear", zone="z2", at_ft=(25.0, 40.0))


def setting(book: Notebook) -> Setting:
    """The setting of the day."""
    return setting_of(as_of(book, ON), ON)


def two_zones(cores: Sequence[Core] = ()) -> Setting:
    """Two zones with a spot each, and the spots' plugs."""
    spots = [spot(at_ft=(25.0, 10.0)), BEHIND]
    return setting(yard(zone(), BACK, spots=spots, cores=cores))


def thatch(zone_id: str, plugs: int, ci95: Interval | None) -> ZoneThatch:
    """A zone's evidence with what counts here."""
    evidence = Evidence(
        kind="zone",
        place=zone_id,
        place_id=zone_id,
        spots=1,
        plugs=plugs,
        points=(),
        slope_in_per_year=None,
        ci95=ci95,
        how="",
        reason="",
        verdict="",
        line=(),
        band=(),
        half_inch=None,
        half_inch_words="",
        error=None,
        plugs_a_date=1,
        detectable_in=None,
        more_for_tenth=None,
        season=None,
        notes=(),
        workings=(),
    )
    return ZoneThatch(zone=zone_id, zone_id=zone_id, columns=(), evidence=evidence)


def firsts(listed: tuple[NextPlug, ...]) -> list[str]:
    """The spots that go first."""
    return [each.spot_id for each in listed if each.first]


@pytest.mark.parametrize(
    ("dates", "told"),
    [
        ([], NO_PLUG),
        ([date(2026, 5, 1)], ONE_PLUG),
        ([date(2026, 5, 1)] * 2, ONE_PLUG),
        ([date(2025, 10, 1), date(2026, 5, 1)], ""),
    ],
)
def test_a_spot_of_one_plug_is_reminded(dates: list[date], told: str) -> None:
    cores = [core(on, 0.8, id=f"c{n}", clock=n + 1) for n, on in enumerate(dates)]
    (due,) = next_plugs_of(setting(yard(spots=[spot(at_ft=(25.0, 10.0))], cores=cores)), ())
    assert (due.reminder, due.plugs) == (told, len(dates))
    assert due.place is not None
    assert due.concerns == ()


def test_rows_are_in_order_of_their_days() -> None:
    listed = next_plugs_of(two_zones(cores=[core(date(2026, 9, 1), 0.8)]), ())
    assert [each.spot for each in listed] == ["pear", "gate"]
    assert listed[0].due == ON < listed[1].due
    assert [each.zone for each in listed] == ["Back", "Front"]


def test_the_widest_interval_goes_first() -> None:
    known = [thatch("z1", 8, (-0.1, 0.0)), thatch("z2", 8, (-0.2, 0.1))]
    listed = next_plugs_of(two_zones(), known)
    assert firsts(listed) == ["s2"]
    assert listed[0].spot_id == "s2", "of those due on one day"
    assert "0.30 in a year wide" in listed[0].why_first


def test_no_interval_is_wider_than_any_and_fewest_plugs_first() -> None:
    wide = thatch("z1", 8, (-9.0, 9.0))
    listed = next_plugs_of(two_zones(), [wide, thatch("z2", 3, None)])
    assert firsts(listed) == ["s2"]
    assert "Back has no interval yet: 3 plugs, of at least 5" in listed[0].why_first
    assert firsts(next_plugs_of(two_zones(), [wide])) == ["s2"]
    few = [thatch("z1", 2, None), thatch("z2", 3, None)]
    assert firsts(next_plugs_of(two_zones(), few)) == ["s1"]


def test_one_zone_is_no_choice_and_a_comparison_spot_adds_nothing_to_it() -> None:
    strip = Spot(id="s3", name="strip", zone="z2", comparison=True)
    book = yard(zone(), BACK, spots=[spot(), strip])
    assert firsts(next_plugs_of(setting(book), ())) == []
    both = yard(zone(), BACK, spots=[spot(), BEHIND, strip])
    assert "s3" not in firsts(next_plugs_of(setting(both), [thatch("z1", 8, (0.0, 0.1))]))


def test_what_lies_near_is_told() -> None:
    house = Feature(id="x", kind="house", outline_ft=rectangle_ft((20.0, 5.0), 10.0, 10.0))
    book = yard(spots=[spot(at_ft=(25.0, 10.0))], features=[house])
    (due,) = next_plugs_of(setting(book), ())
    assert due.place is None
    assert due.concerns[-1] == NO_ROOM
    assert "which is not turf" in due.concerns[0]


def test_a_spot_that_is_nowhere_is_told() -> None:
    (due,) = next_plugs_of(setting(yard(spots=[spot()])), ())
    assert due.concerns == (NOT_PLACED,)
    assert due.place is not None
    assert due.place.at_ft is None


def test_what_is_due_reminds_of_spots_with_one_plug() -> None:
    cores = [core(date(2026, 2, 1), 0.8), core(date(2025, 5, 1), 0.8, id="c2", spot="s2")]
    dry = dry_tasks(two_zones(cores=cores), (), ())
    listed = due_of(tasks_with((), (), dry), ())
    plugs = [each for each in listed if each.kind == "plug"]
    assert plugs
    assert any("one plug only: gate" in each.why for each in plugs)
