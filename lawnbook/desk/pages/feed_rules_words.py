"""The rules of feeding in words: the owner's limits, examples of rules, soil tests. No Qt."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from lawnbook.agronomy.rule_cards import RuleCard
from lawnbook.desk.entry import format_seasons
from lawnbook.desk.telling import either
from lawnbook.plan.feed_model import SoilState
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, trimmed
from lawnbook.yard.fields import field_of
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.records import NRules, Season

WHOLE_NUMBERS = frozenset({"min_days"})
EXAMPLE_MARK = " (an example, may be out of date)"


def limits_summary(rules: NRules) -> str:
    """The owner's limits on feeding in short."""
    rates = (
        (rules.max_total_lb, tr("at once")),
        (rules.max_quick_lb, "quick"),
        (rules.year_lb, tr("a year")),
    )
    parts = [
        *_rates_told(rates),
        *(
            [tr("{min_slow_pct} % slow", min_slow_pct=plain(rules.min_slow_pct))]
            if rules.min_slow_pct is not None
            else []
        ),
        *(
            [tr("{min_days} days apart", min_days=rules.min_days)]
            if rules.min_days is not None
            else []
        ),
        *(
            [tr("{feet} from water", feet=_feet(rules.waterside_ft))]
            if rules.waterside_ft is not None
            else []
        ),
        *(
            [tr("{format_seasons} none", format_seasons=format_seasons(rules.blackouts))]
            if rules.blackouts
            else []
        ),
    ]
    return ", ".join(parts) or tr("the usual ones")


def _feet(length_ft: float) -> str:
    return trimmed(length_ft, 2, "ft")


def _rates_told(rates: Iterable[tuple[float | None, str]]) -> Iterator[str]:
    """The rates that are entered; of US units the first alone says its unit."""
    for number, (rate, what) in enumerate(rates):
        if rate is not None:
            us = trimmed(rate, 2, "" if number else "lb")
            yield f"{either(us, trimmed(rate, 2, RATE_UNIT))} {what}"


def example_name(card: RuleCard) -> str:
    """The name of a rule that was filled in from an example, which it stays marked as."""
    return f"{card.name.removesuffix(tr(' (example)'))}{EXAMPLE_MARK}"


def is_example(rules: NRules) -> bool:
    """Whether the owner's rule still bears the name of an example."""
    return rules.name.endswith(EXAMPLE_MARK)


def card_lines(card: RuleCard) -> tuple[str, ...]:
    """What an example fills in, field by field."""
    told_fields = [(field_of(NRules, name).rule, value) for name, value in card.figures.items()]
    figures = [f"{rule.label}: {plain(value)} {rule.unit}".strip() for rule, value in told_fields]
    spans = format_seasons(_spans(card))
    return (*figures, *([tr("Blackout: {spans}", spans=spans)] if spans else []))


def filled_from(card: RuleCard, rules: NRules) -> NRules:
    """The owner's rule as an example has it.

    Limits that the example does not speak of go, so that no figure of another rule stands under
    its name; how the owner takes phosphate stays unless the example says it.
    """
    values: dict[str, Any] = dict(card.figures)
    values.update({name: round(values[name]) for name in WHOLE_NUMBERS & values.keys()})
    fresh = NRules(
        id=rules.id,
        rank=rules.rank,
        name=example_name(card),
        blackouts=_spans(card),
        phosphorus_needs_test=rules.phosphorus_needs_test,
        p_enough_ppm=rules.p_enough_ppm,
    )
    return replace(fresh, **values)


def _spans(card: RuleCard) -> tuple[Season, ...]:
    return tuple(Season(start=start, end=end) for start, end in card.blackouts)


def soil_lines(soil: SoilState) -> tuple[str, ...]:
    """What a zone's latest soil test changes here, each a sentence with its source."""
    if soil.tested is None:
        head = tr("{zone}: no soil test on record; one is due.", zone=soil.zone)
    else:
        head = tr(
            "{zone}: tested {tested}; the next is due {due}.",
            zone=soil.zone,
            tested=day(soil.tested),
            due=day(soil.due),
        )
    source = f" ({soil.phosphate_source})" if soil.phosphate_source else ""
    return (head, f"{soil.phosphate_words}{source}", *soil.notes)


def soil_summary(soil: SoilState | None) -> str:
    """A zone's soil test in short: when it was, and when the next is due."""
    if soil is None:
        return ""
    if soil.tested is None:
        return tr("none yet")
    return tr("tested {tested}, due {due}", tested=day(soil.tested), due=day(soil.due))
