"""Keeping the open notebook in another file; a big one is written beside the window's work."""

from pathlib import Path
from typing import TYPE_CHECKING

from lawnbook.desk.beside import Stop
from lawnbook.desk.dialogs import choose_elsewhere
from lawnbook.reading import tr
from lawnbook.session.planning import takes_long
from lawnbook.store.handover_book import with_pictures_apart
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.session.open_notebook import OpenNotebook
    from lawnbook.yard.notebook import Notebook


def keep_elsewhere(window: "BookWindow") -> None:
    """Ask for another file, write the whole notebook there, and carry on in it.

    Edits made meanwhile go along. A small notebook is written at once; so is one of which something
    waits or would be lost, as that needs what the window alone holds.
    """
    book = window.book
    if not (takes_long(book.notebook) and _is_plainly_kept(book)):
        window.keep_elsewhere()
        return
    if window.writing.in_the_way:
        window.status.say(window.writing.in_the_way, "refuse")
        return
    path = choose_elsewhere(window, book.path)
    if path is None:
        return
    written = book.notebook
    apart = with_pictures_apart(written, book.path)

    def make(stop: Stop) -> None:
        def between(is_whole: bool) -> None:
            if is_whole:
                stop.settle()
            else:
                stop.look()

        create(path, apart, between=between)
        # Read here rather than where it is carried on in: whether it can be is told all the same.
        load(path)

    window.writing.write(
        tr("Writing {name}…", name=path.name),
        path.name,
        make,
        lambda outcome: _carry_on(window, path, written, outcome),
        at_once=False,
    )


def _is_plainly_kept(book: "OpenNotebook") -> bool:
    """Whether the book's file holds all that it shows, and all that undo and redo may need."""
    return not (book.waiting or book.pictures_to_undo() or book.adrift)


def _carry_on(window: "BookWindow", path: Path, written: "Notebook", outcome: object) -> None:
    """Go on in the file that is written, or say why not."""
    try:
        if isinstance(outcome, OwnerError):
            raise outcome
        if _is_plainly_kept(window.book):
            window.book.carry_on_in(Store(path), written)
        else:
            # What came to wait, or to be undone, meanwhile is held by the window alone.
            path.unlink(missing_ok=True)
            window.status.keep_in(path)
    except OwnerError as problem:
        window.status.say(str(problem), "refuse")
    else:
        window.settings.remember(path)
