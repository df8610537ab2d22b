"""A figure of an object that is reckoned when it is first read, and kept with the object.

As the library's `cached_property`, without its lock: in Python 3.11 that is one for all objects
of a class, held while the figure is made, so that a plan in the making would stop the window. Two
threads may make a figure twice, the same one of the same frozen things.
"""

from collections.abc import Callable
from typing import Any, Generic, TypeVar

T = TypeVar("T")


class Kept(Generic[T]):
    """Decorates a method without arguments; the class must not have slots."""

    def __init__(self, make: Callable[[Any], T]) -> None:
        """Reckon by `make`."""
        self._make = make
        self._name = make.__name__
        self.__doc__ = make.__doc__

    def __get__(self, record: object, owner: type) -> T:
        """The figure; met only until it is kept under its name. AttributeError of the class."""
        if record is None:
            raise AttributeError(self._name)
        made = self._make(record)
        record.__dict__[self._name] = made
        return made
