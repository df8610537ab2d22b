"""Draw pictures of plugs beside a ruler from a sample yard's own readings, and put them into it.

    .venv/bin/python resources/sample_photos.py [FOLDER]

The pictures are drawn, not photographed, and look so: their thatch ends where the plug's readings
say, their roots reach as deep, and the ruler stands to the same scale, so that the photo ruler
reads back what was entered. Writes them with their marks into `sample_yards/larkspur_corner.json`,
or as pictures into the folder given, to be looked at.
"""

import io
import json
import re
import sys
import zlib
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

from lawnbook.store.yardfile import load_any
from lawnbook.yard.codec import to_plain
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.photos import new_photo
from lawnbook.yard.places import resource, sample_yards
from lawnbook.yard.record_plug import PhotoRuler
from lawnbook.yard.records import Core, Photo

SHOWN = (
    ("letterbox", date(2024, 5, 11)),
    ("letterbox", date(2025, 9, 20)),
    ("letterbox", date(2026, 9, 19)),
    ("signpost", date(2024, 5, 11)),
    ("signpost", date(2026, 9, 19)),
)
"""The first plug and the latest of two spots, and one between."""

WIDTH_PX, HEIGHT_PX, FINE = 900, 1200, 2
MOST_BYTES = 60_000
PLUG_WIDTH_IN, ABOVE_IN, BELOW_IN, RULER_WIDTH_IN = 2.4, 1.15, 0.7, 0.95
SHARES_ACROSS = (0.2, 0.5, 0.8)
"""Where across the plug its three readings were taken."""

Color = tuple[int, int, int]
Field = npt.NDArray[np.float64]
_BOARD: tuple[Color, Color] = ((196, 190, 178), (214, 209, 198))
_SOIL: tuple[Color, Color] = ((58, 42, 31), (112, 85, 62))
_THATCH: tuple[Color, Color] = ((128, 92, 52), (178, 136, 82))
_STRAWS: tuple[Color, ...] = ((214, 178, 118), (190, 148, 88), (150, 108, 60), (104, 72, 40))
_BLADES: tuple[Color, ...] = ((74, 122, 52), (96, 146, 62), (58, 102, 46), (124, 164, 82))
_ROOTS: tuple[Color, ...] = ((222, 206, 176), (206, 186, 152), (184, 162, 128))


@dataclass(frozen=True)
class Scene:
    """One plug and how its picture is laid out, in fine pixels; the crowns lie level."""

    core: Core

    @cached_property
    def rng(self) -> np.random.Generator:
        """Chance that is the same for a plug each time."""
        return np.random.default_rng(zlib.crc32(f"{self.core.date} {self.core.thatch_in}".encode()))

    @property
    def size(self) -> tuple[int, int]:
        """Width and height."""
        return WIDTH_PX * FINE, HEIGHT_PX * FINE

    @property
    def roots_in(self) -> float:
        """How deep the roots reach."""
        return self.core.root_depth_in or 0.0

    @property
    def length_in(self) -> float:
        """From the crowns to the cut end: the blade went a little deeper than the roots."""
        return max(self.roots_in + 0.8, max(self.core.thatch_in) + 2.5)

    @property
    def per_in(self) -> float:
        """Pixels to the inch: the camera was held as near as the plug allowed."""
        return self.size[1] / (ABOVE_IN + self.length_in + BELOW_IN)

    @property
    def left(self) -> float:
        """The plug's left side; plug, gap and ruler stand in the middle together."""
        whole = (PLUG_WIDTH_IN + 0.35 + RULER_WIDTH_IN) * self.per_in
        return (self.size[0] - whole) / 2

    @property
    def right(self) -> float:
        """The plug's right side."""
        return self.left + PLUG_WIDTH_IN * self.per_in

    @property
    def ruler_left(self) -> float:
        """The edge of the ruler that faces the plug."""
        return self.right + 0.35 * self.per_in

    def y(self, depth_in: float) -> float:
        """Where a depth below the crowns lies."""
        return (ABOVE_IN + depth_in) * self.per_in

    def across(self, share: float) -> float:
        """Where a share of the plug's width lies."""
        return self.left + share * (self.right - self.left)

    def thatch_end_in(self, x: float) -> float:
        """How deep the thatch goes at a place across: through each reading, level outside them."""
        share = (x - self.left) / (self.right - self.left)
        return float(np.interp(share, SHARES_ACROSS, self.core.thatch_in))


def noise(scene: Scene, across: int, down: int) -> Field:
    """Soft noise from 0 to 1 over the picture, of so many cells across and down."""
    cells = scene.rng.integers(0, 256, (down, across), dtype=np.uint8)
    grown = Image.fromarray(cells).resize(scene.size, Image.Resampling.BICUBIC)
    return np.asarray(grown, np.float64) / 255


