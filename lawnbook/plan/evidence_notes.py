"""Notes beside what plugs show: what is left out, assumed, or speaks for few spots only."""

from collections.abc import Iterable, Iterator, Sequence

from lawnbook.agronomy.spot_lines import LEAST_SPAN_DAYS
from lawnbook.plan.plug_model import PlaceKind
from lawnbook.plan.plug_series import Compared
from lawnbook.plan.workings import and_joined, counted, told
from lawnbook.reading import is_metric, tr
from lawnbook.yard.numbers import day

LATE_DAYS = 60
"""A spot whose first plug comes so long after the first of all has begun late (our choice)."""

SHARED_FROM = 5
"""From so many spots on the errors that a day's plugs share are told of."""


def notes_of(
    kind: PlaceKind, compared: Compared, comparison: Sequence[str], *, assumed_ruler: bool
) -> Iterator[str]:
    """What to know beside the figures: what is left out, assumed, or speaks for few spots only.

    `comparison` names the untreated comparison spots that were left out.
    """
    if comparison:
        names = and_joined(comparison)
        many = len(comparison) > 1
        yield (
            tr(
                "Untreated comparison, left out of this mean: {names}; they have their own trend."
                if many
                else "Untreated comparison, left out of this mean: {names}; it has its own trend.",
                names=names,
            )
        )
    if compared.pressed:
        yield tr("These plugs were read pressed: they compare with pressed ones only.")
    if compared.left_out:
        yield (
            tr(
                "{plugs} was read pressed and is not compared with the others."
                if compared.left_out == 1
                else "{plugs} were read pressed and are not compared with the others.",
                plugs=counted(compared.left_out, "plug"),
            )
        )
    if assumed_ruler:
        fine = told(1 / 16, 2, "in") if is_metric() else "1/16 in"
        yield tr("Some plugs do not say how fine the ruler was: {fine} is assumed.", fine=fine)
    yield from _wetness(compared)
    if kind != "spot":
        yield from _few_spots(compared)
        yield from _late(compared)
        yield from _one_date(compared)
        yield from _shared_days(compared)


def _wetness(compared: Compared) -> Iterator[str]:
    states = {core.thatch_moisture for core in compared.cores} & {"dry", "wet"}
    if len(states) > 1:
        yield (
            tr(
                "Some plugs were read with the thatch wet, some with it dry: part of a "
                "difference may be that (common practice)."
            )
        )


def _few_spots(compared: Compared) -> Iterator[str]:
    names = [each.spot.name for each in compared.in_trend]
    if len(names) == 1:
        yield tr("One spot only, {names}: it speaks for its own place.", names=names[0])
    elif len(names) == 2:
        yield (
            tr(
                "The mean of these two spots only, {names}: what lies between them it cannot say.",
                names=and_joined(names),
            )
        )


def _late(compared: Compared) -> Iterator[str]:
    late = [
        f"{each.spot.name} ({day(each.days[0].date)})"
        for each in compared.in_trend
        if (each.days[0].date - compared.origin).days > LATE_DAYS
    ]
    if late:
        yield (
            tr(
                "Begun later: {listed}. Each spot counts by its own slope, so a late one does "
                "not shift the trend by its level.",
                listed=_listed(late),
            )
        )


def _one_date(compared: Compared) -> Iterator[str]:
    out = [each for each in compared.spots if not each.has_slope]
    if len(out) == len(compared.spots):
        return
    single = [each.spot.name for each in out if len(each.days) == 1]
    if single:
        yield tr(
            "Not in the trend yet, for want of a second date: {listed}.", listed=_listed(single)
        )
    near = [each.spot.name for each in out if len(each.days) > 1]
    if near:
        yield (
            tr(
                "Not in the trend yet, for want of plugs {least_span_days} days apart: {listed}.",
                least_span_days=LEAST_SPAN_DAYS,
                listed=_listed(near),
            )
        )


def _shared_days(compared: Compared) -> Iterator[str]:
    """What the interval over many spots leaves out: with few its width holds that as well.

    Simulated with 0.06 in of error that all spots of a day share, intervals at six spots and eight
    rounds held in 90 % of yards, those at up to four spots in 95 %.
    """
    spots = compared.in_trend
    days = {day.date for each in spots for day in each.days}
    if len(spots) >= SHARED_FROM and len(days) < sum(len(each.days) for each in spots):
        yield (
            tr(
                "Spots plugged on one day may err together, by that day's moisture or by the "
                "hand that read them: of so many spots the interval may then be too narrow."
            )
        )


def _listed(names: Iterable[str], most: int = 5) -> str:
    told_of = list(names)
    if len(told_of) > most + 1:
        told_of = [*told_of[:most], tr("{count} more", count=len(told_of) - most)]
    return and_joined(told_of)
