"""Rule cards: examples that the owner's limits can take as they are."""

from dataclasses import fields, replace
from datetime import date
from typing import Any

import pytest

from lawnbook.agronomy.rule_cards import CARDS, RuleCard
from lawnbook.agronomy.sources import SOURCES
from lawnbook.plan.season import within
from lawnbook.yard.check import check
from lawnbook.yard.notebook import new_notebook
from lawnbook.yard.records import NRules, Season

JERSEY, FLORIDA_2007, FLORIDA_2015 = CARDS


def named(card: RuleCard) -> str:
    """A card as a test's name."""
    return card.name


def rules_of(card: RuleCard) -> NRules:
    """The owner's limits as a card fills them in."""
    spans = tuple(Season(start=start, end=end) for start, end in card.blackouts)
    known = {each.name for each in fields(NRules)}
    assert set(card.figures) <= known
    figures: dict[str, Any] = dict(card.figures)
    return replace(NRules(id="n_rules"), name=card.name, blackouts=spans, **figures)


@pytest.mark.parametrize("card", CARDS, ids=named)
def test_a_card_is_accepted_without_a_question(card: RuleCard) -> None:
    assert check(rules_of(card), new_notebook("Yard"), date(2026, 6, 15)) == ()


@pytest.mark.parametrize("card", CARDS, ids=named)
def test_a_card_is_called_an_example_everywhere(card: RuleCard) -> None:
    assert card.name.endswith("(example)")
    assert "out of date" in card.note
    assert "look up the rule in force" in card.note
    assert card.source_key in SOURCES


def test_every_card_has_its_own_name() -> None:
    assert len({card.name for card in CARDS}) == len(CARDS)


def test_new_jersey() -> None:
    # P.L. 2010, c. 112. Rutgers, fertilizer calculator for New Jersey's home owners: 0.7, 0.9 and
    # 3.2 lb. Jersey-Friendly Yards: 20 % slow, 25 ft from water, 10 ft with a drop spreader.
    assert dict(JERSEY.figures) == {
        "max_total_lb": 0.9,
        "max_quick_lb": 0.7,
        "year_lb": 3.2,
        "min_slow_pct": 20.0,
        "waterside_ft": 25.0,
    }
    for words in ("10 ft with a drop spreader", "soil test of the last three years", "1 December"):
        assert words in JERSEY.beyond


@pytest.mark.parametrize(
    ("on", "barred"),
    [
        (date(2025, 11, 15), False),
        (date(2025, 11, 16), True),
        (date(2025, 12, 31), True),
        (date(2026, 1, 1), True),
        (date(2026, 2, 28), True),
        (date(2024, 2, 29), True),
        (date(2026, 3, 1), False),
        (date(2026, 7, 1), False),
    ],
)
def test_new_jerseys_winter_runs_over_new_year(on: date, barred: bool) -> None:
    # N.J.S.A. 58:10A-62: not before March 1st or after November 15th in any calendar year.
    blackout = rules_of(JERSEY).blackouts[0]
    assert within(blackout, on) == barred


def test_florida() -> None:
    # Rule 5E-1.003(2), 2007, as Marion County's ordinance 08-35 repeats it; UF/IFAS EP353 for 2015.
    assert dict(FLORIDA_2007.figures) == {"max_total_lb": 1.0, "max_quick_lb": 0.7}
    assert dict(FLORIDA_2015.figures) == {
        "max_total_lb": 2.0,
        "max_quick_lb": 0.7,
        "min_slow_pct": 65.0,
    }
    assert "spring or summer only" in FLORIDA_2015.beyond
    assert FLORIDA_2007.blackouts == FLORIDA_2015.blackouts == ()


def test_floridas_later_quick_limit_agrees_with_its_slow_share() -> None:
    # 2 lb of which 65 % is slow leave just 0.7 lb quick.
    figures = FLORIDA_2015.figures
    quick = figures["max_total_lb"] * (1 - figures["min_slow_pct"] / 100)
    assert quick == pytest.approx(figures["max_quick_lb"])
