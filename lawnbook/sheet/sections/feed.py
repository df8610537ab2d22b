"""The spreading plan: pounds and bags by zone and date, and what the year has left after today."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.charts.nitrogen import short_pounds
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_budget import BY_GROWTH, budget_told
from lawnbook.plan.model import Plan, ZoneNitrogen
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.spread_shopping import shopping_of
from lawnbook.plan.spreading_plan import bags_to_buy
from lawnbook.reading import is_metric, tr
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEADING_PT, LINE_PT, Box, RowPlan
from lawnbook.sheet.table import Cell, Column, Row, draw_table, keyed
from lawnbook.yard.amounts import PERCENT, told, told_most, trimmed, unit_shown
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import counted, short_day
from lawnbook.yard.records import Product

CAPTION_TEXT = tr("at most so many pounds of the bag, from that day on")
CAPTION_METRIC = tr("at most so many kilograms of the bag, from that day on")
LETTERS_TEXT = tr("letters: the bags below")
BARE_CAPTION = tr("at most so many pounds of nitrogen itself, from that day on")
BARE_METRIC = tr("at most so many kilograms of nitrogen itself, from that day on")
NO_BAG = tr("No bag with nitrogen is on the shelf yet: the pounds are of nitrogen itself.")
NO_BAG_METRIC = tr(
    "No bag with nitrogen is on the shelf yet: the kilograms are of nitrogen itself."
)
NO_ZONES = tr("No zone is drawn yet: draw one, and its budget stands here.")
MOST_DATES = 6
MOST_WIDE_DATES = 3
"""So few have room for pounds and bags in one line, or beside the names of products."""
MOST_WIDE_NAMED_DATES = 2
MOST_NOTE_LINES = 3
_SEVERAL_NOUNS = {"bag": "bags", "jug": "jugs"}
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class Spreads:
    """The coming feedings with what the table is made of: its dates, and how products are told.

    They are `named` in a column where there are several, a zone gets one of them all the time and
    the dates are few; else each has a letter. One product only needs neither.
    """

    spreads: tuple[PlannedSpread, ...]
    dates: tuple[date, ...]
    letters: tuple[tuple[str, str], ...]
    named: bool = False

    def product(self, zone_id: str) -> str:
        """The product that a zone gets first; empty for none."""
        return next((each.product for each in self.spreads if each.zone_id == zone_id), "")

    def at(self, zone_id: str, on: date) -> tuple[PlannedSpread, ...]:
        """What a zone gets on a day."""
        return tuple(each for each in self.spreads if (each.zone_id, each.date) == (zone_id, on))

    def letter(self, spread: PlannedSpread) -> str:
        """The letter of a feeding's product; empty where none is needed."""
        return dict(self.letters).get(spread.product, "")


def spreads_of(spreads: Sequence[PlannedSpread]) -> Spreads:
    """The coming feedings made ready for the table: the first dates, and letters for products."""
    dates = sorted({each.date for each in spreads})[:MOST_DATES]
    products = list(dict.fromkeys(each.product for each in spreads if each.product))
    several = len(products) > 1
    pairs = {(each.zone_id, each.product) for each in spreads}
    of_one_each = len(pairs) == len({zone_id for zone_id, _ in pairs})
    named = several and of_one_each and len(dates) <= MOST_WIDE_DATES
    letters = tuple(zip(products, _LETTERS, strict=False)) if several and not named else ()
    return Spreads(tuple(spreads), tuple(dates), letters, named)


def most_pressing(zones: Sequence[ZoneNitrogen], count: int) -> tuple[ZoneNitrogen, ...]:
    """Zones over their budget first, then those that may be fed soonest; in number order."""

    def urgency(zone: ZoneNitrogen) -> tuple[float, date, int]:
        over = min(0.0, zone.left_this_year, zone.left_this_month)
        soonest = zone.next_feeding.date if zone.next_feeding is not None else date.max
        return over, soonest, zone.number

    chosen = sorted(zones, key=urgency)[:count]
    return tuple(sorted(chosen, key=lambda zone: zone.number))


