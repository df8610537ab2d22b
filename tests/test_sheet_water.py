"""The sheet's water table: its rows by season, the local rule, and what is assumed."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Literal

import pytest
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import CAPTION, Ink
from lawnbook.sheet.seasons import (
    middle_month,
    minutes_told,
    months_of,
    seasons,
    seasons_watered,
    soak_told,
)
from lawnbook.sheet.sections import water
from lawnbook.sheet.sections import water_notes as notes
from lawnbook.sheet.table import Row
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import WaterRules
from tests.plan_fixture import ON, yard_of

Weekday = Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
BOOK = yard_of(4)
BANK = load_any(next(path for path in sample_yards() if path.stem == "hollow_bank"), date.max)
PLAN = make_plan(BOOK, ON)


def row_of(zone: ZoneWater, book: Notebook = BOOK, plan: Plan = PLAN) -> Row:
    """The tall row of a zone in a year of three seasons."""
    return water.water_row(plan, book, zone, water.telling_of(plan, seasons(41.0), tall=True))


@pytest.mark.parametrize(("on", "number"), [(ON, 3), (date(2026, 9, 10), 4)])
def test_dash_among_the_starts_has_its_reason(on: date, number: int) -> None:
    """In no program and not in the coming night, or watered lightly and often: none is told."""
    plan = make_plan(BANK, on)
    row = row_of(plan.zones[number - 1], BANK, plan)
    assert (row[2].main, row[2].detail) == ("–", "no start told")


MONTHS = tuple(
    MonthWater(month=month, interval_days=days, run_minutes=run)
    for month, days, run in ((3, 9, 50.2), (4, 7, 50.4), (5, None, None), (6, 1, 20.0))
)


@pytest.mark.parametrize(
    ("latitude", "summer"), [(41.0, (6, 7, 8)), (-33.0, (12, 1, 2)), (None, (6, 7, 8))]
)
def test_seasons_by_hemisphere(latitude: float | None, summer: tuple[int, ...]) -> None:
    """Meteorological seasons of three whole months, six months apart (common practice)."""
    assert seasons(latitude)[1].months == summer


def month(use: float, days: int | None = 3, cycles: int = 2) -> MonthWater:
    """A watered month of a use, with cycles of 20.4 min and a soak of 27.6 between them."""
    return MonthWater(
        month=5,
        etc_in_per_day=use,
        interval_days=days,
        run_minutes=20.4 * cycles,
        cycles=cycles,
        minutes_per_cycle=20.4,
        soak_minutes=27.6,
    )


def test_middle_month_stands_for_a_season() -> None:
    """By its water use; of two the thirstier one."""
    low, middle, high = month(0.1), month(0.2), month(0.3)
    assert middle_month((high, low, middle)) is middle
    assert middle_month((low, high)) is high
    assert middle_month((low,)) is low
    assert middle_month(()) is None


def test_timer_setting_of_a_month() -> None:
    """Cycles of whole minutes, rounded up so that none falls short; a hose's places first."""
    assert minutes_told(month(0.2)) == "2 × 21"
    assert minutes_told(month(0.2, cycles=1)) == "1 × 21"
    assert minutes_told(month(0.2), places=4) == "4 × (2 × 21)"
    assert minutes_told(month(0.2, cycles=1), places=4) == "4 × 21"
    assert minutes_told(MonthWater(month=5)) == "–"
    assert soak_told(month(0.2)) == "soak 28"
    assert soak_told(month(0.2, cycles=1)) == ""


def test_season_cell_is_what_a_timer_is_set_to() -> None:
    """Minutes, days and soak; where the column is narrow the words go first, never a figure."""
    zone = replace(PLAN.zones[0], months=(month(0.2),))
    cell = row_of(zone)[-3]
    assert (cell.main, cell.detail) == ("2 × 21 min", "every 3 days, soak 28")
    assert cell.shorter[:2] == ("3 days, soak 28", "3 d, soak 28")
    flat = water.water_row(PLAN, BOOK, zone, water.telling_of(PLAN, seasons(41.0), tall=False))
    assert flat[-3].main == "2 × 21, 3 d"
    assert flat[-2].main == "–"


