"""A leaf to be read: passages by their contents, searched, with pictures that follow the theme."""

from collections.abc import Callable
from html import escape
from typing import Any

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, QUrl
from PySide6.QtGui import (
    QColor,
    QDesktopServices,
    QKeyEvent,
    QPixmap,
    QResizeEvent,
    QTextCursor,
)
from PySide6.QtWidgets import QTextBrowser, QTextEdit, QWidget

from lawnbook.desk.help_text import FILES, PICTURES, Passage, found_in
from lawnbook.desk.leaf import Leaf
from lawnbook.desk.leaves import LEAVES, open_leaf
from lawnbook.desk.theme import SERIF, mix, palette, points
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.places import resource

Painter = Callable[[str, int], QPixmap]
_STYLE = tr(
    "\nbody {{ color: {ink}; font-size: {text:g}pt; line-height: 145%; }}\n.head {{ "
    'font-family: "{serif}"; font-size: {head:g}pt; font-weight: 600; }}\n.head {{ '
    "margin: 0px 0px 8px 0px; line-height: 100%; }}\nb {{ font-weight: 600; }}\nh3 "
    "{{ font-size: {text:g}pt; font-weight: 600; margin: 12px 0px 4px 0px; }}\np {{ "
    "margin: 0px 0px 9px 0px; line-height: 145%; }}\nli {{ margin: 0px 0px 6px 0px; "
    "line-height: 145%; }}\na {{ color: {accent}; }}\npre, code {{ font-family: "
    "monospace; font-size: {small:g}pt; }}\npre {{ margin: 0px 0px 9px 8px; "
    "white-space: pre-wrap; line-height: 120%; }}\ntd {{ padding: 3px 18px 3px 0px; "
    "}}\n.picture {{ line-height: 100%; margin: 4px 0px 4px 0px; }}\n.quiet {{ "
    "color: {quiet}; font-size: {small:g}pt; }}\n"
)


