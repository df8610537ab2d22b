"""What the rules of feeding ask of a zone besides its nitrogen: warmth, new turf, phosphorus."""

from dataclasses import dataclass
from datetime import date

from lawnbook.agronomy.soil_test import P_ENOUGH_PPM, next_test_due, phosphorus_enough
from lawnbook.plan.feed_model import SoilState
from lawnbook.plan.growth import growth_by_month
from lawnbook.plan.rooting import NewTurf, new_turf
from lawnbook.plan.soil_state import soil_states
from lawnbook.plan.warm_days import warm_days
from lawnbook.yard.notebook import Notebook

NEEDS_TEST = "Phosphate waits for a soil test; only a starter's on new turf needs none."
TOO_OLD = "The soil test is too old to go by then: have the soil tested again."

_UNKNOWN = (None,) * 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """One zone's warmth by month, its new turf, and what its soil test says of phosphate.

    `tmean_f` and `growth` (0-1) run January to December, None where no temperature is known.
    `phosphate_until` is the last day on which a soil test that found too little phosphorus holds,
    None where there is none; it matters only where phosphate `needs_test`.
    """

    tmean_f: tuple[float | None, ...] = _UNKNOWN
    growth: tuple[float | None, ...] = _UNKNOWN
    new_turf: NewTurf | None = None
    soil: SoilState | None = None
    needs_test: bool = False
    phosphate_until: date | None = None

    def new_turf_on(self, on: date) -> NewTurf | None:
        """The new turf that is still rooting on a day."""
        return self.new_turf if self.new_turf is not None and self.new_turf.on(on) else None

    def why_no_phosphate(self, on: date, *, starter: bool) -> str:
        """Why no phosphate may go down on a day, in a sentence; empty where it may.

        A starter's needs no soil test on turf that still roots.
        """
        until = self.phosphate_until
        tested = until is not None and on <= until
        if not self.needs_test or tested or (starter and self.new_turf_on(on) is not None):
            return ""
        if self.soil is not None and not self.soil.phosphate_allowed:
            return self.soil.phosphate_words
        return NEEDS_TEST if until is None else TOO_OLD


NO_GROUND = Ground()
"""Ground of which nothing is known: it adds no rule."""


def grounds_of(notebook: Notebook, on: date) -> dict[str, Ground]:
    """Every zone's ground by zone id; `notebook` is the one as of the day."""
    tmean_f = warm_days(notebook).month_f
    growth = {
        grass: growth_by_month(notebook, grass)
        for grass in {zone.grass for zone in notebook.zones.values()}
    }
    soils = soil_states(notebook, on)
    low = _too_little_until(notebook)
    rooting = new_turf(notebook, on)
    return {
        zone.id: Ground(
            tmean_f=tmean_f,
            growth=growth[zone.grass],
            new_turf=rooting.get(zone.id),
            soil=soils.get(zone.id),
            needs_test=notebook.n_rules.phosphorus_needs_test,
            phosphate_until=low.get(zone.id),
        )
        for zone in notebook.zones.values()
    }


def _too_little_until(notebook: Notebook) -> dict[str, date]:
    """The zones whose latest test of phosphorus found too little, and how long it holds."""
    own = notebook.n_rules.p_enough_ppm
    enough_ppm = P_ENOUGH_PPM if own is None else own
    latest = {
        test.zone: (test.date, test.p_ppm)
        for test in sorted(notebook.soil_tests.values(), key=lambda each: each.date)
        if test.p_ppm is not None
    }
    return {
        zone_id: next_test_due(tested)
        for zone_id, (tested, p_ppm) in latest.items()
        if not phosphorus_enough(p_ppm, enough_ppm)
    }
