"""Backdrop, on the yard page: pictures under the sketch to trace on."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QSlider, QWidget

from lawnbook.desk.dialogs import choose_backdrop
from lawnbook.desk.focus_ring import FocusRing
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.backdrop_hand import LOCKED, BackdropHand
from lawnbook.desk.pages.backdrop_place import PlacePanel
from lawnbook.desk.pages.backdrop_scale import ScalePanel
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.sketch.backdrop_intake import BackdropIntake
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Card, LinkButton, QuietButton, Words, name_control
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.backdrops import laid
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Change
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Backdrop

HOW = tr(
    "An aerial image or a scanned plan of the plot, to draw on. Open it, paste it, "
    "or drop it here or on the sketch. It is kept inside the notebook, at most "
    "4,000 pixels wide or high."
)
CAUTION = tr(
    "From above, roofs and crowns lean: trace walls and trunks where they meet the "
    "ground, and check one side with a tape. Mind the picture's licence. Buried "
    "lines are not on it: have them located before you dig."
)
UNREADABLE = tr("Its picture cannot be read any more; remove it and add it again.")
FADE_STEP, FADE_PAGE, MOST_FADE = 5, 20, 95


class BackdropSection(YardSection):
    """The list of backdrops, and the panels that work on the one in hand."""

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("yard_backdrop")
        self._book, self._control = book, control
        self.hand = BackdropHand(book, control, self)
        self.intake = BackdropIntake(book, self)
        self._known: frozenset[str] = frozenset()
        self._make_list()
        self._make_look()
        self.scale, self.place = ScalePanel(self.hand, self), PlacePanel(self.hand, self)
        self._lay_out()
        self._listen()
        self.intake.take_drops_of(self)
        self._paste_by_key()

    def show_plan(self, plan: Plan) -> None:
        """Show the backdrops; one that is new is taken in hand."""
        del plan
        held = self._book.notebook.backdrops
        new = [each for each in held if each not in self._known]
        if new and (self._known or self.hand.backdrop_id not in held):
            self.hand.backdrop_id = new[-1]
        self._known = frozenset(held)
        if self.hand.backdrop_id not in held:
            self.hand.backdrop_id = next(reversed([*held]), "")
        self._show()

    def hideEvent(self, event: QHideEvent) -> None:
        """What was asked for and not answered is given up."""
        super().hideEvent(event)
        self.scale.hide_line()

    def _show(self) -> None:
        held = self._book.notebook.backdrops
        # The topmost picture stands first, as it lies.
        rows = [_row_of(each) for each in reversed([*held.values()])]
        self._table.show_rows(rows, keep=self.hand.backdrop_id)
        self._table.setVisible(bool(rows))
        backdrop = self.hand.backdrop
        of_one: tuple[QWidget, ...] = (self._look, self.scale, self.place, self._remove)
        for each in of_one:
            each.setVisible(backdrop is not None)
        for button in (self._up, self._down):
            button.setVisible(len(held) > 1)
        if backdrop is None:
            return
        self._form.show_record(backdrop.id)
        self._show_fade(backdrop)
        order = list(held)
        self._free(self._up, backdrop, order[-1] == backdrop.id, tr("It lies on top already."))
        self._free(self._down, backdrop, order[0] == backdrop.id, tr("It lies lowest already."))
        self._free(self._remove, backdrop, False, "")
        check_quietly(self._through, on=self._control.habits.sees_through)
        self._say_unreadable()
        self.scale.refresh()
        self.place.refresh()

    def _free(self, button: QWidget, backdrop: Backdrop, at_end: bool, why: str) -> None:
        told = LOCKED if backdrop.locked else why if at_end else ""
        button.setEnabled(not told)
        button.setToolTip(told)
        button.setAccessibleDescription(told)

    def _say_unreadable(self) -> None:
        backdrop = self.hand.backdrop
        lost = backdrop is not None and self._control.scene.backdrops.cannot_be_read(
            backdrop.sha256
        )
        self._unreadable.say(UNREADABLE if lost else "")

    def _show_fade(self, backdrop: Backdrop) -> None:
        if not self._fade.isSliderDown():
            blocked = self._fade.blockSignals(True)
            self._fade.setValue(round(backdrop.fade * 100))
            self._fade.blockSignals(blocked)
        self._faded.setText(f"{self._fade.value()} %")

    def _fading(self, percent: int) -> None:
        """Fade while the slider is dragged; a key or a click is kept at once."""
        backdrop = self.hand.backdrop
        if backdrop is None:
            return
        self._faded.setText(f"{percent} %")
        if self._fade.isSliderDown():
            self.hand.show_draft(replace(backdrop, fade=percent / 100))
        else:
            self._keep_fade()

    def _keep_fade(self) -> None:
        self.hand.set("fade", fade=self._fade.value() / 100)

    def _see_through(self, on: bool) -> None:
        self._control.habits = replace(self._control.habits, sees_through=on)
        self._control.scene.see_through(on=on)

    def _picked(self, backdrop_id: str) -> None:
        if backdrop_id != self.hand.backdrop_id:
            self.hand.backdrop_id = backdrop_id
            self._say("", "")
            self._show()

    def _reorder(self, *, higher: bool) -> None:
        self._edit_all(
            lambda: laid(self._book.notebook, self.hand.backdrop_id, higher=higher),
            tr("order of backdrops"),
        )

    def _ask_remove(self, backdrop_id: str) -> None:
        held = self._book.notebook.backdrops.get(backdrop_id)
        if held is None:
            return
        if held.locked:
            self._say(tr("{name} is locked; unlock it first.", name=held.name), "refuse")
            return
        self._edit_all(
            lambda: remove(self._book.notebook, "backdrops", backdrop_id),
            tr("remove {name}", name=held.name),
        )
        self._say(tr("{name} is gone. Undo brings it back.", name=held.name), "good")

    def _edit_all(self, make: Callable[[], Change], label: str) -> None:
        try:
            self._book.edit(make(), label)
        except OwnerError as problem:
            self._say(str(problem), "refuse")

    def _ask_files(self) -> None:
        self.intake.add_files(choose_backdrop(self, self._book.path.parent))

    def _say(self, words: str, role: str) -> None:
        self._said.say(words, role or "caption")

    def _say_busy(self, words: str) -> None:
        self._busy.say(words)
        self._stop.setVisible(bool(words))
        if words:
            self._say("", "")

    def _added(self, backdrop_id: str) -> None:
        self._picked(backdrop_id)
        held = self._book.notebook.backdrops.get(backdrop_id)
        if held is not None:
            self._say(
                tr("{name} lies under the sketch. Set its scale next.", name=held.name), "good"
            )

    def _listen(self) -> None:
        self._open.clicked.connect(self._ask_files)
        self._paste.clicked.connect(self.intake.paste)
        self._stop.clicked.connect(self.intake.stop)
        self._remove.clicked.connect(lambda: self._ask_remove(self.hand.backdrop_id))
        self._up.clicked.connect(lambda: self._reorder(higher=True))
        self._down.clicked.connect(lambda: self._reorder(higher=False))
        self._table.picked.connect(self._picked)
        self._table.removal_asked.connect(self._ask_remove)
        self.intake.busy.connect(self._say_busy)
        self.intake.refused.connect(lambda sentence: self._say(sentence, "refuse"))
        self.intake.added.connect(self._added)
        self.hand.said.connect(self._say)
        self._fade.valueChanged.connect(self._fading)
        self._fade.sliderReleased.connect(self._keep_fade)
        self._through.toggled.connect(self._see_through)
        self._control.scene.backdrops.shelf.arrived.connect(lambda _: self._say_unreadable())

    def _paste_by_key(self) -> None:
        """While the section is seen Ctrl+V is for it, also where the sketch has the keyboard."""
        shortcut = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), self)
        shortcut.setContext(Qt.ShortcutContext.WindowShortcut)
        shortcut.activated.connect(self.intake.paste)

    def _make_list(self) -> None:
        self._open = QuietButton(tr("Open a picture…"), "backdrop_open", self)
        self._paste = LinkButton(tr("Paste"), "backdrop_paste", self)
        self._busy = Caption("", self)
        self._busy.setObjectName("backdrop_busy")
        self._stop = LinkButton(tr("Stop"), "backdrop_stop", self)
        self._said = Words("", "caption", self)
        self._said.setObjectName("backdrop_said")
        self._table = RecordTable(
            (tr("Picture"), tr("Across"), tr("Scale"), tr("State")),
            ("backdrop_list", tr("Pictures under the sketch, the topmost first")),
            words_columns=(0, 2, 3),
            most_rows=4,
        )
        self._up = QuietButton(tr("Lay higher"), "backdrop_up", self)
        self._down = QuietButton(tr("Lay lower"), "backdrop_down", self)
        self._remove = LinkButton(tr("Remove this picture"), "backdrop_remove", self)

    def _make_look(self) -> None:
        self._look = Card(tr("Look"), self)
        setting = FormSetting(prefix="backdrop_", spans={"name": 2})
        names = ("name", "shown", "locked", "note")
        self._form = LiveForm(self._book, "backdrops", names, self, columns=4, setting=setting)
        self._fade = QSlider(Qt.Orientation.Horizontal, self)
        self._fade.setRange(0, MOST_FADE)
        self._fade.setSingleStep(FADE_STEP)
        self._fade.setPageStep(FADE_PAGE)
        name_control(self._fade, "backdrop_fade", tr("Fade of the picture, percent"))
        FocusRing(self._fade)
        self._faded = Caption("", self)
        self._faded.setObjectName("backdrop_faded")
        sized(self._faded, least_width=34)
        self._through = QCheckBox(tr("See through zones and features"), self)
        name_control(self._through, "backdrop_see_through", tr("See through zones and features"))
        self._unreadable = Words("", "refuse", self)
        self._unreadable.setObjectName("backdrop_unreadable")

    def _lay_out(self) -> None:
        card = Card(tr("Picture to trace on"), self)
        card.body.addWidget(Caption(HOW, self, wrap=True))
        card.body.addLayout(_row(self._open, self._paste, self._busy, self._stop))
        card.body.addWidget(self._said)
        card.body.addWidget(self._table)
        card.body.addLayout(_row(self._up, self._down, self._remove))
        card.body.addWidget(Caption(CAUTION, self, wrap=True))
        caption = Caption(tr("Fade"), self)
        caption.setBuddy(self._fade)
        fade = _row(caption, self._fade, self._faded, self._through)
        fade.setStretch(1, 1)
        fade.setSpacing(10)
        for each in (self._unreadable, self._form):
            self._look.body.addWidget(each)
        self._look.body.addLayout(fade)
        for part in (card, self._look, self.scale, self.place):
            self.body.addWidget(part)
        self._say("", "")
        self._say_busy("")


def _row_of(backdrop: Backdrop) -> Row:
    across = feet_inches(backdrop.width_px * backdrop.ft_per_px)
    scale = tr("a guess") if backdrop.scale_ends is None else tr("measured")
    states = (
        tr("shown") if backdrop.shown else tr("hidden"),
        *((tr("locked"),) if backdrop.locked else ()),
    )
    state = ", ".join(states)
    spoken = tr(
        "{name}, {across} across, scale {scale}, {state}",
        name=backdrop.name,
        across=across,
        scale=scale,
        state=state,
    )
    warned = (2,) if backdrop.scale_ends is None else ()
    return Row(backdrop.id, (backdrop.name, across, scale, state), spoken, warned)


def _row(*widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    for each in widgets:
        row.addWidget(each)
    row.addStretch(1)
    return row
