"""Keys: what the keyboard can do, by where it works."""

from html import escape

from PySide6.QtWidgets import QWidget

from lawnbook.desk.help_text import Passage, key_of
from lawnbook.desk.key_list import KEYS
from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.reading import tr


class KeysLeaf(TextLeaf):
    """The list of keys; a search for a key or for what is wanted."""

    def __init__(self, host: QWidget) -> None:
        super().__init__("keys", host)

    def read_passages(self) -> tuple[Passage, ...]:
        """A passage for each place where keys work."""
        return tuple(_passage(where, lines) for where, *lines in KEYS)


def _passage(where: str, lines: "list[tuple[str, str]]") -> Passage:
    told = [(tr(keys), tr(what)) for keys, what in lines]
    rows = "".join(
        f'<tr><td width="38%"><b>{escape(keys)}</b></td><td>{escape(what)}</td></tr>'
        for keys, what in told
    )
    return Passage(
        key=key_of(where),
        title=tr(where),
        html=f'<table width="100%">{rows}</table>',
        plain="\n".join(f"{keys} {what}" for keys, what in told),
    )
