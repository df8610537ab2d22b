"""Terms of how much water the grass uses and when it is due."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.glossary import Term


def water_terms() -> tuple[Term, ...]:
    """The terms, in no order."""
    return (*_of_use(), *_of_days(), *_of_depths())


def _of_use() -> tuple[Term, ...]:
    return (
        Term(
            key="eto",
            name=tr("ETo (reference evapotranspiration)"),
            words=tr(
                "How much water a well-watered reference grass would use in a day of this weather. "
                "It is worked out from temperature, and from sun, wind and humidity where they are "
                "known."
            ),
            sources=("fao56", "hargreaves"),
            picture="use",
            see=("etc", "kc"),
        ),
        Term(
            key="kc",
            name=tr("Kc (crop coefficient)"),
            words=tr(
                "What your grass uses as a share of ETo, month by month. It is zero while the "
                "grass is dormant, and south of the equator it runs half a year later."
            ),
            sources=("uc-kc",),
            picture="use",
            see=("eto", "etc"),
        ),
        Term(
            key="etc",
            name=tr("ETc (use of your grass)"),
            words=tr(
                "What your lawn uses in a day: ETo × Kc × its microclimate. How many days lie "
                "between two waterings is what may be used, divided by this."
            ),
            sources=("fao56",),
            picture="use",
            see=("eto", "kc", "interval"),
        ),
    )


def _of_days() -> tuple[Term, ...]:
    return (
        Term(
            key="interval",
            name=tr("Interval"),
            words=tr(
                "Whole days from one watering to the next. It is as long as the roots can bear, "
                "or as long as the target depth lasts where that is less."
            ),
            sources=("fao56", "deep-seldom"),
            picture="depletion",
            see=("allowed-depletion", "target-depth"),
        ),
        Term(
            key="effective-rain",
            name=tr("Rain that counts"),
            words=tr(
                "Rain that reaches the roots and stays. A shower below a fifth of the day’s ETo is "
                "left out, and so is all that comes when the soil is full."
            ),
            sources=("fao56",),
            picture="depletion",
            see=("depletion", "field-capacity"),
        ),
        Term(
            key="depletion",
            name=tr("Depletion"),
            words=tr(
                "How much of the store in the rooted soil is used up, as a depth of water. Use "
                "raises it each day; rain and watering lower it, never below nothing."
            ),
            sources=("fao56",),
            picture="depletion",
            see=("allowed-depletion", "field-capacity"),
        ),
        Term(
            key="allowed-depletion",
            name=tr("Allowed depletion"),
            words=tr(
                "The share of the available water that may be used before the grass is watered "
                "again: 0.40 for cool-season and 0.50 for warm-season grass unless you allow more. "
                "A higher share waters less often and stresses the grass."
            ),
            sources=("depletion",),
            picture="bucket",
            see=("depletion", "available-water"),
        ),
    )


def _of_depths() -> tuple[Term, ...]:
    return (
        Term(
            key="target-depth",
            name=tr("Target depth"),
            words=tr(
                "How much you would like to water at a time once roots allow it, {inch} for many "
                "lawns. The plan steps towards it and never pretends that shallow roots bear it.",
                inch=told(1, 0, "in"),
            ),
            sources=("practice-inch",),
            see=("bearable-depth", "root-depth"),
        ),
        Term(
            key="bearable-depth",
            name=tr("Bearable depth"),
            words=tr(
                "What may be used and put back at once: allowed depletion × available water × "
                "rooted soil. {roots} of loam bear about {depth} at 0.40.",
                roots=told(6, 0, "in"),
                depth=told(0.41, 2, "in"),
            ),
            sources=("depletion", "ia-schedule"),
            picture="bucket",
            see=("rooted-soil", "target-depth"),
        ),
        Term(
            key="leaching",
            name=tr("Leaching"),
            words=tr(
                "Water beyond what the soil holds carries nitrogen and salt down past the roots. "
                "On salty water some is wanted, otherwise it is loss."
            ),
            sources=("fao29",),
            see=("field-capacity", "quick-nitrogen"),
        ),
        Term(
            key="salinity",
            name=tr("Salinity of the water (EC)"),
            words=tr(
                "How much salt the water carries, told by how well it conducts: below 0.7 dS/m it "
                "sets no limit to use. Saltier water needs a little more of itself to carry its "
                "salt down past the roots."
            ),
            sources=("fao29",),
            see=("leaching", "multiplier"),
        ),
    )
