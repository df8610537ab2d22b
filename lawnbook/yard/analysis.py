"""What a product truly holds: its label's figures, or what a mix's ingredients come to."""

from lawnbook.agronomy.mixes import Analysis, blend
from lawnbook.yard.records import Ingredient, Product


def analysis_of(product: Product) -> Analysis:
    """The analysis that counts, percent of the product.

    A mix holds what its ingredients do, zero included, whatever else is entered for it. The slow
    part is never more than all nitrogen.
    """
    if sum(each.pounds for each in product.ingredients) > 0:
        return blend((each.pounds, _part(each)) for each in product.ingredients)
    return _sound(product.n_pct, product.p2o5_pct, product.k2o_pct, product.slow_n_pct)


def _part(ingredient: Ingredient) -> Analysis:
    return _sound(ingredient.n_pct, ingredient.p2o5_pct, ingredient.k2o_pct, ingredient.slow_n_pct)


def _sound(n_pct: float, p2o5_pct: float, k2o_pct: float, slow_n_pct: float) -> Analysis:
    return Analysis(n_pct, p2o5_pct, k2o_pct, min(slow_n_pct, n_pct))
