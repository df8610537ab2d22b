"""Invented water of one zone, every part of it filled, for the tests of charts and pages."""

from datetime import date, datetime, time, timedelta

import numpy as np

from lawnbook.plan.water_model import (
    Establishing,
    EtoMethod,
    NextRun,
    ProgramRun,
    RainCredit,
    Stretch,
    StretchStep,
    TimerStart,
    YearWater,
    ZoneCoverage,
    ZoneLedger,
    ZoneYear,
)

ON = date(2026, 6, 15)
MORNING = date(2026, 6, 17)
STEPS = ((2, 0.42), (3, 0.63), (4, 0.84), (5, 1.0))


def ledger_of(days: int = 150, allowance_in: float = 0.41, on: date = ON) -> ZoneLedger:
    """A season that is watered as it is used up, with rain every ninth day and one dry spell."""
    etc, rain, water = np.full(days, 0.15), np.zeros(days), np.zeros(days)
    rain[::9], rain[4::9] = 0.7, 0.02
    ignored = np.where(rain < 0.04, rain, 0.0)
    runoff = np.where(rain > 0.5, 0.1, 0.0)
    depletion, drained = np.zeros(days), np.zeros(days)
    used = 0.0
    for place in range(days):
        dry = days - 40 < place < days - 28
        if used > allowance_in - 0.1 and not dry:
            water[place] = used
        change = etc[place] + ignored[place] + runoff[place] - rain[place] - water[place]
        drained[place] = max(0.0, -(used + change))
        used = min(max(0.0, used + change), 1.02)
        depletion[place] = used
    ones = np.ones(days)
    filled: list[EtoMethod] = ["filled"] * (days // 3)
    known: list[EtoMethod] = ["Hargreaves"] * (days - days // 3)
    return ZoneLedger(
        zone="Front",
        zone_id="front",
        starts=on - timedelta(days=days - 1),
        eto_in=etc / 0.9,
        eto_from=(*filled, *known),
        etc_in=etc,
        used_in=etc,
        rain_in=rain,
        ignored_in=ignored,
        runoff_in=runoff,
        irrigation_in=water,
        into_soil_in=rain + water - ignored - runoff,
        thatch_store_in=0 * ones,
        drained_in=drained,
        depletion_in=depletion,
        stress_from_in=0.41 * ones,
        allowance_in=allowance_in * ones,
        capacity_in=1.02 * ones,
        stress=ones,
        ahead_in=depletion[-1] + 0.15 * np.arange(1, 31),
    )


def next_run(on: date = ON + timedelta(days=2), depth_in: float = 0.42) -> NextRun:
    """A watering of three cycles with a price."""
    return NextRun(
        date=on,
        depth_in=depth_in,
        share_used=0.41,
        stress=1.0,
        wets_in=6.0,
        past_roots_in=0.0,
        run_minutes=30.0,
        cycles=3,
        minutes_per_cycle=10.0,
        soak_minutes=24.0,
        gallons=1_290.0,
        cost=7.74,
    )


def stretch(borne: int = 1) -> Stretch:
    """Four steps to an inch every five days; roots bear the first `borne` of them."""
    return Stretch(
        month=6,
        etc_in_per_day=0.21,
        steps=tuple(
            StretchStep(
                interval_days=days,
                depth_in=depth,
                rooted_soil_needed_in=depth / (0.4 * 0.17),
                root_depth_needed_in=depth / (0.4 * 0.17) + 0.6,
                borne=place < borne,
                share_used_now=min(1.0, depth / 1.02),
                stress_now=1.0 if place < borne else max(0.0, (1 - depth / 1.02) / 0.6),
                expected=date(2027, 3 + 2 * place, 1) if borne <= place < 3 else None,
            )
            for place, (days, depth) in enumerate(STEPS)
        ),
        growth_in_per_year=1.4,
        plug_due=date(2026, 9, 12),
        inch_wets_in=13.9,
        inch_past_roots_in=0.53,
        words="Now 0.42 in every 2 days. When plugs show 9.9 in of roots, go to 3 days.",
    )


def year_water(
    gallons: float, waterings: int, months: tuple[int, ...] = (5, 6, 7, 8, 9)
) -> YearWater:
    """A year's water, spread evenly over some months, at 6 for 1,000 gallons."""
    each = gallons / len(months)
    return YearWater(
        waterings=waterings,
        gallons=gallons,
        gallons_by_month=tuple(each if month in months else 0.0 for month in range(1, 13)),
        cost=gallons * 0.006,
        gross_in=gallons / 623.4,
        wets_soil_in=gallons / 800,
        kept_by_thatch_in=gallons / 6_000,
        runoff_in=gallons / 20_000,
        drained_in=gallons / 8_000,
        stress_days=4 if waterings < 100 else 0,
        driest_share_used=0.46,
    )


def zone_year(*, habit: bool = True, full: bool = False) -> ZoneYear:
    """The year as planned beside a habit of watering nearly every day."""
    plan, old = year_water(18_400, 41), year_water(31_000, 182, (4, 5, 6, 7, 8, 9, 10))
    return ZoneYear(
        basis="the weather of 16 Jun 2025 to 15 Jun 2026",
        plan=plan,
        habit=old if habit else None,
        full=year_water(23_000, 50) if full else None,
        saved_gallons=old.gallons - plan.gallons if habit else None,
        words="The plan takes 18,400 gal in 41 waterings, the old habit 31,000 in 182.",
    )


def coverage() -> ZoneCoverage:
    """Six heads that put an eighth of their water outside."""
    return ZoneCoverage(
        heads=6,
        neighbours=2,
        without_flow=0,
        mean_in_per_h=0.86,
        du_lq=0.58,
        du_lh=0.74,
        cu=0.71,
        wasted_share=0.12,
        dry_share=0.07,
        wet_share=0.04,
        driest_at_ft=(4.0, 3.0),
        wettest_at_ft=(21.0, 14.0),
    )


def program(*, timed: bool = True, shortfall: int = 0) -> ProgramRun:
    """Two zones of two and three cycles, done by a sunrise at 5:28."""
    start = datetime.combine(MORNING, time(3, 20))
    plan = ((0, "Front", 1, 1, 10), (10, "Side", 2, 1, 12), (34, "Front", 1, 2, 10),
            (50, "Side", 2, 2, 12), (78, "Front", 1, 3, 10))  # fmt: skip
    return ProgramRun(
        program="A",
        zones=("Front", "Side"),
        morning=MORNING,
        starts=start if timed else None,
        ends=start + timedelta(minutes=88) if timed else None,
        sunrise=datetime.combine(MORNING, time(5, 28)) if timed else None,
        elapsed_minutes=88,
        allowed_minutes=60 if shortfall else None,
        shortfall_minutes=shortfall,
        timer=tuple(
            TimerStart(
                zone=name,
                zone_id=name.lower(),
                number=number,
                cycle=cycle,
                starts=start + timedelta(minutes=after) if timed else None,
                minutes=each,
            )
            for after, name, number, cycle, each in plan
        ),
        words="Needs 1 h 28 min; your rule leaves 1 h: 28 min of it cannot be given."
        if shortfall
        else "",
    )


def establishing() -> Establishing:
    """New seed in its third week."""
    return Establishing(
        how="seed",
        since=date(2026, 5, 28),
        until=date(2026, 7, 23),
        times_a_day=1,
        every_days=1,
        depth_in=0.12,
        run_minutes=8.0,
        words="New seed until 23 Jul or until a plug shows 2 in of roots: lightly, once a day.",
    )


CREDIT = RainCredit(fallen_in=0.70, counted_in=0.62, days_moved=3)
