"""The records that a line of plain words stands for, each kind of them in its own way.

Nothing is guessed: what the line does not say is a fault that tells how to say it. Only a yard's
single zone goes without saying.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType

from lawnbook.plan.care_marks import MOWING
from lawnbook.plan.due import names_told
from lawnbook.plan.quick_model import QuickKind, Told
from lawnbook.plan.quick_names import or_joined
from lawnbook.plan.quick_reading import Reading
from lawnbook.plan.quick_text import with_own_point
from lawnbook.plan.quick_tongue import Of
from lawnbook.reading import is_metric, localised, tr
from lawnbook.yard.amounts import plainly, unit_shown
from lawnbook.yard.edits import rain_noted
from lawnbook.yard.notebook import Key, new_id, put
from lawnbook.yard.numbers import inches, minutes, parse_inches, plain
from lawnbook.yard.records import Care, Core, Record, SoilTest, Watering, WeatherDay, Zone

NOTE = "note"
_NAMED = 4


@dataclass(slots=True)
class Made:
    """What a line comes to: a change, the fields as read out, a name for undo; filled in turn.

    `records` are those to be checked. `wants` are the tables of which a record is missing.
    """

    label: str = ""
    change: dict[Key, tuple[Record | None, Record | None]] = field(default_factory=dict)
    records: list[tuple[str, Record]] = field(default_factory=list)
    fields: list[Told] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    questions: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    wants: list[str] = field(default_factory=list)
    units: tuple[str, ...] = ()

    def tell(self, label: str, value: str) -> None:
        """Read one more field out."""
        self.fields.append(Told(label, value))


def put_all(reading: Reading, made: Made, table: str, records: Sequence[Record]) -> None:
    """Put new records of a table into the change, each ranked after the one before it."""
    change = put(reading.notebook, table, *records)
    made.change.update(change)
    made.records += [(table, after) for _, after in change.values() if after is not None]


def one_amount(reading: Reading, made: Made, of: Of, what: str) -> float | None:
    """The one amount of a unit; a second one is a fault."""
    said = reading.amounts.by_unit.pop(of, [])
    if len(said) > 1:
        made.faults.append(
            tr("{what}: one figure at a time, not {count}.", what=what, count=len(said))
        )
    return said[0] if said else None


def zones_of(reading: Reading, made: Made, *, whole_yard: bool = False) -> list[Zone]:
    """The zones a line is about. Where none is said: the only one, or a fault that asks.

    With `whole_yard` saying none means the whole yard, and the list is empty.
    """
    notebook = reading.notebook
    named = [notebook.zones[each] for each in reading.ids("zones")]
    if reading.everywhere and named:
        made.faults.append(tr("Say either the zones or everywhere, not both."))
    if named:
        return named
    if whole_yard:
        return []
    zones = list(notebook.zones.values())
    if reading.everywhere or len(zones) == 1:
        return zones
    made.wants.append("zones")
    names = [each.name for each in zones]
    few = or_joined(names) if len(names) <= _NAMED else tr("such as {names}", names=names[0])
    made.faults.append(
        tr("Zone: say which, {few}.", few=few)
        if zones
        else tr("Zone: draw one on the sketch first.")
    )
    return []


def leave_nothing(reading: Reading, made: Made) -> None:
    """A fault for every amount and number that the records do not take."""
    for of in reading.amounts.by_unit:
        told = ", ".join(reading.amounts.typed[of])
        made.faults.append(tr("{told} does not belong here; leave it out.", told=told))
    for written in reading.bare:
        made.faults.append(
            tr("“{written}” of what? Say its unit, or the word it belongs to.", written=written)
        )


def watering(reading: Reading, made: Made, on: date) -> None:
    """A watering of each zone, by minutes or by depth."""
    zones = _watered(reading, made)
    ran = one_amount(reading, made, "min", tr("Minutes"))
    depth = one_amount(reading, made, "in", tr("Depth"))
    cycles = reading.amounts.by_word.get("cycles")
    made.label = tr("watering of {called}", called=_called(zones))
    _tell_zones(made, zones)
    if ran is not None:
        made.tell(tr("Ran"), minutes(ran) if ran == round(ran) else f"{plain(ran)} min")
    if depth is not None:
        made.tell(tr("Depth caught"), inches(depth))
    if cycles is not None:
        made.tell(tr("Cycles"), plain(cycles))
    if ran is None and depth is None:
        made.units = (" min", f" {unit_shown('in')}")
        if not reading.bare:
            made.faults.append(
                tr(
                    "Say how long it ran, such as 30 min, or what a can caught, such as {example}.",
                    example="12 mm" if is_metric() else with_own_point("0.5 in"),
                )
            )
    if made.faults or (ran is None and depth is None):
        return
    whole = None if cycles is None else _whole(made, tr("Cycles"), cycles)
    records = [
        Watering(id=new_id(), date=on, zone=z.id, minutes=ran, depth_in=depth, cycles=whole)
        for z in zones
    ]
    put_all(reading, made, "waterings", records)


def _watered(reading: Reading, made: Made) -> list[Zone]:
    """The zones that were watered: everywhere is where it is irrigated."""
    zones = zones_of(reading, made)
    if not reading.everywhere:
        return zones
    irrigated = [each for each in zones if each.irrigated]
    if zones and not irrigated:
        made.faults.append(tr("Zone: none is irrigated; name those that were watered by hand."))
    return irrigated


def rain(reading: Reading, made: Made, on: date) -> None:
    """What the owner's gauge held on a day."""
    held_in = one_amount(reading, made, "in", tr("Rain"))
    if held_in is None and len(reading.bare) == 1 and _is_read_in_own(reading):
        held_in = parse_inches(localised(reading.bare.pop()), tr("Rain"))
    made.label = tr("rain")
    if held_in is None:
        made.units = (" in", " mm")
        made.faults.append(
            tr(
                "Rain: say how much the gauge held, such as {inches} or {millimetres}.",
                inches=with_own_point(tr("rain 0.4 in")),
                millimetres=tr("rain 10 mm"),
            )
        )
        return
    made.tell(tr("Rain in the gauge"), inches(held_in))
    change = rain_noted(reading.notebook, on, held_in)
    before = reading.notebook.weather.get(on.isoformat())
    if before is not None and before.gauge_in is not None:
        made.questions.append(
            tr(
                "The gauge of that day is on record with {gauge_in}; this takes its place.",
                gauge_in=inches(before.gauge_in),
            )
        )
    made.change.update(change)
    made.records += [
        ("weather", after) for _, after in change.values() if isinstance(after, WeatherDay)
    ]


