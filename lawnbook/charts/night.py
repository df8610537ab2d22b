"""A night's program as a strip: which zone runs when, cycles and soaks, and the sunrise."""

import math
from datetime import datetime, timedelta
from itertools import pairwise

from lawnbook.charts.marks import (
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Spot,
    Words,
    rectangle,
    rough_width,
    shortened,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.water_model import ProgramRun, TimerStart
from lawnbook.reading import tr

LANE_PT = 16.0
MOST_LANES = 12
"""With more zones in one night all but the shown one share a lane."""

_LEFT_PT, _RIGHT_PT, _TOP_PT, _FOOT_PT = 96.0, 12.0, 18.0, 16.0
_PAD = timedelta(minutes=12)
_HOUR_ROOM_PT = 34.0

Lane = tuple[str, tuple[TimerStart, ...], bool]
"""A lane's name, its starts, and whether it is the zone that is shown."""


@dataclass(frozen=True, slots=True)
class _Night:
    """From a little before the first valve opens to a little after sunrise, in points."""

    frame: Frame
    begins: datetime
    ends: datetime

    def x(self, moment: datetime) -> float:
        """Where a moment stands."""
        share = (moment - self.begins) / (self.ends - self.begins)
        return _LEFT_PT + (self.frame.width - _LEFT_PT - _RIGHT_PT) * share


def night_height_pt(run: ProgramRun, zone_id: str) -> float:
    """How tall the strip of a night is."""
    return _TOP_PT + LANE_PT * len(lanes(run, zone_id)) + _FOOT_PT


def lanes(run: ProgramRun, zone_id: str) -> tuple[Lane, ...]:
    """One lane a zone, in the order in which they first run."""
    by_zone: dict[str, list[TimerStart]] = {}
    for start in run.timer:
        by_zone.setdefault(start.zone_id, []).append(start)
    made = [
        (f"{starts[0].number} {starts[0].zone}", tuple(starts), zone == zone_id)
        for zone, starts in by_zone.items()
    ]
    if len(made) <= MOST_LANES:
        return tuple(made)
    shown = [lane for lane in made if lane[2]]
    others = [start for lane in made if not lane[2] for start in lane[1]]
    count = len(made) - len(shown)
    name = tr("{count} others", count=count) if shown else tr("{count} zones", count=count)
    return (*shown, (name, tuple(others), False))


def night_marks(run: ProgramRun, zone_id: str, frame: Frame) -> Picture:
    """The night of a program; the zone `zone_id` stands out. Empty where no clock time is known."""
    if run.starts is None or run.ends is None:
        return Picture(frame, ())
    last = max(run.ends, run.sunrise) if run.sunrise is not None else run.ends
    night = _Night(frame, min(run.starts, last) - _PAD, last + 2 * _PAD)
    rows = lanes(run, zone_id)
    floor = _TOP_PT + LANE_PT * len(rows)
    marks: list[Mark] = [*_dark(night, run, floor), *_hours(night, floor)]
    for row, lane in enumerate(rows):
        marks += _lane(night, lane, _TOP_PT + LANE_PT * row)
    marks += _sunrise(night, run, floor)
    return Picture(frame, tuple(marks))


def night_words(run: ProgramRun) -> str:
    """What the strip shows, in words: every start in its order."""
    starts = [
        tr(
            "{clock} {zone}, {minutes} min",
            clock=clock(each.starts),
            zone=each.zone,
            minutes=each.minutes,
        )
        for each in run.timer
        if each.starts is not None
    ]
    if not starts or run.ends is None:
        return ""
    sun = "" if run.sunrise is None else tr("; sunrise {clock}", clock=clock(run.sunrise))
    return tr(
        "{starts}; done {clock}{sun}.", starts="; ".join(starts), clock=clock(run.ends), sun=sun
    )


def clock(moment: datetime) -> str:
    """A time of day on the clock of 24 hours: "03:05"."""
    return f"{moment:%H:%M}"


def _dark(night: _Night, run: ProgramRun, floor: float) -> list[Mark]:
    """The hours before sunrise lie in shade."""
    end = night.x(run.sunrise) if run.sunrise is not None else night.frame.width - _RIGHT_PT
    box = rectangle(_LEFT_PT, _TOP_PT, max(end, _LEFT_PT), floor)
    return [Polygon(rings=(box,), fill="ink", alpha=0.07)]


def _hours(night: _Night, floor: float) -> list[Mark]:
    whole = timedelta(hours=1)
    first = night.begins.replace(minute=0, second=0, microsecond=0) + whole
    count = max(0, int((night.ends - first) / whole) + 1)
    spacing = night.x(first + whole) - night.x(first)
    every = next((n for n in (1, 2, 3, 6, 12) if n * spacing >= _HOUR_ROOM_PT), 24)
    marks: list[Mark] = []
    ticks = []
    for number in range(count):
        moment = first + number * whole
        if moment.hour % every:
            continue
        x = night.x(moment)
        ticks.append(((x, _TOP_PT), (x, floor + 3)))
        if x < night.frame.width - 14:
            text = clock(moment)
            marks.append(Words(at=(x, floor + 13), text=text, role="quiet", align="center"))
    return [Polyline(lines=tuple(ticks), role="rule", width=0.7), *marks]


def _lane(night: _Night, lane: Lane, top: float) -> list[Mark]:
    name, starts, is_shown = lane
    middle = top + LANE_PT / 2
    spans = [
        (night.x(each.starts), night.x(each.starts + timedelta(minutes=each.minutes)))
        for each in starts
        if each.starts is not None
    ]
    boxes = tuple(rectangle(a, top + 3, max(b, a + 1.2), top + LANE_PT - 3) for a, b in spans)
    told = shortened(name, lambda text: rough_width(text, 9.0) <= _LEFT_PT - 10)
    return [
        Words(
            at=(2, middle + 3.2),
            text=told,
            role="ink" if is_shown else "quiet",
            face="semibold" if is_shown else "regular",
        ),
        Polyline(lines=_soaks(spans, middle), role="water", width=1.0, dash=(1.5, 1.8)),
        Polygon(rings=boxes, fill="water", alpha=1.0 if is_shown else 0.45),
    ]


def _soaks(spans: list[tuple[float, float]], y: float) -> tuple[tuple[Spot, ...], ...]:
    return tuple(((end, y), (start, y)) for (_, end), (start, _) in pairwise(spans) if start > end)


def _sunrise(night: _Night, run: ProgramRun, floor: float) -> list[Mark]:
    """The line of sunrise with a sun half up on it, named above."""
    if run.sunrise is None:
        return []
    x = night.x(run.sunrise)
    told = tr("sunrise {clock}", clock=clock(run.sunrise))
    at = min(x, night.frame.width - 2 - rough_width(told, 9.0) / 2)
    return [
        Polyline(lines=(((x, _TOP_PT), (x, floor)),), role="warn", width=1.4),
        Polygon(rings=(_half_sun(x, floor),), fill="warn"),
        Words(at=(at, 11), text=told, role="warn", face="medium", align="center"),
    ]


def _half_sun(x: float, y: float) -> tuple[Spot, ...]:
    """The upper half of a disc that stands on the foot of the strip."""
    turns = (math.pi * k / 12 for k in range(13))
    return tuple((x + 5 * math.cos(turn), y - 5 * math.sin(turn)) for turn in turns)
