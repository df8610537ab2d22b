"""What the clipboard, or a hand that drags, holds: files and pictures, told from words."""

from collections.abc import Collection
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData
from PySide6.QtGui import QImage, QImageWriter
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


def files_in(held: QMimeData) -> list[Path]:
    """The files of this computer among what is held."""
    return [Path(url.toLocalFile()) for url in held.urls() if url.isLocalFile()]


def one_file_in(held: QMimeData, suffixes: Collection[str]) -> Path | None:
    """The one file with one of these endings among what is held; None for none or several."""
    found = [each for each in files_in(held) if each.suffix.lower() in suffixes]
    return found[0] if len(found) == 1 else None


def picture_in(held: QMimeData) -> bytes | None:
    """The picture that is held without a file, as the bytes of a PNG; None where there is none."""
    image = held.imageData() if held.hasImage() else None
    if not isinstance(image, QImage) or image.isNull():
        return None
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QImageWriter(buffer, QByteArray(b"PNG"))
    # It is read again at once: to press it small would only keep the window waiting.
    writer.setCompression(0)
    writer.write(image)
    return bytes(buffer.data().data())
