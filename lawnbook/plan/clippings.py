"""What a zone's clippings give back in a year: shown as a range, never subtracted."""

from lawnbook.agronomy.clippings import clippings_credit_lb
from lawnbook.plan.feed_model import ClippingsCredit
from lawnbook.plan.feed_rule import rate_of_n
from lawnbook.plan.workings import sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, bare
from lawnbook.yard.records import Zone


def clippings_of(zone: Zone, year_lb: float) -> ClippingsCredit | None:
    """What clippings left on a zone give back of a year's nitrogen (lb per 1,000 sq ft).

    None where they are bagged, or where it is not entered what happens to them.
    """
    if zone.clippings != "left":
        return None
    low, high = clippings_credit_lb(max(0.0, year_lb))
    return ClippingsCredit(
        low_lb=low,
        high_lb=high,
        words=_words(low, high, max(0.0, year_lb)),
        source=sources("clippings-low", "clippings-high"),
    )


def _words(low_lb: float, high_lb: float, year_lb: float) -> str:
    low, year = bare(low_lb, 2, RATE_UNIT), bare(year_lb, 2, RATE_UNIT)
    return tr(
        "Clippings left on the lawn give back about {low} to {rate_of_n} of a year’s "
        "{year}: it is not taken off the budget.",
        low=low,
        rate_of_n=rate_of_n(high_lb),
        year=year,
    )
