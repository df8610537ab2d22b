"""Usual values of a field, in words, in a menu at the field's end."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QAction, QIcon, QKeyEvent, QPainter, QPixmap
from PySide6.QtWidgets import QLineEdit, QMenu, QToolButton

from lawnbook.desk.entry import plain_number
from lawnbook.desk.theme import palette
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.places import resource

Preset = tuple[str, float | str]
"""Words, and what they stand for: a number, or text as it would be typed."""
MARK_PX, CHEVRON_PX, SHARP = 16, 10, 3
"""The mark's room in the field, the chevron in it, and how many dots it has to a pixel."""


class PresetMenu(QObject):
    """A field's usual values; a click on the mark at its end, or Alt+Down, opens them.

    What is picked is typed into the field and the field left, as the owner's hand would do it.
    `called` says what is listed, in the plural.
    """

    def __init__(
        self, field: QLineEdit, presets: Sequence[Preset], called: str = tr("usual values")
    ) -> None:
        super().__init__(field)
        self._field = field
        self._presets: tuple[Preset, ...] = ()
        self.menu = QMenu(field)
        self._called = called
        self._mark = QAction(QIcon(), "", self)
        self._mark.triggered.connect(self.open)
        field.addAction(self._mark, QLineEdit.ActionPosition.TrailingPosition)
        self.name()
        told = tr("Alt+Down lists {called}.", called=called)
        field.setAccessibleDescription(f"{field.accessibleDescription()} {told}".strip())
        field.setToolTip(f"{field.toolTip()}\n{told}".strip())
        field.installEventFilter(self)
        self._dress()
        self.offer(presets)

    def name(self) -> None:
        """Call menu and mark by the field's name, as that is now."""
        field = self._field
        spoken = tr(
            "{called} of {accessiblename}",
            called=self._called.capitalize(),
            accessiblename=field.accessibleName(),
        )
        name_control(self.menu, f"{field.objectName()}_presets", spoken)
        self._mark.setText(spoken)
        self._mark.setToolTip(spoken)
        for button in field.findChildren(QToolButton):
            if button.defaultAction() is self._mark:
                name_control(button, f"{field.objectName()}_presets_button", spoken)

    def offer(self, presets: Sequence[Preset]) -> None:
        """List other values; without any there is no mark and no menu."""
        self._mark.setVisible(bool(presets))
        if tuple(presets) == self._presets:
            return
        self._presets = tuple(presets)
        self.menu.clear()
        for words, value in self._presets:
            typed = _typed(value)
            action = self.menu.addAction(words if typed == words else f"{words}\t{typed}")
            action.triggered.connect(partial(self._take, typed))

    def open(self) -> None:
        """Show the menu below the field, at the value that is held."""
        if not self._presets:
            return
        held = self._field.text().strip()
        for action, (_, value) in zip(self.menu.actions(), self._presets, strict=True):
            if _typed(value) == held:
                self.menu.setActiveAction(action)
        self.menu.popup(self._field.mapToGlobal(QPoint(0, self._field.height())))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Alt+Down opens the menu; a new theme brings another mark."""
        if event.type() == QEvent.Type.StyleChange:
            self._dress()
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            alt = event.modifiers() & Qt.KeyboardModifier.AltModifier
            if alt and event.key() == Qt.Key.Key_Down:
                self.open()
                return True
        return super().eventFilter(watched, event)

    def _dress(self) -> None:
        shade = "dark" if palette().is_dark else "light"
        chevron = QIcon(str(resource("style") / f"chevron-{shade}.svg"))
        picture = QPixmap(MARK_PX * SHARP, MARK_PX * SHARP)
        picture.setDevicePixelRatio(SHARP)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        inset = (MARK_PX - CHEVRON_PX) // 2
        chevron.paint(painter, inset, inset, CHEVRON_PX, CHEVRON_PX)
        painter.end()
        self._mark.setIcon(QIcon(picture))

    def _take(self, typed: str) -> None:
        self._field.setText(typed)
        self._field.textEdited.emit(self._field.text())
        self._field.editingFinished.emit()
        self._field.setFocus(Qt.FocusReason.OtherFocusReason)


def _typed(value: float | str) -> str:
    """A value as it stands in the field."""
    return value if isinstance(value, str) else plain_number(value)