def _is_read_in_own(reading: Reading) -> bool:
    """Whether amounts are read in the notebook's own units, so that a bare one is of them."""
    return (reading.notebook.yard.units == "metric") == is_metric()


def care(reading: Reading, made: Made, on: date) -> None:
    """Care of zones or of the whole yard; mowing with its height among it."""
    kind = MOWING if reading.kind == "mow" else reading.care
    zones = zones_of(reading, made, whole_yard=True)
    note = reading.note
    if reading.kind == "mow":
        cut = one_amount(reading, made, "in", tr("Height of cut"))
        if cut is not None:
            note = f"{tr('Cut at {height}.', height=plainly(cut, 'in'))} {note}".strip()
    if not kind:
        made.faults.append(tr("Care: say what was done, such as care edging."))
    cost = reading.amounts.by_word.get("cost")
    made.label = tr(kind)
    _tell_zones(made, zones)
    if cost is not None:
        made.tell(tr("Cost"), plain(cost))
    if note:
        made.tell(tr("Note"), note)
    record = Care(
        id=new_id(),
        date=on,
        kind=kind,
        zones=tuple(each.id for each in zones),
        cost=cost,
        note=note,
    )
    put_all(reading, made, "care", [record])


def noted(reading: Reading, made: Made, on: date) -> None:
    """Words to remember, as they were typed."""
    made.label = tr(NOTE)
    if not reading.note:
        made.faults.append(tr("Note: write what is to be remembered."))
        return
    made.tell(tr("Note"), reading.note)
    put_all(reading, made, "care", [Care(id=new_id(), date=on, kind=NOTE, note=reading.note)])


