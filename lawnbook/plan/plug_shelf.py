"""What is reckoned of a spot's or a zone's plugs, kept from plan to plan while they are the same.

A `SpotTold` depends on its spot, its plugs and the latitude; the figures of a zone or of the yard
on the plugs they compare and the latitude; neither on the day of the plan. Each is taken from the
shelf where all of that is equal, which records that stayed the same objects are at once, and made
anew otherwise. A shelf only saves work: with an empty one every plan is the same.
"""

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from lawnbook.frozen import dataclass
from lawnbook.kept import Kept
from lawnbook.plan.evidence_figures import EvidenceFigures
from lawnbook.plan.plug_model import Finding, Place
from lawnbook.plan.plug_series import Compared, SpotPlugs
from lawnbook.plan.spot_findings import spot_findings
from lawnbook.yard.records import Core, Spot

T = TypeVar("T")


@dataclass(frozen=True)
class SpotTold:
    """One spot's plugs at a latitude; their figures and findings are made when first asked."""

    plugs: SpotPlugs
    latitude_deg: float

    @Kept
    def figures(self) -> EvidenceFigures:
        """The figures of the spot by itself."""
        return EvidenceFigures(self.plugs.compared, self.latitude_deg)

    @Kept
    def _findings(self) -> dict[tuple[str, bool], tuple[Finding, ...]]:
        return {}

    def findings(self, zone_id: str, *, wetted: bool) -> tuple[Finding, ...]:
        """What the plugs say in words; `wetted` where water fell within a day of the latest."""
        asked = zone_id, wetted
        if asked not in self._findings:
            self._findings[asked] = tuple(spot_findings(self.plugs, zone_id, wetted=wetted))
        return self._findings[asked]


class PlugShelf:
    """The last `SpotTold` of each spot and the last figures of each zone and of the yard."""

    def __init__(self) -> None:
        """An empty shelf."""
        self._spots: dict[str, SpotTold] = {}
        self._places: dict[Place, EvidenceFigures] = {}
        self._parts: dict[str, tuple[tuple[object, ...], Any]] = {}

    def told(self, spot: Spot, cores: tuple[Core, ...], latitude_deg: float) -> SpotTold:
        """What is told of a spot; its `cores` are given in date order."""
        held = self._spots.get(spot.id)
        made = SpotTold(SpotPlugs(spot, cores), latitude_deg)
        if held is not None and held == made:
            return held
        self._spots[spot.id] = made
        return made

    def figures(self, place: Place, compared: Compared, latitude_deg: float) -> EvidenceFigures:
        """The figures of a zone's or the yard's compared plugs."""
        held = self._places.get(place)
        same = held is not None and held.latitude_deg == latitude_deg
        if held is not None and same and held.compared == compared:
            return held
        made = EvidenceFigures(compared, latitude_deg)
        self._places[place] = made
        return made

    def part(self, spot_id: str, made_from: tuple[object, ...], make: Callable[[], T]) -> T:
        """The last thing made of a spot, if it was made from equal things; else made now."""
        held = self._parts.get(spot_id)
        if held is not None and held[0] == made_from:
            kept: T = held[1]
            return kept
        made = make()
        self._parts[spot_id] = made_from, made
        return made

    def keep_only(self, spot_ids: Iterable[str], zone_ids: Iterable[str]) -> None:
        """Let go of spots and zones that are not there any more."""
        there, zones = set(spot_ids), set(zone_ids)
        for gone in [each for each in list(self._spots) if each not in there]:
            self._spots.pop(gone, None)
            self._parts.pop(gone, None)
        for place in list(self._places):
            if place.kind == "zone" and place.id not in zones:
                self._places.pop(place, None)
