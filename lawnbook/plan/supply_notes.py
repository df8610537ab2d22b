"""Notes on a zone's water itself: a dry year, the supply's flow, salt, a hose moved by hand."""

from collections.abc import Iterator

from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.agronomy.salinity import leaching_requirement, restriction, salt_borne_ds_per_m
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import flow_gpm_of
from lawnbook.plan.rates import places_of
from lawnbook.plan.workings import run_minutes_told, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
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
        yield tr("The dry-year setting waits here: new turf without roots is watered in full.")
    elif today.rule == "survival":
        kept = survival_watering(facts.zone.species, facts.zone.grass)
        name = _grass_words(facts)
        yield (
            tr(
                "{name} let go dormant bears about {weeks_borne} weeks without any "
                "water on deep soil, fewer on shallow roots or under feet. {risk}",
                name=name[:1].upper() + name[1:],
                weeks_borne=kept.weeks_borne,
                risk=kept.risk,
            )
        )
    elif today.share_of_etc < 1:
        share = told(100 * today.share_of_etc, 0, "%")
        yield (
            tr(
                "Dry year: each watering gives back {share} of the use, at the same interval. "
                "The grass thins before it dies: water in full again where it does.",
                share=share,
            )
        )


def flow_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    """That a zone draws more than the supply gives, with both figures."""
    flow, most = flow_gpm_of(facts), setting.notebook.yard.max_gpm
    if flow is None or most is None or flow <= most * (1 + FLOW_SLACK):
        return
    yield (
        tr(
            "Draws {flow}; your supply gives {bare}: run fewer heads at a time, or the "
            "rate here cannot be right.",
            flow=told(flow, 1, "gpm"),
            bare=bare(most, 1, "gpm"),
        )
    )


def hose_notes(facts: ZoneFacts, today: MonthWater) -> Iterator[str]:
    """How long a sprinkler on a hose runs at each of its places, and in all."""
    run, places = run_minutes_told(today), places_of(facts.zone)
    if facts.zone.sprinklers != "hose" or run is None:
        return
    if places == 1:
        yield tr("On a hose: {run} in one place, with no timer to end it.", run=minutes(run))
        return
    yield (
        tr(
            "Moved by hand: {places} places, {run} each, {whole_run} in all, with no timer "
            "to end it.",
            places=places,
            run=minutes(run),
            whole_run=minutes(places * run),
        )
    )


def salt_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    """How far the water's salt restricts it, and what would rinse it past these roots."""
    ecw = setting.notebook.yard.water_ec_ds_per_m
    if ecw is None or restriction(ecw) == "none":
        return
    borne = salt_borne_ds_per_m(facts.zone.species, facts.zone.grass)
    word = {"slight to moderate": tr("slightly to moderately"), "severe": "severely"}[
        restriction(ecw)
    ]
    share = leaching_requirement(ecw, borne)
    lead = tr(
        "Water of {ecw} is {word} restricted by its salt; {grass_words} bears about "
        "{borne} in the soil",
        ecw=told(ecw, 1, "dS/m"),
        word=word,
        grass_words=_grass_words(facts),
        borne=told(borne, 1),
    )
    if share is None:
        yield tr(
            "{lead}, less than such water leaves there: use other water, or another grass.",
            lead=lead,
        )
        return
    drains = tr(
        "about {share} of the water must drain past the roots", share=told(100 * share, 0, "%")
    )
    yield (
        tr(
            "{lead}. Where rain does not rinse it, {drains}: that is not in these figures. "
            "Have the soil's salt tested.",
            lead=lead,
            drains=drains,
        )
    )


def _grass_words(facts: ZoneFacts) -> str:
    return facts.zone.species.strip() or tr("{grass}-season turf", grass=tr(facts.zone.grass))
