"""A backdrop's picture decoded beside the window's work, with halves of it to be drawn small.

Drawing a picture of twelve megapixels on two would read all twelve for every frame, and leave out
most of them; from a half, a quarter, an eighth made once, each frame reads about what it draws.
"""

from collections.abc import Mapping
from functools import partial

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QImage

from lawnbook.desk.beside import Beside
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError

Levels = tuple[QImage, ...]
"""The picture and its halves, largest first; none where its bytes are lost or no picture."""

SMALLEST_PX = 256
"""A picture whose longer side is under this is not halved again."""

MOST_PX = 48_000_000
"""Of all shown pictures together, at their largest: 4 bytes a pixel and a third more for halves."""


def levels_of(data: bytes, most_px: int = MOST_PX) -> Levels:
    """A picture's bytes decoded, at most so many pixels large, with its halves."""
    # Qt refuses by itself to decode a picture that would take more than 256 MB.
    image = QImage.fromData(data)
    if image.isNull():
        return ()
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    while image.width() * image.height() > most_px:
        image = _half(image)
    levels = [image]
    while max(levels[-1].width(), levels[-1].height()) >= 2 * SMALLEST_PX:
        levels.append(_half(levels[-1]))
    return tuple(levels)


def _half(image: QImage) -> QImage:
    ratio, smooth = Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
    wide, high = max(1, (image.width() + 1) // 2), max(1, (image.height() + 1) // 2)
    return image.scaled(wide, high, ratio, smooth).convertToFormat(QImage.Format.Format_RGB32)


class LevelShelf(QObject):
    """Holds the levels of the pictures that are shown now, and no others; `arrived` tells of one.

    Bytes are read from the notebook's file in the window's thread (a few milliseconds), decoding
    and halving are done in another.
    """

    arrived = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._levels: dict[str, Levels] = {}
        self._awaited: dict[str, None] = {}
        self._wanted: frozenset[str] = frozenset()
        self._beside = Beside(self)
        self._beside.failed.connect(self._failed)

    def want(self, pictures: Mapping[str, Picture]) -> None:
        """Hold the levels of these pictures by their SHA-256, and let go of all others."""
        self._wanted = frozenset(pictures)
        for sha256 in [each for each in self._levels if each not in pictures]:
            del self._levels[sha256]
        for sha256, picture in pictures.items():
            if sha256 not in self._levels and sha256 not in self._awaited:
                self._fetch(sha256, picture)

    def levels(self, sha256: str) -> Levels | None:
        """A picture's levels; None while it is on its way, empty where it cannot be read."""
        return self._levels.get(sha256)

    @property
    def is_loading(self) -> bool:
        """Whether a picture is on its way."""
        return bool(self._awaited)

    def _fetch(self, sha256: str, picture: Picture) -> None:
        try:
            data = picture.data()
        except OwnerError:
            self._levels[sha256] = ()
            return
        self._awaited[sha256] = None
        most_px = max(1_000_000, MOST_PX // max(len(self._wanted), 1))
        self._beside.start(lambda _: levels_of(data, most_px), partial(self._arrived, sha256))

    def _arrived(self, sha256: str, levels: object) -> None:
        self._awaited.pop(sha256, None)
        if sha256 in self._wanted and isinstance(levels, tuple):
            self._levels[sha256] = levels
            self.arrived.emit(sha256)

    def _failed(self) -> None:
        """A mistake of ours, about to be told: that picture is waited for no more."""
        # They are made one after the other, so it was the one that waited longest.
        for sha256 in list(self._awaited)[:1]:
            self._arrived(sha256, ())
