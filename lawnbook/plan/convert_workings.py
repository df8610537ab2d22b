"""How a converted measure came about: by what one of each unit is in the row's own measure."""

import math

from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import numbered, reckons
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import given, told_exactly
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import METRIC

BY_DEFINITION = tr("NIST Handbook 44, appendix C: units by their definition")


_DIGITS, _LEAST_PLACES = 4, 2


@dataclass(frozen=True, slots=True)
class UnitOf:
    """A unit by its name, and how much of its row's own measure one of it is."""

    name: str
    size: float

    def told(self, value: float) -> str:
        """So many of it."""
        return f"{told_exactly(value)} {tr(self.name)}"


def converted_workings(value: float, of: UnitOf, to: UnitOf, measure: str) -> tuple[Working, ...]:
    """A number of one unit in another; `measure` is what the sizes of both are told in."""
    typed = given(tr("Typed"), of.told(value), tr("in the field of its unit"))
    sizes = tuple(
        given(each.told(1.0), f"{told_exactly(each.size)} {tr(measure)}", tr("by definition"))
        for each in (of, to)
    )
    result = value * of.size / to.size
    # A number of gallons stays one to a metric reader: it is what was asked for.
    shown_as = "" if is_metric() and to.name in METRIC else to.name
    numbers = (told_exactly(each) for each in (value, of.size, to.size))
    return (
        Working(
            f"converted:{of.name}:{to.name}",
            tr("{of} in {to}", of=of.told(value), to=tr(to.name)),
            to.told(result),
            tr("what was typed × one of its unit ÷ one of the other"),
            "{} × {} ÷ {}".format(*numbers),
            (numbered(typed, "typed", value), *sizes),
            BY_DEFINITION,
            reckons(f"{{typed}} × {of.size!r} ÷ {to.size!r}", shown_as, _places(result)),
        ),
    )


def _places(value: float) -> int:
    """So many decimals that four digits of a number count."""
    return max(_LEAST_PLACES, _DIGITS - 1 - math.floor(math.log10(value)))
