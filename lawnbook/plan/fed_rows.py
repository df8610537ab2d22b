"""The ledger of feeding as rows: each feeding on each zone, and what the irrigation water brought.

Water is one row a month for each zone in the budget year of the day, and one a year before it; its
date is that of the last watering in the row.
"""

from collections.abc import Iterator, Mapping
from datetime import date

from lawnbook.agronomy.mixes import Analysis
from lawnbook.agronomy.nitrogen import n_year
from lawnbook.plan.feed_ledger import part_of
from lawnbook.plan.feed_model import FedRow
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_nitrogen import WATER, WaterN, water_nitrogen_of
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Feeding, Zone


def fed_rows(notebook: Notebook, on: date, zone_id: str = "") -> tuple[FedRow, ...]:
    """The ledger up to a day, newest first, of one zone or of all; each row on one zone.

    Every feeding has its rows, also one of a product that holds nothing. Of one day the feeding
    entered last comes first, its zones in the owner's order.
    """
    known = as_of(notebook, on)
    zones = {each.id: each for each in known.zones.values() if zone_id in ("", each.id)}
    areas = {each.id: zone_area_sqft(each) for each in zones.values()}
    rows = [*_feedings(known, zones, areas), *_waters(known, zones, areas, on)]
    # Sorting is stable: of one day the order in which they were made stays.
    return tuple(sorted(rows, key=lambda row: row.date, reverse=True))


def feeding_rows(notebook: Notebook, feeding: Feeding) -> tuple[FedRow, ...]:
    """The rows of one feeding, a row for each of its zones that there are, in the owner's order."""
    zones = [each for each in notebook.zones.values() if each.id in feeding.pounds]
    product = notebook.products.get(feeding.product)
    held = Analysis() if product is None else analysis_of(product)
    areas = {each.id: zone_area_sqft(each) for each in zones}
    return tuple(_feeding_row(notebook, feeding, each, held, areas[each.id]) for each in zones)


def _feedings(
    notebook: Notebook, zones: Mapping[str, Zone], areas: Mapping[str, float]
) -> Iterator[FedRow]:
    held = {product.id: analysis_of(product) for product in notebook.products.values()}
    for feeding in sorted(notebook.feedings.values(), key=lambda each: -each.rank):
        analysis = held.get(feeding.product, Analysis())
        for zone in zones.values():
            if zone.id in feeding.pounds:
                yield _feeding_row(notebook, feeding, zone, analysis, areas.get(zone.id, 0.0))


def _feeding_row(
    notebook: Notebook, feeding: Feeding, zone: Zone, held: Analysis, zone_sqft: float
) -> FedRow:
    part = part_of(feeding, zone.id, held, zone_sqft)
    product = notebook.products.get(feeding.product)
    return FedRow(
        date=feeding.date,
        zone=zone.name,
        zone_id=zone.id,
        feeding_id=feeding.id,
        product=feeding.product if product is None else product.name,
        product_id=feeding.product,
        pounds=part.pounds,
        area_sqft=part.area_sqft,
        n_lb_per_1000=part.n_lb,
        quick_lb_per_1000=part.quick_lb,
        p2o5_lb_per_1000=part.p2o5_lb,
        k2o_lb_per_1000=part.k2o_lb,
    )


def _waters(
    notebook: Notebook, zones: Mapping[str, Zone], areas: Mapping[str, float], on: date
) -> Iterator[FedRow]:
    latitude = notebook.yard.latitude_deg or 0.0
    this_year = n_year(on, latitude)
    brought = water_nitrogen_of(notebook, areas, date.min, on)
    for zone in (each for each in zones.values() if each.id in brought):
        spans: dict[tuple[str, int], list[WaterN]] = {}
        for each in brought[zone.id].days:
            year = n_year(each.date, latitude)
            month = each.date.month if year == this_year else 0
            spans.setdefault((year.words, month), []).append(each)
        for (year_words, month), days in spans.items():
            when = month_in_full(month) if month else year_words
            n_lb = sum(each.n_lb for each in days)
            yield FedRow(
                date=days[-1].date,
                zone=zone.name,
                zone_id=zone.id,
                feeding_id="",
                product=f"{WATER}, {when}",
                product_id="",
                pounds=None,
                area_sqft=areas[zone.id],
                n_lb_per_1000=n_lb,
                quick_lb_per_1000=n_lb,
                p2o5_lb_per_1000=0.0,
                k2o_lb_per_1000=0.0,
                kind="water",
            )
