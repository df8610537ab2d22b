"""The water on the sketch: the map of the sprinkler rate, the cans, and what is said of both."""

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtWidgets import QGraphicsScene

from lawnbook.desk import theme
from lawnbook.desk.sketch.can_items import Can, CanLayer, latest_cans
from lawnbook.desk.sketch.tinting import ColourBy, Legend, legend, rate_legend
from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Head, Record, Zone

if TYPE_CHECKING:
    from lawnbook.desk.sketch.rate_items import RateLayer

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """What the scene draws: drafts stand in for their records, `chosen` is an id or ""."""

    notebook: Notebook
    draft: Mapping[Key, Record]
    by: ColourBy
    chosen: str
    on: date | None

    def shown(self, table: str, record_id: str) -> Record | None:
        """A record as it is drawn."""
        return self.draft.get((table, record_id)) or self.notebook.find(table, record_id)

    def all_of(self, table: str, kind: type[R]) -> dict[str, R]:
        """The records of a table as they are drawn, by their ids."""
        held = self.notebook.table(table)
        drafts = {
            i: each for (where, i), each in self.draft.items() if where == table and i in held
        }
        return {i: each for i, each in {**held, **drafts}.items() if isinstance(each, kind)}


class WaterView:
    """Keeps the map of rates and the cans up with what the scene draws."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene, self._cans = scene, CanLayer(scene)
        self._rates: RateLayer | None = None
        self._drawn: Drawn | None = None
        self._placed: tuple[Point, ...] = ()
        self._picked: int | None = None
        self._tests_shown = False

    def refresh(self, drawn: Drawn) -> None:
        """Draw the water anew where it is another; the map only where zones are coloured by it."""
        self._drawn = drawn
        if drawn.by == "Sprinkler rate":
            zones, heads = drawn.all_of("zones", Zone), drawn.all_of("heads", Head)
            live, palette = bool(drawn.draft), theme.palette()
            self._rate_layer().show(zones, heads, palette, chosen=drawn.chosen, live=live)
        elif self._rates is not None:
            self._rates.hide()
        self._refresh_cans()

    def show_cans(self, places: tuple[Point, ...], picked: int | None, *, tests: bool) -> None:
        """Draw the cans in the making, and with `tests` those of every zone's latest test."""
        self._placed, self._picked, self._tests_shown = places, picked, tests
        self._refresh_cans()

    def can_places(self) -> tuple[Point, ...]:
        """Where cans are drawn, of tests and in the making."""
        return (*self.tested_places(), *self._placed)

    def tested_places(self) -> tuple[Point, ...]:
        """Where the cans of tests are drawn."""
        return tuple(can.at_ft for can in self._cans.tested)

    def told_at(self, at: Point, ft_per_px: float) -> str:
        """What there is to say of a place: the can that stands there, or the rate."""
        can = self._cans.under(at, ft_per_px)
        if can is not None:
            return can.words()
        rated = self._drawn is not None and self._drawn.by == "Sprinkler rate"
        if self._drawn is None or not rated:
            return ""
        from lawnbook.desk.sketch.rate_words import point_words

        return point_words(self._drawn.notebook, at)

    def live_words(self, draft: Mapping[Key, Record]) -> str:
        """Evenness and waste of the zone whose head is being changed; "" where not shown."""
        changed = [each for each in draft.values() if isinstance(each, Head)]
        if self._drawn is None or self._drawn.by != "Sprinkler rate" or len(changed) != 1:
            return ""
        from lawnbook.desk.sketch.rate_words import figures, wasted_share

        zone = self._drawn.notebook.zones.get(changed[0].zone)
        du_lq = self._rate_layer().evenness(changed[0].zone)
        if zone is None or du_lq is None:
            return ""
        heads = self._drawn.all_of("heads", Head).values()
        return figures(du_lq, wasted_share(zone, [each for each in heads if each.zone == zone.id]))

    def legend(self) -> Legend | None:
        """The legend of what the zones are coloured by; None for plain zones."""
        by: ColourBy = self._drawn.by if self._drawn is not None else "Nothing"
        if by != "Sprinkler rate":
            return legend(by, theme.palette())
        ratios = any(can.ratio is not None for can in self._cans.tested)
        return rate_legend(self._rate_layer().borders, theme.palette(), cans=ratios)

    def _rate_layer(self) -> "RateLayer":
        """The map, made when it is first asked for: it is in arrays, and the first paint is not."""
        if self._rates is None:
            from lawnbook.desk.sketch.rate_items import RateLayer

            self._rates = RateLayer(self._scene)
        return self._rates

    def _refresh_cans(self) -> None:
        drawn = self._drawn
        if drawn is None:
            return
        rated = drawn.by == "Sprinkler rate"
        tested: list[Can] = []
        zones, chosen = drawn.notebook.zones, drawn.chosen
        of_all = rated or self._tests_shown
        for zone_id in zones if of_all else filter(zones.__contains__, (chosen,)):
            tested += latest_cans(drawn.notebook, zone_id, drawn.on, drawn.shown)
        self._cans.show(tested, self._placed, self._picked, theme.palette(), coloured=rated)
