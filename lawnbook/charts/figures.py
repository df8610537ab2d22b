"""matplotlib Figures from a Plan, for any canvas; no pyplot.

Each function draws into a Figure, and draws again whenever the Figure's canvas is resized, so
that text keeps its size and the columns use the room they have.
"""

from collections.abc import Callable, Sequence
from datetime import date
from weakref import WeakKeyDictionary

from matplotlib.figure import Figure

from lawnbook.charts.ledger import ledger_marks
from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.nitrogen import nitrogen_marks
from lawnbook.charts.paint import frame_of, paint
from lawnbook.charts.palette import Palette
from lawnbook.charts.profile import profile_marks
from lawnbook.charts.release import release_marks
from lawnbook.charts.season import season_marks
from lawnbook.charts.stretch import stretch_marks
from lawnbook.charts.thatch_trend import trend_marks
from lawnbook.charts.trend_layout import Trends
from lawnbook.charts.year_water import year_marks
from lawnbook.plan.feed_model import LawnNitrogen, ReleaseCurve
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.plug_model import CareMark, Evidence, SpotThatch, ZoneThatch
from lawnbook.plan.season_year_model import SeasonYear
from lawnbook.plan.water_model import Stretch, ZoneLedger, ZoneYear

Drawing = Callable[[Frame], Picture]

_RESIZE_LINKS: "WeakKeyDictionary[Figure, int]" = WeakKeyDictionary()
_LEAST_FRAME = Frame(160.0, 120.0)


def profile_figure(
    thatch: SpotThatch | ZoneThatch, palette: Palette, figure: Figure | None = None
) -> Figure:
    """The profile columns of a spot, or the means of a zone; into `figure` where one is given."""
    return _draw(profile_drawing(thatch), palette, figure)


def profile_drawing(thatch: SpotThatch | ZoneThatch) -> Drawing:
    """The same as marks on a frame, to be saved or printed."""
    trend = thatch if isinstance(thatch, SpotThatch) else thatch.evidence

    def drawing(frame: Frame) -> Picture:
        return profile_marks(thatch.columns, frame, trend.line, sure=trend.ci95 is not None)

    return drawing


def trend_figure(
    evidence: Evidence | Trends,
    care: Sequence[CareMark],
    palette: Palette,
    on: date,
    split: date | None = None,
    figure: Figure | None = None,
) -> Figure:
    """The trend of a place with its cares; with `Trends` the spots beside it."""

    def drawing(frame: Frame) -> Picture:
        return trend_marks(evidence, care, frame, on, split)

    return _draw(drawing, palette, figure)


def nitrogen_figure(
    zone: ZoneNitrogen | LawnNitrogen,
    palette: Palette,
    ghost_lb_per_1000: float = 0.0,
    ghost_month: int | None = None,
    figure: Figure | None = None,
) -> Figure:
    """Twelve months of nitrogen of a zone or the lawn, with a proposed spread as a ghost."""

    def drawing(frame: Frame) -> Picture:
        return nitrogen_marks(zone, frame, ghost_lb_per_1000, ghost_month)

    return _draw(drawing, palette, figure)


def release_figure(
    curve: ReleaseCurve,
    palette: Palette,
    figure: Figure | None = None,
    today: date | None = None,
) -> Figure:
    """Nitrogen of one zone becoming available, day by day, application on application."""

    def drawing(frame: Frame) -> Picture:
        return release_marks(curve, frame, today)

    return _draw(drawing, palette, figure)


def ledger_figure(
    ledger: ZoneLedger,
    palette: Palette,
    next_watering: date | None = None,
    figure: Figure | None = None,
) -> Figure:
    """The root zone of one zone day by day, dashed to the next watering."""

    def drawing(frame: Frame) -> Picture:
        return ledger_marks(ledger, frame, next_watering)

    return _draw(drawing, palette, figure)


def year_figure(year: ZoneYear, palette: Palette, figure: Figure | None = None) -> Figure:
    """Gallons by month of one zone, as planned and under the old habit."""

    def drawing(frame: Frame) -> Picture:
        return year_marks(year, frame)

    return _draw(drawing, palette, figure)


def stretch_figure(
    stretch: Stretch, root_depth_in: float, palette: Palette, figure: Figure | None = None
) -> Figure:
    """The steps to the target depth of one zone, with the roots that each needs."""

    def drawing(frame: Frame) -> Picture:
        return stretch_marks(stretch, root_depth_in, frame)

    return _draw(drawing, palette, figure)


def season_figure(year: SeasonYear, palette: Palette, figure: Figure | None = None) -> Figure:
    """The year at one look: growth, need of water, spans of days, and all that was done."""

    def drawing(frame: Frame) -> Picture:
        return season_marks(year, frame)

    return _draw(drawing, palette, figure)


def _draw(drawing: Drawing, palette: Palette, figure: Figure | None) -> Figure:
    drawn = figure if figure is not None else Figure(figsize=(6.4, 3.8))

    def again(_event: object = None) -> None:
        frame = frame_of(drawn)
        if frame.width >= _LEAST_FRAME.width and frame.height >= _LEAST_FRAME.height:
            paint(drawn, drawing(frame), palette)

    again()
    if drawn in _RESIZE_LINKS:
        drawn.canvas.mpl_disconnect(_RESIZE_LINKS[drawn])
    _RESIZE_LINKS[drawn] = drawn.canvas.mpl_connect("resize_event", again)
    return drawn
