"""What the trend of the plugs says, as plain words made of plan figures. No Qt."""

from collections.abc import Sequence
from datetime import date

from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.desk.pages.plug_words import shown_of
from lawnbook.desk.telling import either
from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import WHOLE_YARD
from lawnbook.plan.evidence_words import signed as signed_number
from lawnbook.plan.evidence_words import signed_interval
from lawnbook.plan.limit_words import half_inch
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import (
    CareMark,
    Evidence,
    Interval,
    Place,
    PlugError,
    SlopeChange,
    StripComparison,
)
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import PERCENT, and_joined, counted
from lawnbook.reading import tr
from lawnbook.yard.amounts import told, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, inches, month_name
from lawnbook.yard.records import Care

FIGURES = ("slope", "error", "detectable", "more", "half_inch", "season")
"""The names of the six figures, in the order in which they stand."""

NOT_YET = tr("cannot say yet")
"""What stands in the place of a figure that the plugs do not give."""

NO_PLUG = tr(
    "No plug has been read here yet. A trend starts with the first one; an "
    "interval and a verdict need plugs of {fewest_for_interval} dates.",
    fewest_for_interval=FEWEST_FOR_INTERVAL,
)
MARK_STRIP = tr(
    "No untreated comparison yet. Leave one spot without the treatments and tick "
    "“Untreated comparison” for it, below the sketch or under Next: its trend "
    "shows what weather and years do by themselves."
)
CARE_CAUTION = tr(
    "A record of what was done, without a promise that it works. Follow the label "
    "and local rules first; some treatments are for licensed hands only. Have "
    "buried lines marked before coring."
)
CARE_EMPTY = tr("Nothing noted yet. What is kept here stands as a mark over the trend.")
MOST_ZONES_NAMED = 1
"""In a row of the list of care; its tooltip names them all."""
CARE_HEADS = (tr("Day"), tr("What"), tr("Where"), tr("Note"))
CHANGE_HEADS = ("", tr("Slope, in a year"), tr("95{percent} between", percent=PERCENT), tr("Plugs"))
STRIP_HEADS = ("", tr("Slope, in a year"), tr("95{percent} between", percent=PERCENT))
_NONE = "–"
_TOO_FEW = tr("too few plugs")


@dataclass(frozen=True, slots=True)
class TrendFigure:
    """A large figure, the words below it, and the workings that it opens.

    `rests_on` are those of the plugs that the words name where the figure cannot be said.
    """

    value: str
    words: str
    workings: tuple[Working, ...]
    rests_on: tuple[Working, ...] = ()


def signed(value: float, unit: str = "") -> str:
    """A change with its sign: "−0.12 in", "+0.05", "0.00"."""
    return f"{signed_number(value)} {unit_shown(unit) if unit else ''}".rstrip()


def between(ci95: Interval | None) -> str:
    """An interval of changes: "−0.20 to −0.04", or a dash."""
    return _NONE if ci95 is None else signed_interval(ci95)


def evidence_of(plan: Plan, place: Place) -> Evidence | None:
    """What the plugs of a place show; None for a place that the plan does not have."""
    shown = shown_of(plan, place)
    return None if shown is None else shown.evidence


def trend_figures(evidence: Evidence) -> tuple[TrendFigure, ...]:
    """The six figures of a place, each with its words and workings."""
    told_of = (
        _slope(evidence),
        _error(evidence.error),
        _detectable(evidence),
        _more(evidence),
        _half_inch(evidence),
        _season(evidence),
    )
    plugs = tuple(each for each in evidence.workings if each.figure in _OF_PLUGS)
    return tuple(
        TrendFigure(value, words, tuple(w for w in evidence.workings if w.figure == figure), plugs)
        for (value, words), figure in zip(told_of, _WORKINGS, strict=True)
    )


_OF_PLUGS = ("change_in", "slope_in_per_year")
"""The workings that name the plugs themselves."""
_WORKINGS = (
    "slope_in_per_year",
    "plug_in",
    "detectable_in",
    "more_for_tenth",
    "half_inch",
    "season_in",
)
"""The figures of the workings behind each of them, as the plan names them."""


def how_words(evidence: Evidence) -> str:
    """By what method the trend was found, and why there is no interval if the verdict does not."""
    said = evidence.reason.casefold() in evidence.verdict.casefold()
    reason = "" if said or evidence.ci95 is not None else evidence.reason
    return " ".join(_sentence(each) for each in (evidence.how, reason) if each)


