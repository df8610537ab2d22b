"""What the year in review leaves out, with the reason, and what has no cost, year by year."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_model import YearReview
from lawnbook.plan.year_review_span import of_each_year, spans_of
from lawnbook.sheet.review_figures import zone_rows
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care, Habit, Watering, Zone
from tests import plan_yards as yards
from tests.desk_sample import sample

JULY = date(2026, 7, 15)
JUNE = date(2026, 6, 1)
DAILY = Habit(minutes=10.0, days_per_week=7.0)
WEATHER = sample("larkspur_corner").weather


def lawn(number: int, name: str, **values: Any) -> Zone:
    """A zone with a rate and a habit, unless told otherwise."""
    zone = yards.zone(id=f"z{number}", name=name, precipitation_in_per_h=1.5, habit=DAILY)
    shape = rectangle_ft((50.0 * number, 0), 40, 25)
    return replace(zone, outline_ft=shape, rank=number, **values)


def watered(number: int, on: date = JUNE) -> Watering:
    """Twenty minutes on a zone."""
    return Watering(id=f"w{number}{on}", date=on, zone=f"z{number}", minutes=20.0, rank=number)


def book(*zones: Zone, waterings: tuple[Watering, ...] = ()) -> Notebook:
    """The zones under the weather of a sample yard."""
    return replace(yards.yard(*zones, waterings=waterings), weather=WEATHER)


def not_compared(review: YearReview) -> list[str]:
    """The sentence on what is compared with nothing, where there is one."""
    return [each.text for each in review.changed if each.text.startswith("Not compared")]


def test_zones_left_out_are_told_in_one_line_with_their_reasons() -> None:
    made = book(
        lawn(1, "Front"),
        lawn(2, "Side"),
        lawn(3, "Verge", habit=None),
        lawn(4, "Orchard", irrigated=False),
        lawn(5, "Slope", precipitation_in_per_h=None),
        waterings=(watered(1), watered(3), watered(5)),
    )
    (said,) = not_compared(year_review(made, 2026, JULY))
    assert said == (
        "Not compared with plan or old habit: Side (no watering on record); Orchard (not "
        "irrigated); Slope (some waterings cannot be told in gallons). Not compared with the old "
        "habit: Verge (no old habit and rate entered)."
    )


def test_where_all_is_compared_nothing_is_said() -> None:
    assert not_compared(year_review(sample("larkspur_corner"), 2025, JULY)) == []


def test_many_zones_with_one_reason_are_counted() -> None:
    dry = [lawn(n, f"Zone {n}", irrigated=False) for n in range(2, 12)]
    review = year_review(book(lawn(1, "Front"), *dry, waterings=(watered(1),)), 2026, JULY)
    assert not_compared(review) == [
        "Not compared with plan or old habit: Zone 2, Zone 3, Zone 4 and 7 more (not irrigated)."
    ]


def test_that_nothing_was_watered_is_said_once() -> None:
    review = year_review(book(lawn(1, "Front"), lawn(2, "Side")), 2026, JULY)
    assert not_compared(review) == []
    assert review.changed[0].text == "No watering is on record in these days."


@pytest.mark.parametrize(
    ("now", "before", "told"),
    [
        (2, 1, "no cost for 2 of 2026, 1 of 2025"),
        (1, 0, "no cost for 1 of 2026"),
        (0, 1, "no cost for 1 of 2025"),
    ],
)
def test_entries_without_a_cost_are_told_of_each_year(now: int, before: int, told: str) -> None:
    care = [
        *(Care(id=f"n{n}", date=date(2026, 4, 1 + n), kind="mowing") for n in range(now)),
        *(Care(id=f"b{n}", date=date(2025, 4, 1 + n), kind="mowing") for n in range(before)),
        Care(id="paid", date=date(2026, 5, 1), kind="mowing", cost=20.0),
    ]
    cost = year_review(yards.yard(lawn(1, "Front"), care=care), 2026, JULY).cost
    assert [each.unpriced for each in cost.items] == [told]


def test_waterings_that_are_not_counted_are_told_of_each_year() -> None:
    made = book(
        lawn(1, "Slope", precipitation_in_per_h=None),
        waterings=(watered(1), watered(1, date(2026, 6, 8)), watered(1, date(2025, 6, 8))),
    )
    made = replace(made, yard=replace(made.yard, water_price_per_kgal=3.0))
    review = year_review(made, 2026, JULY)
    told = "waterings not counted: 2 of 2026, 1 of 2025"
    assert [each.unpriced for each in review.cost.items] == [told]
    assert [row.detail for row in zone_rows(review)] == [
        "Waterings in minutes not counted, the rate not known: 2 of 2026, 1 of 2025"
    ]


def test_no_counts_are_no_words() -> None:
    assert of_each_year((0, 0), spans_of(book(), 2026, JULY)) == ""
