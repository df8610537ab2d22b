"""The commands for spreadsheets: every table written out, and tables taken in."""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.command_parts import Command

TABLE_COMMANDS: Mapping[str, Command] = MappingProxyType({})
"""The commands, by their names."""
