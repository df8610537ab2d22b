"""How a watering, a day of weather and a day of the ledger came about, and what changes them."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

from lawnbook.agronomy.evapotranspiration import dew_point_c
from lawnbook.agronomy.units import c_to_f, m_per_s_to_mph, m_to_ft
from lawnbook.charts.ledger_hits import ledger_hits
from lawnbook.charts.marks import Frame
from lawnbook.desk.pages.water_ledger import LedgerCache
from lawnbook.plan.arithmetic import worked_out
from lawnbook.plan.daily_eto import daily_eto
from lawnbook.plan.ledger import zone_ledger
from lawnbook.plan.ledger_workings import ledger_day_workings
from lawnbook.plan.record_workings import of_record
from lawnbook.plan.root_days import net_depth_in, net_runoff_in
from lawnbook.plan.sensitivity import numbers_of, reckoned, sensitivities_of
from lawnbook.plan.watering_workings import rain_workings_of
from lawnbook.plan.weather_workings import weather_day_workings
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings_text import outcome_told
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.reading import Reading, reading_here
from lawnbook.yard.notebook import Notebook, apply, as_of, put
from lawnbook.yard.records import Watering, WeatherDay, Yard
from tests.desk_sample import samples

ON = date(2026, 6, 15)
DAYS_APART = 41
"""So far apart are the days of the ledger that are looked at."""


def of(figure: str, workings: Iterable[Working]) -> Working:
    """The working whose figure's key begins so."""
    return next(each for each in workings if each.figure.startswith(figure))


def base(working: Working) -> float:
    """The figure reckoned anew from its own numbers."""
    assert working.reckoning is not None
    return reckoned(working.reckoning, numbers_of(working))


def settings() -> list[tuple[Setting, ZoneFacts]]:
    """Every zone of every sample."""
    found = []
    for notebook in samples().values():
        setting = setting_of(as_of(notebook, ON), ON)
        zones = enumerate(setting.notebook.zones.values(), start=1)
        found += [(setting, facts_of(setting, zone, number)) for number, zone in zones]
    return found


def test_a_day_of_the_ledger_is_worked_out_as_the_ledger_has_it() -> None:
    """Use, what came and what is used up: from their own numbers they give the ledger's figures."""
    looked = 0
    for setting, facts in settings():
        ledger = zone_ledger(setting, facts)
        for place in range(0, ledger.depletion_in.size, DAYS_APART):
            that = ledger.starts + timedelta(days=place)
            told = ledger_day_workings(setting, facts, that)
            used, use = of("ledger_depletion", told), of("ledger_use", told)
            assert base(used) == pytest.approx(float(ledger.depletion_in[place]), abs=1e-12)
            assert base(use) == pytest.approx(float(ledger.etc_in[place]), abs=1e-12)
            assert worked_out(used.filled) == pytest.approx(base(used), abs=2e-4)
            if ledger.rain_in[place] or ledger.irrigation_in[place]:
                came = ledger.rain_in + ledger.irrigation_in - ledger.ignored_in - ledger.runoff_in
                assert base(of("ledger_came", told)) == pytest.approx(float(came[place]), abs=1e-12)
            looked += 1
    assert looked > 100


def test_no_day_outside_of_the_ledger_is_worked_out() -> None:
    """Neither before it begins nor after the day of the plan."""
    setting, facts = settings()[0]
    starts = zone_ledger(setting, facts).starts
    assert ledger_day_workings(setting, facts, starts - timedelta(days=1)) == ()
    assert ledger_day_workings(setting, facts, ON + timedelta(days=1)) == ()


def test_more_rain_leaves_less_used_up_and_more_use_leaves_more() -> None:
    """The sensitivity of a wet day is that of the ledger's own step."""
    setting, facts = settings()[0]
    ledger = zone_ledger(setting, facts)
    wet = [n for n in range(ledger.rain_in.size) if ledger.into_soil_in[n] > 0.1
           and ledger.depletion_in[n] > 0.3]  # fmt: skip
    told = ledger_day_workings(setting, facts, ledger.starts + timedelta(days=wet[0]))
    by_name = {each.name: each for each in sensitivities_of(of("ledger_depletion", told))}
    more_use, less_use = by_name["Water use"].changes
    assert more_use.change > 0 > less_use.change
    came = "Rain" if ledger.rain_in[wet[0]] else "Watered"
    more, less = by_name[came].changes
    assert more.change < 0 < less.change


