"""Terms of the grass itself and of what a plug shows."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.glossary import Term


def turf_terms() -> tuple[Term, ...]:
    """The terms, in no order."""
    return (*_of_the_plug(), *_of_its_layers(), *_of_roots(), *_of_the_grass())


def _of_the_plug() -> tuple[Term, ...]:
    return (
        Term(
            key="plug",
            name=tr("Plug (core)"),
            words=tr(
                "A small piece of turf with its soil, pulled to look at thatch and roots and put "
                "back. Have buried lines located before you pull one, even by hand."
            ),
            sources=("buried-lines",),
            picture="profile",
            see=("thatch", "root-depth", "spot"),
        ),
        Term(
            key="sponge",
            name=tr("Sponge of a plug"),
            words=tr(
                "How springy a plug feels between the fingers, in five steps from firm to giving "
                "like a mattress. It is a feeling and no measurement: only the same hand compares."
            ),
            see=("thatch", "plug"),
        ),
        Term(
            key="trend",
            name=tr("Trend and its 95 %"),
            words=tr(
                "How much thatch changes in a year by the plugs of one spot, the median of the "
                "slopes between all pairs. The range beside it holds the true change in 95 of 100 "
                "such cases; while it reaches to both sides of none, nobody can say which way it "
                "goes."
            ),
            sources=("theil-sen",),
            see=("thatch", "spot", "comparison-strip"),
        ),
    )


def _of_its_layers() -> tuple[Term, ...]:
    return (
        Term(
            key="verdure",
            name=tr("Verdure"),
            words=tr(
                "The green part above the crowns: the blades that are left after mowing. On a "
                "profile column it is the layer on top."
            ),
            picture="profile",
            see=("crown", "plug"),
        ),
        Term(
            key="crown",
            name=tr("Crown"),
            words=tr(
                "The short pale stem at the base of a grass plant from which blades and roots "
                "grow. It is where thatch begins and from where root depth is read."
            ),
            picture="profile",
            see=("root-depth", "dormancy"),
        ),
        Term(
            key="thatch",
            name=tr("Thatch"),
            words=tr(
                "The brown, springy layer of dead and living stems and roots between the crowns "
                "and the soil. Up to {half} it does no harm; above, water and roots tend to stay "
                "in it.",
                half=told(0.5, 2, "in"),
            ),
            sources=("thatch-half-inch", "roots-in-thatch"),
            picture="thatch",
            see=("plug", "coring", "mat"),
        ),
    )


def _of_roots() -> tuple[Term, ...]:
    return (
        Term(
            key="mat",
            name=tr("Mat"),
            words=tr(
                "Thatch with soil mixed into it, by worms, coring or topdressing. It holds water "
                "more like soil does, so a plug notes how much soil there is in the thatch."
            ),
            sources=("thatch-worms",),
            see=("thatch", "topdressing"),
        ),
        Term(
            key="root-depth",
            name=tr("Root depth"),
            words=tr(
                "How far most roots reach, read on the plug from the crowns down to where most of "
                "them end. Before the first plug {depth} is assumed, and marked as a default.",
                depth=told(6, 0, "in"),
            ),
            sources=("default-roots",),
            picture="profile",
            see=("rooted-soil", "plug"),
        ),
        Term(
            key="spot",
            name=tr("Spot"),
            words=tr(
                "A fixed place of the yard where plugs are pulled again and again, each beside "
                "the one before. Only plugs of one spot make a trend."
            ),
            see=("plug", "comparison-strip"),
        ),
        Term(
            key="comparison-strip",
            name=tr("Comparison strip"),
            words=tr(
                "A strip that is left as it was while the rest is treated. It tells what would "
                "have happened anyway, and without one no cause is proven."
            ),
            sources=("comparison-strip",),
            see=("spot",),
        ),
    )


def _of_the_grass() -> tuple[Term, ...]:
    return (
        Term(
            key="cool-season",
            name=tr("Cool-season and warm-season grass"),
            words=tr(
                "Cool-season grasses such as fescues, ryegrass and bluegrass grow most in spring "
                "and autumn; warm-season grasses such as bermudagrass and zoysia grow most in "
                "summer. The plan’s water use, feeding months and weeks for care differ between "
                "the two."
            ),
            sources=("growth-potential",),
            picture="growth",
            see=("growth-potential", "dormancy"),
        ),
        Term(
            key="dormancy",
            name=tr("Dormancy"),
            words=tr(
                "Grass that rests, brown but alive, from cold, heat or drought. The mean "
                "temperature below which it is taken to rest is {cool} for cool-season and {warm} "
                "for warm-season grass.",
                cool=told(40, 0, "°F"),
                warm=told(50, 0, "°F"),
            ),
            sources=("dormancy", "crown-water"),
            see=("crown", "cool-season"),
        ),
        Term(
            key="growth-potential",
            name=tr("Growth potential"),
            words=tr(
                "How much grass can grow at a month’s temperature, as a share of its best, from 0 "
                "to 100 %. The feed page compares it with the nitrogen that is released."
            ),
            sources=("growth-potential",),
            picture="growth",
            see=("slow-nitrogen", "cool-season"),
        ),
        Term(
            key="leaf-area-index",
            name=tr("Leaf area index (LAI)"),
            words=tr(
                "The area of all blades over an area of ground, a measure of how dense a stand is. "
                "The crop coefficient of turf has it built in, so Lawnbook does not ask for it."
            ),
            sources=("fao56",),
            see=("kc",),
        ),
    )
