"""Short sentences beside a zone's water figures: what is assumed, what is old, what to watch."""

from collections.abc import Iterator
from datetime import timedelta

import numpy as np

from lawnbook.agronomy.precipitation import DEFAULT_DU_LQ
from lawnbook.agronomy.soil import usda_most_rate_in_per_h
from lawnbook.agronomy.turf import DEPLETION
from lawnbook.plan.assumed import rate_assumed_told
from lawnbook.plan.coverage import coverage_of
from lawnbook.plan.ledger import Ledger, zone_ledger
from lawnbook.plan.rates import coverage_note
from lawnbook.plan.supply_notes import (
    drought_notes,
    flow_notes,
    hose_notes,
    salt_notes,
)
from lawnbook.plan.water_figures import Figures
from lawnbook.plan.water_rules import rule_notes
from lawnbook.plan.workings import counted, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.numbers import day

DRY_AHEAD_DAYS = 30
"""Farther ahead a dry spell is not foretold."""

SILENT_DAYS = 21
"""Days without a recorded watering after which the ledger says so (common practice)."""


def notes_of(setting: Setting, facts: ZoneFacts, figures: Figures) -> tuple[str, ...]:
    """The notes of one zone, the weightiest first."""
    today = figures.today
    planned = today.interval_days is not None
    notes = [
        *_rate_notes(facts, figures),
        *flow_notes(setting, facts),
        *_coverage_notes(setting, facts),
        *_default_notes(setting, facts, planned=planned),
    ]
    if planned:
        notes = [*drought_notes(setting, facts, today), *_root_notes(facts, figures), *notes]
        notes += [*hose_notes(facts, today), *salt_notes(setting, facts)]
        notes += [*_ledger_notes(setting, figures.ledger), *rule_notes(setting, facts, figures)]
    if not facts.zone.irrigated:
        notes = [*_dry_notes(setting, facts), *notes]
    return tuple(notes)


def defaults_of(facts: ZoneFacts) -> tuple[str, ...]:
    """The values taken because none was measured or entered: ("soil loam", "roots 6 in")."""
    assumed = []
    rate = rate_assumed_told(facts.zone) if facts.rate.source == "typed" else ""
    if rate and facts.zone.irrigated:
        assumed.append(rate)
    if facts.soil_input.is_default:
        assumed.append(tr("soil {name}", name=tr(facts.soil.name)))
    if facts.roots.is_default:
        assumed.append(tr("roots {plainly}", plainly=plainly(facts.roots.root_depth_in, "in", 4)))
    if facts.rate.du_lq is None and facts.zone.irrigated:
        assumed.append(tr("evenness (DU) {default_du_lq}", default_du_lq=told(DEFAULT_DU_LQ)))
    return tuple(assumed)


def _root_notes(facts: ZoneFacts, figures: Figures) -> Iterator[str]:
    today = figures.today
    if facts.roots.rooted_soil_in == 0:
        yield (
            tr(
                "No roots reach the soil below the thatch, so the soil stores nothing for "
                "them: no depth can be planned until a plug shows roots in the soil."
            )
        )
    elif round(today.shortfall_in_per_day, 2) != 0:
        yield (
            tr(
                "One day's use is {shortfall_in_per_day} more than the roots bear: expect some "
                "stress on such days.",
                shortfall_in_per_day=told(today.shortfall_in_per_day, 2, "in"),
            )
        )
    usual = DEPLETION[facts.zone.grass]
    if facts.depletion > usual and today.rule == "deep":
        # FAO-56 eq. 84: Ks = (1 - share used) / (1 - p).
        share = (1 - facts.depletion) / (1 - usual)
        yield (
            tr(
                "Allowed depletion of {depletion} is more than the {usual} at which "
                "{grass}-season turf runs short: just before a watering it uses about {share} "
                "of its full water.",
                depletion=told(facts.depletion),
                usual=told(usual),
                grass=tr(facts.zone.grass),
                share=told(100 * share, 0, "%"),
            )
        )


def _rate_notes(facts: ZoneFacts, figures: Figures) -> Iterator[str]:
    rate = facts.rate
    if rate.stale:
        yield rate.stale
    most = usda_most_rate_in_per_h(facts.soil.name, facts.zone.slope_pct)
    if rate.in_per_h is not None and most is not None and rate.in_per_h > most:
        keep = tr("keep to the cycles, and ") if (figures.today.cycles or 1) > 1 else ""
        yield (
            tr(
                "{in_per_h} is more than the {most} that {name} on this slope takes without "
                "run-off: {keep}watch for run-off.",
                in_per_h=told(rate.in_per_h, 2, "in/h"),
                most=told(most, 2, "in/h"),
                name=tr(facts.soil.name),
                keep=keep,
            )
        )


def _coverage_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    if facts.zone.irrigated:
        note = coverage_note(facts.rate, coverage_of(setting.notebook, facts.zone))
        yield from [note] if note else []


def _dry_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    """How dry a zone is that is never watered, and when it runs short unless it rains."""
    ledger = zone_ledger(setting, facts)
    if not ledger.depletion_in.size or ledger.capacity_in[-1] <= 0:
        return
    used, capacity = float(ledger.depletion_in[-1]), float(ledger.capacity_in[-1])
    stress_from = float(ledger.stress_from_in[-1])
    if told(100 * used / capacity, 0) == "0":
        return
    lead = tr(
        "About {used} of the water its roots hold is used up",
        used=told(100 * used / capacity, 0, "%"),
    )
    short = np.flatnonzero(ledger.ahead_in[:DRY_AHEAD_DAYS] > stress_from)
    if used > stress_from:
        full = told(100 * float(ledger.stress[-1]), 0, "%")
        yield tr(
            "{lead}: the grass runs short and uses about {full} of its full water.",
            lead=lead,
            full=full,
        )
    elif short.size:
        on = setting.on + timedelta(days=int(short[0]) + 1)
        yield tr("{lead}: it runs short from about {on} unless it rains.", lead=lead, on=day(on))
    else:
        yield f"{lead}."


def _default_notes(setting: Setting, facts: ZoneFacts, *, planned: bool) -> Iterator[str]:
    assumed = [*defaults_of(facts)]
    if planned and setting.season is None:
        assumed.append(tr("watering all the year, as growth allows"))
    if planned and setting.notebook.yard.latitude_deg is None:
        assumed.append(tr("a yard north of the equator"))
    if assumed:
        yield tr("Assumed until measured or entered: {assumed}.", assumed=", ".join(assumed))


def _ledger_notes(setting: Setting, ledger: Ledger | None) -> Iterator[str]:
    if ledger is None:
        return
    uncounted = ledger.record.uncounted
    if uncounted:
        yield (
            tr(
                "{waterings} typed in minutes could not be counted: the precipitation rate is "
                "not known.",
                waterings=counted(uncounted, "watering"),
            )
        )
    last = ledger.last_watering
    silent = last is None or (setting.on - last).days > SILENT_DAYS
    if silent and ledger.next_watering == setting.on:
        since = (
            tr("since {last}", last=day(last))
            if last is not None
            else tr("since the ledger began on {starts}", starts=day(ledger.record.starts))
        )
        yield (
            tr(
                "No watering is on record {since}, so none is counted: record what you have "
                "watered, or this may ask for too much.",
                since=since,
            )
        )
    if ledger.none_due:
        yield ledger.none_due
