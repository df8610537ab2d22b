"""What painting costs: the sketch under a moving hand, the sheet as PDF, a hundred plugs redrawn.

`python -m tests.bench.paints [REPEATS]` prints the rows of this part.

The floor of the PDF is a QPdfWriter on which the same calls are made, with the same fonts, words,
lines and shapes, without reckoning where they go. That of the plugs is a bare matplotlib figure
that is cleared and given artists of the same kinds, numbers and shapes, and drawn on its canvas.
"""

import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date
from functools import partial
from operator import methodcaller
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QImage, QPainter, QPdfWriter

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.sheet.page import draw_page
from lawnbook.sheet.pdf import FINE, page_layout, sheet_bytes
from lawnbook.store.sqlite_store import load
from lawnbook.yard.notebook import Notebook
from tests.bench.measure import Bench, Row, in_turn, median, seconds_of, told_by_child

TODAY = date(2026, 11, 25)
FEEL = "from tests.bench.sketch_feel import main; main()"
GROWING = "from tests.bench.sketch_growth import main; main()"
PAINTING = (
    *("save", "restore", "translate", "scale", "setFont", "setPen", "setBrush", "setOpacity"),
    *("setClipRect", "setRenderHint", "drawText", "drawPath", "drawLine", "drawEllipse"),
    *("drawRect", "drawImage", "drawPixmap", "fillRect", "strokePath"),
)
"""What pages are painted with."""

PLUGS, FRAME_PX, DPI = 100, (1100, 420), 100.0
DEEPEST_IN = 26.75
GROWN_ZONES, GROWN_PLUGS = (20, 200, 2000), (10, 100, 1000)

Call = tuple[str, tuple[object, ...]]


class NotingPainter(QPainter):
    """A painter that writes down what it is asked to paint."""

    def __init__(self, device: QImage) -> None:
        super().__init__(device)
        self.calls: list[Call] = []


def _noting(name: str) -> Callable[..., object]:
    plain = getattr(QPainter, name)

    def noted(painter: NotingPainter, *given: object) -> object:
        painter.calls.append((name, given))
        return plain(painter, *given)

    return noted


for _name in PAINTING:
    setattr(NotingPainter, _name, _noting(_name))


def page_calls(notebook: Notebook, plan: Plan) -> list[Call]:
    """What the sheet's page asks of its painter."""
    paper = QImage(612, 792, QImage.Format.Format_RGB32)
    painter = NotingPainter(paper)
    draw_page(painter, notebook, plan, "letter")
    painter.end()
    return painter.calls


def bare_pdf(calls: list[Call]) -> bytes:
    """A PDF of these calls, without any layout."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(FINE)
    writer.setPageLayout(page_layout("letter"))
    painter = QPainter(writer)
    painter.scale(FINE / 72, FINE / 72)
    for name, given in calls:
        getattr(painter, name)(*given)
    painter.end()
    return bytes(buffer.data().data())


def plugs_redrawn(count: int = PLUGS) -> tuple[Callable[[], object], Callable[[], object]]:
    """The profile columns of so many plugs redrawn, and its floor: each draws on a canvas."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    from lawnbook.charts.figures import profile_drawing, profile_figure
    from lawnbook.charts.paint import frame_of, paint
    from lawnbook.charts.palette import LIGHT
    from tests.plan_fixture import plugs, spot_of

    size = (FRAME_PX[0] / DPI, FRAME_PX[1] / DPI)
    # As deep as at the hundredth plug at the most: a thousand, each deeper, would reach 21 ft.
    held = [min(each.root_depth_in or 0.0, DEEPEST_IN) for each in plugs(count)]
    columns = zip(plugs(count), held, strict=True)
    spot = spot_of([replace(each, root_depth_in=depth_in) for each, depth_in in columns])
    figure, bare = Figure(figsize=size, dpi=DPI), Figure(figsize=size, dpi=DPI)
    canvas, bare_canvas = FigureCanvasAgg(figure), FigureCanvasAgg(bare)
    # matplotlib's canvas carries no types here, so its method comes by name.
    drawn = methodcaller("draw")
    picture = profile_drawing(spot)(frame_of(figure))

    def redraw() -> None:
        profile_figure(spot, LIGHT, figure)
        drawn(canvas)

    def floor() -> None:
        paint(bare, picture, LIGHT)
        drawn(bare_canvas)

    return redraw, floor


def rows(bench: Bench) -> list[Row]:
    """The sketch in a process of its own, then the PDF of the sample, then the plugs."""
    pan, bare_pan, zoom, bare_zoom, drag, whole = map(float, told_by_child(FEEL).split())
    notebook = load(bench.sample)
    plan = make_plan(notebook, TODAY)
    sheet_bytes(notebook, plan)
    calls = page_calls(notebook, plan)
    pdf, bare = in_turn(
        lambda: seconds_of(lambda: sheet_bytes(notebook, plan)),
        lambda: seconds_of(lambda: bare_pdf(calls)),
        bench.repeats,
    )
    redraw, floor = plugs_redrawn()
    columns, artists = in_turn(lambda: seconds_of(redraw), lambda: seconds_of(floor), bench.repeats)
    return [
        Row("drag a corner, 200 zones", "bare scene, painted whole", drag, whole, 0.1),
        Row("pan of the sketch, 200 zones", "bare scene, as much", pan, bare_pan, 1.5),
        Row("zoom of the sketch, 200 zones", "bare scene, as much", zoom, bare_zoom, 1.5),
        Row("the sheet as PDF", "the same calls on a PDF", pdf, bare, 2.0),
        Row("profile of 100 plugs redrawn", "the same artists, bare", columns, artists, 1.5),
    ]


def growth(bench: Bench) -> Iterator[str]:
    """A line for what grows with the zones, at 20, 200 and 2,000, and one for the plugs."""
    told = [told_by_child(GROWING, str(count)).split() for count in GROWN_ZONES]
    steps, labels = zip(*((float(step), float(labels)) for step, labels in told), strict=True)
    yield f"zones   a step of a drag {_times(steps)}    all labels placed {_times(labels)}"
    redraws = [plugs_redrawn(count)[0] for count in GROWN_PLUGS]
    columns = [median(partial(seconds_of, redraw), bench.repeats) for redraw in redraws]
    yield f"plugs   their profile redrawn {_times(columns)}"


def _times(seconds: Iterable[float]) -> str:
    return " → ".join(f"{1e3 * each:.2f} ms" for each in seconds)


def main() -> None:
    """Print the rows."""
    from lawnbook.store.sqlite_store import create
    from lawnbook.store.yardfile import load_any
    from lawnbook.yard.places import sample_yards

    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as folder:
        sample = Path(folder) / "sample.lawnbook"
        path = next(each for each in sample_yards() if each.stem == "larkspur_corner")
        create(sample, load_any(path, TODAY))
        bench = Bench(folder=Path(folder), sample=sample, big=sample, repeats=repeats)
        for row in rows(bench):
            sys.stdout.write(
                f"{row.what:32}{row.floor:28}{1e3 * row.measured:9.2f}"
                f"{1e3 * row.floor_measured:9.2f}{row.ratio:8.3f}{row.allowed:6.1f}\n"
            )


if __name__ == "__main__":
    main()
