"""The parts of a plan, zone by zone, each remembered with all that it was made from."""

from dataclasses import fields, replace
from datetime import date
from functools import partial
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.plan.feed_ledger import ZoneFeed, dry_feeds_of, with_water
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import ZoneNitrogen, ZoneWater
from lawnbook.plan.mowing import mowing_of
from lawnbook.plan.nitrogen import zone_nitrogen
from lawnbook.plan.season_model import Mowing, Task
from lawnbook.plan.tasks import dry_tasks, tasks_with
from lawnbook.plan.water import zone_water
from lawnbook.plan.zone_facts import (
    Setting,
    ZoneFacts,
    facts_of,
    of_zone,
    setting_of,
    small_notebook,
)
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Watering, Zone
from lawnbook.yard.table import Table

_DRY = tuple(each.name for each in fields(Notebook) if each.name != "waterings")
"""All that a notebook holds but the waterings on record."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What a plan is joined from, by zone in the owner's order.

    `dry` is the setting without the waterings on record: the same object from plan to plan while
    nothing else changes, so that it stands for all that is made from it.
    """

    setting: Setting
    dry: Setting
    facts: tuple[ZoneFacts, ...]
    water: tuple[ZoneWater, ...]
    nitrogen: tuple[ZoneNitrogen, ...]
    mowing: tuple[Mowing, ...]
    tasks: tuple[Task, ...]


def parts_of(known: Notebook, on: date, memo: Memo) -> Parts:
    """The parts of the plan of a day; `known` is the notebook as of it."""
    setting = setting_of(known, on, memo)
    held = tuple(getattr(known, name) for name in _DRY)
    dry = memo.part("dry", (on, *held), lambda: _without_waterings(setting))
    pairs = _waters(setting, memo)
    water = tuple(each for _, each in pairs)
    nitrogen = _nitrogens(setting, memo, dry)
    zones = known.zones.values()
    mowing = memo.part("mowing", (dry,), lambda: tuple(mowing_of(dry, z) for z in zones))
    rest = memo.part(tr("dry tasks"), (dry,), lambda: dry_tasks(dry, water, mowing))
    return Parts(
        setting=setting,
        dry=dry,
        facts=tuple(each for each, _ in pairs),
        water=water,
        nitrogen=nitrogen,
        mowing=mowing,
        tasks=tasks_with(water, nitrogen, rest, memo),
    )


def _without_waterings(setting: Setting) -> Setting:
    """The setting of all that no watering changes: nothing made from it can look at one."""
    dry = replace(setting.notebook, waterings=Table({}))
    return replace(setting, notebook=dry, waterings=MappingProxyType({}))


def _waters(setting: Setting, memo: Memo) -> list[tuple[ZoneFacts, ZoneWater]]:
    """Each zone's facts and water, from its own waterings and plugs and what all zones share."""
    known = setting.notebook
    held = (known.yard, known.water_rules, known.zones, known.heads, known.catch_tests)
    small = memo.part("small", (*held, known.climate), lambda: small_notebook(known))
    mark = memo.mark("water", setting.on, setting.weather, small)
    pairs = []
    for number, zone in enumerate(known.zones.values(), start=1):
        spots = setting.spots.get(zone.id, ())
        plugs = tuple(setting.cores.get(each, ()) for each in spots)
        names = tuple(setting.spot_names[each] for each in spots)
        made_from = (mark, setting.waterings.get(zone.id, ()), spots, plugs, names)
        make = partial(_water, setting, zone, small, number)
        pairs.append(memo.part(("water", zone.id), made_from, make))
    return pairs


def _water(
    setting: Setting, zone: Zone, small: Notebook, number: int
) -> tuple[ZoneFacts, ZoneWater]:
    own = of_zone(setting, zone, small)
    facts = facts_of(own, zone, number)
    return facts, zone_water(own, facts)


def _nitrogens(setting: Setting, memo: Memo, dry: Setting) -> tuple[ZoneNitrogen, ...]:
    """Each zone's nitrogen, from all but waterings, and from its own where water brings any."""
    book, on = dry.notebook, dry.on
    feeds = memo.part("feeds", (dry,), lambda: dry_feeds_of(book, dry.areas, on))
    carries = bool(book.yard.water_n_mg_per_l)
    made = []
    for number, zone in enumerate(book.zones.values(), start=1):
        waterings = setting.waterings.get(zone.id, ()) if carries else ()
        make = partial(_nitrogen, book, feeds[zone.id], waterings, number, on)
        made.append(memo.part(("nitrogen", zone.id), (dry, waterings), make))
    return tuple(made)


def _nitrogen(
    book: Notebook, dry: ZoneFeed, waterings: tuple[Watering, ...], number: int, on: date
) -> ZoneNitrogen:
    return zone_nitrogen(book, with_water(book, dry, waterings, on), number, on)
