"""What is said of the day beside product, pounds and zones: rain ahead, strips, the spreader."""

from lawnbook.frozen import dataclass
from lawnbook.plan.calibration_tank import folded
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import trimmed, trimmed_bare
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError

MOST_RAIN_IN = 40.0
"""More rain than any gauge of the notebook takes."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """The conditions of a spread. OwnerError for a depth of rain that cannot be.

    `rain_in` is the rain of the next days as typed in, None where nothing was. `leave_strips`
    takes the strips along water and features out of the area treated. `spreader` is the spreader
    or sprayer that will be used, by the owner's name for it; empty for any.
    """

    rain_in: float | None = None
    leave_strips: bool = True
    spreader: str = ""

    def __post_init__(self) -> None:
        if self.rain_in is not None and not 0 <= self.rain_in <= MOST_RAIN_IN:
            raise OwnerError(
                tr(
                    "Rain: {rain} cannot be; enter the {unit} of the next days, 0 to {most}.",
                    rain=trimmed(self.rain_in, 2, "in"),
                    unit=tr("millimetres") if is_metric() else tr("inches"),
                    most=trimmed_bare(MOST_RAIN_IN, 2, "in"),
                )
            )


def spreader_named(notebook: Notebook, told: str) -> str:
    """A spreader or sprayer of the notebook's calibrations, by its name in capitals or not.

    OwnerError for a name that none of them has.
    """
    names = dict.fromkeys(
        [
            *(run.spreader.strip() for run in notebook.spreader_runs.values()),
            *(run.sprayer.strip() for run in notebook.sprayer_runs.values()),
        ]
    )
    by_name = {folded(name): name for name in names}
    found = by_name.get(folded(told))
    if found is not None:
        return found
    mend = (
        tr("choose from {names}.", names=", ".join(names))
        if names
        else tr("calibrate one under Feed first.")
    )
    raise OwnerError(tr('Spreader: there is no "{told}"; {mend}', told=told, mend=mend))
