"""Notes on a zone's water itself: a dry year, the supply's flow, salt, a hose moved by hand."""

from collections.abc import Iterator

from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.agronomy.salinity import leaching_requirement, restriction, salt_borne_ds_per_m
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import flow_gpm_of
from lawnbook.plan.rates import places_of
from lawnbook.plan.workings import run_minutes_told, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.amounts import bare
from lawnbook.yard.numbers import minutes

FLOW_SLACK = 0.02
"""Share by which a zone may draw more than its supply gives before that is worth a word."""


def drought_notes(setting: Setting, facts: ZoneFacts, today: MonthWater) -> Iterator[str]:
    """What a dry year's setting means for a watered zone, and what it risks."""
    drought = setting.notebook.yard.drought
    if drought == "off":
        return
    if today.rule == "light":
        yield "The dry-year setting waits here: new turf without roots is watered in full."
    elif today.rule == "survival":
        kept = survival_watering(facts.zone.species, facts.zone.grass)
        name = _grass_words(facts)
        yield (
            f"{name[:1].upper()}{name[1:]} let go dormant bears about {kept.weeks_borne} weeks "
            f"without any water on deep soil, fewer on shallow roots or under feet. {kept.risk}"
        )
    elif today.share_of_etc < 1:
        share = told(100 * today.share_of_etc, 0, "%")
        yield (
            f"Dry year: each watering gives back {share} of the use, at the same interval. The "
            "grass thins before it dies: water in full again where it does."
        )


def flow_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    """That a zone draws more than the supply gives, with both figures."""
    flow, most = flow_gpm_of(facts), setting.notebook.yard.max_gpm
    if flow is None or most is None or flow <= most * (1 + FLOW_SLACK):
        return
    yield (
        f"Draws {told(flow, 1, 'gpm')}; your supply gives {bare(most, 1, 'gpm')}: run fewer heads "
        "at a "
        "time, or the rate here cannot be right."
    )


def hose_notes(facts: ZoneFacts, today: MonthWater) -> Iterator[str]:
    """How long a sprinkler on a hose runs at each of its places, and in all."""
    run, places = run_minutes_told(today), places_of(facts.zone)
    if facts.zone.sprinklers != "hose" or run is None:
        return
    if places == 1:
        yield f"On a hose: {minutes(run)} in one place, with no timer to end it."
        return
    yield (
        f"Moved by hand: {places} places, {minutes(run)} each, {minutes(places * run)} in all, "
        "with no timer to end it."
    )


def salt_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    """How far the water's salt restricts it, and what would rinse it past these roots."""
    ecw = setting.notebook.yard.water_ec_ds_per_m
    if ecw is None or restriction(ecw) == "none":
        return
    borne = salt_borne_ds_per_m(facts.zone.species, facts.zone.grass)
    word = {"slight to moderate": "slightly to moderately", "severe": "severely"}[restriction(ecw)]
    share = leaching_requirement(ecw, borne)
    lead = (
        f"Water of {told(ecw, 1, 'dS/m')} is {word} restricted by its salt; {_grass_words(facts)} "
        f"bears about {told(borne, 1)} in the soil"
    )
    if share is None:
        yield f"{lead}, less than such water leaves there: use other water, or another grass."
        return
    drains = f"about {told(100 * share, 0, '%')} of the water must drain past the roots"
    yield (
        f"{lead}. Where rain does not rinse it, {drains}: that is not in these figures. Have the "
        "soil's salt tested."
    )


def _grass_words(facts: ZoneFacts) -> str:
    return facts.zone.species.strip() or f"{facts.zone.grass}-season turf"
