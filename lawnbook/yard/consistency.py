"""Rules between the fields of one record, and between a record and those it leads to."""

import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from lawnbook.agronomy import photo_scale
from lawnbook.reading import is_metric, tr
from lawnbook.yard import geometry
from lawnbook.yard.consistency_feed import (
    feeding_complaints,
    product_complaints,
    rules_complaints,
    soil_test_complaints,
    sprayer_run_complaints,
    spreader_run_complaints,
)
from lawnbook.yard.consistency_sprinklers import (
    catch_test_complaints,
    drawable,
    head_complaints,
)
from lawnbook.yard.fields import Outline
from lawnbook.yard.limits import Complaint, amount, ask, refuse
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import MONTHS, day, whole
from lawnbook.yard.records import (
    Backdrop,
    Care,
    CatchTest,
    Core,
    Feature,
    Feeding,
    Head,
    NRules,
    Photo,
    Product,
    Record,
    SoilTest,
    SprayerRun,
    SpreaderRun,
    Watering,
    WeatherDay,
    Yard,
    Zone,
)

LEAST_AREA_SQFT = 0.01
MOST_CORNERS = 5_000
WIDEST_READINGS_IN = 1.0
FEWEST_DAYS = 60
COOLEST_HIGHS_F = 50.0
COOLEST_MONTH_F = 40.0
FARTHEST_WARM_DEG = 60.0
USUAL_MARK_IN = 0.125
"""Between the marks of a ruler of which nothing is known (common practice)."""
_LEAST_OF_A_PLUG = tr("enter at least the thatch or the root depth.")
_ROUNDING = 1e-6


def consistency_complaints(record: Record, notebook: Notebook) -> Iterator[Complaint]:
    """What a record's fields say against each other. References may still lead nowhere here."""
    rule = _RULES.get(type(record))
    if rule is not None:
        yield from rule(record, notebook)


def celsius_complaints(notebook: Notebook) -> Iterator[tuple[str, Complaint]]:
    """A question for a whole table whose temperatures look like °C: the table's name, and it.

    Nowhere within `FARTHEST_WARM_DEG` of the equator do lawns live where the warmest month stays
    below `COOLEST_HIGHS_F` by its mean daily high, or below `COOLEST_MONTH_F` by its mean (common
    practice). An unknown latitude counts as within.
    """
    latitude = notebook.yard.latitude_deg
    if latitude is not None and not abs(latitude) < FARTHEST_WARM_DEG:
        return
    highs = _highs_by_month(notebook)
    if sum(map(len, highs)) >= FEWEST_DAYS:
        warmest = max(sum(each) / len(each) for each in highs if each)
        if warmest < COOLEST_HIGHS_F:
            told = tr(
                "The warmest month's daily highs are {amount} on average",
                amount=amount(warmest, "°F", 0),
            )
            yield "weather", ask("tmax_f", f"{told}; {_if_celsius()}")
    means = [month.tmean_f for month in notebook.climate.values() if month.tmean_f is not None]
    if len(means) == len(MONTHS) and max(means) < COOLEST_MONTH_F:
        told = tr("The warmest month's mean is {amount}", amount=amount(max(means), "°F", 0))
        yield "climate", ask("tmean_f", f"{told}; {_if_celsius()}")


def _highs_by_month(notebook: Notebook) -> list[list[float]]:
    """The daily highs that are known, in twelve lists by calendar month."""
    highs: list[list[float]] = [[] for _ in MONTHS]
    for known in notebook.weather.values():
        if known.tmax_f is not None and math.isfinite(known.tmax_f):
            highs[known.date.month - 1].append(known.tmax_f)
    return highs


