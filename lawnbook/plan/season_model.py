"""The shape of a season: what is due for each zone and spot, and the weeks that suit some care.

Everything here is frozen. `Due` (in `model`) is the short list for people; a `Task` is one line of
it for one zone or spot, with a key that stays the same from one plan to the next.
"""

from dataclasses import field
from datetime import date
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.plan.lazily import Lazily
from lawnbook.plan.working_model import Working

# Named here, since inside a class with a field named `date` the type is hidden.
LastDay = date | None
TaskKind = Literal["water", "feed", "plug", "test", "mow", "care", "check"]
"""Watering, feeding, a plug, a soil test, mowing, other care, a checklist of the sprinklers."""


@dataclass(frozen=True, kw_only=True)
class Task:
    """One thing due for one zone, one spot, or (both empty) the yard; `workings` say how so.

    `key` is the same for the same thing in every plan, such as "water:" and the zone's id. `date`
    is the first day for it and `latest` the last one that suits, None where it is open. What a
    tick records is told by the kind: "water" `minutes` in `cycles`, or where no rate is known
    `depth_in` (gross, what a can catches); "feed" `pounds` of `product_id`; "mow" and "care" a care
    entry of `care_kind`; "test" a soil test; "check" opens `care_kind`'s checklist; a "plug" has
    to be read, so that it opens the entry of a plug at `spot_id`. A "feed" without `pounds` only
    tells, such as of days on which nothing may be fed; on a bare shelf no feeding is due.
    """

    key: str
    kind: TaskKind
    what: str
    date: date
    why: str
    latest: LastDay = None
    zone_id: str = ""
    zone: str = ""
    spot_id: str = ""
    spot: str = ""
    workings: Lazily[tuple[Working, ...]] = field(default=Lazily(()))
    minutes: float | None = None
    cycles: int | None = None
    depth_in: float | None = None
    product_id: str = ""
    product: str = ""
    pounds: float | None = None
    care_kind: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CareWindow:
    """Weeks of one year that suit a kind of care in some zones; `kind` as care entries name it."""

    kind: str
    starts: date
    ends: date
    zone_ids: tuple[str, ...]
    zones: tuple[str, ...]
    why: str
    workings: tuple[Working, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Mowing:
    """How often a zone is mown by the rule of one third, from its growth and height of cut.

    `last` is the last mowing on record. `next` is the day by which the grass has grown to
    one and a half times the height of cut (from `last`, or from the day of the plan where none is
    on record); None with a `reason` where it cannot be told or the grass does not grow.
    """

    zone_id: str
    zone: str
    height_in: float | None
    growth_in_per_week: float | None
    every_days: int | None
    last: date | None
    next: date | None
    reason: str = ""
    workings: tuple[Working, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSpread:
    """One coming feeding of one zone, as the budget of its year allows it; bags as they are sold.

    `bags` and `cost` are None where the product's bag or price is not known; `product_id` is empty,
    and `pounds` are of nitrogen, where the shelf is bare. `latest` is the last day before the
    month's budget or a rule closes.
    """

    date: date
    latest: LastDay
    zone_id: str
    zone: str
    number: int
    product_id: str
    product: str
    pounds: float
    n_lb_per_1000: float
    area_sqft: float
    bags: float | None = None
    cost: float | None = None
    workings: tuple[Working, ...] = ()
