"""What the pictures of plugs show, in two to four sentences: the columns, and the trend."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.charts.profile_layout import reaches_cut
from lawnbook.charts.trend_layout import Trends
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import CareMark, Evidence, SpotThatch, TrendPoint, ZoneThatch
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import counted, day


@dataclass(frozen=True, slots=True)
class _Read:
    """Thatch read on a day, in inches."""

    on: date
    thatch_in: float


def profile_summary(thatch: SpotThatch | ZoneThatch) -> str:
    """The profile columns: of where and when, first, latest and thickest thatch, roots, verdict."""
    name = thatch.spot if isinstance(thatch, SpotThatch) else thatch.evidence.place
    columns = thatch.columns
    if not columns:
        return tr("No plug yet at {place}.", place=name)
    first, last = columns[0].date, columns[-1].date
    words = [tr("Profile columns of {place}.", place=f"{name}, {_span(first, last)}")]
    read = [_Read(each.date, each.thatch_in) for each in columns if each.thatch_in is not None]
    words += _thatch_told(read)
    latest = columns[-1]
    if latest.root_depth_in is not None:
        depth = told(latest.root_depth_in, 1, "in")
        text = tr("Roots now reach {depth}.")
        if reaches_cut(latest):
            text = tr("Roots now reach {depth}, the cut end of the plug, or go on below it.")
        words.append(tr(text, depth=depth))
    verdict = thatch.verdict if isinstance(thatch, SpotThatch) else thatch.evidence.verdict
    return " ".join((*words, *_sentence(verdict)))


def trend_summary(evidence: Evidence | Trends, care: Sequence[CareMark] = ()) -> str:
    """The trend of a place: of where and when, first, latest and thickest, verdict, cares."""
    trends = evidence if isinstance(evidence, Trends) else Trends(evidence)
    points = _means(trends.place.points)
    if not points:
        return tr("No plug with its thatch read yet at {place}.", place=trends.place.place)
    name = f"{trends.place.place}, {_span(points[0].on, points[-1].on)}"
    words = [tr("Trend of the thatch of {place}.", place=name), *_thatch_told(points)]
    words += _sentence(trends.place.verdict)
    if care:
        done = counted(len(care), "care", "cares")
        words.append(tr("{cares} marked beneath it.", cares=done))
    return " ".join(words)


def _means(points: Sequence[TrendPoint]) -> list[_Read]:
    """The mean over the spots of each day, so that one number stands for it."""
    days = dict.fromkeys(each.date for each in points)
    held = {on: [each.thatch_in for each in points if each.date == on] for on in days}
    return [_Read(on, sum(values) / len(values)) for on, values in held.items()]


def _thatch_told(read: Sequence[_Read]) -> Iterator[str]:
    """The first, the latest and the thickest of what was read."""
    if not read:
        yield tr("No thatch was read.")
        return
    first, last = _inches(read[0]), _inches(read[-1])
    if len(read) == 1:
        yield tr("Thatch is {latest}.", latest=last)
        return
    most = max(read, key=lambda each: each.thatch_in)
    yield tr(
        "Thatch was {first} at first and is {latest} now; the thickest was {most} on {day}.",
        first=first,
        latest=last,
        most=_inches(most),
        day=day(most.on),
    )


def _inches(read: _Read) -> str:
    return told(read.thatch_in, 2, "in")


def _span(first: date, last: date) -> str:
    if first == last:
        return day(first)
    return tr("{first} to {last}", first=day(first), last=day(last))


def _sentence(words: str) -> Iterator[str]:
    """A verdict as the plan words it, ended as a sentence; nothing for none."""
    if words:
        yield words if words.endswith((".", "?")) else f"{words}."
