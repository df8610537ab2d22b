"""Files dropped anywhere on a book's window: each leads to where it is looked over, or is opened.

What a control of its own takes (photos of a plug, a picture under the sketch) stays with it; what
nobody takes comes here. Nothing is kept before the owner has seen it.
"""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal, cast

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent

from lawnbook.desk.clipboard import files_in
from lawnbook.desk.status import LOOKING
from lawnbook.desk.widgets import bring_into_sight
from lawnbook.reading import tr
from lawnbook.store.files import NOTEBOOK_SUFFIX, YARD_SUFFIX
from lawnbook.store.handover_names import HANDOVER_SUFFIX

if TYPE_CHECKING:
    from lawnbook.desk.pages.plugs import PlugsPage
    from lawnbook.desk.window import BookWindow

Meant = Literal["open", "outlines", "weather", "tables", "photos", ""]
MAPS = (".geojson", ".kml")
SHEETS = (".xlsx", ".csv", ".tsv", ".txt")
PHOTOS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif")
TAKEN = frozenset({NOTEBOOK_SUFFIX, YARD_SUFFIX, HANDOVER_SUFFIX, *MAPS, *SHEETS, *PHOTOS})
"""The endings of files that are taken; what is in some of them is looked at on letting go."""
_HEAD_BYTES = 8192
_WEATHER_WORDS = ("tmin", "tmax", "rain", "prcp", "eto", "tdew", "solar")


class WindowDrops(QObject):
    """Takes what is dropped on a window and nowhere else."""

    def __init__(self, window: "BookWindow") -> None:
        super().__init__(window)
        self._window = window
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Say yes to files that are known, and take them once they are let go."""
        if not isinstance(event, QDragEnterEvent | QDragMoveEvent | QDropEvent):
            return super().eventFilter(watched, event)
        files = [each for each in files_in(event.mimeData()) if each.suffix.lower() in TAKEN]
        if not files:
            return False
        event.acceptProposedAction()
        if event.type() == QEvent.Type.Drop:
            # The hand that drags waits for this to return; a notebook that opens closes the window.
            QTimer.singleShot(0, self._window, lambda: take_files(self._window, files))
        return True


def take_files(window: "BookWindow", files: Sequence[Path]) -> None:
    """Lead each kind of file to its preview; several are taken only where all are photographs."""
    meant = meant_by(files[0])
    if len(files) > 1 and any(meant_by(each) != "photos" for each in files):
        window.status.say(tr("Drop one file at a time; only photos may be several."), "ask")
        return
    if meant != "open" and window.book.read_only:
        window.status.say(LOOKING, "ask")
        return
    lead: dict[str, Callable[[], None]] = {
        "open": lambda: window.watch.path_asked.emit(files[0]),
        "outlines": lambda: _read(window, ("Yard", "In and out", "read_outlines"), files[0]),
        "weather": lambda: _read(window, ("Yard", "Overview", "read_weather"), files[0]),
        "tables": lambda: _read(window, ("Sheet", "Tables", "read_tables"), files[0]),
        "photos": lambda: _add_photos(window, files),
    }
    if meant in lead:
        lead[meant]()
    else:
        told = tr("{name} is nothing that Lawnbook reads.", name=files[0].name)
        window.status.say(told, "refuse")


def meant_by(path: Path) -> Meant:
    """What a file is dropped for, by its ending and, where that may be two things, its content."""
    suffix = path.suffix.lower()
    if suffix == NOTEBOOK_SUFFIX:
        return "open"
    if suffix == YARD_SUFFIX:
        return "outlines" if _is_map(_head(path)) else "open"
    if suffix == HANDOVER_SUFFIX:
        return "open" if _holds_notebook(path) else "tables"
    if suffix in MAPS:
        return "outlines"
    if suffix in PHOTOS:
        return "photos"
    if suffix in SHEETS:
        return "weather" if suffix != ".xlsx" and _is_weather(_head(path)) else "tables"
    return ""


def _head(path: Path) -> str:
    """The beginning of a file as text; empty for one that cannot be read, which is told later."""
    try:
        with path.open("rb") as opened:
            return opened.read(_HEAD_BYTES).decode("utf-8", errors="replace")
    except OSError:
        return ""


def _is_map(head: str) -> bool:
    """Whether text of JSON begins as GeoJSON (RFC 7946) rather than as a yard file."""
    return '"lawnbook-yard"' not in head and any(
        f'"{word}"' in head for word in ("FeatureCollection", "Feature", "coordinates")
    )


def _is_weather(head: str) -> bool:
    """Whether a table has a line for each day: a column of dates and one of weather."""
    first = next((line for line in head.lower().splitlines() if line.strip()), "")
    return "date" in first and any(word in first for word in _WEATHER_WORDS)


def _holds_notebook(path: Path) -> bool:
    from zipfile import BadZipFile, ZipFile

    try:
        with ZipFile(path) as zipped:
            return any(name.endswith(NOTEBOOK_SUFFIX) for name in zipped.namelist())
    except (BadZipFile, OSError):
        # Opening it says what is wrong with it.
        return True


def _read(window: "BookWindow", to: tuple[str, str, str], path: Path) -> None:
    """Turn to a section and have the part of it that reads such files look into this one."""
    page, section, reads = to
    window.open_at(page)
    shown = window.page(page)
    shown.turn_to(section)
    for each in shown.findChildren(QObject):
        read: Callable[[Path], None] | None = getattr(each, reads, None)
        if read is not None:
            read(path)
            return


def _add_photos(window: "BookWindow", files: Sequence[Path]) -> None:
    """Add photographs to the plug in the form: one that was opened there, else the next one."""
    notebook = window.book.notebook
    if not notebook.spots:
        told = tr("Photos belong to a plug: place a spot on the sketch first.")
        window.status.say(told, "ask")
        return
    window.open_at("Plugs")
    plugs = cast("PlugsPage", window.page("Plugs"))
    plugs.turn_to("Columns")
    tray = plugs.columns.entry.tray
    tray.add_files(files)
    bring_into_sight(tray)
