"""The workings of records on file: a watering's depth, a feeding's nitrogen, what was typed."""

from datetime import date

import pytest

from lawnbook.plan.fed_rows import fed_rows
from lawnbook.plan.fed_workings import fed_row_workings
from lawnbook.plan.record_workings import of_record
from lawnbook.plan.sensitivity import figure_told, numbers_of, reckoned, sensitivities_of
from lawnbook.plan.working_model import Working
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Care, SoilTest, Watering, WeatherDay
from tests.desk_sample import samples
from tests.plan_yards import core, feeding, product, spot, watering, yard, zone

ON = date(2026, 6, 15)


def notebook() -> Notebook:
    """A zone of 1,000 sq ft watered at 1.2 in/h, with a record of every kind."""
    return yard(
        zone(precipitation_in_per_h=1.2),
        products=[product()],
        spots=[spot()],
        cores=[core(date(2026, 5, 2), 0.8, root_depth_in=4.0)],
        feedings=[feeding(date(2026, 5, 2), 2.0)],
        waterings=[
            watering(date(2026, 6, 1), minutes=30.0),
            Watering(id="w2", date=date(2026, 6, 2), zone="z1", depth_in=0.5, rank=1),
        ],
        care=[Care(id="m1", date=date(2026, 4, 2), kind="topdressing", cost=45.0)],
        weather=[WeatherDay(id="d1", date=date(2026, 6, 3), gauge_in=0.4)],
        soil_tests=[SoilTest(id="s1", date=date(2026, 3, 3), zone="z1", ph=6.4, k_ppm=90.0)],
    )


def values(table: str, record_id: str) -> list[str]:
    """The figures of one record as they are told; "first" is the first of its table."""
    book = notebook()
    wanted = next(iter(getattr(book, table))) if record_id == "first" else record_id
    return [each.value for each in of_record(book, ON, table, wanted)]


@pytest.mark.parametrize(
    ("table", "record_id", "told"),
    [
        # Net depth = gross × (0.4 + 0.6 × 0.65), gallons = gross × area × 0.6234 (1,000 sq ft).
        ("waterings", "first", ["0.47 in", "374 gal"]),
        ("waterings", "w2", ["0.40 in", "312 gal"]),
        ("care", "m1", ["45.00"]),
        ("weather", "d1", ["0.40 in"]),
        ("soil_tests", "s1", ["6.4", "90\u00a0ppm"]),
        ("cores", "first", ["0.80 in", "4.00 in"]),
        ("ticks", "none", []),
        ("waterings", "gone", []),
    ],
)
def test_a_record_tells_how_its_figures_came_about(
    table: str, record_id: str, told: list[str]
) -> None:
    """By hand for waterings; what was typed stands as it was typed."""
    assert values(table, record_id) == told


def test_a_feeding_tells_the_nitrogen_of_its_zones() -> None:
    """Pounds of product × share of nitrogen × 1,000 ÷ area treated."""
    book = notebook()
    share, area = book.products["p1"].n_pct, 1000.0
    made, quick = of_record(book, ON, "feedings", next(iter(book.feedings)))
    assert quick.label == "Front: quick nitrogen of it"
    assert made.value == f"{2.0 * share / 100 * 1000 / area:.2f} lb per 1,000 sq ft"


def test_a_line_of_the_ledger_opens_what_the_log_opens_of_its_feeding() -> None:
    """One feeding, one working, wherever it is listed; of several zones each line its own."""
    for book in (notebook(), samples()["larkspur_corner"]):
        by_line = [each for row in fed_rows(book, ON) if row.feeding_id
                   for each in fed_row_workings(book, row)]  # fmt: skip
        by_feeding = [
            each
            for key in as_of(book, ON).feedings
            for each in of_record(book, ON, "feedings", key)
        ]
        assert by_line
        held = {each.figure: each for each in by_feeding}
        assert all(held[each.figure] == each for each in by_line)


def test_minutes_without_a_rate_are_told_as_they_were_typed() -> None:
    """No depth is made up."""
    book = yard(zone(), waterings=[watering(date(2026, 6, 1), minutes=30.0)])
    (made,) = of_record(book, ON, "waterings", next(iter(book.waterings)))
    assert made.value == "30 min"
    assert made.reckoning is None


def all_workings() -> list[Working]:
    """Every working of the notebook's records."""
    book = notebook()
    tables = ("waterings", "feedings", "cores", "care", "weather", "soil_tests")
    return [
        each
        for table in tables
        for record in getattr(book, table)
        for each in of_record(book, ON, table, record)
    ]


def test_each_is_reckoned_anew_to_what_it_says() -> None:
    """The same inputs give the same figure, and each of its numbers moves it."""
    made = [each for each in all_workings() if each.reckoning is not None]
    assert len(made) >= 5
    for each in made:
        assert each.reckoning is not None
        assert figure_told(each.reckoning, reckoned(each.reckoning, numbers_of(each))) == each.value
        assert all(one.size > 0 for one in sensitivities_of(each))
