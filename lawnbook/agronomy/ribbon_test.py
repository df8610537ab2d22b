"""The ribbon test: a moist ball of soil pressed between thumb and finger, and its texture class.

Source: "ribbon-test" (Thien 1979, as in the NRCS guide to texture by feel). ValueError outside a
formula's domain.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from lawnbook.agronomy.checks import not_negative
from lawnbook.agronomy.jar_test import Texture

Feel = Literal["gritty", "smooth", "neither"]
"""How a very wet pinch of it feels when it is rubbed: which of the two is felt most."""

WEAK_BELOW_IN = 1.0
"""A weak ribbon breaks before an inch (2.5 cm)."""

STRONG_FROM_IN = 2.0
"""A strong ribbon reaches two inches (5 cm) or more."""

_BY_FEEL: Mapping[Feel, tuple[Texture, Texture, Texture]] = MappingProxyType(
    {
        "gritty": ("sandy loam", "sandy clay loam", "sandy clay"),
        "smooth": ("silt loam", "silty clay loam", "silty clay"),
        "neither": ("loam", "clay loam", "clay"),
    }
)
"""The class of a weak, a medium and a strong ribbon, by feel."""


def ribbon_texture(ribbon_in: float, feel: Feel, holds_as_ball: bool = True) -> Texture:
    """The texture class by feel of a ribbon so long (in) when it breaks; 0 where none forms.

    Soil that does not even hold as a ball is sand; a ball without a ribbon is loamy sand. Silt as a
    class of its own is not told apart from silt loam. Source: "ribbon-test".
    """
    length = not_negative("ribbon_in", ribbon_in)
    if not holds_as_ball:
        return "sand"
    if length == 0:
        return "loamy sand"
    weak, medium, strong = _BY_FEEL[feel]
    if length < WEAK_BELOW_IN:
        return weak
    return medium if length < STRONG_FROM_IN else strong
