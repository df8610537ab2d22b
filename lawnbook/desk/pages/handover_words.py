"""What the handover section says: what will be in the file, how far it is, what became of it."""

from collections.abc import Sequence

from lawnbook.desk.handover_run import PREPARING, Ended
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.plan.then_now import plug_days
from lawnbook.plan.year_review_span import review_years
from lawnbook.reading import tr
from lawnbook.sheet.handover import MOST_PAIRS, REVIEWED_YEARS, Wants
from lawnbook.sheet.handover_readme import PICTURES_SEEN, PLACE_GUESSED, PLACE_IN_NOTES, size_told
from lawnbook.store.handover_names import (
    CALENDAR_NAME,
    DOCUMENTS,
    NOTEBOOK_NAME,
    PHOTOS,
    README_NAME,
    TABLES_FOLDER,
    YARD_NAME,
)
from lawnbook.store.handover_zip import Member
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import TABLES

NAMES_HINT = tr(
    "The yard, zones, spots and tools get neutral names with numbers; notes are "
    "left out. Product names stay: they are labels."
)
PLACE_HINT = tr(
    "No longitude, elevation, time zone or pictures under the sketch; the latitude "
    "to 5° only. The plan's figures stay the same, without times of the clock."
)
PHOTOS_HINT = tr("Photographs of plugs, and pictures under the sketch.")


@dataclass(frozen=True, slots=True)
class Part:
    """A line of the list: what it is, what it holds, and its size, empty where not known yet."""

    what: str
    held: str
    size: str = ""


@dataclass(frozen=True, slots=True)
class Sizes:
    """Bytes of the open notebook's file, and of the pictures in it."""

    book: int
    pictures: int


def parts_of(notebook: Notebook, plan: Plan, wants: Wants, sizes: Sizes) -> tuple[Part, ...]:
    """What will be in the handover; sizes are those of the open notebook, before packing."""
    book = sizes.book if wants.photos else max(0, sizes.book - sizes.pictures)
    photos = len(notebook.photos) if wants.photos else 0
    tables = sum(bool(notebook.table(name)) for name in TABLES if name not in _PICTURED)
    parts = [
        Part(
            tr("Notebook"),
            tr("every record, to go on with in Lawnbook"),
            tr("about {size_told}", size_told=size_told(book)),
        ),
        Part(tr("Documents"), _documents_told(notebook, plan)),
        Part(tr("Tables"), tr("{tables} as CSV, units in the headings", tables=tables)),
        Part(tr("Calendar"), tr("what is due, as iCalendar")),
        Part(tr("Photographs"), *_photos_told(photos, sizes.pictures)),
        Part("README", tr("what is in here, as of {on}", on=day(plan.on))),
    ]
    return tuple(parts)


_PICTURED = frozenset({"photos", "backdrops"})


def parts_written(ended: Ended) -> tuple[Part, ...]:
    """What is in a handover that was written, with the sizes of its files before packing."""
    listed: list[Part] = []
    for what, start, held in (
        (tr("Notebook"), NOTEBOOK_NAME, tr("every record, to go on with in Lawnbook")),
        (tr("Records as text"), YARD_NAME, tr("the same as JSON, without pictures")),
        (tr("Documents"), DOCUMENTS, tr("{} PDF")),
        (tr("Tables"), TABLES_FOLDER, tr("{} as CSV, units in the headings")),
        (tr("Calendar"), CALENDAR_NAME, tr("what is due, as iCalendar")),
        (tr("Photographs"), PHOTOS, "{}"),
        ("README", README_NAME, tr("what is in here, and how to open it")),
    ):
        found = [each for each in ended.members if each.name.split("/")[0] == start]
        if found:
            listed.append(Part(what, held.format(len(found)), size_told(_sum(found))))
    return tuple(listed)


def progress_told(name: str, done: int, of: int) -> str:
    """What is being done, of the name of a file, and how far it is."""
    return PREPARING if not done else tr("{done} of {of}: {name}", done=done, of=of, name=name)


def ended_told(ended: Ended) -> str:
    """What became of it: where it is, how large, and what was left out."""
    if ended.refused:
        return ended.refused
    out = [
        words
        for words, is_out in (
            (tr("names and notes"), not ended.wants.names),
            (tr("the place"), not ended.wants.location),
            ("pictures", not ended.wants.photos),
        )
        if is_out
    ]
    size = size_told(ended.path.stat().st_size) if ended.path.exists() else ""
    left = tr("Left out: {out}.", out=", ".join(out)) if out else tr("Nothing was left out.")
    return tr(
        "Saved: {path} ({size}, {count} files). {left}",
        path=ended.path,
        size=size,
        count=len(ended.members),
        left=left,
    )


def remains_told(wants: Wants) -> str:
    """What may still tell of the place or of people although it is left out."""
    told = [] if wants.location else [PLACE_GUESSED]
    if wants.names and not wants.location:
        told.append(PLACE_IN_NOTES)
    if wants.photos and not (wants.names and wants.location):
        told.append(PICTURES_SEEN)
    return " ".join(told)


def _documents_told(notebook: Notebook, plan: Plan) -> str:
    reviews = len(review_years(notebook, plan.on)[-REVIEWED_YEARS:])
    pairs = sum(len(plug_days(notebook, spot, plan.on)) > 1 for spot in notebook.spots)
    told = [
        tr("sheet"),
        tr("{reviews} years in review", reviews=reviews) if reviews > 1 else tr("year in review"),
    ]
    if pairs:
        spots = tr("1 spot") if pairs == 1 else tr("{pairs} spots", pairs=min(pairs, MOST_PAIRS))
        told.append(tr("then and now of {spots}", spots=spots))
    return tr("as PDF: {told}", told=", ".join(told))


def _photos_told(count: int, size: int) -> tuple[str, str]:
    if not count:
        return tr("none"), ""
    return tr("{count} of plugs", count=count) if count > 1 else tr("1 of a plug"), tr(
        "about {size_told}", size_told=size_told(size)
    )


def _sum(members: Sequence[Member]) -> int:
    return sum(each.size for each in members)
