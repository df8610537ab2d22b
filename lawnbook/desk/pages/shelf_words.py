"""What the shelf says of a product, as plain words made of its record. No Qt.

A mix is told by what its ingredients come to, like everywhere else.
"""

from collections.abc import Mapping
from typing import Any

from lawnbook.agronomy.mixes import Analysis
from lawnbook.agronomy.release import QUICK_WEEKS, release_weeks, slow_source_of
from lawnbook.desk.pages.entry_panel import Answer
from lawnbook.desk.pages.feed_words import slow_sentence
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.telling import either
from lawnbook.plan.workings import PERCENT, told_small
from lawnbook.reading import localised, reading, tr
from lawnbook.yard.amounts import shown, trimmed, unit_shown
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.records import Product

SHELF_HEADS = (tr("Product"), tr("Kind"), "N-P-K", tr("Slow, of\nthe N"), tr("Package"))
NO_DENSITY = tr(
    "A liquid without a density can be weighed, but not measured out by the fluid "
    "ounce: weigh a gallon of it, or take the figure from its label."
)
NO_DENSITY_METRIC = tr(
    "A liquid without a density can be weighed, but not measured out by the "
    "millilitre: weigh a litre of it, or take the figure from its label."
)
COPY_THE_LABEL = tr("Copy the label's numbers: the slow share of the nitrogen follows.")


def figure(value: float) -> str:
    """A percentage of a label or a mix without needless zeros; a trace keeps its first digit."""
    told, point = told_small(value, 2), reading().point
    return told.rstrip("0").rstrip(point) if point in told else told


def amount(value: float, unit: str) -> str:
    """An amount of a US unit as `figure` tells it, in the owner's: "8.3 lb", "3.76 kg"."""
    return f"{figure(shown(value, unit))} {unit_shown(unit)}"


def npk(holds: Analysis) -> str:
    """An analysis as labels write it: "24-0-4"."""
    return "-".join(figure(each) for each in (holds.n_pct, holds.p2o5_pct, holds.k2o_pct))


def product_row(product: Product) -> Row:
    """A product as a row under `SHELF_HEADS`; its slow source is told in full."""
    holds = analysis_of(product)
    share = holds.slow_n_pct / holds.n_pct if holds.n_pct > 0 else None
    slow = "–" if share is None else f"{100 * share:.0f}{PERCENT}"
    cells = (product.name, _kind(product), npk(holds), slow, _package(product))
    parts = [
        ", ".join(cells[1:3]),
        tr("{slow} of the nitrogen slow", slow=slow) if share is not None else "",
    ]
    source = tr(product.slow_kind) if product.slow_kind else product.slow_sources
    parts += [source if share else "", cells[4] if cells[4] != "–" else ""]
    return Row(product.id, cells, f"{product.name}: {'; '.join(each for each in parts if each)}")


def _kind(product: Product) -> str:
    if product.ingredients:
        return tr("liquid mix") if product.form == "liquid" else tr("mix")
    form = tr(product.form)
    return tr("{form}, starter", form=form) if product.starter else form


def _package(product: Product) -> str:
    sizes = [
        *([trimmed(product.bag_lb, 2, "lb")] if product.bag_lb else []),
        *([trimmed(product.jug_gal, 2, "gal")] if product.jug_gal else []),
    ]
    return ", ".join(sizes) or "–"


def label_answer(values: Mapping[str, Any]) -> Answer:
    """What follows from a label as typed so far: slow share, what a pound of nitrogen costs."""
    n_pct, slow_n_pct = values.get("n_pct"), values.get("slow_n_pct")
    if n_pct is None or slow_n_pct is None:
        return "", "caption"
    if n_pct == 0 == slow_n_pct:
        return COPY_THE_LABEL, "caption"
    wrong = slow_n_pct > n_pct > 0
    words = (slow_sentence(n_pct, slow_n_pct), price_sentence(values))
    return " ".join(each for each in words if each), "refuse" if wrong else "caption"


def price_sentence(values: Mapping[str, Any]) -> str:
    """What a pound of nitrogen costs, in the owner's currency; empty until it can be told."""
    price, n_pct = values.get("price"), values.get("n_pct")
    package_lb = _package_lb(values)
    if not price or not n_pct or not package_lb or not 0 < n_pct <= 100 or price < 0:
        return ""
    n_lb = package_lb * n_pct / 100
    holds, each = amount(n_lb, "lb"), localised(f"{price / shown(n_lb, 'lb'):,.2f}")
    us = tr("The package holds {holds} of nitrogen: a pound of it costs {each}.",
            holds=holds, each=each)  # fmt: skip
    metric = tr("The package holds {holds} of nitrogen: a kilogram of it costs {each}.",
                holds=holds, each=each)  # fmt: skip
    return either(us, metric)


def _package_lb(values: Mapping[str, Any]) -> float | None:
    """Pounds in the package that the price is of; None where they are not known."""
    if values.get("form") != "liquid":
        return _above_zero(values.get("bag_lb"))
    jug_gal, density = values.get("jug_gal"), values.get("density_lb_per_gal")
    if jug_gal is None or density is None:
        return _above_zero(values.get("bag_lb"))
    return _above_zero(jug_gal * density)


def _above_zero(value: float | None) -> float | None:
    return value if value is not None and value > 0 else None


def density_words(values: Mapping[str, Any]) -> str:
    """Why a liquid wants a density, while it has none; empty otherwise."""
    lacking = values.get("form") == "liquid" and values.get("density_lb_per_gal") is None
    return either(tr(NO_DENSITY), tr(NO_DENSITY_METRIC)) if lacking else ""


def source_words(values: Mapping[str, Any]) -> str:
    """How long the slow part feeds, and what drives it; empty where nothing is slow."""
    kind, words = values.get("slow_kind"), values.get("slow_sources") or ""
    source = slow_source_of(kind, words)
    if source is None:
        all_quick = values.get("n_pct") and not values.get("slow_n_pct")
        return (
            tr("Quick nitrogen feeds for about {quick_weeks} weeks.", quick_weeks=QUICK_WEEKS)
            if all_quick
            else ""
        )
    weeks = tr(
        "{weeks_low:g}–{weeks_high:g} weeks",
        weeks_low=source.weeks_low,
        weeks_high=source.weeks_high,
    )
    return tr(
        "{name}{name_2} feeds for {weeks}. {note}",
        name=source.name[0].upper(),
        name_2=source.name[1:],
        weeks=weeks,
        note=source.note,
    )


def weeks_offered(values: Mapping[str, Any]) -> str:
    """The release weeks that hold while none are typed, as the field's quiet words."""
    kind, words = values.get("slow_kind"), values.get("slow_sources") or ""
    if slow_source_of(kind, words) is None and not values.get("slow_n_pct"):
        return ""
    return tr("{release_weeks:g}, assumed", release_weeks=release_weeks(kind, words, None))
