"""How much a grass can grow in each month, by the notebook's mean temperatures."""

from lawnbook.agronomy.turf import growth_potential
from lawnbook.plan.season import month_in_full
from lawnbook.plan.warm_days import warm_days
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook

NO_TEMPERATURES = tr(
    "No temperatures are known yet: import daily weather, or fill in the climate table under Yard."
)


def growth_by_month(notebook: Notebook, grass: str) -> tuple[float | None, ...]:
    """Growth potential of January to December, 0-1; None where no temperature is known.

    Give it the notebook as of the day. Source: "growth-potential".
    """
    return tuple(
        None if mean is None else growth_potential(mean, grass)
        for mean in warm_days(notebook).month_f
    )


def why_no_growth(growth: tuple[float | None, ...]) -> str:
    """Why a year cannot be shared out by growth, in a sentence; empty where it can."""
    unknown = [month for month, share in enumerate(growth, start=1) if share is None]
    if len(unknown) == len(growth):
        return NO_TEMPERATURES
    if unknown:
        months = ", ".join(month_in_full(month) for month in unknown)
        return tr(
            "No temperature is known for {months}: fill in the climate table under Yard.",
            months=months,
        )
    if sum(share or 0.0 for share in growth) <= 0:
        return tr("No month is warm enough for growth, by the temperatures entered.")
    return ""


def shared_by_growth(growth: tuple[float | None, ...], year_lb: float) -> tuple[float, ...] | None:
    """A year's amount shared out by the growth of its months; None where that is not known."""
    if why_no_growth(growth):
        return None
    known = [share or 0.0 for share in growth]
    whole = sum(known)
    return tuple(year_lb * share / whole for share in known)
