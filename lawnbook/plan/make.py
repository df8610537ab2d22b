"""The plan of a yard on a day: a pure function of the notebook and the date."""

from collections.abc import Iterable, Iterator
from datetime import date
from functools import partial

from lawnbook.plan.care_marks import care_marks
from lawnbook.plan.cautions import plan_cautions
from lawnbook.plan.due import due_of
from lawnbook.plan.evidence import yard_thatch, zones_thatch
from lawnbook.plan.findings import findings_of
from lawnbook.plan.lawn_feed import lawn_nitrogen
from lawnbook.plan.lazily import Later
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import Plan
from lawnbook.plan.next_plugs import next_plugs_of
from lawnbook.plan.parts import Parts, parts_of
from lawnbook.plan.plug_model import Evidence, NextPlug, SpotThatch, ZoneThatch
from lawnbook.plan.plug_shelf import PlugShelf
from lawnbook.plan.schedule import programs_of
from lawnbook.plan.season import plannable
from lawnbook.plan.thatch import spots_thatch
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import cited
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook, as_of


def make_plan(notebook: Notebook, on: date, memo: Memo | None = None) -> Plan:
    """The whole plan on a day, from what is dated up to it; outlines and settings are undated.

    With a `memo` of the plan before, what an edit does not touch is taken from there: the plan is
    the same. The notebook must have passed its checks: references lead somewhere and limits hold.
    Raises OwnerError for a day beyond any notebook.
    """
    plannable(on)
    kept = Memo() if memo is None else memo
    kept.begin()
    plan = _plan(parts_of(as_of(notebook, on), on, kept), kept)
    kept.end()
    return plan


def _plan(parts: Parts, memo: Memo) -> Plan:
    """What is read at once, and promises of the rest, remembered like all other parts."""
    setting, dry, on = parts.setting, parts.dry, parts.setting.on
    shelf = memo.part(tr("plug shelf"), (), PlugShelf)
    spots = memo.part("thatch", (dry,), lambda: Later(partial(spots_thatch, dry, shelf)))
    zones = memo.part("zone_thatch", (dry,), lambda: Later(partial(zones_thatch, dry, shelf)))
    yard = memo.part("yard_thatch", (dry,), lambda: Later(partial(yard_thatch, dry, shelf)))
    return Plan(
        on=on,
        yard=dry.notebook.yard.name,
        zones=parts.water,
        nitrogen=parts.nitrogen,
        thatch=spots,
        due=due_of(parts.tasks, parts.water, memo),
        cautions=memo.part("cautions", (dry,), lambda: plan_cautions(dry)),
        sources=Later(lambda: _sources(parts, spots(), zones(), yard())),
        programs=Later(partial(programs_of, setting, parts.water, parts.facts)),
        lawn_nitrogen=Later(partial(lawn_nitrogen, parts.nitrogen)),
        eto_days=setting.weather.eto_days,
        zone_thatch=zones,
        yard_thatch=yard,
        findings=Later(partial(findings_of, setting, parts.water, parts.nitrogen, shelf)),
        next_plugs=memo.part("plugs", (dry,), lambda: _next_plugs(dry, zones)),
        care=memo.part("care", (dry,), lambda: Later(partial(care_marks, dry.notebook, None, on))),
        tasks=parts.tasks,
        mowing=parts.mowing,
    )


def _next_plugs(
    setting: Setting, zones: Later[tuple[ZoneThatch, ...]]
) -> Later[tuple[NextPlug, ...]]:
    return Later(lambda: next_plugs_of(setting, zones()))


def _sources(
    parts: Parts,
    spots: tuple[SpotThatch, ...],
    zones: tuple[ZoneThatch, ...],
    yard: ZoneThatch | None,
) -> tuple[str, ...]:
    """Every citation that the plan rests on, in order of use."""
    return cited(
        working
        for workings in (
            *(each.workings for each in parts.water),
            *(each.workings for each in parts.nitrogen),
            *_thatch_workings(spots, (*zones, *((yard,) if yard else ()))),
            *(each.workings for each in parts.tasks),
        )
        for working in workings
    )


def _thatch_workings(
    spots: Iterable[SpotThatch], means: Iterable[ZoneThatch]
) -> Iterator[Iterable[Working]]:
    """The workings of the plugs: those beside the verdicts first, then all behind the evidence."""
    spots = tuple(spots)
    yield from (each.workings for each in spots)
    shown: list[Evidence] = [each.evidence for each in spots if each.evidence is not None]
    shown += [each.evidence for each in means]
    yield from (each.workings for each in shown)
