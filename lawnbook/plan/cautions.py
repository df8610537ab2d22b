"""The usual cautions. They defer to the label, to local rules and to licensed practice."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_ledger import carries_nitrogen
from lawnbook.plan.frost import frost_near
from lawnbook.plan.rooting import new_turf
from lawnbook.plan.season import within
from lawnbook.plan.strips import strips_of
from lawnbook.plan.workings import counted
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly, told
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product, Zone

LABEL = tr(
    "Read the product label first, for the label is the law: where it says less "
    "than this plan, it holds."
)
LOCAL_FEEDING = tr(
    "Local rules come first: local fertilizer law may forbid dates, places or "
    "amounts, so check it before spreading."
)
WATERSIDE = tr(
    "Keep fertilizer off hard surfaces and out of water; sweep up what lands "
    "there, and leave a strip beside ponds, streams and drains."
)
CHILDREN_PETS = tr(
    "Keep children and pets off until the product is watered in and the grass is dry."
)
PROTECT = tr(
    "Wear the gloves and eye protection that the label names; store the rest dry and locked."
)
RAIN = tr("Do not spread before heavy rain, on frozen or on drought-stressed grass.")
LOCAL_WATER = tr("Local watering rules and drought orders come before this plan.")
BACKFLOW = tr(
    "Backflow preventers, mains and wiring are work for a licensed person; have "
    "the preventer tested as your code asks."
)
DIGGING = tr(
    "Before you dig, even for a plug, have buried lines located (call 811 in the "
    "United States); mark sprinkler pipe and wire yourself."
)
DORMANT = tr(
    "While the lawn is let go dormant: no feeding, no weed killer, and as little "
    "traffic and mowing as can be."
)
RECLAIMED = tr(
    "Reclaimed water: label its outlets, keep it away from drinking water, food "
    "and play, and follow the local code."
)
RECLAIMED_SALT = tr("It may be salty: have it tested, and enter its salinity under Yard.")
DRAIN = tr(
    "Have lines and backflow preventer drained before the first hard freeze; "
    "compressed air can hurt people and pipes, so leave it to a practised hand, "
    "licensed where your code asks."
)


def plan_cautions(setting: Setting) -> tuple[str, ...]:
    """The cautions beside a whole plan, those of the day first."""
    watered = any(zone.irrigated for zone in setting.notebook.zones.values())
    water = (LOCAL_WATER, BACKFLOW) if watered else ()
    return (
        *_of_the_day(setting),
        *_of_strips(setting.notebook, tuple(setting.notebook.zones.values())),
        LABEL,
        LOCAL_FEEDING,
        WATERSIDE,
        CHILDREN_PETS,
        *water,
        *_of_the_water(setting.notebook, watered),
        DIGGING,
    )


def is_reclaimed(notebook: Notebook) -> bool:
    """Whether the owner's words on the water's source say that it is used again."""
    source = notebook.yard.water_source.lower()
    return any(word in source for word in ("reclaimed", "recycled", "grey", "gray", "effluent"))


def _of_the_day(setting: Setting) -> Iterator[str]:
    if setting.notebook.yard.drought == "survival" and _in_season(setting):
        yield DORMANT
    in_ground = any(
        zone.irrigated and zone.sprinklers == "in-ground"
        for zone in setting.notebook.zones.values()
    )
    near = frost_near(setting) if in_ground else None
    if near is not None and near.came is not None and near.low_f is not None:
        yield tr(
            "Frost came on {came} ({low_f}). {drain}",
            came=day(near.came),
            low_f=told(near.low_f, 0, "°F"),
            drain=DRAIN,
        )
    elif near is not None:
        yield tr("Frost is usual within the next 30 days. {drain}", drain=DRAIN)


def _of_the_water(notebook: Notebook, watered: bool) -> Iterator[str]:
    if watered and is_reclaimed(notebook):
        untested = notebook.yard.water_ec_ds_per_m is None
        yield f"{RECLAIMED} {RECLAIMED_SALT}" if untested else RECLAIMED


def _in_season(setting: Setting) -> bool:
    return setting.season is None or within(setting.season, setting.on)


def spread_cautions(
    notebook: Notebook, product: Product, on: date, zones: Sequence[Zone] | None = None
) -> tuple[str, ...]:
    """The cautions before spreading a product on some zones, or on all of them, on a day."""
    fed = tuple(notebook.zones.values()) if zones is None else tuple(zones)
    return (
        *_of_the_notebook(notebook, product, on),
        *_of_phosphate(notebook, product, fed, on),
        *_of_strips(notebook, fed),
        LABEL,
        LOCAL_FEEDING,
        WATERSIDE,
        CHILDREN_PETS,
        PROTECT,
        RAIN,
    )


def _of_the_notebook(notebook: Notebook, product: Product, on: date) -> Iterator[str]:
    later = [each.date for each in notebook.feedings.values() if each.date > on]
    end = n_year(on, notebook.yard.latitude_deg or 0.0).end
    if notebook.yard.drought == "survival":
        yield DORMANT
    counted_later = [each for each in later if each <= end]
    if counted_later:
        is_not = tr("is not") if len(counted_later) == 1 else tr("are not")
        yield (
            tr(
                "{feedings} of the same year, recorded after {on}, {is_not} counted here.",
                feedings=counted(len(counted_later), "feeding"),
                on=day(on),
                is_not=is_not,
            )
        )
    if not carries_nitrogen(product):
        yield tr("{name} carries no nitrogen; its rate is the label's alone.", name=product.name)


def _of_phosphate(
    notebook: Notebook, product: Product, zones: Sequence[Zone], on: date
) -> Iterator[str]:
    if analysis_of(product).p2o5_pct <= 0:
        return
    rooting = new_turf(as_of(notebook, on), on)
    new = [zone.name for zone in zones if zone.id in rooting and rooting[zone.id].on(on)]
    if product.starter and new:
        yield (
            tr(
                "{name} carries phosphate: on new turf ({names_told}) a starter needs no soil "
                "test here, but local law decides.",
                name=product.name,
                names_told=names_told(new),
            )
        )
    if len(new) < len(zones) or not product.starter:
        yield (
            tr(
                "{name} carries phosphate: many places allow it only where a soil test asks "
                "for it.",
                name=product.name,
            )
        )


def _of_strips(notebook: Notebook, zones: Sequence[Zone]) -> Iterator[str]:
    """Each strip that reaches a zone, with its width and the zones that it reaches."""
    reached: dict[tuple[str, float], list[str]] = {}
    for zone in zones:
        for strip in strips_of(notebook, zone).strips:
            names = reached.setdefault((strip.name, strip.width_ft), [])
            if zone.name not in names:
                names.append(zone.name)
    for (name, width_ft), names in reached.items():
        into = names_told(names)
        yield (
            tr(
                "Leave {plainly} beside the {name} unfed: the strip reaches into {into}.",
                plainly=plainly(width_ft, "ft", 4),
                name=name,
                into=into,
            )
        )
