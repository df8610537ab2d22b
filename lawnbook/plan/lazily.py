"""Fields of a frozen record that may be reckoned when they are first read.

A record whose field is declared `figure: Lazily[float] = field(default=Lazily())` may be made with
the figure or with `Later(make)`, a promise to make it. Reading, comparing, `replace` and copying
see the figure only, made once and kept. A promise holds what it is made from until then: one that
outlives its plan, as in a memo, is given small frozen values. What is promised in words is told in
the units and signs that were read when it was promised, as all else of the same record was. Two
threads that read at once may make it twice: the same value from the same frozen things.
"""

from collections.abc import Callable
from typing import Any, Generic, TypeVar, overload

from lawnbook.reading import reading, reading_here

T = TypeVar("T")
R = TypeVar("R")
T_co = TypeVar("T_co", covariant=True)


class Later(Generic[T_co]):
    """A value that is made when it is first asked for; what it is made from is let go then."""

    __slots__ = ("_made", "_make", "_reading")

    def __init__(self, make: Callable[[], T_co]) -> None:
        """Promise what `make` gives, told as everything is read now."""
        self._reading = reading()
        self._make: Callable[[], T_co] | None = make
        self._made: list[T_co] = []

    def __call__(self) -> T_co:
        """The value."""
        make = self._make
        if make is not None and not self._made:
            if self._reading is reading():
                self._made.append(make())
            else:
                with reading_here(self._reading):
                    self._made.append(make())
        self._make = None
        return self._made[0]

    def __reduce__(self) -> tuple[Callable[[Any], Any], tuple[T_co]]:
        """A promise is copied and pickled as what it promises."""
        return _same, (self(),)


def with_unread(record: R, **changes: Any) -> R:
    """A record with some fields changed, like `replace`, that leaves the promises of the others.

    Both records then hold the same promise, which is made once.
    """
    return type(record)(**{**vars(record), **changes})


class Lazily(Generic[T]):
    """A dataclass field that takes a value or a promise of it, and is read as the value.

    Declared as `field(default=Lazily())`; with an argument that is the field's own default, else
    the field must be given. The class must be a dataclass without slots.
    """

    __slots__ = ("_default", "_name")

    def __init__(self, *default: T) -> None:
        """Declare a field, with its default if there is one."""
        self._default = default
        self._name = ""

    def __set_name__(self, owner: type, name: str) -> None:
        """Remember the field's name."""
        self._name = name

    @overload
    def __get__(self, record: None, owner: type) -> "Lazily[T]": ...

    @overload
    def __get__(self, record: object, owner: type) -> T: ...

    def __get__(self, record: object | None, owner: type) -> "T | Lazily[T]":
        """The value of a record's field, made now if it was promised."""
        if record is None:
            return self
        held: dict[str, Any] = record.__dict__
        value = held[self._name]
        if type(value) is Later:
            value = value()
            held[self._name] = value
        made: T = value
        return made

    def __set__(self, record: object, value: "T | Later[T]") -> None:
        """What the dataclass does with what it is made with. TypeError for a field not given."""
        if not isinstance(value, Lazily):
            record.__dict__[self._name] = value
        elif self._default:
            # Not given: the dataclass then sets what the field is declared with, which is this.
            record.__dict__[self._name] = self._default[0]
        else:
            raise TypeError(f"{type(record).__name__} is made without its field {self._name!r}")


def _same(value: T) -> T:
    return value