def feed_row(notebook: Notebook, zone: ZoneNitrogen, coming: Spreads, tall: bool) -> Row:
    """One zone's row: what it gets on each date, and its year."""
    name = Cell(
        f"{zone.number} {zone.zone}",
        budget_told(zone.budget_name.removesuffix(BY_GROWTH)),
        strong=True,
        key="left_this_year",
    )
    left = tr("{short_pounds} left", short_pounds=short_pounds(zone.left_this_year))
    put = tr("{short_pounds} fed", short_pounds=short_pounds(zone.applied_year))
    role = "bad" if zone.left_this_year < -1e-9 else "ink"
    of_year = Cell(put, left) if tall else Cell(left)
    year = replace(of_year, strong=True, role=role, key="applied_year left_this_year")
    if not any(coming.at(zone.zone_id, on) for on in coming.dates):
        reason = zone.reason or tr("nothing more fits")
        return (name, Cell(reason, small=True, span=max(1, len(coming.dates)) + coming.named), year)
    cells = [_spread_cell(notebook, coming, coming.at(zone.zone_id, on)) for on in coming.dates]
    most = MOST_WIDE_NAMED_DATES if coming.named else MOST_WIDE_DATES
    if not tall and len(coming.dates) <= most:
        cells = [_in_one_line(cell) for cell in cells]
    products = (Cell(coming.product(zone.zone_id)),) if coming.named else ()
    return (name, *products, *cells, year)


def caption(plan: Plan, coming: Spreads, rows: RowPlan) -> str:
    """What the pounds are, how many dates are shown, and which zones where not all are."""
    bare = bool(coming.spreads) and not any(each.product for each in coming.spreads)
    us, metric = (BARE_CAPTION, BARE_METRIC) if bare else (CAPTION_TEXT, CAPTION_METRIC)
    parts = [tr(metric if is_metric() else us)]
    parts += [LETTERS_TEXT] if coming.letters else []
    every = len({each.date for each in coming.spreads})
    if every > len(coming.dates):
        parts.append(tr("the next {count} of {every} dates", count=len(coming.dates), every=every))
    if rows.shown < len(plan.nitrogen):
        over = sum(zone.left_this_year < 0 or zone.left_this_month < 0 for zone in plan.nitrogen)
        said = tr("{over} over budget", over=over) if over else tr("none over budget")
        parts = [
            tr(
                "{count} zones, {said}; the {shown} most pressing: {parts}",
                count=len(plan.nitrogen),
                said=said,
                shown=rows.shown,
                parts=parts[0],
            ),
            *parts[1:],
        ]
    return "; ".join(parts)


def bags(notebook: Notebook, coming: Spreads) -> str:
    """The bags that the pounds are of, as their labels state them, and how much is needed in all.

    Feedings without a product tell that the shelf is bare; empty where nothing is coming.
    """
    if any(not each.product for each in coming.spreads):
        return tr(NO_BAG_METRIC if is_metric() else NO_BAG)
    return " ".join(_bags(notebook, coming))


def note_lines(
    ink: Ink, notebook: Notebook, plan: Plan, coming: Spreads, width: float
) -> list[str]:
    """The lines under the table."""
    if not plan.nitrogen:
        return []
    text = " ".join(each for each in (bags(notebook, coming), _by_growth(plan)) if each)
    return ink.wrap(text, CAPTION, width, most=MOST_NOTE_LINES)


def draw_feed(
    ink: Ink, box: Box, plan: Plan, notebook: Notebook, coming: Spreads, rows: RowPlan
) -> None:
    """Heading, table and footnotes."""
    ink.text((box.left, box.top + 11), tr("Feed"), HEADING)
    start = box.left + ink.width(tr("Feed"), HEADING) + 10
    said = caption(plan, coming, rows)
    ink.text((start, box.top + 11), ink.fit(said, CAPTION, box.right - start), CAPTION)
    if not plan.nitrogen:
        ink.text((box.left, box.top + HEADING_PT + 12), NO_ZONES, CAPTION)
        return
    shown = most_pressing(plan.nitrogen, rows.shown)
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    tall = rows.feed_lines > 1
    cells = [keyed(feed_row(notebook, zone, coming, tall), "feed", zone.zone_id) for zone in shown]
    columns = feed_columns(plan, coming, shown[0].year_label)
    foot = draw_table(ink, table, columns, cells, rows.feed_pt)
    for number, line in enumerate(note_lines(ink, notebook, plan, coming, box.width)):
        ink.text((box.left, foot + 10.5 + LINE_PT * number), line, CAPTION)


