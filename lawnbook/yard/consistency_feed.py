"""Rules between the fields of what feeds the lawn: products, mixes, feedings, runs, soil tests."""

import re
from collections.abc import Iterator
from datetime import date

from lawnbook.agronomy.mixes import Analysis
from lawnbook.agronomy.spraying import spray_gal_per_1000
from lawnbook.agronomy.spreading import spreader_rate_lb_per_1000
from lawnbook.agronomy.units import oz_to_lb
from lawnbook.reading import is_metric, reading, tr
from lawnbook.yard import geometry
from lawnbook.yard.amounts import RATE_UNIT
from lawnbook.yard.amounts import told as told_of
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.limits import Complaint, amount, ask, refuse
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import MONTHS, day, plain
from lawnbook.yard.records import (
    Care,
    Feeding,
    NRules,
    Product,
    Season,
    SoilTest,
    SprayerRun,
    SpreaderRun,
)

MOST_N_LB_PER_1000 = 2.0
MOST_SPREAD_LB_PER_1000 = 60.0
MOST_SPRAYED_GAL_PER_1000 = 10.0
"""Rates above which a calibration is questioned: common practice is far below them."""

LONGEST_AGO_YEARS = 15
DAYS_PER_YEAR = 365.25
_MIX_SLACK_PCT = 0.1
_ROUNDING = 1e-6
_DAY_OF_YEAR = re.compile(r"(0[1-9]|1[0-2])-([0-2][0-9]|3[01])")


def product_complaints(product: Product, _: Notebook) -> Iterator[Complaint]:
    """Parts that are more than the whole, a liquid that cannot be weighed, a mix's recipe."""
    total = product.n_pct + product.p2o5_pct + product.k2o_pct
    if total > 100 + _ROUNDING:
        sentence = f"Nitrogen, phosphate and potash add up to {amount(total, '%')}, more than the "
        yield refuse("n_pct", sentence + "whole; copy the three figures of the label again.")
    if product.slow_n_pct > product.n_pct + _ROUNDING:
        slow, n = amount(product.slow_n_pct, "%"), amount(product.n_pct, "%")
        sentence = f"Slowly available nitrogen of {slow} is more than all nitrogen, {n}; "
        mend = "enter percent of the product, as the label states it, not share of the nitrogen."
        yield refuse("slow_n_pct", sentence + mend)
    weightless = product.jug_gal is not None and product.density_lb_per_gal is None
    if product.form == "liquid" and weightless:
        volume = tr("litre") if is_metric() else tr("gallon")
        water = tr("1 kg/L") if is_metric() else tr("8.345 lb/gal")
        told = (
            "A jug's volume cannot be weighed without its density; enter the weight per "
            + volume
            + " "
        )
        where = "by weighing one" if product.ingredients else "from the label"
        mend = f"{where} (water is {water}), or keep it all the same."
        yield ask("density_lb_per_gal", told + mend)
    if total == 0 and not product.ingredients:
        told = (
            f"{product.name.strip() or 'This product'} holds no nitrogen, phosphate or potash by "
        )
        yield ask("n_pct", told + "these figures; copy the label's, or keep it all the same.")
    yield from _mix(product)


def _mix(product: Product) -> Iterator[Complaint]:
    for i, each in enumerate(product.ingredients):
        place = f"ingredients[{i}]"
        total = each.n_pct + each.p2o5_pct + each.k2o_pct
        if total > 100 + _ROUNDING:
            sentence = f"{each.name}: its parts add up to {amount(total, '%')}; check its label."
            yield refuse("ingredients", sentence, place)
        if each.slow_n_pct > each.n_pct + _ROUNDING:
            slow, n = amount(each.slow_n_pct, "%"), amount(each.n_pct, "%")
            sentence = f"{each.name}: slow nitrogen of {slow} is more than all its nitrogen, {n}; "
            yield refuse("ingredients", sentence + "enter percent of the ingredient.", place)
    if not product.ingredients:
        return
    if sum(each.pounds for each in product.ingredients) <= 0:
        yield refuse("ingredients", f"The ingredients weigh nothing; enter {weights()} of each.")
        return
    held = _analysis(product)
    if held is None or product.n_pct == 0:
        return
    if abs(held.n_pct - product.n_pct) > _MIX_SLACK_PCT:
        told = f"By its recipe this mix holds {amount(round(held.n_pct, 2), '%')} nitrogen, and "
        mend = f"{amount(product.n_pct, '%')} is entered; the recipe counts. Mend one of them, or "
        yield ask("n_pct", f"{told}{mend}keep it all the same.")


