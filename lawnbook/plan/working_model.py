"""How a figure is told: the working, and the inputs that went into it."""

from lawnbook.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Input:
    """One number that went into a figure, as it is, and where it came from."""

    name: str
    value: str
    origin: str
    is_default: bool = False


@dataclass(frozen=True, slots=True)
class Working:
    """How a figure came about: formula, the same with the numbers put in, inputs, source."""

    figure: str
    label: str
    value: str
    formula: str
    filled: str
    inputs: tuple[Input, ...]
    source: str
