"""A line of plain words that is taken apart piece by piece, and the numbers written in it."""

import re
from collections.abc import Iterator

from lawnbook.reading import reading

GAP = "\ue000"
"""Stands where a piece was taken out, so that its neighbours never run together.

A letter of nobody's: neither a space nor part of a word, and never typed, since it cannot be seen.
"""

NUMBER = r"(?<![\w.,/−-])(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)(?![.,/]?\d)"
"""A number as it may stand in a line: 30, 0.5, .5, 3/4 or 1 1/4, never a part of another."""

_DECIMAL = re.compile(r"(?<![\w/,.])(\d+),(\d+)(?![\d/,.])")

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip


class Line:
    """What is left of a line. `take` finds pieces and takes them out."""

    def __init__(self, text: str) -> None:
        self.text = text

    def take(self, pattern: str) -> list[re.Match[str]]:
        """Every piece that a pattern finds, in order; each leaves a gap."""
        found = list(re.finditer(pattern, self.text, re.IGNORECASE))
        for each in found:
            self._leave_gap(each)
        return found

    def first(self, pattern: str) -> re.Match[str] | None:
        """The first piece that a pattern finds, taken out; the others stay."""
        found = re.search(pattern, self.text, re.IGNORECASE)
        if found is not None:
            self._leave_gap(found)
        return found

    def _leave_gap(self, found: re.Match[str]) -> None:
        """A gap as long as the piece, so that what is left stands where it stood."""
        gap = GAP * (found.end() - found.start())
        self.text = self.text[: found.start()] + gap + self.text[found.end() :]

    def runs(self) -> Iterator[str]:
        """The words that are left, as they stand together between gaps."""
        for run in self.text.split(GAP):
            words = " ".join(run.split()).strip(" ,;.")
            if words:
                yield words


def tidy(text: str) -> str:
    """A line without control characters, its fractions written out and its spaces plain."""
    written = text
    for sign, words in _VULGAR.items():
        written = written.replace(sign, f" {words}")
    written = written.replace("\u2044", "/")
    if reading().point == ",":
        # Decimals have a point from here on; a comma with a space behind it parts what it parts.
        written = _DECIMAL.sub(r"\1.\2", written)
    plain = "".join(each if each.isprintable() else " " for each in written)
    return plain.replace("\u00a0", " ")


def as_words(name: str) -> str:
    """A pattern for a name as it stands in a line, whatever its capitals and spaces."""
    parts = [re.escape(each) for each in name.split()]
    return r"(?<!\w)" + r"\s+".join(parts) + r"(?!\w)"


def with_own_point(text: str) -> str:
    """A text whose decimals were written with a point, with the sign that the reader types."""
    return re.sub(r"(?<=\d)\.(?=\d)|(?<!\S)\.(?=\d)", reading().point, text)
