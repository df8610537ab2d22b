"""Terms of the soil: what it is made of, and how it takes and holds water."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.glossary import Term


def soil_terms() -> tuple[Term, ...]:
    """The terms, in no order."""
    return (*_of_texture(), *_of_the_laboratory(), *_of_water(), *_of_the_ground())


def _of_texture() -> tuple[Term, ...]:
    return (
        Term(
            key="texture",
            name=tr("Soil texture"),
            words=tr(
                "The shares of sand, silt and clay, which make one of twelve classes from sand to "
                "clay. Texture sets how fast a soil takes water in and how much of it stays for "
                "roots."
            ),
            sources=("usda-texture",),
            picture="triangle",
            see=("jar-test", "ribbon-test", "intake-rate"),
        ),
        Term(
            key="jar-test",
            name=tr("Jar test"),
            words=tr(
                "Soil is shaken with water in a jar and left: sand settles within a minute, silt "
                "within hours, clay last. The depths of the three layers are the shares that name "
                "the texture."
            ),
            sources=("jar-test",),
            picture="jar",
            see=("texture", "ribbon-test"),
        ),
        Term(
            key="ribbon-test",
            name=tr("Ribbon test"),
            words=tr(
                "A moist ball of soil is pressed out between thumb and finger into a ribbon until "
                "it breaks. Below {short} it is a loam, from {long} on a clay, and how gritty or "
                "smooth it feels says which.",
                short=told(1, 0, "in"),
                long=told(2, 0, "in"),
            ),
            sources=("ribbon-test",),
            picture="ribbon",
            see=("texture", "jar-test"),
        ),
    )


def _of_the_laboratory() -> tuple[Term, ...]:
    return (
        Term(
            key="ph",
            name=tr("pH"),
            words=tr(
                "How acid or alkaline the soil is, 7 being neither. Below 6 thatch decays slowly; "
                "a soil test gives the figure, and its laboratory what to do."
            ),
            sources=("thatch-ph", "soil-test-age"),
            see=("soil-test", "thatch"),
        ),
        Term(
            key="soil-test",
            name=tr("Soil test"),
            words=tr(
                "A laboratory’s figures for a sample of your soil: pH, organic matter, phosphorus, "
                "potassium. Every three or four years is usual, always from the same depth."
            ),
            sources=("soil-test-age", "soil-sample"),
            see=("ph", "npk"),
        ),
    )


def _of_water() -> tuple[Term, ...]:
    return (
        Term(
            key="intake-rate",
            name=tr("Intake rate"),
            words=tr(
                "How fast the ground takes water in, from about {clay} in clay to {sand} in sand. "
                "Sprinklers that put down more than that make puddles, then run-off.",
                clay=told(0.10, 2, "in/h"),
                sand=told(0.60, 2, "in/h"),
            ),
            sources=("ia-schedule",),
            picture="slope",
            see=("cycle-and-soak", "slope", "precipitation-rate"),
        ),
        Term(
            key="field-capacity",
            name=tr("Field capacity"),
            words=tr(
                "What a soil still holds a day or two after it was soaked and has drained. Water "
                "beyond it runs deeper than the roots and is lost to them."
            ),
            sources=("fao56",),
            picture="bucket",
            see=("available-water", "depletion"),
        ),
        Term(
            key="available-water",
            name=tr("Available water"),
            words=tr(
                "The part of a soil’s water that roots can take, between field capacity and "
                "wilting: about {sand} in each inch of sand, {loam} in each inch of loam. Times "
                "the rooted soil it is the size of the store.",
                sand=told(0.06, 2, "in"),
                loam=told(0.17, 2, "in"),
            ),
            sources=("ia-schedule",),
            picture="bucket",
            see=("field-capacity", "rooted-soil"),
        ),
        Term(
            key="wilting-point",
            name=tr("Wilting point"),
            words=tr(
                "The dryness at which roots can take no more, though the soil is not dry to the "
                "touch everywhere. The plan waters long before it."
            ),
            sources=("fao56",),
            picture="bucket",
            see=("available-water", "allowed-depletion"),
        ),
    )


def _of_the_ground() -> tuple[Term, ...]:
    return (
        Term(
            key="rooted-soil",
            name=tr("Rooted soil"),
            words=tr(
                "The soil that roots reach: root depth less the thatch, never below nothing. It "
                "is what the plan reckons water with, because thatch adds nothing to what roots "
                "can bear."
            ),
            sources=("roots-in-thatch", "thatch-water"),
            picture="profile",
            see=("root-depth", "available-water"),
        ),
        Term(
            key="microclimate",
            name=tr("Microclimate"),
            words=tr(
                "A place’s own weather: a wall’s heat dries a strip faster, shade and shelter keep "
                "it moist. Each zone has a factor by which its water use is raised or lowered."
            ),
            sources=("wucols",),
            picture="microclimate",
            see=("etc", "hydrozone"),
        ),
        Term(
            key="slope",
            name=tr("Slope"),
            words=tr(
                "Rise over length, in percent; the steeper the ground, the less water stands on it "
                "before it runs. The plan goes by four bands: up to 3, up to 6, up to 12 %, and "
                "steeper."
            ),
            sources=("ia-schedule", "usda-rate"),
            picture="slope",
            see=("intake-rate", "cycle-and-soak"),
        ),
    )
