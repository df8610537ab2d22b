"""A feature without a name is called by its kind where an outline cannot be its own."""

from dataclasses import replace

import pytest

from lawnbook.store.outlines_laid import LaidOutlines, LaidShape
from lawnbook.store.outlines_taken import Becomes, taken_in
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.ground import Ground
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature

BED = Feature(id="bed", kind="bed", outline_ft=rectangle_ft((0.0, 0.0), 5.0, 5.0))


def _yard(bed: Feature) -> Notebook:
    empty = new_notebook("Home")
    return apply(empty, put(empty, "features", bed))


def _take(notebook: Notebook, count: int) -> None:
    shape = LaidShape("", Ground(rectangle_ft((20.0, 0.0), 8.0, 8.0)))
    laid = LaidOutlines((shape,) * count, (), notebook.yard)
    taken_in(notebook, laid, [Becomes("shape", "bed")] * count)


@pytest.mark.parametrize(
    ("bed", "count", "words"),
    [
        (BED, 2, "be the outline of the bed; choose one"),
        (replace(BED, locked=True), 1, "The bed is locked; unlock it first"),
    ],
)
def test_it_is_called_by_its_kind(bed: Feature, count: int, words: str) -> None:
    with pytest.raises(OwnerError, match=words):
        _take(_yard(bed), count)
