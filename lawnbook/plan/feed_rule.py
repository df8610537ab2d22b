"""One rule of feeding as a straight line in what is added, and what rules ask of a product."""

import math

from lawnbook.agronomy.nitrogen import n_lb_per_1000sqft, product_lb_for_rate
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_ledger import LEAST_N_PCT, quick_share
from lawnbook.plan.model import BindingRule
from lawnbook.plan.workings import told_room, told_small
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.records import Product

SLACK_LB = 1e-9
"""How far floating point may pass a limit before it counts as passed."""

LEAST_ROOM_LB = 1e-6
"""Less room than this is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedRule:
    """One rule on one day, lb per 1,000 sq ft unless `stops` says that it forbids the day.

    `tells` is the sentence's beginning, `short` why nothing may go down where the rule leaves no
    room; `shown` is the figure of a rule that stops, in its own unit.
    """

    rule: str
    limit: float
    used: float = 0.0
    per_lb: float = 1.0
    source: str
    tells: str
    short: str
    stops: bool = False
    shown: float = 0.0

    def value(self, n_lb: float) -> float:
        """The rule's figure with so much nitrogen added."""
        return self.shown if self.stops else self.used + self.per_lb * n_lb

    def room(self) -> float:
        """The most nitrogen that may be added; infinite where the rule does not bound it."""
        if self.stops:
            return 0.0
        if self.per_lb <= 0:
            return math.inf
        return max(0.0, (self.limit - self.used) / self.per_lb)

    @property
    def has_room(self) -> bool:
        """Whether it lets anything to speak of go down."""
        return self.room() >= LEAST_ROOM_LB

    def broken(self, n_lb: float) -> bool:
        """Whether adding so much nitrogen breaks the rule; adding nothing breaks none."""
        return n_lb > 0 and (self.stops or self.value(n_lb) > self.limit + SLACK_LB)

    def told(self, n_lb: float) -> BindingRule:
        """The rule as it is shown for so much nitrogen."""
        broken = self.broken(n_lb)
        return BindingRule(
            rule=self.rule,
            limit=self.limit,
            value=self.value(n_lb),
            source=self.source,
            sentence=self.tells if self.stops else self._sentence(n_lb, broken),
            broken=broken,
            stops=self.stops,
        )

    def _sentence(self, n_lb: float, broken: bool) -> str:
        if self.limit == 0:
            stands = (
                tr(
                    ": it would stand at {small_rate} {weight_unit}",
                    small_rate=small_rate(self.value(n_lb)),
                    weight_unit=_weight_unit(),
                )
                if broken
                else ""
            )
            return f"{self.tells}{stands}."
        reached = tr(
            "{tells}: {small_rate} with this",
            tells=self.tells,
            small_rate=small_rate(self.value(n_lb)),
        )
        if broken:
            return tr(
                "{reached}, {small_rate} too much.",
                reached=reached,
                small_rate=small_rate(self.value(n_lb) - self.limit),
            )
        most = self.room()
        room = ""
        if not math.isinf(most):
            room = tr(
                ", up to {room_told} {n_unit} may go down",
                room_told=room_told(most),
                n_unit=n_unit(),
            )
        return f"{reached}{room}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreadable:
    """What the rules ask of a product: percent of it, the quick share of its nitrogen (0-1).

    The amount that its rules are put to is nitrogen or, where it carries none to speak of, the
    product itself: either way lb per 1,000 sq ft.
    """

    name: str
    n_pct: float
    quick_share: float
    p2o5_pct: float = 0.0
    starter: bool = False

    @property
    def carries_nitrogen(self) -> bool:
        """Whether the rules of nitrogen hold for it."""
        return self.n_pct >= LEAST_N_PCT

    def amount(self, product_lb: float, area_sqft: float) -> float:
        """What pounds of it on an area are for the rules, lb per 1,000 sq ft."""
        return n_lb_per_1000sqft(product_lb, self._counted_pct, area_sqft)

    def pounds(self, amount: float, area_sqft: float) -> float:
        """Pounds of the product that are such an amount on an area."""
        return product_lb_for_rate(amount, self._counted_pct, area_sqft)

    @property
    def _counted_pct(self) -> float:
        return min(100.0, self.n_pct) if self.carries_nitrogen else 100.0


NITROGEN = Spreadable(name="nitrogen", n_pct=100.0, quick_share=0.0)
"""Stands in for a product where the shelf is bare."""


def spreadable_of(product: Product | None) -> Spreadable:
    """What the rules ask of a product on the shelf, or of none."""
    if product is None:
        return NITROGEN
    held = analysis_of(product)
    return Spreadable(
        name=product.name,
        n_pct=held.n_pct,
        quick_share=quick_share(product),
        p2o5_pct=held.p2o5_pct,
        starter=product.starter,
    )


def small_rate(lb_per_1000: float) -> str:
    """A rate as `told_small` tells it, without its unit."""
    return told_small(lb_per_1000, 2, RATE_UNIT).split(" ")[0]


def room_told(lb_per_1000: float) -> str:
    """A rate that still fits, rounded down, without its unit."""
    return told_room(lb_per_1000, 2, RATE_UNIT).split(" ")[0]


def n_unit() -> str:
    """What stands behind a rate of nitrogen where its ground is clear: "lb N", "g N/m²"."""
    return tr("g N/m²") if is_metric() else tr("lb N")


def rate_of_n(lb_per_1000: float) -> str:
    """A rate of nitrogen: "0.90 lb N per 1,000 sq ft", "4.4 g N/m²"."""
    number = bare(lb_per_1000, 2, RATE_UNIT)
    unit = n_unit() if is_metric() else tr("lb N per 1,000 sq ft")
    return f"{number} {unit}"


def _weight_unit() -> str:
    return tr("g/m²") if is_metric() else tr("lb")
