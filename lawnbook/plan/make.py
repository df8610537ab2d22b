"""The plan of a yard on a day: a pure function of the notebook and the date."""

from datetime import date

from lawnbook.plan.cautions import plan_cautions
from lawnbook.plan.due import due_of
from lawnbook.plan.feed_ledger import feeds_of
from lawnbook.plan.lawn_feed import lawn_nitrogen
from lawnbook.plan.model import Plan
from lawnbook.plan.nitrogen import zone_nitrogen
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.schedule import programs_of
from lawnbook.plan.season import plannable
from lawnbook.plan.thatch import spot_thatch
from lawnbook.plan.water import zone_water
from lawnbook.plan.workings import cited
from lawnbook.plan.zone_facts import Setting, facts_of, setting_of
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
    thatch = _thatch(setting)
    return Plan(
        on=on,
        yard=known.yard.name,
        zones=water,
        nitrogen=nitrogen,
        thatch=thatch,
        due=due_of(setting, water, nitrogen),
        cautions=plan_cautions(setting),
        sources=cited(
            working
            for workings in (
                *(each.workings for each in water),
                *(each.workings for each in nitrogen),
                *(each.workings for each in thatch),
            )
            for working in workings
        ),
        programs=programs_of(setting, water, facts),
        lawn_nitrogen=lawn_nitrogen(nitrogen),
        eto_days=setting.weather.eto_days,
    )


def _thatch(setting: Setting) -> tuple[SpotThatch, ...]:
    zones = setting.notebook.zones
    spots = []
    for spot in setting.notebook.spots.values():
        zone = zones.get(zone_of_spot(setting.notebook, spot))
        cores = setting.cores.get(spot.id, ())
        spots.append(spot_thatch(spot, zone.name if zone else "", cores, setting.on))
    return tuple(spots)
