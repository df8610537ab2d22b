"""Pieces of evidence and cares, invented for the tests of the trend's picture."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from lawnbook.plan.plug_model import (
    CareMark,
    Evidence,
    MeanColumn,
    PlaceKind,
    PlugColumn,
    PlugError,
    SpotThatch,
    TrendPoint,
    ZoneThatch,
)
from tests.plan_fixture import plug, spot_of

ERROR = PlugError(
    readings_in=0.05, plugs_in=0.06, ruler_in=0.02, readings=3, replicates=2, plug_in=0.08
)
KINDS = ("aeration", "topdressing", "dethatching", "feeding level", "overseeding")


def points_of(spot_id: str, columns: Sequence[PlugColumn]) -> tuple[TrendPoint, ...]:
    """A point for each plug that was read."""
    return tuple(
        TrendPoint(spot_id=spot_id, date=each.date, thatch_in=each.thatch_in, plugs=1)
        for each in columns
        if each.thatch_in is not None
    )


def evidence_of(kind: PlaceKind, points: Sequence[TrendPoint], place_id: str = "spot0") -> Evidence:
    """Evidence with the line through the first and last point, and a band from five points on."""
    ordered = sorted(points, key=lambda point: point.date)
    line: tuple[tuple[date, float], ...] = ()
    band: tuple[tuple[date, float, float], ...] = ()
    if len(ordered) >= 3:
        ends = (ordered[0], ordered[-1])
        line = tuple((each.date, each.thatch_in) for each in ends)
        if len(ordered) >= 5:
            days = (ends[1].date - ends[0].date).days
            for turn in range(9):
                share = turn / 8
                value = ends[0].thatch_in + (ends[1].thatch_in - ends[0].thatch_in) * share
                half = 0.08 + 0.3 * (share - 0.5) ** 2
                on = ends[0].date + timedelta(round(days * share))
                band = (*band, (on, value - half, value + half))
    return Evidence(
        kind=kind,
        place="gate" if kind == "spot" else "Lawn 1",
        place_id=place_id,
        spots=len({point.spot_id for point in points}),
        plugs=len(points),
        points=tuple(ordered),
        slope_in_per_year=-0.08 if line else None,
        ci95=(-0.12, -0.04) if band else None,
        how="",
        reason="" if band else "No interval below five plugs: pull one in autumn and in spring.",
        verdict="",
        line=line,
        band=band,
        half_inch=None,
        half_inch_words="",
        error=ERROR if kind == "spot" and len(points) > 1 else None,
        plugs_a_date=1,
        detectable_in=None,
        more_for_tenth=None,
        season=None,
        notes=(),
        workings=(),
    )


def spot_with(number: int, count: int, start_in: float = 1.2) -> SpotThatch:
    """A spot with so many plugs, spring and autumn from 2021 on, and its evidence."""
    columns = [
        plug(
            100 * number + turn,
            date(2021 + turn // 2, 5 if turn % 2 == 0 else 9, 3 + number),
            max(0.1, start_in - 0.06 * turn + (0.05 if (turn * 7 + number) % 3 else -0.04)),
            root_depth_in=2.0 + 0.2 * turn,
        )
        for turn in range(count)
    ]
    spot_id = f"spot{number}"
    evidence = evidence_of("spot", points_of(spot_id, columns), spot_id)
    return replace(spot_of(columns, f"peg {number}"), spot_id=spot_id, line=None, evidence=evidence)


def cares(count: int, every_days: int = 70) -> tuple[CareMark, ...]:
    """So many cares from March 2021 on."""
    return tuple(
        CareMark(
            care_id=f"care{number}",
            date=date(2021, 3, 10) + timedelta(every_days * number),
            kind=KINDS[number % len(KINDS)],
            where="Lawn 1",
            note="" if number % 3 else "two passes",
        )
        for number in range(count)
    )


def means(count: int) -> tuple[MeanColumn, ...]:
    """So many rounds of three to four spots of four."""
    return tuple(
        MeanColumn(
            core_ids=tuple(f"core{number}-{spot}" for spot in range(3 + number % 2)),
            date=date(2021 + number // 2, 5 if number % 2 == 0 else 9, 3),
            spots=3 + number % 2,
            of_spots=4,
            thatch_in=max(0.2, 1.1 - 0.07 * number),
            spread_in=0.12,
            root_depth_in=2.5 + 0.2 * number,
            sponge=2.3,
            soil_in_thatch=1.0 + 0.2 * (number % 5),
            worms=0.7 + number % 3,
        )
        for number in range(count)
    )


def zone_with(columns: Sequence[MeanColumn], evidence: Evidence) -> ZoneThatch:
    """A zone with these rounds."""
    return ZoneThatch(zone="Lawn 1", zone_id="zone0", columns=tuple(columns), evidence=evidence)
