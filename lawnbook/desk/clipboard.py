"""What the clipboard holds: a picture or a file is pasted otherwise than words are."""

from PySide6.QtCore import QMimeData
from PySide6.QtWidgets import QApplication


def clipboard_held() -> QMimeData:
    """What the clipboard holds; an empty one holds nothing of any kind."""
    # Qt says that there is always something; an empty clipboard gives None all the same.
    held: QMimeData | None = QApplication.clipboard().mimeData()
    return held if held is not None else QMimeData()


def holds_picture_or_file() -> bool:
    """Whether the clipboard holds a picture or files, and not words or a table's cells."""
    held = clipboard_held()
    return held.hasUrls() or (held.hasImage() and not held.hasText())
