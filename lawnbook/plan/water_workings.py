"""The workings of a zone's water figures, one for each figure that has a value."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.precipitation import DEFAULT_DU_LQ
from lawnbook.agronomy.soil import SOILS, Soil
from lawnbook.plan.cycle_workings import cycle_workings
from lawnbook.plan.filled_in import class_in, counted_in, numbered, put_in, reckons, steps, together
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import etc_in_per_day, month_water
from lawnbook.plan.next_workings import BEARS_FROM, next_watering_workings
from lawnbook.plan.rule_workings import USE_FROM, rule_workings
from lawnbook.plan.run_workings import (
    COST,
    GALLONS,
    RUN,
    cost_workings,
    depletion_workings,
    gallons_working,
    next_run_workings,
    set_minutes_working,
    year_workings,
)
from lawnbook.plan.season import month_name
from lawnbook.plan.water_figures import Figures
from lawnbook.plan.working_model import DAY, Input, Working
from lawnbook.plan.workings import (
    chosen,
    counted,
    given,
    sources,
    told,
    told_exactly,
    told_not_below_zero,
)
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr

ROOTED_FROM = tr("worked out: root depth − thatch")
"""Where a figure that has a working of its own comes from."""


MIDDLE_OF_MONTH = 15
"""The day that stands for a month which is not that of the plan."""


def workings_of(setting: Setting, facts: ZoneFacts, figures: Figures) -> tuple[Working, ...]:
    """The workings in the order in which one figure leads to the next."""
    listed = [
        _area(facts),
        *([facts.rate.working] if facts.rate.working else []),
        _multiplier(facts),
    ]
    if figures.etc_in_per_day is not None:
        listed.append(_etc(setting, facts, figures.etc_in_per_day))
    listed += [_rooted(facts), _bearable(facts), _roots_needed(facts, figures)]
    if figures.today.etc_in_per_day is not None:
        listed += _watering(setting, facts, figures)
    if figures.ledger is not None:
        listed += depletion_workings(setting, facts, figures.ledger)
        listed += next_watering_workings(setting, facts, figures.ledger)
        if figures.next_run is not None:
            listed += next_run_workings(setting, facts, figures.ledger, figures.next_run)
    if figures.year is not None:
        listed += year_workings(setting, facts, figures.year)
    return tuple(listed)


def workings_by_month(setting: Setting, facts: ZoneFacts) -> tuple[tuple[Working, ...], ...]:
    """The workings of the waterings of each month, January first; () where there are none."""
    return tuple(tuple(_of_month(setting, facts, month)) for month in range(1, 13))


def _of_month(setting: Setting, facts: ZoneFacts, month: int) -> Iterator[Working]:
    then = replace(setting, on=date(setting.on.year, month, MIDDLE_OF_MONTH))
    etc, planned = etc_in_per_day(then, facts, month), month_water(then, facts, month)
    if etc is None:
        return
    yield _etc(then, facts, etc)
    yield _bearable(facts)
    if planned.etc_in_per_day is not None:
        figures = Figures(
            today=planned,
            etc_in_per_day=etc,
            target_interval_days=None,
            roots_needed_in=0.0,
            ledger=None,
            next_allowed=None,
        )
        yield from _watering(then, facts, figures)


def _watering(setting: Setting, facts: ZoneFacts, figures: Figures) -> Iterator[Working]:
    today, etc = figures.today, figures.today.etc_in_per_day or 0.0
    if today.interval_days is None or today.depth_in is None or today.gallons is None:
        return
    yield from rule_workings(setting, facts, today)
    if today.rule == "deep":
        yield _interval(facts, etc, today.interval_days)
        yield _depth(setting, facts, today, today.depth_in)
        yield _shortfall(facts, etc, today.shortfall_in_per_day)
    if figures.target_interval_days is not None:
        yield _target_interval(facts, etc, figures.target_interval_days)
    if today.run_minutes is not None:
        yield set_minutes_working(facts, RUN, today.depth_in, today)
        if today.rule != "light":
            yield from cycle_workings(facts, today, today.run_minutes)
    yield gallons_working(facts, GALLONS, today.depth_in, today.gallons)
    yield from cost_workings(setting, COST, today.gallons, today.cost)


def _area(facts: ZoneFacts) -> Working:
    value = told(facts.area_sqft, 0, "sq ft")
    corners = len(facts.zone.outline_ft)
    holes = len(facts.zone.holes_ft)
    inputs = [
        given(
            tr("Outline"),
            tr("{corners} corners", corners=corners),
            tr("drawn or measured, on the sketch"),
        )
    ]
    if holes:
        inputs.append(given(tr("Holes"), str(holes), tr("drawn on the sketch")))
    scaled = given(tr("All lengths"), told(1.0), tr("1 is as drawn"))
    inputs.append(together(scaled, "scale"))
    return Working(
        "area_sqft",
        tr("Area"),
        value,
        tr("area of the outline less its holes: half the sum of xᵢ × yᵢ₊₁ − xᵢ₊₁ × yᵢ"),
        value,
        tuple(inputs),
        sources(),
        reckons(tr("{area_sqft!r} × {{scale}}²", area_sqft=facts.area_sqft), "sq ft", 0),
    )


def _multiplier(facts: ZoneFacts) -> Working:
    du_lq = DEFAULT_DU_LQ if facts.rate.du_lq is None else facts.rate.du_lq
    du = numbered(facts.rate.du_input, "du", du_lq)
    formula = "1 ÷ (0.4 + 0.6 × {du})"
    keys = ("multiplier", "default-uniformity") if du.is_default else ("multiplier", "ia-catch-can")
    return Working(
        "multiplier",
        tr("Run-time multiplier"),
        told(facts.multiplier),
        "1 ÷ (0.4 + 0.6 × DU_LQ)",
        put_in(formula, (du,)),
        (du,),
        sources(*keys),
        reckons(formula),
    )


def _etc(setting: Setting, facts: ZoneFacts, etc: float) -> Working:
    month = setting.on.month
    weather = setting.weather.month(month)
    kc, micro = facts.kc_by_month[month - 1], facts.zone.microclimate
    eto = weather.eto_in_per_day or 0.0
    kc_told = given(
        tr(
            "Kc, {grass} season, {month_name}",
            grass=tr(facts.zone.grass),
            month_name=month_name(month),
        ),
        told(kc),
        tr("table by month"),
    )
    micro_told = chosen(tr("Microclimate factor"), told(micro), micro != 1.0, tr("open ground"))
    inputs = [
        *([numbered(weather.eto_input, "eto", eto, "in/day")] if weather.eto_input else []),
        numbered(kc_told, "kc", kc),
        numbered(micro_told, "micro", micro),
        *([weather.tmean_input] if weather.tmean_input else []),
    ]
    dormant = etc == 0.0 and eto > 0
    formula = "{eto} × {kc} × {micro}"
    filled = put_in(formula, inputs) if weather.eto_input else ""
    weather_source = () if weather.eto_source == sources() else (weather.eto_source,)
    source = " · ".join(
        [sources("uc-kc", "wucols", *(["dormancy"] if dormant else [])), *weather_source]
    )
    return Working(
        "etc_in_per_day",
        tr("Water use"),
        told(etc, 3, "in/day"),
        tr("ETo × Kc × microclimate, zero while dormant"),
        tr("{filled}, dormant: 0", filled=filled) if dormant else filled,
        tuple(inputs),
        source,
        reckons(f"{formula} × 0" if dormant else formula, "in/day", 3),
    )


def _rooted(facts: ZoneFacts) -> Working:
    roots = facts.roots
    return Working(
        "rooted_soil_in",
        tr("Rooted soil"),
        told(roots.rooted_soil_in, 2, "in"),
        tr("root depth from the crowns − thatch, not below zero"),
        told_not_below_zero(roots.root_depth_in, roots.thatch_in),
        (
            numbered(roots.root_input, "roots", roots.root_depth_in, "in"),
            numbered(roots.thatch_input, "thatch", roots.thatch_in, "in"),
        ),
        sources("default-roots") if roots.root_input.is_default else sources(),
        reckons("max(0, {roots} − {thatch})", "in"),
    )


def _bearable(facts: ZoneFacts) -> Working:
    rooted = given(tr("Rooted soil"), told(facts.roots.rooted_soil_in, 2, "in"), ROOTED_FROM)
    formula = "{depletion} × {aw} × {rooted}"
    inputs = (
        _depletion(facts),
        *_water_held(facts),
        numbered(rooted, "rooted", facts.roots.rooted_soil_in, "in"),
    )
    return Working(
        "bearable_depth_in",
        tr("What the roots bear"),
        told(facts.bearable_in, 2, "in"),
        tr("allowed depletion × available water × rooted soil"),
        put_in(formula, inputs),
        inputs,
        sources("fao56", "depletion", "ia-schedule"),
        reckons(formula, "in"),
    )


def _roots_needed(facts: ZoneFacts, figures: Figures) -> Working:
    formula = "{target} ÷ ({depletion} × {aw})"
    inputs = (_target(facts), _depletion(facts), *_water_held(facts))
    return Working(
        "roots_needed_in",
        tr("Roots that bear the target"),
        told(figures.roots_needed_in, 1, "in"),
        tr("target ÷ (allowed depletion × available water), below the thatch"),
        put_in(formula, inputs),
        inputs,
        sources("fao56", "ia-schedule"),
        reckons(formula, "in", 1),
    )


def _target(facts: ZoneFacts) -> Input:
    return numbered(facts.target_input, "target", facts.target_in, "in")


def _depletion(facts: ZoneFacts) -> Input:
    return numbered(facts.depletion_input, "depletion", facts.depletion)


def _water_held(facts: ZoneFacts) -> tuple[Input, Input]:
    """The texture, which is a class, and the water that the table gives for it."""
    held = facts.soil.available_water_in_per_in
    water = given(
        tr("Available water"), told(held, 2, "in/in"), tr("table, {name}", name=tr(facts.soil.name))
    )
    return facts.soil_input, class_in(water, "aw", held, textures_beside(facts.soil))


def textures_beside(soil: Soil) -> tuple[tuple[str, float], ...]:
    """The next finer and the next coarser texture of the table, with the water they hold."""
    names = list(SOILS)
    place = names.index(soil.name)
    beside = [names[at] for at in (place - 1, place + 1) if 0 <= at < len(names)]
    return tuple((tr(name), SOILS[name].available_water_in_per_in) for name in beside)


def _use(etc: float) -> Input:
    told_of = given(tr("Water use"), told(etc, 3, "in/day"), USE_FROM)
    return numbered(told_of, "use", etc, "in/day")


def _bears(facts: ZoneFacts) -> Input:
    told_of = given(tr("What the roots bear"), told(facts.bearable_in, 2, "in"), BEARS_FROM)
    return numbered(told_of, "bears", facts.bearable_in, "in")


def _interval(facts: ZoneFacts, etc: float, days: int) -> Working:
    formula = "min({target}, {bears}) ÷ {use}"
    inputs = (_target(facts), _bears(facts), _use(etc))
    return Working(
        "interval_days",
        tr("Days between waterings"),
        counted(days, "day"),
        tr("whole part of (lesser of target and what the roots bear ÷ water use), at least 1"),
        f"{put_in(formula, inputs)} = {told_exactly(facts.allowance_in / etc)}",
        inputs,
        sources("fao56"),
        steps(formula, DAY, "down", 1),
    )


def _depth(setting: Setting, facts: ZoneFacts, today: MonthWater, depth: float) -> Working:
    days, etc, share = today.interval_days, today.etc_in_per_day or 0.0, today.share_of_etc
    formula = tr("days between waterings × water use, at most what the roots bear")
    anew = "min({days:0} × {use}, {bears})"
    days_told = given(
        tr("Days between waterings"), str(days), tr("worked out from target and roots")
    )
    inputs = [counted_in(days_told, "days", float(days or 0), DAY), _use(etc), _bears(facts)]
    if share != 1:
        formula = tr("share given in a dry year × ({formula})", formula=formula)
        anew = tr("{{share}} × {anew}", anew=anew)
        typed = setting.notebook.yard.drought_share is not None
        given_back = chosen(tr("Share given"), told(share), typed, tr("common practice"), "yard")
        inputs.append(numbered(given_back, "share", share))
    return Working(
        "depth_in",
        tr("Depth of a watering"),
        told(depth, 2, "in"),
        formula,
        put_in(anew, inputs),
        tuple(inputs),
        sources("fao56"),
        reckons(anew, "in"),
    )


def _shortfall(facts: ZoneFacts, etc: float, shortfall: float) -> Working:
    return Working(
        "shortfall_in_per_day",
        tr("Shortfall"),
        told(shortfall, 2, "in/day"),
        tr("water use of one day − what the roots bear, not below zero"),
        told_not_below_zero(etc, facts.bearable_in),
        (_use(etc), _bears(facts)),
        sources("fao56"),
        reckons("max(0, {use} − {bears})", "in/day"),
    )


def _target_interval(facts: ZoneFacts, etc: float, days: int) -> Working:
    formula = "{target} ÷ {use}"
    inputs = (_target(facts), _use(etc))
    return Working(
        "target_interval_days",
        tr("Days between waterings at the target"),
        counted(days, "day"),
        tr("whole part of (target ÷ water use), at least 1"),
        f"{put_in(formula, inputs)} = {told_exactly(facts.target_in / etc)}",
        inputs,
        sources("practice-inch", "deep-seldom"),
        steps(formula, DAY, "down", 1),
    )
