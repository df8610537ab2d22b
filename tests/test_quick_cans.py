"""A catch test in plain words: depths of one zone, with their unit once or not at all."""

from datetime import date

import pytest

from lawnbook.plan.quick_words import read_quick
from lawnbook.reading import Reading, reading_as
from lawnbook.yard.records import CatchTest
from tests.desk_sample import sample

ON = date(2026, 6, 15)
BOOK = sample("larkspur_corner")
FRONT = next(each.id for each in BOOK.zones.values() if each.name == "Front lawn")


def made(line: str) -> CatchTest:
    """The one record of a line that is understood."""
    quick = read_quick(line, BOOK, ON)
    assert not quick.faults, quick.faults
    ((_, record),) = quick.change.values()
    assert isinstance(record, CatchTest)
    return record


@pytest.mark.parametrize(
    "depths", ["0.2 0.25 0.3", "0.2 in 0.25 in 0.3 in", "0.2, 0.25, 0.3 in", "5.08 6.35 7.62 mm"]
)
def test_depths_are_read_with_their_unit_once_or_not_at_all(depths: str) -> None:
    test = made(f"catch test front lawn 15 min yesterday {depths}")
    assert (test.zone, test.date, test.run_minutes) == (FRONT, date(2026, 6, 14), 15)
    assert test.depths_in == pytest.approx((0.2, 0.25, 0.3))


def test_bare_depths_are_millimetres_to_a_metric_reader() -> None:
    with reading_as(Reading(units="metric")):
        line = "cans 12 min 5 4.5 front lawn"
        assert made(line).depths_in == pytest.approx((5 / 25.4, 4.5 / 25.4))
        told = {each.label: each.value for each in read_quick(line, BOOK, ON).fields}
        assert told["Depths"] == "5.0 mm, 4.5 mm"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("catch test front lawn 0.2 0.3", "how long it ran"),
        ("catch test front lawn 15 min", "how deep the water stood"),
        ("catch test 15 min 0.2", "Zone: say which"),
        ("catch test everywhere 15 min 0.2", "of one zone"),
        ("catch test front lawn 15 min 0.2 in 5 mm 0.3", "“0.3” of what?"),
        ("catch test front lawn 15 min 12", "millimetres"),
    ],
)
def test_what_is_missing_or_wrong_is_told_and_nothing_is_kept(line: str, said: str) -> None:
    quick = read_quick(line, BOOK, ON)
    assert any(said in each for each in quick.faults), quick.faults
    assert not quick.change
