"""A spreader calibrated by weight: what it puts down over a strip, and the setting for a rate.

A setting holds for one spreader, one product and one walk only, so it is found by weighing, never
looked up. Source: "spreader-strip". ValueError outside a formula's domain.
"""

from lawnbook.agronomy.guards import not_negative, positive


def spreader_rate_lb_per_1000(used_lb: float, strip_ft: float, width_ft: float) -> float:
    """Product (lb per 1,000 sq ft) that a spreader put down over a strip of a length and width.

    `used_lb` is the weight before less the weight after, `width_ft` the distance from the middle of
    one pass to that of the next. Source: "spreader-strip".
    """
    area_sqft = positive("strip_ft", strip_ft) * positive("width_ft", width_ft)
    return not_negative("used_lb", used_lb) * 1000.0 / area_sqft


def setting_between(
    wanted_lb_per_1000: float, below: tuple[float, float], above: tuple[float, float]
) -> float:
    """The setting for a rate between two calibrated ones, on the straight line through them.

    `below` and `above` are (setting, lb per 1,000 sq ft). ValueError where the rates are alike or
    do not enclose the wanted one: nothing is carried on beyond what was weighed. The line is this
    project's assumption, so the setting is one to begin with and weigh again.
    """
    (low_setting, low_rate), (high_setting, high_rate) = below, above
    if not low_rate <= wanted_lb_per_1000 <= high_rate or low_rate == high_rate:
        raise ValueError(
            f"{wanted_lb_per_1000} lb must lie between two rates, not {low_rate} and {high_rate}."
        )
    share = (wanted_lb_per_1000 - low_rate) / (high_rate - low_rate)
    return low_setting + share * (high_setting - low_setting)
