"""Mowing that is due, and the weeks for optional care: core aeration and overseeding.

Aeration is proposed where plugs show thatch over half an inch or nobody has looked yet, and never
as a must; overseeding only as weeks that suit it, since a notebook cannot see thin turf.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from types import MappingProxyType

from lawnbook.agronomy.mowing import cuts_down, mow_at_in
from lawnbook.plan.care_marks import MOWING
from lawnbook.plan.care_windows import last_care, windows_between
from lawnbook.plan.limit_words import half_inch
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.mowing import NO_MORE_GROWTH, Stand, stand_of
from lawnbook.plan.plug_series import HALF_INCH
from lawnbook.plan.season_model import Mowing, Task
from lawnbook.plan.window_workings import AERATION, OVERSEEDING
from lawnbook.plan.workings import counted, told
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly

MOW_WITHIN_DAYS = 14
"""A mowing is told from so many days before."""

WINDOW_WITHIN_DAYS = 45
"""Weeks for care are told from so many days before they begin."""

DONE_WITHIN_DAYS = 365
"""Care that was done so lately is not proposed again (common practice)."""

_WHAT: Mapping[str, str] = MappingProxyType(
    {
        AERATION: tr("Core aeration, if thatch or compaction asks for it"),
        OVERSEEDING: tr("Overseeding, only where the turf is thin"),
    }
)


def mowing_tasks(setting: Setting, mowing: Sequence[Mowing]) -> Iterator[Task]:
    """The zones to be mown within two weeks; where no mowing is on record, when to look."""
    for each in mowing:
        zone = setting.notebook.zones[each.zone_id]
        if each.height_in is None or each.every_days is None:
            continue
        stand = stand_of(setting, zone, each)
        if each.reason == NO_MORE_GROWTH:
            continue
        if each.next is None or stand is None:
            yield _mow(each, setting.on, *_by_ruler(each, each.height_in))
        elif each.next <= setting.on + timedelta(days=MOW_WITHIN_DAYS):
            yield _mow(each, max(setting.on, each.next), *_by_rule(stand))


def care_tasks(setting: Setting, water: Sequence[ZoneWater]) -> Iterator[Task]:
    """Weeks for care that are open or open soon, where it was not done within a year."""
    thatch_in = {zone.zone_id: zone.thatch_in for zone in water}
    told_of: set[tuple[str, str]] = set()
    until = setting.on + timedelta(days=WINDOW_WITHIN_DAYS)
    for window in windows_between(setting, setting.on, until):
        for zone_id, zone in zip(window.zone_ids, window.zones, strict=True):
            starts = max(setting.on, window.starts)
            if (window.kind, zone_id) in told_of or _done(setting, window.kind, zone_id, starts):
                continue
            reason = _thatch(thatch_in.get(zone_id)) if window.kind == AERATION else ""
            if reason is None:
                continue
            told_of.add((window.kind, zone_id))
            yield Task(
                key=f"{window.kind}:{zone_id}",
                kind="care",
                what=f"{_WHAT[window.kind]}: {zone}",
                date=starts,
                latest=window.ends,
                why=f"{window.why}{reason}",
                zone_id=zone_id,
                zone=zone,
                workings=window.workings,
                care_kind=window.kind,
            )


def _mow(mowing: Mowing, on: date, what: str, why: str) -> Task:
    return Task(
        key=f"mow:{mowing.zone_id}",
        kind="mow",
        what=f"{what}: {mowing.zone}",
        date=on,
        why=why,
        zone_id=mowing.zone_id,
        zone=mowing.zone,
        workings=mowing.workings,
        care_kind=MOWING,
    )


def _by_rule(stand: Stand) -> tuple[str, str]:
    """What to mow to, in one cut or in several where the grass has outgrown the rule."""
    cuts = cuts_down(stand.stands_in, stand.height_in)
    at = plainly(mow_at_in(stand.height_in), "in")
    if len(cuts) == 1:
        return tr("Mow to {plainly}", plainly=plainly(cuts[0], "in")), (
            tr(
                "By then it stands at {at}, one and a half times the height of cut: more than "
                "a third at once sets grass back.",
                at=at,
            )
        )
    steps = tr(", then to ").join(plainly(cut, "in", 1) for cut in cuts[:-1])
    return tr("Mow to {steps}, then to {plainly}", steps=steps, plainly=plainly(cuts[-1], "in")), (
        tr(
            "It is reckoned to stand at {stands_in}, over {at}: bring it down in {cuts} "
            "some days apart, never more than a third each.",
            stands_in=told(stand.stands_in, 1, "in"),
            at=at,
            cuts=counted(len(cuts), "cut"),
        )
    )


def _by_ruler(mowing: Mowing, height_in: float) -> tuple[str, str]:
    """What to do where no mowing on record tells how high the grass stands."""
    often = "" if mowing.every_days is None else counted(mowing.every_days, "day")
    why = mowing.reason or tr(
        "No mowing is on record yet: note one down, and the next is reckoned."
    )
    height, at = plainly(height_in, "in"), plainly(mow_at_in(height_in), "in")
    return tr("Mow to {height} when it stands at {at}", height=height, at=at), (
        tr("At this growth that is every {often}. {why}", often=often, why=why)
    )


def _done(setting: Setting, kind: str, zone_id: str, starts: date) -> bool:
    care = last_care(setting.notebook, kind, zone_id)
    return care is not None and (starts - care.date).days < DONE_WITHIN_DAYS


def _thatch(thatch_in: float | None) -> str | None:
    """What the plugs say for aeration; None where they say that nothing asks for it."""
    if thatch_in is None:
        return tr(" No plug tells the thatch yet: pull one first. Mark heads and buried lines.")
    if thatch_in <= HALF_INCH:
        return None
    return tr(
        " Thatch is over {half_inch}. Mark heads and buried lines first.", half_inch=half_inch()
    )
