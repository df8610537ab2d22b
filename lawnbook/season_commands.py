"""The commands of the season: its dates as a calendar, and the year in review as a PDF."""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.command_parts import Command

SEASON_COMMANDS: Mapping[str, Command] = MappingProxyType({})
"""The commands, by their names."""
