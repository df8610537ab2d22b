"""What home-made mixes are made of: measures turned into pounds, and examples to begin with.

No Qt. An example is only a start: what the owner's own label or test says comes before it.
"""

from collections.abc import Sequence

from lawnbook.agronomy.mixes import Analysis
from lawnbook.agronomy.sources import cite
from lawnbook.agronomy.units import (
    CUPS_PER_GAL,
    FL_OZ_PER_GAL,
    G_PER_LB,
    L_PER_GAL,
    LB_PER_GAL_PER_KG_PER_L,
    OZ_PER_LB,
    TBSP_PER_GAL,
    TSP_PER_GAL,
)
from lawnbook.desk.pages.shelf_words import amount, figure, npk
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.numbers import and_joined
from lawnbook.yard.records import Ingredient, Product

WATER_LB_PER_GAL = round(LB_PER_GAL_PER_KG_PER_L, 3)
"""A gallon of water, as it is shown in a field: 8.345."""

GAL_BY_UNIT = {
    "gal": 1.0,
    "cup": 1 / CUPS_PER_GAL,
    "fl oz": 1 / FL_OZ_PER_GAL,
    "tbsp": 1 / TBSP_PER_GAL,
    "tsp": 1 / TSP_PER_GAL,
    "mL": 1 / (1000 * L_PER_GAL),
    "L": 1 / L_PER_GAL,
}
"""Gallons in one of each measure of volume."""

LB_BY_UNIT = {"lb": 1.0, "oz": 1 / OZ_PER_LB, "g": 1 / G_PER_LB, "kg": 1000 / G_PER_LB}
"""Pounds in one of each measure of weight."""

UNITS = ("lb", "oz", "g", "gal", "fl oz", "cup", "tbsp", "tsp", "mL", "L")
"""The measures of an ingredient, as they are offered."""


@dataclass(frozen=True, slots=True)
class Example:
    """A common ingredient with an analysis to be checked, and the words that say so."""

    ingredient: Ingredient
    density_lb_per_gal: float | None
    unit: str
    note: str


EXAMPLES: tuple[Example, ...] = (
    Example(
        Ingredient(name=tr("Water"), pounds=0.0),
        WATER_LB_PER_GAL,
        "gal",
        tr(
            "Tap water: a well or reclaimed water may carry nitrogen, so enter its report "
            "under Yard."
        ),
    ),
    Example(
        Ingredient(name=tr("Molasses"), pounds=0.0, n_pct=0.9, k2o_pct=5.0),
        12.0,
        "fl oz",
        tr(
            "Molasses: 0.4–1.4 percent nitrogen by its protein, so 0.9 to begin with. "
            "Sources: {cite}. {cite_2}.",
            cite=cite("molasses-feed"),
            cite_2=cite("kitchen-analysis"),
        ),
    ),
    Example(
        Ingredient(name=tr("Dry yeast"), pounds=0.0, n_pct=6.5),
        None,
        "oz",
        tr(
            "Dry baker's yeast: nitrogen by its protein. Source: {cite}.",
            cite=cite("kitchen-analysis"),
        ),
    ),
    Example(
        Ingredient(name=tr("Compost tea"), pounds=0.0),
        WATER_LB_PER_GAL,
        "gal",
        tr("Compost tea: nothing is counted until a laboratory has tested yours."),
    ),
    Example(
        Ingredient(name=tr("Urea"), pounds=0.0, n_pct=46.0),
        None,
        "lb",
        tr("Urea: 46-0-0 by its label, all of it quick (common practice)."),
    ),
)
"""Ingredients offered as a start."""


def is_volume(unit: str) -> bool:
    """Whether a unit measures volume, so that a density is needed. KeyError for no unit."""
    if unit not in GAL_BY_UNIT and unit not in LB_BY_UNIT:
        raise KeyError(unit)
    return unit in GAL_BY_UNIT


def pounds_of(amount: float, unit: str, density_lb_per_gal: float | None) -> float:
    """Pounds of an amount in one of `UNITS`. ValueError for a volume without a density."""
    if not is_volume(unit):
        return amount * LB_BY_UNIT[unit]
    if density_lb_per_gal is None:
        raise ValueError(f"{unit} is a volume: its weight takes a density")
    return amount * GAL_BY_UNIT[unit] * density_lb_per_gal


def mix_sentence(ingredients: Sequence[Ingredient]) -> str:
    """What a mix holds and weighs, zero included; empty before anything weighs something."""
    pounds = sum(each.pounds for each in ingredients)
    if pounds <= 0:
        return ""
    mixed = holds_of(ingredients)
    names = _names([each.name for each in ingredients])
    lead = tr(
        "{names}: {amount} in all, {npk}.", names=names, amount=amount(pounds, "lb"), npk=npk(mixed)
    )
    if mixed.n_pct <= 0:
        return tr("{lead} It carries no nitrogen, and counts as none.", lead=lead)
    unit = unit_shown("lb")
    carried = tr(
        "100 {unit} carry {figure} {unit} of nitrogen", unit=unit, figure=figure(mixed.n_pct)
    )
    part = tr(", {figure} {unit} of it slow", figure=figure(mixed.slow_n_pct), unit=unit)
    slow = part if mixed.slow_n_pct > 0 else tr(", all quick")
    return f"{lead} {carried}{slow}."


def holds_of(ingredients: Sequence[Ingredient]) -> Analysis:
    """The analysis of a mix of ingredients; nothing while they weigh nothing."""
    return analysis_of(Product(id="", name="", ingredients=tuple(ingredients)))


def _names(names: Sequence[str]) -> str:
    """ "Molasses", "Molasses and water", "Molasses, yeast and water"."""
    lowered = [names[0], *(each[:1].lower() + each[1:] for each in names[1:])]
    return and_joined(lowered)