def between(colors: tuple[Color, Color], share: Field) -> Image.Image:
    """A picture between two colours, by a share from 0 to 1 at each pixel."""
    low, high = (np.array(each, np.float64) for each in colors)
    mixed = low + np.clip(share, 0, 1)[..., None] * (high - low)
    return Image.fromarray(mixed.astype(np.uint8))


def board(scene: Scene) -> Image.Image:
    """What plug and ruler lie on: a plain wooden board."""
    grain = 0.65 * noise(scene, 90, 5) + 0.35 * noise(scene, 14, 3)
    return between(_BOARD, grain)


def side(scene: Scene, x: float, depths_in: Field) -> list[tuple[float, float]]:
    """A cut side of the plug from the crowns downward: nearly straight, and rough."""
    swings = np.cumsum(scene.rng.normal(0, 0.011, len(depths_in)))
    swings -= np.linspace(0, swings[-1], len(swings))
    return [
        (x + swing * scene.per_in, scene.y(depth))
        for swing, depth in zip(swings, depths_in, strict=True)
    ]


def plug_mask(scene: Scene) -> Image.Image:
    """Where the plug is: its crowns level, its sides rough, its cut end broken off."""
    depths = np.linspace(0, scene.length_in, 90)
    down = side(scene, scene.right, depths)
    up = side(scene, scene.left, depths)[::-1]
    xs = np.linspace(scene.right, scene.left, 40)[1:-1]
    ends = scene.length_in + scene.rng.normal(0, 0.035, len(xs))
    end = [(float(x), scene.y(float(depth))) for x, depth in zip(xs, ends, strict=True)]
    mask = Image.new("L", scene.size, 0)
    ImageDraw.Draw(mask).polygon([*down, *end, *up], fill=255)
    return mask.filter(ImageFilter.GaussianBlur(FINE))


def soil(scene: Scene) -> Image.Image:
    """Clods, crumbs and a few stones."""
    clods = (
        0.4 * noise(scene, 26, 36) + 0.35 * noise(scene, 80, 110) + 0.25 * noise(scene, 220, 300)
    )
    ground = between(_SOIL, 1.5 * clods - 0.25)
    draw = ImageDraw.Draw(ground)
    for _ in range(round(5 * scene.length_in)):
        x, y = scene.across(scene.rng.uniform()), scene.y(scene.rng.uniform(1, scene.length_in))
        wide, high = scene.rng.uniform(0.02, 0.075, 2) * scene.per_in
        tint = int(scene.rng.integers(120, 165))
        box = (x - wide, y - high, x + wide, y + high)
        draw.ellipse(box, fill=(tint, tint - 10, tint - 24), outline=(70, 56, 44), width=FINE)
    return ground


def thatch_mask(scene: Scene) -> Image.Image:
    """Where the thatch is: from the crowns to where each reading says, with a frayed edge."""
    xs = np.linspace(scene.left - scene.per_in, scene.right + scene.per_in, 160)
    frayed = scene.rng.normal(0, 0.008, len(xs))
    lower = [
        (float(x), scene.y(scene.thatch_end_in(float(x)) + float(off)))
        for x, off in zip(xs, frayed, strict=True)
    ]
    mask = Image.new("L", scene.size, 0)
    upper = [(lower[-1][0], scene.y(-0.05)), (lower[0][0], scene.y(-0.05))]
    ImageDraw.Draw(mask).polygon([*lower, *upper], fill=255)
    return mask.filter(ImageFilter.GaussianBlur(FINE))


def thatch(scene: Scene) -> Image.Image:
    """Straws and stems lying over each other, with the soil that has come into them."""
    felt = between(_THATCH, 0.5 * noise(scene, 60, 160) + 0.5 * noise(scene, 18, 90))
    draw = ImageDraw.Draw(felt)
    deepest = max(scene.core.thatch_in)
    for _ in range(round(900 * deepest)):
        x, y = scene.across(scene.rng.uniform(-0.05, 1.05)), scene.y(scene.rng.uniform(0, deepest))
        length = scene.rng.uniform(0.1, 0.42) * scene.per_in
        rise, bow = scene.rng.normal(0, 0.16, 2) * length
        path = [(x, y), (x + length / 2, y + bow), (x + length, y + rise)]
        color = _STRAWS[int(scene.rng.integers(len(_STRAWS)))]
        draw.line(path, fill=color, width=int(scene.rng.integers(2, 5)), joint="curve")
    crumbs = round(120 * (scene.core.soil_in_thatch or 0) * deepest)
    for _ in range(crumbs):
        # Soil from below and from topdressing settles low in the thatch.
        share = 1 - abs(scene.rng.normal(0.12, 0.36))
        x, y = scene.across(scene.rng.uniform()), scene.y(deepest * max(share, 0.05))
        r = scene.rng.uniform(0.008, 0.028) * scene.per_in
        tint = int(scene.rng.integers(0, 34))
        draw.ellipse((x - r, y - r, x + r, y + r), fill=(66 + tint, 48 + tint, 36 + tint))
    return felt


