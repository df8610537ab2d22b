"""What can be wrong with what the owner typed, as a sentence that names field and mend."""

from typing import Literal

from lawnbook.frozen import dataclass

LONGEST_NAME = 40
"""Letters of a record's name that are told beside its path."""

LONGEST_SENTENCE = 1_000
_KEPT_AHEAD, _KEPT_BEHIND = 700, 250


class OwnerError(Exception):
    """The owner's situation, not a bug: its text explains it and names the mend.

    The text is one line whatever a stranger's file puts into it; see `in_plain_sight`.
    """

    def __init__(self, sentence: str) -> None:
        super().__init__(in_plain_sight(sentence))


class GivenUpError(Exception):
    """The owner thought better of it, or nobody waits for it any more; nothing is written."""


def in_plain_sight(sentence: str) -> str:
    """A sentence in one line, without signs that cannot be seen or would turn its letters about.

    Such a sign is told by its number, as Python writes it. Of a sentence that a stranger's word
    makes longer than any the middle is left out: its end holds the mend.
    """
    line = " ".join(sentence.split())
    if len(line) > LONGEST_SENTENCE:
        line = f"{line[:_KEPT_AHEAD]} … {line[-_KEPT_BEHIND:]}"
    if line.isprintable():
        return line
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in line)


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong or doubtful in a record.

    `where` is a path as a person reads it, such as ``cores[3].thatch_in``; `table`, `record_id`
    and `field` are the same place for a form. `name` is what the owner calls the record, where it
    has a name among others. `sentence` says what is wrong and what to do.
    "refuse" cannot be kept; "ask" may be kept once the owner has looked at it again.
    """

    table: str
    record_id: str
    field: str
    severity: Literal["refuse", "ask"]
    sentence: str
    where: str = ""
    name: str = ""


def refused(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """The problems that cannot be kept."""
    return tuple(p for p in problems if p.severity == "refuse")


def asked(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """The problems that the owner may confirm."""
    return tuple(p for p in problems if p.severity == "ask")


def in_one_line(problem: Problem) -> str:
    """A problem as one line: its path, where it has one, the record's name, and its sentence."""
    if not problem.where:
        return problem.sentence
    shown = problem.name[:LONGEST_NAME] + "…" * (len(problem.name) > LONGEST_NAME)
    named = f" ({shown})" if shown and shown.isprintable() else ""
    return f"{problem.where}{named}: {problem.sentence}"
