"""The colours zones and spots take from the figures of a day, with their legends.

Steps grow darker on light paper (brighter on dark), so that the order can be read without hue
and in print; every step leaves the ink on it readable.
"""

from collections.abc import Callable, Mapping, Sequence
from operator import attrgetter
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, get_args

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.colour_scales import SCALES
from lawnbook.desk.sketch.rate_scale import rate_colours
from lawnbook.desk.theme import mix
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import bare, told, trimmed_bare, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature

if TYPE_CHECKING:
    from lawnbook.plan.day_figures import ByRecord, Figures

ColourBy = Literal[
    "Thatch",
    "Rooted soil",
    "Nitrogen left",
    "Fed in 30 days",
    "Soil water",
    "Run time",
    "Days between",
    "Watering depth",
    "Sprinkler rate",
    "Nothing",
]
CHOICES: tuple[ColourBy, ...] = get_args(ColourBy)


@dataclass(frozen=True, slots=True)
class Tint:
    """The fill of one zone: a hex colour, its figure in words, and whether it is unknown."""

    colour: str
    words: str = ""
    unknown: bool = False


@dataclass(frozen=True, slots=True)
class Legend:
    """The steps of a colour scale: a title, the colours, and the words at their borders.

    `beside` are colours that stand apart from the steps, each with its words; `note` ends the
    legend in words.
    """

    title: str
    colours: tuple[str, ...]
    borders: tuple[str, ...]
    beside: tuple[tuple[str, str], ...] = ()
    note: str = ""


def legend(by: ColourBy, palette: Palette) -> Legend | None:
    """The legend of a colour choice; None where zones are left plain or `rate_legend` serves."""
    if by not in SCALES:
        return None
    scale = SCALES[by]
    title, borders = scale.told()
    return Legend(title, scale.colours(palette), borders)


def _border(rate_in_per_h: float) -> str:
    """A limit between two steps of the sprinkler rate, in the owner's unit."""
    if is_metric():
        return trimmed_bare(rate_in_per_h, 2, "in/h")
    return f"{rate_in_per_h:g}"


def rate_legend(borders: Sequence[float], palette: Palette, *, cans: bool) -> Legend:
    """The legend of the sprinkler rate, whose borders follow the water that is there."""
    colours = rate_colours(palette)
    return Legend(
        tr("Sprinkler rate, {unit}; fainter outside the zones", unit=unit_shown("in/h")),
        colours.steps,
        tuple(_border(border) for border in borders),
        ((colours.dry, tr("under ½ mean")), (colours.wet, tr("over 1½ mean"))),
        tr("Cans: caught under ¾ of the map, or over 1⅓") if cans else "",
    )


def tints(
    notebook: Notebook, figures: "Figures | None", by: ColourBy, palette: Palette
) -> Mapping[str, Tint]:
    """The tint of every zone, by its id. A zone without a figure is left paper and marked."""
    plain = mix(palette.paper, palette.turf, 0.75 if not palette.is_dark else 0.6)
    if figures is None or by == "Nothing":
        return {zone_id: Tint(plain) for zone_id in notebook.zones}
    if by == "Sprinkler rate":
        return _rate_tints(notebook, palette)
    known = _OF_ZONES[by](figures)
    colours = SCALES[by].colours(palette)
    made = {}
    for zone_id in notebook.zones:
        value = known.get(zone_id)
        if value is None:
            made[zone_id] = Tint(mix(palette.paper, palette.turf, 0.12), _UNKNOWN[by], unknown=True)
        else:
            made[zone_id] = Tint(colours[SCALES[by].step(value)], _words(value, by))
    return made


def pin_tint(
    figures: "Figures | None", by: ColourBy, spot_id: str, palette: Palette
) -> Tint | None:
    """The colour of a spot's pin and the figure in it; None where it has neither.

    Thatch and roots are the spot's own. Of nitrogen and water only the zone's figure is known: the
    pin takes its colour, and says nothing. Elsewhere a pin has no colour, and tells the thatch.
    """
    if figures is None:
        return None
    value = _at_spot(figures, by, spot_id)
    if value is None:
        return None
    if by not in SCALES:
        return Tint("", bare(value, 1, "in"))
    colour = SCALES[by].colours(palette)[SCALES[by].step(value)]
    return Tint(colour, bare(value, 1, "in") if by in ("Thatch", "Rooted soil") else "")


