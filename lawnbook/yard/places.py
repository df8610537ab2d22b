"""Where the program's own files lie: in a wheel inside the package, in a checkout one level up."""

from pathlib import Path

from lawnbook.reading import tr

_PACKAGE = Path(__file__).resolve().parent.parent


def resource(name: str) -> Path:
    """The path of a file under resources, such as "fonts/Inter-Regular.ttf".

    Raises FileNotFoundError where it is missing: that is a broken installation, not the owner's
    doing.
    """
    found = _root() / "resources" / name
    if not found.exists():
        raise FileNotFoundError(tr("The installation lacks its file {found}", found=found))
    return found


def languages() -> Path:
    """The folder of the languages' words; it may be missing: English, then, needs none."""
    return _root() / "resources" / "languages"


def manual(language: str = "en") -> Path:
    """The path of the owner's manual: README.md, or its translation where one is there.

    It may be missing from an odd installation.
    """
    translated = _root() / "resources" / "help" / f"README.{language}.md"
    return translated if translated.is_file() else _root() / "README.md"


def news(language: str = "en") -> Path:
    """The path of what is new in each version, in a language where it is written in it.

    Raises FileNotFoundError where it is missing.
    """
    translated = _root() / "resources" / "help" / f"whats_new.{language}.md"
    return translated if translated.is_file() else resource("help/whats_new.md")


def sample_yards() -> tuple[Path, ...]:
    """The yard files that come with the program, by name; empty where there are none."""
    return tuple(sorted((_root() / "sample_yards").glob("*.json")))


def is_sample(path: Path) -> bool:
    """Whether a file is one of the yard files that come with the program."""
    return path.resolve() in sample_yards()


def _root() -> Path:
    packed = _PACKAGE / "_data"
    return packed if packed.is_dir() else _PACKAGE.parent
