"""A catch test out of a line of plain words: the run's minutes and the depths in the cans."""

from datetime import date

from lawnbook.plan.quick_amounts import sign_of
from lawnbook.plan.quick_reading import Reading
from lawnbook.plan.quick_records import Made, one_amount, put_all, zones_of
from lawnbook.plan.quick_text import with_own_point
from lawnbook.reading import is_metric, localised, tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.notebook import new_id
from lawnbook.yard.numbers import inches, minutes, parse_inches, plain
from lawnbook.yard.records import CatchTest

_DIGITS = "0123456789.,/ "


def cans(reading: Reading, made: Made, on: date) -> None:
    """A catch test of one zone, read as depths; volumes need a form, for the cans' mouth."""
    zones = zones_of(reading, made)
    ran = one_amount(reading, made, "min", tr("Minutes"))
    depths_in = _depths_in(reading)
    called = zones[0].name if len(zones) == 1 else ""
    made.label = tr("catch test of {called}", called=called) if called else tr("catch test")
    if len(zones) > 1:
        made.faults.append(tr("A catch test is of one zone; say which."))
    if called:
        made.tell(tr("Zone"), called)
    if ran is None:
        made.units = (" min",)
        made.faults.append(tr("Say how long it ran, such as {example}.", example=tr("15 min")))
    else:
        made.tell(tr("Ran"), minutes(ran) if ran == round(ran) else f"{plain(ran)} min")
    if not depths_in:
        depths = "5 6 4.5 mm" if is_metric() else "0.20 0.24 0.18 in"
        told = with_own_point(depths)
        made.faults.append(
            tr("Say how deep the water stood in each can, such as {told}.", told=told)
        )
        return
    made.tell(tr("Cans"), plain(len(depths_in)))
    made.tell(tr("Depths"), ", ".join(map(inches, depths_in)))
    if not made.faults and ran is not None and called:
        test = CatchTest(
            id=new_id(), zone=zones[0].id, date=on, run_minutes=ran, depths_in=depths_in
        )
        put_all(reading, made, "catch_tests", [test])


def _depths_in(reading: Reading) -> tuple[float, ...]:
    """The depths of the line, those without a unit in that of the others, else in the owner's.

    Where some have a unit the bare ones stand before them: "5 6 4.5 mm".
    """
    amounts = reading.amounts
    named, typed = amounts.by_unit.pop("in", []), amounts.typed.get("in", [])
    units = {sign_of(each.lstrip(_DIGITS)) for each in typed} or {unit_shown("in")}
    bare, reading.bare = reading.bare, []
    if bare and len(units) > 1:
        reading.bare = bare
        return tuple(named)
    (unit, *_) = units
    own = [parse_inches(f"{localised(each)} {unit}", tr("Depth")) for each in bare]
    return (*own, *named)
