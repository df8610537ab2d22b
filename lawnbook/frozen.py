"""Frozen dataclasses whose methods are written when they are first called.

`from lawnbook.frozen import dataclass` stands for the library's own in every module that a start
loads. The library writes and compiles five methods for each class at once, some 0.6 ms; a plan
loads two hundred classes and calls few of these methods, so that four fifths of the time for
loading our modules went there. Here `__init__`, `__eq__`, `__hash__` and `__repr__` are each
compiled when they are called, `__init__` not for a class's first few values, as most classes of a
plan have no more; what is the same for all classes is written once. Fields, `replace`,
matching, pickling, copying and the errors of frozen values are those of the library.

What the records do without is refused where a class is made: fields that `__init__` does not take,
and `InitVar`. That frozen and other classes do not inherit from each other is left to mypy.
Two threads that call a method for the first time at once write it twice, the same; either serves.
"""

import dataclasses
import sys
from collections.abc import Callable, Iterable, Mapping
from dataclasses import MISSING, Field, FrozenInstanceError, InitVar
from functools import partial
from types import MappingProxyType, MethodType
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(
        *, frozen: bool = False, slots: bool = False, eq: bool = True, kw_only: bool = False
    ) -> Callable[[type], type]:
        """The decorator `dataclasses.dataclass`; classes that are not frozen go to the library."""
        if not frozen:
            return dataclasses.dataclass(slots=slots, eq=eq, kw_only=kw_only)
        return lambda cls: _frozen(cls, slots=slots, eq=eq, kw_only=kw_only)


_ABSENT = object()
"""Stands for a field that the caller left to its factory."""
FEW = 6
"""So many values of a class are filled field by field: to write its `__init__` takes as long."""


class _Late:
    """A method that is written when it is first looked up, and then stands in its class."""

    __slots__ = ("name", "owner", "write")

    def __init__(self, owner: type, name: str, write: Callable[[type], Callable[..., Any]]) -> None:
        self.owner, self.name, self.write = owner, name, write

    def __get__(self, instance: object, owner: type | None = None) -> Callable[..., Any]:
        method = self.write(self.owner)
        method.__name__, method.__module__ = self.name, self.owner.__module__
        method.__qualname__ = f"{self.owner.__qualname__}.{self.name}"
        setattr(self.owner, self.name, method)
        return method if instance is None else MethodType(method, instance)


class _LateInit(_Late):
    """An `__init__` that fills a class's first few values field by field, and is written then.

    What it was not called for rightly is left to the written one, which tells of the slip.
    """

    __slots__ = ("left", "places", "steps")

    def __init__(self, owner: type) -> None:
        super().__init__(owner, "__init__", _init)
        self.left = FEW
        self.places: tuple[str, ...] = ()
        self.steps: tuple[tuple[Field[Any], Callable[[object, object], None]], ...] = ()

    def __get__(self, instance: object, owner: type | None = None) -> Callable[..., Any]:
        if instance is None or self.left <= 0:
            return super().__get__(instance, owner)
        if not self.steps:
            told = _fields(self.owner)
            self.places = tuple(each.name for each in told if not each.kw_only)
            self.steps = tuple((each, _setter(self.owner, each.name)) for each in told)
        self.left -= 1
        return partial(self._fill, instance)

    def _fill(self, record: Any, /, *by_place: object, **by_name: object) -> None:
        given = {**dict(zip(self.places, by_place, strict=False)), **by_name}
        right = len(given) == len(by_place) + len(by_name)
        for each, put in self.steps:
            value = given.pop(each.name, each.default)
            if value is MISSING and each.default_factory is not MISSING:
                value = each.default_factory()
            right = right and value is not MISSING
            put(record, value)
        if given or not right:
            super().__get__(record)(*by_place, **by_name)
        elif hasattr(self.owner, "__post_init__"):
            record.__post_init__()


def _frozen(cls: type, *, slots: bool, eq: bool, kw_only: bool) -> type:
    """A class as the library makes it without its methods, which come late."""
    # The library would reckon a signature for a class without words.
    cls.__doc__ = cls.__doc__ or cls.__name__
    own = {name for name in ("__repr__", "__eq__") if name in cls.__dict__}
    # A class that says how it is equal, and not how it is hashed, has None there from Python.
    if cls.__dict__.get("__hash__") is not None:
        own.add("__hash__")
    bare = dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots, kw_only=kw_only)
    made: type = bare(cls)
    _refuse_unknown(made)
    late = [_LateInit(made), _Late(made, "__repr__", _repr)]
    if eq:
        late += [_Late(made, "__eq__", _eq), _Late(made, "__hash__", _hash)]
    for each in late:
        if each.name not in own:
            setattr(made, each.name, each)
    for name, shared in (*_FROZEN.items(), *(_SLOTTED.items() if slots else ())):
        if name not in made.__dict__:
            setattr(made, name, shared)
    return made


