"""The year at one look: its days, curves, spans and marks."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.season_year import season_year, year_of
from lawnbook.plan.season_year_model import SeasonMark, SeasonRow, SeasonYear
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care, CatchTest, Season, SoilTest, Tick, Watering
from tests.plan_yards import (
    ETO_IN,
    JUNE,
    core,
    feeding,
    product,
    rules,
    spot,
    steady,
    watering,
    yard,
    zone,
)


def shown(book: Notebook, on: date = JUNE, year: int | None = None) -> SeasonYear:
    """The year of a day."""
    return season_year(book, make_plan(book, on), year_of(book, on) if year is None else year)


def of_row(year: SeasonYear, row: SeasonRow, *, planned: bool = False) -> list[SeasonMark]:
    """The marks of one row, done or still to come."""
    return [mark for mark in year.marks if mark.row == row and mark.planned is planned]


@pytest.mark.parametrize(
    ("latitude", "on", "label", "starts", "ends"),
    [
        (41.0, JUNE, "2026", date(2026, 1, 1), date(2026, 12, 31)),
        (41.0, date(2024, 2, 29), "2024", date(2024, 1, 1), date(2024, 12, 31)),
        (-33.0, JUNE, "2025–26", date(2025, 7, 1), date(2026, 6, 30)),
        (-33.0, date(2026, 7, 1), "2026–27", date(2026, 7, 1), date(2027, 6, 30)),
    ],
)
def test_a_year_is_that_of_the_budgets(
    latitude: float, on: date, label: str, starts: date, ends: date
) -> None:
    year = shown(yard(latitude_deg=latitude), on)
    assert (year.label, year.starts, year.ends) == (label, starts, ends)
    assert year.length == len(year.need_in_per_day) == len(year.growth[0].values)
    assert len(year.months) == 12
    assert year.months[0].starts == starts
    assert year.months[-1].ends == ends


def test_need_runs_straight_between_the_middles_of_the_months() -> None:
    """numpy's interp over a period of a year, from the months' means, is the reference."""
    year = shown(yard())
    months = [month.need_in_per_day for month in year.months]
    starts = [(month.starts - year.starts).days for month in year.months]
    middles = [
        begin + ((month.ends - month.starts).days + 1) / 2
        for begin, month in zip(starts, year.months, strict=True)
    ]
    expected = np.interp(np.arange(365) + 0.5, middles, np.array(months, float), period=365)
    assert np.allclose(np.array(year.need_in_per_day, float), expected)


def test_need_is_the_mean_of_the_irrigated_zones_by_area() -> None:
    """Equal weather: one zone in the shade at half the use, and one that is not irrigated."""
    small = ((0.0, 0.0), (25.0, 0.0), (25.0, 20.0), (0.0, 20.0))
    shade = zone(id="z2", name="Shade", outline_ft=small, microclimate=0.5)
    dry = zone(id="z3", name="Dry", irrigated=False, microclimate=0.1)
    alone = shown(yard(zone(), climate=steady(0.2))).months[5].need_in_per_day
    mixed = shown(yard(zone(), shade, dry, climate=steady(0.2))).months[5].need_in_per_day
    assert alone
    assert mixed == pytest.approx(alone * (1000 + 0.5 * 500) / 1500)


def test_what_was_watered_is_net_and_a_mean_of_the_days_so_far() -> None:
    """1.2 in gross in fifteen days of June; a DU of 0.65 nets it by the plan's multiplier."""
    book = yard(waterings=[watering(date(2026, 6, 3), depth_in=1.2)])
    plan = make_plan(book, JUNE)
    june, july = season_year(book, plan, 2026).months[5:7]
    assert june.watered_in_per_day == pytest.approx(1.2 / plan.zones[0].multiplier / 15)
    assert july.watered_in_per_day is None


def test_waterings_in_minutes_without_a_rate_are_told_as_not_counted() -> None:
    year = shown(yard(waterings=[watering(date(2026, 6, 3), minutes=20.0)]))
    assert "1 watering noted in minutes cannot be counted" in " ".join(year.reasons)
    assert year.months[5].watered_in_per_day == 0.0


def test_without_weather_the_reasons_say_what_to_enter() -> None:
    year = shown(yard(climate=[]))
    assert year.growth == ()
    assert set(year.need_in_per_day) == {None}
    assert len(year.reasons) == 2
    assert all("Yard" in reason for reason in year.reasons)


def test_each_grass_has_its_curve() -> None:
    warm = zone(id="z2", name="Side", grass="warm")
    year = shown(yard(zone(), warm))
    assert [curve.grass for curve in year.growth] == ["cool", "warm"]
    cool_may, warm_may = year.months[4].growth
    assert cool_may is not None
    assert warm_may is not None
    assert cool_may > warm_may


