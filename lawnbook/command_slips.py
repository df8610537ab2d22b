"""What the library of the command line says, in the owner's language: slips, and names of values.

The library has English sentences of its own. Each that an owner's slip can bring about stands here
beside ours, and is told in its place; loaded when a command's help or a slip is told.
"""

import argparse
import re
from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.reading import tr

SLIP_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "argument %(argument_name)s: %(message)s": "argument {argument_name}: {message}",
        "the following arguments are required: %s": "the following arguments are required: {told}",
        "one of the arguments %s is required": "one of the arguments {told} is required",
        "unrecognized arguments: %s": "unrecognized arguments: {told}",
        "ambiguous option: %(option)s could match %(matches)s": (
            "ambiguous option: {option} could match {matches}"
        ),
        "not allowed with argument %s": "not allowed with argument {told}",
        "expected one argument": "a value is missing",
        "expected at most one argument": "at most one value is taken",
        "expected at least one argument": "at least one value is missing",
        "expected %s argument": "{told} value is wanted",
        "expected %s arguments": "{told} values are wanted",
        "ignored explicit argument %r": "no value is taken, and {told} was given",
        "invalid choice: %(value)r (choose from %(choices)s)": (
            "invalid choice: {value} (choose from {choices})"
        ),
        "invalid %(type)s value: %(value)r": "{value} cannot be read",
        "can't open '%(filename)s': %(error)s": "{filename} cannot be opened: {error}",
    }
)
"""The library's sentences, and ours with the same values in them."""

VALUE_NAMES = (
    "NOTEBOOK", "FILE", "FILE.ics", "YARD", "DATE", "SPOT", "ZONE", "PRODUCT", "POUNDS", "INCHES",
    "NAME", "YEAR", "FIGURE or ZONE",
)  # fmt: skip
"""What stands for a value in a command's help."""

_VALUE = re.compile(r"%(?:\\\((?P<name>\w+)\\\))?[rs]")


def slip_told(message: str) -> str:
    """What the library says of a slip, in the owner's language; as it is where it is not known."""
    for theirs, ours in SLIP_WORDS.items():
        found = re.fullmatch(_pattern(theirs), message, re.DOTALL)
        if found is None:
            continue
        values = found.groupdict()
        if "message" in values:
            values["message"] = slip_told(values["message"])
        if "told" in values:
            values["told"] = ", ".join(value_told(each) for each in values["told"].split(", "))
        if "argument_name" in values:
            values["argument_name"] = value_told(values["argument_name"])
        return tr(ours, **values)
    return message


def name_values(action: argparse.Action) -> None:
    """Give what an argument stands for its name in the owner's language."""
    if action.nargs == 0 or action.choices is not None or isinstance(action.metavar, tuple):
        return
    named = action.dest if not action.option_strings else action.dest.upper()
    action.metavar = value_told(action.metavar or named)


def value_told(name: str) -> str:
    """What stands for a value, in the owner's language; anything else as it is."""
    return tr(name) if name in VALUE_NAMES else name


def _pattern(theirs: str) -> str:
    return _VALUE.sub(lambda found: f"(?P<{found['name'] or 'told'}>.*?)", re.escape(theirs))
