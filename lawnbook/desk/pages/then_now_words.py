"""What then and now says in the window, as plain words. No Qt."""

from collections.abc import Sequence

from lawnbook.plan.plug_model import CareMark, DayPlugs, Place, ThenNow
from lawnbook.plan.roots import zone_of_spot
from lawnbook.reading import tr
from lawnbook.sheet.then_now_figures import FigureLine
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

NO_PLUG = tr("No plug at this spot yet: the first shows where the repair begins.")
ONE_DAY = tr(
    "Plugs of one day only, {}. Then and now need two days at the same spot: the "
    "next plug, in the season of the first, can be laid beside it."
)
NO_PHOTO = tr("Neither day has a photo. Add photos to a plug where it is entered, under Columns.")
NO_SPOT = tr("No spot yet: put one down with the Spot tool above the sketch.")
NO_SPOT_HERE = tr("No spot in this zone yet: put one down with the Spot tool above the sketch.")
PICK = tr("Then and now are of one spot: the same ground, a step away from its old holes.")
NOTHING_DONE = tr("Nothing was recorded between the two days.")


def too_few(days: Sequence[DayPlugs]) -> str:
    """Why there is nothing to lay side by side."""
    return ONE_DAY.format(day(days[0].date)) if days else NO_PLUG


def pick_words(notebook: Notebook, place: Place, spots: int) -> str:
    """What stands where a zone or the yard is picked."""
    if spots:
        return PICK
    return NO_SPOT_HERE if place.kind == "zone" and notebook.spots else NO_SPOT


def link_words(notebook: Notebook, spot_id: str, days: int, place: Place) -> str:
    """A spot as a link: its name, its zone where several are listed, and its days."""
    spot = notebook.spots[spot_id]
    zone = notebook.zones.get(zone_of_spot(notebook, spot))
    where = f", {zone.name}" if zone is not None and place.kind == "yard" else ""
    return f"{spot.name}{where}: {_days(days)}"


def care_line(mark: CareMark) -> str:
    """One thing done between, with its day and place."""
    where = f", {mark.where}" if mark.where else ""
    note = f": {mark.note}" if mark.note else ""
    return f"{day(mark.date)}, {tr(mark.kind)}{where}{note}"


def described(pair: ThenNow, lines: Sequence[FigureLine]) -> str:
    """The pictures in words, for those who cannot see them."""
    told = "; ".join(
        tr("{name}: then {then}, now {now}", name=each.name, then=each.then, now=each.now)
        for each in lines
    )
    return tr(
        "{spot}, {then} and {now}. {told}",
        spot=pair.spot,
        then=day(pair.then.date),
        now=day(pair.now.date),
        told=told,
    )


def photo_words(then: int, now: int) -> str:
    """How many photos there are besides those shown; empty where there are no more."""
    more = max(then - 1, 0) + max(now - 1, 0)
    if not more:
        return ""
    return tr(
        "{more} more photo of these days under Photos."
        if more == 1
        else "{more} more photos of these days under Photos.",
        more=more,
    )


def _days(days: int) -> str:
    return (
        tr("no plug yet")
        if not days
        else tr("plugs of 1 day")
        if days == 1
        else tr("plugs of {days} days", days=days)
    )
