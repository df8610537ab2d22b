"""Where no words of another language are there, everything is read in English; nothing stops."""

from pathlib import Path

import pytest

from lawnbook.languages import PSEUDO
from lawnbook.reading import read_as, reading, tr
from lawnbook.start import choose_language
from lawnbook.yard import places


@pytest.mark.parametrize(
    ("language", "told"), [("en", "Help"), ("es", "Help"), (PSEUDO, "«Hélp·»")]
)
def test_a_folder_of_languages_that_is_missing_leaves_english(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, language: str, told: str
) -> None:
    held = reading()
    monkeypatch.setattr(places, "_root", lambda: tmp_path)
    try:
        choose_language(tmp_path / "desk.ini", {"LANGUAGE": language})
        assert reading().language == language
        assert tr("Help") == told
    finally:
        read_as(held)
