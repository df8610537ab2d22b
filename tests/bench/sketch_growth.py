"""How the sketch's cost grows with the zones: a step of a drag, and all labels placed.

    python -m tests.bench.sketch_growth ZONES

Prints two numbers for a yard of so many zones: the processor's seconds of one step of dragging a
corner, and of placing all labels anew. The view shows the same 200 zones of all yards that have
them, so that what grows is what lies around.
"""

import statistics
import sys
import time
from collections.abc import Callable
from functools import partial

from PySide6.QtGui import QTransform
from PySide6.QtWidgets import QApplication

from lawnbook.yard.geometry import yard_bounds_ft
from tests.bench.sketch_feel import WARM, settle, stage, wide_yard

STEPS = 44
HAIRS = (1.0001, 0.9999, 1.0002, 0.9998, 1.0001)


def measured(count: int) -> tuple[float, float]:
    """Seconds of a step and of a placing of labels among so many zones."""
    with stage(count) as (drawn, _):
        view = drawn.panel.view
        view.fit(yard_bounds_ft(wide_yard()))
        settle()
        scene = drawn.panel.scene
        at_rest = view.transform()
        # Another zoom, by a hair: at the same one labels stay where they stand.
        zooms = [at_rest * QTransform.fromScale(each, each) for each in HAIRS]
        labels = [_reckoned(partial(scene.show_zoom, zoom)) for zoom in zooms]
        settle()
        drawn.begin_drag()
        steps = [_reckoned(partial(drawn.drag, step)) for step in range(STEPS)][WARM:]
        drawn.end_drag()
    return statistics.median(steps), statistics.median(labels)


def _reckoned(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    QApplication.processEvents()
    return time.process_time() - start


def main() -> None:
    """Print them."""
    step, labels = measured(int(sys.argv[1]))
    sys.stdout.write(f"{step:.6f} {labels:.6f}\n")


if __name__ == "__main__":
    main()
