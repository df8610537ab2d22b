"""What the picture of the year shows, in a few sentences."""

from lawnbook.charts.season_hits import season_words
from lawnbook.charts.season_layout import ROW_NAMES
from lawnbook.plan.season_year_model import SeasonYear
from lawnbook.reading import tr
from lawnbook.yard.numbers import day


def season_summary(year: SeasonYear) -> str:
    """The year at one look: growth, need of water, what was done and last, what is to come."""
    words = season_words(year)
    done = [each for each in year.marks if not each.planned]
    if not done:
        return words
    last = max(done, key=lambda each: each.date)
    latest = tr("The latest: {what}, {day}.", what=ROW_NAMES[last.row].lower(), day=day(last.date))
    return f"{words} {latest}"