def test_spans_over_new_year_are_two() -> None:
    winter = Season(start="11-15", end="03-01")
    year = shown(
        yard(n_rules=rules(blackouts=(winter,)), season=Season(start="04-15", end="10-15"))
    )
    dates = {
        kind: [(s.starts, s.ends) for s in year.spans if s.kind == kind]
        for kind in ("season", "blackout")
    }
    assert dates == {
        "season": [(date(2026, 4, 15), date(2026, 10, 15))],
        "blackout": [
            (date(2026, 1, 1), date(2026, 3, 1)),
            (date(2026, 11, 15), date(2026, 12, 31)),
        ],
    }


@pytest.mark.parametrize("latitude", [41.0, -33.0])
def test_the_weeks_of_care_stay_in_the_year(latitude: float) -> None:
    tmean = (28.0, 34.0, 42.0, 50.0, 59.0, 68.0, 76.0, 74.0, 64.0, 52.0, 40.0, 30.0)
    turned = tmean if latitude > 0 else (*tmean[6:], *tmean[:6])
    held = [replace(each, tmean_f=turned[each.month - 1]) for each in steady(0.15)]
    year = shown(yard(latitude_deg=latitude, climate=held))
    windows = [span for span in year.spans if span.kind == "window"]
    assert {"aeration", "overseeding"} <= {span.name for span in windows}
    assert all(year.starts <= span.starts <= span.ends <= year.ends for span in windows)


RECORDS: Mapping[str, Any] = {
    "waterings": [
        watering(date(2026, 6, 3), minutes=20.0),
        Watering(id="w2", date=date(2026, 6, 3), zone="z1", depth_in=0.5),
    ],
    "products": [product()],
    "feedings": [feeding(date(2026, 5, 2), 3.0)],
    "spots": [spot()],
    "cores": [core(date(2026, 5, 3), 0.75, 0.85)],
    "care": [
        Care(id="m", date=date(2026, 5, 4), kind="Mowed", zones=("z1",)),
        Care(id="a", date=date(2026, 5, 5), kind="aeration"),
    ],
    "soil_tests": [SoilTest(id="s", date=date(2026, 5, 6), zone="z1")],
    "catch_tests": [
        CatchTest(
            id="t",
            zone="z1",
            date=date(2026, 5, 7),
            run_minutes=20,
            depths_in=(0.2, 0.2, 0.3, 0.3),
        )
    ],
    "ticks": [
        Tick(id=f"k{n}", date=date(2026, 4, 8), checklist="spring start-up", step=f"s{n}")
        for n in range(3)
    ],
}


def test_everything_recorded_has_its_mark() -> None:
    year = shown(yard(**RECORDS))
    told = {
        row: [(mark.date.isoformat()[5:], mark.words) for mark in of_row(year, row)]
        for row in ("water", "feed", "mow", "plug", "care", "check")
    }
    assert told == {
        "water": [("06-03", ("Watered Front: 20 min", "Watered Front: 0.50 in"))],
        "feed": [("05-02", ("Half slow: Front 3 lb",))],
        "mow": [("05-04", ("Mowed: Front",))],
        "plug": [("05-03", ("Plug at gate: thatch 0.80 in",))],
        "care": [("05-05", ("Aeration: whole yard",))],
        "check": [
            ("04-08", ("Spring start-up: 3 steps ticked",)),
            ("05-06", ("Soil test: Front",)),
            ("05-07", ("Catch test: Front",)),
        ],
    }
    ticks = of_row(year, "check")[0]
    assert ticks.records == (("ticks", "k0"), ("ticks", "k1"), ("ticks", "k2"))


def test_what_is_dated_later_or_in_another_year_is_not_shown() -> None:
    book = yard(
        waterings=[watering(JUNE + timedelta(days=1)), watering(date(2025, 6, 3), depth_in=1.0)]
    )
    assert of_row(shown(book), "water") == []
    assert len(of_row(shown(book, year=2025), "water")) == 1


def test_feedings_planned_stand_hollow_and_lead_nowhere() -> None:
    year = shown(yard(products=[product()]))
    planned = of_row(year, "feed", planned=True)
    assert planned
    assert all(mark.date >= JUNE and not mark.records for mark in planned)
    assert planned[0].words[0].startswith("Up to ")
    assert of_row(shown(yard(products=[product()]), year=2024), "feed", planned=True) == []


def test_many_waterings_of_a_day_are_counted() -> None:
    rows = [Watering(id=f"w{n}", date=date(2026, 6, 3), zone="z1", minutes=n) for n in range(1, 12)]
    (mark,) = of_row(shown(yard(waterings=rows)), "water")
    assert len(mark.records) == 11
    assert mark.words[-1] == "and 5 more"


def test_the_climate_of_the_yard_is_the_one_of_the_need() -> None:
    """A Kc above zero in July: need over ETo is one factor for the whole of a steady month."""
    months = shown(yard()).months
    factor = [
        month.need_in_per_day / eto
        for month, eto in zip(months, ETO_IN, strict=True)
        if month.need_in_per_day
    ]
    assert factor
    assert all(0.3 < each <= 1.1 for each in factor)
