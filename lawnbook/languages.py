"""Which languages there are, which one the owner reads, and the words of each.

The words lie in `resources/languages/*.ts`, in the format of Qt Linguist, and are read as they are.
English needs none: it is what the program is written in. `qps` is the made-up language by which
texts that are not translated, or are cut off, are found: longer, and with an accent on everything.
"""

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from lawnbook.reading import ENGLISH

LANGUAGES: Mapping[str, str] = MappingProxyType({ENGLISH: "English", "es": "Español"})
"""The languages an owner may choose, each by its own name."""

PSEUDO = "qps"
"""The made-up language; the code is one that ISO 639-2 leaves to private use."""

_BY_ENVIRONMENT = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")
_PLACE = re.compile(r"(\{[^{}]*\}|&(?=\w)|\n)")
_ACCENTS = str.maketrans("aceinouyACEINOUY", "áçéíñóúýÁÇÉÍÑÓÚÝ")
_LONGER = 0.3
"""How much longer words become: about what German or Spanish adds to an English label."""


def language_chosen(settings: Path, environment: Mapping[str, str]) -> str:
    """The language that is set in the window's settings, else the one of the environment.

    English where neither names one that is here.
    """
    return _of_settings(settings) or language_of(environment)


def language_of(environment: Mapping[str, str]) -> str:
    """The first language of the environment that is here, as GNU gettext reads its variables."""
    for name in _BY_ENVIRONMENT:
        for told in environment.get(name, "").split(":"):
            code = re.split(r"[_.@-]", told.strip(), maxsplit=1)[0].lower()
            if code in LANGUAGES or code == PSEUDO:
                return code
            if code in ("c", "posix"):
                return ENGLISH
    return ENGLISH


def words_of(language: str, folder: Path) -> Mapping[str, str]:
    """The words of a language by their English texts; empty for English and where there are none.

    `folder` holds the files of the languages.
    """
    if language == PSEUDO:
        return Pseudo()
    path = folder / f"{language}.ts"
    if language == ENGLISH or not path.is_file():
        return MappingProxyType({})
    return MappingProxyType(dict(_finished(path)))


class Pseudo(Mapping[str, str]):
    """The words of the made-up language: every text has some."""

    def __getitem__(self, text: str) -> str:
        """A text with accents, made longer, in brackets; its places and its keys stay."""
        return pseudo(text)

    def __iter__(self) -> Iterator[str]:
        """Nothing: its texts cannot be listed."""
        return iter(())

    def __len__(self) -> int:
        """None that could be listed."""
        return 0


def pseudo(text: str) -> str:
    """A text in the made-up language; one without a letter stays as it is."""
    if not any(letter.isalpha() for letter in _PLACE.sub("", text)):
        return text
    parts = _PLACE.split(text)
    told = [part if at % 2 else part.translate(_ACCENTS) for at, part in enumerate(parts)]
    letters = sum(len(part) for part in parts[::2])
    return f"«{''.join(told)}{'·' * round(letters * _LONGER)}»"


def _finished(path: Path) -> Iterator[tuple[str, str]]:
    from xml.etree import ElementTree as ET

    for message in ET.parse(path).iter("message"):
        translation = message.find("translation")
        if translation is not None and translation.get("type") is None and translation.text:
            yield message.findtext("source", ""), translation.text


def _of_settings(settings: Path) -> str:
    if not settings.is_file():
        return ""
    from configparser import Error, RawConfigParser

    parser = RawConfigParser()
    try:
        parser.read(settings, encoding="utf-8")
        told = parser.get("General", "language", fallback="")
    except (Error, UnicodeDecodeError, OSError):
        return ""
    return told if told in LANGUAGES or told == PSEUDO else ""
