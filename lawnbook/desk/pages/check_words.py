"""The words of the check of the sketch."""

from collections.abc import Sequence

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.faults import Fault
from lawnbook.yard.numbers import counted, whole
from lawnbook.yard.sketch_check import GroundSums

NOTHING_DRAWN = tr(
    "Nothing is drawn yet. Draw a zone, and what it shares with others is told here."
)
CALM = tr("Nothing overlaps, and nothing stands astray.")
HELP = tr(
    "What is meant so may stay: nothing of it is kept as wrong. Ground that two "
    "zones share is counted twice in water and feed; ground under a house or "
    "paving is counted as turf."
)
SAFE = tr(
    "It cuts, joins and tidies outlines only, in one step that undo takes back; "
    "merging, and heads and spots that may belong elsewhere, stay for you to "
    "decide."
)
TWICE_FROM_SQFT = 1.0
"""Less than this counted twice is rounding."""


def verdict(faults: Sequence[Fault]) -> str:
    """What was found, in one sentence."""
    wrong = [each for each in faults if not each.only_told]
    if not wrong:
        return CALM
    ready = sum(each.mend is not None and each.mend.safe for each in wrong)
    told = (
        tr("1 thing wants a look")
        if len(wrong) == 1
        else tr("{count} things want a look", count=whole(len(wrong)))
    )
    if not ready:
        return f"{told}."
    if ready == len(wrong) == 1:
        return tr("{told}; it can be mended by one press.", told=told)
    if ready == len(wrong):
        return tr("{told}; all can be mended by one press.", told=told)
    return tr("{told}; {count} can be mended by one press.", told=told, count=whole(ready))


def mark_words(faults: Sequence[Fault]) -> str:
    """What the dot at the section's name means; "" for none."""
    wrong = sum(not each.only_told for each in faults)
    return (
        "" if not wrong else tr("{things} on the sketch to look at", things=counted(wrong, "thing"))
    )


def sum_figures(sums: GroundSums, zones: int) -> tuple[tuple[str, str], ...]:
    """The areas of the sketch, each with its words."""
    twice = sums.zones_sqft - sums.covered_sqft
    figures = [
        (
            told(sums.zones_sqft, 0, "sq ft"),
            tr("the area of the zone")
            if zones == 1
            else tr("the areas of {zones:,} zones in sum", zones=zones),
        ),
        (told(sums.covered_sqft, 0, "sq ft"), tr("of ground that is covered")),
        (told(sums.bare_sqft, 0, "sq ft"), tr("enclosed by what is drawn, and nothing on it")),
    ]
    if twice >= TWICE_FROM_SQFT:
        figures[1] = (
            figures[1][0],
            tr("of ground that is covered; {twice:,.0f} counted twice", twice=twice),
        )
    return tuple(figures)


def mended_words(count: int, left: int) -> str:
    """What mending all did."""
    if not count:
        return tr("Nothing could be mended: what is left is locked, or stays for you to decide.")
    rest = ""
    if left:
        rest = (
            tr(" 1 thing stays.") if left == 1 else tr(" {count} things stay.", count=whole(left))
        )
    return tr(
        "{things} mended in one step; undo brings all back.{rest}",
        things=counted(count, "thing"),
        rest=rest,
    )
