"""The sketch as it is seen, on paper: the same part of the yard, colours, names and legend.

It is drawn with lines, not with dots, so that it is sharp and its words can be searched. On dark
paper it is drawn in ink on white. What is chosen keeps its edge and loses its handles.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QTransform

from lawnbook.desk import theme
from lawnbook.desk.printing import PageOut
from lawnbook.desk.sketch.items import cosmetic
from lawnbook.desk.sketch.panel import SketchPanel
from lawnbook.desk.telling import either
from lawnbook.reading import tr
from lawnbook.sheet.ink import DETAIL, TITLE, Ink
from lawnbook.sheet.layout import PaperName, live_area
from lawnbook.sheet.paper import on_paper
from lawnbook.yard.amounts import told

TITLE_PT, FOOT_PT = 46.0, 20.0
"""Above the picture, for the yard's name and the day; below it, for the scale."""

POINTS_PER_INCH = 72.0
CM_PER_IN = 2.54
CAUTION = tr("Not a survey. Have buried lines located before you dig.")


def seen_page(panel: SketchPanel, title: str, words: str, start: Path, paper: PaperName) -> PageOut:
    """The page of a sketch: a yard's title, a line of words, and the sketch as large as it fits."""

    def draw(painter: QPainter) -> None:
        with on_paper(painter, paper) as ink:
            _draw(panel, ink, (title, words), paper)

    dots = panel.view.logicalDpiX()
    return PageOut(tr("{title}: sketch", title=title), start, paper, draw, dots)


def _draw(panel: SketchPanel, ink: Ink, words: tuple[str, str], paper: PaperName) -> None:
    area = live_area(paper)
    seen = panel.view.viewport().rect()
    room_pt = area.height - TITLE_PT - FOOT_PT
    pt_per_px = min(area.width / seen.width(), room_pt / seen.height())
    wide_pt, high_pt = seen.width() * pt_per_px, seen.height() * pt_per_px
    box = QRectF(area.left, area.top + TITLE_PT, wide_pt, high_pt)
    ink.text((area.left, area.top + 18), ink.fit(words[0], TITLE, area.width), TITLE)
    ink.text((area.left, area.top + 34), ink.fit(words[1], DETAIL, area.width), DETAIL)
    with _dressed_for_print(panel):
        _paint_seen(panel, ink.painter, box)
    ft_per_in = POINTS_PER_INCH / pt_per_px / panel.view.px_per_ft
    us = tr("1 inch on this page is {length}.", length=told(ft_per_in, 1, "ft"))
    per_cm = told(ft_per_in / CM_PER_IN, 1, "ft")
    scale = f"{either(us, tr('1 cm on this page is {length}.', length=per_cm))} {CAUTION}"
    ink.text((area.left, box.bottom() + 14), ink.fit(scale, DETAIL, area.width), DETAIL)


def _paint_seen(panel: SketchPanel, painter: QPainter, box: QRectF) -> None:
    """Paint the view into a box given in points, as if the box were the screen."""
    seen = panel.view.viewport().rect()
    device = painter.transform().mapRect(box).toRect()
    painter.save()
    painter.setWorldTransform(QTransform())
    # Marks that keep their size in pixels heed the window of a painter, not its scale.
    painter.setWindow(seen)
    painter.setViewport(device)
    painter.setClipRect(seen)
    panel.view.render(painter, QRectF(seen), seen, Qt.AspectRatioMode.IgnoreAspectRatio)
    for furniture in panel.over.printed:
        painter.save()
        painter.translate(furniture.pos())
        furniture.draw(painter)
        painter.restore()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(cosmetic(theme.palette().quiet, 1.0))
    painter.drawRect(seen.adjusted(0, 0, -1, -1))
    painter.restore()


@contextmanager
def _dressed_for_print(panel: SketchPanel) -> Iterator[None]:
    """The sketch in ink on white and without handles; afterwards as it was again."""
    scene, legend = panel.scene, panel.over.legend
    shown = scene.handles_shown
    try:
        with theme.on_print_paper():
            scene.show_handles(shown=False)
            scene.refresh()
            legend.recolour(scene.water.legend())
            yield
    finally:
        scene.show_handles(shown=shown)
        scene.refresh()
        legend.recolour(scene.water.legend())
