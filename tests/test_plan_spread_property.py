"""The check before spreading over yards of any sort: the most, the first day, and the split."""

import itertools
import math
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Literal

from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.nitrogen import either_month, n_year
from lawnbook.plan.feed_budget import budget_of
from lawnbook.plan.feed_model import SpreadPass
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread
from lawnbook.yard.notebook import Notebook, put
from lawnbook.yard.notebook import apply as applied
from lawnbook.yard.records import Established, Feeding, NRules, Season, SoilTest, Zone
from tests.plan_yards import TMEAN_F, climate, feeding, product, yard, zone

DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))
NO_BLACKOUT: tuple[Season, ...] = ()
SEASONS = st.sampled_from(
    [
        NO_BLACKOUT,
        (Season(start="11-15", end="03-01"),),
        (Season(start="09-10", end="09-25"), Season(start="02-01", end="02-29")),
    ]
)
TOLERANCE = 1e-9


@st.composite
def limits(draw: st.DrawFn) -> NRules:
    """Any rules of the owner's."""
    return NRules(
        id="n_rules",
        max_total_lb=draw(st.none() | st.floats(0.2, 2)),
        max_quick_lb=draw(st.none() | st.floats(0, 1)),
        year_lb=draw(st.none() | st.floats(0, 4)),
        min_slow_pct=draw(st.none() | st.floats(0, 80)),
        min_days=draw(st.none() | st.integers(0, 120)),
        blackouts=draw(SEASONS),
        phosphorus_needs_test=draw(st.booleans()),
    )


@st.composite
def lawns(draw: st.DrawFn) -> Zone:
    """The plain zone or another: any grass and level, now and then sown or laid of late."""
    began = draw(st.none() | DAYS)
    how: Literal["seed", "sod"] = "seed" if draw(st.booleans()) else "sod"
    return replace(
        zone(),
        grass=draw(st.sampled_from(["cool", "warm"])),
        budget_level=draw(st.sampled_from(["lean", "middle", "full"])),
        established=None if began is None else Established(date=began, how=how),
    )


@st.composite
def books(draw: st.DrawFn) -> Notebook:
    """Yards of one zone, north and south, with any rules and shelf, a few feedings and tests."""
    n_pct = draw(st.floats(5, 46))
    shelf = product(
        n_pct=n_pct,
        slow_n_pct=n_pct * draw(st.floats(0, 1)),
        p2o5_pct=draw(st.sampled_from([0.0, 0.0, 10.0])),
        starter=draw(st.booleans()),
    )
    fed: list[Feeding] = [
        replace(feeding(on, pounds), id=f"f{n}")
        for n, (on, pounds) in enumerate(
            draw(st.lists(st.tuples(DAYS, st.floats(0.5, 4)), max_size=4))
        )
    ]
    tests = [
        SoilTest(id=f"t{n}", date=on, zone="z1", p_ppm=ppm)
        for n, (on, ppm) in enumerate(
            draw(
                st.lists(
                    st.tuples(
                        st.dates(date(2023, 1, 1), date(2027, 12, 31)),
                        st.sampled_from([None, 10.0, 200.0]),
                    ),
                    max_size=2,
                    unique_by=lambda each: each[0],
                )
            )
        )
    ]
    warm = draw(st.sampled_from(["known", "even", "unknown"]))
    rows = {"known": climate(), "even": climate(tmean_f=(70.0,) * 12), "unknown": []}[warm]
    book = yard(
        draw(lawns()),
        latitude_deg=-30.0 if draw(st.booleans()) else 40.0,
        season=draw(st.none() | st.just(Season(start="04-20", end="10-15"))),
        climate=rows,
        products=[shelf],
        feedings=fed,
        n_rules=[draw(limits())],
        soil_tests=tests,
    )
    drought: Literal["off", "survival"] = "off" if draw(st.integers(0, 3)) else "survival"
    return replace(book, yard=replace(book.yard, drought=drought))


def known_by(book: Notebook, on: date) -> Notebook:
    """The notebook without what is recorded later than a day."""
    return replace(
        book,
        feedings={key: each for key, each in book.feedings.items() if each.date <= on},
        soil_tests={key: each for key, each in book.soil_tests.items() if each.date <= on},
    )


def checked(book: Notebook, pounds: float, on: date) -> SpreadCheck:
    """The check of pounds of "p1" on the plain zone."""
    return check_spread(book, "p1", {"z1": pounds}, on)