def described(evidence: Evidence, care: Sequence[CareMark]) -> str:
    """The chart in words, for those who cannot see it."""
    dots = "; ".join(f"{day(each.date)}: {inches(each.thatch_in)}" for each in evidence.points)
    done = "; ".join(f"{day(each.date)}: {tr(each.kind)}" for each in care)
    said = f"{evidence.place}: {dots or tr('no plug yet')}."
    return tr("{said} Done: {done}.", said=said, done=done) if done else said


def care_preset(mark: CareMark) -> tuple[str, str]:
    """A care mark in the menu of days: its words, and its day as typed."""
    return f"{tr(mark.kind)}, {mark.where}" if mark.where else tr(mark.kind), day(mark.date)


def care_cells(notebook: Notebook, care: Care) -> tuple[str, str, str, str]:
    """A care entry as a row: day, what, where in as many words as leave room for the note, note."""
    return day(care.date), tr(care.kind), _where(notebook, care, MOST_ZONES_NAMED), care.note


def care_spoken(notebook: Notebook, care: Care) -> str:
    """All of a care entry, for its tooltip and for those who cannot see the row."""
    where = _where(notebook, care, len(care.zones))
    return ", ".join(each for each in (day(care.date), tr(care.kind), where, care.note) if each)


def _where(notebook: Notebook, care: Care, most: int) -> str:
    names = [notebook.zones[each].name for each in care.zones if each in notebook.zones]
    if not names:
        return WHOLE_YARD
    if len(names) <= most:
        return and_joined(names)
    return tr("{names} and {count} more", names=and_joined(names[:most]), count=len(names) - most)


def notes_told(evidence: Evidence) -> tuple[str, ...]:
    """What to know beside the figures: the season's effect, then what the plan notes."""
    season = evidence.season.words if evidence.season is not None else ""
    return tuple(each for each in (season, *evidence.notes) if each)


def first_split(evidence: Evidence, care: Sequence[CareMark]) -> date | None:
    """The day that before and after are told by at first: the care with most plugs around it.

    That is on its poorer side, and the earlier of two alike: chosen by the calendar alone, never
    by what the plugs then show.
    """
    days = [each.date for each in evidence.points]
    poorer = {
        each.date: min(sum(d < each.date for d in days), sum(d >= each.date for d in days))
        for each in sorted(care, key=lambda mark: mark.date)
    }
    best = max(poorer, key=lambda on: poorer[on], default=None)
    return best if best is not None and poorer[best] else None


def done_on(care: Sequence[CareMark], on: date | None) -> str:
    """What was done on a day, in words; empty where nothing is noted for it."""
    kinds = list(dict.fromkeys(tr(each.kind) for each in care if each.date == on))
    return tr("noted for this day: {kinds}", kinds=and_joined(kinds)) if kinds else ""


def change_rows(change: SlopeChange) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Before, after and their difference as rows: slope, interval, plugs."""
    rows = (
        (tr("Before"), change.before_in_per_year, change.before_ci95, str(change.plugs_before)),
        (tr("After"), change.after_in_per_year, change.after_ci95, str(change.plugs_after)),
        (tr("After less before"), change.difference_in_per_year, change.difference_ci95, ""),
    )
    return tuple(
        (name, (_slope_cell(value), _interval_cell(value, ci95), n))
        for name, value, ci95, n in rows
    )


def change_described(change: SlopeChange) -> str:
    """The table of before and after as one sentence."""
    rows = "; ".join(f"{name}: {cells[0]}, {cells[1]}" for name, cells in change_rows(change))
    return f"{day(change.on)}: {rows}"


def strip_rows(strip: StripComparison) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Treated, untreated and their difference as rows: slope, interval."""
    treated = (
        tr("Treated: {treated}", treated=", ".join(strip.treated))
        if strip.treated
        else tr("Treated")
    )
    untreated = (
        tr("Untreated: {untreated}", untreated=", ".join(strip.untreated))
        if strip.untreated
        else tr("Untreated")
    )
    apart = strip.difference_in_per_year
    return (
        (treated, (_slope_cell(strip.treated_in_per_year), "")),
        (untreated, (_slope_cell(strip.untreated_in_per_year), "")),
        (tr("Treated less untreated"), (_slope_cell(apart), _interval_cell(apart, strip.ci95))),
    )


def strip_described(strip: StripComparison) -> str:
    """The table of the comparison strip as one sentence."""
    return "; ".join(f"{name}: {' '.join(cells).strip()}" for name, cells in strip_rows(strip))


