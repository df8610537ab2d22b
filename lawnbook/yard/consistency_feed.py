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
        yield refuse(
            "n_pct",
            tr(
                "Nitrogen, phosphate and potash add up to {amount}, more than the "
                "whole; copy the three figures of the label again.",
                amount=amount(total, "%"),
            ),
        )
    if product.slow_n_pct > product.n_pct + _ROUNDING:
        slow, n = amount(product.slow_n_pct, "%"), amount(product.n_pct, "%")
        yield refuse(
            "slow_n_pct",
            tr(
                "Slowly available nitrogen of {slow} is more than all nitrogen, {n}; "
                "enter percent of the product, as the label states it, not share of the "
                "nitrogen.",
                slow=slow,
                n=n,
            ),
        )
    weightless = product.jug_gal is not None and product.density_lb_per_gal is None
    if product.form == "liquid" and weightless:
        volume = tr("litre") if is_metric() else tr("gallon")
        water = tr("1 kg/L") if is_metric() else tr("8.345 lb/gal")
        where = tr("by weighing one") if product.ingredients else tr("from the label")
        sentence = tr(
            "A jug's volume cannot be weighed without its density; enter the weight per {volume} "
            "{where} (water is {water}), or keep it all the same.",
            volume=volume,
            where=where,
            water=water,
        )
        yield ask("density_lb_per_gal", sentence)
    if total == 0 and not product.ingredients:
        yield ask(
            "n_pct",
            tr(
                "{name} holds no nitrogen, phosphate or potash by these figures; copy "
                "the label's, or keep it all the same.",
                name=product.name.strip() or tr("This product"),
            ),
        )
    yield from _mix(product)


def _mix(product: Product) -> Iterator[Complaint]:
    for i, each in enumerate(product.ingredients):
        place = f"ingredients[{i}]"
        total = each.n_pct + each.p2o5_pct + each.k2o_pct
        if total > 100 + _ROUNDING:
            sentence = tr(
                "{name}: its parts add up to {amount}; check its label.",
                name=each.name,
                amount=amount(total, "%"),
            )
            yield refuse("ingredients", sentence, place)
        if each.slow_n_pct > each.n_pct + _ROUNDING:
            slow, n = amount(each.slow_n_pct, "%"), amount(each.n_pct, "%")
            yield refuse(
                "ingredients",
                tr(
                    "{name}: slow nitrogen of {slow} is more than all its nitrogen, {n}; "
                    "enter percent of the ingredient.",
                    name=each.name,
                    slow=slow,
                    n=n,
                ),
                place,
            )
    if not product.ingredients:
        return
    if sum(each.pounds for each in product.ingredients) <= 0:
        yield refuse(
            "ingredients",
            tr("The ingredients weigh nothing; enter {weights} of each.", weights=weights()),
        )
        return
    held = _analysis(product)
    if held is None or product.n_pct == 0:
        return
    if abs(held.n_pct - product.n_pct) > _MIX_SLACK_PCT:
        told = tr(
            "By its recipe this mix holds {amount} nitrogen, and ",
            amount=amount(round(held.n_pct, 2), "%"),
        )
        mend = tr(
            "{amount} is entered; the recipe counts. Mend one of them, or ",
            amount=amount(product.n_pct, "%"),
        )
        yield ask("n_pct", tr("{told}{mend}keep it all the same.", told=told, mend=mend))


def _analysis(product: Product) -> Analysis | None:
    """What a product holds; None where its own figures are refused."""
    try:
        return analysis_of(product)
    except ValueError:
        return None