def soil_test(reading: Reading, made: Made, on: date) -> None:
    """A laboratory's test of each zone."""
    zones = zones_of(reading, made)
    said = reading.amounts.by_word
    made.label = tr("soil test of {called}", called=_called(zones))
    _tell_zones(made, zones)
    units = {"ph": ("pH", ""), "om_pct": (tr("Organic matter"), " %"),
             "p_ppm": (tr("Phosphorus"), " ppm"),
             "k_ppm": (tr("Potassium"), " ppm"), "depth_in": (tr("Sampled to"), "")}  # fmt: skip
    for name, (label, unit) in units.items():
        if name in said:
            figure = plainly(said[name], "in") if name == "depth_in" else plain(said[name])
            made.tell(label, f"{figure}{unit}")
    if not said:
        made.notes.append(
            tr(
                "Without figures only the day is kept; such as {example}.",
                example=with_own_point(tr("ph 6.4 om 3.1 p 25 k 140")),
            )
        )
    records = [
        SoilTest(
            id=new_id(), date=on, zone=each.id, ph=said.get("ph"), om_pct=said.get("om_pct"),
            p_ppm=said.get("p_ppm"), k_ppm=said.get("k_ppm"), depth_in=said.get("depth_in"),
        )
        for each in zones
    ]  # fmt: skip
    put_all(reading, made, "soil_tests", records)


def plug(reading: Reading, made: Made, on: date) -> None:
    """One plug of one spot."""
    notebook = reading.notebook
    spots = [notebook.spots[each] for each in reading.ids("spots")]
    if not spots and len(notebook.spots) == 1:
        spots = list(notebook.spots.values())
    said = reading.amounts.by_word
    if len(spots) != 1:
        made.wants += [] if spots else ["spots"]
        names = [each.name for each in spots or notebook.spots.values()]
        few = or_joined(names[:_NAMED]) if names else ""
        made.faults.append(
            tr("Spot: say one, {few}.", few=few)
            if few
            else tr("Spot: mark one on the sketch first.")
        )
        return
    made.label = tr("plug of {name}", name=spots[0].name)
    made.tell(tr("Spot"), spots[0].name)
    if reading.amounts.readings:
        made.tell(tr("Thatch"), ", ".join(inches(each, 3) for each in reading.amounts.readings))
    if "root_depth_in" in said:
        made.tell(tr("Root depth"), inches(said["root_depth_in"]))
    for name, label in (
        ("sponge", tr("Sponge")),
        ("worms", tr("Worms")),
        ("clock", tr("Clock position")),
    ):
        if name in said:
            made.tell(label, plain(said[name]))
    if not reading.amounts.readings and not said and not reading.note:
        made.faults.append(
            tr(
                "Say what it showed, such as {example}.",
                example=with_own_point(
                    tr("thatch 16 19 roots 115") if is_metric() else tr("thatch 5/8 3/4 roots 4.5")
                ),
            )
        )
    if reading.pressed:
        made.tell(tr("Pressed"), tr("yes"))
    if reading.note:
        made.tell(tr("Note"), reading.note)
    core = Core(
        id=new_id(), spot=spots[0].id, date=on, thatch_in=reading.amounts.readings,
        pressed=reading.pressed, root_depth_in=said.get("root_depth_in"), note=reading.note,
    )  # fmt: skip
    whole = {
        name: _whole(made, label, said[name])
        for name, label in (
            ("sponge", tr("Sponge")),
            ("worms", tr("Worms")),
            ("clock", tr("Clock")),
        )
        if name in said
    }
    core = replace(core, sponge=whole.get("sponge"), worms=whole.get("worms"),
                   clock=whole.get("clock"))  # fmt: skip
    put_all(reading, made, "cores", [core])


def _whole(made: Made, what: str, value: float) -> int:
    if value != int(value):
        made.faults.append(
            tr("{what}: {value} is not a whole number.", what=what, value=plain(value, 4))
        )
    return int(value)


def _called(zones: Sequence[Zone]) -> str:
    return names_told([each.name for each in zones])


def _tell_zones(made: Made, zones: Sequence[Zone]) -> None:
    if zones:
        made.tell(
            tr("Zone" if len(zones) == 1 else "Zones"), ", ".join(each.name for each in zones)
        )
    elif "zones" not in made.wants:
        made.tell(tr("Zones"), tr("whole yard"))


Maker = Callable[[Reading, Made, date], None]
MAKERS: Mapping[QuickKind, Maker] = MappingProxyType(
    {
        "water": watering,
        "rain": rain,
        "mow": care,
        "care": care,
        "note": noted,
        "soil": soil_test,
        "plug": plug,
    }
)
"""What makes the records of each kind but a feeding, which `quick_feeding` makes."""
