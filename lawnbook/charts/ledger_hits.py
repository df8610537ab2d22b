"""What lies under the pointer on the picture of a root zone: a day, and where its water went."""

from datetime import date, timedelta

import numpy as np

from lawnbook.charts.ledger_days import NEAR_IN, shown_days
from lawnbook.charts.marks import Frame
from lawnbook.charts.profile_hits import Hit
from lawnbook.plan.water_model import ZoneLedger
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told
from lawnbook.yard.numbers import day


def ledger_hits(
    ledger: ZoneLedger, frame: Frame, next_watering: date | None = None
) -> tuple[Hit, ...]:
    """A box for each day that is shown, up to that of the plan; its key is the day as ISO."""
    season = shown_days(ledger, frame, next_watering)
    before = ledger.depletion_in.size - season.past
    return tuple(
        Hit(
            left=season.x(place),
            top=season.band[0],
            right=season.x(place + 1),
            bottom=season.foot,
            key=(season.first + timedelta(days=place)).isoformat(),
            words=_day_words(ledger, before + place, season.first + timedelta(days=place)),
        )
        for place in range(season.past)
    )


def _day_words(ledger: ZoneLedger, place: int, on: date) -> str:
    """The day, what the grass used, what came, and what is used up by its evening."""
    rain, water = float(ledger.rain_in[place]), float(ledger.irrigation_in[place])
    lost = float(ledger.ignored_in[place] + ledger.runoff_in[place])
    lines = [day(on), tr("water use {depth}", depth=_told(ledger.etc_in[place]))]
    if rain >= NEAR_IN:
        lines.append(tr("rain {depth}", depth=_told(rain)))
    if water >= NEAR_IN:
        lines.append(tr("watered {depth}, net", depth=_told(water)))
    if lost >= NEAR_IN:
        lines.append(tr("not counted {depth}", depth=_told(lost)))
    lines.append(
        tr(
            "{used} of {capacity} used up by the evening",
            used=bare(float(ledger.depletion_in[place]), 2, "in"),
            capacity=_told(ledger.capacity_in[place]),
        )
    )
    return "\n".join(lines)


def _told(depth_in: "float | np.float64") -> str:
    return told(float(depth_in), 2, "in")
