"""The paper form, from the plugs page: printed or saved for the place that is shown."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from lawnbook.desk.dialogs import file_stem
from lawnbook.desk.pages.place_picker import spots_at
from lawnbook.desk.pages.print_row import PrintRow
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Place
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

if TYPE_CHECKING:
    from lawnbook.desk.printing import PageOut
    from lawnbook.sheet.layout import PaperName

WORDS = (tr("Print a paper form…"), tr("Save the form as PDF…"))


class PaperFormRow(PrintRow):
    """The buttons of the form for the next plugs of a place."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__("plug_form", WORDS, tr("the paper form for the next plugs"), parent)
        self._book = book

    def show_place(self, plan: Plan, place: Place) -> None:
        """Give the form for a place's spots as the plan of a day has them."""
        notebook = self._book.notebook
        here = {each.id for each in spots_at(notebook, place)}
        spots = tuple(each for each in plan.next_plugs if each.spot_id in here)
        of_place = replace(plan, next_plugs=spots)

        def make(paper: "PaperName") -> "PageOut":
            from lawnbook.desk.printing import PageOut
            from lawnbook.session.planning import takes_long
            from lawnbook.sheet.documents import plug_form_document

            title, draw = plug_form_document(notebook, of_place, paper)
            stem = file_stem(tr("{yard} plugs to pull", yard=plan.yard)).strip() or tr(
                "plugs to pull"
            )
            start = self._book.path.with_name(f"{stem} {plan.on.isoformat()}.pdf")
            return PageOut(title, start, paper, draw, is_long=takes_long(notebook))

        self.show_page(make)
