"""What the owner enters about a zone's water: waterings put down and catch tests, with answers."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from lawnbook.agronomy.precipitation import (
    DEFAULT_DU_LQ,
    MINUTES_PER_HOUR,
    catch_can_rate_in_per_h,
    depth_rate_in_per_h,
    lower_quarter_uniformity,
    run_time_multiplier,
)
from lawnbook.desk.pages.entry_panel import Answer, EntrySetting
from lawnbook.desk.pages.record_table import Row
from lawnbook.plan.rates import rate_of
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import as_of
from lawnbook.yard.numbers import day, inches, minutes, plain
from lawnbook.yard.records import CatchTest, Watering

ZoneId = Callable[[], str]

MOUTH_HELP = (
    "The mouth of a round can is 0.785 × its width across, squared: 3.5 in across is 9.6 sq in. "
    "Straight-sided cans may be read with a ruler instead: enter depths and leave mouth and "
    "volumes empty."
)

ONE_OF_BOTH = (
    "Minutes run, or the depth a can caught: one of them. Counted is what the drier half gets, "
    "less than the cans show."
)

WRONG_CANS = "These figures give no rate: every can needs 0 or more, one of them more than 0."


def watering_setting(book: OpenNotebook, zone_id: ZoneId) -> EntrySetting:
    """The entry of waterings of the zone that `zone_id` names when asked."""

    def rows() -> Sequence[Row]:
        kept = [each for each in book.notebook.waterings.values() if each.zone == zone_id()]
        kept.sort(key=lambda each: each.date, reverse=True)
        counted = _counting(book, zone_id())
        return [_watering_row(each, counted(each)) for each in kept]

    return EntrySetting(
        table="waterings",
        noun="watering",
        names=("date", "minutes", "cycles", "depth_in"),
        heads=("Day", "Run", "Depth in the can", "Counted"),
        rows=rows,
        title=lambda each: f"watering of {day(each.date)}",
        given=lambda: {"zone": zone_id(), "date": book.today},
        answer=_one_of_both,
        empty="None yet. Each one kept here moves the next watering.",
        columns=4,
        most_rows=4,
    )


def catch_setting(book: OpenNotebook, zone_id: ZoneId) -> EntrySetting:
    """The entry of catch tests of the zone that `zone_id` names when asked."""

    def rows() -> Sequence[Row]:
        kept = [each for each in book.notebook.catch_tests.values() if each.zone == zone_id()]
        kept.sort(key=lambda each: each.date, reverse=True)
        return [_test_row(each) for each in kept]

    return EntrySetting(
        table="catch_tests",
        noun="catch test",
        names=("date", "run_minutes", "pressure_psi", "can_mouth_sqin", "volumes_ml", "depths_in"),
        heads=("Day", "Cans", "Run", "Rate, in/h", "Lower quarter"),
        rows=rows,
        title=lambda each: f"catch test of {day(each.date)}",
        given=lambda: {"zone": zone_id(), "date": book.today},
        answer=catch_answer,
        empty="No cans set out here yet. Until then the evenness is assumed.",
        spans={"volumes_ml": 2, "depths_in": 3},
        most_rows=4,
    )


def catch_answer(values: Mapping[str, Any]) -> Answer:
    """Rate and lower-quarter uniformity of the cans as typed, or what is missing for them."""
    volumes, depths = values.get("volumes_ml") or (), values.get("depths_in") or ()
    run, mouth = values.get("run_minutes"), values.get("can_mouth_sqin")
    cans = volumes or depths
    if not cans:
        return (
            "Type what the cans caught, with spaces between: rate and evenness follow.",
            "caption",
        )
    if not run or (volumes and not mouth):
        needed = [
            *([] if run else ["the minutes run"]),
            *(["the mouth of the cans"] if volumes and not mouth else []),
        ]
        return f"Still needed: {' and '.join(needed)}.", "caption"
    try:
        rate = (
            catch_can_rate_in_per_h(volumes, run, mouth or 0.0)
            if volumes
            else depth_rate_in_per_h(depths, run)
        )
        if len(cans) == 1:
            return f"1 can: {rate:.2f} in/h; evenness needs two cans or more.", "caption"
        evenness = lower_quarter_uniformity(cans)
    except ValueError:
        return WRONG_CANS, "refuse"
    return f"{len(cans)} cans: {rate:.2f} in/h, lower quarter {evenness:.2f} of the mean.", "good"


def _one_of_both(values: Mapping[str, Any]) -> Answer:
    if values.get("minutes") is not None and values.get("depth_in") is not None:
        return "Minutes or depth, not both: clear one of them.", "ask"
    return ONE_OF_BOTH, "caption"


def _counting(book: OpenNotebook, zone_id: str) -> Callable[[Watering], float | None]:
    """The net depth (in) counted for a zone's waterings; None where their rate is not known."""
    notebook = as_of(book.notebook, book.today)
    zone = notebook.zones.get(zone_id)
    if zone is None:
        return lambda _: None
    rate = rate_of(notebook, zone, zone_area_sqft(zone), book.today)
    multiplier = run_time_multiplier(DEFAULT_DU_LQ if rate.du_lq is None else rate.du_lq)

    def counted(watering: Watering) -> float | None:
        gross = watering.depth_in
        if gross is None and watering.minutes is not None and rate.in_per_h is not None:
            gross = watering.minutes * rate.in_per_h / MINUTES_PER_HOUR
        return None if gross is None else gross / multiplier

    return counted


def _watering_row(each: Watering, counted_in: float | None) -> Row:
    depth = "–" if each.depth_in is None else inches(each.depth_in)
    counted = "–" if counted_in is None else inches(counted_in)
    told = "nothing is counted until the rate is known"
    if counted_in is not None:
        told = f"{counted} counted, net for the drier half"
    run = _run_words(each)
    cells = (day(each.date), run, depth, counted)
    return Row(each.id, cells, f"Watering of {cells[0]}: {run if run != '–' else depth}; {told}")


def _run_words(each: Watering) -> str:
    if each.minutes is None:
        return "–"
    cycles = f" in {each.cycles} cycles" if each.cycles and each.cycles > 1 else ""
    return f"{minutes(each.minutes)}{cycles}"


def _test_row(test: CatchTest) -> Row:
    cans = test.volumes_ml or test.depths_in
    words, role = catch_answer(
        {
            "volumes_ml": test.volumes_ml,
            "depths_in": test.depths_in,
            "run_minutes": test.run_minutes,
            "can_mouth_sqin": test.can_mouth_sqin,
        }
    )
    rate = f"{_rate(test):.2f}"
    evenness = f"{lower_quarter_uniformity(cans):.2f}" if role == "good" else "–"
    cells = (day(test.date), str(len(cans)), f"{plain(test.run_minutes)} min", rate, evenness)
    return Row(test.id, cells, f"{day(test.date)}: {words}")


def _rate(test: CatchTest) -> float:
    if test.volumes_ml:
        return catch_can_rate_in_per_h(test.volumes_ml, test.run_minutes, test.can_mouth_sqin or 0)
    return depth_rate_in_per_h(test.depths_in, test.run_minutes)
