"""What the plugs show, as text: spots, zones and the yard, findings, and where to pull next."""

from collections.abc import Iterator, Sequence
from datetime import timedelta

from lawnbook.plan.evidence_words import signed_interval
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Evidence, Finding, NextPlug, SpotThatch
from lawnbook.plan.text_table import NONE, WIDTH, column, day_head, number, paragraph, table
from lawnbook.plan.workings import PERCENT, counted
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly, trimmed_bare
from lawnbook.yard.numbers import whole

AHEAD_DAYS = 60
"""Spots due later than this are counted, not listed, as are all but the first of many."""

MOST_LISTED = 12


def spot_lines(spots: Sequence[SpotThatch]) -> Iterator[str]:
    """The table of spots, and each one's verdict with its half inch."""
    if not spots:
        return
    columns = [
        column(tr("spot"), spots, lambda s: s.spot, words=True),
        column(tr("zone"), spots, lambda s: s.zone or NONE, words=True),
        column(tr("plugs"), spots, lambda s: str(s.plugs)),
        column(tr("first"), spots, lambda s: number(s.first_in, 2, "in")),
        column(tr("latest"), spots, lambda s: number(s.latest_in, 2, "in")),
        column(tr("a year"), spots, lambda s: number(s.slope_in_per_year, 2, "in")),
    ]
    yield from table(columns, WIDTH)
    for spot in spots:
        words = " ".join([f"{spot.spot}: {spot.verdict}", *_half_inch(spot.evidence)])
        yield from paragraph(words, WIDTH, "- ")


def mean_lines(plan: Plan) -> Iterator[str]:
    """The evidence of each zone and of the yard, where it says more than a single spot does."""
    means = [each.evidence for each in plan.zone_thatch if each.evidence.spots > 1]
    if plan.yard_thatch is not None and plan.yard_thatch.evidence.spots > 1:
        means.append(plan.yard_thatch.evidence)
    if not means:
        return
    columns = [
        column(tr("place"), means, _place, words=True),
        column(tr("spots"), means, lambda e: str(e.spots)),
        column(tr("plugs"), means, lambda e: str(e.plugs)),
        column(tr("a year"), means, lambda e: number(e.slope_in_per_year, 2, "in")),
        column(tr("95{percent} between", percent=PERCENT), means, _interval),
        column(tr("shows a change of"), means, lambda e: number(e.detectable_in, 2, "in")),
        column(
            tr("plugs to add for {trimmed_bare}", trimmed_bare=trimmed_bare(0.1, 2, "in")),
            means,
            _more,
        ),
    ]
    yield from table(columns, WIDTH)
    for each in means:
        words = " ".join([f"{_place(each)}: {each.verdict}", *_half_inch(each)])
        yield from paragraph(words, WIDTH, "- ")


def finding_lines(findings: Sequence[Finding]) -> Iterator[str]:
    """The findings in short, each once: those worth acting on first, marked."""
    sentences = dict.fromkeys((each.weight == "warn", each.sentence) for each in findings)
    for warns, sentence in list(sentences)[:MOST_LISTED]:
        yield from paragraph(sentence, WIDTH, "! " if warns else "- ")
    if len(sentences) > MOST_LISTED:
        yield tr("- and {count} more", count=len(sentences) - MOST_LISTED)


def next_lines(plan: Plan) -> Iterator[str]:
    """When and where the next plugs are due; what lies far ahead is counted."""
    plugs = plan.next_plugs
    if not plugs:
        return
    # Where none is due soon, those of the first day that one is.
    until = max(plan.on + timedelta(days=AHEAD_DAYS), plugs[0].due)
    shown = [each for each in plugs if each.due <= until][:MOST_LISTED]
    for each in shown:
        yield from paragraph(_next(each), WIDTH, day_head(each.due))
    if len(plugs) > len(shown):
        yield tr(
            "{count}and {more_spots}",
            count=" " * len(day_head(plan.on)),
            more_spots=counted(len(plugs) - len(shown), "more spot"),
        )


def _next(plug: NextPlug) -> str:
    """Spot and hour, then what speaks for or against it."""
    name = f"{plug.spot} ({plug.zone})" if plug.zone else plug.spot
    where = (
        tr(
            "{clock} o'clock, {plainly} out",
            clock=plug.place.clock,
            plainly=plainly(plug.place.ring_in, "in", 4),
        )
        if plug.place
        else ""
    )
    said = [each for each in (plug.why_first, plug.reminder, *plug.concerns) if each]
    return f"{name}{': ' if where else ''}{where}. {' '.join(said)}".rstrip()


def _place(evidence: Evidence) -> str:
    return tr("whole yard") if evidence.kind == "yard" else evidence.place


def _interval(evidence: Evidence) -> str:
    ci95 = evidence.ci95
    return NONE if ci95 is None else signed_interval(ci95)


def _more(evidence: Evidence) -> str:
    more = evidence.more_for_tenth
    return NONE if more is None else f"{whole(more)}"


def _half_inch(evidence: Evidence | None) -> Iterator[str]:
    """The sentence on half an inch, but not that it cannot be said where nothing can be yet."""
    if evidence is not None and (evidence.half_inch or not _says_nothing(evidence)):
        yield evidence.half_inch_words


def _says_nothing(evidence: Evidence) -> bool:
    return evidence.half_inch is None and not evidence.none_ahead
