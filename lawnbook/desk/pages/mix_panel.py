"""A mix of one's own: its name and form, its ingredients, and what they come to, live."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.agronomy.mixes import Analysis
from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.kitchen import EXAMPLES, Example, holds_of, mix_sentence
from lawnbook.desk.pages.mix_rows import MixRows
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.telling import captioned
from lawnbook.desk.widgets import Caption, LinkButton, TextField
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import bare
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product

MIX_HELP = tr(
    "Type what goes in and what its own label or test says it holds. What the "
    "parts truly carry is what counts, here and in every check: none where they "
    "carry none."
)
EXAMPLES_HELP = tr("Examples to begin with, to be checked against your own label or test:")
NO_PARTS = tr("A mix needs ingredients: type the first one below, or take an example.")
BLANK = tr("What the mix holds follows from its ingredients.")


class MixPanel(EntryPanel):
    """The entry of home-made mixes. The shelf's list shows them; this one has none of its own."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        self.rows = MixRows()
        super().__init__(book, self._setting(), parent)
        self.rows.setParent(self)
        self._note = Caption("", self, wrap=True)
        self._note.setObjectName("mix_example_note")
        self._note.hide()
        self.body.insertWidget(0, Caption(MIX_HELP, self, wrap=True))
        self.body.insertWidget(2, self.rows)
        self.body.insertLayout(3, self._examples())
        self.body.insertWidget(4, self._note)
        self.opened.connect(self._opened)
        self.rows.changed.connect(self._typed)
        self.refused.connect(self.rows.mark_lacking)
        self.rows.set_out.connect(lambda: tab_in_reading_order(self))
        self.examine()

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="products",
            prefix="mix",
            noun="mix",
            names=("name", "form", "density_lb_per_gal", "slow_kind"),
            heads=(tr("Mix"),),
            rows=lambda: (),
            title=lambda each: tr("mix {name}", name=each.name),
            given=lambda: {"form": "liquid"},
            answer=self._said_of,
            complete=self._whole,
            columns=4,
            spans={"name": 2},
            labels={"density_lb_per_gal": lambda: captioned(tr("Density"), "lb/gal")},
            answered=lambda _: self._mixed(),
        )

    def _examples(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(2)
        column.addWidget(Caption(EXAMPLES_HELP, self, wrap=True))
        row = QHBoxLayout()
        row.setSpacing(12)
        for example in EXAMPLES:
            name = example.ingredient.name
            button = LinkButton(name, f"mix_add_{name.lower().replace(' ', '_')}", self)
            button.setAccessibleName(tr("Add {name} as an example", name=name.lower()))
            button.setToolTip(example.note)
            button.clicked.connect(lambda _=False, each=example: self._add(each))
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        return column

    def _add(self, example: Example) -> None:
        self._note.say(example.note)
        self.rows.add_example(example)

    def _opened(self, product_id: str) -> None:
        held = self._book.notebook.products.get(product_id)
        self._note.say("")
        self.rows.load(held.ingredients if held else ())
        self.examine()

    def _typed(self) -> None:
        self._trouble.say("")
        self.examine()

    def examine(self) -> None:
        """Say what the mix holds, and show the fields that it has a use for."""
        super().examine()
        liquid = self.form.readable().get("form") == "liquid"
        self.form.show_fields(("density_lb_per_gal",), liquid)
        self.form.show_fields(("slow_kind",), self._holds().slow_n_pct > 0)
        density, known = self.form.editor("density_lb_per_gal"), self._density()
        if isinstance(density, TextField):
            density.setPlaceholderText(
                "" if known is None else tr("about {bare}", bare=bare(known, 2, "lb/gal"))
            )

    def _holds(self) -> Analysis:
        try:
            return holds_of(self.rows.readable())
        except OwnerError:
            return Analysis()

    def _mixed(self) -> Sequence[Working]:
        """How what the mix holds, as typed, came about."""
        from lawnbook.plan.product_workings import mix_workings

        try:
            return mix_workings(self.rows.readable())
        except OwnerError:
            return ()

    def _density(self) -> float | None:
        """What a gallon weighs where every part is a volume: the volumes are taken to add up."""
        gallons = self.rows.gallons()
        try:
            pounds = sum(each.pounds for each in self.rows.ingredients())
        except OwnerError:
            return None
        return pounds / gallons if gallons and pounds > 0 else None

    def _whole(self, product: Product) -> Product:
        """The product with its ingredients, its label's figures those that they come to."""
        parts = self.rows.ingredients()
        if not parts:
            raise OwnerError(NO_PARTS)
        holds = holds_of(parts)
        density = product.density_lb_per_gal
        if product.form == "liquid" and density is None:
            density = self._density()
        return replace(
            product,
            density_lb_per_gal=density,
            ingredients=parts,
            n_pct=holds.n_pct,
            p2o5_pct=holds.p2o5_pct,
            k2o_pct=holds.k2o_pct,
            slow_n_pct=holds.slow_n_pct,
        )

    def _said_of(self, _values: Mapping[str, Any]) -> Answer:
        try:
            parts = self.rows.readable()
        except OwnerError as problem:
            return str(problem), "refuse"
        words = (mix_sentence(parts), self.rows.lacking())
        return " ".join(each for each in words if each) or BLANK, "caption"