def _refuse_unknown(cls: Any) -> None:
    """TypeError for a kind of field that the methods written here would treat wrongly."""
    for each in cls.__dataclass_fields__.values():
        if not each.init or isinstance(each.type, InitVar):
            raise TypeError(f"{cls.__qualname__}.{each.name}: lawnbook.frozen has no such fields")


def _no_setting(record: object, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _no_deleting(record: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(record: Any) -> list[object]:
    return [getattr(record, each.name) for each in dataclasses.fields(record)]


def _restore(record: Any, state: Iterable[object]) -> None:
    for each, value in zip(dataclasses.fields(record), state, strict=True):
        object.__setattr__(record, each.name, value)


Methods = Mapping[str, Callable[..., Any]]
_FROZEN: Methods = MappingProxyType({"__setattr__": _no_setting, "__delattr__": _no_deleting})
_SLOTTED: Methods = MappingProxyType({"__getstate__": _state, "__setstate__": _restore})


def _fields(cls: Any) -> tuple[Field[Any], ...]:
    return dataclasses.fields(cls)


def _init(cls: type) -> Callable[..., Any]:
    """`__init__`, which puts each value straight into its slot."""
    names: dict[str, object] = {"_absent": _ABSENT}
    by_place: list[str] = []
    by_name: list[str] = []
    steps: list[str] = []
    for each in _fields(cls):
        told = value = each.name
        names[f"_set_{each.name}"] = _setter(cls, each.name)
        if each.default_factory is not MISSING:
            names[f"_make_{each.name}"] = each.default_factory
            told = f"{each.name}=_absent"
            value = f"_make_{each.name}() if {each.name} is _absent else {each.name}"
        elif each.default is not MISSING:
            names[f"_else_{each.name}"] = each.default
            told = f"{each.name}=_else_{each.name}"
        (by_name if each.kw_only else by_place).append(told)
        steps.append(f"_set_{each.name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        steps.append("self.__post_init__()")
    arguments = ["self", *by_place, *(["*", *by_name] if by_name else [])]
    # A slot's setter gives None, so that `or` goes on to the next.
    init = _written(cls, arguments, " or ".join(steps) or "None", names)
    init.__annotations__ = {**{each.name: each.type for each in _fields(cls)}, "return": None}
    return init


def _setter(cls: type, name: str) -> Callable[[object, object], None]:
    """What puts a field's value into a record: its slot, or its descriptor, where it has one."""
    kept: Any = getattr(cls, name, None)
    if hasattr(type(kept), "__set__"):
        straight: Callable[[object, object], None] = kept.__set__
        return straight
    return lambda record, value: object.__setattr__(record, name, value)


def _eq(cls: type) -> Callable[..., Any]:
    compared = [each.name for each in _fields(cls) if each.compare]
    mine, theirs = _tuple("self", compared), _tuple("other", compared)
    same = "other.__class__ is self.__class__"
    return _written(cls, ["self", "other"], f"{mine} == {theirs} if {same} else NotImplemented", {})


def _hash(cls: type) -> Callable[..., Any]:
    hashed = [e.name for e in _fields(cls) if (e.compare if e.hash is None else e.hash)]
    return _written(cls, ["self"], f"hash({_tuple('self', hashed)})", {})


def _repr(cls: type) -> Callable[..., Any]:
    shown = [each.name for each in _fields(cls) if each.repr]

    def told(record: object) -> str:
        fields = ", ".join(f"{name}={getattr(record, name)!r}" for name in shown)
        return f"{record.__class__.__qualname__}({fields})"

    return told


def _tuple(of: str, names: Iterable[str]) -> str:
    listed = "".join(f"{of}.{name}, " for name in names)
    return f"({listed})"


def _written(
    cls: type, arguments: Iterable[str], answer: str, names: dict[str, object]
) -> Callable[..., Any]:
    """A method that answers with an expression, with the names that this needs around it.

    The text is made of nothing but the names of the class's fields.
    """
    text = f"lambda {', '.join(names)}: lambda {', '.join(arguments)}: {answer}"
    around: Callable[..., Callable[..., Any]] = eval(text, sys.modules[cls.__module__].__dict__)
    return around(**names)
