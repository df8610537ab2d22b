"""The sample yards as the tests look at them."""

from collections.abc import Mapping
from datetime import date
from functools import cache
from types import MappingProxyType

from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards

DAY = date(2026, 11, 25)


@cache
def sample(stem: str) -> Notebook:
    """An invented yard by its file's name."""
    path = next(each for each in sample_yards() if each.stem == stem)
    return load_any(path, DAY)


@cache
def samples() -> Mapping[str, Notebook]:
    """All invented yards by their files' names, read whole, once for every test that only reads."""
    return MappingProxyType({path.stem: load_any(path, date.max) for path in sample_yards()})
