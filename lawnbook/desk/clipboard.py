"""What the clipboard holds: a picture or a file is pasted otherwise than words are."""

from PySide6.QtWidgets import QApplication


def holds_picture_or_file() -> bool:
    """Whether the clipboard holds a picture or files, and not words or a table's cells."""
    held = QApplication.clipboard().mimeData()
    return held.hasUrls() or (held.hasImage() and not held.hasText())
