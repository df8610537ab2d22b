"""Figures for the window: drawn into what is given, drawn again when resized, free of pyplot."""

import gc
import io
import subprocess
import sys
import weakref
from datetime import date

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from lawnbook.charts.figures import nitrogen_figure, profile_figure
from lawnbook.charts.palette import DARK, LIGHT, PALETTES
from tests.plan_fixture import nitrogen_of, plug, plugs, spot_of

SPOT = spot_of(plugs(5))
ZONE = nitrogen_of({5: 0.2}, {5: 0.1}, {5: 0.25, 9: 0.7}, "2026")


def pixels(figure: Figure) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    """The figure as Agg paints it."""
    FigureCanvasAgg(figure)
    store = io.BytesIO()
    figure.savefig(store, format="raw", dpi=100)
    width, height = (round(float(each) * 100) for each in figure.get_size_inches())
    return np.frombuffer(store.getvalue(), dtype=np.uint8).reshape(height, width, 4)


@pytest.mark.parametrize("name", PALETTES)
def test_background_is_the_palettes_paper(name: str) -> None:
    """Corner pixels are paper, in every palette."""
    image = pixels(profile_figure(SPOT, PALETTES[name]))
    paper = PALETTES[name].paper
    assert tuple(image[2, 2, :3]) == tuple(int(paper[i : i + 2], 16) for i in (1, 3, 5))


def test_given_figure_is_drawn_into() -> None:
    """The same figure comes back, with the new picture only."""
    figure = Figure(figsize=(6, 4))
    assert profile_figure(SPOT, LIGHT, figure) is figure
    before = set(figure.artists)
    assert nitrogen_figure(ZONE, LIGHT, figure=figure) is figure
    assert before
    assert not before & set(figure.artists)
    assert "budget" in [text.get_text() for text in figure.findobj(Text)]


def test_soil_thatch_and_roots_are_on_the_picture() -> None:
    """The colours of the plug are there in the pixels, soil more than thatch."""
    image = pixels(profile_figure(SPOT, LIGHT)).reshape(-1, 4)[:, :3]

    def count(colour: str) -> int:
        wanted = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
        return int((np.abs(image.astype(int) - wanted).max(axis=1) < 6).sum())

    assert count(LIGHT.soil) > count(LIGHT.thatch) > 200
    assert count(LIGHT.root) > 200


def test_resizing_lays_out_anew() -> None:
    """A wider figure shows more of many plugs, and text keeps its size."""
    figure = Figure(figsize=(4, 3), dpi=72)
    canvas = FigureCanvasAgg(figure)
    profile_figure(spot_of(plugs(40)), LIGHT, figure)

    def left_out() -> list[str]:
        texts = [text.get_text() for text in figure.findobj(Text)]
        return [text for text in texts if "left out" in text]

    assert left_out()
    figure.set_size_inches(14, 4)
    event = type("Resized", (), {"name": "resize_event", "canvas": canvas})()
    canvas.callbacks.process("resize_event", event)
    assert not left_out()
    assert {text.get_fontsize() for text in figure.findobj(Text)} == {9.0}


def test_redrawing_keeps_one_link_to_the_canvas() -> None:
    """Drawing a hundred times into one figure leaves one resize handler behind."""
    figure = Figure(figsize=(5, 3))
    for _ in range(100):
        nitrogen_figure(ZONE, DARK, figure=figure)
    assert len(figure.canvas.callbacks.callbacks["resize_event"]) == 1


def test_figures_are_let_go() -> None:
    """Nothing holds a figure that nobody uses."""
    figure = profile_figure(SPOT, LIGHT)
    held = weakref.ref(figure)
    del figure
    gc.collect()
    assert held() is None


def test_tiny_canvas_is_left_alone() -> None:
    """A canvas not yet laid out (a few pixels) does not fail."""
    figure = Figure(figsize=(0.2, 0.2))
    assert profile_figure(SPOT, LIGHT, figure).artists == []


def test_wholly_unread_plug_is_drawn() -> None:
    """A plug with nothing but its date makes a picture too."""
    bare = plug(
        1, date(2026, 1, 1), None, root_depth_in=None, worms=None, sponge=None, soil_in_thatch=None
    )
    assert pixels(profile_figure(spot_of([bare]), DARK)).std() > 1


def test_pyplot_and_qt_are_not_loaded() -> None:
    """Neither drawing nor importing pulls in pyplot or Qt."""
    code = (
        "import sys; from tests.test_charts_figures import SPOT, LIGHT, profile_figure;"
        "profile_figure(SPOT, LIGHT);"
        "bad = [m for m in sys.modules if m == 'matplotlib.pyplot' or m.startswith('PySide6')];"
        "sys.exit(str(bad) if bad else 0)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
