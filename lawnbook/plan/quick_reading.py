"""A line of plain words taken apart: what it is about, when, where, how much, and what is left."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from lawnbook.plan.quick_amounts import Amounts, take_amounts, take_bare, take_worded
from lawnbook.plan.quick_days import NamedDay, take_days, take_slashed
from lawnbook.plan.quick_kinds import FREE_CARE, KindWord, kind_words
from lawnbook.plan.quick_model import QuickKind
from lawnbook.plan.quick_names import Named, names_of, or_joined, take_short, take_whole
from lawnbook.plan.quick_text import NUMBER, Line, tidy
from lawnbook.reading import reading as read_now
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook

_NOTE = r"(?<!\w)noted?(?!\w)\s*:?\s*"
_ALL_ZONES = r"all(?:\s+zones)?|every\s+zone"
_EVERYWHERE = rf"(?<!\w)(?:everywhere|(?:the\s+)?whole\s+(?:yard|lawn)|{_ALL_ZONES})(?!\w)"
_NUMBERED = rf"(?<!\w)zones?\s+({NUMBER}(?:(?:\s*,\s*|\s+and\s+|\s*&\s*){NUMBER})*)(?![\w])"
_WATER_AMOUNT = rf"{NUMBER}\s*(?:(?:min|mins|minutes?|h|hours?|in|inch|inches|mm)(?!\w)|[\"″])"
_AT_LARGE = frozenset({"lawn", "grass", "yard"})
"""Words for all there is, which by themselves name no zone."""
_KIND_NOUNS: Mapping[str, str] = MappingProxyType(
    {"zones": "zone", "spots": "spot", "products": "product"}
)
USES: Mapping[QuickKind, Sequence[str]] = MappingProxyType(
    {
        "water": ("zones",),
        "feed": ("zones", "products"),
        "mow": ("zones",),
        "care": ("zones",),
        "soil": ("zones",),
        "plug": ("spots",),
    }
)
"""The tables whose records each kind names."""


@dataclass(slots=True)
class Reading:
    """A line as it was taken apart; `faults` are whole sentences. Filled while it is read."""

    text: str
    notebook: Notebook
    today: date
    kind: QuickKind = ""
    care: str = ""
    note: str = ""
    on: date | None = None
    days: list[NamedDay] = field(default_factory=list)
    names: list[Named] = field(default_factory=list)
    everywhere: bool = False
    each: bool = False
    pressed: bool = False
    amounts: Amounts = field(default_factory=Amounts)
    bare: list[str] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def ids(self, table: str) -> list[str]:
        """The ids of the records of a table that were named, in order."""
        return [each.record_id for each in self.names if each.table == table]


def read_line(text: str, notebook: Notebook, today: date) -> Reading:
    """A line taken apart. Never raises: what is amiss stands in the faults."""
    plain = "".join(each if each.isprintable() else " " for each in text)
    reading = Reading(text=plain.strip(), notebook=notebook, today=today)
    noted = re.search(_NOTE, plain, re.IGNORECASE)
    head = plain if noted is None else plain[: noted.start()]
    reading.note = "" if noted is None else plain[noted.end() :].strip()
    line = Line(tidy(head))
    names = names_of(notebook)
    found, kinds = take_whole(line, names, kind_words(notebook))
    _settle_kind(reading, kinds, found, noted is not None, line)
    _take_places(reading, line, found)
    reading.days = take_days(line, today)
    reading.amounts = take_worded(line, reading.kind)
    take_amounts(line, reading.amounts)
    if reading.kind != "rain":
        reading.days += take_slashed(line, today)
    reading.bare = take_bare(line)
    reading.each = bool(line.take(r"(?<!\w)each(?!\w)"))
    if reading.kind == "plug":
        reading.pressed = bool(line.take(r"(?<!\w)pressed(?!\w)"))
    _take_rest(reading, line, names)
    _settle_day(reading)
    reading.faults += reading.amounts.faults
    return reading


def _settle_kind(
    reading: Reading, kinds: Sequence[KindWord], found: Sequence[Named], noted: bool, line: Line
) -> None:
    """What the line is about: by its verb, or by what it names and measures."""
    said = list(dict.fromkeys((each.kind, each.care) for each in kinds))
    if len(said) > 1:
        words = or_joined(list(dict.fromkeys(each.words for each in kinds)))
        reading.faults.append(tr("One thing at a time: {words}?", words=words))
    if said:
        reading.kind, reading.care = said[0]
    elif line.take(rf"(?<!\w){FREE_CARE}(?!\w)\s*:?"):
        reading.kind = "care"
    elif noted:
        reading.kind = "note"
    elif any(each.table == "products" for each in found):
        reading.kind = "feed"
    elif re.search(_WATER_AMOUNT, line.text, re.IGNORECASE):
        reading.kind = "water"


def _take_places(reading: Reading, line: Line, found: Sequence[Named]) -> None:
    """The records that were named in full, by number, or all at once."""
    used = USES.get(reading.kind, ())
    reading.names = [each for each in found if each.table in used]
    known = {each.name for each in reading.names}
    for other in found:
        if reading.kind and other.name not in known and other.table not in used:
            reading.faults.append(
                tr(
                    "{name} is a {kind}, which does not belong here; leave it out.",
                    name=other.name,
                    kind=tr(_KIND_NOUNS[other.table]),
                )
            )
    if "zones" not in used:
        return
    reading.everywhere = bool(line.take(_EVERYWHERE))
    zones = list(reading.notebook.zones.values())
    for match in line.take(_NUMBERED):
        for written in re.findall(NUMBER, match[1]):
            number = int(written) if written.isdigit() else 0
            if 1 <= number <= len(zones):
                zone = zones[number - 1]
                reading.names.append(Named("zones", zone.id, zone.name))
            else:
                reading.faults.append(
                    tr(
                        "There is no zone {number}; there are {count}.",
                        number=written,
                        count=len(zones),
                    )
                )


def _take_rest(reading: Reading, line: Line, names: Sequence[Named]) -> None:
    """What is left: shortened names, words that mean nothing by themselves, and the unknown."""
    used = [each for each in names if each.table in USES.get(reading.kind, ())]
    for run in line.runs():
        found, faults, left = take_short(run.replace(",", " ").split(), used)
        reading.names += [each for each in found if each not in reading.names]
        reading.faults += faults
        reading.left += [each for each in left if any(letter.isalnum() for letter in each)]
    reading.names = list(dict.fromkeys(reading.names))
    if reading.kind == "care" and not reading.care and reading.left:
        reading.care, reading.left = " ".join(reading.left), []
    if reading.kind and all(each.casefold().strip(".;:") in _AT_LARGE for each in reading.left):
        # "Watered the lawn" leaves the zone open, which is asked for where there are several.
        reading.left = []
    if reading.left and reading.kind:
        reading.faults.append(not_understood(reading))


def not_understood(reading: Reading) -> str:
    """The fault of words that are left over."""
    shown = tr("“{words}” is not understood.", words=" ".join(reading.left))
    if re.search(_OTHER_DECIMAL[read_now().point], reading.text):
        return f"{shown} {_decimals()}"
    mend = tr("Leave it out, or write “note” before what is only to be remembered.")
    return f"{shown} {mend}"


_OTHER_DECIMAL: Mapping[str, str] = MappingProxyType(
    {".": r"(?<!\w)\d+,\d", ",": r"(?<!\w)\d+\.\d"}
)
"""By the sign that is read, a number with the other one."""


def _decimals() -> str:
    if read_now().point == ",":
        return tr("Write decimals with a comma, such as 0,5.")
    return tr("Write decimals with a point, such as 0.5.")


def _settle_day(reading: Reading) -> None:
    days = [each.on for each in reading.days if each.on is not None]
    reading.faults += [each.fault for each in reading.days if each.fault]
    if len(set(days)) > 1:
        told = or_joined([each.written for each in reading.days])
        reading.faults.append(tr("One day at a time: {days}?", days=told))
    if not reading.days:
        reading.on = reading.today
    elif days:
        reading.on = days[0]
