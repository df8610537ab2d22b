"""The root zone through the season: what is used up, rain and waterings, the lines, and today.

The picture is a tank seen from the side. Its top is field capacity ("full"), its foot all that
the roots can reach; the blue is what is left. Rain and waterings hang from a band above it.
"""

from datetime import date, timedelta
from itertools import groupby

import numpy as np

from lawnbook.charts.ledger_days import (
    DRAIN_PT,
    LEFT_PT,
    NEAR_IN,
    LedgerDays,
    last_day,
    short_days,
    shown_days,
)
from lawnbook.charts.marks import (
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Ring,
    Spot,
    Words,
    diagonals,
    rectangle,
    rough_width,
)
from lawnbook.charts.scales import tick_told
from lawnbook.plan.water_model import Array, ZoneLedger
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import bare, shown, stored, told, unit_shown
from lawnbook.yard.numbers import MONTHS, short_day

_LABEL_PT = 11.0
_MOST_HALF_PT = 5.0
_BAND_STEPS_IN = (2.0, 1.0, 0.5, 0.25)
_BAND_STEPS_MM = (50.0, 20.0, 10.0, 5.0)
"""What the band of rain and waterings may be marked at, the largest first."""


def ledger_marks(ledger: ZoneLedger, frame: Frame, next_watering: date | None = None) -> Picture:
    """A zone's root zone day by day up to the day of the plan, and dashed to the next watering."""
    season = shown_days(ledger, frame, next_watering)
    marks: list[Mark] = [
        *_heads(season),
        *_tank(season),
        *_arrivals(season),
        *_drained(season),
        *_lines(season),
        *_curve(season),
        *_months(season),
        *_today(season),
        *_next(season, next_watering),
    ]
    return Picture(frame, tuple(marks))


def _heads(season: LedgerDays) -> list[Mark]:
    ledger = season.ledger
    used, capacity = float(ledger.depletion_in[-1]), float(ledger.capacity_in[-1])
    now = tr(
        "{used} of {capacity} used up",
        used=bare(used, 2, "in"),
        capacity=told(capacity, 2, "in"),
    )
    head = tr("Water within reach of the roots, {unit}", unit=unit_shown("in"))
    marks: list[Mark] = [
        Words(at=(2, 12), text=head, role="quiet"),
        Words(at=(season.frame.width - 4, 12), text=now, face="medium", align="right"),
    ]
    names = [tr("rain"), tr("not counted"), *([tr("watering")] if season.is_watered else [])]
    names += [tr("short of water")] if short_days(ledger)[-season.past :].any() else []
    names += [tr("ETo filled in")] if "filled" in ledger.eto_from[-season.past :] else []
    x = 2.0
    for name in names:
        marks += [*_swatch(name, x, 20.0), Words(at=(x + 14, 29), text=name, role="quiet")]
        x += 14 + rough_width(name, 9.0) + 10
    return marks


def _swatch(name: str, x: float, y: float) -> list[Mark]:
    box = rectangle(x, y + 1, x + 10, y + 9)
    if name == tr("watering"):
        return [Polygon(rings=(_drop((x + 5, y), 9.0),), fill="accent")]
    if name == tr("short of water"):
        hatching = diagonals(x, y + 1, x + 10, y + 9, 3.0)
        return [
            Polygon(rings=(box,), fill="bad", alpha=0.35),
            Polyline(lines=hatching, role="bad", width=0.8),
        ]
    if name == tr("ETo filled in"):
        return [Polyline(lines=(((x, y + 6), (x + 10, y + 6)),), role="quiet", width=2.4)]
    return [Polygon(rings=(box,), fill="water", alpha=1.0 if name == tr("rain") else 0.35)]


def _drop(at: Spot, height: float) -> Ring:
    """A drop whose tip is at `at`: a circle below a pointed top."""
    radius = height * 0.36
    middle = at[1] + height - radius
    round_part = [
        (at[0] + radius * np.cos(turn), middle + radius * np.sin(turn))
        for turn in np.linspace(-0.55, np.pi + 0.55, 13)
    ]
    return (at, *((float(x), float(y)) for x, y in round_part))


def _tank(season: LedgerDays) -> list[Mark]:
    """What is left in blue, what is used up as dry ground, what is beyond the line hatched."""
    ledger = season.ledger
    past_end = season.x(season.past)
    curve = _past_curve(season)
    foot = [(x, y) for x, y in season.line(ledger.capacity_in) if x <= past_end + 1e-6]
    full = [(past_end, season.full), (season.x(0), season.full)]
    marks: list[Mark] = [
        Polygon(rings=((*curve, *reversed(foot)),), fill="water", alpha=0.20),
        Polygon(rings=((*curve, *full),), fill="soil", alpha=0.16),
    ]
    if short_days(ledger)[-season.past :].any():
        line = [(x, y) for x, y in season.line(ledger.stress_from_in) if x <= past_end + 1e-6]
        beyond = [(x, max(y, line[k][1])) for k, (x, y) in enumerate(curve)]
        marks.append(
            Polygon(rings=((*line[: len(curve)], *reversed(beyond)),), fill="bad", alpha=0.35)
        )
        marks += _hatching(season)
    return marks


