"""Diagnosis in words: what plugs and records show, each sentence with its rule and source.

Never a product, never a promise. Findings are told by weight, and within a weight by zone, spot
and rule; none of one place contradicts another (`finding_rules.EXCLUDING`).
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from statistics import median

import numpy as np

from lawnbook.agronomy.soil_test import slows_thatch, still_holds
from lawnbook.plan.care_marks import CARE_KINDS, done_in
from lawnbook.plan.finding_rules import RULES
from lawnbook.plan.model import ZoneNitrogen, ZoneWater
from lawnbook.plan.plug_model import Finding, Weight
from lawnbook.plan.plug_shelf import PlugShelf
from lawnbook.plan.roots import zones_by_spot
from lawnbook.plan.spot_findings import soon_days
from lawnbook.plan.workings import and_joined, told
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.records import Care, Watering, Zone

RECORD_DAYS = 45
"""How far back the waterings recorded say how a zone is watered (common practice)."""

FEWEST_LIGHT = 8
LIGHT_IN = 0.35
LIGHT_GAP_DAYS = 2.0
FEWEST_DEEP = 3
DEEP_IN = 0.5
DEEP_GAP_DAYS = 4.0
"""What counts as light and daily, and as deep and seldom: gross inches, days (common practice)."""

RAIN_IN = 0.25
"""So much rain wets the thatch through (common practice)."""

SOD_YEARS = 3.0
OVER_LB = 0.05
"""Nitrogen over the year's budget that is worth telling, lb per 1,000 sq ft."""

_ORDER: Mapping[Weight, int] = {"warn": 0, "note": 1, "good": 2}
_RANKS = {key: n for n, key in enumerate(RULES)}
_REDUCING = ("microb", "biolog", "enzym", "bacteri", "biostim", "thatch reduc")
_UNTREATING = frozenset({"mowing height"})


def findings_of(
    setting: Setting,
    zones: Sequence[ZoneWater],
    nitrogen: Sequence[ZoneNitrogen],
    shelf: PlugShelf | None = None,
) -> tuple[Finding, ...]:
    """All findings of the day, the weightiest first; empty before the first plug or record.

    What spots say is taken from the `shelf` where their plugs are the same.
    """
    water = {each.zone_id: each for each in zones}
    fed = {each.zone_id: each for each in nitrogen}
    listed = [*_of_spots(setting, shelf or PlugShelf()), *_of_yard(setting)]
    reducing = [each for each in setting.notebook.care.values() if _reduces(each)]
    for zone in setting.notebook.zones.values():
        listed += _of_watering(setting, zone, water.get(zone.id))
        listed += _of_soil_test(setting, zone)
        listed += _of_nitrogen(zone, fed.get(zone.id))
        listed += _of_sod(setting, zone)
        listed += _of_reducers(reducing, zone)
    return tuple(sorted(listed, key=_rank(setting)))


def _rank(setting: Setting) -> "_Rank":
    zones = {zone_id: n for n, zone_id in enumerate(setting.notebook.zones)}
    spots = {spot_id: n for n, spot_id in enumerate(setting.notebook.spots)}
    return _Rank(zones, spots)


class _Rank:
    """The order of findings: weight, zone (the yard last), what is of no spot last, rule."""

    def __init__(self, zones: Mapping[str, int], spots: Mapping[str, int]) -> None:
        self._zones, self._spots = zones, spots

    def __call__(self, finding: Finding) -> tuple[int, int, int, int]:
        """The place of a finding."""
        zone = self._zones.get(finding.zone_id, len(self._zones))
        spot = self._spots.get(finding.spot_id, len(self._spots))
        return _ORDER[finding.weight], zone, spot, _RANKS[finding.key]


def _of_spots(setting: Setting, shelf: PlugShelf) -> Iterator[Finding]:
    rain = _rainy_days(setting)
    zones = zones_by_spot(setting.spots)
    watered: dict[str, frozenset[date]] = {}
    for spot in setting.notebook.spots.values():
        cores = setting.cores.get(spot.id, ())
        if not cores:
            continue
        zone_id = zones.get(spot.id, "")
        if zone_id not in watered:
            watered[zone_id] = frozenset(w.date for w in setting.waterings.get(zone_id, ()))
        soon = soon_days(cores[-1].date)
        wetted = any(on in rain or on in watered[zone_id] for on in soon)
        told_of = shelf.told(spot, tuple(cores), setting.latitude_deg)
        yield from told_of.findings(zone_id, wetted=wetted)


def _rainy_days(setting: Setting) -> frozenset[date]:
    weather = setting.weather
    if weather.first is None:
        return frozenset()
    start = weather.first.toordinal()
    wet = np.flatnonzero(weather.rain_in >= RAIN_IN).tolist()
    return frozenset(date.fromordinal(start + place) for place in wet)


def _of_watering(setting: Setting, zone: Zone, water: ZoneWater | None) -> Iterator[Finding]:
    """How the zone was watered lately by its record, unless it is new turf or let go dormant."""
    if water is None or water.rule != "deep":
        return
    since = setting.on - timedelta(days=RECORD_DAYS)
    lately = [each for each in setting.waterings.get(zone.id, ()) if since < each.date]
    days = sorted({each.date for each in lately})
    if len(days) < FEWEST_DEEP:
        return
    gap = (days[-1] - days[0]).days / (len(days) - 1)
    depth = _depth_in(lately, days, water.precipitation_rate_in_per_h)
    amount = "" if depth is None else tr(" about {depth}", depth=told(depth, 2, "in"))
    record = tr(
        "{name}: the record shows{amount} every {days} since {since}",
        name=zone.name,
        amount=amount,
        days=_days(gap),
        since=day(days[0]),
    )
    asked = water.interval_days
    if len(days) >= FEWEST_LIGHT and gap <= LIGHT_GAP_DAYS and (depth or 0.0) < LIGHT_IN:
        # Where the roots bear no more, the plan itself waters so: that is not to be reproached.
        if asked is None or asked > gap:
            often = tr("; today's roots ask for every {days}", days=_days(asked)) if asked else ""
            yield RULES["watering-light"].finds(zone.id, "", f"{record}{often}.")
    elif gap >= DEEP_GAP_DAYS and depth is not None and depth >= DEEP_IN:
        yield RULES["watering-deep"].finds(zone.id, "", f"{record}.")


