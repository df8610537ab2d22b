"""What an edit of shapes did, in words with areas, read from its Change."""

from collections import Counter
from collections.abc import Iterator, Sequence

from lawnbook.reading import tr
from lawnbook.yard import amounts
from lawnbook.yard.geometry import area_sqft, zone_area_sqft
from lawnbook.yard.notebook import Change
from lawnbook.yard.numbers import counted
from lawnbook.yard.records import Feature, FeatureKind, Zone
from lawnbook.yard.shape_records import Shape, called, listed, sentence_case

_GONE_NOUNS = {
    "catch_tests": "catch test",
    "waterings": "watering",
    "soil_tests": "soil test",
    "ticks": "checklist tick",
}
_WITH_NOUNS = {"heads": "head", "spots": "spot"}
_MOST_NEW = 3
_SEVERAL: dict[FeatureKind, str] = {
    "house": tr("houses"),
    "bed": tr("beds"),
    "paving": tr("pieces of paving"),
    "tree": tr("trees"),
    "water": tr("pieces of water"),
    "pool": tr("pools"),
    "fence": tr("fences"),
    "pet patch": tr("pet patches"),
    "buried line": tr("buried lines"),
    "other": tr("other features"),
}
SAME_SQFT = 0.5
"""Areas nearer to each other than this are told as one."""


def told(change: Change) -> str:
    """What a change did to zones and features and what hangs on them; "" where nothing of it.

    Such as "Front is 2,113 sq ft, before 1,648 sq ft. Side is gone. 4 heads came along."
    """
    said = [*_shapes(change), *_along(change), *_gone(change)]
    return " ".join(f"{sentence_case(each)}." for each in said)


def size_told(shape: Shape) -> str:
    """The area of a shape as it is told."""
    holes = shape.holes_ft if isinstance(shape, Zone) else ()
    return amounts.told(area_sqft(shape.outline_ft, holes), 0, "sq ft")


def _shapes(change: Change) -> Iterator[str]:
    for before, after in change.values():
        if not isinstance(before, Shape) or not isinstance(after, Shape):
            continue
        if abs(_area(before) - _area(after)) >= SAME_SQFT:
            yield tr(
                "{shape} is {size}, before {size_before}",
                shape=called(after),
                size=size_told(after),
                size_before=size_told(before),
            )
    new = [each for before, each in change.values() if before is None and isinstance(each, Shape)]
    if new:
        groups = _alike(new)
        few = [f"{_group_called(each)}, {_group_size(each)}" for each in groups[:_MOST_NEW]]
        rest = sum(map(len, groups[_MOST_NEW:]))
        # Names and sizes in one list, each pair apart from the next.
        yield tr("new: {few}", few="; ".join(few)) + (
            tr("; and {rest} more", rest=rest) if rest > 0 else ""
        )
    gone = [each for each, after in change.values() if after is None and isinstance(each, Shape)]
    if gone:
        told_gone = listed([_group_called(each) for each in _alike(gone)])
        yield tr("{shapes} is gone" if len(gone) == 1 else "{shapes} are gone", shapes=told_gone)


def _alike(shapes: Sequence[Shape]) -> list[list[Shape]]:
    """Shapes in groups: features of a kind without a name together, every other alone."""
    groups: dict[str, list[Shape]] = {}
    for each in shapes:
        nameless = isinstance(each, Feature) and not each.name
        groups.setdefault(f"the {called(each)}" if nameless else each.id, []).append(each)
    return list(groups.values())


def _group_called(group: Sequence[Shape]) -> str:
    """The name of one shape, or how many of their kind there are: "2 beds"."""
    first = group[0]
    if len(group) == 1 or not isinstance(first, Feature):
        return called(first)
    return f"{len(group)} {_SEVERAL[first.kind]}"


def _group_size(group: Sequence[Shape]) -> str:
    return (
        size_told(group[0]) if len(group) == 1 else amounts.told(sum(map(_area, group)), 0, "sq ft")
    )


def crumbs_told(crumbs_sqft: float) -> str:
    """What is told of the scraps that a cut does not keep; "" where there are none."""
    if crumbs_sqft <= 0:
        return ""
    least = tr("Less than {part}", part=amounts.told(1, 0, "sq ft"))
    size = amounts.told(crumbs_sqft, 0, "sq ft") if crumbs_sqft >= SAME_SQFT else least
    return tr("{size} in scraps too small to keep went.", size=size)


def _along(change: Change) -> Iterator[str]:
    came: Counter[str] = Counter()
    for (table, _), (before, after) in change.items():
        if table in _WITH_NOUNS and before is not None and after is not None:
            came[_WITH_NOUNS[table]] += getattr(before, "zone", "") != getattr(after, "zone", "")
    words = [counted(number, one) for one, number in came.items() if number]
    if words:
        yield tr("{listed} came along", listed=listed(words))


def _gone(change: Change) -> Iterator[str]:
    gone = Counter(table for (table, _), (_, after) in change.items() if after is None)
    words = [counted(gone[table], one) for table, one in _GONE_NOUNS.items() if gone[table]]
    if words:
        yield tr("{listed} went; undo brings all back", listed=listed(words))


def _area(shape: Zone | Feature) -> float:
    return zone_area_sqft(shape) if isinstance(shape, Zone) else area_sqft(shape.outline_ft)