def _hatching(season: LedgerDays) -> list[Mark]:
    """Upright strokes in the days that are short, so that they show without colour."""
    ledger, strokes = season.ledger, []
    short = short_days(ledger)[-season.past :]
    used, line = season.shown(ledger.depletion_in), season.shown(ledger.stress_from_in)
    for place in np.flatnonzero(short):
        x = season.x(int(place) + 1)
        strokes.append(((x, season.y(float(line[place]))), (x, season.y(float(used[place])))))
    return [Polyline(lines=tuple(strokes), role="bad", width=0.9)]


def _past_curve(season: LedgerDays) -> list[Spot]:
    values = season.shown(season.ledger.depletion_in)
    before = season.ledger.depletion_in.size - season.past - 1
    start = float(season.ledger.depletion_in[before]) if before >= 0 else 0.0
    ends = [(season.x(k + 1), season.y(float(v))) for k, v in enumerate(values)]
    return [(season.x(0), season.y(start)), *ends]


def _curve(season: LedgerDays) -> list[Mark]:
    curve = _past_curve(season)
    marks: list[Mark] = [Polyline(lines=(tuple(curve),), role="ink", width=1.3)]
    if season.ahead.size:
        coming = [
            (season.x(season.past + k + 1), season.y(min(float(v), season.deepest_in)))
            for k, v in enumerate(season.ahead)
        ]
        ring = (curve[-1], *coming)
        marks.append(Polyline(lines=(ring,), role="ink", width=1.3, dash=(3.0, 2.2)))
    return marks


def _arrivals(season: LedgerDays) -> list[Mark]:
    """Waterings and rain, hanging from the top of the band; what did not count is pale."""
    ledger, top = season.ledger, season.band[0]
    rain, water = season.shown(ledger.rain_in), season.shown(ledger.irrigation_in)
    lost = season.shown(ledger.ignored_in + ledger.runoff_in)
    kept = np.maximum(0.0, rain - lost)
    marks: list[Mark] = [
        *_band_scale(season),
        *_bars(season, 0 * water, water, ("accent", 1.0)),
        *_bars(season, water, kept, ("water", 1.0)),
        *_bars(season, water + kept, lost, ("water", 0.35)),
    ]
    put = np.flatnonzero(water > 0)
    if put.size:
        ends = ((season.x(int(k) + 0.5), top + season.drop(float(water[k]))) for k in put)
        drops = tuple(_drop((x, min(y, season.band[1]) - 4), 8.0) for x, y in ends)
        marks.append(Polygon(rings=drops, fill="accent"))
    return marks


def _bars(season: LedgerDays, above: Array, depth: Array, look: tuple[str, float]) -> list[Mark]:
    """The bars of one kind: each begins below what hangs there already (`above`, in)."""
    half, top = _half(season), season.band[0]
    rings = tuple(
        rectangle(
            season.x(int(k) + 0.5) - half,
            top + season.drop(float(above[k])),
            season.x(int(k) + 0.5) + half,
            top + season.drop(float(above[k] + depth[k])),
        )
        for k in np.flatnonzero(depth > 0)
    )
    role, alpha = look
    return [Polygon(rings=rings, fill=role, alpha=alpha)] if rings else []


def _half(season: LedgerDays) -> float:
    """Half the width of a day's bar."""
    return min(_MOST_HALF_PT, max(0.6, (season.x(1) - season.x(0)) * 0.36))


def _band_scale(season: LedgerDays) -> list[Mark]:
    top, _ = season.band
    most = 0.8 * shown(season.most_in, "in")
    *larger, least = _BAND_STEPS_MM if is_metric() else _BAND_STEPS_IN
    step = next((each for each in larger if each <= most), least)
    y = top + season.drop(stored(step, "in"))
    ends = (season.x(0), season.right)
    name = f"{tick_told(step)} {unit_shown('in')}"
    return [
        Polyline(lines=(((ends[0], top), (ends[1], top)),), role="quiet", width=0.6),
        Polyline(lines=(((ends[0], y), (ends[1], y)),), role="rule", width=0.6),
        Words(at=(LEFT_PT - 5, y + 3.2), text=name, role="quiet", align="right"),
    ]


def _drained(season: LedgerDays) -> list[Mark]:
    """What drained past the roots, as bars below the tank in the band's scale."""
    drained = season.shown(season.ledger.drained_in)
    half = _half(season)
    rings = tuple(
        rectangle(
            season.x(int(place) + 0.5) - half,
            season.foot,
            season.x(int(place) + 0.5) + half,
            season.foot + min(DRAIN_PT - 1, max(1.0, season.drop(float(drained[place])))),
        )
        for place in np.flatnonzero(drained > NEAR_IN)
    )
    if not rings:
        return []
    return [Polygon(rings=rings, fill="water", alpha=0.55)]