def _at_spot(figures: "Figures", by: ColourBy, spot_id: str) -> float | None:
    """The figure of a spot: its own, or its zone's where only that is known."""
    if by in _OF_SPOTS or by not in _OF_ZONES:
        return _OF_SPOTS.get(by, _OF_SPOTS["Thatch"])(figures).get(spot_id)
    return _OF_ZONES[by](figures).get(figures.zone_of_spot.get(spot_id, ""))


def feature_fill(feature: Feature, palette: Palette) -> str:
    """The colour of a feature: water blue, trees green, beds brown, buried lines red; or stone."""
    role, share = {
        "water": ("water", 0.30),
        "pool": ("water", 0.30),
        "tree": ("verdure", 0.42),
        "bed": ("soil", 0.5 if palette.is_dark else 0.26),
        "pet patch": ("worm", 0.5),
        "buried line": ("bad", 0.8),
    }.get(feature.kind, ("stone", 1.0))
    return mix(palette.paper, getattr(palette, role), share)


def _rate_tints(notebook: Notebook, palette: Palette) -> Mapping[str, Tint]:
    """Plain paper for the map to lie on, with each zone's evenness and waste in words."""
    # Imported here, as with all that works in arrays: the first paint does without numpy.
    from lawnbook.desk.sketch.rate_words import label_words

    made = {}
    for zone_id, zone in notebook.zones.items():
        words, known = label_words(notebook, zone)
        ground = palette.paper if known else mix(palette.paper, palette.turf, 0.12)
        made[zone_id] = Tint(ground, words, unknown=not known)
    return made


_OF_ZONES: "Mapping[ColourBy, Callable[[Figures], ByRecord]]" = MappingProxyType(
    {
        "Thatch": attrgetter("thatch_in"),
        "Rooted soil": attrgetter("rooted_soil_in"),
        "Nitrogen left": attrgetter("n_left_this_year"),
        "Fed in 30 days": attrgetter("n_last_30_days"),
        "Soil water": attrgetter("soil_water"),
        "Run time": lambda figures: figures.waters().run_minutes,
        "Days between": lambda figures: figures.waters().interval_days,
        "Watering depth": lambda figures: figures.waters().depth_in,
    }
)

_OF_SPOTS: "Mapping[ColourBy, Callable[[Figures], ByRecord]]" = MappingProxyType(
    {"Thatch": attrgetter("spot_thatch_in"), "Rooted soil": attrgetter("spot_rooted_soil_in")}
)
"""What is known of each spot itself."""

_UNKNOWN: Mapping[ColourBy, str] = MappingProxyType(
    {
        "Thatch": tr("no plug yet"),
        "Rooted soil": tr("no plug yet"),
        "Nitrogen left": tr("no budget"),
        "Fed in 30 days": "",
        "Soil water": tr("no weather yet"),
        "Run time": tr("no run time"),
        "Days between": tr("none planned"),
        "Watering depth": tr("none planned"),
    }
)


def _words(value: float, by: ColourBy) -> str:
    if by == "Nitrogen left":
        return (
            tr("{value} left", value=told(value, 1, "lb"))
            if value >= 0
            else tr("{value} over", value=told(-value, 1, "lb"))
        )
    return _TOLD[by](value)


_TOLD: Mapping[ColourBy, Callable[[float], str]] = MappingProxyType(
    {
        "Thatch": lambda value: tr("thatch {value}", value=told(value, 2, "in")),
        "Rooted soil": lambda value: tr("roots {value}", value=told(value, 1, "in")),
        "Fed in 30 days": lambda value: tr("{value} in 30 days", value=told(value, 2, "lb")),
        "Soil water": lambda value: tr("{value:.0f} % water left", value=100 * value),
        "Run time": lambda value: tr("run {value:.0f} min", value=value),
        "Days between": lambda value: (
            tr("every day") if value == 1 else tr("every {value:.0f} days", value=value)
        ),
        "Watering depth": lambda value: tr("{value} deep", value=told(value, 2, "in")),
    }
)