def _zone(zone: Zone, _: Notebook) -> Iterator[Complaint]:
    yield from _outline("outline_ft", zone.outline_ft)
    for i, hole in enumerate(zone.holes_ft):
        place = f"holes_ft[{i}]"
        wrongs = list(_outline("holes_ft", hole, place))
        yield from wrongs
        if wrongs or len(zone.outline_ft) < 3 or not drawable(hole, zone.outline_ft):
            continue
        if not geometry.lies_inside(hole, zone.outline_ft):
            sentence = tr("Hole {i} reaches outside its zone; move its corners inside.", i=i + 1)
            yield refuse("holes_ft", sentence, place)
        for j, other in enumerate(zone.holes_ft[:i]):
            if len(other) > 2 and drawable(other) and geometry.overlap(hole, other):
                sentence = tr("Holes {j} and {i} overlap; join them into one.", j=j + 1, i=i + 1)
                yield refuse("holes_ft", sentence, place)


def _outline(field: str, outline: Outline, place: str = "") -> Iterator[Complaint]:
    if not drawable(outline):
        return
    what = tr("A hole") if field == "holes_ft" else tr("An outline")
    if len(outline) < 3:
        sentence = tr(
            "{what} needs at least 3 corners, and has {count}; add corners.",
            what=what,
            count=len(outline),
        )
    elif len(outline) > MOST_CORNERS:
        sentence = tr(
            "{what} has {corners} corners; leave out all but {most}.",
            what=what,
            corners=whole(len(outline)),
            most=whole(MOST_CORNERS),
        )
    elif geometry.crosses_itself(outline):
        sentence = tr(
            "{what}'s sides must not cross or touch each other; move a corner.", what=what
        )
    elif geometry.area_sqft(outline) < LEAST_AREA_SQFT:
        sentence = tr("{what} must enclose some ground; move its corners apart.", what=what)
    else:
        return
    yield refuse(field, sentence, place)


def _feature(feature: Feature, _: Notebook) -> Iterator[Complaint]:
    yield from _outline("outline_ft", feature.outline_ft)


def _core(core: Core, _: Notebook) -> Iterator[Complaint]:
    yield from _within_the_plug(core)
    if not core.thatch_in:
        if not _shows_anything(core):
            yield refuse("thatch_in", tr("A plug must show something: ") + _LEAST_OF_A_PLUG)
        return
    gap = max(core.thatch_in) - min(core.thatch_in)
    if gap > WIDEST_READINGS_IN + _ROUNDING:
        yield ask(
            "thatch_in",
            tr(
                "Thatch readings of one plug differ by {amount}; look at them again, or "
                "keep them all the same.",
                amount=amount(gap, "in", 2),
            ),
        )


def _within_the_plug(core: Core) -> Iterator[Complaint]:
    """What ends below the cut end of its plug was not seen to end.

    Roots are read to the ruler's next mark, so they may seem longer by one.
    """
    length = core.core_depth_in
    if length is None:
        return
    beyond = tr(
        "beyond the plug, which is {amount} long; look at both again",
        amount=amount(length, "in", 2),
    )
    deepest = max(core.thatch_in, default=0.0)
    if deepest > length + _ROUNDING:
        told = tr(
            "Thatch to {amount} reaches {beyond}", amount=amount(deepest, "in", 2), beyond=beyond
        )
        yield ask("thatch_in", tr("{told}, or keep them all the same.", told=told))
    mark = core.resolution_in or USUAL_MARK_IN
    if core.root_depth_in is not None and core.root_depth_in > length + mark + _ROUNDING:
        told = tr(
            "Roots to {amount} reach {beyond}",
            amount=amount(core.root_depth_in, "in", 2),
            beyond=beyond,
        )
        yield ask("root_depth_in", tr("{told}, or keep them all the same.", told=told))


def _shows_anything(core: Core) -> bool:
    """Whether a plug without thatch holds another reading or a word about it."""
    readings = (
        core.root_depth_in,
        core.sponge,
        core.soil_in_thatch,
        core.worms,
        core.thatch_moisture,
        core.soil_moisture,
    )
    return any(each is not None for each in readings) or bool(core.note.strip())


def _watering(watering: Watering, _: Notebook) -> Iterator[Complaint]:
    given = (watering.minutes is not None) + (watering.depth_in is not None)
    if given == 0:
        yield refuse("minutes", tr("A watering needs its minutes or its depth; enter one of them."))
    if given == 2:
        yield refuse("depth_in", tr("Enter the minutes or the depth, not both; clear one of them."))


