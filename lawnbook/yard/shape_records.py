"""What edits of shapes share: what a record is called, free names, and ground given to a record."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline
from lawnbook.yard.ground import Ground
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import and_joined
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

Shape = Zone | Feature
"""The records that have an outline."""

Placed = Zone | Feature | Head | Spot
"""The records that lie on the sketch by themselves."""

S = TypeVar("S", Zone, Feature)

FARTHEST_FT = 5000.0
"""How far from the sketch's zero point anything may lie, as the records' own rules have it."""

LONGEST_STEM = 150
"""Letters of a name that are kept where a number is put behind it."""

_NUMBERED = re.compile(r"(?P<stem>.*\S)\s+(?P<number>[0-9]{1,4})")


def called(record: Record) -> str:
    """What a record on the sketch is called in a sentence."""
    if isinstance(record, Zone | Spot):
        return record.name
    if isinstance(record, Feature):
        return record.name or tr("the {kind}", kind=tr(record.kind))
    return tr("the head") if isinstance(record, Head) else tr("this")


def listed(words: Sequence[str]) -> str:
    """Words as a list in a sentence: "Front, Back and Side"."""
    return and_joined(words) if words else ""


def sentence_case(words: str) -> str:
    """Words as they begin a sentence."""
    return words[:1].upper() + words[1:]


def held(notebook: Notebook, key: Key) -> Placed:
    """A record on the sketch. KeyError where there is no such one."""
    record = notebook.find(*key)
    if not isinstance(record, Placed):
        raise KeyError(key)
    return record


def shape_held(notebook: Notebook, key: Key) -> Shape:
    """A zone or feature that may be changed. OwnerError where it is locked or is another record."""
    record = held(notebook, key)
    if not isinstance(record, Shape):
        raise OwnerError(tr("Only a zone or a feature has an outline; choose one of those."))
    refuse_locked((record,))
    return record


def refuse_locked(records: Iterable[Placed]) -> None:
    """Raise OwnerError where any of these records is locked."""
    names = [called(each) for each in records if each.locked]
    if names:
        told = sentence_case(listed(list(dict.fromkeys(names))))
        raise OwnerError(
            tr(
                "{told} is locked; unlock it first."
                if len(names) == 1
                else "{told} are locked; unlock them first.",
                told=told,
            )
        )


def free_names(notebook: Notebook, table: str, name: str, count: int = 1) -> tuple[str, ...]:
    """Names that no record of a table has, counting on from one: "Front 2", "Front 3"."""
    taken = {
        str(getattr(row, "name", "")).strip().casefold() for row in notebook.table(table).values()
    }
    match = _NUMBERED.fullmatch(name.strip())
    stem, number = (match["stem"], int(match["number"])) if match else (name.strip(), 1)
    names: list[str] = []
    while len(names) < count:
        number += 1
        told = f"{stem[:LONGEST_STEM]} {number}"
        if told.casefold() not in taken:
            names.append(told)
    return tuple(names)


def with_ground(record: S, ground: Ground) -> S:
    """A record on other ground. ValueError for a feature on ground with holes: it has none."""
    if isinstance(record, Zone):
        return replace(record, outline_ft=ground.outline, holes_ft=ground.holes)
    if ground.holes:
        raise ValueError("only a zone has holes")
    return replace(record, outline_ft=ground.outline)


def refuse_far(rings: Iterable[Outline]) -> None:
    """Raise OwnerError where any corner would lie farther out than the sketch reaches."""
    if any(abs(each) > FARTHEST_FT for ring in rings for point in ring for each in point):
        raise OwnerError(
            tr(
                "That would lie more than {farthest_ft} from the sketch's zero point, farther "
                "than a yard is drawn; choose a shorter way.",
                farthest_ft=told(FARTHEST_FT, 0, "ft"),
            )
        )


def places_of(record: Record | None) -> tuple[Outline, ...]:
    """The places of a record as rings: outline and holes, or its one place; empty for others."""
    if isinstance(record, Zone):
        return (record.outline_ft, *record.holes_ft)
    if isinstance(record, Feature):
        return (record.outline_ft,)
    if isinstance(record, Head | Spot) and record.at_ft is not None:
        return ((record.at_ft,),)
    return ()
