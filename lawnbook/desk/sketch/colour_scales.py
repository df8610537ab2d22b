"""The colour scales of the sketch: where their steps part, and what each step is mixed from."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from lawnbook.charts.palette import Palette
from lawnbook.charts.tokens import SHADE
from lawnbook.desk.telling import captioned
from lawnbook.desk.theme import mix
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import trimmed_bare, unit_shown

Mixture = tuple[tuple[str, float], ...]
"""For each step a role of the palette, and its share in the scale's base."""

HIGH_DARK = 0.95
"""What is left of a share where the roles are brighter, so that ink still reads at 4.5 to 1."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale's limits between steps, and how much of which role each step mixes into its base.

    The limits are of the US `unit`, and `borders` the words for them in it. The base is paper where
    that is light: shares solved for even steps of lightness between luminances 0.80 and 0.29, at
    which ink still reads at 4.5 to 1. Dark paper leaves too little room below that end, so there
    the base is black, and the steps part it evenly: the lowest stands 1.1 to 1 above the paper,
    lest a zone look like a hole in it, and each 1.25 to 1 off the next. Where roles that are
    brighter in high contrast would lose that order there, `on_high` has shares of its own, for
    light and for dark.
    """

    title: str
    unit: str
    limits: tuple[float, ...]
    borders: tuple[str, ...]
    on_light: Mixture
    on_dark: Mixture
    on_high: tuple[Mixture, Mixture] | None = None

    def colours(self, palette: Palette) -> tuple[str, ...]:
        """The colours of the steps in a palette."""
        dark = palette.is_dark
        base, mixture = (SHADE, self.on_dark) if dark else (palette.paper, self.on_light)
        if palette.is_high and self.on_high is not None:
            mixture = self.on_high[dark]
        part = HIGH_DARK if palette.is_high and dark else 1.0
        return _steps(
            base, tuple((getattr(palette, role), share * part) for role, share in mixture)
        )

    def told(self) -> tuple[str, tuple[str, ...]]:
        """Title and limits in the owner's units; a ruler's fractions stay with US readers."""
        if not is_metric() or unit_shown(self.unit) == self.unit:
            return captioned(self.title, self.unit), self.borders
        # Whole millimetres: there is no room for more between the steps.
        places = 1 if self.unit == "in" else 2
        borders = tuple(trimmed_bare(each, places, self.unit) for each in self.limits)
        return captioned(self.title, self.unit), borders

    def step(self, value: float) -> int:
        """The step a value falls in; a value on a limit belongs to the step above."""
        return sum(value >= limit for limit in self.limits)


@lru_cache(maxsize=64)
def _steps(base: str, mixture: Mixture) -> tuple[str, ...]:
    """Colours mixed into a base; hundreds of pins ask for the same at every edit."""
    return tuple(mix(base, colour, share) for colour, share in mixture)


_WATERY_ON_LIGHT: Mixture = (
    ("water", 0.12),
    ("water", 0.25),
    ("water", 0.37),
    ("water", 0.52),
    ("water", 0.71),
)
_WATERY_ON_DARK: Mixture = (
    ("water", 0.25),
    ("water", 0.343),
    ("water", 0.428),
    ("water", 0.512),
    ("water", 0.599),
)

SCALES: Mapping[str, Scale] = MappingProxyType(
    {
        "Thatch": Scale(
            tr("Thatch"),
            "in",
            (0.25, 0.5, 0.75, 1.0),
            ("¼", "½", "¾", "1"),
            (
                ("verdure", 0.15),
                ("verdure", 0.32),
                ("thatch", 0.69),
                ("thatch", 0.96),
                ("accent", 0.63),
            ),
            (
                ("verdure", 0.27),
                ("verdure", 0.364),
                ("warn", 0.397),
                ("accent", 0.523),
                ("bad", 0.624),
            ),
            (
                (
                    ("verdure", 0.155),
                    ("verdure", 0.287),
                    ("thatch", 0.765),
                    ("thatch", 0.998),
                    ("accent", 0.578),
                ),
                (
                    ("verdure", 0.262),
                    ("verdure", 0.359),
                    ("warn", 0.401),
                    ("accent", 0.514),
                    ("bad", 0.644),
                ),
            ),
        ),
        "Rooted soil": Scale(
            tr("Rooted soil"),
            "in",
            (2.0, 4.0, 6.0, 8.0),
            ("2", "4", "6", "8"),
            _WATERY_ON_LIGHT,
            _WATERY_ON_DARK,
        ),
        "Nitrogen left": Scale(
            tr("Nitrogen left this year"),
            "lb per 1,000 sq ft",
            (0.0, 0.5, 1.0, 2.0),
            ("0", "0.5", "1", "2"),
            (
                ("bad", 0.09),
                ("feed", 0.24),
                ("feed", 0.36),
                ("feed", 0.5),
                ("feed", 0.67),
            ),
            (
                ("bad", 0.261),
                ("feed", 0.354),
                ("feed", 0.443),
                ("feed", 0.531),
                ("feed", 0.621),
            ),
        ),
        "Fed in 30 days": Scale(
            tr("Nitrogen of the last 30 days"),
            "lb per 1,000 sq ft",
            (0.1, 0.3, 0.6, 1.0),
            ("0.1", "0.3", "0.6", "1"),
            (
                ("feed", 0.11),
                ("feed", 0.24),
                ("feed", 0.36),
                ("feed", 0.5),
                ("feed", 0.67),
            ),
            (
                ("feed", 0.262),
                ("feed", 0.354),
                ("feed", 0.443),
                ("feed", 0.531),
                ("feed", 0.621),
            ),
        ),
        "Soil water": Scale(
            tr("Water left where the roots are"),
            "%",
            (0.2, 0.4, 0.6, 0.8),
            ("20", "40", "60", "80"),
            _WATERY_ON_LIGHT,
            _WATERY_ON_DARK,
        ),
        "Run time": Scale(
            tr("Run time of one watering"),
            "min",
            (10.0, 20.0, 40.0, 60.0),
            ("10", "20", "40", "60"),
            _WATERY_ON_LIGHT,
            _WATERY_ON_DARK,
        ),
        "Days between": Scale(
            tr("Days between waterings"),
            "",
            (2.0, 3.0, 5.0, 8.0),
            ("2", "3", "5", "8"),
            _WATERY_ON_LIGHT,
            _WATERY_ON_DARK,
        ),
        "Watering depth": Scale(
            tr("Depth of one watering"),
            "in",
            (0.25, 0.5, 0.75, 1.0),
            ("¼", "½", "¾", "1"),
            _WATERY_ON_LIGHT,
            _WATERY_ON_DARK,
        ),
    }
)
"""Every colour scale, by what the zones are coloured by.

Thatch turns its hue at half an inch, above which trouble grows (UC IPM).
"""