def test_the_chart_has_a_box_for_each_day_and_the_cache_its_workings() -> None:
    """What lies under the pointer is a day of the ledger, up to that of the plan."""
    notebook = samples()["larkspur_corner"]
    zone_id = next(iter(notebook.zones))
    cache = LedgerCache()
    assert cache.day_workings(zone_id, ON) == ()
    ledger = cache.ledger(notebook, ON, zone_id)
    assert ledger is not None
    hits = ledger_hits(ledger, Frame(600.0, 260.0))
    assert hits[-1].key == ON.isoformat()
    assert len({each.key for each in hits}) == len(hits) == min(120, ledger.depletion_in.size)
    assert all(one.right == pytest.approx(two.left) for one, two in pairwise(hits))
    told = cache.day_workings(zone_id, ON)
    used, use = of("ledger_depletion", told), of("ledger_use", told)
    assert f"{ledger.depletion_in[-1]:.2f} of" in hits[-1].words
    assert used.value == f"{ledger.depletion_in[-1]:.2f} in"
    assert use.value == f"{ledger.etc_in[-1]:.3f} in"


def watered(notebook: Notebook, **fields: Any) -> tuple[Notebook, Watering]:
    """A watering more, of the first zone."""
    made = Watering(id="w-new", date=ON, zone=next(iter(notebook.zones)))
    watering = replace(made, **fields)
    return apply(notebook, put(notebook, "waterings", watering)), watering


@pytest.mark.parametrize(
    "fields",
    [
        {"minutes": 45.0},
        {"minutes": 90.0, "cycles": 1},
        {"minutes": 90.0, "cycles": 3},
        {"depth_in": 0.8},
        {"depth_in": 1.5, "cycles": 1},
    ],
)
def test_a_watering_is_worked_out_as_it_is_counted(fields: dict[str, Any]) -> None:
    """Minutes by the rate or a can's depth, over the multiplier, less what ran off."""
    notebook, watering = watered(samples()["larkspur_corner"], **fields)
    told = of("watering_counted", of_record(notebook, ON, "waterings", watering.id))
    setting = setting_of(as_of(notebook, ON), ON)
    facts = facts_of(setting, setting.notebook.zones[watering.zone], 1)
    net = net_depth_in(facts, watering)
    assert net is not None
    lost = net_runoff_in(facts, net, watering.cycles)
    assert base(told) == pytest.approx(net - lost, abs=1e-12)
    assert worked_out(told.filled) == pytest.approx(net - lost, abs=2e-4)
    assert ("run off" in told.formula) == (lost > 0)


def test_more_minutes_in_one_cycle_run_off_and_count_for_nothing() -> None:
    """The run-off is reckoned anew with each change: beyond what soaks in nothing is gained."""
    notebook, watering = watered(samples()["hollow_bank"], minutes=300.0, cycles=1)
    told = of("watering_counted", of_record(notebook, ON, "waterings", watering.id))
    by_name = {each.name: each for each in sensitivities_of(told)}
    more_cycles = by_name["Cycles"].changes[0]
    assert more_cycles.change > 0


def test_eto_by_hargreaves_is_the_formula_of_fao_56() -> None:
    """Equation 52 with the numbers put in gives the day's ETo in mm, and so in inches."""
    notebook = samples()["larkspur_corner"]
    told = of("eto", weather_day_workings(notebook, ON, date(2026, 5, 3)))
    held = notebook.weather["2026-05-03"]
    eto = float(daily_eto([held], notebook.yard).eto_in[0])
    assert worked_out(told.filled) / 25.4 == pytest.approx(eto, rel=2e-4)
    assert base(told) == pytest.approx(eto, rel=1e-12)
    high = next(e for e in sensitivities_of(told) if e.name == "Highest temperature")
    assert high.changes[0].change > 0 > high.changes[1].change


