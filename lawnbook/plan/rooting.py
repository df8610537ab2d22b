"""Whether a zone's new seed or sod is still rooting, and the stage by which it is watered."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from lawnbook.agronomy.establishment import ROOTED_SOIL_IN, Stage, last_day, stage_on
from lawnbook.agronomy.water_balance import rooted_soil_in
from lawnbook.plan.zone_facts import Setting, ZoneFacts, plugs_of
from lawnbook.yard.records import Core


@dataclass(frozen=True, slots=True, kw_only=True)
class Rooting:
    """New turf before it has rooted: how it began, when, its last day by the calendar, the stage.

    `rooted_from_in` is the rooted soil on a plug that ends the light rule sooner.
    """

    how: Literal["seed", "sod"]
    since: date
    until: date
    stage: Stage
    rooted_from_in: float


def rooting_of(setting: Setting, facts: ZoneFacts) -> Rooting | None:
    """The rooting of a zone on the day of the plan; None where its turf is not new, or has rooted.

    It has rooted when the mean over its spots of the latest plug pulled since then says so.
    """
    began = facts.zone.established
    if began is None or began.date is None or began.how == "unknown" or began.date > setting.on:
        return None
    stage = stage_on(began.how, (setting.on - began.date).days)
    rooted_from = ROOTED_SOIL_IN[began.how]
    if stage is None or _rooted_in(setting, facts, began.date) >= rooted_from:
        return None
    return Rooting(
        how=began.how,
        since=began.date,
        until=began.date + timedelta(days=last_day(began.how)),
        stage=stage,
        rooted_from_in=rooted_from,
    )


def _rooted_in(setting: Setting, facts: ZoneFacts, since: date) -> float:
    """Rooted soil by the plugs since a day: the mean of each spot's latest, 0 before the first."""
    latest = [
        read
        for cores in plugs_of(setting, facts.zone)
        if (read := _latest_rooted_in(cores, since)) is not None
    ]
    return sum(latest) / len(latest) if latest else 0.0


def _latest_rooted_in(cores: Sequence[Core], since: date) -> float | None:
    read = [each for each in cores if each.date > since and each.root_depth_in is not None]
    if not read or read[-1].root_depth_in is None:
        return None
    thatch = read[-1].thatch_in
    return rooted_soil_in(read[-1].root_depth_in, sum(thatch) / len(thatch) if thatch else 0.0)
