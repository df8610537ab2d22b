"""Which pictures a new file of an open notebook must hold, and which of them can still be read."""

from collections.abc import Iterable

from lawnbook.yard.notebook import Change, Notebook
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import Pictured


def pictures_in(changes: Iterable[Change]) -> set[Picture]:
    """The pictures of the records before and after some changes, each once."""
    records = (each for change in changes for pair in change.values() for each in pair)
    return {each.data_b64 for each in records if isinstance(each, Pictured)}


def unreadable_in(notebook: Notebook) -> set[Picture]:
    """The pictures shown in a notebook that cannot be read any more; each is tried."""
    shown: tuple[Pictured, ...] = (*notebook.photos.values(), *notebook.backdrops.values())
    return {each.data_b64 for each in shown if not each.data_b64.is_readable()}
