"""Short sentences beside a zone's water figures: what is assumed, what is old, what to watch."""

from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.agronomy.soil import usda_most_rate_in_per_h
from lawnbook.agronomy.turf import DEPLETION
from lawnbook.plan.ledger import Ledger
from lawnbook.plan.water_workings import Figures
from lawnbook.plan.workings import counted, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.numbers import day, minutes, short_day

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
SILENT_DAYS = 21
"""Days without a recorded watering after which the ledger says so (common practice)."""


def notes_of(setting: Setting, facts: ZoneFacts, figures: Figures) -> tuple[str, ...]:
    """The notes of one zone, the weightiest first."""
    notes = [*_rate_notes(facts)]
    if figures.today.interval_days is not None:
        notes = [*_root_notes(facts, figures), *notes, *_default_notes(setting, facts)]
        notes += [*_ledger_notes(setting, figures.ledger), *_rule_notes(setting, figures)]
    return tuple(notes)


def _root_notes(facts: ZoneFacts, figures: Figures) -> Iterator[str]:
    today = figures.today
    if facts.roots.rooted_soil_in == 0:
        yield (
            "No roots reach the soil below the thatch, so the soil stores nothing for them: no "
            "depth can be planned until a plug shows roots in the soil."
        )
    elif told(today.shortfall_in_per_day) != told(0.0):
        yield (
            f"One day's use is {told(today.shortfall_in_per_day, 2, 'in')} more than the roots "
            "bear: expect some stress on such days."
        )
    usual = DEPLETION[facts.zone.grass]
    if facts.depletion > usual:
        # FAO-56 eq. 84: Ks = (1 - share used) / (1 - p).
        share = (1 - facts.depletion) / (1 - usual)
        yield (
            f"Allowed depletion of {told(facts.depletion)} is more than the {told(usual)} at which "
            f"{facts.zone.grass}-season turf runs short: just before a watering it uses about "
            f"{100 * share:.0f} % of its full water."
        )


def _rate_notes(facts: ZoneFacts) -> Iterator[str]:
    rate = facts.rate
    if rate.stale:
        yield rate.stale
    most = usda_most_rate_in_per_h(facts.soil.name, facts.zone.slope_pct)
    if rate.in_per_h is not None and most is not None and rate.in_per_h > most:
        yield (
            f"{told(rate.in_per_h, 2, 'in/h')} is more than the {told(most, 2, 'in/h')} that "
            f"{facts.soil.name} on this slope takes without run-off: keep to the cycles, and watch "
            "for run-off."
        )


def _default_notes(setting: Setting, facts: ZoneFacts) -> Iterator[str]:
    assumed = []
    if facts.roots.is_default:
        assumed.append(f"{told(facts.roots.root_depth_in, 1, 'in')} of roots")
    if facts.soil_input.is_default:
        assumed.append(f"{facts.soil.name} soil")
    if facts.rate.du_lq is None:
        assumed.append("DU 0.65")
    if setting.season is None:
        assumed.append("watering all the year, as growth allows")
    if setting.notebook.yard.latitude_deg is None:
        assumed.append("a yard north of the equator")
    if assumed:
        yield f"Assumed until measured or entered: {', '.join(assumed)}."


def _ledger_notes(setting: Setting, ledger: Ledger | None) -> Iterator[str]:
    if ledger is None:
        return
    if ledger.uncounted:
        yield (
            f"{counted(ledger.uncounted, 'watering')} typed in minutes could not be counted: the "
            "precipitation rate is not known."
        )
    last = ledger.last_watering
    silent = last is None or (setting.on - last).days > SILENT_DAYS
    if silent and ledger.next_watering == setting.on:
        since = (
            f"since {day(last)}"
            if last is not None
            else f"since the ledger began on {day(ledger.starts)}"
        )
        yield f"No watering is on record {since}: the next date counts on what is recorded."
    if ledger.none_due:
        yield ledger.none_due


def _rule_notes(setting: Setting, figures: Figures) -> Iterator[str]:
    rules, ledger = setting.rules, figures.ledger
    due = ledger.next_watering if ledger is not None else None
    if rules.days and due is not None and WEEKDAYS[due.weekday()] not in rules.days:
        allowed = _allowed_day(setting.on, due, rules.days)
        yield (
            f"{WEEKDAYS[due.weekday()]} {short_day(due)} is not a day on which your rule allows "
            f"watering: take {WEEKDAYS[allowed.weekday()]} {short_day(allowed)}."
        )
    needed = _elapsed_minutes(figures)
    open_minutes = sum(_span_minutes(span) for span in rules.hours)
    if rules.hours and needed > open_minutes:
        yield (
            f"Run and soaks take {minutes(needed)}, more than the {minutes(open_minutes)} that "
            "your rule allows in a day."
        )


def _allowed_day(on: date, due: date, days: tuple[str, ...]) -> date:
    """The last allowed day up to the one that is due, or else the first after it."""
    back = [due - timedelta(days=n) for n in range(7)]
    ahead = [due + timedelta(days=n) for n in range(1, 8)]
    candidates = [each for each in back if each >= on] + ahead
    return next(each for each in candidates if WEEKDAYS[each.weekday()] in days)


def _elapsed_minutes(figures: Figures) -> float:
    today = figures.today
    if today.run_minutes is None or not today.cycles or today.soak_minutes is None:
        return 0.0
    return today.run_minutes + (today.cycles - 1) * today.soak_minutes


def _span_minutes(span: str) -> int:
    """Minutes of "18:00-08:00", over midnight where it ends before it starts."""
    start, end = (int(part[:2]) * 60 + int(part[3:5]) for part in span.split("-"))
    return (end - start) % (24 * 60) or 24 * 60
