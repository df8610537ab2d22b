"""Nitrogen becoming available on a zone: layers, months, what is to come, and every ounce kept."""

from dataclasses import replace
from datetime import date, timedelta
from math import fsum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.plan.feed_ledger import feeds_of
from lawnbook.plan.feed_model import ReleaseCurve, Released, ReleaseLayer
from lawnbook.plan.release import ALWAYS_WARM, release_of, released_of
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Feeding, Product
from tests.plan_yards import climate, feeding, product, watering, weather_day, yard

ON = date(2026, 9, 15)
KINDS = (
    None,
    "sulfur-coated urea",
    "polymer-coated urea",
    "methylene urea",
    "ureaform",
    "isobutylidene diurea",
    "natural organic",
)


def released(book: Notebook, on: date = ON) -> Released:
    """The months of the plain zone."""
    known = as_of(book, on)
    areas = {each.id: zone_area_sqft(each) for each in known.zones.values()}
    return released_of(known, feeds_of(known, areas, on)["z1"], on)


def only(curve: ReleaseCurve) -> ReleaseLayer:
    """The one layer of a curve."""
    (layer,) = curve.layers
    return layer


def with_water(book: Notebook, mg_per_l: float) -> Notebook:
    """The same yard with nitrogen in its water."""
    return replace(book, yard=replace(book.yard, water_n_mg_per_l=mg_per_l))


def test_an_unknown_zone_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        release_of(yard(), "elsewhere", ON)


def test_nothing_down_is_no_layer() -> None:
    curve = release_of(yard(), "z1", ON)
    assert curve.layers == ()
    assert (curve.start, curve.days) == (date(2026, 1, 1), 365)
    assert released(yard()).by_month == (0.0,) * 12


def test_half_slow_by_the_calendar_worked_by_hand() -> None:
    """5 lb of 24 % N on 1,000 sq ft: 0.6 quick over 14 days, 0.6 slow over 12 weeks of 84 days."""
    book = yard(
        products=[product(slow_kind="polymer-coated urea")],
        feedings=[feeding(date(2026, 5, 1), 5.0)],
    )
    layer = only(release_of(book, "z1", ON))
    assert layer.applied_lb == pytest.approx(1.2)
    first = (date(2026, 5, 1) - date(2026, 1, 1)).days
    assert layer.daily_lb[first - 1] == 0
    assert layer.daily_lb[first] == pytest.approx(0.6 / 14 + 0.6 / 84)
    assert layer.daily_lb[first + 14] == pytest.approx(0.6 / 84)
    assert layer.daily_lb[first + 83] == pytest.approx(0.6 / 84)
    assert layer.daily_lb[first + 84] == pytest.approx(0, abs=1e-12)
    months = released(book).by_month
    assert months[4] == pytest.approx(0.6 + 0.6 * 31 / 84)
    assert months[5] == pytest.approx(0.6 * 30 / 84)
    assert sum(months) == pytest.approx(1.2)


def test_microbes_wait_for_warm_soil() -> None:
    """At 35 °F nothing of a feather meal comes; at 68 °F all of it within its weeks."""
    meal = product(slow_n_pct=24.0, slow_kind="natural organic", release_weeks=10)
    book = yard(products=[meal], feedings=[feeding(date(2026, 5, 1), 5.0)])
    cold = replace(book, climate={each.id: each for each in climate(tmean_f=(35.0,) * 12)})
    warm = replace(book, climate={each.id: each for each in climate(tmean_f=(68.0,) * 12)})
    assert released(cold).by_month == (0.0,) * 12
    assert released(cold).to_come_lb == pytest.approx(1.2)
    assert sum(released(warm).by_month[4:7]) == pytest.approx(1.2)
    assert released(warm).to_come_lb == pytest.approx(0)


def test_known_days_count_up_to_the_day_of_the_plan() -> None:
    """A frosty May on record holds back what the table's May would have freed."""
    meal = product(slow_n_pct=24.0, slow_kind="natural organic")
    frost = [
        weather_day(date(2026, 5, 1) + timedelta(days=n), tmin_f=25.0, tmax_f=35.0)
        for n in range(31)
    ]
    book = yard(products=[meal], feedings=[feeding(date(2026, 5, 1), 5.0)])
    assert released(book).by_month[4] > 0.1
    assert released(replace(book, weather={day.id: day for day in frost})).by_month[4] == 0


