"""The plan of a yard on a day: a pure function of the notebook and the date."""

from collections.abc import Iterable, Iterator
from datetime import date

from lawnbook.plan.care_marks import care_marks
from lawnbook.plan.cautions import plan_cautions
from lawnbook.plan.due import due_of
from lawnbook.plan.evidence import yard_thatch, zones_thatch
from lawnbook.plan.feed_ledger import feeds_of
from lawnbook.plan.findings import findings_of
from lawnbook.plan.lawn_feed import lawn_nitrogen
from lawnbook.plan.model import Plan
from lawnbook.plan.mowing import mowing_of
from lawnbook.plan.next_plugs import next_plugs_of
from lawnbook.plan.nitrogen import zone_nitrogen
from lawnbook.plan.plug_model import Evidence, SpotThatch, ZoneThatch
from lawnbook.plan.schedule import programs_of
from lawnbook.plan.season import plannable
from lawnbook.plan.tasks import tasks_of
from lawnbook.plan.thatch import spots_thatch
from lawnbook.plan.water import zone_water
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import cited
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of


def make_plan(notebook: Notebook, on: date) -> Plan:
    """The whole plan on a day, from what is dated up to it; outlines and settings are undated.

    The notebook must have passed its checks: references lead somewhere and limits hold. Raises
    OwnerError for a day beyond any notebook.
    """
    plannable(on)
    known = as_of(notebook, on)
    setting = setting_of(known, on)
    numbered = list(enumerate(known.zones.values(), start=1))
    facts = tuple(facts_of(setting, zone, n) for n, zone in numbered)
    water = tuple(zone_water(setting, each) for each in facts)
    feeds = feeds_of(known, setting.areas, on)
    nitrogen = tuple(zone_nitrogen(known, feeds[zone.id], n, on) for n, zone in numbered)
    mowing = tuple(mowing_of(setting, zone) for _, zone in numbered)
    tasks = tasks_of(setting, water, nitrogen, mowing)
    thatch, zones = spots_thatch(setting), zones_thatch(setting)
    yard = yard_thatch(setting)
    return Plan(
        on=on,
        yard=known.yard.name,
        zones=water,
        nitrogen=nitrogen,
        thatch=thatch,
        due=due_of(tasks, water),
        cautions=plan_cautions(setting),
        sources=cited(
            working
            for workings in (
                *(each.workings for each in water),
                *(each.workings for each in nitrogen),
                *_thatch_workings(thatch, (*zones, *((yard,) if yard else ()))),
                *(each.workings for each in tasks),
            )
            for working in workings
        ),
        programs=programs_of(setting, water, facts),
        lawn_nitrogen=lawn_nitrogen(nitrogen),
        eto_days=setting.weather.eto_days,
        zone_thatch=zones,
        yard_thatch=yard,
        findings=findings_of(setting, water, nitrogen),
        next_plugs=next_plugs_of(setting, zones),
        care=care_marks(known, None, on),
        tasks=tasks,
        mowing=mowing,
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
