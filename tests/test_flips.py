"""A short run of the program that damages notebooks at random: nothing is lost without a word.

The long run is `python -m tests.flips`.
"""

import random
from pathlib import Path

import pytest

from tests.flips.harm import PAGE, Harm
from tests.flips.run import judges


@pytest.mark.parametrize("yard", ["saltbush_court", "larkspur_corner"])
def test_no_record_is_lost_without_a_word(tmp_path: Path, yard: str) -> None:
    (held,) = judges(tmp_path, (yard,))
    chance = random.Random(7)
    for number in range(30):
        held.flip(chance, number)
    tally = held.judge.tally
    assert tally.faults == []
    assert tally.opened["refused"] > 5
    assert tally.salvaged["in part"] > 3


def test_a_cut_file_is_told_as_such_and_opened_as_far_as_it_goes(tmp_path: Path) -> None:
    (held,) = judges(tmp_path, ("saltbush_court",))
    for at in (0, 1, 99, 100, PAGE - 1, PAGE, 3 * PAGE + 17, 20 * PAGE, 30 * PAGE + 4000):
        held.judge.judge(Harm("cut", cut_at=at), f"cut at {at}")
    assert held.judge.tally.faults == []
    assert held.judge.tally.opened.keys() == {"refused"}
