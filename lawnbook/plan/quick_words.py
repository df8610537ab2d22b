"""A line in plain words, read at every key: what would be kept, or what is missing to keep it.

    watered 30 min front lawn yesterday
    0.5 in zone 2
    fed 12 lb feather meal front lawn 3 May
    mowed back lawn 2.5 in
    rain 0.4
    aeration front lawn cost 80
    soil test front lawn ph 6.4
    plug signpost thatch 7/8 roots 4.5
    note mushrooms by the elm

The order of the pieces is free. Reading never raises and never keeps what the line does not say;
what it comes to passes the same checks as the forms.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from types import MappingProxyType

from lawnbook.plan.quick_amounts import ends_in_amount
from lawnbook.plan.quick_cans import cans
from lawnbook.plan.quick_feeding import feeding
from lawnbook.plan.quick_kinds import starters
from lawnbook.plan.quick_model import Quick, QuickKind, Told
from lawnbook.plan.quick_names import carried_on, names_of, written
from lawnbook.plan.quick_near import Near, did_you_mean, near_lines
from lawnbook.plan.quick_reading import USES, Reading, not_understood, read_line
from lawnbook.plan.quick_records import MAKERS, Made, Maker, leave_nothing
from lawnbook.plan.quick_text import with_own_point
from lawnbook.reading import is_metric, tr
from lawnbook.yard.check import check_all
from lawnbook.yard.notebook import Notebook, apply
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError, asked, refused

MOST_PROPOSALS = 6
LONGEST = 400
"""Letters of a line that are read; nobody tells one thing in more."""

TITLES: Mapping[QuickKind, str] = MappingProxyType(
    {
        "water": "Watering", "feed": "Feeding", "mow": "Mowing", "care": "Care", "rain": "Rain",
        "note": "Note", "soil": "Soil test", "plug": "Plug",
        "cans": "Catch test",
    }
)  # fmt: skip
NOT_CLEAR = tr(
    "Say what was done: watered, fed, mowed, rain, soil test, plug, note, or a kind of care such "
    "as aeration."
)
HELP: tuple[tuple[str, str], ...] = (
    ("watered 30 min front lawn yesterday", tr("a watering by its minutes; also “1 h 10 min”")),
    ("0.5 in zone 2", tr("a watering by what a can caught; zones go by name or number")),
    ("fed 12 lb feather meal front lawn 3 May", tr("a feeding; “2 bags” and “each” work too")),
    ("mowed back lawn 2.5 in", tr("a mowing, with its height of cut")),
    ("rain 0.4", tr("what the gauge held; “10 mm” works too")),
    ("aeration front lawn cost 80", tr("any kind of care; “care edging” for one of your own")),
    ("soil test front lawn ph 6.4 om 3", tr("also p, k and depth")),
    ("plug signpost thatch 7/8 roots 4.5", tr("also sponge, worms, clock and pressed")),
    ("catch test front lawn 15 min 0.20 0.24 0.18", tr("how deep the water stood in each can")),
    ("note mushrooms by the elm", tr("words to remember; “note” also closes other lines")),
    ("today, Friday, 3 days ago, 3 May", tr("days; 5/3 is asked about, 2026-05-03 is not")),
)
"""Lines as examples, each with what it says: the overlay's help."""

_HELP_METRIC: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "0.5 in zone 2": (
            "12 mm zone 2",
            tr("a watering by what a can caught; zones go by name or number"),
        ),
        "fed 12 lb feather meal front lawn 3 May": (
            "fed 5 kg feather meal front lawn 3 May",
            tr("a feeding; “2 bags” and “each” work too"),
        ),
        "mowed back lawn 2.5 in": ("mowed back lawn 60 mm", tr("a mowing, with its height of cut")),
        "catch test front lawn 15 min 0.20 0.24 0.18": (
            "catch test front lawn 15 min 5 6 4.5",
            tr("how deep the water stood in each can"),
        ),
        "rain 0.4": ("rain 10", tr("what the gauge held; “0.4 in” works too")),
        "plug signpost thatch 7/8 roots 4.5": (
            "plug signpost thatch 22 roots 115",
            tr("also sponge, worms, clock and pressed; a fraction is of an inch"),
        ),
    }
)
"""What takes the place of some of them for a metric reader."""


def help_lines() -> tuple[tuple[str, str], ...]:
    """The lines of `HELP` in the owner's units and language, as they can be typed."""
    metric = _HELP_METRIC if is_metric() else {}
    lines = (metric.get(line, (line, says)) for line, says in HELP)
    return tuple((with_own_point(tr(line)), says) for line, says in lines)


def read_quick(text: str, notebook: Notebook, today: date) -> Quick:
    """What a line comes to on a day. Never raises for what is typed."""
    if not text.strip():
        return Quick(proposals=starters()[:MOST_PROPOSALS])
    if len(text) > LONGEST:
        return Quick(
            faults=(tr("A line may have at most {most} letters; shorten it.", most=LONGEST),)
        )
    reading, made = _made(text, notebook, today)
    near = _near(text, reading, notebook, today)
    if near:
        made.faults = _asked_first(near, reading, made)
    lines = [each.line for each in near]
    lines += _proposals(text, reading, made, notebook, today)
    proposals = tuple(dict.fromkeys(lines))[:MOST_PROPOSALS]
    if not made.faults and made.change:
        _check(made, notebook, today)
    return _quick(reading, made, proposals)


