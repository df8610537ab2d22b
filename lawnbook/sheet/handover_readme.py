"""The README of a handover: what is in the file, in plain words, and how to open it again."""

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from lawnbook import __version__
from lawnbook.plan.handed_over import Kept
from lawnbook.plan.model import Plan
from lawnbook.reading import is_metric, tr
from lawnbook.store.handover_names import (
    CALENDAR_NAME,
    DOCUMENTS,
    NOTEBOOK_NAME,
    PHOTOS,
    TABLES_FOLDER,
    YARD_NAME,
)
from lawnbook.store.handover_zip import Member
from lawnbook.yard.numbers import counted, day

WIDTH = 76
_UNITS = tr(
    "Feet and square feet, inches (depths of water are inches over the zone), "
    "minutes, gallons, pounds, pounds of nitrogen per 1,000 square feet, degrees "
    "Fahrenheit, miles an hour, megajoules per square metre. Money is in the "
    "owner's currency. Each heading of a table names its unit; days are "
    "year-month-day."
)
_UNITS_METRIC = tr(
    "The documents are in metric units, as their owner read them. The tables and "
    "the data keep the units that a notebook is held in, whatever its owner reads:"
)
_IN_LAWNBOOK = tr(
    "Lawnbook: choose Open in its menu and then this zip as it is, or drop the zip "
    "on the first page. A copy of your own is made; the zip stays as it is. On the "
    "command line the zip is read wherever a notebook is."
)
_WITHOUT = tr(
    "Without Lawnbook: {documents} are PDF, {photos} are pictures, {tables_folder} "
    "are CSV for any spreadsheet, {calendar_name} is iCalendar (RFC 5545) for any "
    "calendar. {notebook_name} is an SQLite 3 database, and {yard_name} the same "
    "records as JSON in UTF-8.",
    documents=DOCUMENTS,
    photos=PHOTOS,
    tables_folder=TABLES_FOLDER,
    calendar_name=CALENDAR_NAME,
    notebook_name=NOTEBOOK_NAME,
    yard_name=YARD_NAME,
)
_DESCRIBED = (
    (NOTEBOOK_NAME, tr("the whole notebook")),
    (YARD_NAME, tr("its records as text")),
    (f"{DOCUMENTS}/sheet", tr("the plan of the day, with its workings")),
    (f"{DOCUMENTS}/year-review", tr("a year beside the year before")),
    (f"{DOCUMENTS}/then-and-now", tr("two days of a spot side by side")),
    (CALENDAR_NAME, tr("what is due, for a calendar")),
)
_WHICH_COUNTS = tr(
    "Where two files say different things, {notebook_name} counts: the others were "
    "written from it. {yard_name} holds every record but the pictures, which are "
    "in {notebook_name} and, photographs of plugs, in {photos}.",
    notebook_name=NOTEBOOK_NAME,
    yard_name=YARD_NAME,
    photos=PHOTOS,
)
_ALL_THERE = tr("Nothing.")
NAMES_OUT = tr(
    "Names: the yard, zones, spots, features, spreaders, sprayers, timer programs, "
    "budgets, the feeding rule and the water's source have neutral names with "
    "numbers; ids too. Free notes, words on photographs, and kinds of care that "
    "are no common words are gone. Products and grasses keep theirs, which are "
    "labels."
)
PLACE_OUT = tr(
    "The place: longitude, elevation, time zone, the map's zero point and pictures "
    "under the sketch are gone, and the latitude is rounded to 5 degrees. Use of "
    "water reckoned of the exact place stands in the weather as reported ETo, so "
    "that the plan's figures stay the same; enter the latitude of your own yard "
    "before you add weather. Times of the clock for the timer are not given, since "
    "sunrise would tell the place."
)
PLACE_GUESSED = tr(
    "What remains can still tell something: from daily weather and its ETo the "
    "latitude can be reckoned back, and weather or the shapes of the yard can be "
    "compared with public records and aerial pictures."
)
PLACE_IN_NOTES = tr("Names and notes are as the owner wrote them, and may name the place.")
PICTURES_OUT = tr("Pictures: photographs of plugs, and pictures under the sketch.")
PICTURES_SEEN = tr(
    "What is to be seen on a photograph is there: look at them before you pass this on."
)
_AFTER = tr(
    "Records later than that day are in the notebook and the tables, but not in the documents."
)


def readme_text(plan: Plan, kept: Kept, members: Sequence[Member], later: bool) -> str:
    """The README, for the plan in the handover; `later` where records go beyond its day."""
    lines = [
        tr("Handover of {yard}", yard=plan.yard),
        tr("as of {on}, written by Lawnbook {version}", on=day(plan.on), version=__version__),
        "",
        *_section(tr("What is in here"), _contents(members)),
        *_section(tr("How to open it"), (_IN_LAWNBOOK, _WITHOUT, _WHICH_COUNTS)),
        *_section(tr("Units"), (_units(), _AFTER) if later else (_units(),)),
        *_section(tr("What was left out"), left_out(kept) or (_ALL_THERE,)),
        *_section(tr("Cautions"), plan.cautions),
        *_section(
            tr("Sources of the figures"), plan.sources or (tr("None yet: the plan is empty."),)
        ),
    ]
    return "\n".join(lines) + "\n"


def _units() -> str:
    """In what amounts are told, in the documents and in the tables."""
    if not is_metric():
        return tr(_UNITS)
    return f"{tr(_UNITS_METRIC)} {tr(_UNITS)[:1].lower()}{tr(_UNITS)[1:]}"


def left_out(kept: Kept) -> tuple[str, ...]:
    """What is not in a handover, a sentence for each; empty where all of it is."""
    listed: list[str] = []
    if not kept.names:
        listed.append(NAMES_OUT)
    if not kept.place:
        listed += [PLACE_OUT, PLACE_GUESSED]
        listed += [PLACE_IN_NOTES] if kept.names else []
    if not kept.pictures:
        listed.append(PICTURES_OUT)
    elif listed:
        listed.append(PICTURES_SEEN)
    return tuple(listed)


def _section(heading: str, paragraphs: Iterable[str]) -> Iterator[str]:
    yield heading.upper()
    for each in paragraphs:
        yield from textwrap.wrap(each, WIDTH, initial_indent="- ", subsequent_indent="  ")
    yield ""


def _contents(members: Sequence[Member]) -> Iterator[str]:
    """The files with what they are and their sizes; tables and photographs as a number of them."""
    many = (f"{TABLES_FOLDER}/", "table"), (f"{PHOTOS}/", "photograph")
    for each in members:
        if not each.name.startswith(tuple(folder for folder, _ in many)):
            what = next((words for start, words in _DESCRIBED if each.name.startswith(start)), "")
            yield f"{each.name}: {what} ({size_told(each.size)})"
    for folder, noun in many:
        found = [each for each in members if each.name.startswith(folder)]
        if found:
            whole = size_told(sum(each.size for each in found))
            yield f"{folder} {counted(len(found), noun)} ({whole})"


def size_told(size: int) -> str:
    """A size in bytes as a person reads it: "820 KB", "1.4 MB"."""
    if size < 1000 * 1000:
        return f"{max(1, round(size / 1000)):,} KB"
    return f"{size / 1e6:,.1f} MB"
