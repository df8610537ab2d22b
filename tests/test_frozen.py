"""Frozen dataclasses with late methods, held beside the library's own."""

import copy
import dataclasses
import inspect
import pickle
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import FrozenInstanceError, InitVar, field, fields, is_dataclass, replace
from typing import Any, cast, get_type_hints

import pytest

from lawnbook.frozen import FEW, dataclass
from tests.small_book import in_child


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """A base as the records have it."""

    id: str
    rank: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone(Base):
    """A record of fields with and without defaults."""

    name: str
    depths_in: tuple[float, ...] = ()
    by_day: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Place:
    """Fields by their place, one that takes no part in comparing, and a check."""

    x_ft: float
    y_ft: float = 0.0
    note: str = field(default="", compare=False, repr=False)

    def __post_init__(self) -> None:
        """Refuse a place west of the yard."""
        if self.x_ft < 0:
            raise ValueError("west")


@dataclass(frozen=True, slots=True, eq=False)
class Same:
    """Equal to itself only."""

    x_ft: float


@dataclass(frozen=True)
class Open:
    """Without slots, with a word of its own."""

    x_ft: float

    def __repr__(self) -> str:
        return "open"


@dataclass(slots=True)
class Draft:
    """Not frozen: the library's own."""

    x_ft: float


def by_library() -> type[Any]:
    """`Place` as the library makes it."""

    @dataclasses.dataclass(frozen=True, slots=True)
    class Made:
        x_ft: float
        y_ft: float = 0.0
        note: str = field(default="", compare=False, repr=False)

    Made.__qualname__ = "Place"
    return Made


@pytest.mark.parametrize("given", [(1.0,), (1.0, 2.0), (1.0, 2.0, "north"), (float("nan"), 0.0)])
def test_values_are_those_of_the_library(given: tuple[Any, ...]) -> None:
    ours, theirs = Place(*given), by_library()(*given)
    assert repr(ours) == repr(theirs)
    assert hash(ours) == hash(theirs)
    assert repr(dataclasses.astuple(ours)) == repr(dataclasses.astuple(theirs))
    assert (ours == Place(*given)) == (theirs == type(theirs)(*given))
    assert Place.__match_args__ == by_library().__match_args__
    assert str(inspect.signature(Place)) == str(inspect.signature(by_library()))


def test_what_a_record_holds_and_how_it_compares() -> None:
    zone = Zone(id="z1", name="Front")
    held = (zone.id, zone.rank, zone.name, zone.depths_in, zone.by_day)
    assert held == (
        "z1",
        0,
        "Front",
        (),
        {},
    )
    assert zone.by_day is not Zone(id="z1", name="Front").by_day
    assert zone == Zone(id="z1", name="Front") != Zone(id="z1", name="Front", rank=1)
    assert zone != Base(id="z1")
    assert replace(zone, rank=2) == Zone(id="z1", name="Front", rank=2)
    assert Place(1.0, note="a") == Place(1.0, note="b") != Place(2.0)
    assert len({Place(1.0), Place(1.0, note="b"), Place(2.0)}) == 2
    assert [each.name for each in fields(zone)] == ["id", "rank", "name", "depths_in", "by_day"]
    assert is_dataclass(Zone)
    assert not hasattr(zone, "__dict__")


def test_a_class_of_its_own_words_keeps_them() -> None:
    assert repr(Open(1.0)) == "open"
    assert Open(1.0) == Open(1.0)
    assert Same(1.0) != Same(1.0)
    assert len({Same(1.0), Same(1.0)}) == 2
    draft = Draft(1.0)
    draft.x_ft = 2.0
    assert draft == Draft(2.0)


@pytest.mark.parametrize("record", [Place(1.0), Zone(id="z1", name="Front"), Open(1.0)])
@pytest.mark.parametrize(
    "spoil",
    [
        lambda record: setattr(record, fields(record)[0].name, 3.0),
        lambda record: setattr(record, "other", 3.0),
        lambda record: delattr(record, fields(record)[0].name),
    ],
)
def test_nothing_in_it_can_be_changed(record: Any, spoil: Callable[[Any], None]) -> None:
    with pytest.raises(FrozenInstanceError):
        spoil(record)


