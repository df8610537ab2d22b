"""What is said of a removal from the sketch: what went along, and what stays."""

from collections import Counter

from lawnbook.desk.sketch.choosing import listed
from lawnbook.plan.workings import counted
from lawnbook.yard.notebook import Change, Key
from lawnbook.yard.records import Spot

_WENT_ALONG = {
    "heads": "head",
    "cores": "plug",
    "photos": "photograph",
    "catch_tests": "catch test",
    "soil_tests": "soil test",
    "waterings": "watering",
    "feedings": "feeding",
}
_MOST_NAMES = 3


def farewell(change: Change, chosen: Key) -> str:
    """The words between "is gone" and the full stop: ", with 3 heads; spot crest stays".

    Of feedings that also fed other zones the share of this one goes. Empty where nothing hung on
    what was chosen.
    """
    rest = {key: after for key, (_, after) in change.items() if key != chosen}
    gone = Counter(table for (table, _), after in rest.items() if after is None)
    went = [counted(gone[table], one) for table, one in _WENT_ALONG.items() if gone[table]]
    shares = sum(table == "feedings" and after is not None for (table, _), after in rest.items())
    if shares:
        went.append(f"its share of {counted(shares, 'feeding')}")
    along = f", with {listed(went)}" if went else ""
    stay = [after.name for after in rest.values() if isinstance(after, Spot)]
    return f"{along}; {_spots_stay(stay)}" if stay else along


def _spots_stay(names: list[str]) -> str:
    if len(names) > _MOST_NAMES:
        return f"{len(names)} spots stay"
    return f"spot {names[0]} stays" if len(names) == 1 else f"spots {listed(names)} stay"