def _lines(season: LedgerDays) -> list[Mark]:
    """Full, the owner's line, the line where the grass runs short, all used up; each named."""
    ledger = season.ledger
    marks: list[Mark] = [
        Polyline(lines=(((season.x(0), season.full), (season.right, season.full)),), role="quiet"),
        Polyline(lines=(season.line(ledger.capacity_in),), role="quiet", width=0.9),
        Words(at=(LEFT_PT - 5, season.full + 3.2), text="0", role="quiet", align="right"),
    ]
    apart = season.shown(ledger.allowance_in - ledger.stress_from_in)
    one = season.is_watered and bool(np.all(np.abs(apart) < NEAR_IN))
    names = [
        ("full", season.full, "quiet"),
        (tr("all used up"), season.y(float(ledger.capacity_in[-1])), "quiet"),
    ]
    if season.is_watered:
        marks.append(Polyline(lines=(season.line(ledger.allowance_in),), role="accent", width=1.2))
        names.append((tr("water again"), season.y(float(ledger.allowance_in[-1])), "accent"))
    if (season.shown(ledger.drained_in) > NEAR_IN).any():
        names.append((tr("drained past"), season.foot + DRAIN_PT - 4, "water"))
    if not one:
        line = season.line(ledger.stress_from_in)
        marks.append(Polyline(lines=(line,), role="bad", width=1.2, dash=(4.0, 2.5)))
        names.append((tr("grass runs short"), season.y(float(ledger.stress_from_in[-1])), "bad"))
    marks += _figures(season)
    return [*marks, *_named(season, names)]


def _figures(season: LedgerDays) -> list[Mark]:
    """The scale at the left: the line that matters and the foot."""
    ledger = season.ledger
    line = ledger.allowance_in if season.is_watered else ledger.stress_from_in
    marks: list[Mark] = []
    taken = season.full
    for value in sorted({round(float(s[-1]), 2) for s in (line, ledger.capacity_in)}):
        y = season.y(value)
        if y - taken >= _LABEL_PT:
            text = bare(value, 2, "in")
            marks.append(Words(at=(LEFT_PT - 5, y + 3.2), text=text, role="quiet", align="right"))
            taken = y
    return marks


def _named(season: LedgerDays, names: list[tuple[str, float, str]]) -> list[Mark]:
    """Names at the right end of their lines, pushed down where two would touch."""
    marks: list[Mark] = []
    lowest = -1e9
    for text, y, role in sorted(names, key=lambda each: each[1]):
        place = max(y, lowest + _LABEL_PT)
        marks.append(Words(at=(season.right + 5, place + 3.2), text=text, role=role))
        lowest = place
    return marks


def _months(season: LedgerDays) -> list[Mark]:
    """The months along the foot, and the days whose ETo was filled in as a mark on the axis."""
    y = season.frame.height - 4
    total = season.past + season.ahead.size
    days = [season.first + timedelta(days=k) for k in range(total)]
    starts = [k for k, each in enumerate(days) if each.day == 1 or k == 0]
    ticks, names = [], []
    today = season.x(season.past)
    for number, place in enumerate(starts):
        end = starts[number + 1] if number + 1 < len(starts) else total
        x = season.x(place)
        ticks.append(((x, season.foot), (x, season.foot + DRAIN_PT + 3)))
        clear = abs(x + 14 - today) > 34
        if season.x(end) - x >= 26 and clear:
            names.append(Words(at=(x + 3, y), text=tr(MONTHS[days[place].month - 1]), role="quiet"))
    marks: list[Mark] = [Polyline(lines=tuple(ticks), role="rule", width=0.7), *names]
    return [*marks, *_filled(season)]


def _filled(season: LedgerDays) -> list[Mark]:
    lines = []
    place = 0
    for method, days in groupby(season.ledger.eto_from[-season.past :]):
        length = len(list(days))
        if method == "filled":
            y = season.foot + DRAIN_PT + 1
            lines.append(((season.x(place), y), (season.x(place + length), y)))
        place += length
    return [Polyline(lines=tuple(lines), role="quiet", width=2.4, alpha=0.7)] if lines else []


def _today(season: LedgerDays) -> list[Mark]:
    x = season.x(season.past)
    line = ((x, season.band[0]), (x, season.frame.height - 14))
    return [
        Polyline(lines=(line,), role="ink", width=0.9),
        Words(
            at=(min(x, season.right - 4), season.frame.height - 4),
            text=tr("today"),
            face="semibold",
            align="center",
            halo="paper",
        ),
    ]


def _next(season: LedgerDays, next_watering: date | None) -> list[Mark]:
    """The next watering as a drop yet to fall, with its day beside the band."""
    if next_watering is None:
        return []
    top, _ = season.band
    ahead = (next_watering - season.first).days
    is_due = next_watering <= last_day(season.ledger)
    marks: list[Mark] = [
        Words(
            at=(season.right + 5, top + 9),
            text=tr("due today")
            if is_due
            else tr("next {next_watering}", next_watering=short_day(next_watering)),
            role="accent",
            face="medium",
        )
    ]
    if ahead <= season.past + season.ahead.size:
        ring = _drop((min(season.x(ahead + 0.5), season.right), top), 9.0)
        marks.append(Polygon(rings=(ring,), edge="accent", width=1.1))
    return marks
