"""The jar test: layers of sand, silt and clay in a jar, and the texture class that they make.

Shares are percent by depth of the settled layers, which stand for percent by weight; clay settles
loosely, so a jar makes a soil look somewhat finer than a laboratory does (common practice). Classes
are the twelve of the USDA. Sources: "usda-texture" for the classes, "jar-test" for the jar.
ValueError outside a formula's domain.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Literal, get_args

from lawnbook.agronomy.checks import not_negative
from lawnbook.frozen import dataclass

Texture = Literal[
    "sand",
    "loamy sand",
    "sandy loam",
    "loam",
    "silt loam",
    "silt",
    "sandy clay loam",
    "clay loam",
    "silty clay loam",
    "sandy clay",
    "silty clay",
    "clay",
]
"""The twelve texture classes of the USDA."""

TEXTURES: tuple[Texture, ...] = get_args(Texture)

NEAR_PCT = 5.0
"""How far a share of a jar may be off, in percent of the whole (common practice)."""

SOIL_OF_TEXTURE: Mapping[Texture, str] = MappingProxyType(
    {
        "sand": "sand",
        "loamy sand": "loamy sand",
        "sandy loam": "sandy loam",
        "loam": "loam",
        "silt loam": "loam",
        "silt": "loam",
        "sandy clay loam": "clay loam",
        "clay loam": "clay loam",
        "silty clay loam": "clay loam",
        "sandy clay": "clay",
        "silty clay": "silty clay",
        "clay": "clay",
    }
)
"""The soil of `agronomy.soil` that stands for each class; where its name is not among them, the
nearest in how fast it takes water in (our choice, common practice)."""


@dataclass(frozen=True, slots=True)
class Shares:
    """Sand, silt and clay in percent of the three together; they sum to 100."""

    sand_pct: float
    silt_pct: float
    clay_pct: float


def jar_shares(sand_in: float, silt_in: float, clay_in: float) -> Shares:
    """The shares of three layers by their depths (any one unit of length, here inches).

    Source: "jar-test". ValueError for a layer below zero, or none above.
    """
    layers = [
        not_negative("sand_in", sand_in),
        not_negative("silt_in", silt_in),
        not_negative("clay_in", clay_in),
    ]
    whole = sum(layers)
    if whole <= 0:
        raise ValueError("a jar without any layer has no shares")
    sand, silt, clay = (100.0 * each / whole for each in layers)
    return Shares(sand, silt, clay)


def whole_percents(shares: Shares) -> tuple[int, int, int]:
    """Sand, silt and clay as whole percents that sum to 100: what rounding down leaves goes to the
    shares that lost most by it, the earlier first among equals (largest remainder).
    """
    exact = (shares.sand_pct, shares.silt_pct, shares.clay_pct)
    down = [int(each) for each in exact]
    lost = sorted(range(3), key=lambda place: down[place] - exact[place])
    for place in lost[: 100 - sum(down)]:
        down[place] += 1
    return down[0], down[1], down[2]


def texture_of(shares: Shares) -> Texture:
    """The texture class of the shares, by the lines of the texture triangle.

    A point on a line belongs where the class's published definition has "or more".
    Source: "usda-texture". ValueError where the shares do not sum to 100 within a tenth.
    """
    sand, silt, clay = shares.sand_pct, shares.silt_pct, shares.clay_pct
    if abs(sand + silt + clay - 100.0) > 0.1:
        raise ValueError("sand, silt and clay must sum to 100 percent")
    if silt + 1.5 * clay < 15:
        return "sand"
    if silt + 2 * clay < 30:
        return "loamy sand"
    if clay >= 35 and sand > 45:
        return "sandy clay"
    if clay >= 40:
        return "silty clay" if silt >= 40 else "clay"
    if clay >= 27 and sand <= 45:
        return "clay loam" if sand > 20 else "silty clay loam"
    return _of_little_clay(sand, silt, clay)


def _of_little_clay(sand: float, silt: float, clay: float) -> Texture:
    """The class below the clay loams: under 27 % clay, or under 35 % where sand leads."""
    if clay >= 20 and silt < 28 and sand > 45:
        return "sandy clay loam"
    if silt >= 80 and clay < 12:
        return "silt"
    if silt >= 50:
        return "silt loam"
    if clay >= 7 and sand <= 52:
        return "loam"
    return "sandy loam"


def textures_near(shares: Shares, within_pct: float = NEAR_PCT) -> tuple[Texture, ...]:
    """The other classes that the soil may be, each share being off by so much, in order of class.

    Source: "usda-texture"; how far a jar is off is common practice.
    """
    found = {texture_of(each) for each in _moved(shares, not_negative("within_pct", within_pct))}
    found.discard(texture_of(shares))
    return tuple(each for each in TEXTURES if each in found)


def _moved(shares: Shares, by: float) -> Iterator[Shares]:
    """The shares with some taken from one and given to another."""
    names = ("sand_pct", "silt_pct", "clay_pct")
    for giver in names:
        for taker in names:
            moved = min(by, getattr(shares, giver))
            if giver != taker:
                parts = {each: float(getattr(shares, each)) for each in names}
                parts[giver] -= moved
                parts[taker] += moved
                yield Shares(**parts)
