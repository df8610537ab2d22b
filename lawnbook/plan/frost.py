"""Whether frost has come or is near, so that sprinkler lines are drained before they burst."""

from datetime import date, timedelta

from lawnbook.agronomy.seasons import table_month
from lawnbook.frozen import dataclass
from lawnbook.plan.month_water import FREEZING_F
from lawnbook.plan.zone_facts import Setting

AUTUMN = (9, 10, 11)
"""Months of the north in which lines are drained (common practice)."""

LOOK_BACK_DAYS = 14
LOOK_AHEAD_DAYS = 30

FROSTY_MEAN_F = 45.0
"""A month with a lower mean has nights of frost (common practice); for want of daily records."""

FEWEST_DAYS = 10
"""A year of the past with fewer days on record says nothing."""

DAYS_PER_YEAR = 365.25
MOST_YEARS = 10


@dataclass(frozen=True, slots=True)
class FrostNear:
    """The last day of frost within two weeks, with its low (°F); None where it is only usual."""

    came: date | None
    low_f: float | None


def frost_near(setting: Setting) -> FrostNear | None:
    """The frost that has come within two weeks or is usual within the next 30 days, in autumn."""
    if table_month(setting.on.month, setting.latitude_deg) not in AUTUMN:
        return None
    lows = _lows(setting)
    for back in range(LOOK_BACK_DAYS):
        on = setting.on - timedelta(days=back)
        if lows.get(on, FREEZING_F + 1) <= FREEZING_F:
            return FrostNear(on, lows[on])
    return FrostNear(None, None) if _is_usual(setting, lows) else None


def frost_comes(setting: Setting) -> bool:
    """Whether any month is cold enough for frost; taken so while no temperature is known."""
    means = [each.tmean_f for each in setting.weather.months if each.tmean_f is not None]
    return not means or min(means) <= FROSTY_MEAN_F


def _lows(setting: Setting) -> dict[date, float]:
    """The low of each day on record (°F)."""
    days = setting.notebook.weather.values()
    return {each.date: each.tmin_f for each in days if each.tmin_f is not None}


def _is_usual(setting: Setting, lows: dict[date, float]) -> bool:
    """Whether half the past years on record had frost in the 30 days ahead, or else the climate."""
    frosty = counted = 0
    for years in range(1, MOST_YEARS + 1):
        then = setting.on - timedelta(days=round(years * DAYS_PER_YEAR))
        ahead = (then + timedelta(days=each) for each in range(1, LOOK_AHEAD_DAYS + 1))
        known = [lows[each] for each in ahead if each in lows]
        if len(known) >= FEWEST_DAYS:
            counted += 1
            frosty += min(known) <= FREEZING_F
    if counted:
        return 2 * frosty >= counted
    months = {setting.on.month, (setting.on + timedelta(days=LOOK_AHEAD_DAYS)).month}
    means = [setting.weather.month(month).tmean_f for month in months]
    return any(mean is not None and mean <= FROSTY_MEAN_F for mean in means)
