"""The words by which a line says what it is about, and those that mean nothing by themselves."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import CARE_KINDS
from lawnbook.plan.quick_model import QuickKind
from lawnbook.yard.notebook import Notebook


@dataclass(frozen=True, slots=True)
class KindWord:
    """A word or phrase, the kind it stands for, and of care what it is called in the notebook."""

    words: str
    kind: QuickKind
    care: str = ""


_VERBS: Mapping[QuickKind, Sequence[str]] = MappingProxyType(
    {
        "water": ("watered", "watering", "water", "irrigated", "irrigation", "ran"),
        "feed": ("fed", "feeding", "feed", "fertilized", "fertilised", "spread"),
        "mow": ("mowed", "mowing", "mown", "mow", "cut the grass", "cut"),
        "rain": ("rain gauge", "rained", "rain", "gauge"),
        "soil": ("soil test", "soil tested", "tested soil"),
        "plug": ("pulled a plug", "plug", "core"),
    }
)
_CARE_VERBS: Mapping[str, Sequence[str]] = MappingProxyType(
    {
        "aeration": ("aerated", "aerating", "cored", "coring"),
        "topdressing": ("topdressed", "top dressed", "top dressing"),
        "dethatching": ("dethatched", "power raked", "power raking"),
        "overseeding": ("overseeded", "reseeded"),
        "repair": ("repair", "repaired", "fixed", "mended"),
    }
)
FREE_CARE = "care"
"""The word before any other kind of care, such as "care edging front lawn"."""

STARTERS: tuple[str, ...] = (
    "watered", "fed", "mowed", "rain", "aeration", "overseeding", "soil test", "plug", "note",
)  # fmt: skip
"""What is proposed while nothing is typed."""

FILLERS = frozenset(
    {
        "a", "an", "and", "at", "by", "did", "do", "for", "from", "had", "i", "in", "it",
        "my", "of", "on", "the", "to", "was", "we", "were", "with", "each",
    }
)  # fmt: skip
_OTHERS = frozenset(
    {
        "min", "mins", "minute", "minutes", "h", "hr", "hrs", "hour", "hours", "inch",
        "inches", "mm", "cm", "lb", "lbs", "pound", "pounds", "kg", "g", "oz", "bag",
        "bags", "cost", "ph", "om", "p", "k", "thatch", "roots", "root", "sponge", "worms",
        "clock", "cycles", "depth", "note", "noted", "care", "today", "yesterday",
        "tomorrow", "ago", "day", "days", "week", "weeks", "last", "before", "all",
        "everywhere", "every", "whole", "yard", "pressed", "o'clock", "jan", "feb", "mar",
        "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "mon", "tue", "wed",
        "thu", "fri", "sat", "sun",
    }
)  # fmt: skip


def kind_words(notebook: Notebook) -> list[KindWord]:
    """Every phrase that says a kind, this notebook's own kinds of care among them."""
    words = [KindWord(each, kind) for kind, verbs in _VERBS.items() for each in verbs]
    words += [KindWord(each, "care", care) for care, verbs in _CARE_VERBS.items() for each in verbs]
    taken = {each.words for each in words}
    own = (each.kind.strip() for each in notebook.care.values())
    for care in dict.fromkeys((*CARE_KINDS, *own)):
        if care and care.casefold() not in taken and _is_typed(care):
            words.append(KindWord(care, "care", care))
            taken.add(care.casefold())
    return words


def is_plain(name: str) -> bool:
    """Whether a name can stand in a line as it is: some word of it means nothing else there.

    Any other is put in quotation marks.
    """
    verbs = {word for verbs in _VERBS.values() for each in verbs for word in each.split()}
    words = [each.strip(".,;:").casefold() for each in name.split()]
    said = [each for each in words if any(letter.isalpha() for letter in each)]
    return any(each not in FILLERS | _OTHERS | verbs for each in said)


def _is_typed(care: str) -> bool:
    """Whether a kind of care can be found in a line: it has a letter, and is no word of ours."""
    return any(each.isalpha() for each in care) and care.casefold() not in FILLERS | _OTHERS
