"""Terms of nitrogen and of what stands on a bag."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, told
from lawnbook.yard.glossary import Term


def feed_terms() -> tuple[Term, ...]:
    """The terms, in no order."""
    return (*_of_the_bag(), *_of_spreading(), *_of_the_budget())


def _of_the_bag() -> tuple[Term, ...]:
    return (
        Term(
            key="npk",
            name=tr("N-P-K"),
            words=tr(
                "The three numbers on a bag: percent by weight of nitrogen, phosphate (P2O5) and "
                "potash (K2O). A pound of nitrogen takes 5 lb of a product with 20 % of it."
            ),
            sources=("n-arithmetic",),
            picture="bag",
            see=("quick-nitrogen", "slow-nitrogen", "soil-test"),
        ),
        Term(
            key="quick-nitrogen",
            name=tr("Quick nitrogen"),
            words=tr(
                "Nitrogen that grass can take at once, gone within about two weeks. At most {most} "
                "of it at a time is advised, since more makes a flush of growth and may leach.",
                most=told(0.5, 1, RATE_UNIT),
            ),
            sources=("quick-weeks", "cornell-quick"),
            picture="release",
            see=("slow-nitrogen", "leaching"),
        ),
        Term(
            key="slow-nitrogen",
            name=tr("Slow-release nitrogen"),
            words=tr(
                "Nitrogen that is set free over weeks: by microbes, by water or through a coating. "
                "Some 8 to 12 weeks are usual, and cold soil makes the ones freed by microbes wait."
            ),
            sources=("uc-slow", "sportsturf-slow", "microbes-q10"),
            picture="release",
            see=("quick-nitrogen", "growth-potential"),
        ),
    )


def _of_spreading() -> tuple[Term, ...]:
    return (
        Term(
            key="rate",
            name=tr("Rate"),
            words=tr(
                "What is put down on the ground, told as nitrogen: pounds on each 1,000 square "
                "feet, or grams on a square metre. {most} is the most at one time by the usual "
                "advice.",
                most=told(1.0, 1, RATE_UNIT),
            ),
            sources=("msu-n",),
            picture="bag",
            see=("npk", "budget"),
        ),
        Term(
            key="watering-in",
            name=tr("Watering in"),
            words=tr(
                "A light watering after spreading, about {depth}, that washes a product off the "
                "blades into the soil. The label says whether and when.",
                depth=told(0.25, 2, "in"),
            ),
            sources=("watering-in", "label-first"),
            see=("rate",),
        ),
    )


def _of_the_budget() -> tuple[Term, ...]:
    return (
        Term(
            key="budget",
            name=tr("Nitrogen budget"),
            words=tr(
                "How much nitrogen a zone may have in each month and in the year, from a published "
                "table or one of your own. A month that is closed stays closed, and what is left "
                "is the lesser of the month’s and the year’s."
            ),
            sources=("va-dcr-n",),
            picture="budget",
            see=("rate", "blackout"),
        ),
        Term(
            key="blackout",
            name=tr("Closed months"),
            words=tr(
                "Days of the year on which local law forbids spreading nitrogen or phosphorus. "
                "They come before every figure of the plan."
            ),
            sources=("nj-fertilizer", "label-first"),
            picture="budget",
            see=("budget",),
        ),
        Term(
            key="clippings",
            name=tr("Clippings"),
            words=tr(
                "What mowing cuts off. Left lying they give back a quarter to a half of the "
                "nitrogen a lawn needs, and do not make thatch (common practice)."
            ),
            sources=("clippings-low", "clippings-high"),
            see=("budget", "one-third"),
        ),
    )
