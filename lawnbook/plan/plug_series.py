"""The plugs of a place made ready to be compared: which ones, pooled by day, as series of years.

Plugs of one spot on one day are replicates and count as one. Pressed and unpressed thatch never
share a trend: where any unpressed plug was read, the pressed ones are left out.
"""

import math
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from lawnbook.agronomy.plug_error import PlugRead
from lawnbook.agronomy.spot_lines import DAYS_PER_YEAR, LEAST_SPAN_DAYS, Series
from lawnbook.frozen import dataclass
from lawnbook.kept import Kept
from lawnbook.plan.roots import Reading, thatch_readings
from lawnbook.yard.records import Core, Spot

HALF_INCH = 0.5

ASSUMED_RESOLUTION_IN = 1 / 16
"""The finest mark of a common ruler, where a plug does not say (common practice)."""


@dataclass(frozen=True)
class SpotDays:
    """The compared plugs of one spot in date order, and their thatch by day."""

    spot: Spot
    cores: tuple[Core, ...]
    days: tuple[Reading, ...]

    @property
    def span_days(self) -> int:
        """Days from the first plug to the latest."""
        return (self.days[-1].date - self.days[0].date).days

    @property
    def has_slope(self) -> bool:
        """Whether the plugs lie far enough apart for a slope a year."""
        return self.span_days >= LEAST_SPAN_DAYS

    @Kept
    def reads(self) -> tuple[tuple[PlugRead, ...], ...]:
        """The readings of each plug by day: plugs of one day differ by their error alone."""
        days: dict[date, list[PlugRead]] = {}
        for core in self.cores:
            days.setdefault(core.date, []).append(PlugRead.of(core.thatch_in))
        return tuple(map(tuple, days.values()))

    @Kept
    def resolution_in(self) -> float:
        """The rulers' finest mark as it counts on average."""
        return resolution_in(self.cores)[0]


@dataclass(frozen=True)
class SpotPlugs:
    """One spot and all its plugs in date order, with what is told of them alone, reckoned once.

    It depends on its spot and its plugs only: where both are the same, keep it from plan to plan.
    """

    spot: Spot
    cores: tuple[Core, ...]

    @Kept
    def unpressed(self) -> SpotDays | None:
        """The plugs that were read unpressed; None where there is none."""
        return self._days(pressed=False)

    @Kept
    def pressed(self) -> SpotDays | None:
        """The plugs that were read pressed; None where there is none."""
        return self._days(pressed=True)

    @Kept
    def compared(self) -> "Compared":
        """The spot's plugs that share a trend."""
        return compared_of((self,))

    @Kept
    def values_in(self) -> tuple[float, ...]:
        """The thatch of each day that is compared, in date order."""
        return tuple(day.value_in for each in self.compared.spots for day in each.days)

    def _days(self, *, pressed: bool) -> SpotDays | None:
        kept = tuple(core for core in self.cores if core.thatch_in and core.pressed == pressed)
        return SpotDays(self.spot, kept, thatch_readings(kept)) if kept else None


@dataclass(frozen=True)
class Compared:
    """The plugs of some spots that share a trend, in the owner's order of spots.

    `left_out` is how many plugs with readings are not compared: pressed ones beside unpressed.
    """

    spots: tuple[SpotDays, ...]
    pressed: bool
    left_out: int

    @Kept
    def dates(self) -> tuple[date, ...]:
        """The days with a plug, in order."""
        return tuple(sorted({day.date for each in self.spots for day in each.days}))

    @Kept
    def spot_days(self) -> int:
        """How many values are compared: one for each spot and day."""
        return sum(len(each.days) for each in self.spots)

    @Kept
    def in_trend(self) -> tuple[SpotDays, ...]:
        """The spots with a slope: plugs of two dates far enough apart; all where none has."""
        return tuple(each for each in self.spots if each.has_slope) or self.spots

    @Kept
    def cores(self) -> tuple[Core, ...]:
        """All the plugs that are compared."""
        return tuple(core for each in self.spots for core in each.cores)

    @Kept
    def origin(self) -> date:
        """The day that years are counted from: that of the first plug."""
        return min(each.days[0].date for each in self.spots)

    @Kept
    def series(self) -> tuple[Series, ...]:
        """Each spot's thatch over the years since the first plug of all."""
        return tuple(
            Series(
                tuple(years_since(self.origin, day.date) for day in each.days),
                tuple(day.value_in for day in each.days),
                each.resolution_in,
            )
            for each in self.spots
        )


def compared_of(plugs: Sequence[SpotPlugs]) -> Compared:
    """The plugs of some spots that are compared: the unpressed, or all pressed without those."""
    pressed = not any(each.unpressed for each in plugs)
    days = [each.pressed if pressed else each.unpressed for each in plugs]
    kept = tuple(each for each in days if each is not None)
    left_out = 0 if pressed else sum(len(e.pressed.cores) for e in plugs if e.pressed is not None)
    return Compared(kept, pressed and bool(kept), left_out)


def compared_plugs(plugs: Iterable[tuple[Spot, Sequence[Core]]]) -> Compared:
    """The plugs of some spots that are compared; each spot's plugs are given in date order."""
    return compared_of([SpotPlugs(spot, tuple(cores)) for spot, cores in plugs])


def by_days(compared: Compared) -> tuple[tuple[PlugRead, ...], ...]:
    """The readings of each plug, by spot and day: plugs of one day differ by their error alone."""
    return tuple(day for each in compared.spots for day in each.reads)


def resolution_in(cores: Sequence[Core]) -> tuple[float, bool]:
    """The rulers' finest mark as it counts on average, and whether any of them is assumed.

    The root of the mean square, since rounding adds to the variance by the square of the mark.
    """
    marks = [core.resolution_in or ASSUMED_RESOLUTION_IN for core in cores]
    mean = math.fsum(mark * mark for mark in marks) / len(marks) if marks else 0.0
    assumed = any(core.resolution_in is None for core in cores)
    return (math.sqrt(mean) if marks else ASSUMED_RESOLUTION_IN), assumed


def years_since(origin: date, on: date) -> float:
    """Years from one day to another."""
    return (on - origin).days / DAYS_PER_YEAR


def day_at(origin: date, years: float) -> date:
    """The day so many years after another. OverflowError beyond the calendar."""
    return origin + timedelta(days=round(years * DAYS_PER_YEAR))
