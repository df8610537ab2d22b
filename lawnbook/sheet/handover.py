"""The handover: one zip for the next owner or an adviser, of ordinary files that anyone can open.

What is left out on request is left out of all of it: documents, tables and calendar are made of
the notebook that is handed over, never of the true one.
"""

import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from itertools import islice
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.plan.handed_over import Kept, handed_over
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import ThenNow
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.then_now import plug_days, then_and_now, usual_then
from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_model import YearReview
from lawnbook.plan.year_review_span import review_years
from lawnbook.reading import tr
from lawnbook.sheet.documents import sheet_document, then_now_document
from lawnbook.sheet.handover_readme import readme_text
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.paper import Between, Draw, nothing_between
from lawnbook.sheet.pdf import FINE, page_bytes
from lawnbook.sheet.review_documents import review_document
from lawnbook.sheet.steady_pdf import settled_order, steady_pdf
from lawnbook.store.calendar_ics import NothingDue, calendar_bytes
from lawnbook.store.files import refuse_wrong_suffix
from lawnbook.store.handover_book import create_steady
from lawnbook.store.handover_names import (
    CALENDAR_NAME,
    DOCUMENTS,
    HANDOVER_SUFFIX,
    NOTEBOOK_NAME,
    PHOTOS,
    README_NAME,
    TABLES_FOLDER,
    YARD_NAME,
    Names,
    safe_stem,
)
from lawnbook.store.handover_zip import HandoverZip, Member, handover_zip
from lawnbook.store.picture_bare import with_bare_pictures
from lawnbook.store.tables_out import csv_bytes, tables_csv
from lawnbook.store.yardfile import write_yard
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.redacted import without_pictures

MOST_PAIRS = 12
"""Then and now is written of so many spots at most, in the owner's order."""
REVIEWED_YEARS = 2
_PNG = b"\x89PNG"


@dataclass(frozen=True, slots=True)
class Wants:
    """What is wanted in a handover: the paper of its documents, and what of the owner's."""

    paper: PaperName = "letter"
    names: bool = True
    location: bool = True
    photos: bool = True

    @property
    def kept(self) -> Kept:
        """What of the notebook goes in."""
        return Kept(names=self.names, place=self.location, pictures=self.photos)


MakeBytes = Callable[[Between], bytes]
MakePages = Callable[[Between], tuple[str, Draw | tuple[Draw, ...]]]
"""Lays out a document: its title and what paints its pages."""


@dataclass(frozen=True, slots=True)
class Document:
    """A PDF of the handover: its name in the zip, and how its bytes are made, in any thread.

    Making them tells between two pages how far it is, and leaves off where that raises.
    """

    name: str
    make: MakeBytes


@dataclass(frozen=True, slots=True)
class Handover:
    """What is handed over: the notebook without what is left out, and all reckoned of it."""

    notebook: Notebook
    plan: Plan
    wants: Wants
    reviews: tuple[YearReview, ...]
    pairs: tuple[ThenNow, ...]


def nothing_written(_name: str) -> None:
    """Let the writing go on."""


def prepared(notebook: Notebook, plan: Plan, wants: Wants) -> Handover:
    """The handover of a notebook for the day of its plan; no Qt in here.

    Pictures are read once where something is left out, to see that nothing is written in them.
    """
    kept = handed_over(notebook, wants.kept)
    if wants.photos and not (wants.names and wants.location):
        kept = with_bare_pictures(kept)
    return Handover(
        notebook=kept,
        plan=plan if kept is notebook else make_plan(kept, plan.on),
        wants=wants,
        reviews=tuple(
            year_review(kept, year, plan.on)
            for year in review_years(kept, plan.on)[-REVIEWED_YEARS:]
        ),
        pairs=tuple(islice(_pairs(as_of(kept, plan.on), plan.on), MOST_PAIRS)),
    )


def _pairs(known: Notebook, on: date) -> Iterator[ThenNow]:
    """The two days of every spot that has two."""
    for spot in known.spots:
        days = plug_days(known, spot, on)
        if len(days) > 1:
            yield then_and_now(known, spot, usual_then(days), days[-1].date)


def documents_of(handover: Handover) -> tuple[Document, ...]:
    """The PDFs of a handover, none of them made yet."""
    names = Names()
    return tuple(
        Document(names.take(DOCUMENTS, words, ".pdf"), make) for words, make in _documents(handover)
    )


