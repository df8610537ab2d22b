"""What the feed page says, as plain words made of plan figures and records. No Qt."""

from collections.abc import Iterable, Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import slow_share
from lawnbook.agronomy.units import gal_to_fl_oz
from lawnbook.desk.pages.feed_rules_words import is_example
from lawnbook.desk.telling import captioned, either
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_model import SpreadPass, ZoneLoad
from lawnbook.plan.model import SpreadCheck, ZoneNitrogen, ZoneSpread
from lawnbook.plan.season import month_in_full
from lawnbook.plan.workings import LEAST_TOLD_LB, told_most, told_small
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, bare, small_bare, told, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

FigureLine = tuple[str, tuple[str, ...]]
"""A name and its figures."""


def zone_sentence(spread: ZoneSpread, on: date) -> str:
    """One zone of the check: fits or how much over, and where month and year stand afterwards."""
    lead = tr("fits") if spread.within else _not_fitting(spread)
    return tr(
        "{zone}, {lead}: {n_lb_per_1000}, {rate} of it quick{besides}. With this, "
        "{month_in_full} has had {of_allowed}, and the year {of_year}.",
        zone=spread.zone,
        lead=lead,
        n_lb_per_1000=told(spread.n_lb_per_1000, 2, "lb N per 1,000 sq ft"),
        rate=_rate(spread.quick_lb_per_1000),
        besides=_besides(spread),
        month_in_full=month_in_full(on.month),
        of_allowed=_of_allowed(spread.month_after, spread.month_budget),
        of_year=_of_allowed(spread.year_after, spread.year_budget),
    )


def _not_fitting(spread: ZoneSpread) -> str:
    """By how much it is over; or that it may not go down whatever the amount."""
    over = spread.over_by_lb_per_1000
    if over <= 0:
        return tr("not that day")
    return tr("over by {rate}", rate=_rate(over)) if over > LEAST_TOLD_LB else tr("over")


def _besides(spread: ZoneSpread) -> str:
    """The phosphate and potash that come with the nitrogen: ", with 0.20 lb K₂O"."""
    both = ((spread.p2o5_lb_per_1000, "P₂O₅"), (spread.k2o_lb_per_1000, "K₂O"))
    words = [f"{_with_it(value)} {name}" for value, name in both if value > LEAST_TOLD_LB]
    return tr(", with {words}", words=" and ".join(words)) if words else ""


def _with_it(lb_per_1000: float) -> str:
    """A rate that stands beside one with its whole unit: "0.20 lb", "1.0 g/m²"."""
    return either(told(lb_per_1000, 2, "lb"), told(lb_per_1000, 2, RATE_UNIT))


def _rate(lb_per_1000: float) -> str:
    """A rate without its unit, which was said before."""
    return bare(lb_per_1000, 2, RATE_UNIT)


def _of_allowed(after: float, allowed: float) -> str:
    """How much of a budget is used up: "0.60 of the 0.90 allowed"."""
    if allowed <= LEAST_TOLD_LB:
        return tr("{rate} where none is allowed", rate=_rate(after))
    return tr("{rate} of the {most} allowed", rate=_rate(after), most=_rate(allowed))


def most_words(spread: ZoneSpread) -> str:
    """The most product that may go down on the zone that day."""
    return tr("none") if spread.max_lb <= 0 else _most(spread.max_lb)


def _most(pounds: float) -> str:
    return f"{told_most(pounds)} {unit_shown('lb')}"


def standing_sentence(nitrogen: ZoneNitrogen, on: date) -> str:
    """Where a zone's nitrogen stands on a day, before anything is proposed."""
    month, left = month_in_full(on.month), nitrogen.left_this_month
    if left < -LEAST_TOLD_LB:
        stands = tr(
            "{month} is over by {left}", month=month, left=told(-left, 2, "lb N per 1,000 sq ft")
        )
    elif left > LEAST_TOLD_LB:
        stands = tr(
            "{month} has room for {left}", month=month, left=told(left, 2, "lb N per 1,000 sq ft")
        )
    else:
        fed = nitrogen.applied_by_month[on.month - 1] > 0
        stands = (
            tr("{month} is full", month=month)
            if fed
            else tr("{month} allows no nitrogen", month=month)
        )
    return f"{nitrogen.zone}: {stands}. {next_feeding_words(nitrogen, on)}".strip()