def test_without_temperatures_it_comes_evenly_and_is_said() -> None:
    meal = product(slow_n_pct=24.0, slow_kind="natural organic", release_weeks=10)
    book = yard(products=[meal], feedings=[feeding(date(2026, 1, 1), 5.0)], climate=[])
    curve = release_of(book, "z1", ON)
    assert only(curve).daily_lb[:70] == pytest.approx([1.2 / 70] * 70)
    assert ALWAYS_WARM in curve.notes
    assert curve.usable_daily_lb is None
    assert "No temperatures" in curve.reason
    assert released(book).usable_by_month is None
    assert released(book).reason == curve.reason


def test_last_years_feeding_reaches_over_new_year() -> None:
    book = yard(
        products=[product(slow_kind="polymer-coated urea")],
        feedings=[feeding(date(2025, 12, 1), 5.0)],
    )
    layer = only(release_of(book, "z1", ON))
    assert layer.before_lb == pytest.approx(0.6 + 0.6 * 31 / 84)
    assert fsum(layer.daily_lb) == pytest.approx(0.6 * 53 / 84)
    assert layer.after_lb == pytest.approx(0)
    assert released(book).by_month[0] == pytest.approx(0.6 * 31 / 84)


def test_what_has_given_all_before_the_year_is_neither_shown_nor_noted() -> None:
    old = product(id="p9", name="Long gone", slow_kind="sulfur-coated urea")
    book = yard(products=[old], feedings=[feeding(date(2025, 3, 1), 5.0, product="p9")])
    curve = release_of(book, "z1", ON)
    assert curve.layers == ()
    assert not any("Long gone" in note for note in curve.notes)


def test_what_is_to_come_is_down_and_not_yet_available() -> None:
    book = yard(
        products=[product(slow_kind="polymer-coated urea")],
        feedings=[feeding(ON - timedelta(days=41), 5.0), feeding(date(2026, 10, 1), 5.0)],
    )
    assert released(book).to_come_lb == pytest.approx(0.6 * 42 / 84)


def test_a_feeding_to_come_is_in_no_layer() -> None:
    book = yard(products=[product()], feedings=[feeding(date(2026, 10, 1), 5.0)])
    assert release_of(book, "z1", ON).layers == ()


def test_the_southern_year_runs_from_july() -> None:
    book = yard(
        latitude_deg=-41.0,
        products=[product(slow_n_pct=0.0)],
        feedings=[feeding(date(2025, 12, 25), 5.0)],
    )
    curve = release_of(book, "z1", date(2026, 3, 1))
    assert (curve.start, curve.days) == (date(2025, 7, 1), 365)
    months = released(book, date(2026, 3, 1)).by_month
    assert months[11] == pytest.approx(1.2 * 7 / 14)
    assert months[0] == pytest.approx(1.2 * 7 / 14)


def test_irrigation_water_is_a_layer_of_its_own_and_at_once() -> None:
    """An inch of 10 mg/L brings 0.052 lb per 1,000 sq ft, on its day."""
    book = with_water(yard(waterings=[watering(date(2026, 6, 1), depth_in=1.0)]), 10.0)
    layer = only(release_of(book, "z1", ON))
    assert layer.kind == "water"
    assert layer.daily_lb[151] == pytest.approx(0.052, abs=1e-4)
    assert fsum(layer.daily_lb) == layer.applied_lb
    assert released(book).by_month[5] == pytest.approx(layer.applied_lb)


def test_the_area_treated_counts_and_a_mix_holds_what_its_recipe_says() -> None:
    half = feeding(date(2026, 5, 1), 2.5, treated_area_sqft={"z1": 500.0})
    assert only(release_of(yard(products=[product()], feedings=[half]), "z1", ON)).applied_lb == (
        pytest.approx(1.2)
    )


