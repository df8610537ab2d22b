"""The command for the handover: one file for the next owner or an adviser."""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.command_parts import Command

HANDOVER_COMMANDS: Mapping[str, Command] = MappingProxyType({})
"""The commands, by their names."""