def test_uccle_of_fao_56_example_18() -> None:
    """Uccle, 6 July, 50°48′ N, 100 m: 12.3 and 21.5 °C, ea 1.409 kPa, 2.078 m/s, Rs 22.07 MJ/m².

    FAO-56 gives delta 0.122, gamma 0.0666, es 1.997, Rn 13.28 and ETo 3.88, rounded 3.9 mm a day.
    """
    that = date(2026, 7, 6)
    held = WeatherDay(
        id=that.isoformat(), date=that, tmin_f=c_to_f(12.3), tmax_f=c_to_f(21.5),
        tdew_f=c_to_f(dew_point_c(1.409)), wind_mph=m_per_s_to_mph(2.078), solar_mj_m2=22.07,
    )  # fmt: skip
    yard = Yard(id="yard", name="Uccle", latitude_deg=50.80, elevation_ft=m_to_ft(100.0))
    told = of("eto", weather_day_workings(Notebook(yard=yard, weather={held.id: held}), that, that))
    assert worked_out(told.filled) == pytest.approx(3.88, abs=0.005)
    by_name = {each.name: float(each.value.split()[0]) for each in told.inputs[-7:]}
    assert by_name == pytest.approx(
        {
            "T": 16.9,
            "u₂": 2.08,
            "es": 1.997,
            "ea": 1.409,
            "Δ": 0.122,
            "\u03b3": 0.0666,
            "Rn": 13.28,
        },
        abs=0.006,
    )
    with reading_here(Reading()):
        assert outcome_told(told) == "Reckoned in SI units: 3.88\u00a0mm, which is 0.15274\u00a0in."
    with reading_here(Reading(units="metric")):
        assert outcome_told(told) == "Reckoned in SI units: 3.88\u00a0mm."


@pytest.mark.parametrize(
    ("low_f", "high_f", "dew_f"), [(50.0, 52.0, 51.9), (-40.0, -38.0, -39.0), (-20.0, 10.0, None)]
)
def test_damp_and_frozen_days_are_filled_in_as_they_are_reckoned(
    low_f: float, high_f: float, dew_f: float | None
) -> None:
    """Air that is full takes nothing, and no ETo is below zero."""
    that = date(2026, 1, 6)
    held = WeatherDay(id=that.isoformat(), date=that, tmin_f=low_f, tmax_f=high_f, tdew_f=dew_f)
    yard = Yard(id="yard", name="Yard", latitude_deg=60.0)
    told = of("eto", weather_day_workings(Notebook(yard=yard, weather={held.id: held}), that, that))
    eto_mm = 25.4 * float(daily_eto([held], yard).eto_in[0])
    assert worked_out(told.filled) == pytest.approx(eto_mm, abs=2e-3)


@pytest.mark.parametrize(
    ("fields", "formula", "defaults"),
    [
        ({"reported_eto_in": 0.21}, "as reported", ()),
        ({"tdew_f": 50.0, "wind_mph": 4.0, "solar_mj_m2": 20.0}, "equation 6: what", ()),
        ({"tdew_f": 50.0}, "estimated as in its chapter 3", ("Wind", "Sun")),
        ({"solar_mj_m2": 20.0}, "estimated as in its chapter 3", ("Dew point", "Wind")),
    ],
)
def test_each_method_says_what_it_used_and_what_it_assumed(
    fields: dict[str, Any], formula: str, defaults: tuple[str, ...]
) -> None:
    """By the best method a day allows; what stands in for a measurement is marked as a default."""
    held = replace(
        WeatherDay(id="2026-06-01", date=date(2026, 6, 1), tmin_f=52.0, tmax_f=77.0), **fields
    )
    yard = Yard(id="yard", name="Yard", latitude_deg=41.0, elevation_ft=500.0)
    notebook = Notebook(yard=yard, weather={held.id: held})
    told = of("eto", weather_day_workings(notebook, ON, held.date))
    assert formula in told.formula
    assert tuple(each.name for each in told.inputs if each.is_default) == defaults
    assert base(told) == pytest.approx(float(daily_eto([held], yard).eto_in[0]), rel=1e-12)


def test_a_day_without_measurements_takes_its_months_mean() -> None:
    """As the card says: filled with the month's mean."""
    notebook = samples()["larkspur_corner"]
    gone = replace(
        notebook, weather={k: d for k, d in notebook.weather.items() if k != "2026-05-03"}
    )
    (told,) = weather_day_workings(gone, ON, date(2026, 5, 3))
    assert "mean of the month" in told.formula
    assert "Hargreaves" in told.inputs[0].origin


def test_the_gauge_goes_before_the_station() -> None:
    """Both are told, one is counted."""
    both = WeatherDay(id="2026-06-01", date=date(2026, 6, 1), gauge_in=0.4, rain_in=0.9)
    (told,) = rain_workings_of(both)
    assert (told.value, base(told)) == ("0.40 in", 0.4)
    assert [each.value for each in told.inputs] == ["0.40 in", "0.90 in"]
    (station,) = rain_workings_of(replace(both, gauge_in=None))
    assert station.value == "0.90 in"
    assert rain_workings_of(replace(both, gauge_in=None, rain_in=None)) == ()
    assert rain_workings_of(None) == ()
