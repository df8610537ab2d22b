"""The commands for outlines: the sketch as GeoJSON or SVG, and outlines of a map taken in."""

import argparse
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from lawnbook.command_parts import (
    Command,
    add_notebook,
    add_output,
    read_notebook,
    refuse_missing_notebook,
)
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.files import (
    NOTEBOOK_SUFFIX,
    refuse_missing_folder,
    refuse_other_file,
    refuse_same_file,
    refuse_wrong_suffix,
)
from lawnbook.store.outlines_laid import LaidOutlines, lay_out
from lawnbook.store.outlines_lost import lost_of
from lawnbook.store.outlines_reading import read_outlines
from lawnbook.store.outlines_svg import SVG, write_svg
from lawnbook.store.outlines_taken import Becomes, taken_in, told_of, usual
from lawnbook.store.outlines_written import GEOJSON, write_geojson
from lawnbook.terminal import say, tell
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.shape_records import called


def _outlines_arguments(parser: argparse.ArgumentParser) -> None:
    add_notebook(parser)
    add_output(parser, "FILE")


def _take_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=tr("a GeoJSON or KML file"))
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        required=True,
        metavar="NOTEBOOK",
        help=tr("the notebook (.lawnbook) that they are added to"),
    )
    parser.add_argument(
        "--dry-run", action="store_true", help=tr("list what would be taken in, and change nothing")
    )


def _outlines(options: argparse.Namespace, today: date) -> int:
    target: Path = options.output
    ending = target.suffix.lower()
    is_svg = ending == SVG
    if ending not in (SVG, GEOJSON):
        mend = tr(
            "{name}: a map’s name ends in .geojson, a drawing’s in .svg; name it so.",
            name=target.name,
        )
        raise OwnerError(mend)
    refuse_missing_folder(target)
    refuse_same_file(options.notebook, target)
    start = b"<?xml" if is_svg else b"{"
    refuse_other_file(target, start, tr("a drawing") if is_svg else tr("a file of outlines"))
    notebook = read_notebook(options.notebook, today)
    try:
        told = (write_svg if is_svg else write_geojson)(notebook, target)
    except OwnerError as error:
        raise OwnerError(_with_name(options.notebook, str(error), target)) from error
    say(tr("The outlines are in {target}", target=target))
    if told:
        tell(tr("note: {told}", told=told))
    return 0


def _with_name(notebook: Path, sentence: str, target: Path) -> str:
    """A sentence with the file that it is about in front."""
    named = sentence.startswith((f"{target.name}:", f"{notebook.name}:"))
    return sentence if named else f"{notebook.name}: {sentence}"


def _take(options: argparse.Namespace, today: date) -> int:
    path: Path = options.output
    refuse_wrong_suffix(path, NOTEBOOK_SUFFIX, tr("A notebook"))
    refuse_missing_notebook(path)
    read = read_outlines(options.file)
    notebook = read_notebook(path, today)
    try:
        laid = lay_out(read, notebook)
    except OwnerError as error:
        raise OwnerError(f"{options.file.name}: {error}") from error
    becomes = [usual(shape, notebook) for shape in laid.shapes]
    notes = [tr("note: {each}", each=each) for each in laid.told]
    if options.dry_run:
        _tell(notes)
        _list(laid, becomes, notebook)
        return 0
    change = taken_in(notebook, laid, becomes)
    book = OpenNotebook.open(path, today)
    try:
        book.edit(change, tr("take in outlines"))
        if book.trouble:
            raise OwnerError(book.trouble)
    finally:
        book.close()
    say(told_of(change) or tr("Nothing was taken in."))
    lost = lost_of(notebook, laid, becomes, change)
    _tell([*notes, *([tr("note: {lost}", lost=lost)] if lost else [])])
    return 0


def _tell(notes: Iterable[str]) -> None:
    """Tell notes; only once it is sure that nothing is refused, which is one line alone."""
    for each in notes:
        tell(each)


def _list(laid: LaidOutlines, becomes: list[Becomes], notebook: Notebook) -> None:
    for number, (shape, each) in enumerate(zip(laid.shapes, becomes, strict=True), 1):
        area = tr(
            "{area_sqft}, {corners} corners",
            area_sqft=told(shape.ground.area_sqft, 0, "sq ft"),
            corners=shape.corners,
        )
        say(f"{number}. {shape.name or tr('unnamed')}: {area}: {_in_words(each, notebook)}")


def _in_words(becomes: Becomes, notebook: Notebook) -> str:
    words = {
        "zone": tr("a new zone"),
        "feature": tr("a new {kind}", kind=tr(becomes.of)),
        "leave": tr("left out, for it is locked"),
    }
    if becomes.what in words:
        return words[becomes.what]
    record = notebook.find("zones" if becomes.what == "outline" else "features", becomes.of)
    return tr(
        "the new outline of {part}", part=called(record) if record is not None else tr("none")
    )


COMMANDS: Mapping[str, Command] = MappingProxyType(
    {
        "outlines": Command(
            tr("The sketch as GeoJSON, or true to scale as SVG."), _outlines_arguments, _outlines
        ),
        "take-outlines": Command(
            tr("Take the outlines of a GeoJSON or KML file into a notebook."),
            _take_arguments,
            _take,
        ),
    }
)
"""The commands for outlines, by their names."""
