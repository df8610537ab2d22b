"""The days of a zone's ledger that its picture shows, where they stand on it, and in words."""

from datetime import date, timedelta

import numpy as np

from lawnbook.charts.marks import Frame, Ring
from lawnbook.frozen import dataclass
from lawnbook.plan.water_model import Array, ZoneLedger
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import counted, day, short_day

SHOWN_DAYS = 120
"""How far back the picture looks; a shorter ledger is shown whole."""
MOST_AHEAD_DAYS = 21
"""How far the dashed line looks ahead at most."""
LEFT_PT, RIGHT_PT, TOP_PT, FOOT_PT, DRAIN_PT = 38.0, 84.0, 38.0, 18.0, 12.0
NEAR_IN = 0.005
"""Less than this is nothing on the picture and in its words."""

_BAND_SHARE = 0.24
_GAP_PT = 7.0
_LEAST_BAND_IN = 0.5


@dataclass(frozen=True, slots=True)
class LedgerDays:
    """The shown days of a ledger, and where they stand on the page in points."""

    frame: Frame
    first: date
    past: int
    ahead: Array
    ledger: ZoneLedger
    deepest_in: float
    most_in: float

    next_watering: date | None

    @property
    def is_watered(self) -> bool:
        """Whether the zone is watered at all: in the days shown, or next."""
        return self.next_watering is not None or bool(self.shown(self.ledger.irrigation_in).any())

    @property
    def right(self) -> float:
        """Where the days end; the names of the lines stand beyond."""
        return self.frame.width - RIGHT_PT

    @property
    def band(self) -> tuple[float, float]:
        """Top and foot of the band of rain and waterings."""
        room = self.frame.height - TOP_PT - FOOT_PT - DRAIN_PT
        return TOP_PT, TOP_PT + room * _BAND_SHARE

    @property
    def full(self) -> float:
        """The height of field capacity."""
        return self.band[1] + _GAP_PT

    @property
    def foot(self) -> float:
        """The height of all used up."""
        return self.frame.height - FOOT_PT - DRAIN_PT

    def x(self, place: float) -> float:
        """Where a day begins; the place of a day counts from the first one shown."""
        slots = self.past + self.ahead.size
        return LEFT_PT + (self.right - LEFT_PT) * place / max(slots, 1)

    def y(self, depletion_in: float) -> float:
        """Where a depletion lies."""
        share = depletion_in / self.deepest_in
        return self.full + (self.foot - self.full) * share

    def drop(self, depth_in: float) -> float:
        """The length of a bar of rain or watering."""
        return depth_in / self.most_in * (self.band[1] - self.band[0])

    def shown(self, series: Array) -> Array:
        """The shown days of a series of the ledger."""
        return series[series.size - self.past :]

    def line(self, series: Array, from_place: float = 0.0) -> Ring:
        """Day's-end figures as a line, the last going on to the end of the days ahead."""
        values = self.shown(series)
        ends = [(self.x(k + 1), self.y(float(v))) for k, v in enumerate(values)]
        start = (self.x(from_place), ends[0][1])
        return (start, *ends, (self.x(self.past + self.ahead.size), ends[-1][1]))


def ledger_words(ledger: ZoneLedger, next_watering: date | None = None) -> str:
    """What the picture shows, in words: where it stands, what came, and what ran short."""
    past = min(SHOWN_DAYS, ledger.depletion_in.size)
    on = last_day(ledger)
    shown = slice(ledger.depletion_in.size - past, None)
    rain = float(ledger.rain_in[shown].sum())
    lost = float((ledger.ignored_in[shown] + ledger.runoff_in[shown]).sum())
    waterings = int(np.count_nonzero(ledger.irrigation_in[shown] > 0))
    drained = float(ledger.drained_in[shown].sum())
    stressed = int(np.count_nonzero(short_days(ledger)[shown]))
    used, capacity = (float(each[-1]) for each in (ledger.depletion_in, ledger.capacity_in))
    what_counted = (
        tr(", {depth} of it counted", depth=_depth(rain - lost)) if lost >= NEAR_IN else ""
    )
    span = (
        tr("In the {days} up to then", days=counted(past, "day")) if past > 1 else tr("On that day")
    )
    parts = [
        tr(
            "{on}: {depth} of the {capacity} within reach of roots is used up.",
            on=day(on),
            depth=_depth(used),
            capacity=_depth(capacity),
        ),
        # Days without weather have no rain on record: that none fell would be more than is known.
        tr(
            "{span} {depth} of rain fell{what_counted}; {waterings}.",
            span=span,
            depth=_depth(rain),
            what_counted=what_counted,
            waterings=counted(waterings, "watering"),
        )
        if rain > 0
        else tr(
            "{span} no rain is on record; {waterings}.",
            span=span,
            waterings=counted(waterings, "watering"),
        ),
    ]
    if drained >= NEAR_IN:
        parts.append(tr("{depth} drained past the roots.", depth=_depth(drained)))
    parts.append(
        tr("Short of water on {days}.", days=counted(stressed, "day"))
        if stressed
        else tr("Never short.")
    )
    if next_watering is not None:
        is_due = next_watering <= on
        due = (
            tr("Watering is due today")
            if is_due
            else tr("Next watering {next_watering}", next_watering=short_day(next_watering))
        )
        parts.append(f"{due}.")
    return " ".join(parts)


def _depth(depth_in: float) -> str:
    return told(depth_in, 2, "in")


def shown_days(ledger: ZoneLedger, frame: Frame, next_watering: date | None) -> LedgerDays:
    """The days of a ledger that a picture on this frame shows, with those ahead."""
    past = min(SHOWN_DAYS, ledger.depletion_in.size)
    on = last_day(ledger)
    ahead_days = 0 if next_watering is None else (next_watering - on).days
    ahead = ledger.ahead_in[: max(0, min(ahead_days, MOST_AHEAD_DAYS))]
    shown = slice(ledger.depletion_in.size - past, None)
    arriving = ledger.rain_in[shown] + ledger.irrigation_in[shown]
    deepest = max(0.05, float(ledger.capacity_in[shown].max(initial=0.0)))
    most = max(_LEAST_BAND_IN, 1.04 * float(arriving.max(initial=0.0)))
    first = on - timedelta(days=past - 1)
    return LedgerDays(frame, first, past, ahead, ledger, deepest, most, next_watering)


def last_day(ledger: ZoneLedger) -> date:
    """The day of the plan: the ledger's last."""
    return ledger.starts + timedelta(days=ledger.depletion_in.size - 1)


def short_days(ledger: ZoneLedger) -> Array:
    """Days that end beyond the line where the grass runs short, as an array of truth."""
    short = (ledger.depletion_in > ledger.stress_from_in + NEAR_IN) & (ledger.etc_in > 0)
    return np.asarray(short, dtype=np.float64)
