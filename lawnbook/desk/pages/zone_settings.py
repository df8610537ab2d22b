"""What the owner enters about one zone, in a few groups; each field is kept as it is left."""

from collections.abc import Mapping, Sequence
from dataclasses import field

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QCompleter, QLineEdit, QVBoxLayout, QWidget

from lawnbook.agronomy.microclimate import MICROCLIMATES
from lawnbook.agronomy.turf import SPECIES
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.presets import PresetMenu
from lawnbook.desk.telling import Label, either, follow_label
from lawnbook.desk.theme import UI_POINTS, sans
from lawnbook.desk.widgets import Caption, Words
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import told


@dataclass(frozen=True, slots=True)
class Group:
    """Some fields under a heading: a word of help, and how they are set."""

    heading: str
    names: Sequence[str]
    help: Label = ""
    columns: int = 3
    spans: Mapping[str, int] = field(default_factory=dict)
    labels: Mapping[str, Label] = field(default_factory=dict)


def _held_by_thatch() -> str:
    """The label of what thatch holds."""
    return tr(
        "Water held by thatch, {unit} (assumed)", unit=either(tr("in per in"), tr("mm per mm"))
    )


def _empty_words() -> str:
    """What holds where the depths are left empty."""
    return tr(
        "Empty: the yard's target, 0.40 for cool-season grass or 0.50 for warm, {roots} of roots; "
        "and {held} of water kept by each {inch} of thatch, which is an assumption, not a "
        "measurement.",
        roots=either("6 in", told(6, 1, "in")),
        held=either("0.1 in", "0.1 mm"),
        inch=either(tr("inch"), "mm"),
    )


HOSE_ONLY, TIMER_ONLY = ("hose_places",), ("program",)

WATER_GROUPS = (
    Group(
        tr("Ground"),
        ("soil", "slope_pct", "microclimate"),
        tr("What the place does to water use: the mark in the field lists usual factors."),
    ),
    Group(
        tr("Sprinklers"),
        (
            "irrigated",
            "sprinklers",
            "hose_places",
            "program",
            "flow_gpm",
            "precipitation_in_per_h",
        ),
        tr("The best evidence is taken: catch test, then meter, then heads, then the typed rate."),
        labels={"hose_places": tr("Places it is set down at")},
    ),
    Group(
        tr("How deep"),
        (
            "target_depth_in",
            "allowed_depletion",
            "default_root_depth_in",
            "thatch_water_in_per_in",
        ),
        _empty_words,
        columns=2,
        labels={"thatch_water_in_per_in": _held_by_thatch},
    ),
    Group(
        tr("Turf"),
        ("name", "grass", "species", "established"),
        spans={"established": 3},
    ),
    Group(tr("How it was watered before"), ("habit",), columns=3, spans={"habit": 2}),
)


class ZoneSettings(QWidget):
    """The groups of one zone's fields."""

    def __init__(
        self,
        book: OpenNotebook,
        groups: Sequence[Group] = WATER_GROUPS,
        prefix: str = "zone_",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._book = book
        self._forms: list[LiveForm] = []
        self._form_of: dict[str, LiveForm] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for group in groups:
            if self._forms:
                column.addSpacing(10)
            if group.heading:
                heading = Words(group.heading, wrap=False)
                heading.setFont(sans(UI_POINTS, QFont.Weight.DemiBold))
                column.addWidget(heading)
            setting = FormSetting(
                today=book.today, prefix=prefix, spans=group.spans, labels=group.labels
            )
            form = LiveForm(book, "zones", group.names, self, group.columns, setting)
            if "species" in group.names:
                _propose_species(form)
            if "microclimate" in group.names:
                _propose_microclimates(form)
            column.addWidget(form)
            if group.help:
                helping = Caption("", wrap=True)
                follow_label(helping, group.help)
                column.addWidget(helping)
            self._forms.append(form)
            self._form_of.update(dict.fromkeys(group.names, form))

    def offer(self, name: str, choices: Sequence[tuple[str, str]]) -> None:
        """The (id, name) pairs a reference may lead to; KeyError for a field not shown."""
        self._form_of[name].form.offer(name, choices)

    def show_zone(self, zone_id: str) -> None:
        """Show a zone as the notebook holds it."""
        for form in self._forms:
            form.show_record(zone_id)
        zone = self._book.notebook.zones.get(zone_id)
        sprinklers = self._form_of.get("sprinklers")
        if zone is not None and sprinklers is not None:
            on_hose = zone.sprinklers == "hose"
            sprinklers.form.show_fields(HOSE_ONLY, on_hose)
            sprinklers.form.show_fields(TIMER_ONLY, not on_hose)


def _propose_species(form: LiveForm) -> None:
    """Offer the species whose nitrogen tables are known; any other may be typed."""
    field = form.form.editor("species")
    if isinstance(field, QLineEdit):
        known = QCompleter(list(SPECIES), field)
        known.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        field.setCompleter(known)


def _propose_microclimates(form: LiveForm) -> None:
    """Offer the usual factors in words; any other may be typed."""
    field = form.form.editor("microclimate")
    if isinstance(field, QLineEdit):
        PresetMenu(field, MICROCLIMATES)