def _weather(known: WeatherDay, _: Notebook) -> Iterator[Complaint]:
    low_f, high_f = known.tmin_f, known.tmax_f
    if low_f is not None and high_f is not None and low_f > high_f:
        low, high = amount(low_f, "°F"), amount(high_f, "°F")
        sentence = tr(
            "Lowest temperature of {low} is above the highest, {high}; exchange them.",
            low=low,
            high=high,
        )
        yield refuse("tmin_f", sentence)


def _photo(photo: Photo, _: Notebook) -> Iterator[Complaint]:
    if photo.data_b64.sha256 != photo.sha256:
        sentence = tr("The picture does not match its SHA-256; add the photograph again.")
        yield refuse("sha256", sentence)
    width_px, height_px = photo.width_px, photo.height_px
    if (width_px is None) != (height_px is None):
        lacking = "width_px" if width_px is None else "height_px"
        yield refuse(lacking, tr("Enter the picture's width and height in pixels, or neither."))
    elif photo.ruler is not None and (width_px is None or height_px is None):
        sentence = tr(
            "The photo ruler needs the picture's width in pixels, and its height; enter both."
        )
        yield refuse("width_px", sentence)
    elif photo.ruler is not None and width_px is not None and height_px is not None:
        try:
            photo_scale.px_per_in(photo.ruler, width_px, height_px)
        except ValueError as error:
            yield refuse("ruler", str(error), "ruler.scale")


def _backdrop(backdrop: Backdrop, _: Notebook) -> Iterator[Complaint]:
    if backdrop.data_b64.sha256 != backdrop.sha256:
        sentence = tr("The picture does not match its SHA-256; add the picture again.")
        yield refuse("sha256", sentence)
    if (backdrop.scale_ends is None) != (backdrop.scale_ft is None):
        lacking = "scale_ends" if backdrop.scale_ends is None else "scale_ft"
        yield refuse(
            lacking, tr("Give both ends of the known distance and its length, or neither.")
        )
    elif backdrop.scale_ends is not None and backdrop.scale_ends[0] == backdrop.scale_ends[1]:
        yield refuse("scale_ends", tr("The two ends of the known distance lie on one place."))


def _care(care: Care, _: Notebook) -> Iterator[Complaint]:
    """Seed may be sown again only after what keeps it from growing was put down."""
    if care.no_seed_until is not None and care.no_seed_until < care.date:
        yield refuse(
            "no_seed_until",
            tr(
                "No seed before: {no_seed_until} is before the day itself, {date}; "
                "enter a later day, or leave it out.",
                no_seed_until=day(care.no_seed_until),
                date=day(care.date),
            ),
        )


def _yard(yard: Yard, _: Notebook) -> Iterator[Complaint]:
    if (yard.origin_latitude_deg is None) != (yard.origin_longitude_deg is None):
        known_north = yard.origin_latitude_deg is not None
        lacking = "origin_longitude_deg" if known_north else "origin_latitude_deg"
        sentence = tr("The sketch's zero point needs its latitude and its longitude; enter both.")
        yield refuse(lacking, sentence)


_RULES: Mapping[type[Record], Callable[[Any, Notebook], Iterator[Complaint]]] = {
    Zone: _zone,
    Feature: _feature,
    Head: head_complaints,
    CatchTest: catch_test_complaints,
    Core: _core,
    Product: product_complaints,
    Feeding: feeding_complaints,
    NRules: rules_complaints,
    SpreaderRun: spreader_run_complaints,
    SprayerRun: sprayer_run_complaints,
    SoilTest: soil_test_complaints,
    Care: _care,
    Watering: _watering,
    WeatherDay: _weather,
    Photo: _photo,
    Backdrop: _backdrop,
    Yard: _yard,
}


def _if_celsius() -> str:
    if is_metric():
        return tr("if these were °F, enter them again, or keep them all the same.")
    return tr("if these are °C, enter them in °F (× 1.8, + 32), or keep them all the same.")
