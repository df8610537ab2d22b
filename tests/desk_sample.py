"""The sample yards as the tests of the desk look at them."""

from datetime import date
from functools import cache

from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards

DAY = date(2026, 11, 25)


@cache
def sample(stem: str) -> Notebook:
    """An invented yard by its file's name."""
    path = next(each for each in sample_yards() if each.stem == stem)
    return load_any(path, DAY)
