"""The few questions that need a window of their own: which file, and what to do in trouble."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Literal, cast

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QPushButton, QWidget

from lawnbook.desk.widgets import name_control
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import NOTEBOOK_SUFFIX, YARD_SUFFIX
from lawnbook.store.handover_names import HANDOVER_SUFFIX, plain_stem

Answer = Literal["stay", "elsewhere", "abandon"]
_ROLES: Mapping[str, QMessageBox.ButtonRole] = {
    "go": QMessageBox.ButtonRole.AcceptRole,
    "lose": QMessageBox.ButtonRole.DestructiveRole,
    "stay": QMessageBox.ButtonRole.RejectRole,
}
NOTEBOOKS = tr("Notebooks (*{notebook_suffix})", notebook_suffix=NOTEBOOK_SUFFIX)
YARD_FILES = tr("Yard files (*{yard_suffix})", yard_suffix=YARD_SUFFIX)


def choose_open(parent: QWidget, folder: Path) -> Path | None:
    """Ask which notebook, yard file or handover to open; None when the owner lets it be."""
    suffixes = " ".join(f"*{each}" for each in (NOTEBOOK_SUFFIX, YARD_SUFFIX, HANDOVER_SUFFIX))
    kinds = tr("Notebooks, yard files and handovers ({suffixes})", suffixes=suffixes)
    name, _ = QFileDialog.getOpenFileName(parent, tr("Open a notebook"), str(folder), kinds)
    return Path(name) if name else None


def choose_elsewhere(parent: QWidget, path: Path) -> Path | None:
    """Ask where else to keep a notebook."""
    start = str(path.with_name(f"{path.stem} 2{NOTEBOOK_SUFFIX}"))
    return _save_name(parent, tr("Keep the notebook elsewhere"), start, NOTEBOOKS, NOTEBOOK_SUFFIX)


def choose_export(parent: QWidget, path: Path) -> Path | None:
    """Ask where to write the yard file."""
    start = str(path.with_suffix(YARD_SUFFIX))
    return _save_name(parent, tr("Write a yard file"), start, YARD_FILES, YARD_SUFFIX)


def choose_handover(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save a handover."""
    return _save_name(
        parent, tr("Save the handover"), str(start), tr("Handovers (*.zip)"), HANDOVER_SUFFIX
    )


def choose_pdf(parent: QWidget, start: Path) -> Path | None:
    """Ask where to write a page."""
    return _save_name(parent, tr("Save as PDF"), str(start), tr("PDF (*.pdf)"), ".pdf")


def choose_calendar(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save the calendar."""
    return _save_name(parent, tr("Save the calendar"), str(start), tr("Calendars (*.ics)"), ".ics")


def choose_picture(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save a picture: a PNG, or an SVG where its name or the chosen kind says so."""
    kinds = tr("PNG pictures (*.png);;SVG pictures (*.svg)")
    name, kind = QFileDialog.getSaveFileName(parent, tr("Save picture"), str(start), kinds)
    if not name:
        return None
    path = Path(name)
    if path.suffix.lower() in (".png", ".svg"):
        return path
    return path.with_name(path.name + (".svg" if "*.svg" in kind else ".png"))


def choose_weather(parent: QWidget, folder: Path) -> Path | None:
    """Ask which weather table to read."""
    kinds = tr("Weather tables (*.csv *.txt);;All files (*)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Read a weather table"), str(folder), kinds)
    return Path(name) if name else None


def choose_feedings(parent: QWidget, folder: Path) -> Path | None:
    """Ask which table of feedings to take in."""
    kinds = tr("Tables (*.csv *.tsv *.txt);;All files (*)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Take in feedings"), str(folder), kinds)
    return Path(name) if name else None


def choose_feedings_table(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save the feedings as a table."""
    return _save_name(parent, tr("Save the feedings"), str(start), tr("Tables (*.csv)"), ".csv")


def choose_photos(parent: QWidget, folder: Path) -> tuple[Path, ...]:
    """Ask which photographs of a plug to add; several may be chosen, or none."""
    kinds = tr("Photos (*.jpg *.jpeg *.png *.heic *.heif *.webp);;All files (*)")
    names, _ = QFileDialog.getOpenFileNames(parent, tr("Add photos"), str(folder), kinds)
    return tuple(Path(name) for name in names)


def choose_backdrop(parent: QWidget, folder: Path) -> tuple[Path, ...]:
    """Ask which pictures to lay under the sketch; several may be chosen, or none."""
    kinds = tr("Pictures (*.jpg *.jpeg *.png *.webp *.heic *.heif);;All files (*)")
    title = tr("Open a picture to trace on")
    names, _ = QFileDialog.getOpenFileNames(parent, title, str(folder), kinds)
    return tuple(Path(name) for name in names)


def choose_photo_copy(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save a photograph as it is kept."""
    return _save_name(parent, tr("Save the picture"), str(start), tr("JPEG (*.jpg)"), ".jpg")


def choose_outlines(parent: QWidget, folder: Path) -> Path | None:
    """Ask which file of outlines to take in."""
    kinds = tr("Outlines (*.geojson *.json *.kml);;All files (*)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Take in outlines"), str(folder), kinds)
    return Path(name) if name else None


