"""What a screen reader hears of the sketch: how much is drawn, and what is chosen."""

from collections.abc import Iterable

from lawnbook.desk.sketch.choosing import ON_SKETCH, Choice, name_of, number_of
from lawnbook.plan.workings import counted
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Zone


def description(
    notebook: Notebook,
    choice: Choice | None,
    cans: int = 0,
    figure: str = "",
    strips: Iterable[str] = (),
) -> str:
    """The sketch in a sentence or two: "Zone 2, 600 square feet: Back is chosen. 2 zones …".

    `cans` are those in the making, `figure` is what the label of the chosen zone says of its water,
    and `strips` say what holds along water and features: of the chosen zone, else of all.
    """
    counts = [
        f"{len(notebook.table(table))} {table}" for table in ON_SKETCH if notebook.table(table)
    ]
    if cans:
        counts.append(f"{counted(cans, 'can')} of a test in the making")
    words = ", ".join(counts) or "Nothing is drawn yet"
    record = notebook.find(choice.table, choice.record_id) if choice is not None else None
    if choice is not None and record is not None:
        words = f"{name_of(notebook, choice.table, choice.record_id)} is chosen. {words}"
        if isinstance(record, Zone):
            number = number_of(notebook, record.id)
            size = f"{zone_area_sqft(record):,.0f} square feet"
            words = f"Zone {', '.join(filter(None, (str(number), size, figure)))}: {words}"
    return ". ".join((words, *strips, "Tab goes from one to the next."))
