"""Yards for the tests of edits of shapes: random neighbours with a past, and a hand on changes."""

import math
from datetime import date, timedelta
from pathlib import Path
from types import MappingProxyType

from hypothesis import strategies as st

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Change, Notebook, new_notebook, with_tables
from lawnbook.yard.records import (
    Care,
    CatchTest,
    Feature,
    Feeding,
    Head,
    Product,
    Record,
    SoilTest,
    Spot,
    Watering,
    Zone,
)
from tests.conftest import TODAY

LONG_AGO = date(2026, 1, 5)

COORDINATES = st.tuples(st.floats(-40, 40), st.floats(-40, 40))
"""Places near the middle of the sketch."""


def bumpy(x: float, y: float, radii: tuple[int, ...]) -> Outline:
    """A star-shaped outline round a middle, on the sketch's grid."""
    turn = math.tau / len(radii)
    return tuple(
        (round(x + r * math.cos(i * turn), 2), round(y + r * math.sin(i * turn), 2))
        for i, r in enumerate(radii)
    )


def fed_yard(a: Outline, b: Outline, feedings: list[Feeding]) -> Notebook:
    """Two zones with heads, spots, cans and a past, a house, and a product with 20 % nitrogen."""
    rows: dict[str, list[Record]] = {
        "zones": [
            Zone(id="a", name="Front", outline_ft=a, flow_gpm=8.0, grass="cool"),
            Zone(id="b", name="Back", outline_ft=b, flow_gpm=4.0, grass="warm", rank=1),
        ],
        "features": [Feature(id="f", kind="house", outline_ft=rectangle_ft((5, 5), 10, 10))],
        "heads": [
            Head(id="ha", zone="a", at_ft=(2.0, 2.0), radius_ft=10, start_deg=30, sweep_deg=90),
            Head(id="hb", zone="b", at_ft=(42.0, 2.0), radius_ft=10, sweep_deg=180, rank=1),
        ],
        "catch_tests": [
            CatchTest(
                id=f"c{z}", zone=z, date=LONG_AGO, run_minutes=10, depths_in=(0.1, 0.2), at_ft=at
            )
            for z, at in (("a", ((3.0, 3.0), (9.0, 4.0))), ("b", ((43.0, 3.0), (44.0, 4.0))))
        ],
        "spots": [
            Spot(id="sa", name="Elm", zone="a", at_ft=(3.0, 4.0)),
            Spot(id="sb", name="Oak", zone="b", at_ft=(44.0, 4.0), rank=1),
        ],
        "products": [Product(id="p", name="Feed", n_pct=20.0, slow_n_pct=5.0)],
        "feedings": list(feedings),
        "waterings": [Watering(id=f"w{z}", zone=z, date=LONG_AGO, minutes=20) for z in "ab"],
        "soil_tests": [SoilTest(id=f"t{z}", zone=z, date=LONG_AGO, ph=6.5) for z in "ab"],
        "care": [
            Care(id="k", date=LONG_AGO, kind="coring", zones=("b",)),
            Care(id="m", date=LONG_AGO, kind="mowing", zones=("a", "b"), rank=1),
        ],
    }
    return with_tables(new_notebook("Fed"), rows)


def side_by_side(feedings: list[Feeding] | None = None) -> Notebook:
    """Front of 40 by 20 ft and Back of 30 by 20 ft, which share a side."""
    a, b = rectangle_ft((0.0, 0.0), 40.0, 20.0), rectangle_ft((40.0, 0.0), 30.0, 20.0)
    return fed_yard(a, b, feedings or [])


@st.composite
def past_feedings(draw: st.DrawFn) -> list[Feeding]:
    """Feedings of one zone or both, some of a part of it."""
    found = []
    for i in range(draw(st.integers(0, 5))):
        zones = draw(st.sampled_from((("a",), ("b",), ("a", "b"))))
        pounds = {each: draw(st.floats(0.5, 8)) for each in zones}
        areas = {each: draw(st.floats(100, 900)) for each in zones if draw(st.booleans())}
        on = LONG_AGO + timedelta(days=40 * i + draw(st.integers(0, 20)))
        found.append(
            Feeding(
                id=f"f{i}",
                rank=i,
                date=min(on, TODAY),
                product="p",
                pounds=MappingProxyType(pounds),
                treated_area_sqft=MappingProxyType(areas),
            )
        )
    return found


def radii(least: int = 8, most: int = 30) -> st.SearchStrategy[tuple[int, ...]]:
    """Distances of an outline's corners from its middle, in feet."""
    return st.lists(st.integers(least, most), min_size=4, max_size=9).map(tuple)


def kept(folder: Path, notebook: Notebook, change: Change) -> Notebook:
    """The notebook after an edit that must be accepted; undo must bring the old one back."""
    path = folder / "yard.lawnbook"
    path.unlink(missing_ok=True)
    book = OpenNotebook.create(path, notebook, TODAY)
    try:
        book.edit(change, "edit")
        after = book.notebook
        book.undo()
        assert book.notebook == notebook
        return after
    finally:
        book.close()
