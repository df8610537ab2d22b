"""How fast sprinklers put water down, how evenly, and how long to run them.

Rates are in/h, depths in, areas sq ft, can mouths sq in. ValueError for anything outside a
formula's domain. Sources: "rate-constant", "ia-catch-can", "multiplier", "christiansen".
"""

from collections.abc import Sequence

import numpy as np

from lawnbook.agronomy.checks import (
    Array,
    Reals,
    between,
    finite,
    not_negative,
    not_negative_array,
    positive,
)
from lawnbook.agronomy.units import (
    CUIN_PER_GAL,
    SQFT_IN_TO_GAL,
    SQIN_PER_SQFT,
    ml_to_cuin,
)

Readings = Sequence[float] | Reals

MINUTES_PER_HOUR = 60.0
DEFAULT_DU_LQ = 0.65
"""Lower-quarter uniformity assumed where no cans were set out (common practice)."""

RATE_CONSTANT = MINUTES_PER_HOUR * CUIN_PER_GAL / SQIN_PER_SQFT
"""96.25: inches an hour from one gallon a minute on one square foot; handbooks round it to 96.3."""

FEWEST_CANS = 2
"""One can cannot show unevenness."""


def precipitation_rate_in_per_h(flow_gpm: float, area_sqft: float) -> float:
    """Mean rate (in/h), 96.25 x flow / area. Source: "rate-constant"."""
    return RATE_CONSTANT * not_negative("flow_gpm", flow_gpm) / positive("area_sqft", area_sqft)


def catch_can_rate_in_per_h(
    volumes_ml: Readings, run_minutes: float, can_mouth_sqin: float
) -> float:
    """Mean rate (in/h), 3.66 x mean mL / (minutes x mouth). Source: "ia-catch-can"."""
    mean_cuin = ml_to_cuin(float(_cans("volumes_ml", volumes_ml).mean()))
    return depth_rate_in_per_h(
        [mean_cuin / positive("can_mouth_sqin", can_mouth_sqin)], run_minutes
    )


def depth_rate_in_per_h(depths_in: Readings, run_minutes: float) -> float:
    """Mean rate (in/h) from depths read in straight-sided cans. Source: "ia-catch-can"."""
    mean_in = float(_cans("depths_in", depths_in).mean())
    return MINUTES_PER_HOUR * mean_in / positive("run_minutes", run_minutes)


def lower_quarter_uniformity(depths: Readings) -> float:
    """DU_LQ, 0-1: mean of the lowest quarter of the cans over the mean of all, in any unit.

    A quarter is n/4 cans exactly: the can on the boundary counts with the fraction that falls in
    the quarter. ValueError under two cans or where all cans are empty. Source: "ia-catch-can".
    """
    return _lowest_share_uniformity(depths, 0.25)


def lower_half_uniformity(depths: Readings) -> float:
    """DU_LH, 0-1: like `lower_quarter_uniformity`, of the lowest half of the cans.

    Source: "ia-catch-can".
    """
    return _lowest_share_uniformity(depths, 0.5)


def christiansen_uniformity(depths: Readings) -> float:
    """CU, 1 - sum|x - mean| / (n x mean); below 0 for very uneven cans ("christiansen")."""
    cans = _uneven_cans(depths)
    mean = float(cans.mean())
    return 1.0 - float(np.abs(cans - mean).mean()) / mean


def run_time_multiplier(du_lq: float) -> float:
    """Gross over net depth, 1 / (0.4 + 0.6 DU_LQ), from 1 to 2.5. Source: "multiplier"."""
    return 1.0 / (0.4 + 0.6 * between("du_lq", du_lq, 0.0, 1.0))


def run_minutes(net_depth_in: float, rate_in_per_h: float, multiplier: float) -> float:
    """Minutes to run so that the drier half gets `net_depth_in`: 60 x net x multiplier / rate.

    `multiplier` is 1 or more. Source: "multiplier".
    """
    if finite("multiplier", multiplier) < 1.0:
        raise ValueError(f"multiplier must be 1 or more, not {multiplier}.")
    gross_in = not_negative("net_depth_in", net_depth_in) * multiplier
    return MINUTES_PER_HOUR * gross_in / positive("rate_in_per_h", rate_in_per_h)


def gallons(gross_depth_in: float, area_sqft: float) -> float:
    """US gallons in `gross_depth_in` over `area_sqft`; one inch on 1,000 sq ft is 623. Exact."""
    return (
        not_negative("gross_depth_in", gross_depth_in)
        * not_negative("area_sqft", area_sqft)
        * SQFT_IN_TO_GAL
    )


def _cans(name: str, readings: Readings) -> Array:
    cans = not_negative_array(name, readings)
    if cans.ndim != 1 or cans.size == 0:
        raise ValueError(f"{name} must be a list with at least one can.")
    return cans


def _uneven_cans(depths: Readings) -> Array:
    cans = _cans("depths", depths)
    if cans.size < FEWEST_CANS:
        raise ValueError("Uniformity needs two cans or more.")
    if not cans.any():
        raise ValueError("Uniformity needs water in at least one can.")
    return cans


def _lowest_share_uniformity(depths: Readings, share: float) -> float:
    cans = np.sort(_uneven_cans(depths))
    count = cans.size * share
    # Driest first, each can weighs what of it lies within the share: 1, ..., 1, a remainder, 0.
    weights = np.clip(count - np.arange(cans.size), 0.0, 1.0)
    lowest_mean = float(weights @ cans) / count
    return min(1.0, lowest_mean / float(cans.mean()))