class PassageText(QTextBrowser):
    """One passage on the paper. `draw` makes its pictures, by name and width in pixels."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.draw: Painter | None = None
        self._html, self._words = "", ""
        self._anew = QTimer(self)
        self._anew.setSingleShot(True)
        self._anew.timeout.connect(self._set_anew)
        # A bar that came and went with the width of pictures would never come to rest.
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.setOpenLinks(False)
        self.setProperty("role", "passage")
        self.setFrameShape(QTextBrowser.Shape.NoFrame)
        self.viewport().setAutoFillBackground(False)
        self.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextBrowserInteraction
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )

    def show_html(self, html: str, words: str = "") -> None:
        """Show a passage from its beginning, with the words that were searched for lit."""
        self._html, self._words = html, words
        self._render()
        self.verticalScrollBar().setValue(0)

    def loadResource(self, kind: int, name: QUrl | str) -> Any:
        """A picture by its name: drawn by us, or read from our own files. Nothing else is read."""
        told = name.toString() if isinstance(name, QUrl) else name
        if self.draw is None or not told.startswith(PICTURES):
            return None
        return self.draw(told.removeprefix(PICTURES), self._room_px())

    def changeEvent(self, event: QEvent) -> None:
        """Another theme or size of text: set anew."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and self._html:
            self._anew.start(0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Pictures are as wide as the text."""
        super().resizeEvent(event)
        if PICTURES in self._html and event.oldSize().width() != event.size().width():
            # Never while the text is being laid out: that would take it away under its own hands.
            self._anew.start(0)

    def _set_anew(self) -> None:
        """Set the passage once more, where it was being read."""
        at = self.verticalScrollBar().value()
        self._render()
        self.verticalScrollBar().setValue(at)

    def _room_px(self) -> int:
        return max(120, self.viewport().width() - 12)

    def _render(self) -> None:
        p = palette()
        document = self.document()
        # Pictures of the theme before are held by the document: they go with its content.
        document.clear()
        document.setDefaultFont(self.font())
        document.setDocumentMargin(4)
        document.setDefaultStyleSheet(
            _STYLE.format(
                ink=p.ink,
                quiet=p.quiet,
                accent=p.accent,
                serif=SERIF,
                head=points(15),
                text=points(10.5),
                small=points(9),
            )
        )
        document.setHtml(f"<body>{self._html}</body>")
        self.moveCursor(QTextCursor.MoveOperation.Start)
        self._light_up()

    def _light_up(self) -> None:
        """A wash behind every word that is searched for."""
        p = palette()
        found: list[QTextEdit.ExtraSelection] = []
        for word in self._words.split():
            cursor = self.document().find(word)
            while not cursor.isNull():
                found.append(_lit(cursor, QColor(mix(p.card, p.thatch, 0.5))))
                cursor = self.document().find(word, cursor)
        self.setExtraSelections(found)


def _lit(cursor: QTextCursor, colour: QColor) -> QTextEdit.ExtraSelection:
    made = QTextEdit.ExtraSelection()
    shown: Any = made
    shown.cursor = cursor
    shown.format.setBackground(colour)
    return made


class TextLeaf(Leaf):
    """A leaf of passages. A kind of it says which, in `read_passages`."""

    SEARCHES = True
    HAS_CONTENTS = True
    SIZE_PX = QSize(900, 700)

    def __init__(self, kind: str, host: QWidget) -> None:
        super().__init__(kind, host)
        self.text = PassageText(self)
        self.text.draw = self.draw
        name_control(self.text, f"{kind}_text", self.title.text())
        self.body.addWidget(self.text)
        self.passages = self.read_passages()
        self._shown = ""
        self._list_all()
        self.contents.turned.connect(self._show)
        self.search.textChanged.connect(self._look_for)
        self.search.returnPressed.connect(self._next)
        self.text.anchorClicked.connect(self.follow)
        self.contents.setCurrentRow(0)

    def read_passages(self) -> tuple[Passage, ...]:
        """What there is to read."""
        raise NotImplementedError

    def draw(self, name: str, width_px: int) -> QPixmap:
        """A picture of a passage, at most this wide: one of the manual's own, from our files."""
        picture = QPixmap(str(resource(name.removeprefix("resources/"))))
        if picture.width() <= width_px:
            return picture
        ratio = self.devicePixelRatioF()
        smooth = Qt.TransformationMode.SmoothTransformation
        made = picture.scaledToWidth(round(width_px * ratio), smooth)
        made.setDevicePixelRatio(ratio)
        return made

    def turn_to(self, section: str) -> None:
        """Show the passage of this key or name; another one leaves all as it is."""
        key = found_in(self.passages, section)
        if key and key not in self.contents.keys:
            self.search.clear()
        self.contents.pick(key)

    def begin(self) -> None:
        """The keyboard starts in the contents."""
        self.contents.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Down leads from the search to what was found."""
        if event.key() == Qt.Key.Key_Down and self.search.hasFocus():
            self.contents.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().keyPressEvent(event)

    def follow(self, to: QUrl) -> None:
        """Follow a link: to a passage here, to one of another leaf, or to a file of ours."""
        told = to.toString()
        if told.startswith("section:"):
            self.turn_to(told.removeprefix("section:"))
        elif told.startswith(FILES):
            path = resource(told.removeprefix(FILES))
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))
        elif (kind := told.partition(":")[0]) in LEAVES:
            open_leaf(self.host, kind, told.partition(":")[2])

    def anew(self) -> None:
        """Read the passages anew: units or the notebook have changed."""
        self.passages = self.read_passages()
        self._look_for()
        self._show(self._shown)

    def _list_all(self) -> None:
        self.contents.show_entries([(p.key, p.title, p.depth) for p in self.passages])

    def _look_for(self) -> None:
        """List what holds the words, and show the first of it."""
        words = self.search.text().strip()
        found = [each for each in self.passages if each.holds(words)]
        if not found:
            # What an earlier letter had found, lit up, would look like what is asked for now.
            self._list_all()
            self._show(self._shown)
            self.foot.say(tr("Nothing found for “{words}”.", words=words), "ask")
            return
        depth = 0 if words else 1
        self.contents.show_entries([(p.key, p.title, min(p.depth, depth)) for p in found])
        count, every = len(found), len(self.passages)
        told = tr("Found in {count} of {every}.", count=count, every=every) if words else ""
        self.foot.say(told, "caption")
        keys = [each.key for each in found]
        self.contents.pick(self._shown if self._shown in keys else keys[0])

    def _next(self) -> None:
        """Enter leads to the next passage that was found, and round again."""
        self.contents.setCurrentRow((self.contents.currentRow() + 1) % self.contents.count())

    def _show(self, key: str) -> None:
        passage = next((each for each in self.passages if each.key == key), None)
        if passage is None:
            return
        self._shown = key
        head = f'<p class="head">{escape(passage.title)}</p>'
        self.text.show_html(head + passage.html, self.search.text().strip())
        self.text.setAccessibleDescription(passage.title)
