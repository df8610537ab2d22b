"""What's new: by version, the newest first, in the owner's words."""

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QWidget

from lawnbook import __version__
from lawnbook.desk.help_text import Passage, passages_of
from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.reading import reading
from lawnbook.yard.places import news


class NewsLeaf(TextLeaf):
    """The versions; to have opened it is to have seen the news."""

    SIZE_PX = QSize(760, 560)

    def __init__(self, host: QWidget) -> None:
        super().__init__("news", host)

    def read_passages(self) -> tuple[Passage, ...]:
        """A passage for each version."""
        return news_passages(reading().language)

    def begin(self) -> None:
        """Remember that this version's news were looked at."""
        super().begin()
        self.settings.version_seen = __version__


def news_passages(language: str) -> tuple[Passage, ...]:
    """The news of each version; FileNotFoundError where an installation lacks them."""
    return passages_of(news(language).read_text(encoding="utf-8"), parted=())