@settings(deadline=None)
@given(books(), DAYS)
def test_the_most_passes_and_one_percent_more_does_not(book: Notebook, on: date) -> None:
    most = checked(book, 1.0, on).zones[0].max_lb
    assert checked(book, most, on).within
    if most > 0:
        assert not checked(book, most * 1.01, on).within
    else:
        assert not checked(book, 0.01, on).within


@settings(deadline=None, max_examples=100)
@given(books(), DAYS, st.floats(0.05, 4))
def test_the_first_day_is_the_one_a_daily_search_finds(
    book: Notebook, on: date, pounds: float
) -> None:
    # What is recorded later is unknown on the day, so the search looks at the yard as of then.
    book = known_by(book, on)
    found = checked(book, pounds, on).earliest_date
    days = (on + timedelta(days=n) for n in range(732))
    assert found == next((day for day in days if passes_by_hand(book, pounds, day)), None)


@settings(deadline=None, max_examples=60)
@given(books(), DAYS, st.floats(0.1, 12), st.booleans())
def test_a_split_brings_it_all_and_each_pass_passes_after_those_before(
    book: Notebook, on: date, pounds: float, two: bool
) -> None:
    book = known_by(book, on)
    wanted = {"z1": pounds}
    if two:
        side = replace(book.zones["z1"], id="z2", name="Side", budget_level="full")
        book = replace(book, zones={**book.zones, "z2": side})
        wanted["z2"] = pounds / 2
    check = check_spread(book, "p1", wanted, on)
    if check.within or not check.split:
        assert not (check.within and check.split)
        return
    assert len(check.split) > 1
    assert brought(check.split) == {key: round(value, 6) for key, value in wanted.items()}
    days = [each.date for each in check.split]
    own = book.n_rules.min_days
    least = 14 if own is None else max(1, own)
    assert all((b - a).days >= least for a, b in itertools.pairwise(days))
    assert days[0] >= on
    assert days[-1] <= on + timedelta(days=731)
    for number, each in enumerate(check.split):
        parts = {zone.zone_id: zone.pounds for zone in each.zones}
        assert check_spread(book, "p1", parts, each.date).within
        later = Feeding(id=f"pass{number}", date=each.date, product="p1", pounds=parts)
        book = applied(book, put(book, "feedings", later))


def brought(split: tuple[SpreadPass, ...]) -> dict[str, float]:
    """Pounds of all passes by zone, to a millionth; each pass is the sum of its zones."""
    sums: dict[str, float] = {}
    for each in split:
        assert math.isclose(each.pounds, sum(zone.pounds for zone in each.zones))
        for part in each.zones:
            sums[part.zone_id] = sums.get(part.zone_id, 0.0) + part.pounds
    return {key: round(value, 6) for key, value in sums.items()}


@settings(deadline=None)
@given(books(), DAYS)
def test_the_next_feeding_of_the_plan_passes_the_check(book: Notebook, on: date) -> None:
    book = known_by(book, on)
    upcoming = make_plan(book, on).nitrogen[0].next_feeding
    if upcoming is not None:
        assert upcoming.date >= on
        assert checked(book, upcoming.pounds, upcoming.date).within
        assert not checked(book, upcoming.pounds * 1.01, upcoming.date).within


def passes_by_hand(book: Notebook, pounds: float, on: date) -> bool:
    """Whether the zone passes, by the rules written out once more."""
    return (
        fits_the_budget(book, pounds, on)
        and fits_one_application(book, pounds, on)
        and open_by_the_season(book, on)
        and open_by_the_owner(book, on)
        and open_for_phosphate(book, on)
    )


def shares_of(book: Notebook) -> tuple[float, float]:
    """Nitrogen as a share of the product, and quick nitrogen as a share of the nitrogen."""
    shelf = book.products["p1"]
    return shelf.n_pct / 100, (shelf.n_pct - shelf.slow_n_pct) / shelf.n_pct


def fed_by_hand(book: Notebook) -> list[tuple[date, float]]:
    """The days and the nitrogen of what was fed; the zone has 1,000 sq ft."""
    share, _ = shares_of(book)
    return [(each.date, each.pounds["z1"] * share) for each in book.feedings.values()]


