"""Every figure of Season, Sheet, First steps and Yard opens how it came about.

With all folds open, of a sample with something on every page. What is no figure of ours is allowed
by its words, with the reason.
"""

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from PySide6.QtWidgets import QApplication

from lawnbook.desk.theme import apply_theme
from lawnbook.yard.notebook import as_of
from tests.access_walk import PLACES, opened, settle, turn
from tests.desk_sample import sample
from tests.figure_walk import Allowed, closed_of, shown_figures
from tests.page_book import put_away

ON = date(2026, 6, 15)
PAGES = ("Yard", "Season", "Sheet")
NO_FIGURES: Allowed = MappingProxyType(
    {
        "^weather_words: ": "days of weather on record are a count",
        "^weather_methods: ": "days by each method are a count",
        "Read the product label first": "cautions name published distances and what was entered",
        "Water price, per 1,000 gal": "the head of a field that is typed in",
        "Type a length as 32' 6": "an example of how to type a length",
        "^review_preview: ": "each opens where it is pointed at: tests/test_page_sheet_figures.py",
    }
)
AT_LEAST: Mapping[str, int] = MappingProxyType(
    {"Yard: First steps": 2, "Yard: Overview": 6, "Yard: Check": 3, "Season: Year": 4,
     "Season: Log": 3, "Sheet: Year in review": 8}
)  # fmt: skip
"""So many figures are found at least: a walk that finds none would prove nothing."""


def test_every_figure_opens_its_working(qapp: QApplication, tmp_path: Path) -> None:
    """In its own widget or in what that lies in, as F1 finds it."""
    apply_theme(qapp, "light")
    window = opened(tmp_path, as_of(sample("larkspur_corner"), ON), ON)
    closed: dict[str, list[str]] = {}
    counts: dict[str, int] = {}
    for page in PAGES:
        for section in PLACES[page]:
            shown = turn(window, page, section)
            settle(20)
            found = list(shown_figures(shown))
            closed[f"{page}: {section}"] = closed_of(found, NO_FIGURES)
            counts[f"{page}: {section}"] = len(found)
    window.book.close()
    put_away(window)
    assert {place: found for place, found in closed.items() if found} == {}
    few = {place: counts[place] for place, least in AT_LEAST.items() if counts[place] < least}
    assert few == {}