def _interval_cell(slope: float | None, ci95: Interval | None) -> str:
    return _TOO_FEW if slope is not None and ci95 is None else between(ci95)


def _slope_cell(value: float | None) -> str:
    return _NONE if value is None else signed(value, "in")


def _slope(evidence: Evidence) -> tuple[str, str]:
    slope, ci95 = evidence.slope_in_per_year, evidence.ci95
    if slope is None:
        return NOT_YET, tr("how the thatch changes in a year")
    if ci95 is None:
        return signed(slope, "in"), tr(
            "change of thatch in a year; no interval yet, so a first guess"
        )
    return signed(slope, "in"), tr(
        "change of thatch in a year (95{percent}: {between})",
        percent=PERCENT,
        between=between(ci95),
    )


def _error(error: PlugError | None) -> tuple[str, str]:
    if error is None:
        return NOT_YET, tr("how far one plug may be off")
    by = tr("readings and ruler alone")
    if error.plugs_in is not None:
        by = tr("readings, plugs of one day and ruler")
    return f"±{told(error.plug_in, 2, 'in')}", tr("standard deviation of one plug, by {by}", by=by)


def _detectable(evidence: Evidence) -> tuple[str, str]:
    a_date = tr("with {plugs} a date", plugs=counted(evidence.plugs_a_date, "plug"))
    if evidence.detectable_in is None:
        return NOT_YET, tr("smallest change between two dates that these plugs can show")
    value = told(evidence.detectable_in, 2, "in")
    return value, tr("smallest change between two dates that shows {a_date}", a_date=a_date)


def _more(evidence: Evidence) -> tuple[str, str]:
    more = evidence.more_for_tenth
    if more is None:
        return NOT_YET, tr("plugs to add a date to see {tenth}", tenth=_tenth())
    if more == 0:
        return tr("no more"), tr("plugs a date are needed to see {tenth}", tenth=_tenth())
    return tr("{more:,} more", more=more), tr(
        "plug a date to see {tenth}" if more == 1 else "plugs a date to see {tenth}",
        tenth=_tenth(),
    )


def _tenth() -> str:
    """The change that plugs are added for."""
    return either(tr("a tenth of an inch"), told(0.1, 1, "in"))


def _half_inch(evidence: Evidence) -> tuple[str, str]:
    if evidence.half_inch is None:
        why = evidence.half_inch_words
        if evidence.none_ahead:
            return tr("none ahead"), _after_not_yet(why)
        if not why or (evidence.reason and evidence.reason.casefold() in why.casefold()):
            why = tr("when {half_inch} of thatch is reached", half_inch=half_inch())
        return NOT_YET, _after_not_yet(why)
    first, last = evidence.half_inch
    words = tr(
        "{half_inch} of thatch, at this pace (95{percent}: {first} to {last})",
        half_inch=half_inch(),
        percent=PERCENT,
        first=day(first),
        last=day(last),
    )
    return _span(first, last), words


def _span(first: date, last: date) -> str:
    """From one day to another, in months within a year and in years beyond."""
    if first.year != last.year:
        return tr("{first_year} to {last_year}", first_year=first.year, last_year=last.year)
    months = dict.fromkeys((month_name(first), month_name(last)))
    if len(months) == 1:
        return f"{month_name(first)} {first.year}"
    return tr(
        "{month} to {last_month} {year}",
        month=month_name(first),
        last_month=month_name(last),
        year=first.year,
    )


def _season(evidence: Evidence) -> tuple[str, str]:
    season = evidence.season
    if season is None or season.spring_minus_autumn_in is None:
        return NOT_YET, tr("what spring plugs differ by from autumn plugs")
    interval = "" if season.ci95 is None else f" (95{PERCENT}: {between(season.ci95)})"
    value = signed(season.spring_minus_autumn_in, "in")
    return value, tr(
        "spring plugs less autumn plugs, the trend taken out{interval}", interval=interval
    )


def _is_not_yet(words: str) -> bool:
    return words.casefold().startswith(NOT_YET)


def _after_not_yet(words: str) -> str:
    """Words below a figure, without the "cannot say yet" that stands in its place already."""
    rest = words[len(NOT_YET) :].lstrip(" :,.") if _is_not_yet(words) else words
    rest = rest.removesuffix(".")
    return rest[:1].lower() + rest[1:]


def _sentence(words: str) -> str:
    """Words as a sentence of their own."""
    start = words[:1].upper() + words[1:]
    return start if start.endswith((".", "?")) else f"{start}."
