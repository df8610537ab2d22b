"""What an edit looks at: what it touches, never a whole table of waterings, weather or plugs."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check, check_notebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core, Feeding, Product, Spot, Tick, Watering
from lawnbook.yard.references import loose_references
from lawnbook.yard.table import Table
from tests.small_book import small_notebook

TODAY = date(2026, 7, 15)
MANY = 500
FEW = 60
SPOTS = 50


@pytest.fixture(scope="module")
def many() -> Notebook:
    """A notebook of many plugs, feedings and waterings, whose groups were asked for once."""
    days = [TODAY - timedelta(days=n) for n in range(MANY)]
    book = small_notebook()
    book = apply(book, put(book, "products", Product(id="slow", name="Slow", n_pct=20.0)))
    spots = [Spot(id=f"s{n}", name=f"Spot {n}", zone="front") for n in range(SPOTS)]
    for table, rows in (
        ("spots", spots),
        ("waterings", [Watering(id=f"w{n}", date=d, zone="front") for n, d in enumerate(days)]),
        (
            "cores",
            [
                Core(id=f"c{n}", date=d, spot=f"s{n % SPOTS}", thatch_in=(0.5,))
                for n, d in enumerate(days)
            ],
        ),
        (
            "feedings",
            [
                Feeding(id=f"f{n}", date=d, product="slow", pounds={"front": 2.0})
                for n, d in enumerate(days)
            ],
        ),
    ):
        book = apply(book, put(book, table, *rows))
    return book


def _renamed(book: Notebook) -> Change:
    return put(book, "spots", replace(book.spots["s1"], name="By the gate"))


def _watered(book: Notebook) -> Change:
    return put(book, "waterings", Watering(id="new", date=TODAY, zone="front", minutes=20.0))


def _plugged(book: Notebook) -> Change:
    return put(book, "cores", Core(id="new", date=TODAY, spot="s1", thatch_in=(0.75,)))


def _unwatered(book: Notebook) -> Change:
    return remove(book, "waterings", "w3")


@pytest.fixture
def gone_through(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many rows each table had that somebody asked for all rows of."""
    found: list[int] = []

    def noting(way: Callable[..., object]) -> Callable[..., object]:
        def asked(table: Table[Spot]) -> object:
            found.append(len(table))
            return way(table)

        return asked

    for name in ("values", "items", "keys", "__iter__"):
        monkeypatch.setattr(Table, name, noting(getattr(Table, name)))
    return found


@pytest.mark.parametrize("made", [_renamed, _watered, _plugged, _unwatered])
def test_an_edit_goes_through_no_large_table(
    many: Notebook,
    tmp_path: Path,
    made: Callable[[Notebook], Change],
    gone_through: list[int],
) -> None:
    book = OpenNotebook.create(tmp_path / "a.lawnbook", many, TODAY)
    gone_through.clear()
    book.edit(made(book.notebook), "edit")
    assert max(gone_through, default=0) < FEW + SPOTS
    book.close()


def test_twins_are_found_on_their_day_and_place_alone(many: Notebook) -> None:
    core, feeding = many.cores["c1"], many.feedings["f1"]
    for record in (core, feeding):
        twin = replace(record, id="twin")
        (problem,) = check(twin, many, TODAY)
        assert "is already entered" in problem.sentence
        assert not check(record, many, TODAY)
    for other in (
        replace(core, id="twin", spot="s2"),
        replace(core, id="twin", thatch_in=(0.25,)),
        replace(feeding, id="twin", date=TODAY - timedelta(days=MANY)),
        replace(feeding, id="twin", pounds={"front": 1.0}),
    ):
        assert not check(other, many, TODAY)


def test_of_twins_in_a_whole_notebook_the_later_is_told(many: Notebook) -> None:
    twins = (replace(many.cores["c1"], id="twin"), replace(many.cores["c1"], id="third"))
    book = apply(many, put(many, "cores", *twins))
    told = [problem.record_id for problem in check_notebook(book, TODAY)]
    assert [each for each in told if each in {"c1", "twin", "third"}] == ["twin", "third"]


def test_what_still_leads_to_the_removed_is_found_in_every_kind_of_field(many: Notebook) -> None:
    tick = Tick(id="t", date=TODAY, checklist="spring start-up", step="valves", zone="front")
    book = apply(many, put(many, "ticks", tick))
    assert loose_references(book, []) == []
    assert loose_references(book, [("zones", "elsewhere"), ("waterings", "w1")]) == []
    assert loose_references(book, [("zones", "front")]) == [
        ("spots", "zone"),
        ("feedings", "pounds"),
        ("waterings", "zone"),
        ("ticks", "zone"),
    ]


def test_a_removal_that_leaves_references_is_refused_for_each_table(
    many: Notebook, tmp_path: Path
) -> None:
    book = OpenNotebook.create(tmp_path / "a.lawnbook", many, TODAY)
    with pytest.raises(OwnerError) as caught:
        book.edit({("zones", "front"): (many.zones["front"], None)}, "remove")
    assert str(caught.value) == " ".join(
        f"{told} still refers to what would be removed; remove that first."
        for told in ("spots.zone", "feedings.pounds", "waterings.zone")
    )
    book.close()