def roots(scene: Scene, onto: Image.Image) -> None:
    """Pale roots, many above and fewer below; most end where the reading says."""
    draw = ImageDraw.Draw(onto)
    ends = scene.roots_in * scene.rng.beta(1.6, 1.5, round(34 + 9 * scene.roots_in))
    for end in [*ends, *([scene.roots_in] * 6)]:
        x = scene.across(scene.rng.uniform(0.04, 0.96))
        start = scene.thatch_end_in(x) * scene.rng.uniform(0.5, 1.0)
        if end <= start + 0.1:
            continue
        depths = np.linspace(start, end, max(6, int((end - start) * 9)))
        drift = np.cumsum(scene.rng.normal(0, 0.022, len(depths))) * scene.per_in
        path = [(x + float(d), scene.y(float(z))) for d, z in zip(drift, depths, strict=True)]
        color = _ROOTS[int(scene.rng.integers(len(_ROOTS)))]
        half = len(path) * 2 // 3
        draw.line(path, fill=color, width=2, joint="curve")
        draw.line(path[:half], fill=color, width=int(scene.rng.integers(2, 5)), joint="curve")


def grass(scene: Scene, onto: Image.Image) -> None:
    """Blades from the crowns up and out of the picture."""
    draw = ImageDraw.Draw(onto)
    for _ in range(210):
        x, lean = scene.across(scene.rng.uniform(0.01, 0.99)), scene.rng.normal(0, 0.22)
        height = scene.rng.uniform(0.5, 1.7) * scene.per_in
        foot = scene.y(scene.rng.uniform(-0.02, 0.05))
        wide = scene.rng.uniform(0.025, 0.05) * scene.per_in
        bend = (x + lean * height * 0.35, foot - height * 0.55)
        tip = (x + lean * height * 1.25, foot - height)
        color = _BLADES[int(scene.rng.integers(len(_BLADES)))]
        draw.polygon(
            [(x - wide / 2, foot), (bend[0] - wide / 2, bend[1]), tip,
             (bend[0] + wide / 2, bend[1]), (x + wide / 2, foot)],
            fill=color,
        )  # fmt: skip
        rib = (max(color[0] - 26, 0), max(color[1] - 30, 0), max(color[2] - 22, 0))
        draw.line([(x, foot), bend, tip], fill=rib, width=2)


