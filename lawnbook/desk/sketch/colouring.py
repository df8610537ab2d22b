"""What the sketch is coloured by, and the colours that follow for zones and pins on a day."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.tinting import ColourBy, Tint, pin_tint, tints
from lawnbook.reading import is_metric
from lawnbook.yard.notebook import Notebook

if TYPE_CHECKING:
    from lawnbook.plan.day_figures import Figures


class Colouring:
    """The colours of one notebook on one day; they are made anew only where something changed."""

    def __init__(self) -> None:
        self.by: ColourBy = "Thatch"
        self.figures: Figures | None = None
        self._zones: Mapping[str, Tint] = {}
        self._palette: Palette | None = None
        self._made_of: tuple[object, ...] = (None,) * 5

    def renew(self, notebook: Notebook, palette: Palette) -> None:
        """Bring the colours up to a notebook, a palette, and what they are made by."""
        made_of = (notebook, self.figures, self.by, palette, is_metric())
        if any(a is not b for a, b in zip(made_of, self._made_of, strict=True)):
            self._zones = tints(notebook, self.figures, self.by, palette)
            self._made_of, self._palette = made_of, palette

    def zone(self, zone_id: str) -> Tint | None:
        """The tint of a zone, None for one that is not there."""
        return self._zones.get(zone_id)

    def pin(self, spot_id: str) -> Tint | None:
        """The tint of a spot's pin; None where no plug was read there."""
        return pin_tint(self.figures, self.by, spot_id, self._palette) if self._palette else None
