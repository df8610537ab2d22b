"""What the sketch does while it is used: a head dragged with the rates shown, a day of the film."""

from tests.bench.measure import Bench, Row, told_by_child

SKETCH_PARTS = """
import statistics, sys, time
from dataclasses import replace
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter, QTransform
from PySide6.QtWidgets import QApplication
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.theme import apply_theme
from lawnbook.yard.geometry import rectangle_ft, yard_bounds_ft
from lawnbook.yard.records import Zone
app = QApplication([])
apply_theme(app, "light")
picture = QImage(1600, 1000, QImage.Format.Format_RGB32)
def fitted(notebook):
    west, south, east, north = yard_bounds_ft(notebook)
    px_per_ft = min(1600 / (east - west), 1000 / (north - south))
    made = SketchScene(notebook)
    made.show_zoom(QTransform.fromScale(px_per_ft, px_per_ft))
    return made, QRectF(west, -north, 1600 / px_per_ft, 1000 / px_per_ft)
def repaint(number):
    painter = QPainter(picture)
    scene.render(painter, QRectF(picture.rect()), seen)
    painter.end()
def median(work):
    times = []
    for number in range(21):
        start = time.perf_counter()
        work(number)
        times.append(time.perf_counter() - start)
    return statistics.median(times)
"""
RATE_SKETCH = f"""
{SKETCH_PARTS}
from tests.bench.big_yard import big_yard
notebook = big_yard()
scene, seen = fitted(notebook)
scene.colour_by("Sprinkler rate")
head = notebook.heads["h5"]
def step(number):
    moved = replace(head, at_ft=(head.at_ft[0] + number * 0.3, head.at_ft[1]))
    scene.show_draft({{("heads", "h5"): moved}})
print(median(step), median(repaint))
"""
FILM_SKETCH = f"""
{SKETCH_PARTS}
from datetime import date, timedelta
from lawnbook.plan.day_figures import day_figures
from tests.bench.big_yard import TODAY, big_yard
notebook = big_yard()
scene, seen = fitted(notebook)
scene.colour_by("Soil water")
days = day_figures(notebook, date(TODAY.year - 1, 1, 1), TODAY)
def step(number):
    scene.show_figures(days.figures(days.starts + timedelta(days=6 * number)), passing=True)
print(median(step), median(repaint))
"""


def rows(bench: Bench) -> list[Row]:
    """Each step beside painting all of the sketch once, in a process of its own."""
    del bench
    head, head_floor = _steps(RATE_SKETCH)
    frame, frame_floor = _steps(FILM_SKETCH)
    return [
        Row("drag a head, rates shown", "painting all 40 heads", head, head_floor, 1.0),
        Row("a day of the film, 40 zones", "painting all of them", frame, frame_floor, 1.0),
    ]


def _steps(sketch: str) -> tuple[float, float]:
    step, whole = told_by_child(sketch).split()
    return float(step), float(whole)
