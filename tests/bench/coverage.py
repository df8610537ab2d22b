"""How often the intervals of plug statistics hold the truth, in simulated yards, as a table.

    python -m tests.bench.coverage [YARDS]

Every yard is drawn anew: how fast it thins, how far its spots differ, the noise of plugs and of
readings, the ruler and its rounding, replicates, spots begun late, dates missed and moved. Steady
yards are drawn beside them, whose plugs scatter by half a mark or less: rounding hides it. An
interval that claims 95 % must hold the truth in 93 % of the yards that got one (`AIM`), at every
number of plugs; a crossing is judged among the yards that were told one, and once more among those
that are shown it: where the latest plugs have half an inch before them and the days still run.
"""

import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.slope_change import slope_change, slope_difference
from lawnbook.agronomy.spots_trend import (
    Series,
    crossing_years,
    mean_band,
    mean_trend,
    season_difference,
)

AIM = 0.93
START = 2018.2
HALF_INCH = 0.5
RULERS_IN = (1 / 16, 1 / 32, 1 / 25.4)
SLACK = 1e-9
SEED = 20261128
ROUNDS = (2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16)
"""Times that a yard is plugged, twice a year: up to eight years."""

PLUG_BINS = (5, 6, 7, 8, 9, 10, 11, 13, 16, 21, 31, 51, 1000)


@dataclass(frozen=True, slots=True)
class Truth:
    """What a yard was drawn from: the mean line, and each spot's own level at START and slope."""

    level: float
    slope: float
    levels: Array
    slopes: Array

    def line(self, used: Sequence[bool]) -> tuple[float, float]:
        """Level and slope that the mean trend of the spots used stands for.

        Of one or two spots their own, of more that of the yard they were drawn from.
        """
        if sum(used) > 2:
            return self.level, self.slope
        kept = np.array(used)
        return float(self.levels[kept].mean()), float(self.slopes[kept].mean())


@dataclass(frozen=True, slots=True)
class Habits:
    """How the plugs of a yard are read."""

    plug_sd: float
    readings: int
    ruler_in: float
    reading_sd: float = 0.03

    def read(self, rng: np.random.Generator, thatch_in: float) -> float:
        """A day's mean: now and then of two plugs, each reading rounded to the ruler."""
        plugs = 2 if rng.random() < 0.15 else 1
        held = thatch_in + rng.normal(0.0, self.plug_sd, (plugs, 1))
        read = held + rng.normal(0.0, self.reading_sd, (plugs, self.readings))
        return float((np.round(read / self.ruler_in) * self.ruler_in).mean())


@dataclass(frozen=True, slots=True)
class Yard:
    """Drawn spots: true lines, dates, and the habits they are read by."""

    truth: Truth
    years: tuple[Array, ...]
    habits: Habits

    def plugged(
        self, rng: np.random.Generator, added: Sequence[Array] | None = None
    ) -> list[Series]:
        """Series read off the true lines, with `added` inches on top."""
        found = []
        for spot, years in enumerate(self.years):
            line = self.truth.levels[spot] + self.truth.slopes[spot] * (years - START)
            line = line if added is None else line + added[spot]
            values = [self.habits.read(rng, float(thatch)) for thatch in line]
            found.append(Series(tuple(years.tolist()), tuple(values), self.habits.ruler_in))
        return found


