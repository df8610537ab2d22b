"""What the section Walk round says of a closed shape. Feet, square feet, inches."""

from lawnbook.desk.telling import either
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told, unit_shown
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.walk_records import Closed, corner_name, listed

KEPT = tr("What is typed stays until the book is closed.")
AS_DRAWN = tr(
    "The sides are as drawn: type over those that you tape, with ? for those that "
    "you do not, and add diagonals."
)
SURE_SDS = 2.0
"""Standard deviations within which nearly all of it lies: 95 in 100 of a normal error."""


def how_words() -> str:
    """How an outline is walked round with a tape."""
    return tr(
        "Walk clockwise from a corner, A, and tape each side, then some diagonals. Type a length "
        "as {like}, ? for a side that you cannot tape; Enter goes to the next, Insert puts a "
        "corner in before the row.",
        like=either(tr("32' 6\" or 9.9 m"), tr("9.9 or 990 cm")),
    )


def area_words(closed: Closed) -> str:
    """The area and how sure it is; that cannot be said while measures contradict each other."""
    if closed.suspects:
        return tr("about {area}", area=_area(closed.area_sqft))
    sure = max(1.0, SURE_SDS * closed.area_sd_sqft)
    return f"{bare(closed.area_sqft, 0, 'sq ft')} ± {_area(sure)}"


def _area(area_sqft: float) -> str:
    """An area whose unit no line break parts."""
    unit = unit_shown("sq ft").replace(" ", "\N{NO-BREAK SPACE}")
    return f"{bare(area_sqft, 0, 'sq ft')} {unit}"


def corner_words(closed: Closed) -> str:
    """The way round, how sure the corners are, and on what that rests."""
    if closed.suspects:
        return tr(
            "{perimeter_ft} round. How sure this is cannot be said while the measures do "
            "not agree.",
            perimeter_ft=feet_inches(closed.perimeter_ft),
        )
    within = SURE_SDS * max(closed.corner_sd_in)
    rests = (
        tr(
            "as the spare measures show (each good to {tape_sd_in})",
            tape_sd_in=told(closed.tape_sd_in, 1, "in"),
        )
        if closed.estimated
        else tr(
            "if each length is good to {tape_sd_in}", tape_sd_in=told(closed.tape_sd_in, 0, "in")
        )
    )
    loosest = max(range(len(closed.outline)), key=lambda each: closed.corner_sd_in[each])
    return tr(
        "{perimeter_ft} round. Corners lie within {within}, {corner_name} the loosest, {rests}.",
        perimeter_ft=feet_inches(closed.perimeter_ft),
        within=told(within, 0, "in"),
        corner_name=corner_name(loosest),
        rests=rests,
    )


def caution_words(closed: Closed) -> str:
    """What else wants a look: corners that turn the other way, another shape that fits."""
    words: list[str] = []
    if closed.wrong_turns:
        names = listed(corner_name(each) for each in sorted(closed.wrong_turns))
        one = len(closed.wrong_turns) == 1
        words.append(
            tr(
                "By the tape, corner {names} turns the other way than is ticked; look there."
                if one
                else "By the tape, corners {names} turn the other way than is ticked; look there.",
                names=names,
            )
        )
    if closed.twin:
        words.append(
            tr("A different shape fits these measures too; one more diagonal tells them apart.")
        )
    return " ".join(words)


def kept_words(name: str, closed: Closed) -> str:
    """What was put on the sketch."""
    shown = f"{name[:1].upper()}{name[1:]}"
    return tr(
        "{shown}: {area_sqft}, {perimeter_ft} round.",
        shown=shown,
        area_sqft=told(closed.area_sqft, 0, "sq ft"),
        perimeter_ft=feet_inches(closed.perimeter_ft),
    )
