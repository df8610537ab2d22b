"""How areas, edges and sums of the sketch came about, the mean of a plug, and the night's start."""

from collections.abc import Iterable, Iterator, Sequence

from lawnbook.plan.filled_in import numbered, put_in, readings_in, reckons, together
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.water_model import ProgramRun, RainCredit
from lawnbook.plan.working_model import CLOCK, Input, Reckoning, Working
from lawnbook.plan.workings import counted, given, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, perimeter_ft
from lawnbook.yard.numbers import day, feet_inches
from lawnbook.yard.records import Core, Feature, Record, Zone

MOST_PARTS = 40


def shape_workings(outline: Outline, holes: Sequence[Outline]) -> tuple[Working, ...]:
    """Area and edge of a shape on the sketch."""
    if len(outline) < 3:
        return ()
    area, edge = area_sqft(outline, tuple(holes)), perimeter_ft(outline)
    drawn = [
        given(tr("Corners"), str(len(outline)), tr("drawn, typed or walked, on the sketch")),
        *((given(tr("Holes"), str(len(holes)), tr("drawn on the sketch")),) if holes else ()),
        together(given(tr("All lengths"), told(1.0), tr("1 is as drawn")), "scale"),
    ]
    return (
        Working(
            "shape_area",
            tr("Area"),
            told(area, 0, "sq ft"),
            tr("half the sum of xᵢ × yᵢ₊₁ − xᵢ₊₁ × yᵢ round the outline, less the holes"),
            "",
            tuple(drawn),
            sources(),
            reckons(tr("{area!r} × {{scale}}²", area=area), "sq ft", 0),
        ),
        Working(
            "shape_edge",
            tr("Edge"),
            feet_inches(edge),
            tr("sum of the sides of the outline"),
            "",
            tuple(drawn),
            sources(),
            reckons(tr("{edge!r} × {{scale}}", edge=edge), "ft", 1),
        ),
    )


def record_workings(record: Record | None) -> tuple[Working, ...]:
    """Area and edge of a zone or another shape of the sketch; none of anything else."""
    if isinstance(record, Zone):
        return shape_workings(record.outline_ft, record.holes_ft)
    return shape_workings(record.outline_ft, ()) if isinstance(record, Feature) else ()


def sum_working(label: str, parts: Iterable[tuple[str, float]], origin: str) -> Working:
    """The sum of some areas, each by its name."""
    listed = list(parts)
    shown = [(name, area, origin) for name, area in listed[:MOST_PARTS]]
    rest = listed[MOST_PARTS:]
    if rest:
        more = tr("{count} more", count=len(rest))
        shown.append((more, sum(area for _, area in rest), tr("together")))
    inputs = tuple(
        numbered(given(name, told(area, 0, "sq ft"), whence), f"a{place}", area, "sq ft")
        for place, (name, area, whence) in enumerate(shown)
    )
    formula = sum_of(inputs).replace("}", ":0}")
    return Working(
        "sum_of_areas",
        label,
        told(sum(area for _, area in listed), 0, "sq ft"),
        tr("sum of the areas"),
        put_in(formula, inputs),
        inputs,
        sources(),
        reckons(formula, "sq ft", 0),
    )


def plug_workings(core: Core, spot: str) -> Iterator[Working]:
    """The mean thatch of one plug, and its root depth as read."""
    origin = tr("plug of {day} at {spot}", day=day(core.date), spot=spot)
    if core.thatch_in:
        yield _plug_mean(core, origin)
    if core.root_depth_in is not None:
        depth = given(tr("Root depth"), told(core.root_depth_in, 2, "in"), origin)
        yield Working(
            f"plug_roots:{core.id}",
            tr("Root depth of the plug"),
            told(core.root_depth_in, 2, "in"),
            tr("as read, from the crowns to where most roots end"),
            "",
            (depth,),
            sources("root-reading"),
        )


def _plug_mean(core: Core, origin: str) -> Working:
    kind = tr("pressed") if core.pressed else tr("not pressed")
    readings = readings_in(core.thatch_in, f"{origin}, {kind}")
    formula = f"({sum_of(readings)}) ÷ {len(readings)}"
    return Working(
        f"plug_thatch:{core.id}",
        tr("Thatch of the plug"),
        told(sum(core.thatch_in) / len(core.thatch_in), 2, "in"),
        tr("mean of its readings, from the base of the crowns to the soil"),
        put_in(formula, readings),
        readings,
        sources("plug-reading"),
        reckons(formula, "in"),
    )


def rain_workings(credit: RainCredit | None) -> tuple[Working, ...]:
    """What the last week's rain counted for, and by how much it moved the next watering."""
    if credit is None:
        return ()
    lost = credit.fallen_in - credit.counted_in
    formula = "{fallen} − {lost}"
    fallen = given(tr("Fallen"), told(credit.fallen_in, 2, "in"), tr("gauge, or else the station"))
    gone = given(
        tr("Not counted"), told(lost, 2, "in"), tr("slight rain, run-off and what drained away")
    )
    moved = given(
        tr("Moved by"), counted(credit.days_moved, "day"), tr("the ledger run without that rain")
    )
    inputs = (
        numbered(fallen, "fallen", credit.fallen_in, "in"),
        numbered(gone, "lost", lost, "in"),
    )
    return (
        Working(
            "rain_credit",
            tr("Rain that counted in the last week"),
            told(credit.counted_in, 2, "in"),
            tr("rain fallen − what thatch and roots did not take of it"),
            put_in(formula, inputs),
            (*inputs, moved),
            sources("fao56", "tr55"),
            reckons(formula, "in"),
        ),
    )


def night_working(run: ProgramRun) -> Working:
    """When a night's program begins, so that all its zones are done by sunrise."""
    minutes = tr("{count} min", count=run.elapsed_minutes)
    length = given(tr("Length of the night’s program"), minutes, tr("runs, soaks and changes"))
    inputs: list[Input] = [numbered(length, "length", float(run.elapsed_minutes), "min")]
    zones = given(tr("Zones"), str(len(run.zones)), ", ".join(run.zones))
    inputs.append(zones)
    sunrise = run.sunrise
    if sunrise is not None:
        rises = tr("{day}, by latitude, longitude and time zone", day=day(run.morning))
        inputs.append(given(tr("Sunrise"), f"{sunrise:%H:%M}", rises))
    begins = run.starts
    return Working(
        "night_starts",
        tr("Start of the night’s program"),
        tr("not known") if begins is None else f"{begins:%H:%M}",
        tr("sunrise − length of the program, kept within the hours of a local rule"),
        "" if sunrise is None else f"{sunrise:%H:%M} − {minutes}",
        tuple(inputs),
        sources("noaa-sun"),
        _night_reckoning(run),
    )


def _night_reckoning(run: ProgramRun) -> Reckoning | None:
    """The start from another length; None where it is not the length that decides on it."""
    ends = run.ends
    if run.starts is None or ends is None or run.shortfall_minutes:
        return None
    return reckons(f"{60 * ends.hour + ends.minute} − {{length}}", CLOCK, 0)