def test_usable_is_the_years_budget_shared_out_by_growth() -> None:
    curve, months = release_of(yard(), "z1", ON), released(yard())
    assert curve.usable_daily_lb is not None
    assert months.usable_by_month is not None
    assert fsum(curve.usable_daily_lb) == pytest.approx(2.75)
    assert sum(months.usable_by_month) == pytest.approx(2.75)
    assert fsum(curve.usable_daily_lb[151:181]) == pytest.approx(months.usable_by_month[5])


def test_notes_say_weeks_kind_and_what_drives_it() -> None:
    book = yard(
        products=[product(slow_kind="ureaform"), product(id="p2", name="Odd", release_weeks=7)],
        feedings=[
            feeding(date(2026, 5, 1), 5.0),
            feeding(date(2026, 8, 1), 5.0, product="p2"),
        ],
    )
    told = " ".join(release_of(book, "z1", ON).notes)
    assert "(ureaform) feeds by warmth over 20 weeks of warm soil (68 °F)" in told
    assert "the middle of 10 to 30" in told
    assert "Odd: its slow part feeds evenly by the calendar over 7 weeks, as entered." in told
    assert "stands in for the soil’s" in told


@st.composite
def fed_yards(draw: st.DrawFn) -> Notebook:
    """Yards of one zone with a few products, feedings over three years, and any temperatures."""
    products = [
        Product(
            id=f"p{n}",
            name=f"P{n}",
            n_pct=draw(st.floats(0.1, 46)),
            slow_n_pct=draw(st.floats(0, 46)),
            slow_kind=draw(st.sampled_from(KINDS)),
            release_weeks=draw(st.none() | st.floats(0, 104)),
        )
        for n in range(2)
    ]
    feedings = [
        Feeding(
            id=f"f{n}",
            date=date(2024, 1, 1) + timedelta(days=draw(st.integers(0, 980))),
            product=draw(st.sampled_from(["p0", "p1"])),
            pounds={"z1": draw(st.floats(0.01, 50))},
        )
        for n in range(draw(st.integers(1, 5)))
    ]
    means = tuple(draw(st.lists(st.floats(-20, 105), min_size=12, max_size=12)))
    latitude = draw(st.sampled_from([41.0, -41.0]))
    return yard(
        products=products,
        feedings=feedings,
        climate=climate(tmean_f=means),
        latitude_deg=latitude,
    )


@settings(max_examples=60, deadline=None)
@given(fed_yards())
def test_every_layer_keeps_all_that_was_put_down(book: Notebook) -> None:
    for layer in release_of(book, "z1", ON).layers:
        assert min(layer.daily_lb) >= 0
        assert layer.before_lb >= 0
        assert layer.after_lb >= 0
        kept = fsum((layer.before_lb, *layer.daily_lb, layer.after_lb))
        assert kept == pytest.approx(layer.applied_lb, rel=1e-9, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(fed_yards())
def test_months_are_the_sum_of_the_days(book: Notebook) -> None:
    curve, months = release_of(book, "z1", ON), released(book)
    daily = fsum(fsum(layer.daily_lb) for layer in curve.layers)
    assert sum(months.by_month) == pytest.approx(daily, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(fed_yards(), st.floats(0.01, 0.99))
def test_a_feeding_split_in_two_releases_the_same(book: Notebook, share: float) -> None:
    first = next(iter(book.feedings.values()))
    parts = [
        replace(first, id=f"{first.id}{n}", pounds={"z1": first.pounds["z1"] * part})
        for n, part in enumerate((share, 1 - share))
    ]
    rest = {key: each for key, each in book.feedings.items() if key != first.id}
    split = replace(book, feedings={**rest, **{each.id: each for each in parts}})
    one, two = released(book), released(split)
    assert two.by_month == pytest.approx(one.by_month, abs=1e-9)
    assert two.to_come_lb == pytest.approx(one.to_come_lb, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(fed_yards(), st.floats(0, 40))
def test_a_colder_year_leaves_no_less_to_come(book: Notebook, colder_f: float) -> None:
    cold = {
        key: replace(row, tmean_f=(row.tmean_f or 0.0) - colder_f)
        for key, row in book.climate.items()
    }
    assert released(replace(book, climate=cold)).to_come_lb >= released(book).to_come_lb - 1e-9