def _analysis(product: Product) -> Analysis | None:
    """What a product holds; None where its own figures are refused."""
    try:
        return analysis_of(product)
    except ValueError:
        return None


def feeding_complaints(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    """A rate beyond what lawns get, a day in a blackout, areas that do not fit."""
    if not feeding.pounds:
        yield refuse("pounds", f"A feeding needs a zone; enter the {weights()} spread on it.")
    yield from _rates(feeding, notebook)
    yield from _treated(feeding, notebook)
    yield from _in_blackout(feeding, notebook)
    yield from _before_the_turf(feeding, notebook)


def long_ago_complaints(feeding: Feeding, today: date) -> Iterator[Complaint]:
    """A feeding so long before the day of its entry that its year may be a slip."""
    if (today - feeding.date).days > LONGEST_AGO_YEARS * DAYS_PER_YEAR:
        told = f"{day(feeding.date)} is more than {LONGEST_AGO_YEARS} years ago; check the year, "
        yield ask("date", told + "or keep it all the same.")


def _before_the_turf(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    """Zones whose turf, by the day it was established, was not there yet."""
    zones = [notebook.zones[each] for each in feeding.pounds if each in notebook.zones]
    for zone in zones:
        turf = zone.established
        if turf is not None and turf.date is not None and feeding.date < turf.date:
            told = f"{day(feeding.date)} is before the turf of {zone.name} was established, "
            mend = f"{day(turf.date)}; correct either date, or keep it all the same."
            yield ask("date", told + mend)
            return


def _rates(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    product = notebook.products.get(feeding.product)
    held = _analysis(product) if product is not None else None
    for zone_id, pounds in feeding.pounds.items():
        zone = notebook.zones.get(zone_id)
        whole = geometry.zone_area_sqft(zone) if zone is not None else 0.0
        area = feeding.treated_area_sqft.get(zone_id, whole)
        if zone is None or held is None or not area > 0:
            continue
        rate = pounds * held.n_pct / 100 / (area / 1000)
        if rate > MOST_N_LB_PER_1000 + _ROUNDING:
            told = f"{zone.name} gets {_n_rate(rate)}; "
            meant = "" if is_metric() else _if_ounces(pounds, rate)
            mend = f"check {weights()}, product and area, or keep it all the same."
            yield ask("pounds", told + meant + mend, f"pounds.{zone_id}")


def _treated(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    for zone_id, area in feeding.treated_area_sqft.items():
        place = f"treated_area_sqft.{zone_id}"
        zone = notebook.zones.get(zone_id)
        name = zone.name if zone is not None else zone_id
        if zone_id not in feeding.pounds:
            sentence = f"{name} has an area treated but no {weights()}; enter them or take it out."
            yield refuse("treated_area_sqft", sentence, place)
        elif zone is not None and area > (whole := geometry.zone_area_sqft(zone)) * 1.01:
            told = (
                f"The area treated on {name}, {told_of(area, 0, 'sq ft')}, is more than the zone's "
            )
            mend = f"{told_of(whole, 0, 'sq ft')}; correct it, or keep it all the same."
            yield ask("treated_area_sqft", told + mend, place)


def _in_blackout(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    rules = notebook.n_rules
    season = next((each for each in rules.blackouts if _holds(each, feeding.date)), None)
    if season is None:
        return
    whose = f"the blackout of {rules.name.strip()}" if rules.name.strip() else "your blackout"
    span = f"{_told(season.start)} to {_told(season.end)}"
    told = f"{day(feeding.date)} lies in {whose}, {span}, when nothing is spread; "
    yield ask("date", told + "correct the date, or keep it all the same.")


def _holds(season: Season, on: date) -> bool:
    """Whether a day lies in a span, both ends included; a span that is misspelt holds none."""
    start, end = season.start, season.end
    if not (_DAY_OF_YEAR.fullmatch(start) and _DAY_OF_YEAR.fullmatch(end)):
        return False
    told = f"{on.month:02d}-{on.day:02d}"
    return start <= told <= end if start <= end else told >= start or told <= end


def _told(month_day: str) -> str:
    # Not by a date: "02-31" is spelt like a day, and refused elsewhere.
    month, day_of = tr(MONTHS[int(month_day[:2]) - 1]), int(month_day[3:])
    if reading().month_first:
        return tr("{month} {day}", month=month, day=day_of)
    return tr("{day} {month}", day=day_of, month=month)


def spreader_run_complaints(run: SpreaderRun, _: Notebook) -> Iterator[Complaint]:
    """A run that tells neither spreader nor setting, or a rate that no lawn gets."""
    if not run.spreader.strip():
        told = "Spreader is empty; enter your name for it: a setting holds for one spreader only."
        yield refuse("spreader", told)
    if not run.setting.strip():
        yield refuse("setting", "Setting is empty; enter what its dial or gate was set to.")
    try:
        rate = spreader_rate_lb_per_1000(run.used_lb, run.strip_ft, run.width_ft)
    except ValueError:
        # A figure that its own rule refuses.
        return
    if rate > MOST_SPREAD_LB_PER_1000 + _ROUNDING:
        told = f"{amount(run.used_lb, 'lb')} over this strip is {_product_rate(rate)}; "
        mend = "check weight and strip, or keep it all the same."
        yield ask("used_lb", told + mend)


def sprayer_run_complaints(run: SprayerRun, _: Notebook) -> Iterator[Complaint]:
    """A run that tells no sprayer, more water than a tank, or a rate that no lawn gets."""
    if not run.sprayer.strip():
        yield refuse("sprayer", "Sprayer is empty; enter your name for it.")
    if run.used_gal > run.tank_gal * (1 + _ROUNDING):
        told = f"{amount(run.used_gal, 'gal')} is more than the tank's "
        mend = f"{amount(run.tank_gal, 'gal')}; check both, or keep it all the same."
        yield ask("used_gal", told + mend)
    try:
        rate = spray_gal_per_1000(run.used_gal, run.area_sqft)
    except ValueError:
        # A figure that its own rule refuses.
        return
    if rate > MOST_SPRAYED_GAL_PER_1000 + _ROUNDING:
        told = f"{amount(run.used_gal, 'gal')} on {told_of(run.area_sqft, 0, 'sq ft')} is "
        mend = f"{amount(rate, 'gal per 1,000 sq ft')}; check both, or keep it all the same."
        yield ask("area_sqft", told + mend)


def soil_test_complaints(test: SoilTest, _: Notebook) -> Iterator[Complaint]:
    """A test without a figure: the sample may have been sent in and not be back."""
    if all(each is None for each in (test.ph, test.om_pct, test.p_ppm, test.k_ppm)):
        told = "This soil test has no figure yet; enter at least its pH or its phosphorus, "
        yield ask("ph", told + "or keep it all the same until the laboratory answers.")


def rules_complaints(rules: NRules, _: Notebook) -> Iterator[Complaint]:
    """More quick nitrogen at once than nitrogen in all."""
    quick, total = rules.max_quick_lb, rules.max_total_lb
    if quick is not None and total is not None and quick > total + _ROUNDING:
        told = f"Quick nitrogen of {_at_once(quick)} at once is more than all nitrogen at once, "
        mend = f"{_at_once(total)}; correct one of them, or keep it all the same."
        yield ask("max_quick_lb", told + mend)


def care_complaints(care: Care, _: Notebook) -> Iterator[Complaint]:
    """Seed may be sown again only after what keeps it from growing was put down."""
    if care.no_seed_until is not None and care.no_seed_until < care.date:
        told = f"No seed before: {day(care.no_seed_until)} is before the day itself, "
        mend = f"{day(care.date)}; enter a later day, or leave it out."
        yield refuse("no_seed_until", told + mend)


def weights() -> str:
    """What weights are entered in."""
    return tr("kilograms") if is_metric() else tr("pounds")


def _n_rate(lb_per_1000: float) -> str:
    if is_metric():
        return f"{plain(lb_per_1000, 2, RATE_UNIT)} g of nitrogen per m²"
    return f"{amount(round(lb_per_1000, 2))} lb of nitrogen per 1,000 sq ft"


def _if_ounces(pounds: float, rate: float) -> str:
    in_oz, in_lb = round(pounds, 1), round(oz_to_lb(pounds), 2)
    meant = f"if ounces were meant, {amount(in_oz, 'oz')} are {amount(in_lb, 'lb')} and "
    return meant + f"give {amount(round(oz_to_lb(rate), 2))} lb; "


def _product_rate(lb_per_1000: float) -> str:
    if is_metric():
        return f"{plain(lb_per_1000, 1, RATE_UNIT)} g of product per m²"
    return f"{amount(round(lb_per_1000, 0))} lb of product per 1,000 sq ft"


def _at_once(lb_per_1000: float) -> str:
    return amount(lb_per_1000, RATE_UNIT if is_metric() else "lb")
