"""Nothing on the sketch is stale: what drafts and zooms leave is what a fresh scene draws."""

from collections.abc import Callable
from dataclasses import replace
from itertools import islice

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter, QTransform
from PySide6.QtWidgets import QApplication

from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.scene import NO_DRAFT, SketchScene
from lawnbook.desk.theme import apply_theme
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Record
from tests.sketch_hand import sketch_yard

ZOOM = QTransform.fromScale(8.0, 8.0)
Step = Callable[[SketchScene], None]


def picture(scene: SketchScene) -> QImage:
    """What a scene looks like at its zoom.

    Painted twice, and the second taken: Qt fills the first turned letters of a size, in the life of
    a program, by a shade otherwise at some dot than ever after.
    """
    image = QImage(800, 640, QImage.Format.Format_RGB32)
    for _ in range(2):
        image.fill("white")
        painter = QPainter(image)
        scene.render(painter, QRectF(0, 0, 800, 640), QRectF(-15, -60, 100, 80))
        painter.end()
    return image


def fresh(notebook: Notebook, *steps: Step) -> QImage:
    """What a new scene of a notebook looks like after some steps."""
    scene = SketchScene(notebook)
    scene.show_zoom(ZOOM)
    for step in steps:
        step(scene)
    scene.settle_labels()
    drawn = picture(scene)
    scene.deleteLater()
    return drawn


def differing(one: QImage, other: QImage) -> dict[tuple[int, int], tuple[str, str]]:
    """The points where two pictures differ, with both colours; the first hundred."""
    points = ((x, y) for y in range(one.height()) for x in range(one.width()))
    pairs = ((at, one.pixelColor(*at).name(), other.pixelColor(*at).name()) for at in points)
    found = ((at, (here, there)) for at, here, there in pairs if here != there)
    return dict(islice(found, 100))


def alike(one: QImage, other: QImage) -> bool:
    """Whether two pictures are the same; where they are not, the failure tells where."""
    assert one == other or differing(one, other) == {}
    return True


def moved(table: str, record_id: str) -> Record:
    """A record of the yard, elsewhere."""
    notebook = sketch_yard()
    if table == "zones":
        outline = rectangle_ft((3.0, -6.0), 25.0, 22.0)
        return replace(notebook.zones[record_id], outline_ft=outline)
    if table == "features":
        outline = rectangle_ft((10.0, 33.0), 12.0, 9.0)
        return replace(notebook.features[record_id], outline_ft=outline)
    if table == "heads":
        return replace(notebook.heads[record_id], at_ft=(24.0, 4.0), sweep_deg=200.0)
    return replace(notebook.spots[record_id], at_ft=(21.0, 15.0))


KEYS = [("zones", "front"), ("features", "house"), ("heads", "head"), ("spots", "elm")]


@pytest.mark.parametrize("key", KEYS, ids=[table for table, _ in KEYS])
@pytest.mark.parametrize("chosen", [True, False], ids=["chosen", "plain"])
def test_a_draft_that_is_given_up_leaves_nothing(
    qapp: QApplication, key: tuple[str, str], chosen: bool
) -> None:
    apply_theme(qapp, "light")
    notebook, record = sketch_yard(), moved(*key)
    choose: list[Step] = [lambda scene: scene.show_choice(Choice(*key))] if chosen else []
    drafts: list[Step] = [
        lambda scene: scene.show_draft({key: record}),
        lambda scene: scene.show_draft({key: record}, wrong=True),
        lambda scene: scene.show_draft(NO_DRAFT),
        lambda scene: scene.refresh(),
    ]
    before = fresh(notebook, *choose)
    assert fresh(notebook, *choose, *drafts[:1]) != before
    assert alike(fresh(notebook, *choose, *drafts), before)


@pytest.mark.parametrize("key", KEYS, ids=[table for table, _ in KEYS])
def test_a_draft_that_is_kept_looks_as_it_is_kept(qapp: QApplication, key: tuple[str, str]) -> None:
    apply_theme(qapp, "light")
    notebook, record = sketch_yard(), moved(*key)
    after = apply(notebook, put(notebook, key[0], record))
    dragged = fresh(
        notebook,
        lambda scene: scene.show_draft({key: record}),
        lambda scene: scene.show_book(after),
    )
    assert dragged == fresh(after)
    undone = fresh(after, lambda scene: scene.show_book(notebook))
    assert undone == fresh(notebook)


def test_marks_come_and_go(qapp: QApplication) -> None:
    apply_theme(qapp, "light")
    notebook, key = sketch_yard(), ("zones", "back")

    def mark(scene: SketchScene) -> None:
        scene.show_choice(Choice("zones", "front"), [key, ("heads", "head")])

    def draft(scene: SketchScene) -> None:
        scene.show_draft({key: replace(notebook.zones["back"], name="Else")})

    marked = fresh(notebook, mark)
    assert marked != fresh(notebook)
    assert alike(
        fresh(notebook, mark, draft, lambda scene: scene.show_draft(NO_DRAFT), mark), marked
    )
    assert alike(fresh(notebook, mark, lambda scene: scene.show_choice(None)), fresh(notebook))


def test_a_zoom_that_comes_to_rest_looks_as_if_it_had_begun_there(qapp: QApplication) -> None:
    apply_theme(qapp, "light")

    def away(scene: SketchScene) -> None:
        for scale in (5.0, 2.0, 1.0, 3.0, 8.0):
            scene.show_zoom(QTransform.fromScale(scale, scale), passing=True)

    assert alike(fresh(sketch_yard(), away), fresh(sketch_yard()))


def test_another_theme_draws_everything_anew(qapp: QApplication) -> None:
    apply_theme(qapp, "light")
    light = fresh(sketch_yard())

    def darken(scene: SketchScene) -> None:
        apply_theme(qapp, "dark")
        scene.refresh()

    turned = fresh(sketch_yard(), darken)
    assert turned != light
    assert turned == fresh(sketch_yard())
    apply_theme(qapp, "light")