def write_handover(notebook: Notebook, plan: Plan, path: Path, wants: Wants) -> None:
    """Write a handover, whole or not at all; the same bytes for the same notebook and day.

    OwnerError for a name that does not end in .zip, a file of another kind in the way, a place
    that cannot be written to, a full disk, or a picture that cannot be read any more.
    """
    refuse_wrong_suffix(path, HANDOVER_SUFFIX, tr("A handover"))
    handover = prepared(notebook, plan, wants)
    pages = {each.name: each.make(nothing_between) for each in documents_of(handover)}
    write_prepared(handover, pages, path, nothing_written)


def write_prepared(
    handover: Handover,
    documents: Mapping[str, bytes],
    path: Path,
    between: Callable[[str], None],
    last: Callable[[], None] = lambda: None,
) -> tuple[Member, ...]:
    """Write a handover whose documents are painted; what is in it. No Qt in here.

    `between` is told each file that is in, `last` is called just before the zip takes its place;
    both may raise to give up: nothing is written then.
    """
    refuse_wrong_suffix(path, HANDOVER_SUFFIX, tr("A handover"))
    with (
        tempfile.TemporaryDirectory(prefix="lawnbook-") as folder,
        handover_zip(path, handover.plan.on, between, last) as into,
    ):
        _add_books(into, handover, Path(folder), path)
        for name, data in documents.items():
            into.add(name, data)
        for name, text in tables_csv(without_pictures(handover.notebook)).items():
            into.add(f"{TABLES_FOLDER}/{name}", csv_bytes(text))
        _add_calendar(into, handover)
        _add_photos(into, handover.notebook)
        into.add(README_NAME, _readme(handover, into.members).encode())
        return tuple(into.members)


def _add_books(into: HandoverZip, handover: Handover, folder: Path, path: Path) -> None:
    """The notebook as a new file, in which nothing that was removed can linger, and as JSON."""
    book, yard = folder / NOTEBOOK_NAME, folder / YARD_NAME
    try:
        create_steady(book, handover.notebook, handover.plan.on)
        into.add_file(NOTEBOOK_NAME, book)
        book.unlink()
        write_yard(without_pictures(handover.notebook), yard)
        into.add_file(YARD_NAME, yard)
    except OwnerError as error:
        raise OwnerError(f"{path.name}: {error}") from error


def _add_calendar(into: HandoverZip, handover: Handover) -> None:
    notebook, plan = handover.notebook, handover.plan
    try:
        data = calendar_bytes(notebook, plan, spreading_plan(notebook, plan.on))
    except NothingDue:
        return
    into.add(CALENDAR_NAME, data)


def _add_photos(into: HandoverZip, notebook: Notebook) -> None:
    """The photographs of plugs, read and written one after another."""
    names, counted = Names(), Counter[str]()
    for photo in notebook.photos.values():
        core = notebook.cores[photo.core]
        data = photo.data_b64.data()
        suffix = ".png" if data.startswith(_PNG) else ".jpg"
        words = safe_stem(f"{core.date.isoformat()} {notebook.spots[core.spot].name}")
        counted[words] += 1
        name = names.take(PHOTOS, f"{words} {counted[words]}", suffix)
        into.add(name, data, packed=True)


def _readme(handover: Handover, members: Iterable[Member]) -> str:
    notebook, plan = handover.notebook, handover.plan
    later = as_of(notebook, plan.on) is not notebook
    return readme_text(plan, handover.wants.kept, tuple(members), later)


def _documents(handover: Handover) -> Iterator[tuple[str, MakeBytes]]:
    notebook, plan, paper = handover.notebook, handover.plan, handover.wants.paper

    def pages(made: MakePages) -> MakeBytes:
        def make(between: Between) -> bytes:
            with settled_order():
                return steady_pdf(page_bytes(*made(between), paper, FINE, between), plan.on)

        return make

    def sheet(between: Between) -> tuple[str, tuple[Draw, ...]]:
        return sheet_document(notebook, plan, paper, workings=True, between=between)

    yield "sheet", pages(sheet)
    for review in handover.reviews:
        yield (
            tr("year-review {label}", label=review.span.label),
            pages(_review(notebook, review, paper)),
        )
    known = as_of(notebook, plan.on)
    for pair in handover.pairs:
        yield tr("then-and-now {spot}", spot=pair.spot), pages(_pair(known, pair, paper))


def _review(notebook: Notebook, review: YearReview, paper: PaperName) -> MakePages:
    return lambda _: review_document(notebook, review, paper)


def _pair(notebook: Notebook, pair: ThenNow, paper: PaperName) -> MakePages:
    return lambda _: then_now_document(notebook, pair, paper)