def next_feeding_words(nitrogen: ZoneNitrogen, on: date) -> str:
    """The next day with room, and how much of the product fits then; why it waits, or is none."""
    coming = nitrogen.next_feeding
    if coming is None or not coming.product:
        return nitrogen.reason
    what = tr("up to {most} of {product}", most=_most(coming.pounds), product=coming.product)
    if coming.date <= on:
        return tr("{amount} today.", amount=what[0].upper() + what[1:])
    rate = told(coming.n_lb_per_1000, 2, "lb N per 1,000 sq ft")
    room = tr("Next room: {date}, {what} ({rate}).", date=day(coming.date), what=what, rate=rate)
    return f"{nitrogen.reason} {room}".strip()


def slow_sentence(n_pct: float, slow_n_pct: float) -> str:
    """The slow part both ways: as the label's percent of the product, and as a share of the N.

    Empty for percentages that cannot be: the fields themselves say what is wrong with them.
    """
    if n_pct > 100 or slow_n_pct < 0:
        return ""
    if n_pct <= 0 >= slow_n_pct:
        return tr("This product carries no nitrogen.")
    if slow_n_pct > n_pct:
        return tr(
            "Slowly available nitrogen cannot be more than all of it: both are % of the product."
        )
    share = 100 * slow_share(slow_n_pct, n_pct)
    return tr(
        "{n_pct:.4g} % quick and {slow_n_pct:.4g} % slow, both of the product: "
        "{share:.0f} % of its nitrogen is slow.",
        n_pct=n_pct - slow_n_pct,
        slow_n_pct=slow_n_pct,
        share=share,
    )


def _range(values: Iterable[float]) -> str:
    held = sorted(values)
    if not held:
        return "–"
    low, high = _rate(held[0]), _rate(held[-1])
    return low if low == high else tr("{low} to {high}", low=low, high=high)


def binding_lines(check: SpreadCheck, most: int = 5) -> tuple[str, ...]:
    """The rules that are broken, or that set the most that fits, with their sources.

    A rule that binds in several zones is said once, with the zones' names where not all of them;
    a source that is all rules' own is said once, last.
    """
    zones_by_rule: dict[tuple[str, str], list[str]] = {}
    for spread in check.zones:
        for rule in spread.binding:
            zones_by_rule.setdefault((rule.sentence, rule.source), []).append(spread.zone)
    sources = {source for _, source in zones_by_rule}
    shared = (
        tr("Source: {sources}.", sources=min(sources))
        if len(sources) == 1 and len(zones_by_rule) > 1
        else ""
    )
    lines = []
    # What binds in most zones comes first: with many zones the rest may be left out.
    for (sentence, source), zones in sorted(zones_by_rule.items(), key=lambda pair: -len(pair[1])):
        lead = "" if len(zones) == len(check.zones) else f"{names_told(zones)}: "
        tail = f" ({source})" if source and not shared else ""
        lines.append(f"{lead}{sentence}{tail}")
    left_out = len(lines) - most
    rest = (tr("and {left_out} more.", left_out=left_out),) if left_out > 0 else ()
    return (*lines[:most], *rest, *([shared] if shared else ()))


def idle_sentence(notebook: Notebook, standing: str) -> str:
    """What the check says while there is nothing to check yet."""
    if not notebook.zones:
        return tr(
            "Draw a zone on the sketch first: its area tells how much a feeding weighs there."
        )
    if not notebook.products:
        return tr(
            "Put a product on the shelf first, as its label states it: then check a spread here."
        )
    return standing or tr("Tick the zones and say how much: the verdict follows.")


def load_table(check: SpreadCheck) -> tuple[tuple[str, ...], tuple[FigureLine, ...]]:
    """What to weigh out for each zone: heads, and a line for each zone that gets some.

    A column that would be empty for all of them is left out. With several zones the last line
    sums what can be summed.
    """
    loads = [(each.zone, each, each.load) for each in check.zones if each.load and each.pounds > 0]
    liquid = any(load.volume_gal is not None for _, _, load in loads)
    strips = any(load.strip_sqft > 0 for _, _, load in loads)
    heads = (
        tr("Zone"),
        captioned(tr("Product"), "lb"),
        *([tr("or {unit}", unit=unit_shown("fl oz"))] if liquid else []),
        tr("on {unit}", unit=unit_shown("sq ft")),
        unit_shown(RATE_UNIT),
        *([captioned(tr("Kept back"), "lb")] if strips else []),
    )
    lines = []
    for zone, _, load in loads:
        volume = None if load.volume_gal is None else gal_to_fl_oz(load.volume_gal)
        cells = (
            small_bare(load.spread_lb, 2, "lb"),
            *(["–" if volume is None else small_bare(volume, 1, "fl oz")] if liquid else []),
            bare(load.area_sqft, 0, "sq ft"),
            small_bare(load.lb_per_1000, 2, RATE_UNIT),
            *([_kept_back(load)] if strips else []),
        )
        lines.append((zone, cells))
    if len(loads) > 1:
        lines.append(_all_loads([load for _, _, load in loads], liquid, strips))
    return heads, tuple(lines)


