"""What reading a weather table gives: days, faults by line, questions, and what was understood."""

from collections.abc import Mapping
from dataclasses import field, replace
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.records import WeatherDay


def _none() -> Mapping[str, str]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class UnitChoice:
    """The owner's answers to a table's questions, by the question's key."""

    answers: Mapping[str, str] = field(default_factory=_none)

    def answered(self, key: str, value: str) -> "UnitChoice":
        """These answers and one more, or another for the same question."""
        return replace(self, answers=MappingProxyType({**self.answers, key: value}))

    def get(self, key: str) -> str:
        """The answer to a question, empty where it was not given."""
        return self.answers.get(key, "")


@dataclass(frozen=True, slots=True)
class Option:
    """One answer a question offers: its value in a `UnitChoice`, and how it is told."""

    value: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What a table does not say of itself.

    `proposed` is the option that looks likeliest, empty where none does. A question that is not
    `needed` has an answer in the table's own words, which only looks wrong. `mend` says what to
    change in the file instead, `line` and `column` where.
    """

    key: str
    sentence: str
    options: tuple[Option, ...]
    mend: str
    proposed: str = ""
    needed: bool = True
    line: int = 1
    column: str = ""


@dataclass(frozen=True, slots=True)
class Fault:
    """What of one line cannot be taken, with the mend; all else of the table can."""

    line: int
    sentence: str
    column: str = ""

    @property
    def place(self) -> str:
        """Where it is: "line 12.rain_in"."""
        return tr(
            "line {line}{part}{column}",
            line=self.line,
            part="." if self.column else "",
            column=self.column,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherReading:
    """A table as read. Days are those without a fault, and none while a needed answer is open.

    `told` is the sentence of what was understood.
    """

    days: tuple[WeatherDay, ...]
    faults: tuple[Fault, ...]
    questions: tuple[Question, ...]
    told: str

    @property
    def open(self) -> bool:
        """Whether a needed answer is open."""
        return any(each.needed for each in self.questions)