def _made(text: str, notebook: Notebook, today: date) -> tuple[Reading, Made]:
    """A line taken apart and what it comes to, not yet put to the rules."""
    reading = read_line(text, notebook, today)
    made = Made()
    if not reading.kind:
        made.faults = [NOT_CLEAR]
        return reading, made
    on = reading.on or today
    try:
        _maker_of(reading.kind)(reading, made, on)
    except OwnerError as problem:
        made.faults.append(str(problem))
    leave_nothing(reading, made)
    if reading.note and reading.kind in ("water", "feed", "rain", "soil"):
        made.faults.append(tr("A note cannot be kept with this; write it as a line of its own."))
    made.faults = [*reading.faults, *made.faults]
    return reading, made


def _maker_of(kind: QuickKind) -> Maker:
    """What makes the records of a kind of line."""
    return {"feed": feeding, "cans": cans}.get(kind) or MAKERS[kind]


def _check(made: Made, notebook: Notebook, today: date) -> None:
    """The rules of the forms: what they refuse is a fault, what they ask about a question."""
    after = apply(notebook, made.change)
    problems = check_all([record for _, record in made.records], after, today)
    made.faults += dict.fromkeys(each.sentence for each in refused(problems))
    made.questions += dict.fromkeys(each.sentence for each in asked(problems))


def _quick(reading: Reading, made: Made, proposals: tuple[str, ...]) -> Quick:
    whole = bool(made.change) and not made.faults
    on = "" if reading.on is None else day(reading.on)
    title = tr(reading.care).capitalize() if reading.care else tr(TITLES.get(reading.kind, ""))
    fields = [Told(tr("What"), title)] if reading.kind else []
    if reading.kind and on:
        fields.append(
            Told(tr("Day"), tr("{day}, today", day=on) if reading.on == reading.today else on)
        )
    return Quick(
        kind=reading.kind,
        label=f"{made.label}, {on}" if made.label and on else made.label,
        fields=(*fields, *made.fields),
        change=MappingProxyType(made.change) if whole else MappingProxyType({}),
        faults=tuple(dict.fromkeys(made.faults)),
        questions=tuple(dict.fromkeys(made.questions)) if whole else (),
        notes=tuple(made.notes),
        proposals=proposals,
    )


def _proposals(
    text: str, reading: Reading, made: Made, notebook: Notebook, today: date
) -> Iterator[str]:
    """Lines that carry this one on: each is read again, and kept only where it says more."""
    if reading.kind == "note":
        return
    left, count = len(made.faults), 0
    seen = {text.strip()}
    for line in _carried_on(text, reading, made, notebook):
        if line in seen:
            continue
        seen.add(line)
        if _says_more(line, (reading, left), notebook, today):
            yield line
            count += 1
        if count == MOST_PROPOSALS:
            return


def _near(text: str, reading: Reading, notebook: Notebook, today: date) -> list[Near]:
    """Near spellings by which the line leaves less that is not understood."""
    if reading.kind == "note":
        return []
    found: list[Near] = []
    for each in near_lines(reading, text):
        again = read_line(each.line, notebook, today)
        if (again.kind or not reading.kind) and len(again.left) < len(reading.left):
            found.append(each)
        if len(found) == MOST_PROPOSALS:
            break
    return found


def _asked_first(near: list[Near], reading: Reading, made: Made) -> list[str]:
    """What near spellings may have meant, in place of the sentence that they are not understood."""
    pieces = {word for each in near for word in each.typed.split()}
    mended = {NOT_CLEAR} | ({not_understood(reading)} if pieces >= set(reading.left) else set())
    return [*did_you_mean(near), *(each for each in made.faults if each not in mended)]


def _carried_on(text: str, reading: Reading, made: Made, notebook: Notebook) -> Iterator[str]:
    line = text.strip()
    if not reading.kind:
        yield from (each for each in starters() if each.startswith(line.casefold()))
    for named in reading.days:
        yield from (line.replace(named.written, each) for each in named.instead)
    if len(reading.bare) == 1:
        bare = reading.bare[0]
        yield from (line.replace(bare, f"{bare}{unit}", 1) for unit in made.units)
    names = [each for each in names_of(notebook) if each.table in USES.get(reading.kind, ())]
    fresh = [each for each in names if each not in reading.names]
    if not text.endswith(" ") and not ends_in_amount(line):
        yield from carried_on(line, names)
    if not reading.left:
        for table in made.wants:
            proposed = [written(each.name) for each in fresh if each.table == table]
            yield from (f"{line} {name}" for name in proposed if name)


def _says_more(line: str, before: tuple[Reading, int], notebook: Notebook, today: date) -> bool:
    """Whether a proposal is understood at least as well, and names more or leaves less amiss."""
    reading, faults = before
    again, made = _made(line, notebook, today)
    if not again.kind or (reading.kind and again.kind != reading.kind):
        return False
    if not set(reading.names) <= set(again.names) or len(again.left) > len(reading.left):
        return False
    gained = len(again.names) > len(reading.names) or not reading.kind
    # A shortened name that is carried on to the whole one says no more, but says it in full.
    whole = len(made.faults) == faults and line.endswith(
        tuple(written(e.name) for e in again.names)
    )
    return gained or whole or len(made.faults) < faults
