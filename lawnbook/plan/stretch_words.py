"""Plain advice on the next step from shallow to deep: what to see on a plug before taking it."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.water_model import StretchStep
from lawnbook.plan.workings import told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr

SHALLOW_DAYS = 2
"""Water as often as this keeps the thatch wet (source "deep-seldom")."""


def stretch_words(
    setting: Setting,
    facts: ZoneFacts,
    month: int,
    steps: Sequence[StretchStep],
    plug_due: date | None,
) -> str:
    """The advice for all steps, in order, from today's interval to the target's."""
    if facts.roots.rooted_soil_in == 0:
        return tr(
            "No roots reach the soil below the thatch, so it can store nothing for them: a "
            "little water every day carries the grass until a plug shows roots in the soil."
        )
    first = steps[0]
    if not first.borne:
        lead = tr(
            "{lead} one day uses {depth_in}, more than the {bearable_in} that these roots "
            "bear: water every day.",
            lead=_lead(setting, month),
            depth_in=told(first.depth_in, 2, "in"),
            bearable_in=told(facts.bearable_in, 2, "in"),
        )
        return " ".join([lead, *_next(setting, facts, first, plug_due), *_shallow(steps)])
    given = f"{told(first.depth_in, 2, 'in')} {_every(first.interval_days)}"
    if len(steps) == 1:
        return tr(
            "{lead} {given}: these roots bear the target.", lead=_lead(setting, month), given=given
        )
    return " ".join(
        [
            f"{_lead(setting, month)} {given}.",
            *_next(setting, facts, steps[1], plug_due),
            *_at_once(steps[-1]),
            *_shallow(steps),
        ]
    )


def _lead(setting: Setting, month: int) -> str:
    if setting.notebook.yard.drought != "off":
        return tr("With full water in {month_in_full}", month_in_full=month_in_full(month))
    return (
        tr("Now")
        if month == setting.on.month
        else tr("In {month_in_full}", month_in_full=month_in_full(month))
    )


def _next(
    setting: Setting, facts: ZoneFacts, step: StretchStep, plug_due: date | None
) -> Iterator[str]:
    """What a plug must show before the next step, and when it may."""
    assumed = tr(", assumed") if facts.roots.is_default else tr(" now")
    needed, now = step.root_depth_needed_in, facts.roots.root_depth_in
    # One place hides a difference under a tenth of an inch: then two.
    places = 2 if told(needed, 1, "in") == told(now, 1, "in") else 1
    seen = tr(
        "{needed} of roots ({now}{assumed})",
        needed=told(needed, places, "in"),
        now=told(now, places, "in"),
        assumed=assumed,
    )
    then = (
        tr("they bear a day")
        if step.interval_days == 1
        else tr("go to {interval_days} days", interval_days=step.interval_days)
    )
    yield tr(
        "When plugs show {seen}, {then}; {plug_words}.",
        seen=seen,
        then=then,
        plug_words=_plug_words(setting.on, plug_due),
    )
    if step.expected is not None:
        grown = tr(
            "that is about {month_name} {year}",
            month_name=month_name(step.expected.month),
            year=step.expected.year,
        )
        when = grown if step.expected > setting.on else tr("they may be there already")
        yield tr("At the pace of the plugs so far {when}.", when=when)


def _plug_words(on: date, plug_due: date | None) -> str:
    if plug_due is None:
        return tr("mark a spot and pull plugs there to see it")
    if plug_due <= on:
        return tr("a plug is due now")
    year = "" if plug_due.year == on.year else f" {plug_due.year}"
    return tr(
        "next plug in {month_in_full}{year}", month_in_full=month_in_full(plug_due.month), year=year
    )


def _at_once(step: StretchStep) -> Iterator[str]:
    """What the last step would cost if it were taken on today's roots."""
    used = told(100 * step.share_used_now, 0, "%")
    share = "all" if step.share_used_now >= 1 else used
    going = tr(
        "Going to {depth_in} {every} at once",
        depth_in=told(step.depth_in, 2, "in"),
        every=_every(step.interval_days),
    )
    if step.stress_now < 1:
        yield tr(
            "{going} would use {share} of what these roots hold: the grass would run short.",
            going=going,
            share=share,
        )
    else:
        yield tr(
            "{going} would use {share} of what these roots hold, more than you allow.",
            going=going,
            share=share,
        )


def _shallow(steps: Sequence[StretchStep]) -> Iterator[str]:
    if steps[0].interval_days <= SHALLOW_DAYS < steps[-1].interval_days:
        yield (
            tr(
                "Staying with a little every day or two keeps roots shallow and feeds the "
                "thatch: it is a step, not the goal."
            )
        )


def _every(days: int) -> str:
    return tr("every day") if days == 1 else tr("every {days} days", days=days)
