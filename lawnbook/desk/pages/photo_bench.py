"""Where a photograph is read: its steps in a row, the picture, and what the marks come to."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.agronomy.photo_scale import PhotoReading, read_plug
from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.figures import FigureHand
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages import photo_marks, photo_words
from lawnbook.desk.pages.photo_handles import Handle
from lawnbook.desk.pages.photo_keepers import Keeper
from lawnbook.desk.pages.photo_marks import STEPS, Step
from lawnbook.desk.pages.photo_view import PhotoView
from lawnbook.desk.roles import check_quietly, one_of_several
from lawnbook.desk.telling import Teller, either, follow, follow_name, follow_unit
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import (
    Caption,
    LinkButton,
    PrimaryButton,
    QuietButton,
    TextField,
    Words,
    mark_role,
    name_control,
)
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.yard.numbers import parse_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_plug import Photo, PhotoRuler

TYPED = tr("Typed")
KNOWN_PX, LINE_PX = 84, 16
"""The field of the known distance, and a line of the words whose room is held."""


class PhotoBench(QWidget):
    """Reads one photograph at a time; `taken` tells that its readings went into the plug."""

    taken = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "photo_bench", tr("Reading the photo"))
        self._keeper: Keeper | None = None
        self._shown = ""
        self._step: Step = "Scale"
        self._known_in = 1.0
        self._steps = {each: self._step_button(each) for each in STEPS}
        self._hint = Words("", "caption", self)
        self._hint.setObjectName("photo_hint")
        self._known = TextField(self)
        us, metric = tr("Known distance, in inches or mm"), tr("Known distance, in mm")
        follow_name(self._known, "photo_known", lambda: either(us, metric))
        self._coin = ChoiceBox(self)
        name_control(self._coin, "photo_coin", tr("Coin beside the plug"))
        self._known_words = Words("", "refuse", self)
        self._known_words.setObjectName("photo_known_words")
        self._place = LinkButton(tr("Put a mark"), "photo_place", self)
        self._remove = LinkButton(tr("Remove last"), "photo_remove_mark", self)
        self.view = PhotoView(self)
        self._state = Words("", "", self)
        self._state.setObjectName("photo_state")
        self._change = Words("", "caption", self)
        self._change.setObjectName("photo_change")
        self._take = PrimaryButton(tr("Take into the plug"), "photo_take", self)
        for words, lines in ((self._hint, 2), (self._state, 2), (self._change, 1)):
            _hold_room(words, lines)
        self._done = Words("", "good", self)
        self._done.setObjectName("photo_done")
        self._scale_row = QWidget(self)
        for told in (self._state, self._change):
            # A list of readings has its unit once: all of them open.
            FigureHand(told, self._workings)
        FigureHand(self.view, self._mark_workings, by_click=False)
        self._lay_out()
        self._listen()

    def show_photo(self, keeper: Keeper | None) -> None:
        """Read another photograph, or none."""
        self._keeper = keeper
        self._shown = ""
        self._done.say("")
        self.refresh()

    def refresh(self) -> None:
        """Show the photograph as it is kept now: after an undo, or an edit elsewhere."""
        photo = self._photo()
        if photo is None:
            self._shown = ""
            self.view.show_image(QImage())
            self._say_all()
            return
        if photo.id != self._shown:
            self._open(photo)
        self.view.show_ruler(photo.ruler)
        if photo.ruler is not None:
            self._known_in = photo.ruler.known_in
        self._show_known()
        self._turn(self._step if photo_marks.allowed(photo.ruler, self._step) else "Scale")

    def turn_to(self, step: Step) -> None:
        """Go to a step, as far as what it needs is marked."""
        if photo_marks.allowed(self._ruler(), step):
            self._turn(step)

    def _open(self, photo: Photo) -> None:
        self._shown = photo.id
        self._done.say("")
        self.view.show_image(image_of(photo))
        # Not the last photo's: a distance carried over unseen would read every depth wrong.
        self._known_in = 1.0
        self._step = _first_open(photo.ruler)

    def _photo(self) -> Photo | None:
        return None if self._keeper is None else self._keeper.photo()

    def _ruler(self) -> PhotoRuler | None:
        photo = self._photo()
        return None if photo is None else photo.ruler

    def _marked(self, ruler: PhotoRuler | None, label: str) -> None:
        """Keep what a drag or nudge led to; a first scale is of the distance that is typed."""
        photo = self._photo()
        if photo is None or self._keeper is None:
            return
        first = photo.ruler is None and ruler is not None
        if first and ruler is not None:
            ruler = replace(ruler, known_in=self._known_in)
        self._done.say("")
        if not self._keep(replace(photo, ruler=ruler), label):
            return
        if first and self._step == "Scale":
            self._turn("Crowns")
        elif self._step == "Crowns" and photo.ruler is not None and photo.ruler.crowns is None:
            self._turn("Thatch ends")
        if tr(self._step).lower() in label:
            self.view.setFocus()

    def _keep(self, photo: Photo, label: str) -> bool:
        """Keep it with other marks; False where that is refused, which is said."""
        if self._keeper is None:
            return False
        try:
            self._keeper.keep(photo, label)
        except OwnerError as error:
            self.refresh()
            self._state.say(str(error), "refuse")
            return False
        self.refresh()
        return True

    def _take_readings(self) -> None:
        reading = self._reading()
        if self._keeper is None or reading is None:
            return
        try:
            told = self._keeper.take(reading)
        except OwnerError as error:
            self._state.say(str(error), "refuse")
            return
        self._say_all()
        self._done.say(told)
        self.taken.emit()

    def _reading(self) -> PhotoReading | None:
        ruler = self._ruler()
        if ruler is None or not self.view.has_picture():
            return None
        try:
            return read_plug(ruler, *self.view.size_px())
        except ValueError:
            return None

    def _workings(self) -> Sequence[Working]:
        """How what the marks read came about."""
        from lawnbook.plan.photo_workings import photo_workings

        return photo_workings(self._ruler(), self.view.size_px()) if self.view.has_picture() else ()

    def _mark_workings(self) -> Sequence[Working]:
        """Those of the mark that has the keyboard; all where none has."""
        from lawnbook.plan.photo_workings import workings_of_mark

        held = self.view.focusWidget()
        key = held.key if isinstance(held, Handle) and held.hasFocus() else ""
        return workings_of_mark(self._workings(), key)

    def _turn(self, step: Step) -> None:
        self._step = step
        check_quietly(self._steps[step])
        self.view.set_step(step)
        self._say_all()

    def _say_all(self) -> None:
        ruler, picture = self._ruler(), self.view.has_picture()
        for step, button in self._steps.items():
            button.setEnabled(picture and photo_marks.allowed(ruler, step))
        is_open = photo_marks.is_open(ruler, self._step)
        self._hint.say((photo_words.HINTS if is_open else photo_words.THERE)[self._step])
        # It stays for every step: the picture must not move between two presses on it.
        self._scale_row.setVisible(picture)
        self._place.setVisible(picture and is_open)
        self._remove.setVisible(self._last_key() != "")
        if not picture and self._photo() is not None:
            self._state.say(photo_words.LOST, "refuse")
        else:
            self._state.say(*photo_words.state_words(ruler, self.view.size_px()))
        self._say_change()

    def _say_change(self) -> None:
        reading = self._reading()
        if reading is None or self._keeper is None:
            self._change.say("")
            self._take.setEnabled(False)
            return
        proposal = self._keeper.proposal(reading)
        self._change.say(proposal.words, proposal.role)
        self._take.setEnabled(proposal.can)

    def _last_key(self) -> str:
        """The mark of this step that the button takes away, "" where it takes none."""
        if self._step == "Scale":
            return ""
        keys = [
            k for k in photo_marks.points_of(self._ruler()) if photo_marks.step_of(k) == self._step
        ]
        return keys[-1] if keys else ""

    def _type_known(self) -> None:
        """Take the known distance that was typed; what cannot be read is said and stays."""
        text = self._known.text()
        if not self._known.isModified():
            return
        try:
            known_in = parse_inches(text, tr("Known distance"))
        except OwnerError as error:
            self._say_known(str(error))
            return
        self._set_known(known_in)

    def _choose_coin(self, index: int) -> None:
        known_in = self._coin.itemData(index)
        if isinstance(known_in, float):
            self._set_known(known_in)

    def _set_known(self, known_in: float) -> None:
        photo = self._photo()
        if photo is None or photo.ruler is None or self._keeper is None:
            if known_in <= 0:
                such = either(tr("1 or 25 mm"), "25 mm")
                nothing = tr("Known distance must be more than nothing, such as {such}.")
                self._say_known(tr(nothing, such=such))
                return
            self._known_in = known_in
            self._say_known("")
            self._show_known()
            return
        if known_in == photo.ruler.known_in:
            self._show_known()
            return
        try:
            ruler = replace(photo.ruler, known_in=known_in)
            self._keeper.keep(replace(photo, ruler=ruler), tr("known distance on the photo"))
        except OwnerError as error:
            self._say_known(str(error))
            return
        self._done.say("")
        self.refresh()

    def retell(self) -> None:
        """Distances and readings in the owner's unit; what is typed means what it did."""
        if self._known.isModified():
            self._known.setText(kept_amount(self._known.text(), "in"))
            self._known.setModified(True)
            typed = self._known.text()
            self.refresh()
            self._known.setText(typed)
            self._known.setModified(True)
        else:
            self.refresh()
            self._show_known()

    def _say_known(self, words: str) -> None:
        self._known_words.say(words)
        mark_role(self._known, "", "refuse" if words else "")

    def _show_known(self) -> None:
        self._say_known("")
        self._known.setText(photo_words.known_words(self._known_in))
        self._known.setModified(False)
        places = (i for i in range(1, self._coin.count()) if self._is_coin(i))
        self._coin.setCurrentIndex(next(places, 0))

    def _is_coin(self, index: int) -> bool:
        return abs(float(self._coin.itemData(index)) - self._known_in) < 1e-6

    def _step_button(self, step: Step) -> QuietButton:
        number = STEPS.index(step) + 1
        name = f"photo_step_{step.lower().replace(' ', '_')}"
        button = QuietButton(f"{number}  {tr(step)}", name, self)
        button.setAccessibleName(tr("Step {number}, {step}", number=number, step=tr(step)))
        one_of_several(button, partial(self._turn, step))
        return button

    def _listen(self) -> None:
        self.view.marked.connect(self._marked)
        self.view.said.connect(self._hint.say)
        self._place.clicked.connect(self.view.place_mark)
        self._remove.clicked.connect(lambda: self.view.remove_mark(self._last_key()))
        self._take.clicked.connect(self._take_readings)
        self._known.editingFinished.connect(self._type_known)
        self._coin.activated.connect(self._choose_coin)

    def _lay_out(self) -> None:
        group = QButtonGroup(self)
        steps = QHBoxLayout()
        steps.setSpacing(6)
        for button in self._steps.values():
            group.addButton(button)
            steps.addWidget(button)
        steps.addStretch(1)
        self._coin.addItem(TYPED, None)
        for words, diameter_in in photo_words.coin_choices():
            self._coin.addItem(words, diameter_in)
        self._coin.setMinimumContentsLength(18)
        self._coin.setToolTip(photo_words.COINS_FROM)
        self._state.setToolTip(photo_words.FINENESS_FROM)
        sized(self._known, width=KNOWN_PX)
        Teller(self._known, lambda: self._known.setPlaceholderText(either("1, 25 mm", "25")))
        scale = QHBoxLayout(self._scale_row)
        scale.setContentsMargins(0, 0, 0, 0)
        known = Caption("", self)
        follow_unit(known, "in", tr("Known distance"))
        for each in (known, self._known, Caption(tr("or a coin")), self._coin):
            scale.addWidget(each)
        scale.addStretch(1)
        hint = QHBoxLayout()
        hint.setSpacing(10)
        hint.addWidget(self._hint, 1)
        for link in (self._place, self._remove):
            hint.addWidget(link, 0, Qt.AlignmentFlag.AlignTop)
        # Beside what it takes: at 800 pixels of height both stay in sight below the picture.
        told = QHBoxLayout()
        told.setSpacing(14)
        told.addWidget(self._state, 1)
        told.addWidget(self._take, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addLayout(steps)
        column.addLayout(hint)
        column.addWidget(self._scale_row)
        column.addWidget(self._known_words)
        column.addWidget(self.view, 1)
        column.addLayout(told)
        column.addWidget(self._change)
        column.addWidget(self._done)
        caution = Caption("", self, wrap=True)
        follow(caution, photo_words.caution)
        column.addWidget(caution)
        self.view.setToolTip(photo_words.KEYS)


def image_of(photo: Photo) -> QImage:
    """A photograph decoded whole; a null image where its bytes are lost or no picture."""
    try:
        return QImage.fromData(photo.data_b64.data())
    except OwnerError:
        return QImage()


def _hold_room(words: Words, lines: int) -> None:
    """Keep the room of so many lines, said or not: the picture between must not move."""
    policy = words.sizePolicy()
    policy.setRetainSizeWhenHidden(True)
    words.setSizePolicy(policy)
    sized(words, least_height=lines * LINE_PX)
    words.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)


def _first_open(ruler: PhotoRuler | None) -> Step:
    """The first step that is not done yet; thatch ends where all is marked."""
    for step in STEPS:
        if step == "Thatch ends" and ruler is not None and ruler.thatch_ends:
            continue
        if photo_marks.is_open(ruler, step):
            return step
    return "Thatch ends"
