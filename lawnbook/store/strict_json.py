"""JSON read strictly: no NaN, no key twice, no bottomless nesting, and every failure in words."""

import json
from typing import Any

from lawnbook.yard.problems import OwnerError


def parse_json(text: str) -> Any:
    """The value of a JSON text; OwnerError with line, column and mend where it is not sound."""
    try:
        return json.loads(text, parse_constant=_refuse_constant, object_pairs_hook=_object)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        reason = error.msg[:1].lower() + error.msg[1:]
        raise OwnerError(f"{place}: this is not sound JSON ({reason}); mend it there.") from error
    except RecursionError as error:
        raise OwnerError("lists are nested too deeply; this is no yard file.") from error
    except ValueError as error:
        # Python refuses to read whole numbers of more than some thousands of digits.
        raise OwnerError("a number has too many digits; shorten it.") from error


def _refuse_constant(word: str) -> float:
    raise OwnerError(f"{word} is no number in JSON; enter the figure or leave the field out.")


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise OwnerError(f'"{twice}" stands twice in one record; keep one of them.')
    return found
