"""Terms of the sprinklers: what they put down, how evenly, and in which runs."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.glossary import Term


def sprinkler_terms() -> tuple[Term, ...]:
    """The terms, in no order."""
    return (*_of_evenness(), *_of_heads(), *_of_runs(), *_of_pipes())


def _of_evenness() -> tuple[Term, ...]:
    return (
        Term(
            key="precipitation-rate",
            name=tr("Precipitation rate"),
            words=tr(
                "How deep a zone’s sprinklers water in an hour, {rotor} for many rotors and up to "
                "{spray} for fixed sprays. Cans tell it best, then a meter, then the heads’ flows.",
                rotor=told(0.4, 1, "in/h"),
                spray=told(2.0, 1, "in/h"),
            ),
            sources=("rotor-range", "spray-range"),
            picture="cans",
            see=("catch-can", "matched-precipitation"),
        ),
        Term(
            key="catch-can",
            name=tr("Catch can"),
            words=tr(
                "A straight-sided cup set out on the grass to catch what the sprinklers put down. "
                "Sixteen or more in a grid over the zone (common practice) tell how much falls and "
                "how evenly."
            ),
            sources=("ia-catch-can",),
            picture="cans",
            see=("lower-quarter", "precipitation-rate"),
        ),
        Term(
            key="lower-quarter",
            name=tr("Evenness (DU of the lower quarter)"),
            words=tr(
                "The mean of the driest quarter of the cans divided by the mean of all: 1 is "
                "perfectly even. Where no cans were set out, 0.65 is assumed and marked as a "
                "default."
            ),
            sources=("ia-catch-can", "default-uniformity"),
            picture="lower_quarter",
            see=("catch-can", "multiplier"),
        ),
        Term(
            key="multiplier",
            name=tr("Run-time multiplier"),
            words=tr(
                "How much longer sprinklers run so that the drier half has enough: 1 ÷ (0.4 + 0.6 "
                "× DU). At a DU of 0.65 it is 1.27."
            ),
            sources=("multiplier", "vonbernuth-mecham"),
            picture="lower_quarter",
            see=("lower-quarter",),
        ),
    )


def _of_heads() -> tuple[Term, ...]:
    return (
        Term(
            key="matched-precipitation",
            name=tr("Matched precipitation"),
            words=tr(
                "Heads of one zone that put down the same depth whatever part of the circle they "
                "cover: a half circle needs half the flow of a full one. Mixed heads leave one "
                "part dry or another soaked."
            ),
            sources=("ia-catch-can",),
            picture="matched",
            see=("precipitation-rate", "head-spacing"),
        ),
        Term(
            key="head-spacing",
            name=tr("Head spacing"),
            words=tr(
                "How far heads stand apart, measured by their throw. Head to head, each one’s "
                "water reaching the next head, is the usual rule (common practice)."
            ),
            sources=("kincaid-profile",),
            picture="spacing",
            see=("matched-precipitation", "lower-quarter"),
        ),
        Term(
            key="hydrozone",
            name=tr("Hydrozone"),
            words=tr(
                "Ground that needs alike and is watered by one valve: the same grass, sun, soil "
                "and sprinklers. A zone that mixes sun and shade waters one of them wrong."
            ),
            sources=("wucols",),
            picture="microclimate",
            see=("microclimate", "precipitation-rate"),
        ),
    )


def _of_runs() -> tuple[Term, ...]:
    return (
        Term(
            key="cycle-and-soak",
            name=tr("Cycle and soak"),
            words=tr(
                "A run split into equal cycles with a pause after each, so that what stands on the "
                "ground soaks in before more comes. The plan finds the fewest cycles that keep "
                "water from running off."
            ),
            sources=("ia-schedule",),
            picture="cycle",
            see=("intake-rate", "slope"),
        ),
        Term(
            key="gross-and-net",
            name=tr("Net and gross depth"),
            words=tr(
                "Net is what the drier half is to hold; gross is the mean that must be put down "
                "for it, net × the multiplier. Run times and gallons are of the gross depth."
            ),
            sources=("multiplier",),
            picture="lower_quarter",
            see=("multiplier", "precipitation-rate"),
        ),
        Term(
            key="run-off",
            name=tr("Run-off"),
            words=tr(
                "Water that leaves over the surface because it comes faster than the ground takes "
                "it in. Cycles, gentler sprinklers and opened thatch lessen it."
            ),
            sources=("usda-rate", "thatch-delay"),
            picture="slope",
            see=("cycle-and-soak", "slope"),
        ),
    )


def _of_pipes() -> tuple[Term, ...]:
    return (
        Term(
            key="backflow-preventer",
            name=tr("Backflow preventer"),
            words=tr(
                "A device that keeps water of the sprinkler lines from flowing back into the "
                "drinking water. Where a yearly test is required, it is work for licensed people."
            ),
            sources=("backflow-test",),
            see=("blow-out",),
        ),
        Term(
            key="blow-out",
            name=tr("Blow-out"),
            words=tr(
                "Emptying sprinkler lines with compressed air before frost; the air goes in below "
                "the backflow device. It hurts people and breaks pipe when done wrong: have it "
                "done, or keep to the pressures and the eye protection of the checklist."
            ),
            sources=("blowout-hired", "blowout-pressure", "backflow-air"),
            see=("backflow-preventer",),
        ),
    )
