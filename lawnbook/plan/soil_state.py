"""What a zone's latest soil test says on a day, when the next is due, and whether phosphate may go.

A test decides on phosphate and warns of a pH that slows the decay of thatch. What else to add, and
how much, is for the laboratory to say.
"""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple

from lawnbook.agronomy.soil_test import (
    P_ENOUGH_PPM,
    PH_SLOWS_THATCH,
    SAMPLE_DEPTH_IN,
    next_test_due,
    phosphorus_enough,
    slows_thatch,
    still_holds,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import SoilState
from lawnbook.plan.rooting import new_turf
from lawnbook.plan.workings import owned, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.records import NRules, SoilTest

DEPTH_SLACK_IN = 0.5
"""Depths that differ by no more than this are the same (common practice)."""


class Phosphate(NamedTuple):
    """Whether phosphate may go down on a day, why (not) in a sentence, and by which source."""

    allowed: bool
    words: str
    source: str


@dataclass(frozen=True, slots=True)
class PhosphateRule:
    """What decides on a zone's phosphate: its soil tests in date order, and the owner's rule."""

    tests: tuple[SoilTest, ...]
    rules: NRules

    def decided(self, on: date, rooting_until: date | None) -> Phosphate:
        """The decision for a day; `rooting_until` lets a starter onto turf that roots so long.

        The latest test that says phosphorus decides, by its own age.
        """
        rules = self.rules
        if not rules.phosphorus_needs_test:
            words = tr(
                "Your rule lets phosphate go down without a soil test; local law comes first."
            )
            return Phosphate(True, words, owned(rules.name))
        tested = [(each.date, each.p_ppm) for each in self.tests if each.p_ppm is not None]
        holds = bool(tested) and still_holds(tested[-1][0], on)
        if rooting_until is not None:
            words = tr(
                "New turf, still rooting until {rooting_until}: a starter's phosphate needs no "
                "soil test here. Local law decides whether it may go down.",
                rooting_until=day(rooting_until),
            )
            known = f" {_found(*tested[-1], rules).words}" if holds else ""
            return Phosphate(True, words + known, sources("label-first"))
        age = sources("soil-test-age")
        if not tested:
            words = tr("Phosphate waits for a soil test: none with phosphorus is entered.")
            return Phosphate(False, words, age)
        if not holds:
            words = tr(
                "Phosphate waits for a new soil test: that of {tested} held until {next_test_due}.",
                tested=day(tested[-1][0]),
                next_test_due=day(next_test_due(tested[-1][0])),
            )
            return Phosphate(False, words, age)
        return _found(*tested[-1], rules)


def phosphate_rules(notebook: Notebook, on: date) -> dict[str, PhosphateRule]:
    """What decides on phosphate, by the zone's id, by the soil tests up to a day."""
    tests = _tests(notebook, on)
    return {
        zone_id: PhosphateRule(tuple(tests.get(zone_id, ())), notebook.n_rules)
        for zone_id in notebook.zones
    }


def _tests(notebook: Notebook, on: date) -> dict[str, list[SoilTest]]:
    """Each tested zone's soil tests up to a day, in date order."""
    tests: dict[str, list[SoilTest]] = {}
    for test in sorted(notebook.soil_tests.values(), key=lambda each: each.date):
        if test.date <= on:
            tests.setdefault(test.zone, []).append(test)
    return tests


def soil_states(notebook: Notebook, on: date) -> dict[str, SoilState]:
    """Every zone's soil by its tests up to a day, by the zone's id."""
    rules = phosphate_rules(notebook, on)
    new = new_turf(as_of(notebook, on), on)
    rooting = {zone_id: turf.until for zone_id, turf in new.items() if turf.on(on)}
    return {
        zone.id: _state((zone.id, zone.name), rules[zone.id], on, rooting.get(zone.id))
        for zone in notebook.zones.values()
    }


def _state(
    zone: tuple[str, str],
    rule: PhosphateRule,
    on: date,
    rooting_until: date | None,
) -> SoilState:
    latest = rule.tests[-1] if rule.tests else None
    allowed, words, source = rule.decided(on, rooting_until)
    return SoilState(
        zone_id=zone[0],
        zone=zone[1],
        tested=latest.date if latest else None,
        due=next_test_due(latest.date) if latest else on,
        ph=latest.ph if latest else None,
        om_pct=latest.om_pct if latest else None,
        p_ppm=latest.p_ppm if latest else None,
        k_ppm=latest.k_ppm if latest else None,
        phosphate_allowed=allowed,
        phosphate_words=words,
        phosphate_source=source,
        notes=tuple(_notes(rule.tests, on)),
    )


def _found(tested: date, p_ppm: float, rules: NRules) -> Phosphate:
    """What a test that still holds decides."""
    own = rules.p_enough_ppm is not None
    enough = P_ENOUGH_PPM if rules.p_enough_ppm is None else rules.p_enough_ppm
    source = owned(rules.name) if own else sources("psu-p")
    found = tr(
        "The soil test of {tested} found {p_ppm} ppm phosphorus",
        tested=day(tested),
        p_ppm=plain(p_ppm, 2),
    )
    scale = (
        tr("the {enough} ppm that you entered as enough", enough=plain(enough, 2))
        if own
        else tr(
            "the {enough} ppm (Mehlich-3, Pennsylvania) that a lawn needs; enter your "
            "laboratory's own figure if it uses another method",
            enough=plain(enough, 2),
        )
    )
    if phosphorus_enough(p_ppm, enough):
        return Phosphate(
            False,
            tr("{found}, not below {scale}: no phosphate is needed.", found=found, scale=scale),
            source,
        )
    return Phosphate(
        True, tr("{found}, below {scale}: phosphate may go down.", found=found, scale=scale), source
    )


def _notes(tests: Sequence[SoilTest], on: date) -> Iterator[str]:
    """On pH and thatch, on the sample's depth and its thatch, and on age."""
    if not tests:
        return
    latest, earlier = tests[-1], tests[:-1]
    if latest.ph is not None and slows_thatch(latest.ph):
        yield (
            tr(
                "pH {ph} is below {ph_slows_thatch}, where thatch decays more slowly (Cook, "
                "Oregon State University).",
                ph=plain(latest.ph),
                ph_slows_thatch=plain(PH_SLOWS_THATCH),
            )
        )
    if not still_holds(latest.date, on):
        yield (
            tr(
                "The test of {date} is more than three years old: it tells little of today's soil.",
                date=day(latest.date),
            )
        )
    yield from _depth_notes(latest, earlier)
    if latest.thatch == "on":
        yield (
            tr(
                "The thatch was left on the sample, which shifts organic matter, pH and "
                "phosphorus: take it off the cores next time."
            )
        )
    elif latest.thatch is None:
        yield tr(
            "Whether the thatch was taken off the sample is not entered: take it off each time."
        )


def _depth_notes(latest: SoilTest, earlier: Sequence[SoilTest]) -> Iterator[str]:
    if latest.depth_in is None:
        yield (
            tr(
                "How deep the sample was taken is not entered: the same depth each time, such "
                "as {plainly} below the thatch, keeps tests comparable.",
                plainly=plainly(SAMPLE_DEPTH_IN, "in"),
            )
        )
        return
    before = next((each for each in reversed(earlier) if each.depth_in is not None), None)
    if before is None or before.depth_in is None:
        return
    if abs(before.depth_in - latest.depth_in) > DEPTH_SLACK_IN:
        yield (
            tr(
                "Sampled to {depth}, to {depth_before} on {date}: the two do not compare. Keep "
                "to one depth.",
                depth=plainly(latest.depth_in, "in"),
                depth_before=plainly(before.depth_in, "in"),
                date=day(before.date),
            )
        )
