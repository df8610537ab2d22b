"""What a product holds by weight, and what a mix of several does.

Percent of the product, phosphate and potash as P2O5 and K2O. Source: "n-arithmetic".
"""

from collections.abc import Iterable

from lawnbook.agronomy.guards import not_negative
from lawnbook.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Analysis:
    """Nitrogen, phosphate and potash, and the slow part of the nitrogen: percent of the whole."""

    n_pct: float = 0.0
    p2o5_pct: float = 0.0
    k2o_pct: float = 0.0
    slow_n_pct: float = 0.0

    @property
    def quick_n_pct(self) -> float:
        """Nitrogen that is not slow, percent of the whole."""
        return max(0.0, self.n_pct - self.slow_n_pct)


def blend(parts: Iterable[tuple[float, Analysis]]) -> Analysis:
    """The analysis of a mix of (pounds, analysis): the mean weighted by pounds.

    What has no nitrogen, water for one, thins the rest. ValueError for pounds below zero or where
    all parts together weigh nothing.
    """
    listed = [(not_negative("pounds", pounds), each) for pounds, each in parts]
    total = sum(pounds for pounds, _ in listed)
    if total <= 0:
        raise ValueError("a mix must weigh something")
    return Analysis(
        n_pct=sum(pounds * each.n_pct for pounds, each in listed) / total,
        p2o5_pct=sum(pounds * each.p2o5_pct for pounds, each in listed) / total,
        k2o_pct=sum(pounds * each.k2o_pct for pounds, each in listed) / total,
        slow_n_pct=sum(pounds * each.slow_n_pct for pounds, each in listed) / total,
    )
