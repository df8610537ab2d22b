"""A feeding told in a line: its pounds shared out by area, and the check before spreading with it.

What happened can be recorded whether or not it was wise: a verdict that does not pass is a
question, never a refusal.
"""

from collections.abc import Mapping
from datetime import date

from lawnbook.plan.doing import done_together
from lawnbook.plan.quick_names import or_joined
from lawnbook.plan.quick_reading import Reading
from lawnbook.plan.quick_records import Made, one_amount, zones_of
from lawnbook.plan.season_model import Task
from lawnbook.plan.spread import check_spread, share_by_area
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import trimmed, unit_shown
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product, Zone

_NAMED = 4


def feeding(reading: Reading, made: Made, on: date) -> None:
    """A feeding of one product; pounds of several zones are shared by area, unless "each" is said.

    Raises OwnerError where the zones have no area to spread on.
    """
    product = _product(reading, made)
    zones = zones_of(reading, made)
    pounds = _pounds(reading, made, product)
    if product is not None:
        made.label = tr("feeding of {name}", name=product.name)
        made.tell(tr("Product"), product.name)
    if pounds is None or product is None or not zones or made.faults:
        if zones:
            made.tell(tr("Zone" if len(zones) == 1 else "Zones"), _names(zones))
        return
    shares = (
        {each.id: pounds for each in zones}
        if reading.each or len(zones) == 1
        else share_by_area(reading.notebook, [each.id for each in zones], pounds)
    )
    for zone in zones:
        made.tell(zone.name, trimmed(shares[zone.id], 2, "lb"))
    _record(reading, made, (product, shares), on)
    _ask_the_check(reading, made, (product.id, shares), on)


def _product(reading: Reading, made: Made) -> Product | None:
    notebook = reading.notebook
    named = [notebook.products[each] for each in reading.ids("products")]
    if len(named) == 1:
        return named[0]
    if len(named) > 1:
        made.faults.append(
            tr("One product at a time: {or_joined}?", or_joined=or_joined([p.name for p in named]))
        )
        return None
    names = [each.name for each in notebook.products.values()]
    if not names:
        made.faults.append(
            tr("Product: the shelf is bare. Put what was spread on it on the Feed page.")
        )
        return None
    made.wants.append("products")
    few = or_joined(names) if len(names) <= _NAMED else tr("such as {names}", names=names[0])
    made.faults.append(tr("Product: say which, {few}.", few=few))
    return None


def _pounds(reading: Reading, made: Made, product: Product | None) -> float | None:
    weight = tr("Kilograms") if is_metric() else tr("Pounds")
    pounds = one_amount(reading, made, "lb", weight)
    bags = one_amount(reading, made, "bag", tr("Bags"))
    if pounds is not None and bags is not None:
        made.faults.append(tr("Say either {weight} or bags, not both.", weight=weight.lower()))
        return None
    if bags is not None and product is not None:
        if product.bag_lb is None:
            unit = unit_shown("lb")
            made.faults.append(
                tr(
                    "Bags: the weight of a bag of {name} is not known; say {unit}.",
                    name=product.name,
                    unit=unit,
                )
            )
            return None
        return bags * product.bag_lb
    if pounds is None and bags is None:
        made.units = (f" {unit_shown('lb')}",)
        such = "5 kg" if is_metric() else "12 lb"
        made.faults.append(
            tr("{weight}: say how much was spread, such as {such}.", weight=weight, such=such)
        )
    elif pounds is not None and pounds <= 0:
        made.faults.append(tr("{weight}: enter more than zero.", weight=weight))
    return pounds


def _record(
    reading: Reading, made: Made, what: tuple[Product, Mapping[str, float]], on: date
) -> None:
    product, shares = what
    zones = reading.notebook.zones
    tasks = [
        Task(
            key=f"feed:{zone_id}", kind="feed", what="", date=on, why="", zone_id=zone_id,
            zone=zones[zone_id].name, product_id=product.id, product=product.name, pounds=pounds,
        )
        for zone_id, pounds in shares.items()
    ]  # fmt: skip
    finished = done_together(reading.notebook, tasks, on)
    made.change.update(finished.change)
    made.records += finished.records


def _ask_the_check(
    reading: Reading, made: Made, what: tuple[str, Mapping[str, float]], on: date
) -> None:
    """The verdict of the check before spreading: said where it passes, asked where not."""
    try:
        checked = check_spread(reading.notebook, what[0], what[1], on)
    except OwnerError as problem:
        made.notes.append(str(problem))
        return
    (made.notes if checked.within else made.questions).append(checked.verdict)


def _names(zones: list[Zone]) -> str:
    return ", ".join(each.name for each in zones)
