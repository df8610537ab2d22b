"""Pictures to trace on for tests: ground as seen from above, and a scanned plan, true to scale."""

import io
from collections.abc import Callable
from dataclasses import replace

import numpy as np
from PIL import Image, ImageDraw

from lawnbook.yard.backdrops import new_backdrop
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Backdrop

TWELVE_MEGAPIXELS = (4000, 3000)
HOUSE = ((0.40, 0.35), (0.60, 0.65))
"""Two opposite corners of the roof, as shares of the picture."""


def aerial(width: int = 800, height: int = 600) -> Image.Image:
    """Grass with a roof, a drive and trees, and grain as a camera has it; the same every time."""
    rng = np.random.default_rng(6)
    base = rng.normal(0, 14, (height // 4 + 1, width // 4 + 1, 1)).repeat(4, 0).repeat(4, 1)
    pixels = np.array((88, 122, 62)) + base[:height, :width] + rng.normal(0, 7, (height, width, 3))
    image = Image.fromarray(pixels.clip(0, 255).astype(np.uint8))
    draw = ImageDraw.Draw(image)

    def box(a: Point, b: Point, colour: str) -> None:
        draw.rectangle((a[0] * width, a[1] * height, b[0] * width, b[1] * height), colour)

    box(*HOUSE, "#8d7f74")
    box((0.40, 0.35), (0.60, 0.50), "#9c8e83")
    box((0.62, 0.50), (0.72, 1.0), "#b9b6b0")
    for u, v, r in ((0.15, 0.2, 0.06), (0.2, 0.75, 0.08), (0.85, 0.25, 0.07)):
        x, y, size = u * width, v * height, r * width
        draw.ellipse((x - size, y - size, x + size, y + size), "#3d5a33")
    return image


def plan(width: int = 1200, height: int = 900) -> Image.Image:
    """A line plan in black on white, scanned in gray."""
    image = Image.new("L", (width, height), 255)
    draw = ImageDraw.Draw(image)
    draw.rectangle((60, 60, width - 60, height - 60), outline=0, width=4)
    draw.rectangle((0.4 * width, 0.35 * height, 0.6 * width, 0.65 * height), outline=0, width=4)
    return image


def as_jpeg(image: Image.Image) -> bytes:
    """An image as a JPEG's bytes."""
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85)
    return out.getvalue()


def with_backdrop(
    notebook: Notebook,
    image: Image.Image,
    change: Callable[[Backdrop], Backdrop] = lambda made: made,
    backdrop_id: str = "aerial",
) -> Notebook:
    """The notebook with a picture under its sketch, first placed as the program places it."""
    made = new_backdrop(notebook, "Aerial", as_jpeg(image), image.size)
    backdrop = change(replace(made, id=backdrop_id))
    return apply(notebook, put(notebook, "backdrops", backdrop))


def with_twelve_megapixels(notebook: Notebook) -> Notebook:
    """The notebook with a picture of twelve megapixels under all that is drawn, turned a little."""
    return with_backdrop(
        notebook, aerial(*TWELVE_MEGAPIXELS), lambda made: replace(made, turn_deg=7.0)
    )
