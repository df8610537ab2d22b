"""Qt's own words in the owner's language: standard buttons, its file dialog, menus of fields.

They come from the translations that Qt brings along, where it has some of the language. What those
lack, or call otherwise than we do, stands here.
"""

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QTranslator

from lawnbook.languages import PSEUDO
from lawnbook.reading import ENGLISH, reading, tr

DIALOG_WORDS = (
    "&Look in:", "File &name:", "Files of &type:", "Show &hidden files", "Reset",
    "Parent Directory", "Date Modified",
)  # fmt: skip
"""Texts of Qt's that we translate ourselves."""

KEYS_CONTEXT = "QShortcut"
"""Where Qt looks up the names of keys: they stay as they are on the keys, and in our own texts."""


class QtWords(QTranslator):
    """Qt's texts in the language that is read."""

    def isEmpty(self) -> bool:
        """Never: a text that is not known is told as it is."""
        return False

    def translate(
        self, context: str, text: str, disambiguation: str | None = None, count: int = -1
    ) -> str:
        """A text of Qt's own."""
        if context == KEYS_CONTEXT:
            return text
        if text in DIALOG_WORDS or reading().language == PSEUDO:
            return tr(text)
        return super().translate(context, text, disambiguation, count) or text


def translate_qt(app: QCoreApplication) -> bool:
    """Have Qt speak the language that is read; whether that is another than its own."""
    language = reading().language
    if language == ENGLISH:
        return False
    words = QtWords(app)
    words.load(f"qtbase_{language}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath))
    return app.installTranslator(words)
