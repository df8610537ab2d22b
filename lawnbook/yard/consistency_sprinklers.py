"""Rules of heads and catch tests: where they stand, how far they throw, where the cans are."""

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lawnbook.agronomy.profiles import PROFILES as ALL_PROFILES
from lawnbook.reading import is_metric, tr
from lawnbook.yard import geometry
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.limits import Complaint, amount, ask, refuse
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import (
    CatchTest,
    Head,
)

if TYPE_CHECKING:
    from lawnbook.agronomy.throw import Sprinkler


PROFILES = tuple(ALL_PROFILES)


LEAST_SHARE_OF_THROW = 1e-6


CAN_SLACK_FT = 0.5

FARTHEST_FT = 1e5


def drawable(*outlines: Outline) -> bool:
    """Whether all corners are near enough to reckon with; the field's own rule says so if not."""
    return all(abs(each) <= FARTHEST_FT for ring in outlines for corner in ring for each in corner)


def head_complaints(head: Head, notebook: Notebook) -> Iterator[Complaint]:
    """What speaks against a head: its profile, its throw, where it stands."""
    profile = head.profile
    if isinstance(profile, str) and profile not in PROFILES:
        known = tr("cone, flat or doughnut, or a list of depths from the head outward")
        yield refuse(
            "profile",
            tr(
                'Radial profile "{profile}" is not known; enter {known}.',
                profile=profile,
                known=known,
            ),
        )
    if isinstance(profile, tuple) and (
        len(profile) < 2 or min(profile) < 0 or not 0 < max(profile) < float("inf")
    ):
        mend = tr("enter at least two depths from the head outward, none below 0 and not all 0")
        yield refuse("profile", tr("Radial profile cannot be used as it is; {mend}.", mend=mend))
    yield from _throw(head, notebook)


def _throw(head: Head, notebook: Notebook) -> Iterator[Complaint]:
    """Whether a head stands in the yard and reaches its zone; silent where nobody can tell."""
    # Imported here, for it works in arrays: a start should not wait for numpy.
    from lawnbook.agronomy.throw import share_within

    zone = notebook.zones.get(head.zone)
    sprinkler = _as_thrown(head)
    if zone is None or sprinkler is None or not drawable(zone.outline_ft, *zone.holes_ft):
        return
    away = _outside_ft(head.at_ft, notebook)
    if away > head.radius_ft:
        yield ask(
            "at_ft",
            tr(
                "This head stands {amount} outside the yard as drawn, farther than it "
                "throws; move it, or keep it all the same.",
                amount=amount(away, "ft", 0),
            ),
        )
    elif share_within(sprinkler, zone.outline_ft, zone.holes_ft) < LEAST_SHARE_OF_THROW:
        yield ask(
            "at_ft",
            tr(
                "This head's throw does not reach {name}; move it, turn its arc or "
                "choose another zone, or keep it all the same.",
                name=zone.name,
            ),
        )


def _as_thrown(head: Head) -> "Sprinkler | None":
    """The ground a head throws on; None while its own figures are refused."""
    from lawnbook.agronomy.throw import Sprinkler

    try:
        return Sprinkler(
            at_ft=head.at_ft,
            radius_ft=head.radius_ft,
            start_deg=head.start_deg,
            sweep_deg=head.sweep_deg,
            flow_gpm=1.0,
            profile=ALL_PROFILES["flat"],
        )
    except ValueError:
        return None


def _outside_ft(point: Point, notebook: Notebook) -> float:
    """How far a point is from the box round all zones and features; 0 within it."""
    drawn = [zone.outline_ft for zone in notebook.zones.values()]
    drawn += [feature.outline_ft for feature in notebook.features.values()]
    outlines = [each for each in drawn if drawable(each)]
    if not any(outlines):
        return 0.0
    west, south, east, north = geometry.bounds_ft(outlines)
    x, y = point
    return math.hypot(max(west - x, 0.0, x - east), max(south - y, 0.0, y - north))


def catch_test_complaints(test: CatchTest, notebook: Notebook) -> Iterator[Complaint]:
    """What speaks against a catch test: its readings, and where its cans stood."""
    cans = test.volumes_ml or test.depths_in
    if test.volumes_ml and test.depths_in:
        sentence = tr("Enter volumes with the can mouth, or depths: one of them, not both.")
        yield refuse("depths_in", sentence)
    elif not cans:
        sentence = tr("Enter what the cans caught, as volumes with the can mouth or as depths.")
        yield refuse("volumes_ml", sentence)
    elif not any(cans):
        caught = "depths_in" if test.depths_in else "volumes_ml"
        yield refuse(
            caught, tr("Every can is empty; enter what they caught, or leave the test out.")
        )
    elif len(cans) == 1:
        caught = "depths_in" if test.depths_in else "volumes_ml"
        yield ask(
            caught, tr("One can shows no evenness; enter two or more, or keep it all the same.")
        )
    if test.volumes_ml and test.can_mouth_sqin is None:
        area = tr("square centimetres") if is_metric() else tr("square inches")
        sentence = tr(
            "Volumes need the can mouth in {area}: 0.785 × diameter × diameter.", area=area
        )
        yield refuse("can_mouth_sqin", sentence)
    if test.at_ft and len(test.at_ft) != len(cans):
        sentence = tr(
            "Places are given for {placed} of {cans} cans; give one for each.",
            placed=len(test.at_ft),
            cans=len(cans),
        )
        yield refuse("at_ft", sentence)
    yield from _stray_cans(test, notebook)


def _stray_cans(test: CatchTest, notebook: Notebook) -> Iterator[Complaint]:
    """Whether cans stand outside their zone, by more than a can is wide."""
    zone = notebook.zones.get(test.zone)
    if zone is None or not drawable(test.at_ft, zone.outline_ft, *zone.holes_ft):
        return
    outline, holes = zone.outline_ft, zone.holes_ft
    strays = [
        number
        for number, point in enumerate(test.at_ft, start=1)
        if len(outline) > 2
        and not geometry.contains(outline, point, holes)
        and geometry.distance_to_edge_ft(outline, point, holes) > CAN_SLACK_FT
    ]
    if strays:
        few = ", ".join(map(str, strays[:6])) + (tr(" and more") if len(strays) > 6 else "")
        which = (
            tr("Can {few} stands", few=few) if len(strays) == 1 else tr("Cans {few} stand", few=few)
        )
        told = tr(
            "{which} outside {name}; move what is misplaced, or keep all the same.",
            which=which,
            name=zone.name,
        )
        yield ask("at_ft", told, f"at_ft[{strays[0] - 1}]")
