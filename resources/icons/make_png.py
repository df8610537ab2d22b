"""Make the program's icon as PNG in all sizes from its SVG, beside it.

.venv/bin/python resources/icons/make_png.py
"""

import os
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QSize
from PySide6.QtGui import QGuiApplication, QImageReader

from lawnbook.desk.icons import WINDOW_SIZES_PX


def main() -> None:
    """Write them."""
    app = QGuiApplication.instance() or QGuiApplication([])
    here = Path(__file__).parent
    for size in WINDOW_SIZES_PX:
        reader = QImageReader(str(here / "lawnbook.svg"))
        reader.setScaledSize(QSize(size, size))
        if not reader.read().save(str(here / f"lawnbook-{size}.png")):
            raise OSError(f"The icon of {size} px could not be written.")
    del app


if __name__ == "__main__":
    main()
