"""A line of plain words taken apart: what it is about, when, where, how much, and what is left."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from lawnbook.plan.quick_amounts import Amounts, take_amounts, take_bare, take_worded
from lawnbook.plan.quick_days import NamedDay, take_days, take_slashed
from lawnbook.plan.quick_kinds import KindWord, kind_words
from lawnbook.plan.quick_model import QuickKind
from lawnbook.plan.quick_names import Named, names_of, or_joined, take_short, take_whole
from lawnbook.plan.quick_text import NUMBER, Line, tidy
from lawnbook.plan.quick_tongue import (
    ALL_WORDS,
    AND_WORDS,
    EACH_WORDS,
    FREE_WORDS,
    LARGE_WORDS,
    NOTE_WORDS,
    PRESSED_WORDS,
    UNIT_WORDS,
    ZONE_WORDS,
    any_of,
    first_of,
    spoken,
    whole,
)
from lawnbook.reading import reading as read_now
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook

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
        "cans": ("zones",),
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
    noted = re.search(rf"{whole(NOTE_WORDS)}\s*:?\s*", plain, re.IGNORECASE)
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
    reading.each = bool(line.take(whole(EACH_WORDS)))
    if reading.kind == "plug":
        reading.pressed = bool(line.take(whole(PRESSED_WORDS)))
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
        if reading.kind == "care":
            # "Care edging" is said again once edging is a kind of care on record.
            line.take(rf"{whole(FREE_WORDS)}\s*:?")
    elif line.take(rf"{whole(FREE_WORDS)}\s*:?"):
        reading.kind = "care"
    elif noted:
        reading.kind = "note"
    elif any(each.table == "products" for each in found):
        reading.kind = "feed"
    elif re.search(_water_amount(), line.text, re.IGNORECASE):
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
    reading.everywhere = bool(line.take(whole(ALL_WORDS)))
    zones = list(reading.notebook.zones.values())
    for match in line.take(_numbered()):
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
    at_large = spoken(LARGE_WORDS)
    if reading.kind and all(each.casefold().strip(".;:") in at_large for each in reading.left):
        # "Watered the lawn" leaves the zone open, which is asked for where there are several.
        reading.left = []
    if reading.left and reading.kind:
        reading.faults.append(not_understood(reading))


def not_understood(reading: Reading) -> str:
    """The fault of words that are left over."""
    shown = tr("“{words}” is not understood.", words=" ".join(reading.left))
    if re.search(_OTHER_DECIMAL[read_now().point], reading.text):
        return f"{shown} {_decimals()}"
    mend = tr(
        "Leave it out, or write “{note}” before what is only to be remembered.",
        note=first_of(NOTE_WORDS),
    )
    return f"{shown} {mend}"


def _water_amount() -> str:
    """An amount that only a watering has: a time or a depth."""
    units = any_of(*(words for (of, _), words in UNIT_WORDS.items() if of in ("min", "in")))
    return rf"{NUMBER}\s*(?:{units}(?!\w)|[\"″])"


def _numbered() -> str:
    """Zones by their numbers: "zones 2 and 3"."""
    parted = rf"\s*,\s*|\s+{any_of(AND_WORDS)}\s+|\s*&\s*"
    return rf"(?<!\w){any_of(ZONE_WORDS)}\s+({NUMBER}(?:(?:{parted}){NUMBER})*)(?![\w])"


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
