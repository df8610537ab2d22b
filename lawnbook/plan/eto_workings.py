"""The formula of a day's ETo with the numbers put in, as FAO-56 has it: equation 6, or 52.

Both are in SI units to every reader: °C, m/s, kPa, MJ/m² and mm.
"""

from collections.abc import Iterator

from lawnbook.plan.daily_eto import FULL, HARGREAVES, EtoTerms
from lawnbook.plan.filled_in import numbered, put_in
from lawnbook.plan.working_model import Input
from lawnbook.plan.workings import given, told
from lawnbook.reading import tr

PENMAN = tr("Penman–Monteith, FAO-56 equation 6: what sun and air take from a short green grass")
PENMAN_ESTIMATED = tr(
    "Penman–Monteith, FAO-56 equation 6, with what was not measured estimated as in its chapter 3"
)
EQUATION_6 = tr(
    "(0.408 Δ × Rn + \u03b3 × 900 ÷ (T + 273) × u₂ × (es − ea)) ÷ (Δ + \u03b3 × (1 + 0.34 u₂)), "
    "in °C, m/s, kPa, MJ/m² and mm"
)
EQUATION_52 = tr(
    "Hargreaves: 0.0023 × (mean + 17.8) × √(high − low) × 0.408 Ra, in °C, MJ/m² and mm"
)
_SUN_AND_AIR = (
    "(0.408 × {slope} × {net} + {gamma} × 900 ÷ ({mean} + 273) × {wind} × ({es} − {ea}))"
    " ÷ ({slope} + {gamma} × (1 + 0.34 × {wind}))"
)
_DAMP = "0.408 × {slope} × {net} ÷ ({slope} + {gamma} × (1 + 0.34 × {wind}))"
"""Of air that can hold no more: it takes nothing, whatever the wind."""
_BY_SWING = "0.0023 × ({mean} + 17.8) × √({swing}) × 0.408 × {ra}"


def formula_of(terms: EtoTerms, code: int) -> tuple[str, str]:
    """The method's formula in words, and the same with the numbers of a day put in."""
    if code == HARGREAVES:
        words, formula = EQUATION_52, _BY_SWING
    else:
        words = f"{PENMAN if code == FULL else PENMAN_ESTIMATED}\n{EQUATION_6}"
        formula = _SUN_AND_AIR if terms.es_kpa > terms.ea_kpa else _DAMP
    if terms.eto_mm <= 0:
        # No grass gives water to the air: what comes out below zero counts as none.
        formula = f"max(0, {formula})"
    return words, put_in(formula, _numbers(terms))


def terms_told(terms: EtoTerms, code: int) -> Iterator[Input]:
    """What stands in the formula and was worked out from what was measured."""
    yield given(
        "Ra", told(terms.ra_mj, 1, "MJ/m²"), tr("worked out from latitude and day of the year")
    )
    if code == HARGREAVES:
        return
    yield given("T", f"{told(terms.mean_c, 2)} °C", tr("the mean of highest and lowest"))
    yield given("u₂", f"{told(terms.wind_m_s, 2)} m/s", tr("the wind, in m/s"))
    yield given(
        "es", f"{told(terms.es_kpa, 3)} kPa", tr("what the air can hold, FAO-56 equation 12")
    )
    yield given("ea", f"{told(terms.ea_kpa, 3)} kPa", tr("what it holds, by the dew point"))
    yield given("Δ", f"{told(terms.slope, 4)} kPa/°C", tr("of T, FAO-56 equation 13"))
    yield given(
        "\u03b3", f"{told(terms.gamma, 4)} kPa/°C", tr("of the elevation, FAO-56 equation 8")
    )
    yield given(
        "Rn", told(terms.net_mj, 2, "MJ/m²"), tr("what is kept of the sun, FAO-56 equation 40")
    )


def _numbers(terms: EtoTerms) -> tuple[Input, ...]:
    return tuple(
        numbered(given(symbol, "", ""), symbol, number)
        for symbol, number in (
            ("mean", terms.mean_c),
            ("swing", terms.swing_c),
            ("ra", terms.ra_mj),
            ("slope", terms.slope),
            ("gamma", terms.gamma),
            ("wind", terms.wind_m_s),
            ("es", terms.es_kpa),
            ("ea", terms.ea_kpa),
            ("net", terms.net_mj),
        )
    )
