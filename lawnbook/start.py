"""Where the program starts: the owner's language first, as many texts are told when loaded."""

import os
import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from lawnbook.languages import language_chosen, words_of
from lawnbook.reading import read_as, reading
from lawnbook.yard.places import languages


def main() -> int:
    """Run the command line in the owner's language and return its exit status."""
    choose_language(settings_file(), os.environ)
    from lawnbook.cli import main as run

    return run()


def choose_language(settings: Path, environment: Mapping[str, str]) -> None:
    """Read everything in the language chosen from now on; before other modules are loaded."""
    language = language_chosen(settings, environment)
    words = words_of(language, languages())
    read_as(replace(reading(), language=language, words=words))


def settings_file() -> Path:
    """The file of the window's settings."""
    from platformdirs import user_config_path

    return user_config_path("lawnbook", appauthor=False) / "desk.ini"


if __name__ == "__main__":
    sys.exit(main())