def draw_yard(rng: np.random.Generator, spots: int, rounds: int, *, steady: bool = False) -> Yard:
    """A yard of `spots` spots plugged up to `rounds` times; a single spot exactly so often.

    A `steady` one hardly scatters and is read once a plug, so that rounding may hide all noise.
    """
    mean_level, mean_slope = rng.uniform(0.9, 1.6), rng.uniform(-0.4, 0.1)
    slopes = rng.normal(mean_slope, rng.uniform(0.0, 0.08), spots)
    levels = rng.normal(mean_level, rng.uniform(0.0, 0.25), spots)
    habits = Habits(rng.uniform(0.04, 0.12), int(rng.choice((1, 3))), float(rng.choice(RULERS_IN)))
    if steady:
        habits = Habits(rng.uniform(0.0, 0.5) * habits.ruler_in, 1, habits.ruler_in, 0.0)
    visits = START + 0.5 * np.arange(rounds + (4 if spots == 1 else 0))
    visits = visits + rng.uniform(-0.06, 0.06, visits.size)
    years = tuple(_dates(rng, visits, spots, rounds) for _ in range(spots))
    return Yard(Truth(mean_level, mean_slope, levels, slopes), years, habits)


def _dates(rng: np.random.Generator, visits: Array, spots: int, rounds: int) -> Array:
    if spots == 1:
        return np.sort(rng.choice(visits, rounds, replace=False))
    late = int(rng.integers(0, rounds // 2 + 1)) if rng.random() < 0.3 else 0
    return np.array([year for year in visits[late:] if rng.random() < 0.9])


@dataclass(frozen=True, slots=True)
class Check:
    """One interval of one yard: which, of how many spots and plugs, and whether it held."""

    what: str
    spots: str
    plugs: int
    held: bool
    width: float


def checks_of(seed: int, spots: int, rounds: int, *, steady: bool = False) -> Iterator[Check]:
    """Every interval that one drawn yard is given."""
    rng = np.random.default_rng((SEED, seed, spots, rounds))
    yard = draw_yard(rng, spots, rounds, steady=steady)
    yield from _trend_checks(rng, yard)
    yield from _season_checks(rng, yard)
    yield from _change_checks(rng, yard)
    yield from _strip_checks(rng, yard, rounds)


def used_of(series: Sequence[Series]) -> list[bool]:
    """Which spots have a slope of their own."""
    return [each.dates() > 1 for each in series]


def _check(
    what: str, spots: object, plugs: int, interval: tuple[float, float] | None, truth: float
) -> Iterator[Check]:
    if interval is not None:
        low, high = interval
        held = low - SLACK <= truth <= high + SLACK
        yield Check(what, str(spots), plugs, held, high - low)


def _trend_checks(rng: np.random.Generator, yard: Yard) -> Iterator[Check]:
    series = yard.plugged(rng)
    trend = mean_trend(series)
    if trend is None:
        return
    level, slope = yard.truth.line(used_of(series))
    yield from _check("slope", trend.spots, trend.plugs, trend.ci95, slope)
    last = max(each.years[-1] for each in series if each.years)
    for what, year in (("first", START), ("middle", (START + last) / 2), ("year on", last + 1)):
        band = mean_band(series, [year])
        at = band[0] if band else None
        truth = level + slope * (year - START)
        yield from _check(f"band, {what}", trend.spots, trend.plugs, at, truth)
    crossing = crossing_years(series, HALF_INCH)
    met = START + (HALF_INCH - level) / slope
    yield from _check("half inch", trend.spots, trend.plugs, crossing, met)
    latest = float(np.mean([each.values[-1] for each in series if each.years]))
    if crossing is not None and crossing[1] >= last and (latest - HALF_INCH) * trend.slope < 0:
        yield from _check("half inch ahead", trend.spots, trend.plugs, crossing, met)


def _season_checks(rng: np.random.Generator, yard: Yard) -> Iterator[Check]:
    step = rng.uniform(-0.1, 0.1)
    spring = [np.round((years - START) * 2) % 2 == 0 for years in yard.years]
    series = yard.plugged(rng, [step * each for each in spring])
    fit = season_difference(series, [each.tolist() for each in spring])
    used = [len(each.years) for each in series if len(each.years) > 2]
    if fit is not None:
        yield from _check("season", len(used), sum(used), fit.ci95, step)


def _change_checks(rng: np.random.Generator, yard: Yard) -> Iterator[Check]:
    """A turn at a day in the middle, a little different at each spot, with a jump of its own."""
    split = float(np.median(np.concatenate(yard.years))) + 0.2
    mean_turn, jump = rng.uniform(-0.3, 0.1), rng.uniform(-0.2, 0.0)
    turns = rng.normal(mean_turn, rng.uniform(0.0, 0.05), len(yard.years))
    after = [years >= split for years in yard.years]
    added = [
        (jump + turn * (years - split)) * late
        for turn, years, late in zip(turns, yard.years, after, strict=True)
    ]
    fit = slope_change(yard.plugged(rng, added), split)
    if fit is None:
        return
    told = [min((~late).sum(), late.sum()) > 1 for late in after]
    spots, fewest = sum(told), min(fit.plugs_before, fit.plugs_after)
    turn = mean_turn if spots > 2 else float(turns[told].mean())
    slope = yard.truth.slope if spots > 2 else float(yard.truth.slopes[told].mean())
    yield from _check("before", spots, fewest, fit.before.ci95, slope)
    yield from _check("after", spots, fewest, fit.after.ci95, slope + turn)
    yield from _check("turn", spots, fewest, fit.difference.ci95, turn)


def _strip_checks(rng: np.random.Generator, yard: Yard, rounds: int) -> Iterator[Check]:
    """The yard against a strip of one spot, now and then of two."""
    strip = draw_yard(rng, 2 if rng.random() < 0.2 else 1, max(rounds, 5))
    strip = Yard(strip.truth, strip.years, yard.habits)
    series, other = yard.plugged(rng), strip.plugged(rng)
    fit = slope_difference(series, other)
    trend = mean_trend(series)
    if fit is None or trend is None:
        return
    true = yard.truth.line(used_of(series))[1] - strip.truth.line(used_of(other))[1]
    yield from _check("strip", trend.spots, trend.plugs, fit.difference.ci95, true)


def cell(yards: int, shape: tuple[int, int], *, steady: bool = False) -> list[Check]:
    """All checks of `yards` yards of a shape, (spots, rounds); a steady yard's named so."""
    found = [check for seed in range(yards) for check in checks_of(seed, *shape, steady=steady)]
    return [replace(check, what=f"steady {check.what}") for check in found] if steady else found


def shapes() -> list[tuple[int, int]]:
    """All (spots, rounds) that may come to five plugs."""
    return [(spots, rounds) for spots in range(1, 7) for rounds in ROUNDS if spots * rounds >= 5]


def binned(plugs: int) -> str:
    """The plugs of a row of the table, as from–to."""
    at = max(index for index, first in enumerate(PLUG_BINS) if plugs >= first)
    first, after = PLUG_BINS[at], PLUG_BINS[at + 1]
    return str(first) if after == first + 1 else f"{first}–{after - 1}" if after < 999 else "51+"


def table(checks: Sequence[Check]) -> dict[tuple[str, str, str], list[Check]]:
    """Checks by interval, spots and plugs."""
    rows: dict[tuple[str, str, str], list[Check]] = defaultdict(list)
    for check in checks:
        rows[check.what, check.spots, binned(check.plugs)].append(check)
    return rows


def main() -> None:
    """Print the table."""
    yards = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    with ProcessPoolExecutor() as pool:
        found = [
            each
            for steady in (False, True)
            for part in pool.map(partial(cell, yards, steady=steady), shapes())
            for each in part
        ]
    print(f"{'interval':20}{'spots':>6}{'plugs':>9}{'given':>9}{'cover':>8}{'width':>9}")
    rows = table(sorted(found, key=lambda each: (each.what, each.spots, each.plugs)))
    for (what, spots, plugs), checks in rows.items():
        cover = float(np.mean([each.held for each in checks]))
        width = float(np.median([each.width for each in checks]))
        short = "  short" if cover < AIM else ""
        print(f"{what:20}{spots:>6}{plugs:>9}{len(checks):9}{cover:8.3f}{width:9.3f}{short}")


if __name__ == "__main__":
    main()
