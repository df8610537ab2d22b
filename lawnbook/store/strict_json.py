"""JSON read strictly: no key twice, no bottomless nesting, and every failure in words.

NaN, the infinities and numbers of endless digits are read as such: the rule of the field that they
stand in refuses them, and can name it.
"""

import json
import math
from collections import Counter
from typing import Any

from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

_MOST_DIGITS = 400
"""More than the largest number a float can be."""


def parse_json(text: str, what: str) -> Any:
    """The value of a JSON text that is to be a `what`, such as "yard file".

    OwnerError with line, column and mend where it is not sound.
    """
    if not text.strip():
        raise OwnerError(tr("the file is empty; choose another, or take it from your backup."))
    try:
        return _loads(text)
    except json.JSONDecodeError as error:
        place = tr("line {line}, column {column}", line=error.lineno, column=error.colno)
        reason = error.msg[:1].lower() + error.msg[1:]
        raise OwnerError(
            tr(
                "{place}: this is not sound JSON ({reason}); mend it there.",
                place=place,
                reason=reason,
            )
        ) from error
    except RecursionError as error:
        raise OwnerError(
            tr("lists are nested too deeply; this is no {what}.", what=what)
        ) from error


def _loads(text: str) -> Any:
    try:
        return json.loads(text, object_pairs_hook=_object)
    except json.JSONDecodeError:
        raise
    except ValueError:
        # Python refuses to read whole numbers of more than some thousands of digits.
        return json.loads(text, object_pairs_hook=_object, parse_int=_whole)


def _whole(digits: str) -> float:
    return int(digits) if len(digits) < _MOST_DIGITS else math.inf


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        # Counted in one go: a stranger's record may have a million keys.
        counts = Counter(key for key, _ in pairs)
        twice = next(key for key, count in counts.items() if count > 1)
        raise OwnerError(tr('"{twice}" stands twice in one record; keep one of them.', twice=twice))
    return found
