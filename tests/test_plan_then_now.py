"""Then and now: two days of one spot, their difference, and how far measuring may be off."""

from collections.abc import Sequence
from datetime import date
from importlib import import_module

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.then_now import NO_REPLICATES, ONE_SPOT, plug_days, then_and_now, usual_then
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Care, Core, Photo
from tests.plan_yards import core, spot, yard
from tests.strategies import notebooks
from tests.test_plan_workings import assert_comes_out

THEN, MIDDLE, NOW = date(2024, 5, 4), date(2025, 5, 6), date(2026, 5, 5)


def book(*cores: Core, care: Sequence[Care] = (), photos: Sequence[Photo] = ()) -> Notebook:
    """One spot with these plugs."""
    return yard(spots=[spot()], cores=cores, care=care, photos=photos)


def plug(on: date, *thatch_in: float, name: str = "", **values: object) -> Core:
    """A plug read by a ruler of 1/16 in."""
    return core(on, *thatch_in, id=f"{on}{name}", resolution_in=0.0625, **values)


def test_days_hold_their_plugs_pooled_and_their_photographs() -> None:
    picture = Picture.of(b"a picture")
    photo = Photo(id="p", core=f"{THEN}", sha256=picture.sha256, data_b64=picture)
    notebook = book(
        plug(NOW, 0.5),
        plug(THEN, 1.0, 1.2, root_depth_in=3.0),
        plug(THEN, 0.8, name="b", root_depth_in=4.0),
        photos=[photo],
    )
    first, last = plug_days(notebook, "s1", NOW)
    assert (first.date, last.date) == (THEN, NOW)
    assert first.thatch_in == pytest.approx(1.0)
    assert (first.root_depth_in, last.root_depth_in) == (3.5, None)
    assert (first.photo_ids, last.photo_ids) == (("p",), ())
    assert len(first.columns) == 2
    assert [each.date for each in plug_days(notebook, "s1", MIDDLE)] == [THEN]
    assert plug_days(notebook, "gone", NOW) == ()


def test_the_doubt_by_the_textbook_without_replicates() -> None:
    """Two plugs of three readings: t by scipy on the readings' 4 degrees of freedom."""
    shown = then_and_now(book(plug(THEN, 1.0, 1.1, 1.2), plug(NOW, 0.5, 0.6, 0.7)), "s1", THEN, NOW)
    assert shown.thatch_change_in == pytest.approx(-0.5)
    t = import_module("scipy.stats").t.ppf(0.975, 4)
    assert shown.plus_minus_in == pytest.approx(t * (2 * 0.01 / 3) ** 0.5)
    assert shown.words[0].startswith("Thatch: 0.50 in less, at least ± 0.23 in, by readings and")
    assert NO_REPLICATES in shown.words
    assert ONE_SPOT in shown.words


def test_replicates_bring_in_what_sets_plugs_side_by_side_apart() -> None:
    """Two plugs a day, single readings: the day's mean has half the variance between plugs."""
    pairs = [
        plug(on, level + off, name=str(off))
        for on, level in ((THEN, 1.0), (NOW, 0.6))
        for off in (-0.1, 0.1)
    ]
    shown = then_and_now(book(*pairs), "s1", THEN, NOW)
    t = import_module("scipy.stats").t.ppf(0.975, 2)
    assert shown.plus_minus_in == pytest.approx(t * (2 * 0.02 / 2) ** 0.5)
    assert shown.words[0].endswith("no difference that these plugs can show.")
    assert "at least" not in shown.words[0]
    assert NO_REPLICATES not in shown.words


def test_single_readings_alone_bear_no_doubt_and_no_claim() -> None:
    shown = then_and_now(book(plug(THEN, 1.0), plug(NOW, 0.4)), "s1", THEN, NOW)
    assert shown.thatch_change_in == pytest.approx(-0.6)
    assert shown.plus_minus_in is None
    assert "cannot be said" in shown.words[0]


def test_a_difference_within_the_doubt_is_none_that_shows() -> None:
    shown = then_and_now(book(plug(THEN, 0.6, 0.7), plug(NOW, 0.58, 0.7)), "s1", THEN, NOW)
    assert "no difference that these plugs can show" in shown.words[0]


def test_pressed_is_not_compared_with_unpressed_nor_read_with_unread() -> None:
    pressed = then_and_now(book(plug(THEN, 1.0), plug(NOW, 0.4, pressed=True)), "s1", THEN, NOW)
    assert (pressed.thatch_change_in, pressed.plus_minus_in) == (None, None)
    assert pressed.words[0].startswith("One day was read pressed")
    unread = then_and_now(book(plug(THEN, 1.0), plug(NOW, root_depth_in=4.0)), "s1", THEN, NOW)
    assert unread.words[0].startswith("No thatch was read on 5 May 2026")


def test_the_usual_then_is_the_first_day_with_thatch_read() -> None:
    """Roots alone say nothing of the thatch; with no thatch before the latest, the first day."""
    later = date(2025, 6, 1)
    bare = plug(THEN, root_depth_in=3.0)
    read = plug_days(book(bare, plug(later, 0.8), plug(NOW, 0.5)), "s1", NOW)
    assert usual_then(read) == later
    assert usual_then(plug_days(book(bare, plug(NOW, 0.5)), "s1", NOW)) == THEN


def test_roots_seasons_and_what_was_done_between() -> None:
    autumn = date(2025, 9, 20)
    care = [
        Care(id=name, date=on, kind="aeration")
        for name, on in (("before", date(2023, 1, 1)), ("in", MIDDLE), ("after", NOW))
    ]
    notebook = book(
        plug(THEN, 1.0, root_depth_in=3.0), plug(autumn, 0.8, root_depth_in=4.5), care=care
    )
    shown = then_and_now(notebook, "s1", THEN, autumn)
    assert shown.root_change_in == 1.5
    assert "Roots: +1.50 in, to 4.50 in." in shown.words
    unmoved = book(plug(THEN, 1.0, root_depth_in=3.0), plug(autumn, 0.8, root_depth_in=3.0))
    assert "Roots: as then, to 3.00 in." in then_and_now(unmoved, "s1", THEN, autumn).words
    assert any("different seasons" in words for words in shown.words)
    assert [mark.care_id for mark in shown.done_between] == ["in"]
    assert shown.zone == "Front"


@pytest.mark.parametrize(
    ("spot_id", "then", "now", "words"),
    [
        ("gone", THEN, NOW, "not in this notebook"),
        ("s1", MIDDLE, NOW, "gate has no plug of 6 May 2025"),
        ("s1", THEN, MIDDLE, "gate has no plug of 6 May 2025"),
        ("s1", NOW, NOW, "two different days"),
        ("s1", NOW, THEN, "gate has no plug of 5 May 2026"),
    ],
)
def test_what_cannot_be_compared_is_explained(
    spot_id: str, then: date, now: date, words: str
) -> None:
    with pytest.raises(OwnerError, match=words):
        then_and_now(book(plug(THEN, 1.0), plug(NOW, 0.5)), spot_id, then, now)


@settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.data())
def test_any_two_days_of_any_notebook_come_out(notebook: Notebook, data: st.DataObject) -> None:
    for spot_id in notebook.spots:
        days = [each.date for each in plug_days(notebook, spot_id, date(2027, 1, 1))]
        if len(days) < 2:
            continue
        then, now = sorted(data.draw(st.sets(st.sampled_from(days), min_size=2, max_size=2)))
        shown = then_and_now(notebook, spot_id, then, now)
        assert shown.words
        for working in shown.workings:
            assert_comes_out(working)
