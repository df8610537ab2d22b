"""Workings as the command tells them: the lines of each under its heading, or as JSON."""

from collections.abc import Iterable
from typing import Any

from lawnbook.plan.sensitivity import Sensitivity, sensitivities_of
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings_text import Group, lines_of
from lawnbook.reading import tr


def workings_text(groups: Iterable[Group]) -> str:
    """Every working as the lines that the window copies, parted by blank lines."""
    blocks: list[str] = []
    for group in groups:
        blocks.append(f"{group.title}\n{'=' * len(group.title)}")
        blocks += ["\n".join(lines_of(each)) for each in group.workings]
    return "\n\n".join(blocks) or tr("No figure has a working yet.")


def workings_json(groups: Iterable[Group]) -> list[dict[str, Any]]:
    """The same as a list: its lines, and the parts as plain values; numbers are in US units."""
    return [_plain(group.title, each) for group in groups for each in group.workings]


def _plain(title: str, working: Working) -> dict[str, Any]:
    return {
        "group": title,
        "figure": working.figure,
        "label": working.label,
        "value": working.value,
        "formula": working.formula,
        "filled": working.filled,
        "inputs": [
            {
                "name": each.name,
                "value": each.value,
                "origin": each.origin,
                "is_default": each.is_default,
                "number": None if each.quantity is None else each.quantity.number,
                "unit": None if each.quantity is None else each.quantity.unit,
            }
            for each in working.inputs
        ],
        "sensitivity": [_changes(each) for each in sensitivities_of(working)],
        "source": working.source,
        "lines": list(lines_of(working)),
    }


def _changes(each: Sensitivity) -> dict[str, Any]:
    return {
        "input": each.name,
        "kind": each.kind,
        "changes": [
            {
                "at": change.input_told,
                "value": change.raw,
                "told": change.figure_told,
                "change": change.change,
                "share": change.share,
            }
            for change in each.changes
        ],
    }
