"""What the rules of feeding ask of a zone besides its nitrogen: warmth, new turf, phosphorus."""

from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import SoilState
from lawnbook.plan.growth import growth_by_month
from lawnbook.plan.rooting import NewTurf, new_turf
from lawnbook.plan.soil_state import Phosphate, PhosphateRule, phosphate_rules, soil_states
from lawnbook.plan.warm_days import warm_days
from lawnbook.plan.workings import OWN
from lawnbook.yard.notebook import Notebook

_UNKNOWN = (None,) * 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """One zone's warmth by month, its new turf, its soil, and what decides on its phosphate.

    `tmean_f` and `growth` (0-1) run January to December, None where no temperature is known.
    """

    tmean_f: tuple[float | None, ...] = _UNKNOWN
    growth: tuple[float | None, ...] = _UNKNOWN
    new_turf: NewTurf | None = None
    soil: SoilState | None = None
    phosphate: PhosphateRule | None = None

    def new_turf_on(self, on: date) -> NewTurf | None:
        """The new turf that is still rooting on a day."""
        return self.new_turf if self.new_turf is not None and self.new_turf.on(on) else None

    def phosphate_on(self, on: date, *, starter: bool) -> Phosphate:
        """Whether phosphate may go down on a day; a starter's needs no test on rooting turf."""
        if self.phosphate is None:
            return Phosphate(True, "", OWN)
        turf = self.new_turf_on(on) if starter else None
        return self.phosphate.decided(on, None if turf is None else turf.until)


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
    phosphate = phosphate_rules(notebook, on)
    rooting = new_turf(notebook, on)
    return {
        zone.id: Ground(
            tmean_f=tmean_f,
            growth=growth[zone.grass],
            new_turf=rooting.get(zone.id),
            soil=soils.get(zone.id),
            phosphate=phosphate[zone.id],
        )
        for zone in notebook.zones.values()
    }