def _kept_back(load: ZoneLoad) -> str:
    return small_bare(load.kept_out_lb, 2, "lb") if load.strip_sqft else "–"


def _all_loads(loads: Sequence[ZoneLoad], liquid: bool, strips: bool) -> FigureLine:
    """The sums of the loads; a volume only where that of each is known."""
    volumes = [each.volume_gal for each in loads if each.volume_gal is not None]
    volume = gal_to_fl_oz(sum(volumes)) if len(volumes) == len(loads) else None
    return (
        tr("All zones"),
        (
            small_bare(sum(each.spread_lb for each in loads), 2, "lb"),
            *(["–" if volume is None else small_bare(volume, 1, "fl oz")] if liquid else []),
            bare(sum(each.area_sqft for each in loads), 0, "sq ft"),
            "",
            *([small_bare(sum(each.kept_out_lb for each in loads), 2, "lb")] if strips else []),
        ),
    )


def strip_lines(check: SpreadCheck) -> tuple[str, ...]:
    """The strips that get nothing, zone by zone: how much of the zone, and what stays in the bag.

    The weight to load is that of the rest of the zone alone.
    """
    return tuple(
        tr(
            "{zone}: {strip_sqft} along {names_told} get nothing, and the weight leaves "
            "them out: the {kept_out_lb} that they would take at this rate stay in the bag.",
            zone=each.zone,
            strip_sqft=told(each.load.strip_sqft, 0, "sq ft"),
            names_told=names_told(each.load.strips),
            kept_out_lb=told_small(each.load.kept_out_lb, 2, "lb"),
        )
        for each in check.zones
        if each.load and each.load.strip_sqft > 0 and each.pounds > 0
    )


def water_lines(check: SpreadCheck) -> tuple[str, ...]:
    """How each zone is watered in: its run, then what is said of it, once for all it holds for."""
    runs: dict[str, list[str]] = {}
    remarks: dict[str, list[str]] = {}
    for each in check.zones:
        if each.watering_in is not None and each.pounds > 0:
            run, _, rest = each.watering_in.words.partition(". ")
            runs.setdefault(f"{run.removesuffix('.')}.", []).append(each.zone)
            if rest:
                remarks.setdefault(rest, []).append(each.zone)
    count = sum(map(len, runs.values()))
    return tuple(
        words if len(zones) == count else f"{names_told(zones)}: {words}"
        for part in (runs, remarks)
        for words, zones in part.items()
    )


def pass_words(part: SpreadPass) -> str:
    """One pass of a split: day, pounds by zone, and the nitrogen that they bring."""
    rates = _range(each.n_lb_per_1000 for each in part.zones)
    zones = ", ".join(
        tr("{pounds} on {zone}", pounds=told_small(each.pounds, 2, "lb"), zone=each.zone)
        for each in part.zones
    )
    return f"{day(part.date)}: {zones} ({rates} {unit_shown('lb N per 1,000 sq ft')})"


def feed_attention(notebook: Notebook, zone: ZoneNitrogen | None, on: date) -> dict[str, str]:
    """Why a section of the feed page wants a look, by its name; "" where it does not."""
    year = ""
    if zone is not None and zone.left_this_year < -LEAST_TOLD_LB:
        over = either(told(-zone.left_this_year, 2, "lb"), told(-zone.left_this_year, 2, RATE_UNIT))
        year = tr("{zone} is over the year's budget by {over} N.", zone=zone.zone, over=over)
    rules = ""
    soil = None if zone is None else zone.soil
    # Who never tested is told in the section; a mark that never goes away would say nothing.
    if soil is not None and soil.tested is not None and soil.due <= on:
        rules = tr("{zone}: a soil test is due.", zone=soil.zone)
    if is_example(notebook.n_rules):
        rules = f"Your local rule comes from an example. {rules}".strip()
    shelf = "" if notebook.products else tr("No product is on the shelf yet.")
    return {"Year": year, "Shelf": shelf, "Rules": rules}
