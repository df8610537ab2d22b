"""What a word that is not understood may have meant: the names and verbs spelled nearly so.

They are proposed and never taken: who reads "bak lawn" as a zone by himself may be wrong.
"""

import re
from collections.abc import Sequence
from difflib import get_close_matches

from lawnbook.frozen import dataclass
from lawnbook.plan.quick_kinds import kind_words
from lawnbook.plan.quick_names import names_of, or_joined, written
from lawnbook.plan.quick_reading import USES, Reading
from lawnbook.plan.quick_tongue import FREE_WORDS, NOTE_WORDS, first_of, without_accents
from lawnbook.reading import tr

NEAR = 0.75
"""Share of letters two spellings have in common from which one may have meant the other."""
MOST_WORDS = 8
"""More words than this that are not understood are no slip of spelling."""
_MOST_NEAR = 3
_LEAST_LETTERS, _LONGEST_PIECE = 3, 4


@dataclass(frozen=True, slots=True)
class Near:
    """What was typed, what it may have meant, and the line with that in its place."""

    typed: str
    meant: str
    line: str


def near_lines(reading: Reading, text: str) -> list[Near]:
    """The line with each near spelling in place of what was not understood, longest piece first."""
    left = reading.left
    if not left or len(left) > MOST_WORDS:
        return []
    known = _known(reading)
    near: list[Near] = []
    taken: set[int] = set()
    for count in range(min(_LONGEST_PIECE, len(left)), 0, -1):
        for at in range(len(left) - count + 1):
            piece = set(range(at, at + count))
            if taken & piece:
                continue
            found = _of_piece(left[at : at + count], known.get(count, {}), text.strip())
            near += found
            taken |= piece if found else set()
    return near


def did_you_mean(near: Sequence[Near]) -> list[str]:
    """A sentence for each piece, which asks."""
    asked: list[str] = []
    for typed in dict.fromkeys(each.typed for each in near):
        meant = [each.meant for each in near if each.typed == typed]
        asked.append(
            tr(
                "“{typed}” is not understood. Did you mean {or_joined}?",
                typed=typed,
                or_joined=or_joined(meant),
            )
        )
    return asked


def _known(reading: Reading) -> dict[int, dict[str, str]]:
    """Verbs, and how names begin, by their number of words, each with what is written for it."""
    used = USES.get(reading.kind, ()) if reading.kind else tuple(set().union(*USES.values()))
    known: dict[int, dict[str, str]] = {}
    for each in names_of(reading.notebook):
        words = each.name.casefold().split()
        if each.table in used and written(each.name):
            for count in range(1, len(words) + 1):
                known.setdefault(count, {})[" ".join(words[:count])] = written(each.name)
    verbs = [each.words for each in kind_words(reading.notebook)]
    for verb in (*verbs, first_of(NOTE_WORDS), first_of(FREE_WORDS)):
        for typed in (verb.casefold(), without_accents(verb.casefold())):
            known.setdefault(len(verb.split()), {}).setdefault(typed, verb)
    return known


def _of_piece(words: Sequence[str], known: dict[str, str], line: str) -> list[Near]:
    """What one run of words may have meant; nothing while its last word is still being typed."""
    typed = " ".join(words)
    begun = typed.casefold()
    found = re.search(r"\s+".join(map(re.escape, words)), line)
    if len(begun) < _LEAST_LETTERS or found is None:
        return []
    hits = dict.fromkeys(
        known[each]
        for each in get_close_matches(begun, known, _MOST_NEAR, NEAR)
        if not (each.startswith(begun) and found.end() == len(line))
    )
    head, tail = line[: found.start()], line[found.end() :]
    return [Near(typed, each.strip('"'), f"{head}{each}{tail}") for each in hits]
