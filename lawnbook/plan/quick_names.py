"""Names of zones, spots and products as they stand in a line, whole, quoted or shortened."""

from collections.abc import Iterator, Sequence

from lawnbook.frozen import dataclass
from lawnbook.plan.quick_kinds import KindWord, is_plain
from lawnbook.plan.quick_text import Line, as_words
from lawnbook.plan.quick_tongue import fillers, without_accents
from lawnbook.reading import ENGLISH, reading, tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import and_joined

TABLES = ("zones", "spots", "products")
_LEAST_SHORT = 3
"""Fewer letters than this are no shortened name."""


@dataclass(frozen=True, slots=True)
class Named:
    """A record that has a name: its table, id and name."""

    table: str
    record_id: str
    name: str


def names_of(notebook: Notebook) -> list[Named]:
    """Every zone, spot and product that has a name, in the owner's order."""
    return [
        Named(table, record_id, name)
        for table in TABLES
        for record_id, record in notebook.table(table).items()
        if (name := str(getattr(record, "name", "")).strip())
    ]


def take_whole(
    line: Line, names: Sequence[Named], kinds: Sequence[KindWord]
) -> tuple[list[Named], list[KindWord]]:
    """Names and words of kinds that stand in a line in full, taken out, the longest first."""
    found: list[tuple[int, Named]] = []
    said: list[KindWord] = []
    alike = _by_name(names)
    verbs = {
        words: each
        for each in kinds
        for said_as in (each.words, without_accents(each.words))
        if (words := " ".join(said_as.casefold().split()))
    }
    for words in sorted({**verbs, **alike}, key=len, reverse=True):
        for match in line.take(_pattern(words, is_name=words in alike)):
            found += [(match.start(), each) for each in alike.get(words, ())]
            said += [verbs[words]] if words in verbs and words not in alike else []
    found.sort(key=lambda pair: pair[0])
    return list(dict.fromkeys(each for _, each in found)), said


def _pattern(words: str, *, is_name: bool) -> str:
    """A kind's words as they are; a name also in quotation marks, which some names need."""
    if not is_name or '"' in words:
        return as_words(words) if not is_name or is_plain(words) else "(?!)"
    return f'"{as_words(words)}"' + (f"|{as_words(words)}" if is_plain(words) else "")


def take_short(
    words: Sequence[str], names: Sequence[Named]
) -> tuple[list[Named], list[str], list[str]]:
    """Names that words begin, such as "front" of "Front lawn", with what is amiss and left over.

    Words that begin several names name none of them: a fault says which there are.
    """
    found: list[Named] = []
    faults: list[str] = []
    left: list[str] = []
    at, idle = 0, fillers()
    while at < len(words):
        if words[at].casefold() in idle:
            at += 1
            continue
        end, hits = _longest(words, at, names)
        if not hits:
            left.append(words[at])
        elif len(hits) == 1:
            found.append(hits[0])
        else:
            typed = " ".join(words[at:end])
            names_of_hits = or_joined([each.name for each in hits])
            faults.append(
                tr("“{typed}” may be {names}: say which.", typed=typed, names=names_of_hits)
            )
        at = max(end, at + 1)
    return found, faults, left


def or_joined(names: Sequence[str]) -> str:
    """Names with "or" before the last."""
    return and_joined(names, "or") if names else ""


def written(name: str) -> str:
    """A name as a line takes it: as it is, or in quotation marks; "" where neither can be."""
    if is_plain(name):
        return name
    return "" if '"' in name else f'"{name}"'


def carried_on(text: str, names: Sequence[Named]) -> Iterator[str]:
    """Lines in which what was begun last, of one word to four, is carried on to a whole name."""
    words = text.split(" ")
    for count in range(min(4, len(words)), 0, -1):
        begun = " ".join(words[-count:]).casefold().lstrip('"')
        if not begun.strip():
            continue
        head = " ".join(words[:-count])
        for each in names:
            name = each.name.casefold()
            begins = name.startswith(begun) or _is_within(begun.split(), each.name.split())
            if written(each.name) and begins and name != begun:
                yield f"{head} {written(each.name)}".lstrip()


def _longest(words: Sequence[str], at: int, names: Sequence[Named]) -> tuple[int, list[Named]]:
    """The end of the longest run of words from a place that begins a name, and those it begins."""
    for end in range(len(words), at, -1):
        hits = [each for each in names if _begins(words[at:end], each.name.split())]
        if not hits:
            hits = [each for each in names if _is_within(words[at:end], each.name.split())]
        if hits:
            return end, hits
    return at + 1, []


def _is_within(words: Sequence[str], name: Sequence[str]) -> bool:
    """Whether words begin a name behind its first: "trasero" means "Césped trasero".

    English tells zones apart by their first words, other languages by what follows the noun.
    """
    inner = range(1, len(name)) if reading().language != ENGLISH else range(0)
    return any(_begins(words, name[at:]) for at in inner)


def _begins(words: Sequence[str], name: Sequence[str]) -> bool:
    """Whether each of some words begins the word of a name in its place, accents or not."""
    parts = [without_accents(each.casefold()) for each in name]
    if len(words) > len(parts):
        return False
    typed = [without_accents(each.casefold().strip('.,;:"')) for each in words]
    long_enough = len("".join(typed)) >= _LEAST_SHORT
    return long_enough and all(
        each and part.startswith(each) for each, part in zip(typed, parts, strict=False)
    )


def _by_name(names: Sequence[Named]) -> dict[str, list[Named]]:
    alike: dict[str, list[Named]] = {}
    for each in names:
        alike.setdefault(" ".join(each.name.casefold().split()), []).append(each)
    return alike