def ruler(scene: Scene, onto: Image.Image) -> None:
    """A wooden ruler, its end at the crowns, with a mark at every eighth of an inch."""
    draw = ImageDraw.Draw(onto)
    per_in, left, top = scene.per_in, scene.ruler_left, scene.y(0)
    right, bottom = left + RULER_WIDTH_IN * per_in, scene.size[1] + 40
    draw.rounded_rectangle((left, top, right, bottom), 5, fill=(238, 214, 150))
    draw.line([(left, top), (left, bottom)], fill=(176, 146, 84), width=3)
    draw.line([(right, top), (right, bottom)], fill=(176, 146, 84), width=3)
    draw.line([(left, top), (right, top)], fill=(176, 146, 84), width=3)
    font = ImageFont.truetype(str(font_file()), round(0.27 * per_in))
    for eighth in range(int((scene.size[1] - top) / per_in * 8) + 1):
        y = top + eighth * per_in / 8
        share = (
            0.5
            if eighth % 8 == 0
            else 0.36
            if eighth % 4 == 0
            else 0.26
            if eighth % 2 == 0
            else 0.16
        )
        draw.line([(left, y), (left + share * per_in, y)], fill=(44, 36, 26), width=2 * FINE - 1)
        if eighth and eighth % 8 == 0:
            at = (left + 0.58 * per_in, y)
            draw.text(at, str(eighth // 8), fill=(44, 36, 26), font=font, anchor="lm")


def font_file() -> Path:
    """The program's own font."""
    return resource("fonts") / "Inter-Regular.ttf"


def picture_of(core: Core) -> Image.Image:
    """The whole picture."""
    scene = Scene(core)
    picture = board(scene)
    mask = plug_mask(scene)
    shadow = ImageChops.offset(mask, 16, 18).filter(ImageFilter.GaussianBlur(16))
    strip = Image.new("L", scene.size, 0)
    box = (
        scene.ruler_left + 9,
        scene.y(0) + 10,
        scene.ruler_left + RULER_WIDTH_IN * scene.per_in + 9,
    )
    ImageDraw.Draw(strip).rectangle((*box, scene.size[1]), fill=200)
    shadow = ImageChops.lighter(shadow, strip.filter(ImageFilter.GaussianBlur(8)))
    picture.paste(Image.new("RGB", scene.size, (92, 84, 72)), mask=shadow.point(shaded(0.62)))
    ground = soil(scene)
    ground.paste(thatch(scene), mask=thatch_mask(scene))
    roots(scene, ground)
    edge = ImageChops.subtract(mask, mask.filter(ImageFilter.GaussianBlur(36)))
    ground.paste(Image.new("RGB", scene.size, (30, 22, 16)), mask=edge.point(shaded(0.9)))
    picture.paste(ground, mask=mask)
    grass(scene, picture)
    ruler(scene, picture)
    return picture.resize((WIDTH_PX, HEIGHT_PX), Image.Resampling.LANCZOS)


def shaded(share: float) -> list[float]:
    """A table that makes a mask weaker."""
    return [level * share for level in range(256)]


def marks_of(core: Core) -> PhotoRuler:
    """The marks that read the plug from its picture, as the owner would have set them."""
    scene = Scene(core)
    wide, high = scene.size

    def share(x: float, depth_in: float) -> tuple[float, float]:
        return round(x / wide, 5), round(scene.y(depth_in) / high, 5)

    known_in = float(int(scene.length_in))
    ends = zip(SHARES_ACROSS, core.thatch_in, strict=True)
    return PhotoRuler(
        known_in=known_in,
        scale=(share(scene.ruler_left, 0.0), share(scene.ruler_left, known_in)),
        crowns=(share(scene.left, 0.0), share(scene.right, 0.0)),
        thatch_ends=tuple(share(scene.across(at), depth) for at, depth in ends),
        roots_end=share(scene.across(0.5), scene.roots_in),
    )


def as_jpeg(picture: Image.Image) -> bytes:
    """The picture as a JPEG that keeps below `MOST_BYTES`."""
    for quality in range(85, 20, -3):
        written = io.BytesIO()
        picture.save(written, "JPEG", quality=quality, optimize=True, progressive=True)
        if written.tell() <= MOST_BYTES:
            return written.getvalue()
    raise ValueError("the picture is too restless to be kept small")


def shown_cores(notebook: Notebook) -> list[Core]:
    """The plugs that get a picture, in the order of `SHOWN`."""
    names = {spot.id: spot.name for spot in notebook.spots.values()}
    by_place = {(names[core.spot], core.date): core for core in notebook.cores.values()}
    return [by_place[place] for place in SHOWN]


def photo_of(core: Core, core_id: str) -> Photo:
    """The photograph's record with its picture and its marks."""
    made = new_photo(core_id, as_jpeg(picture_of(core)), (WIDTH_PX, HEIGHT_PX), core.date)
    return Photo(
        id=f"{core_id}-photo",
        core=core_id,
        sha256=made.sha256,
        data_b64=made.data_b64,
        ruler=marks_of(core),
        taken_on=core.date,
        width_px=WIDTH_PX,
        height_px=HEIGHT_PX,
    )


def put_into(path: Path, notebook: Notebook) -> None:
    """Write the photographs into a yard file, and an id to each plug that has one."""
    text = path.read_text(encoding="utf-8")
    lines = []
    for (spot, on), core in zip(SHOWN, shown_cores(notebook), strict=True):
        core_id = f"{spot}-{on.isoformat()}"
        plain = f'{{"spot": "{spot}", "date": "{on.isoformat()}"'
        text = text.replace(f"    {plain}", f'    {{"id": "{core_id}", {plain[1:]}')
        lines.append("    " + json.dumps(to_plain(photo_of(core, core_id))))
    text = re.sub(r'  "photos": \[\n.*?\n  \],\n', "", text, flags=re.DOTALL)
    listed = ",\n".join(lines)
    text = text.replace('  "weather_csv"', f'  "photos": [\n{listed}\n  ],\n  "weather_csv"')
    path.write_text(text, encoding="utf-8", newline="\n")


def main() -> None:
    """Draw the pictures, and put them where they are asked for."""
    path = next(each for each in sample_yards() if each.stem == "larkspur_corner")
    notebook = load_any(path, date.max)
    if len(sys.argv) < 2:
        put_into(path, notebook)
        return
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for (spot, on), core in zip(SHOWN, shown_cores(notebook), strict=True):
        (folder / f"{spot} {on}.jpg").write_bytes(as_jpeg(picture_of(core)))


if __name__ == "__main__":
    main()
