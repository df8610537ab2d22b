"""What was asked about a shape comes to nothing where the shape is gone before the answer."""

import pytest

from lawnbook.desk.sketch.control import LineDone, SketchControl
from lawnbook.desk.sketch.operations import run_by_name
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.session.open_notebook import OpenNotebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.mark.parametrize("operation", ["split", "mirror_line"])
def test_a_line_for_a_shape_that_is_gone_changes_nothing(
    book: OpenNotebook, operation: str
) -> None:
    control = SketchControl(book, SketchScene(book.notebook))
    asked: list[LineDone] = []
    told: list[str] = []
    control.line_asked.connect(lambda _words, done, _snaps: asked.append(done))
    control.said.connect(lambda words, _tone: told.append(words))
    zone = next(iter(book.notebook.zones.values()))
    control.choose_all([("zones", zone.id)])
    run_by_name(control, operation)
    control.remove_chosen()
    after = book.notebook
    asked[0]((0.0, 0.0), (10.0, 10.0))
    assert book.notebook is after
    assert "is gone" in told[-1]
