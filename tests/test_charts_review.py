"""Bars of a year beside those of the year before: heights, months, scale, and an empty year."""

import pytest

from lawnbook.charts.marks import Frame, Polygon, Words
from lawnbook.charts.review import PairedMonths, paired_marks, paired_words

FRAME = Frame(250.0, 120.0)
NORTH = tuple(range(1, 13))
SOUTH = (7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6)


def months(
    now: dict[int, float], before: dict[int, float], order: tuple[int, ...] = NORTH
) -> PairedMonths:
    """Amounts by month, 1 to 12."""
    whole = (tuple(each.get(month, 0.0) for month in range(1, 13)) for each in (now, before))
    this, last = whole
    return PairedMonths(
        unit="Water, gal",
        order=order,
        names=("2026", "2025"),
        now=this,
        before=last,
        role="water",
    )


def bars(made: PairedMonths) -> tuple[list[float], list[float]]:
    """The heights of the solid and of the hatched bars, from left to right; samples left out."""
    solid: list[float] = []
    edged: list[float] = []
    for mark in paired_marks(made, FRAME).marks:
        if isinstance(mark, Polygon):
            boxes = [r for r in mark.rings if max(y for _, y in r) > 50]
            high = [max(y for _, y in ring) - min(y for _, y in ring) for ring in boxes]
            (solid if mark.fill else edged).extend(high)
    return solid, edged


def test_bars_are_as_high_as_their_amounts() -> None:
    solid, edged = bars(months({5: 100.0, 6: 50.0}, {5: 25.0}))
    assert solid[0] == pytest.approx(2 * solid[1]) == pytest.approx(4 * edged[0])


def test_nothing_is_said_and_not_drawn() -> None:
    empty = months({}, {})
    assert bars(empty) == ([], [])
    assert "none on record" in paired_marks(empty, FRAME).words()
    assert "none on record" in paired_words(empty, 0)


def test_months_stand_in_the_years_own_order() -> None:
    words = [
        mark.text
        for mark in paired_marks(months({1: 5.0}, {}, order=SOUTH), FRAME).marks
        if isinstance(mark, Words) and mark.at[1] > FRAME.height - 10
    ]
    assert words == list("JASONDJFMAMJ")


@pytest.mark.parametrize("most", [0.004, 0.9, 3.0, 250.0, 98_765.0])
def test_the_scale_has_round_marks_within_the_frame(most: float) -> None:
    """From two to five marks, whatever the size; the highest bar stays below the key."""
    picture = paired_marks(months({3: most}, {4: most / 3}), FRAME)
    told = [mark for mark in picture.marks if isinstance(mark, Words) and mark.align == "right"]
    values = [float(mark.text.replace(",", "")) for mark in told]
    assert 2 <= len(values) <= 5
    assert values == sorted(values)
    assert values[-1] <= most * 1.08 + 1e-9
    assert min(mark.at[1] for mark in told) > 15


def test_both_years_are_told_in_words() -> None:
    words = paired_words(months({5: 1234.4}, {5: 10.0, 7: 2.0}), 0)
    assert words == "Water, gal by month, 2026 (2025 in brackets): May 1,234 (10), July 0 (2)."
