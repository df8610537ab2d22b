"""Terms of mowing, coring and seeding."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.glossary import Term


def care_terms() -> tuple[Term, ...]:
    """The terms, in no order."""
    return (*_of_thatch(), *_of_the_stand())


def _of_thatch() -> tuple[Term, ...]:
    return (
        Term(
            key="coring",
            name=tr("Coring (core aeration)"),
            words=tr(
                "Pulling many small plugs over the whole lawn, {least} to {most} apart, to open "
                "thatch and soil. Have sprinkler heads flagged and buried lines located first.",
                least=told(2, 0, "in"),
                most=told(3, 0, "in"),
            ),
            sources=("coring-close", "buried-lines"),
            picture="coring",
            see=("thatch", "topdressing", "overseeding"),
        ),
        Term(
            key="power-raking",
            name=tr("Power raking (dethatching)"),
            words=tr(
                "Tearing thatch out with turning tines or blades. Deep raking can tear out living "
                "grass with it, so where thatch is thick coring is preferred."
            ),
            sources=("thatch-rake",),
            see=("coring", "thatch"),
        ),
        Term(
            key="topdressing",
            name=tr("Topdressing"),
            words=tr(
                "A thin layer of soil, sand or compost spread over the grass and worked in. It "
                "brings soil into the thatch; another texture than the soil below makes a layer "
                "that holds water back."
            ),
            sources=("sod-layer",),
            see=("mat", "coring"),
        ),
        Term(
            key="sod-layer",
            name=tr("Sod layer"),
            words=tr(
                "The soil that sod was grown on, often of another texture than the ground it was "
                "laid on. Water and roots tend to stop where the two meet."
            ),
            sources=("sod-layer", "sod-age"),
            see=("topdressing", "root-depth"),
        ),
    )


def _of_the_stand() -> tuple[Term, ...]:
    return (
        Term(
            key="overseeding",
            name=tr("Overseeding"),
            words=tr(
                "Sowing into standing grass to thicken it, for cool-season grass best from 15 "
                "August to 15 September. Seed is kept moist by light waterings until it has "
                "rooted."
            ),
            sources=("sowing-autumn", "seed-moist"),
            see=("coring", "cool-season"),
        ),
        Term(
            key="one-third",
            name=tr("Rule of one third"),
            words=tr(
                "Mow before a third of the blade would have to go: a lawn kept at {kept} is mown "
                "at {at}. Cutting more sets roots back (common practice).",
                kept=told(3, 1, "in"),
                at=told(4.5, 1, "in"),
            ),
            sources=("mowing-third",),
            picture="third",
            see=("clippings", "verdure"),
        ),
    )
