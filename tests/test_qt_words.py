"""Qt's own texts in the owner's language: standard buttons, the file dialog, menus of fields."""

import json
from typing import Any

import pytest

from lawnbook.languages import PSEUDO
from tests.language_walk import untold_words
from tests.small_book import in_child

ASKED = """
import json, sys
from pathlib import Path
from lawnbook.start import choose_language
choose_language(Path("/nowhere"), {"LANGUAGE": sys.argv[1]})
from PySide6.QtWidgets import (
    QAbstractButton, QFileDialog, QLabel, QLineEdit, QMessageBox, QPlainTextEdit
)
from lawnbook.desk.app import _application
app = _application()
box = QMessageBox()
kinds = ("Ok", "Save", "Open", "Yes", "No", "Close", "Cancel", "Discard", "Apply", "Reset", "Help")
for kind in kinds:
    box.addButton(QMessageBox.StandardButton[kind])
field, text, chooser = QLineEdit("a"), QPlainTextEdit("a"), QFileDialog()
chooser.setOption(QFileDialog.Option.DontUseNativeDialog)
chooser.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
app.processEvents()
print(json.dumps({
    "buttons": [each.text() for each in box.buttons()],
    "line": [each.text() for each in field.createStandardContextMenu().actions()],
    "text": [each.text() for each in text.createStandardContextMenu().actions()],
    "labels": [each.text() for each in chooser.findChildren(QLabel)],
    "chooser": [each.text() or each.toolTip() for each in chooser.findChildren(QAbstractButton)],
}))
"""


def asked(language: str) -> dict[str, Any]:
    """What Qt says in a language."""
    child = in_child(ASKED, language)
    assert child.returncode == 0, child.stderr
    held: dict[str, Any] = json.loads(child.stdout.splitlines()[-1])
    return held


@pytest.fixture(scope="module")
def english() -> dict[str, Any]:
    """What Qt says where it is left alone."""
    return asked("en")


def test_qt_speaks_spanish_with_our_words(english: dict[str, Any]) -> None:
    told = asked("es")
    assert {"Aceptar", "Guardar", "Cancelar", "&Sí", "Restablecer"} <= set(told["buttons"])
    assert [each for each in told["line"] if each][:2] == ["&Deshacer\tCtrl+Z", "&Rehacer\tCtrl+Y"]
    assert "&Copiar\tCtrl+C" in told["text"]
    assert "&Nombre de archivo:" in told["labels"]
    for part, texts in english.items():
        same = {each for each in {*texts} & {*told[part]} if untold_words(each, ())}
        assert same - {"&No"} == set(), part


def test_qt_is_told_whole_in_the_made_up_language(english: dict[str, Any]) -> None:
    told = asked(PSEUDO)
    assert [len(texts) for texts in told.values()] == [len(texts) for texts in english.values()]
    for part, texts in told.items():
        assert [each for each in texts if untold_words(each, ())] == [], part


def test_qt_is_left_alone_in_english(english: dict[str, Any]) -> None:
    assert "Cancel" in english["buttons"]
    assert "&Copy\tCtrl+C" in english["text"]
