"""Labels stay where they are while nothing changes that they hang on, and only then."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from PySide6.QtGui import QTransform

from lawnbook.desk.sketch import label_layer
from lawnbook.desk.sketch.label_places import Taken
from lawnbook.desk.sketch.labels import LabelItem, Line, Placed, Shape, place
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.records import Watering
from tests.conftest import TODAY
from tests.desk_sample import samples


def _watered(notebook: Notebook) -> Change:
    zone = next(iter(notebook.zones))
    return put(notebook, "waterings", Watering(id="w", date=TODAY, zone=zone, minutes=9.0))


def _renamed(notebook: Notebook) -> Change:
    zone = next(iter(notebook.zones.values()))
    return put(notebook, "zones", replace(zone, name="Croquet"))


def _moved(notebook: Notebook) -> Change:
    zone = next(iter(notebook.zones.values()))
    return put(
        notebook, "zones", replace(zone, outline_ft=tuple((x + 3, y) for x, y in zone.outline_ft))
    )


def scene_of(notebook: Notebook) -> SketchScene:
    """A scene with all labels placed, at 8 pixels a foot."""
    scene = SketchScene(notebook)
    scene.show_zoom(QTransform.fromScale(8, 8))
    scene.settle_labels()
    return scene


def told(scene: SketchScene) -> list[tuple[object, ...]]:
    """Every label that is seen: what it says and where it stands."""
    labels = [each for each in scene.items() if isinstance(each, LabelItem) and each.isVisible()]
    return sorted((each.words(), each.pos().x(), each.pos().y(), *each.box) for each in labels)


@pytest.mark.parametrize(
    ("made", "stays"),
    [(_watered, True), (_renamed, False), (_moved, False)],
)
def test_labels_are_sought_anew_only_for_what_the_sketch_shows(
    made: Callable[[Notebook], Change], stays: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    sought: list[object] = []

    def counted(lengths: Sequence[Sequence[Line]], shape: Shape, taken: Taken) -> Placed | None:
        sought.append(shape)
        return place(lengths, shape, taken)

    notebook = next(iter(samples().values()))
    scene = scene_of(notebook)
    before = told(scene)
    assert before
    monkeypatch.setattr(label_layer, "place", counted)
    after = apply(notebook, made(notebook))
    scene.show_book(after)
    assert (not sought) is stays
    assert told(scene) == told(scene_of(after))
    assert (told(scene) == before) is stays