def fits_the_budget(book: Notebook, pounds: float, on: date) -> bool:
    """The budgets of month and year, and the owner's year."""
    lawn, rate = book.zones["z1"], pounds * shares_of(book)[0]
    south = (book.yard.latitude_deg or 0) < 0
    budget, own = budget_of(book, lawn), book.n_rules.year_lb
    label = on.year - (1 if south and on.month < 7 else 0)
    assert n_year(on, book.yard.latitude_deg or 0).label == label
    year = [(d, n) for d, n in fed_by_hand(book) if d.year - (south and d.month < 7) == label]
    month = budget.by_month[on.month - 1]
    if lawn.grass == "warm":
        pair = {1: 2, 2: 1} if south else {7: 8, 8: 7}
        assert budget.table is not None
        other = either_month(budget.table, on.month, book.yard.latitude_deg or 0)
        assert other == pair.get(on.month)
        if any(d.month == other for d, _ in year):
            month = 0.0
    in_month = sum(n for d, n in year if d.month == on.month)
    in_year = sum(n for _, n in year)
    return (
        in_month + rate <= month + TOLERANCE
        and in_year + rate <= budget.year_lb + TOLERANCE
        and (own is None or in_year + rate <= own + TOLERANCE)
    )


def fits_one_application(book: Notebook, pounds: float, on: date) -> bool:
    """The limits on what is put down on one day, new turf's too."""
    share, quick = shares_of(book)
    rules, today = book.n_rules, sum(n for d, n in fed_by_hand(book) if d == on)
    whole = today + pounds * share
    if rooting(book, on) and not (book.products["p1"].starter and whole <= 0.5 + TOLERANCE):
        return False
    most = 1.0 if rules.max_total_lb is None else rules.max_total_lb
    quickest = 0.5 if rules.max_quick_lb is None else rules.max_quick_lb
    return whole <= most + TOLERANCE and whole * quick <= quickest + TOLERANCE


def open_by_the_season(book: Notebook, on: date) -> bool:
    """Whether the grass is not dormant and grows at a tenth of its best at least."""
    season = book.yard.irrigation_season
    if book.yard.drought == "survival" and (season is None or blacked_out(season, on)):
        return False
    usual: Mapping[int, float | None] = {row.month: row.tmean_f for row in book.climate.values()}
    mean = usual.get(on.month)
    if mean is None:
        return True
    # Of the year's means only two are near a limit, which these figures show.
    assert mean in (*TMEAN_F, 70.0)
    if book.zones["z1"].grass == "warm":
        return mean >= 50 and math.exp(-(((mean - 88) / 12) ** 2) / 2) >= 0.1
    return mean >= 40 and math.exp(-(((mean - 68) / 10) ** 2) / 2) >= 0.1


def open_by_the_owner(book: Notebook, on: date) -> bool:
    """The owner's blackouts, least slow share and days between feedings."""
    rules, (_, quick) = book.n_rules, shares_of(book)
    last = max((d for d, n in fed_by_hand(book) if d < on and n >= 0.01), default=None)
    return (
        (rules.min_slow_pct is None or 100 * (1 - quick) >= rules.min_slow_pct - TOLERANCE)
        and (rules.min_days is None or last is None or (on - last).days >= rules.min_days)
        and not any(blacked_out(season, on) for season in rules.blackouts)
    )


def open_for_phosphate(book: Notebook, on: date) -> bool:
    """Whether there is none, or a test of the last three years asks for it, or none is needed."""
    shelf = book.products["p1"]
    if shelf.p2o5_pct == 0 or not book.n_rules.phosphorus_needs_test:
        return True
    if shelf.starter and rooting(book, on):
        return True
    tests = sorted((t.date, t.p_ppm) for t in book.soil_tests.values() if t.p_ppm is not None)
    if not tests:
        return False
    tested, ppm = tests[-1]
    held = (on.year, on.month, on.day) <= (tested.year + 3, tested.month, tested.day)
    leap = (tested.month, tested.day) == (2, 29) and on == date(tested.year + 3, 3, 1)
    return ppm < 45 and (held or leap)


def rooting(book: Notebook, on: date) -> bool:
    """Whether turf sown or laid lately still roots: 49 days from seed, 28 from sod."""
    began = book.zones["z1"].established
    if began is None or began.date is None:
        return False
    return 0 <= (on - began.date).days < (49 if began.how == "seed" else 28)


def blacked_out(season: Season, on: date) -> bool:
    """Whether a day lies in a span, compared as text."""
    today = f"{on.month:02}-{on.day:02}"
    if season.start <= season.end:
        return season.start <= today <= season.end
    return today >= season.start or today <= season.end