def feed_columns(plan: Plan, coming: Spreads, year_label: str) -> tuple[Column, ...]:
    """Zone, dates with the last day that suits, and the year."""
    most = MOST_WIDE_NAMED_DATES if coming.named else MOST_WIDE_DATES
    share = 90 if len(coming.dates) <= most else 60
    dates = [Column(_when(on, plan.on), share, unit=_until(coming, on)) for on in coming.dates]
    return (
        Column(tr("zone"), 110, "left"),
        *((Column(tr("product"), 110, "left"),) if coming.named else ()),
        *(dates or [Column("", 300)]),
        Column(year_label, 84, unit=tr("g N per m²" if is_metric() else "lb N per 1,000 sq ft")),
    )


def _spread_cell(notebook: Notebook, coming: Spreads, spreads: Sequence[PlannedSpread]) -> Cell:
    """Pounds with the product's letter, and beneath them how many bags; a dash for none."""
    if not spreads:
        return Cell("–", role="quiet")
    most = " + ".join(f"{told_most(each.pounds)} {coming.letter(each)}".strip() for each in spreads)
    (first, *others) = spreads
    bag = "" if others or first.bags is None else _bags_told(notebook, first)
    return Cell(most, bag, strong=True, key=first.date.isoformat())


def _in_one_line(cell: Cell) -> Cell:
    unit = "" if cell.main[-1:].isalpha() else f" {unit_shown('lb')}"
    line = f"{cell.main}{unit}, {cell.detail}" if cell.detail else cell.main
    return Cell(line, strong=cell.strong, role=cell.role, key=cell.key)


def _bags_told(notebook: Notebook, spread: PlannedSpread) -> str:
    product = notebook.products.get(spread.product_id)
    # A liquid of unknown density is told by the weight of its package, as it is bought.
    bought = None if product is None else shopping_of(product, spread.pounds)
    noun = "bag" if bought is None else bought.package
    count = round(spread.bags or 0.0, 1)
    if not count:
        return tr("under {count} {package}", count=told(0.1, 1), package=tr(noun))
    return f"{told(count, 1)} {tr(noun if count <= 1 else _SEVERAL_NOUNS[noun])}"


def _until(coming: Spreads, on: date) -> str:
    """The first of the last days that suit the feedings of a date; empty where all are open."""
    lasts = [each.latest for each in coming.spreads if each.date == on and each.latest is not None]
    if not lasts or min(lasts) <= on:
        return ""
    return tr("to {lasts}", lasts=short_day(min(lasts)))


def _when(day_then: date, on: date) -> str:
    """A day, with its year where that is another one."""
    if day_then == on:
        return tr("today")
    same = day_then.year == on.year
    return short_day(day_then) if same else f"{short_day(day_then)} ’{day_then.year % 100:02d}"


def _bags(notebook: Notebook, coming: Spreads) -> Iterator[str]:
    to_buy = bags_to_buy(coming.spreads, notebook)
    letters = dict(coming.letters)
    pounds: dict[str, float] = {}
    for each in coming.spreads:
        pounds[each.product_id] = pounds.get(each.product_id, 0.0) + each.pounds
    for key, sum_lb in pounds.items():
        product = notebook.products.get(key)
        if product is None:
            continue
        bought = to_buy.get(key)
        packages = "" if bought is None else f", {counted(bought.count, bought.package)}"
        letter = f"{letters[product.name]}\u00a0" if product.name in letters else ""
        yield f"{letter}{_bag(product)}: {told_most(sum_lb)} {unit_shown('lb')}{packages}."


def _by_growth(plan: Plan) -> str:
    """That budgets are spread by growth potential in place of a table's months; else empty."""
    spread = [zone for zone in plan.nitrogen if zone.budget_name.endswith(BY_GROWTH)]
    if not spread:
        return ""
    if len(spread) == len(plan.nitrogen):
        return tr("Months by growth potential.")
    return tr("Months by growth potential in {zones}.", zones=counted(len(spread), "zone"))


def package_told(bag_lb: float) -> str:
    """The weight of a package as its label states it: "50 lb"; "22.7 kg", as most name both."""
    return trimmed(bag_lb, 1, "lb")


def _bag(product: Product) -> str:
    held = analysis_of(product)
    grade = "-".join(f"{each:.4g}" for each in (held.n_pct, held.p2o5_pct, held.k2o_pct))
    parts = [product.name if grade in product.name else f"{product.name} {grade}"]
    if product.bag_lb:
        parts.append(package_told(product.bag_lb))
    if held.n_pct > 0:
        slow_pct = 100 * held.slow_n_pct / held.n_pct
        parts.append(tr("{slow_pct:.0f}{percent} slow", slow_pct=slow_pct, percent=PERCENT))
    return ", ".join(parts)
