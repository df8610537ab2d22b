"""How the desktop's owner reads: the signs of numbers and dates by the system's locale."""

from dataclasses import replace

from PySide6.QtCore import QLocale

from lawnbook.reading import Reading, read_as, reading
from lawnbook.signs import is_month_first, parted


def follow_system(language: str = "") -> None:
    """Read numbers and dates as the desktop writes them from now on; units and words stay.

    With a `language` of ours the reading is named so; its words are loaded by who chose it.
    """
    held = reading()
    named = replace(held, language=language) if language else held
    read_as(read_by(named, QLocale.system()))


def read_by(held: Reading, locale: QLocale) -> Reading:
    """A reading with the signs of a locale; those of "C" are ours as they are written here."""
    if locale.language() == QLocale.Language.C:
        return replace(held, point=".", group=",", month_first=False)
    point, group = parted(locale.decimalPoint(), locale.groupSeparator())
    dates = locale.dateFormat(QLocale.FormatType.ShortFormat)
    return replace(held, point=point, group=group, month_first=is_month_first(dates))