def test_season_takes_only_watered_months() -> None:
    """Months without a watering are left out of the season."""
    zone = replace(PLAN.zones[0], months=MONTHS)
    assert [m.month for m in months_of(zone, seasons(41.0)[0])] == [3, 4]


def test_watering_row_without_a_watering_gives_the_reason() -> None:
    """The reason stands over run, cycles and depth; the seasons stay."""
    frozen = replace(PLAN.zones[0], run_minutes=None, reason="Frozen ground.", next_allowed=None)
    zone = replace(frozen, zone_id="not in a program")
    row = row_of(zone)
    assert row[2].main == "Frozen ground."
    assert sum(cell.span for cell in row) == 8
    middle = middle_month(months_of(zone, seasons(41.0)[1]))
    assert middle is not None
    assert row[-2].main == f"{minutes_told(middle)} min"
    assert row[1].main == "–"


def test_row_without_a_watering_in_the_year_is_one_remark() -> None:
    """Dashes under every season say less than the reason told in full."""
    never = tuple(MonthWater(month=month) for month in range(1, 13))
    zone = replace(PLAN.zones[0], run_minutes=None, reason="Not irrigated.", months=never)
    row = row_of(zone)
    assert [cell.span for cell in row] == [1, 1, 6]
    assert row[2].main == "Not irrigated."


def test_stale_catch_test_is_marked() -> None:
    """A test older than a change of heads is called old, in the width of the figure."""
    zone = replace(PLAN.zones[0], rate_source="catch test", rate_stale=True)
    assert row_of(zone)[4].detail == "old test"


def test_most_pressing_zones_for_water() -> None:
    """Those due first are shown, in the order of their numbers."""
    late = date(2026, 7, 1)
    zones = [replace(zone, next_allowed=late) for zone in PLAN.zones]
    zones[1] = replace(zones[1], next_allowed=date(2026, 6, 16))
    zones[3] = replace(zones[3], next_allowed=date(2026, 6, 15))
    assert [zone.number for zone in water.most_pressing(zones, 2)] == [2, 4]


def test_winter_has_a_column_where_it_is_watered() -> None:
    """December to February in the north, June to August in the south."""
    cold = [replace(zone, months=MONTHS) for zone in PLAN.zones]
    assert [each.name for each in seasons_watered(cold, 41.0)] == ["spring", "summer", "autumn"]
    january = (MonthWater(month=1, interval_days=20), MonthWater(month=7, interval_days=2))
    mild = [*cold[:1], replace(cold[1], months=january)]
    assert seasons_watered(mild, 33.0)[3].months == (12, 1, 2)
    assert seasons_watered(mild, -33.0)[3].months == (6, 7, 8)


