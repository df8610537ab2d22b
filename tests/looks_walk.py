"""A walk through all that can be opened, in one look: `python -m tests.looks_walk FOLDER [...]`.

    python -m tests.looks_walk FOLDER [--percent 200] [--theme dark] [--contrast high]
        [--language es] [--sample larkspur_corner|none] [--size 1280x800] [--only sections,leaves]

Prints what is cut off, and keeps a picture of each in the folder, to be looked at. A program
beside the tests: a language is chosen before anything else is loaded, and it takes minutes.
"""

import argparse
import json
import os
import re
import tempfile
from datetime import date
from pathlib import Path

DAY = date(2026, 6, 15)
PARTS = ("welcome", "sections", "leaves", "over", "quick", "sketch", "menus", "foot")


def asked() -> argparse.Namespace:
    """What was asked for."""
    parser = argparse.ArgumentParser(prog="python -m tests.looks_walk", description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--percent", type=int, default=100)
    parser.add_argument("--theme", default="light")
    parser.add_argument("--contrast", default="normal")
    parser.add_argument("--language", default="en")
    parser.add_argument("--sample", default="larkspur_corner")
    parser.add_argument("--size", default="1280x800")
    parser.add_argument("--only", default=",".join(PARTS))
    parser.add_argument("--plain", action="store_true", help="without workings and pictures")
    return parser.parse_args()


def stand(folder: Path, size: tuple[int, int]) -> None:
    """A screen of the size asked for, without any."""
    screen = {"name": "s", "x": 0, "y": 0, "width": size[0], "height": size[1]}
    path = folder / "screen.json"
    path.write_text(json.dumps({"screens": [{**screen, "logicalDpi": 96, "dpr": 1}]}))
    os.environ["QT_QPA_PLATFORM"] = f"offscreen:configfile={path}"


def walk(wanted: argparse.Namespace, size: tuple[int, int], held: Path) -> None:
    """Open everything, tell what is wrong, keep the pictures."""
    from lawnbook.desk.app import _application
    from lawnbook.desk.looks import Looks
    from lawnbook.desk.settings import Settings
    from lawnbook.desk.theme import apply_looks
    from lawnbook.desk.window import BookWindow
    from lawnbook.session.open_notebook import OpenNotebook
    from lawnbook.yard.notebook import as_of, new_notebook
    from tests import beside_walk as walks
    from tests.desk_sample import samples

    app = _application()
    looks = Looks(theme=wanted.theme, contrast=wanted.contrast, scale_percent=wanted.percent)
    apply_looks(app, looks)
    empty = wanted.sample == "none"
    notebook = new_notebook("Home") if empty else as_of(samples()[wanted.sample], DAY)
    book = OpenNotebook.create(held / "walked.lawnbook", notebook, DAY)
    window = BookWindow(book, Settings(held / "desk.ini"))
    window.resize(*size)
    window.show()
    walks.settle(12)
    told: set[str] = set()
    for part in wanted.only.split(","):
        steps = getattr(walks, part)
        given = {"welcome": (held,), "over": (window, held)}.get(part, (window,))
        for name, shown, found in steps(*given):
            for fault in found:
                if fault not in told:
                    told.add(fault)
                    print(f"{name}: {fault}", flush=True)
            if not wanted.plain:
                stem = re.sub(r"[^\w]+", "_", name)[:70].strip("_")
                shown.grab().save(str(wanted.folder / f"{stem}.png"))
    window.close()


def main() -> None:
    """Walk and tell."""
    wanted = asked()
    wanted.folder.mkdir(parents=True, exist_ok=True)
    width, height = (int(each) for each in wanted.size.split("x"))
    with tempfile.TemporaryDirectory() as held:
        stand(Path(held), (width, height))
        from lawnbook.start import choose_language

        choose_language(Path("/nowhere/desk.ini"), {"LANGUAGE": wanted.language})
        walk(wanted, (width, height), Path(held))


if __name__ == "__main__":
    main()
