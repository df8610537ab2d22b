"""The notebook as it is handed over: with or without the owner's names, the place, the pictures.

The plan of what is handed over has the numbers of the true one. Without the place there are no
times of the clock in it: sunrise would tell the place.
"""

import math

from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import CARE_KINDS
from lawnbook.plan.checklist_steps import SPRING, WINTER
from lawnbook.plan.daily_eto import daily_eto
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.redacted import without_names, without_pictures, without_place

KINDS_KEPT: tuple[str, ...] = (
    *CARE_KINDS,
    "mowing",
    "mowed",
    "mown",
    "aerating",
    "coring",
    "core aeration",
    "seeding",
    "rolling",
    "liming",
    "repair",
    "sprinkler repair",
    "spring start-up",
    "winter blow-out",
)
"""Kinds of care that are the trade's words, and stay where names are left out."""

STEPS_KEPT = frozenset(each.key for each in (*SPRING, *WINTER))
"""The keys of checklists' steps; any other came from elsewhere, and may be somebody's own words."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What of the owner's goes into a handover: names and notes, the place, the pictures."""

    names: bool = True
    place: bool = True
    pictures: bool = True


def handed_over(notebook: Notebook, kept: Kept) -> Notebook:
    """The notebook without what is not kept; the very same where all of it is."""
    if not kept.pictures:
        notebook = without_pictures(notebook)
    if not kept.place:
        notebook = without_place(notebook, _reckoned_eto_in(notebook))
    return notebook if kept.names else without_names(notebook, KINDS_KEPT, STEPS_KEPT)


def _reckoned_eto_in(notebook: Notebook) -> dict[str, float]:
    """The ETo (in) of every day on record, by the day's id, for the place as it is known."""
    days = list(notebook.weather.values())
    eto_in = daily_eto(days, notebook.yard).eto_in.tolist()
    return {day.id: eto for day, eto in zip(days, eto_in, strict=True) if not math.isnan(eto)}