@pytest.mark.parametrize("record", [Place(1.0, note="n"), Zone(id="z1", name="Front"), Open(1.0)])
def test_a_copy_is_equal(record: Any) -> None:
    copies = copy.copy(record), copy.deepcopy(record), pickle.loads(pickle.dumps(record))
    assert [dataclasses.asdict(each) for each in copies] == [dataclasses.asdict(record)] * 3
    assert all(each == record for each in copies)


def test_slips_are_told_as_the_library_tells_them() -> None:
    slips: tuple[dict[str, float], ...] = ({}, {"x_ft": 1.0, "z_ft": 2.0})
    for slip in slips:
        with pytest.raises(TypeError) as ours:
            _ = Place(**cast("Any", slip))
        with pytest.raises(TypeError) as theirs:
            by_library()(**slip)
        assert str(ours.value) == str(theirs.value).replace("by_library.<locals>.Made", "Place")
    with pytest.raises(ValueError, match="west"):
        Place(-1.0)
    assert get_type_hints(Place.__init__)["x_ft"] is float


def test_methods_are_not_written_before_they_are_called() -> None:
    child = in_child(
        """
        from lawnbook.frozen import FEW, dataclass, _Late
        @dataclass(frozen=True, slots=True)
        class Place:
            x_ft: float
        late = lambda: sorted(name for name in vars(Place) if isinstance(vars(Place)[name], _Late))
        print(late())
        hash(Place(1.0))
        print(late())
        [Place(1.0) for _ in range(FEW)]
        print(late())
        """
    )
    assert child.stdout.splitlines() == [
        "['__eq__', '__hash__', '__init__', '__repr__']",
        "['__eq__', '__init__', '__repr__']",
        "['__eq__', '__repr__']",
    ], child.stderr


def test_the_first_values_of_a_class_are_those_of_the_later_ones() -> None:
    def fresh() -> Any:
        @dataclass(frozen=True, slots=True)
        class Made(Place):
            """A class of which nothing was made yet."""

            more: list[int] = field(default_factory=list)
            word: str = field(default="", kw_only=True)

        return Made

    kind = fresh()
    for _ in range(FEW + 2):
        assert dataclasses.astuple(kind(1.0, note="a", word="b")) == (1.0, 0.0, "a", [], "b")
    slips: tuple[tuple[tuple[object, ...], dict[str, object]], ...] = (
        ((), {}),
        ((1.0,), {"x_ft": 2.0}),
        ((1.0,), {"z_ft": 2.0}),
        ((1.0, 2.0, "", [], ""), {}),
    )
    for by_place, by_name in slips:
        with pytest.raises(TypeError) as first:
            fresh()(*by_place, **by_name)
        with pytest.raises(TypeError) as later:
            kind(*by_place, **by_name)
        assert str(first.value) == str(later.value)
    with pytest.raises(ValueError, match="west"):
        fresh()(-1.0)


@pytest.mark.parametrize(
    ("kind", "default"), [(float, field(default=1.0, init=False)), (InitVar[float], 1.0)]
)
def test_fields_that_the_records_do_without_are_refused(kind: Any, default: Any) -> None:
    bare = type("Odd", (), {"__annotations__": {"x_ft": kind}, "x_ft": default})
    with pytest.raises(TypeError, match=r"Odd\.x_ft"):
        dataclass(frozen=True, slots=True)(bare)


def test_threads_may_call_a_method_for_the_first_time_at_once() -> None:
    """Each thread gets a true method, whichever of them is kept."""
    with ThreadPoolExecutor(8) as threads:
        for _ in range(50):
            bare = type("Spot", (), {"__annotations__": {"x_ft": float}})
            spot: Any = dataclass(frozen=True, slots=True)(bare)
            start = threading.Barrier(8)

            def told(spot: Any = spot, start: threading.Barrier = start) -> tuple[str, bool, int]:
                start.wait()
                return repr(spot(1.0)), spot(1.0) == spot(1.0), hash(spot(1.0))

            found = {future.result() for future in [threads.submit(told) for _ in range(8)]}
            assert found == {("Spot(x_ft=1.0)", True, hash((1.0,)))}