@pytest.fixture
def ink(qapp: QApplication) -> Iterator[Ink]:
    """Ink on a small picture, which must outlive its painter."""
    ensure_qt()
    image = QImage(50, 50, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    yield Ink(painter)
    painter.end()


def test_next_watering_is_the_first_day_that_the_rule_allows() -> None:
    """The row and the list of what is due name one day: the rule's, not the ledger's."""
    free = {zone.next_allowed for zone in PLAN.zones}
    ruled = replace(BOOK, water_rules=replace(BOOK.water_rules, days=("Sun",)))
    plan = make_plan(ruled, ON)
    days = {zone.next_allowed for zone in plan.zones}
    assert days != free
    assert days == {due.date for due in plan.due if due.kind == "water"}
    told = {row_of(zone, ruled, plan)[1].main for zone in plan.zones}
    assert told == {"21 Jun"}


@pytest.mark.parametrize(
    ("days", "hours", "told"),
    [
        ((), (), ""),
        (("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"), (), ""),
        (
            ("Sat", "Tue"),
            ("18:00-09:00",),
            "Your rule: on Tue and Sat only, 18:00–09:00 the morning after.",
        ),
        (("Sun",), (), "Your rule: on Sun only."),
        ((), ("00:00-10:00", "18:00-24:00"), "Your rule: 00:00–10:00 and 18:00–24:00."),
        (("Mon", "Wed", "Fri"), (), "Your rule: on Mon, Wed and Fri only."),
    ],
)
def test_the_local_rule_in_a_sentence(
    days: tuple[Weekday, ...], hours: tuple[str, ...], told: str
) -> None:
    """Days in the order of the week, all the hours; nothing where all is allowed."""
    rules = WaterRules(id="water_rules", days=days, hours=hours)
    assert notes.rule_told(rules) == told


def test_zones_with_assumed_figures_are_marked() -> None:
    """An asterisk at the name; a zone without sprinklers has no figures to mark."""
    one, other = replace(PLAN.zones[0], defaults=("DU 0.65",)), replace(PLAN.zones[1], defaults=())
    dry = replace(one, irrigated=False)
    marks = [row_of(zone)[0].mark for zone in (one, other, dry)]
    assert marks == ["*", "", ""]


def test_what_is_assumed_is_told_once_for_all_and_by_zone_for_some() -> None:
    """What every marked zone assumes has no numbers; many zones are counted."""
    held = (("soil loam", "DU 0.65"), (), ("roots 6 in", "DU 0.65"))
    zones = [replace(z, defaults=d) for z, d in zip(PLAN.zones, held, strict=False)]
    assert tuple(told.replace("\u00a0", " ") for told in notes.assumed_told(zones)) == (
        "* Assumed until measured or entered: DU 0.65, soil loam (zone 1), roots 6 in (zone 3).",
        "* Assumed until measured or entered: soil, DU and roots; see the notebook.",
    )
    assert notes.assumed_told([replace(zone, defaults=()) for zone in zones]) == ("", "")
    many = [
        replace(PLAN.zones[0], number=n, defaults=("DU 0.65", *(("soil loam",) if n % 2 else ())))
        for n in range(40)
    ]
    assert "soil\u00a0loam (20 zones)" in notes.assumed_told(many)[0]


def test_notes_never_take_more_than_two_lines(ink: Ink) -> None:
    """Forty zones that each assume other roots are told in short; no word is lost."""
    ruled = replace(BOOK.water_rules, days=("Mon", "Wed"), hours=("00:00-10:00", "18:00-24:00"))
    book = replace(BOOK, water_rules=ruled)
    zones = tuple(
        replace(PLAN.zones[0], number=n, defaults=(f"roots {n / 10} in", "DU 0.65"))
        for n in range(1, 41)
    )
    lines = notes.water_notes(ink, replace(PLAN, zones=zones), book, 520)
    assert len(lines) <= 2
    told = (
        notes.rule_told(ruled),
        "Where its days are named, water is wanted more often.",
        "Enter the yard's longitude and time zone to see when to start.",
        notes.assumed_told(zones)[1],
    )
    assert " ".join(line for line, _ in lines) == " ".join(told)
    assert all(ink.width(line, CAPTION) <= 520 for line, _ in lines)
    assert notes.water_notes(ink, make_plan(yard_of(0), ON), yard_of(0), 520) == ()


def test_zones_left_out_are_summed_up() -> None:
    """Runs and days of all zones; where all are watered daily it says so."""
    zones = tuple(replace(zone, interval_days=1) for zone in PLAN.zones)
    assert ", daily. " in water.left_out(replace(PLAN, zones=zones), BOOK, 2)
    assert ", every 1–2 days. " in water.left_out(
        replace(PLAN, zones=(replace(zones[0], interval_days=2), *zones[1:])), BOOK, 2
    )
    assert water.left_out(PLAN, BOOK, 4) == ""
    sunday = replace(BOOK, water_rules=WaterRules(id="water_rules", days=("Sun",)))
    assert ", Sun. " in water.left_out(PLAN, sunday, 2)
