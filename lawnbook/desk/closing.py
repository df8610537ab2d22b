"""Closing a book: nothing that was entered goes with its window without a word."""

from typing import TYPE_CHECKING

from lawnbook.desk.dialogs import close_with_trouble
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.session.open_notebook import OpenNotebook


def closes(window: "BookWindow") -> bool:
    """Close the file of a window's book; whether it is closed.

    Where the file does not hold what the window shows, the owner is asked: changes may wait, or
    the file may be gone or have been replaced since.
    """
    book = window.book
    sentence = _in_the_way(book)
    if not sentence:
        return True
    # Meanwhile the window must not take up another program's version by itself.
    window.watch.rests = True
    try:
        answer = close_with_trouble(window, sentence, book.waiting)
        if answer == "stay" or (answer == "elsewhere" and not window.keep_elsewhere()):
            return False
    finally:
        window.watch.rests = False
    book.close(abandon=True)
    return True


def _in_the_way(book: "OpenNotebook") -> str:
    """Close a book, or say why it is better not to."""
    sentence = book.adrift
    if not sentence:
        try:
            book.close()
        except OwnerError as problem:
            sentence = str(problem)
    return sentence