def _days(days: float) -> str:
    """How often, after "every": "day", "2.5 days"."""
    told_days = plain(days, 1)
    return "day" if told_days == "1" else tr("{told_days} days", told_days=told_days)


def _depth_in(
    lately: Sequence[Watering], days: Sequence[date], rate_in_per_h: float | None
) -> float | None:
    """The median gross depth of a watering day; None where one of them is not known."""
    by_day = dict.fromkeys(days, 0.0)
    for each in lately:
        if each.depth_in is not None:
            by_day[each.date] += each.depth_in
        elif each.minutes is not None and rate_in_per_h is not None:
            by_day[each.date] += each.minutes * rate_in_per_h / 60
        else:
            return None
    return median(by_day.values())


def _of_soil_test(setting: Setting, zone: Zone) -> Iterator[Finding]:
    tests = [t for t in setting.notebook.soil_tests.values() if t.zone == zone.id and t.ph]
    if not tests:
        return
    latest = max(tests, key=lambda test: test.date)
    if latest.ph is not None and still_holds(latest.date, setting.on) and slows_thatch(latest.ph):
        words = tr(
            "{name}: pH {ph} by the soil test of {date}.",
            name=zone.name,
            ph=plain(latest.ph),
            date=day(latest.date),
        )
        yield RULES["ph-acid"].finds(zone.id, "", words)


def _of_nitrogen(zone: Zone, fed: ZoneNitrogen | None) -> Iterator[Finding]:
    if fed is None or fed.applied_year <= fed.budget_year + OVER_LB:
        return
    words = tr(
        "{name}: {fed} in {year_label}, over the budget of {budget}.",
        name=zone.name,
        fed=_fed(fed.applied_year),
        year_label=fed.year_label,
        budget=_budget(fed.budget_year),
    )
    yield RULES["n-over"].finds(zone.id, "", words)


def _fed(lb_per_1000: float) -> str:
    if is_metric():
        return tr("{bare} g of nitrogen per m²", bare=bare(lb_per_1000, 2, RATE_UNIT))
    return tr("{lb_per_1000} lb of nitrogen per 1,000 sq ft", lb_per_1000=told(lb_per_1000))


def _budget(lb_per_1000: float) -> str:
    return f"{bare(lb_per_1000, 2, RATE_UNIT)} {tr('g') if is_metric() else tr('lb')}"


def _of_sod(setting: Setting, zone: Zone) -> Iterator[Finding]:
    sod = zone.established
    if sod is None or sod.how != "sod":
        return
    grown_on = sod.sod_soil.strip()
    if grown_on and zone.soil and grown_on.casefold() != zone.soil.casefold():
        words = tr(
            "{name}: sod grown on {grown_on} lies on {soil}.",
            name=zone.name,
            grown_on=tr(grown_on),
            soil=tr(zone.soil),
        )
        yield RULES["sod-layer"].finds(zone.id, "", words)
    first = _first_plug(setting, zone)
    if sod.date is None or first is None:
        return
    years = (first - sod.date).days / 365.25
    if 0 <= years < SOD_YEARS:
        words = tr(
            "{name}: the first plug ({first}) is of sod laid on {date}, {years} years before.",
            name=zone.name,
            first=day(first),
            date=day(sod.date),
            years=plain(years, 1),
        )
        yield RULES["sod-young"].finds(zone.id, "", words)


def _first_plug(setting: Setting, zone: Zone) -> date | None:
    spots = setting.spots.get(zone.id, ())
    return min((setting.cores[s][0].date for s in spots if setting.cores.get(s)), default=None)


def _of_reducers(reducing: Sequence[Care], zone: Zone) -> Iterator[Finding]:
    """What was put down to reduce thatch by microbes, where such care is recorded."""
    days = sorted({care.date for care in reducing if done_in(care, zone.id)})
    if days:
        words = [day(on) for on in days[-3:]]
        before = tr(", and {count} times before", count=len(days) - 3) if len(days) > 3 else ""
        sentence = tr(
            "{name}: microbes or their food were put down on {words}{before}.",
            name=zone.name,
            words=and_joined(words),
            before=before,
        )
        yield RULES["reducers"].finds(zone.id, "", sentence)


def _reduces(care: Care) -> bool:
    told_of = f"{care.kind} {care.note}".casefold()
    return any(word in told_of for word in _REDUCING)


def _of_yard(setting: Setting) -> Iterator[Finding]:
    """The comparison strip: missing where care is recorded, or there without a plug."""
    strips = [spot for spot in setting.notebook.spots.values() if spot.comparison]
    treating = set(CARE_KINDS) - _UNTREATING
    cared = any(c.kind.strip().casefold() in treating for c in setting.notebook.care.values())
    if not setting.cores or (not strips and not cared):
        return
    if not strips:
        words = tr("Care is recorded, but no spot is left untreated to compare with.")
        yield RULES["strip-missing"].finds("", "", words)
    elif not any(setting.cores.get(spot.id) for spot in strips):
        words = tr(
            "No plug has been pulled yet at the comparison spot {name}.", name=strips[0].name
        )
        yield RULES["strip-unread"].finds("", "", words)
