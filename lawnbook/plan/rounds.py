"""Rounds of plugging: the plugs of several spots of one spring or autumn, as one mean column."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import fsum, sqrt
from operator import attrgetter

from lawnbook.plan.plug_model import MeanColumn
from lawnbook.yard.records import Core

ROUND_GAP_DAYS = 10
"""Plugs further apart than this are of two rounds (our choice)."""


_ROUND_GAP = timedelta(days=ROUND_GAP_DAYS)


def mean_columns(
    cores_by_spot: Mapping[str, Sequence[Core]], of_spots: int
) -> tuple[MeanColumn, ...]:
    """The mean column of each round, in date order.

    The plugs of one spot count as one, however many it has. Pressed thatch counts only where no
    unpressed plug was read anywhere, as in the trend. `of_spots` is how many spots there are.
    """
    cores = [core for each in cores_by_spot.values() for core in each]
    pressed = not any(core.thatch_in and not core.pressed for core in cores)
    return tuple(_column(each, of_spots, pressed=pressed) for each in rounds_of(cores))


def rounds_of(cores: Iterable[Core]) -> tuple[tuple[Core, ...], ...]:
    """Plugs parted into rounds, in date order.

    The next round begins after a gap of more than `ROUND_GAP_DAYS`, and where a spot comes again
    on another day: else plugs pulled every week would be one round without end.
    """
    rounds: list[_Round] = []
    for core in sorted(cores, key=attrgetter("date", "rank")):
        if not rounds or not rounds[-1].takes(core):
            rounds.append(_Round([], {}))
        rounds[-1].add(core)
    return tuple(tuple(each.cores) for each in rounds)


@dataclass(slots=True)
class _Round:
    """A round while it is gathered: its plugs, and the day on which each spot was plugged."""

    cores: list[Core]
    days: dict[str, date]

    def takes(self, core: Core) -> bool:
        near = core.date - self.cores[-1].date <= _ROUND_GAP
        return near and self.days.get(core.spot, core.date) == core.date

    def add(self, core: Core) -> None:
        self.cores.append(core)
        self.days[core.spot] = core.date


def _column(cores: Sequence[Core], of_spots: int, *, pressed: bool) -> MeanColumn:
    by_spot: dict[str, list[Core]] = {}
    for core in cores:
        by_spot.setdefault(core.spot, []).append(core)
    plugs = tuple(by_spot.values())
    thatch = [
        fsum(readings) / len(readings)
        for each in plugs
        if (readings := [x for c in each if c.pressed == pressed for x in c.thatch_in])
    ]
    return MeanColumn(
        core_ids=tuple(core.id for core in cores),
        date=cores[len(cores) // 2].date,
        spots=len(plugs),
        of_spots=of_spots,
        thatch_in=fsum(thatch) / len(thatch) if thatch else None,
        spread_in=_spread(thatch),
        root_depth_in=_mean([[core.root_depth_in for core in each] for each in plugs]),
        sponge=_mean([[core.sponge for core in each] for each in plugs]),
        soil_in_thatch=_mean([[core.soil_in_thatch for core in each] for each in plugs]),
        worms=_mean([[core.worms for core in each] for each in plugs]),
    )


def _mean(values_of_spots: Iterable[Iterable[float | None]]) -> float | None:
    """The mean over the spots of each spot's mean; None where nothing was told."""
    told = [[value for value in each if value is not None] for each in values_of_spots]
    # Most spots have one plug in a round, whose figure is its mean.
    means = [each[0] if len(each) == 1 else fsum(each) / len(each) for each in told if each]
    return fsum(means) / len(means) if means else None


def _spread(values: Sequence[float]) -> float | None:
    """The standard deviation of a sample; None of a single value.

    About the first value, from which alike ones differ by exactly nothing.
    """
    count = len(values)
    if count < 2:
        return None
    apart = [value - values[0] for value in values]
    mean = fsum(apart) / count
    return sqrt(fsum([(each - mean) ** 2 for each in apart]) / (count - 1))