def feeding_complaints(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    """A rate beyond what lawns get, a day in a blackout, areas that do not fit."""
    if not feeding.pounds:
        told = tr("A feeding needs a zone; enter the {weights} spread on it.", weights=weights())
        yield refuse("pounds", told)
    yield from _rates(feeding, notebook)
    yield from _treated(feeding, notebook)
    yield from _in_blackout(feeding, notebook)
    yield from _before_the_turf(feeding, notebook)


def long_ago_complaints(feeding: Feeding, today: date) -> Iterator[Complaint]:
    """A feeding so long before the day of its entry that its year may be a slip."""
    if (today - feeding.date).days > LONGEST_AGO_YEARS * DAYS_PER_YEAR:
        yield ask(
            "date",
            tr(
                "{date} is more than {longest_ago_years} years ago; check the year, or "
                "keep it all the same.",
                date=day(feeding.date),
                longest_ago_years=LONGEST_AGO_YEARS,
            ),
        )


def _before_the_turf(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    """Zones whose turf, by the day it was established, was not there yet."""
    zones = [notebook.zones[each] for each in feeding.pounds if each in notebook.zones]
    for zone in zones:
        turf = zone.established
        if turf is not None and turf.date is not None and feeding.date < turf.date:
            yield ask(
                "date",
                tr(
                    "{date} is before the turf of {name} was established, {date_2}; correct "
                    "either date, or keep it all the same.",
                    date=day(feeding.date),
                    name=zone.name,
                    date_2=day(turf.date),
                ),
            )
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
            told = tr("{name} gets {n_rate}; ", name=zone.name, n_rate=_n_rate(rate))
            meant = "" if is_metric() else _if_ounces(pounds, rate)
            mend = tr(
                "check {weights}, product and area, or keep it all the same.", weights=weights()
            )
            yield ask("pounds", told + meant + mend, f"pounds.{zone_id}")


def _treated(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    for zone_id, area in feeding.treated_area_sqft.items():
        place = f"treated_area_sqft.{zone_id}"
        zone = notebook.zones.get(zone_id)
        name = zone.name if zone is not None else zone_id
        if zone_id not in feeding.pounds:
            sentence = tr(
                "{name} has an area treated but no {weights}; enter them or take it out.",
                name=name,
                weights=weights(),
            )
            yield refuse("treated_area_sqft", sentence, place)
        elif zone is not None and area > (whole := geometry.zone_area_sqft(zone)) * 1.01:
            yield ask(
                "treated_area_sqft",
                tr(
                    "The area treated on {name}, {told_of}, is more than the zone's "
                    "{told_of_2}; correct it, or keep it all the same.",
                    name=name,
                    told_of=told_of(area, 0, "sq ft"),
                    told_of_2=told_of(whole, 0, "sq ft"),
                ),
                place,
            )


def _in_blackout(feeding: Feeding, notebook: Notebook) -> Iterator[Complaint]:
    rules = notebook.n_rules
    season = next((each for each in rules.blackouts if _holds(each, feeding.date)), None)
    if season is None:
        return
    whose = (
        tr("the blackout of {name}", name=rules.name.strip())
        if rules.name.strip()
        else tr("your blackout")
    )
    span = tr("{start} to {end}", start=_told(season.start), end=_told(season.end))
    yield ask(
        "date",
        tr(
            "{date} lies in {whose}, {span}, when nothing is spread; correct the "
            "date, or keep it all the same.",
            date=day(feeding.date),
            whose=whose,
            span=span,
        ),
    )


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
        told = tr(
            "Spreader is empty; enter your name for it: a setting holds for one spreader only."
        )
        yield refuse("spreader", told)
    if not run.setting.strip():
        yield refuse("setting", tr("Setting is empty; enter what its dial or gate was set to."))
    try:
        rate = spreader_rate_lb_per_1000(run.used_lb, run.strip_ft, run.width_ft)
    except ValueError:
        # A figure that its own rule refuses.
        return
    if rate > MOST_SPREAD_LB_PER_1000 + _ROUNDING:
        yield ask(
            "used_lb",
            tr(
                "{amount} over this strip is {product_rate}; check weight and strip, or "
                "keep it all the same.",
                amount=amount(run.used_lb, "lb"),
                product_rate=_product_rate(rate),
            ),
        )


def sprayer_run_complaints(run: SprayerRun, _: Notebook) -> Iterator[Complaint]:
    """A run that tells no sprayer, more water than a tank, or a rate that no lawn gets."""
    if not run.sprayer.strip():
        yield refuse("sprayer", tr("Sprayer is empty; enter your name for it."))
    if run.used_gal > run.tank_gal * (1 + _ROUNDING):
        yield ask(
            "used_gal",
            tr(
                "{amount} is more than the tank's {amount_2}; check both, or keep it all the same.",
                amount=amount(run.used_gal, "gal"),
                amount_2=amount(run.tank_gal, "gal"),
            ),
        )
    try:
        rate = spray_gal_per_1000(run.used_gal, run.area_sqft)
    except ValueError:
        # A figure that its own rule refuses.
        return
    if rate > MOST_SPRAYED_GAL_PER_1000 + _ROUNDING:
        yield ask(
            "area_sqft",
            tr(
                "{amount} on {told_of} is {amount_2}; check both, or keep it all the same.",
                amount=amount(run.used_gal, "gal"),
                told_of=told_of(run.area_sqft, 0, "sq ft"),
                amount_2=amount(rate, "gal per 1,000 sq ft"),
            ),
        )


def soil_test_complaints(test: SoilTest, _: Notebook) -> Iterator[Complaint]:
    """A test without a figure: the sample may have been sent in and not be back."""
    if all(each is None for each in (test.ph, test.om_pct, test.p_ppm, test.k_ppm)):
        yield ask(
            "ph",
            tr(
                "This soil test has no figure yet; enter at least its pH or its "
                "phosphorus, or keep it all the same until the laboratory answers."
            ),
        )


def rules_complaints(rules: NRules, _: Notebook) -> Iterator[Complaint]:
    """More quick nitrogen at once than nitrogen in all."""
    quick, total = rules.max_quick_lb, rules.max_total_lb
    if quick is not None and total is not None and quick > total + _ROUNDING:
        yield ask(
            "max_quick_lb",
            tr(
                "Quick nitrogen of {at_once} at once is more than all nitrogen at once, "
                "{at_once_2}; correct one of them, or keep it all the same.",
                at_once=_at_once(quick),
                at_once_2=_at_once(total),
            ),
        )


def weights() -> str:
    """What weights are entered in."""
    return tr("kilograms") if is_metric() else tr("pounds")


def _n_rate(lb_per_1000: float) -> str:
    if is_metric():
        return tr(
            "{lb_per_1000} g of nitrogen per m²", lb_per_1000=plain(lb_per_1000, 2, RATE_UNIT)
        )
    return tr("{amount} lb of nitrogen per 1,000 sq ft", amount=amount(round(lb_per_1000, 2)))


def _if_ounces(pounds: float, rate: float) -> str:
    return tr(
        "if ounces were meant, {ounces} are {pounds} and give {rate} lb; ",
        ounces=amount(round(pounds, 1), "oz"),
        pounds=amount(round(oz_to_lb(pounds), 2), "lb"),
        rate=amount(round(oz_to_lb(rate), 2)),
    )


def _product_rate(lb_per_1000: float) -> str:
    if is_metric():
        return tr("{lb_per_1000} g of product per m²", lb_per_1000=plain(lb_per_1000, 1, RATE_UNIT))
    return tr("{amount} lb of product per 1,000 sq ft", amount=amount(round(lb_per_1000, 0)))


def _at_once(lb_per_1000: float) -> str:
    return amount(lb_per_1000, RATE_UNIT if is_metric() else "lb")
