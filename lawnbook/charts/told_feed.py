"""What the pictures of nitrogen show, in two to four sentences: by month, and day by day."""

from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.charts.nitrogen import Nitrogen, months_in_order
from lawnbook.charts.release import nitrogen_told, nothing_words, year_words
from lawnbook.plan.feed_model import ReleaseCurve
from lawnbook.plan.season import month_in_full
from lawnbook.plan.workings import LEAST_TOLD_LB
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, bare
from lawnbook.yard.numbers import counted, day


def nitrogen_summary(
    zone: Nitrogen, ghost_lb_per_1000: float = 0.0, ghost_month: int | None = None
) -> str:
    """Twelve months of nitrogen: put down of the budget, the most and the latest, what is left."""
    words = [
        tr(
            "{zone}, {year}: {put} of {budget} put down.",
            zone=zone.zone,
            year=zone.year_label,
            put=_number(zone.applied_year),
            budget=nitrogen_told(zone.budget_year),
        ),
        *_months_told(zone),
    ]
    left = zone.left_this_year
    text = tr("{amount} is left in the year.") if left >= 0 else tr("The year is over by {amount}.")
    words.append(tr(text, amount=_number(abs(left))))
    if ghost_month is not None and ghost_lb_per_1000:
        month, amount = month_in_full(ghost_month), _number(ghost_lb_per_1000)
        words.append(tr("Proposed for {month}: {amount}.", month=month, amount=amount))
    return " ".join(words)


def _months_told(zone: Nitrogen) -> Iterator[str]:
    """The month with most nitrogen, and the latest with any."""
    put = [month for month in months_in_order(zone) if zone.applied_by_month[month] > 0]
    if not put:
        yield tr("Nothing is put down yet.")
        return
    most = max(put, key=lambda month: zone.applied_by_month[month])
    yield tr(
        "Most in {month}, {amount}; the latest in {latest}, {latest_amount}.",
        month=month_in_full(most + 1),
        amount=_number(zone.applied_by_month[most]),
        latest=month_in_full(put[-1] + 1),
        latest_amount=_number(zone.applied_by_month[put[-1]]),
    )


def release_summary(curve: ReleaseCurve, today: date | None = None) -> str:
    """Nitrogen becoming available: the sum of the year, its best week, so far, growth's use."""
    if not curve.layers:
        return nothing_words(curve)
    daily = [sum(given) for given in zip(*(each.daily_lb for each in curve.layers), strict=True)]
    weeks = [sum(daily[max(0, place - 6) : place + 1]) for place in range(len(daily))]
    best = max(range(len(weeks)), key=lambda place: weeks[place])
    words = [
        tr(
            "Nitrogen becoming available to {zone}, {year}: {amount} in all, from {layers}.",
            zone=curve.zone,
            year=year_words(curve),
            amount=nitrogen_told(sum(daily)),
            layers=counted(len(curve.layers), "layer"),
        ),
        tr(
            "Most in the week up to {day}: {amount}.",
            day=day(curve.start + timedelta(best)),
            amount=_number(weeks[best]),
        ),
    ]
    if today is not None and curve.start <= today:
        so_far = sum(daily[: (today - curve.start).days + 1])
        words.append(tr("Up to {day}: {amount}.", day=day(today), amount=_number(so_far)))
    if curve.usable_daily_lb is not None and sum(curve.usable_daily_lb) >= LEAST_TOLD_LB:
        usable = _number(sum(curve.usable_daily_lb))
        words.append(tr("Growth can use {amount} in the year.", amount=usable))
    return " ".join(words)


def _number(lb_per_1000: float) -> str:
    return bare(lb_per_1000, 2, RATE_UNIT)
