"""The round lengths that are said in words: half an inch of thatch, and what goes with it.

To a metric reader they are whole millimetres; what is compared with stays half an inch (12.7 mm).
"""

from collections.abc import Mapping

from lawnbook.reading import is_metric, tr


def half_inch() -> str:
    """The limit of thatch within a sentence: "half an inch", "13 mm"."""
    return tr("13 mm") if is_metric() else tr("half an inch")


def half_inch_first() -> str:
    """The same at a sentence's beginning."""
    return tr("13 mm") if is_metric() else tr("Half an inch")


def inch() -> str:
    """Twice as much: "an inch", "25 mm"."""
    return tr("25 mm") if is_metric() else tr("an inch")


def limit_words() -> Mapping[str, str]:
    """What stands in a rule's words for `{half_inch}`, `{half_inch_first}`, `{inch}`, `{apart}`."""
    return {
        "half_inch": half_inch(),
        "half_inch_first": half_inch_first(),
        "inch": inch(),
        "apart": tr("50 to 75 mm") if is_metric() else tr("2 to 3 in"),
    }
