"""The tests' own reading of a page: no text that lies over another is missed."""

from hypothesis import given
from hypothesis import strategies as st

from tests.pdf_reading import TextBox, overlapping

KERNING_PT = 3.5
EDGES = st.integers(0, 60).map(lambda fifth: fifth / 5)


@st.composite
def boxes(draw: st.DrawFn) -> TextBox:
    """A box somewhere in a corner of 12 by 12 points."""
    left, top, wide, high = (draw(EDGES) for _ in range(4))
    return TextBox(draw(st.text("abc", max_size=4)), left, top, left + wide / 2, top + high / 2)


def pair_by_pair(boxes: list[TextBox], allowed_pt: float) -> list[tuple[str, str]]:
    """Each box held against each that follows it: slow, and plainly right."""
    found = []
    for number, one in enumerate(boxes):
        for place, other in enumerate(boxes[number + 1 :]):
            across = min(one.right, other.right) - max(one.left, other.left)
            if place == 0 and across < KERNING_PT and other.left > one.left:
                continue
            along = min(one.bottom, other.bottom) - max(one.top, other.top)
            if across > allowed_pt and along > allowed_pt:
                found.append((one.text, other.text))
    return found


@given(st.lists(boxes(), max_size=12), st.sampled_from((0.0, 0.6, 2.0)))
def test_going_down_the_page_finds_what_pair_by_pair_finds(
    page: list[TextBox], allowed_pt: float
) -> None:
    assert overlapping(page, allowed_pt) == pair_by_pair(page, allowed_pt)


def test_a_text_over_another_is_found_and_a_kerned_word_is_not() -> None:
    words = [TextBox("Fro", 0, 0, 20, 10), TextBox("nt", 18, 0, 30, 10)]
    assert overlapping(words) == []
    assert overlapping([*words, TextBox("over", 5, 5, 15, 15)]) == [("Fro", "over")]
