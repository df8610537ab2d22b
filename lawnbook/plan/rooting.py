"""Whether a zone's new seed or sod is still rooting, and the stage by which it is watered."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Literal

from lawnbook.agronomy.establishment import ROOTED_SOIL_IN, Stage, last_day, stage_on
from lawnbook.agronomy.water_balance import rooted_soil_in
from lawnbook.frozen import dataclass
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, plugs_of, setting_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Core, Zone


@dataclass(frozen=True, slots=True, kw_only=True)
class NewTurf:
    """New seed or sod while it roots: from its day to its last by the calendar, both included."""

    how: Literal["seed", "sod"]
    since: date
    until: date

    def on(self, that: date) -> bool:
        """Whether it is still rooting on a day."""
        return self.since <= that <= self.until


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


def new_turf_of(zone: Zone) -> NewTurf | None:
    """A zone's turf while it is new by the calendar, whatever the plugs say; None if it never was.

    None too where its day is not known.
    """
    began = zone.established
    if began is None or began.date is None or began.how == "unknown":
        return None
    until = began.date + timedelta(days=last_day(began.how))
    return NewTurf(how=began.how, since=began.date, until=until)


def new_turf(notebook: Notebook, on: date) -> dict[str, NewTurf]:
    """The zones whose turf is new by the calendar and by no plug since, or will be sown later.

    By zone id; `notebook` is the one as of the day. What a zone rests on is gathered only where
    its turf is new: most yards have none.
    """
    new = {
        zone.id: turf
        for zone in notebook.zones.values()
        if (turf := new_turf_of(zone)) is not None and on <= turf.until
    }
    begun = [zone_id for zone_id, turf in new.items() if turf.since <= on]
    if begun:
        setting = setting_of(notebook, on)
        for zone_id in begun:
            if rooting_of(setting, facts_of(setting, notebook.zones[zone_id], 1)) is None:
                del new[zone_id]
    return new


def rooting_of(setting: Setting, facts: ZoneFacts) -> Rooting | None:
    """The rooting of a zone on the day of the plan; None where its turf is not new, or has rooted.

    It has rooted when the mean over its spots of the latest plug pulled since then says so.
    """
    turf = new_turf_of(facts.zone)
    if turf is None or turf.since > setting.on:
        return None
    stage = stage_on(turf.how, (setting.on - turf.since).days)
    rooted_from = ROOTED_SOIL_IN[turf.how]
    if stage is None or _rooted_in(setting, facts, turf.since) >= rooted_from:
        return None
    return Rooting(
        how=turf.how,
        since=turf.since,
        until=turf.until,
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
