"""The words by which a line says what it is about, and those that mean nothing by themselves."""

from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import CARE_KINDS
from lawnbook.plan.quick_model import QuickKind
from lawnbook.plan.quick_tongue import (
    CARE_WORDS,
    NOTE_WORDS,
    VERB_WORDS,
    first_of,
    reserved,
    spoken,
)
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook


@dataclass(frozen=True, slots=True)
class KindWord:
    """A word or phrase, the kind it stands for, and of care what it is called in the notebook."""

    words: str
    kind: QuickKind
    care: str = ""


FREE_CARE = "care"
"""The word before any other kind of care, such as "care edging front lawn"."""

STARTERS: tuple[str, ...] = (
    "watered", "fed", "mowed", "rain", "aeration", "overseeding", "soil test", "plug", "note",
)  # fmt: skip
"""What is proposed while nothing is typed, in English."""


def starters() -> tuple[str, ...]:
    """What is proposed while nothing is typed, each in the word that its kind is written with."""
    lists = {words.split(",")[0]: words for words in (*VERB_WORDS.values(), NOTE_WORDS)}
    return tuple(first_of(lists.get(each, each)) for each in STARTERS)


def kind_words(notebook: Notebook) -> list[KindWord]:
    """Every phrase that says a kind, this notebook's own kinds of care among them."""
    words = [KindWord(each, kind) for kind, verbs in VERB_WORDS.items() for each in spoken(verbs)]
    for care, verbs in CARE_WORDS.items():
        words += [KindWord(each, "care", care) for each in spoken(verbs)]
    taken = {each.words for each in words}
    own = (each.kind.strip() for each in notebook.care.values())
    for care in dict.fromkeys((*CARE_KINDS, *own)):
        for told in dict.fromkeys((care, tr(care))):
            if told and told.casefold() not in taken and _is_typed(told):
                words.append(KindWord(told, "care", care))
                taken.add(told.casefold())
    return words


def is_plain(name: str) -> bool:
    """Whether a name can stand in a line as it is: some word of it means nothing else there.

    Any other is put in quotation marks.
    """
    words = [each.strip(".,;:").casefold() for each in name.split()]
    said = [each for each in words if any(letter.isalpha() for letter in each)]
    idle = reserved()
    return any(each not in idle for each in said)


def _is_typed(care: str) -> bool:
    """Whether a kind of care can be found in a line: it has a letter, and is no word of ours."""
    return any(each.isalpha() for each in care) and care.casefold() not in reserved()
