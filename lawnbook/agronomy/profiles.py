"""The radial profiles of sprinklers by name: how deep they wet from the head outward."""

from collections.abc import Mapping
from types import MappingProxyType

PROFILES: Mapping[str, tuple[float, ...]] = MappingProxyType(
    {
        "cone": (1.0, 0.0),
        "flat": (1.0, 1.0),
        "doughnut": (0.3, 0.4, 0.7, 1.0, 0.8, 0.0),
    }
)
"""Relative depths at even steps from the head to its radius, by name.

Cone and flat are the classical triangular and rectangular patterns, the doughnut what low pressure
makes of them. Sources: "kincaid-profile"; the doughnut's figures are ours (common practice).
"""
