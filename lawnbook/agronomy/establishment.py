"""New seed and sod: how often and how lightly it is watered until it has rooted.

Days are counted from sowing or laying, which is day 0; depths are net inches. Sources:
"seed-moist", "sod-moist", "establishing-weeks". ValueError outside a formula's domain.
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.agronomy.checks import not_negative
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of days under one rule: `until_day` is its last, `times_a_day` on a watering day.

    `least_in` is the least of one watering that reaches what must stay moist. `brisk_times` is
    how often a day where the month uses more than `BRISK_USE_IN_PER_DAY`.
    """

    until_day: int
    every_days: int
    times_a_day: int
    brisk_times: int
    least_in: float
    kept: tuple[str, str]

    @property
    def keeps_moist(self) -> str:
        """What must stay moist, in the owner's units."""
        us, metric = self.kept
        return tr(metric) if is_metric() else tr(us)


BRISK_USE_IN_PER_DAY = 0.15
"""Use from which a seedbed dries out between two waterings a day (common practice)."""

_SEEDBED = (tr("the top half inch of soil moist"), tr("the top 13 mm of soil moist"))
_SEEDLINGS = (tr("the top inch of soil moist"), tr("the top 25 mm of soil moist"))
_UNDER_SOD = (
    tr("the sod and the inch of soil below it moist"),
    tr("the sod and the 25 mm of soil below it moist"),
)
_YOUNG_ROOTS = (tr("the top two inches moist"), tr("the top 50 mm moist"))

STAGES: Mapping[str, tuple[Stage, ...]] = MappingProxyType(
    {
        "seed": (
            Stage(13, 1, 2, 3, 0.05, _SEEDBED),
            Stage(27, 1, 1, 1, 0.10, _SEEDLINGS),
            Stage(48, 2, 1, 1, 0.15, _YOUNG_ROOTS),
        ),
        "sod": (
            Stage(13, 1, 1, 1, 0.15, _UNDER_SOD),
            Stage(20, 2, 1, 1, 0.20, _YOUNG_ROOTS),
            Stage(27, 3, 1, 1, 0.25, _YOUNG_ROOTS),
        ),
    }
)
"""The stages in order. Two light waterings a day, three when it is dry, keep the surface of a
seedbed moist (source "seed-moist"); sod is watered daily until it holds (source "sod-moist"). The
weeks and the least depths are source "establishing-weeks", which is common practice: half an inch
of loam holds some 0.08 in that roots can take, an inch 0.17.
"""

ROOTED_SOIL_IN: Mapping[str, float] = MappingProxyType({"seed": 2.0, "sod": 1.5})
"""Rooted soil (in, below the thatch) on a plug from which new turf is watered like any other.

Common practice; sod brings about an inch of soil of its own along.
"""


def stage_on(how: str, day: int) -> Stage | None:
    """The stage of new "seed" or "sod" on a day, None from the day after the last.

    ValueError for a day before the first, KeyError for another way to begin.
    """
    stages = STAGES[how]
    if day < 0:
        raise ValueError(f"day must be 0 or more, not {day}.")
    return next((stage for stage in stages if day <= stage.until_day), None)


def last_day(how: str) -> int:
    """The last day of the light rule by the calendar, counted from day 0."""
    return STAGES[how][-1].until_day


def times_on_a_day(stage: Stage, use_in_per_day: float) -> int:
    """How many waterings on a watering day at the month's use."""
    brisk = not_negative("use_in_per_day", use_in_per_day) > BRISK_USE_IN_PER_DAY
    return stage.brisk_times if brisk else stage.times_a_day


def light_depth_in(stage: Stage, use_in_per_day: float) -> float:
    """Net depth of all waterings of one watering day: the use since the last, or the least."""
    times = times_on_a_day(stage, use_in_per_day)
    return max(stage.every_days * use_in_per_day, times * stage.least_in)
