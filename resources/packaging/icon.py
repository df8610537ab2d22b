"""The program's icon in the form that Windows and macOS want, made from our own PNGs."""

from pathlib import Path

from PIL import Image

SUFFIXES = {"win32": ".ico", "darwin": ".icns"}
"""The form of each system; a Linux program has its icon beside its menu entry."""
ICO_SIDES_PX = (16, 24, 32, 48, 64, 128, 256)


def made_icon(icons: Path, folder: Path, platform: str) -> str | None:
    """Make a system's icon in a folder, from `lawnbook-*.png`; its path, None where it needs none.

    OSError where the pictures cannot be read or the icon cannot be written.
    """
    suffix = SUFFIXES.get(platform)
    if suffix is None:
        return None
    pictures = [_read(icons / f"lawnbook-{side}.png") for side in ICO_SIDES_PX]
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"lawnbook{suffix}"
    whole, others = pictures[-1], pictures[:-1]
    if suffix == ".ico":
        sizes = [(side, side) for side in ICO_SIDES_PX]
        whole.save(path, sizes=sizes, append_images=others)
    else:
        whole.save(path, append_images=others)
    return str(path)


def _read(path: Path) -> Image.Image:
    with Image.open(path) as picture:
        return picture.copy()
