"""What a screen reader hears of the sketch: how much is drawn, and what is chosen."""

from collections.abc import Iterable, Sequence
from itertools import islice

from lawnbook.desk.sketch.choosing import ON_SKETCH, Choice, is_locked, name_of, number_of
from lawnbook.desk.telling import either
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told
from lawnbook.yard.geometry import area_sqft, zone_area_sqft
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import and_joined, counted
from lawnbook.yard.records import Feature, Record, Zone

_MOST_TOLD = 8
"""More chosen shapes than this are counted, not named one by one."""


def description(
    notebook: Notebook,
    choice: Choice | None,
    cans: int = 0,
    figure: str = "",
    strips: Iterable[str] = (),
    marked: Sequence[Key] = (),
) -> str:
    """The sketch in a sentence or two: "Zone 2, 600 square feet: Back is chosen. 2 zones …".

    `cans` are those in the making, `figure` is what the label of the chosen zone says of its water,
    and `strips` say what holds along water and features: of the chosen zone, else of all. With what
    is chosen first others may be `marked`: all are told with their sizes and locks.
    """
    counts = [
        f"{len(notebook.table(table))} {tr(table)}" for table in ON_SKETCH if notebook.table(table)
    ]
    if cans:
        counts.append(tr("{cans} of a test in the making", cans=counted(cans, "can")))
    words = ", ".join(counts) or tr("Nothing is drawn yet")
    if choice is None:
        # Heard at every step from one shape to the next, the list of all would drown it.
        words = ". ".join((words, *_zones_told(notebook)))
    if choice is not None and marked:
        words = f"{_several(notebook, (choice.key, *marked))}. {words}"
    elif choice is not None and notebook.find(*choice.key) is not None:
        words = f"{_one(notebook, choice, figure)}. {words}"
    under = [each.name for each in notebook.backdrops.values() if each.shown]
    lies = (tr("Under it lies {under}", under=and_joined(under)),) if under else ()
    return ". ".join((words, *lies, *strips, tr("Tab goes from one to the next.")))


def _zones_told(notebook: Notebook) -> tuple[str, ...]:
    """The zones with their areas, as the list of shapes tells them; more than a few are counted."""
    from lawnbook.desk.sketch.shape_rows import zone_words

    numbered = enumerate(notebook.zones.values(), 1)
    zones = [zone_words(number, zone) for number, zone in islice(numbered, _MOST_TOLD)]
    more = len(notebook.zones) - len(zones)
    rest = [tr("zones that are not told here: {count}", count=more)] if more else []
    return ("; ".join((*zones, *rest)),) if zones else ()


def size_words(records: Iterable[Record], *, spoken: bool = False) -> str:
    """The ground of some shapes together, "" where none has any; `spoken` in whole words."""
    areas = [_area_sqft(each) for each in records if isinstance(each, Zone | Feature)]
    if not areas:
        return ""
    return area_spoken(sum(areas)) if spoken else told(sum(areas), 0, "sq ft")


def area_spoken(area_sqft: float) -> str:
    """An area for the ear: "1,204 square feet", "111.9 square metres"."""
    us = tr("{number} square feet", number=bare(area_sqft, 0, "sq ft"))
    return either(us, tr("{number} square metres", number=bare(area_sqft, 0, "sq ft")))


def _one(notebook: Notebook, choice: Choice, figure: str) -> str:
    record = notebook.find(*choice.key)
    lock = tr(" and locked") if is_locked(record) else ""
    words = tr("{name_of} is chosen{lock}", name_of=name_of(notebook, *choice.key), lock=lock)
    if isinstance(record, Zone):
        number = number_of(notebook, record.id)
        size = area_spoken(zone_area_sqft(record))
        return tr(
            "Zone {facts}: {words}",
            facts=", ".join(filter(None, (str(number), size, figure))),
            words=words,
        )
    size = size_words([record], spoken=True) if record is not None else ""
    return f"{size}: {words}" if size else words


def _several(notebook: Notebook, keys: tuple[Key, ...]) -> str:
    records = [record for key in keys if (record := notebook.find(*key)) is not None]
    size = size_words(records, spoken=True)
    told = [_told(notebook, key) for key in keys[:_MOST_TOLD]]
    more = [tr("{count} more", count=len(keys) - _MOST_TOLD)] if len(keys) > _MOST_TOLD else []
    heading = ", ".join(filter(None, (tr("{count} shapes are chosen", count=len(keys)), size)))
    return f"{heading}: {and_joined([*told, *more])}"


def _told(notebook: Notebook, key: Key) -> str:
    record = notebook.find(*key)
    size = size_words([record], spoken=True) if record is not None else ""
    lock = tr("locked") if is_locked(record) else ""
    about = ", ".join(filter(None, (size, lock)))
    return f"{name_of(notebook, *key)} ({about})" if about else name_of(notebook, *key)


def _area_sqft(shape: Zone | Feature) -> float:
    return zone_area_sqft(shape) if isinstance(shape, Zone) else area_sqft(shape.outline_ft)
