"""The entry of a plug: everything by keys, its photographs beside it, and where to pull it.

Several plugs of one day at one spot are replicates: spot, day and ruler stay for the next one.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from lawnbook.desk.figures import let_open
from lawnbook.desk.line_fields import SHORT, ChoiceBox
from lawnbook.desk.pages import plug_words
from lawnbook.desk.pages.entry_panel import Answer, EntrySetting
from lawnbook.desk.pages.photo_tray import PhotoTray
from lawnbook.desk.pages.place_picker import called, spots_at
from lawnbook.desk.pages.plug_draft import PlugPanel
from lawnbook.desk.pages.plug_fields import (
    FRESH_DAYS,
    HEADS,
    HOUR_COLUMN,
    LABELS,
    MEASURED_ROWS,
    NAMES,
    NARROW_PX,
    NOTE_COLUMN,
    SPANS,
    SPOT_COLUMN,
    SPREAD_COLUMN,
    USUAL,
    WORMS_COLUMN,
    last_ruler,
    ruler_written,
    usual_rulers,
)
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.presets import PresetMenu
from lawnbook.desk.telling import Teller, either
from lawnbook.desk.widgets import Caption, Card, LinkButton, Words, mark_role
from lawnbook.plan.core_workings import core_workings
from lawnbook.plan.model import Plan
from lawnbook.plan.place_workings import place_workings
from lawnbook.plan.plug_clash import clash_words
from lawnbook.plan.plug_model import Place, PlugPlace, SpotThatch
from lawnbook.plan.plug_places import next_place
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Change, put
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core


class PlugEntry(Card):
    """The form of a plug, with the list of those of its spot.

    `spot_chosen` tells that the owner chose another spot for a new plug, `kept` the plug that was
    kept, and `photo_asked` the photograph that was clicked.
    """

    spot_chosen = Signal(str)
    kept = Signal(str)
    photo_asked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self.setObjectName("plug_entry")
        self._book = book
        self._listed: tuple[SpotThatch, ...] = ()
        self._all: Mapping[str, SpotThatch] = {}
        self._rulers: PresetMenu | None = None
        self._first = next(iter(book.notebook.spots), "")
        self._ruler = last_ruler(book.notebook)
        self._proposed: PlugPlace | None = None
        self._fresh = True
        self._date_typed = False
        self._heading = Words(tr("New plug"), "heading", self)
        self._untreated = Caption("", self)
        self._untreated.setObjectName("plug_untreated")
        self._place_words = Words("", "caption", self)
        self._place_words.setObjectName("plug_place")
        let_open(self._place_workings, self._place_words)
        self._date_words = Words("", "caption", self)
        self._date_words.setObjectName("plug_date_words")
        self.take_date = LinkButton(tr("Take that day"), "plug_take_date", self)
        self._camera_day: date | None = None
        self._in_form = ""
        self._was_new = True
        self.tray = PhotoTray(book, self)
        self.tray.paste_on(self)
        self.panel = PlugPanel(book, self._setting(), self)
        self._dress_ruler()
        self._tell_ruler()
        self._lay_out()
        self._listen()
        self._say_date("")

    def show_place(self, plan: Plan, place: Place) -> None:
        """List the plugs of a place; a new plug is of its spot, and keeps all else that is typed.

        For several spots the new plug's stays among them, the first where it is of none.
        """
        here = spots_at(self._book.notebook, place)
        ids = {each.id for each in here}
        self._listed = tuple(each for each in plan.thatch if each.spot_id in ids)
        self._all = {each.spot_id: each for each in plan.thatch}
        self._offer_spots()
        held = self.spot_id()
        wanted = held if held in ids else here[0].id if here else held
        self._first = wanted
        if not self.panel.is_open and wanted != held:
            self.panel.form.set_value("spot", wanted)
        several = place.kind != "spot"
        self.panel.table.setColumnHidden(SPOT_COLUMN, not several)
        # Several spots' list has no room for what is read off one spot's.
        self.panel.table.setColumnHidden(SPREAD_COLUMN, several)
        self.panel.refresh()
        hours = any(each.clock for spot in self._listed for each in spot.columns)
        self.panel.table.setColumnHidden(HOUR_COLUMN, several or not hours)
        self.tray.show_core(self._in_form)
        self._propose()

    def open_plug(self, core_id: str) -> None:
        """Bring a kept plug into the form; a new one half entered waits until it is left."""
        self.panel.open_record(core_id)
        self.panel.table.pick(core_id)

    def begin(self, spot_id: str, on: date) -> None:
        """A new plug of a spot and a day. What is typed of one already stays, its day too."""
        if self.panel.is_open:
            self.panel.clear()
        self.panel.form.set_value("spot", spot_id)
        if not self._date_typed:
            self.panel.form.set_value("date", on)
        self._first = spot_id
        self._propose()
        self.panel.examine()

    def take_readings(self, values: Mapping[str, Any]) -> None:
        """Fill in what was read off a photograph: fields of a plug by name."""
        for name, value in values.items():
            self.panel.form.set_value(name, value)
        self._tell_ruler()
        self.panel.examine()

    def spot_id(self) -> str:
        """The spot in the form."""
        return str(self.panel.form.readable().get("spot") or "")

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="cores",
            noun="plug",
            names=NAMES,
            heads=HEADS,
            rows=self._rows,
            title=self._undo_words,
            given=self._given,
            answer=self._answer,
            complete=self._complete,
            along=self._photos_along,
            empty=tr("No plug of this spot yet."),
            words_columns=(0, SPOT_COLUMN, NOTE_COLUMN),
            columns=12,
            spans=SPANS,
            labels=LABELS,
            most_rows=8,
            stays=("spot", "date", "resolution_in"),
            workings=lambda core_id: core_workings(self._book.notebook, core_id),
        )

    def _given(self) -> Mapping[str, Any]:
        known = self._first or None
        return {"spot": known, "date": self._book.today, "resolution_in": self._ruler}

    def _rows(self) -> Sequence[Row]:
        """The plugs listed, the latest first."""
        told = [
            (each, spot.spot, of_day.get(each.core_id, ""))
            for spot in self._listed
            for of_day in (plug_words.of_day(spot.columns),)
            for each in spot.columns
        ]
        told.sort(key=lambda each: each[0].date, reverse=True)
        return [
            Row(column.core_id, cells)
            for column, spot, of_its_day in told
            for cells in (plug_words.row_cells(column, spot, of_its_day),)
        ]

    def _undo_words(self, core: Core) -> str:
        spot = self._book.notebook.spots.get(core.spot)
        return tr("plug of {date}", date=day(core.date)) + (
            tr(" at {name}", name=spot.name) if spot is not None else ""
        )

    def _answer(self, values: Mapping[str, Any]) -> Answer:
        spot = self._all.get(str(values.get("spot") or ""))
        return plug_words.live_answer(values, spot, self.panel.open_id), ""

    def _complete(self, core: Core) -> Core:
        """The plug as entered; not while one of its photographs is still being read."""
        if core.id != self._in_form and self.tray.is_reading():
            raise OwnerError(tr("A photo is still being read; wait a moment, or stop it."))
        return core

    def _photos_along(self, core: Core) -> Change:
        """The photographs that wait for a new plug: one Change keeps them with it."""
        self._was_new = core.id != self._in_form
        if not self._was_new:
            return {}
        return put(self._book.notebook, "photos", *self.tray.photos_for(core.id))

    def _changed(self) -> None:
        """A spot chosen for a new plug is told; the place follows spot and day."""
        values = self.panel.form.readable()
        chosen = str(values.get("spot") or "")
        if not self.panel.is_open and chosen and chosen != self._first:
            self._first = chosen
            self.spot_chosen.emit(chosen)
        self._propose()

    def _propose(self) -> None:
        """Fill in the next free hour as long as the owner has not said where; say what it is."""
        values = self.panel.form.readable()
        self._tell_untreated(str(values.get("spot") or ""))
        typed = (values.get("clock", -1), values.get("ring_in", -1))
        proposed = self._proposed
        held = (proposed.clock, proposed.ring_in) if proposed is not None else (None, None)
        if self.panel.is_open or (typed != held and not self._fresh):
            self._place_words.say(self._said_of(values), "ask")
            return
        self._fresh = False
        on, spot_id = values.get("date"), str(values.get("spot") or "")
        self._proposed = self._next(spot_id, on) if on is not None else None
        place = self._proposed
        self.panel.form.set_value("clock", place.clock if place is not None else None)
        self.panel.form.set_value("ring_in", place.ring_in if place is not None else None)
        self._place_words.say(
            plug_words.place_told(place, on, self._book.today, FRESH_DAYS), "caption"
        )

    def _tell_untreated(self, spot_id: str) -> None:
        """Say whole that a spot is left untreated: the closed box has no room for it."""
        spot = self._book.notebook.spots.get(spot_id)
        self._untreated.say(plug_words.UNTREATED if spot is not None and spot.comparison else "")
        whole = "" if spot is None else called(spot)
        self.panel.form.editor("spot").setToolTip(whole)

    def _next(self, spot_id: str, on: date) -> PlugPlace | None:
        recent = timedelta(0) <= self._book.today - on <= timedelta(days=FRESH_DAYS)
        return next_place(self._book.notebook, spot_id, on) if recent else None

    def _place_workings(self) -> Sequence[Working]:
        """How the place that is proposed came about."""
        on = self.panel.form.readable().get("date")
        if self._proposed is None or on is None or self.panel.is_open:
            return ()
        return place_workings(self._book.notebook, self.spot_id(), on)

    def _said_of(self, values: Mapping[str, Any]) -> str:
        """What is wrong with the hour that the owner typed, empty where it is free."""
        spot_id, on = str(values.get("spot") or ""), values.get("date")
        if on is None or not spot_id or values.get("clock") is None:
            return ""
        core = Core(
            id=self.panel.open_id or "new",
            spot=spot_id,
            date=on,
            clock=values["clock"],
            ring_in=values.get("ring_in"),
        )
        return clash_words(self._book.notebook, core)

    def _opened(self, core_id: str) -> None:
        core = self._book.notebook.cores.get(core_id)
        self._tell_ruler()
        self._heading.setText(
            tr("New plug") if core is None else tr("Plug of {date}", date=day(core.date))
        )
        self._date_typed = False
        self._say_date("")
        self._fresh = core is None
        self._proposed = None
        self._in_form = core_id
        self.tray.show_core(core_id)
        if core is None and self.panel.draft.take_up():
            self._fresh = False
        self._propose()

    def _kept(self, core_id: str) -> None:
        core = self._book.notebook.cores.get(core_id)
        if self._was_new:
            self.tray.clear()
        if core is not None:
            self._ruler = core.resolution_in
        self.kept.emit(core_id)

    def _date_proposed(self, taken: object) -> None:
        """The day the camera wrote fills the field, unless the owner has typed one."""
        held = self.panel.form.readable().get("date")
        if not isinstance(taken, date) or taken == held:
            return
        if self._date_typed or self.panel.is_open:
            self._camera_day = taken
            self._say_date(
                tr("The photo says {taken}; the day entered stays.", taken=day(taken)), ask=True
            )
            return
        self.panel.form.set_value("date", taken)
        self._say_date(
            tr("Day taken from the photo: {taken}. Type another if it is wrong.", taken=day(taken))
        )
        self._changed()

    def _take_camera_day(self) -> None:
        if self._camera_day is not None:
            self.panel.form.set_value("date", self._camera_day)
            self._say_date("")
            self._changed()

    def _say_date(self, words: str, *, ask: bool = False) -> None:
        self._date_words.say(words)
        self.take_date.setVisible(ask)

    def _offer_spots(self) -> None:
        spots = self._book.notebook.spots.values()
        self.panel.form.offer("spot", [(each.id, called(each)) for each in spots])
        box = self.panel.form.editor("spot")
        if isinstance(box, ChoiceBox):
            for each in spots:
                # The narrow box has no room for more: what it is is said in the card's head.
                box.setItemData(box.findData(each.id), each.name, SHORT)

    def _dress_ruler(self) -> None:
        field = self.panel.form.editor("resolution_in")
        if isinstance(field, QLineEdit):
            menu = self._rulers = PresetMenu(field, usual_rulers(), tr("rulers"))
            Teller(menu, lambda: menu.offer(usual_rulers()))
            Teller(field, lambda: field.setPlaceholderText(either("1/16", "1 mm")))
            # In the narrow field the text may come nearer to the menu's arrow.
            field.setTextMargins(-2, 0, -6, 0)

    def retell(self) -> None:
        """The form in the owner's units; a usual ruler is written as it is called."""
        self.panel.retell()
        if self._rulers is not None:
            self._rulers.name()
        held = self.panel.form.readable().get("resolution_in")
        if held in USUAL.values():
            self.panel.form.set_value("resolution_in", held)
            self._tell_ruler()

    def _tell_ruler(self) -> None:
        """Write a usual ruler as it is called: 1/16, not 0.0625."""
        field = self.panel.form.editor("resolution_in")
        held = self.panel.form.readable().get("resolution_in")
        if isinstance(field, QLineEdit) and (told := ruler_written(held)):
            field.setText(told)
            # A narrow field shows how it begins.
            field.setCursorPosition(0)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self._heading)
        head.addWidget(self._untreated)
        head.addWidget(Caption(tr("keys only: Tab through, Enter keeps it")))
        head.addStretch(1)
        self.body.addLayout(head)
        self.body.addWidget(Caption(plug_words.DIG, wrap=True))
        dated = QHBoxLayout()
        dated.addWidget(self._date_words, 1)
        dated.addWidget(self.take_date)
        self.panel.body.insertLayout(1, dated)
        self.panel.body.insertWidget(2, self._place_words)
        self.panel.body.insertWidget(3, self.tray)
        self.body.addWidget(self.panel)
        mark_role(self.panel.keep_button, "primary")
        self.panel.table.stretch(NOTE_COLUMN)
        self.panel.table.spare((WORMS_COLUMN, NOTE_COLUMN), NARROW_PX)
        self.panel.table.horizontalHeader().setResizeContentsPrecision(MEASURED_ROWS)

    def _listen(self) -> None:
        self.panel.opened.connect(self._opened)
        self.panel.kept.connect(self._kept)
        self.panel.form.changed.connect(self._changed)
        self.tray.date_proposed.connect(self._date_proposed)
        self.tray.open_asked.connect(self.photo_asked)
        self.tray.readings.connect(self.take_readings)
        self.take_date.clicked.connect(self._take_camera_day)
        if isinstance(day_field := self.panel.form.editor("date"), QLineEdit):
            day_field.textEdited.connect(self._day_edited)

    def _day_edited(self) -> None:
        self._date_typed = True
        self._say_date("")
