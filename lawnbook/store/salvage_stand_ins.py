"""Stand-ins for zones, spots and products that could not be read, where others lead to them.

A watering that can be read is kept though its zone cannot be: a zone that says so in its name takes
the lost one's place, under its id, until the owner has drawn it anew.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping

from lawnbook.reading import tr
from lawnbook.yard.codec import LONGEST_ID
from lawnbook.yard.limits import first_unshowable
from lawnbook.yard.records import Product, Record, Spot, Zone
from lawnbook.yard.references import references_of

MENDS: Mapping[str, str] = {
    "zones": tr("draw it anew, and say whether it is irrigated"),
    "spots": tr("give it its name and place"),
    "products": tr("enter its label; until then it counts no nitrogen"),
}
"""The tables that have stand-ins, and what the owner does with one."""

_FEWEST_UNKNOWN = 2
_SIDE_FT, _GAP_FT, _FARTHEST_FT = 10.0, 5.0, 4900.0


def wanted(
    rows: Mapping[str, Mapping[str, Record]], known: Mapping[str, Collection[str]]
) -> Iterator[tuple[str, str, int]]:
    """Table and id of each record to stand in for, and how many references lead to it.

    An id must be `known` to its table's own index, or several records must name it: that of one
    alone may be a damaged one.
    """
    led_to = Counter(
        (each.table, each.target)
        for held in rows.values()
        for record in held.values()
        for each in references_of(record)
        if each.table in MENDS and each.target not in rows[each.table]
    )
    for (table, target), count in led_to.items():
        sure = count >= _FEWEST_UNKNOWN or target in known.get(table, ())
        if sure and len(target) <= LONGEST_ID and not first_unshowable(target):
            yield table, target, count


def stand_in(table: str, target: str, held: Iterable[Record]) -> Record:
    """A record of a table that says in its name that it could not be read.

    A zone is a small square west of all others that nothing is planned to be watered on: its true
    outline is not known.
    """
    records = tuple(held)
    names = {getattr(each, "name", "") for each in records}
    if table == "spots":
        return Spot(id=target, name=_free_name(tr("Spot"), names))
    if table == "products":
        return Product(id=target, name=_free_name(tr("Product"), names))
    corners = [x for each in records if isinstance(each, Zone) for x, _ in each.outline_ft]
    east = max(min(corners, default=0.0) - _GAP_FT, -_FARTHEST_FT)
    west = east - _SIDE_FT
    outline = ((west, 0.0), (east, 0.0), (east, _SIDE_FT), (west, _SIDE_FT))
    name = _free_name(tr("Zone"), names)
    return Zone(id=target, name=name, outline_ft=outline, irrigated=False)


def _free_name(kind: str, names: Collection[str]) -> str:
    plain = tr("{kind} that could not be read", kind=kind)
    number, name = 1, plain
    while name in names:
        number += 1
        name = f"{plain} {number}"
    return name
