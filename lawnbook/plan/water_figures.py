"""A zone's water figures on the day of the plan, gathered before they are told."""

from dataclasses import field
from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.plan.lazily import Lazily
from lawnbook.plan.ledger import Ledger
from lawnbook.plan.model import MonthWater
from lawnbook.plan.water_model import NextRun, ZoneYear


@dataclass(frozen=True, kw_only=True)
class Figures:
    """What notes and workings are told from; the ledger is None where no watering is planned."""

    today: MonthWater
    etc_in_per_day: float | None
    target_interval_days: int | None
    roots_needed_in: float
    ledger: Ledger | None
    next_allowed: date | None
    next_run: NextRun | None = None
    sooner_run: Lazily[NextRun | None] = field(default=Lazily(None))
    year: Lazily[ZoneYear | None] = field(default=Lazily(None))
