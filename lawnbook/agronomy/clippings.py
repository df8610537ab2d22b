"""What clippings left on the lawn give back: a range of the year's nitrogen, for information.

Source: "clippings-low", "clippings-high". ValueError outside a formula's domain.
"""

from lawnbook.agronomy.checks import not_negative

LOW_SHARE, HIGH_SHARE = 0.25, 0.50
"""Share of a year's nitrogen: a quarter (source "clippings-low"), a half ("clippings-high")."""


def clippings_credit_lb(year_lb: float) -> tuple[float, float]:
    """Nitrogen that a year's clippings give back, low and high, in the unit of `year_lb`.

    `year_lb` is what the lawn is given in a year. It is shown as a range and never subtracted:
    how much comes back depends on age of the lawn, soil and mowing. Source: "clippings-low",
    "clippings-high".
    """
    year = not_negative("year_lb", year_lb)
    return LOW_SHARE * year, HIGH_SHARE * year