def choose_outlines_file(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save the sketch; the ending of `start` says as what."""
    kinds = f"{start.suffix[1:].upper()} (*{start.suffix})"
    return _save_name(parent, tr("Save the sketch"), str(start), kinds, start.suffix)


def choose_tables(parent: QWidget, folder: Path) -> Path | None:
    """Ask which file of tables to take in."""
    kinds = tr("Tables (*.xlsx *.csv *.zip *.tsv *.txt);;All files (*)")
    name, _ = QFileDialog.getOpenFileName(parent, tr("Take in tables"), str(folder), kinds)
    return Path(name) if name else None


def choose_tables_file(parent: QWidget, start: Path) -> Path | None:
    """Ask where to save tables; the ending of `start` says as what."""
    kinds = {".xlsx": tr("Workbook (*.xlsx)"), ".zip": tr("CSV files in a zip (*.zip)")}
    told = kinds.get(start.suffix, tr("CSV (*.csv)"))
    return _save_name(parent, tr("Save the tables"), str(start), told, start.suffix)


def choose_folder(parent: QWidget, folder: Path) -> Path | None:
    """Ask for the folder that new notebooks go to."""
    name = QFileDialog.getExistingDirectory(parent, tr("Folder for new notebooks"), str(folder))
    return Path(name) if name else None


def tell(parent: QWidget, title: str, sentence: str, object_name: str = "told") -> None:
    """Tell something that must not be overlooked; the window goes on working behind it.

    One at a time: while a box of this name stands, more of the same say nothing new.
    """
    held = parent.findChild(QMessageBox, object_name)
    if held is not None and held.isVisible():
        return
    box = QMessageBox(QMessageBox.Icon.NoIcon, title, sentence, parent=parent)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    name_control(box, object_name, sentence)
    name_control(box.addButton(QMessageBox.StandardButton.Ok), f"{object_name}_ok", tr("OK"))
    box.open()


def pictures_lost_told(count: int, path: Path) -> str:
    """That a notebook was kept elsewhere without the pictures that could not be read."""
    what = tr("1 picture") if count == 1 else tr("{count} pictures", count=count)
    return tr(
        "{name} holds all entries, but not {what} that could not be read any "
        "more.\n\nThe old file may still hold what is missing, once it can be reached "
        "again. Pictures can also be added anew from your own files.",
        name=path.name,
        what=what,
    )


@dataclass(frozen=True, slots=True)
class WayOn:
    """One way on that a question offers: what `ask` gives back for it, and the button's words.

    Of `kind` "stay" nothing happens, and Esc is taken for it; of "lose" something is lost for good.
    """

    answer: str
    words: str
    kind: Literal["go", "lose", "stay"]


def ask(
    parent: QWidget, name: str, sentences: tuple[str, str], ways: Sequence[WayOn], default: str
) -> str:
    """Ask what cannot be undone once it is done; the answer of the way that was chosen.

    What undo can take back is not asked for: it is done, and the foot of the page offers undo.
    `sentences` are what is so and what follows from it; `default` is the answer that Enter gives.
    """
    box = question(parent, name, sentences, ways, default)
    answers = [each.answer for each in ways if each.kind == "stay"]
    box.buttonClicked.connect(lambda button: answers.append(str(button.property("answer"))))
    box.exec()
    box.deleteLater()
    return answers[-1]


def question(
    parent: QWidget, name: str, sentences: tuple[str, str], ways: Sequence[WayOn], default: str
) -> QMessageBox:
    """The box of a question, as `ask` shows it."""
    box = QMessageBox(parent)
    name_control(box, name, sentences[0], sentences[1])
    box.setWindowTitle(tr("Lawnbook"))
    box.setText(sentences[0])
    box.setInformativeText(sentences[1])
    for way in ways:
        button = box.addButton(way.words, _ROLES[way.kind])
        button.setProperty("answer", way.answer)
        name_control(button, f"{name}_{way.answer}", way.words)
        if way.answer == default and isinstance(button, QPushButton):
            box.setDefaultButton(button)
        if way.kind == "stay":
            box.setEscapeButton(button)
    return box


def close_with_trouble(parent: QWidget, sentence: str, waiting: int) -> Answer:
    """Ask what to do as a window closes whose changes wait, or whose file has lost what it had.

    Asked, not done: what is lost lies nowhere else, and undo goes with the window.
    """
    missing = tr("The latest changes are not on disk.")
    other = tr("The file no longer holds what this window shows.")
    lose = tr("Close and lose them") if waiting else tr("Close all the same")
    ways = (
        WayOn("stay", tr("Stay here"), "stay"),
        WayOn("elsewhere", tr("Keep it elsewhere…"), "go"),
        WayOn("abandon", lose, "lose"),
    )
    texts = (missing if waiting else other, sentence)
    return cast(Answer, ask(parent, "close_with_trouble", texts, ways, "stay"))


def file_stem(name: str) -> str:
    """A yard's name as the name of a file, in letters that no system refuses; it may be empty."""
    return plain_stem(name)[:80].rstrip(" .")


def _save_name(parent: QWidget, title: str, start: str, kinds: str, suffix: str) -> Path | None:
    name, _ = QFileDialog.getSaveFileName(parent, title, start, kinds)
    if not name:
        return None
    path = Path(name)
    return path if path.suffix.lower() == suffix else path.with_name(path.name + suffix)
