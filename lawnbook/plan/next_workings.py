"""The working of the next watering's date, which a ledger gives and no formula of a few numbers.

What would change it is found by that same ledger, run again with one thing changed.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial

from lawnbook.plan.filled_in import by_function, numbered, together
from lawnbook.plan.ledger import Ledger, ledger_of
from lawnbook.plan.working_model import DATE, Input, Working
from lawnbook.plan.workings import given, sources, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

BEARS_FROM = tr("worked out: allowed depletion × available water × rooted soil")
"""Where what the roots bear comes from, as its own working tells it."""


def next_watering_workings(setting: Setting, facts: ZoneFacts, ledger: Ledger) -> Iterator[Working]:
    """The date of the next watering; nothing where none is due."""
    if ledger.next_watering is None:
        return
    used = tr(
        "{depletion_in} of {allowance_in}",
        depletion_in=told(ledger.depletion_in),
        allowance_in=told(facts.allowance_in, 2, "in"),
    )
    yield Working(
        "next_watering",
        tr("Next watering"),
        day(ledger.next_watering),
        tr(
            "the first day on which depletion reaches the lesser of target and what the "
            "roots bear, not the day itself where its watering filled them"
        ),
        tr("{used} used up by this evening", used=used),
        (
            given(
                tr("Ledger"),
                tr("full on {starts}", starts=day(ledger.record.starts)),
                tr("first record"),
            ),
            given(tr("Waterings counted"), str(ledger.record.counted), tr("recorded since then")),
            given(
                tr("Depletion"),
                told(ledger.depletion_in, 2, "in"),
                tr("water use − rain − waterings"),
            ),
            *_what_moves_it(facts),
        ),
        sources("fao56"),
        by_function(partial(next_watering_anew, setting, facts), DATE, 0),
    )


def _what_moves_it(facts: ZoneFacts) -> tuple[Input, ...]:
    """What the ledger is run again with: its limits, and all use and all waterings by a factor."""
    target = numbered(facts.target_input, "target", facts.target_in, "in")
    bears = given(tr("What the roots bear"), told(facts.bearable_in, 2, "in"), BEARS_FROM)
    use = given(
        tr("Water use of all days"), told(1.0), tr("1 is each day's ETo × Kc × microclimate")
    )
    put_down = given(
        tr("Depth of all waterings"), told(1.0), tr("1 is as recorded, net of the multiplier")
    )
    return (
        target,
        numbered(bears, "bears", facts.bearable_in, "in"),
        together(use, "use"),
        together(put_down, "waterings"),
    )


def next_watering_anew(setting: Setting, facts: ZoneFacts, numbers: Mapping[str, float]) -> float:
    """The date, as `date.toordinal`, by the ledger with other limits, use and waterings.

    NaN where none is due then: the season ends before.
    """
    changed = replace(
        facts,
        target_in=numbers["target"],
        bearable_in=numbers["bears"],
        etc_factors=tuple(each * numbers["use"] for each in facts.etc_factors),
        multiplier=facts.multiplier / numbers["waterings"],
    )
    due = ledger_of(setting, changed).next_watering
    return float("nan") if due is None else float(due.toordinal())
