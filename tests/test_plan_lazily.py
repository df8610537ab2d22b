"""Fields that are made when first read: once, and for every reader the same as if given whole."""

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, replace

import pytest

from lawnbook.plan.lazily import Later, Lazily


@dataclass(frozen=True, kw_only=True)
class Told:
    """A record with a plain field, one that must be given, and one with a default."""

    name: str
    words: Lazily[tuple[str, ...]] = field(default=Lazily())
    count: Lazily[int | None] = field(default=Lazily(None))


class Made:
    """Counts how often it is made."""

    def __init__(self) -> None:
        """Nothing made yet."""
        self.times = 0

    def __call__(self) -> tuple[str, ...]:
        """The words."""
        self.times += 1
        return ("thin", "thick")


def test_a_promise_is_kept_once_and_only_when_read() -> None:
    made = Made()
    told = Told(name="a", words=Later(made))
    assert made.times == 0
    assert told.words == ("thin", "thick")
    assert told.words is told.words
    assert made.times == 1


def test_one_promise_given_to_two_records_is_made_once() -> None:
    made = Made()
    promise = Later(made)
    one, other = Told(name="a", words=promise), Told(name="a", words=promise)
    assert one == other
    assert made.times == 1


def test_a_promised_record_equals_one_given_whole() -> None:
    promised, whole = Told(name="a", words=Later(Made())), Told(name="a", words=("thin", "thick"))
    assert promised == whole
    assert hash(promised) == hash(whole)
    assert repr(promised) == repr(whole)
    assert promised != Told(name="a", words=("thin",))


def test_replace_copy_and_pickle_see_the_value() -> None:
    whole = Told(name="a", words=("thin", "thick"), count=2)
    for copied in (
        replace(Told(name="b", words=Later(Made()), count=2), name="a"),
        copy.deepcopy(Told(name="a", words=Later(Made()), count=2)),
        pickle.loads(pickle.dumps(Told(name="a", words=Later(Made()), count=2))),
    ):
        assert copied == whole


def test_defaults_and_missing_fields_are_as_in_any_dataclass() -> None:
    assert Told(name="a", words=()).count is None
    with pytest.raises(TypeError, match="words"):
        Told(name="a")
    with pytest.raises(FrozenInstanceError):
        Told(name="a", words=()).__setattr__("words", ("thin",))


def test_a_promise_that_fails_fails_each_time_it_is_asked() -> None:
    def fail() -> tuple[str, ...]:
        raise ValueError("no plugs")

    told = Told(name="a", words=Later(fail))
    for _ in range(2):
        with pytest.raises(ValueError, match="no plugs"):
            assert told.words
