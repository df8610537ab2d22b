"""How what the shelf tells of a product came about: its slow share, what a mix holds, its price."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from lawnbook.agronomy.mixes import Analysis
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources, told, told_exactly
from lawnbook.reading import tr
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.records import Ingredient, Product

LABEL = tr("the label, as entered")


def product_workings(product: Product | None) -> tuple[Working, ...]:
    """What a product or a mix holds, its slow share and the price of its nitrogen."""
    if product is None:
        return ()
    values = {
        name: getattr(product, name)
        for name in ("form", "bag_lb", "jug_gal", "density_lb_per_gal", "price")
    }
    held = analysis_of(product)
    if product.ingredients:
        worked = tr("worked out: what the mix holds")
        return (
            *mix_workings(product.ingredients),
            *_slow(held.n_pct, held.slow_n_pct, worked),
            *_price({**values, "n_pct": held.n_pct}, worked),
        )
    grade = tuple(_as_labelled(product.id, held))
    return (*grade, *label_workings({**values, "n_pct": held.n_pct, "slow_n_pct": held.slow_n_pct}))


def label_workings(values: Mapping[str, Any]) -> tuple[Working, ...]:
    """Slow share and price of a label as typed, by the names of a product's fields."""
    n_pct, slow_n_pct = values.get("n_pct") or 0.0, values.get("slow_n_pct") or 0.0
    if not 0 < n_pct <= 100 or not 0 <= slow_n_pct <= n_pct:
        return ()
    return (*_slow(n_pct, slow_n_pct, LABEL), *_price(values, LABEL))


def _as_labelled(product_id: str, held: Analysis) -> Iterator[Working]:
    """The figures of a label, which are typed and stand so."""
    for key, name, pct in (
        ("n", "N", held.n_pct),
        ("p2o5", "P₂O₅", held.p2o5_pct),
        ("k2o", "K₂O", held.k2o_pct),
    ):
        if pct > 0:
            inputs = (_pct(key, name, pct, LABEL),)
            yield Working(
                f"label_{key}:{product_id}",
                tr("{name} of the product", name=name),
                _percent(pct),
                tr("as entered"),
                "",
                inputs,
                sources(),
                reckons(f"{{{key}}}", "%"),
            )


def _slow(n_pct: float, slow_n_pct: float, origin: str) -> Iterator[Working]:
    if n_pct <= 0:
        return
    inputs = (
        _pct("slow", tr("Slow N, of the product"), slow_n_pct, origin),
        _pct("n", tr("N of the product"), n_pct, origin),
    )
    formula = "100 × {slow} ÷ {n}"
    yield Working(
        "slow_share",
        tr("Slow share of the nitrogen"),
        told(100 * slow_n_pct / n_pct, 0, "%"),
        tr("100 × slow N ÷ N, both percent of the product"),
        put_in(formula, inputs),
        inputs,
        sources("n-arithmetic"),
        reckons(formula, "%", 0),
    )


def _price(values: Mapping[str, Any], origin: str) -> Iterator[Working]:
    """What the package holds of nitrogen, and what a pound of it costs, as far as is known."""
    price, n_pct = values.get("price") or 0.0, values.get("n_pct") or 0.0
    package = _package(values)
    if not package or n_pct <= 0:
        return
    formula, pounds, inputs = package
    percent = _pct("n", tr("N of the product"), n_pct, origin)
    n_lb = pounds * n_pct / 100
    holds = f"{formula} × {{n}} ÷ 100"
    yield Working(
        "package_n",
        tr("Nitrogen in the package"),
        told(n_lb, 2, "lb"),
        tr("weight of the package × N % ÷ 100"),
        put_in(holds, (*inputs, percent)),
        (*inputs, percent),
        sources("n-arithmetic"),
        reckons(holds, "lb"),
    )
    if price > 0:
        paid = numbered(given(tr("Price of a package"), told(price), LABEL), "price", price)
        each = f"{{price}} ÷ ({formula} × {{n}} ÷ 100)"
        yield Working(
            "price_n",
            tr("Price of the nitrogen"),
            told(price / n_lb, 2, "per lb"),
            tr("price ÷ (weight of the package × N % ÷ 100)"),
            put_in(each, (paid, *inputs, percent)),
            (paid, *inputs, percent),
            sources("n-arithmetic"),
            reckons(each, "per lb"),
        )


def _package(values: Mapping[str, Any]) -> tuple[str, float, tuple[Input, ...]] | None:
    """The weight of the package that the price is of: formula, pounds, inputs."""
    gallons, density = values.get("jug_gal"), values.get("density_lb_per_gal")
    if values.get("form") == "liquid" and gallons and density:
        jug = numbered(given(tr("Jug"), told(gallons, 2, "gal"), LABEL), "jug", gallons, "gal")
        weighs = given(tr("Density"), told(density, 2, "lb/gal"), LABEL)
        inputs = (jug, numbered(weighs, "density", density, "lb/gal"))
        return "{jug} × {density}", gallons * density, inputs
    bag = values.get("bag_lb")
    if not bag:
        return None
    return "{bag}", bag, (numbered(given(tr("Bag"), told(bag, 2, "lb"), LABEL), "bag", bag, "lb"),)


def mix_workings(parts: Sequence[Ingredient]) -> tuple[Working, ...]:
    """What a mix weighs and holds, the mean of its ingredients weighted by pounds."""
    weight = sum(each.pounds for each in parts)
    if weight <= 0:
        return ()
    pounds = tuple(
        numbered(
            given(each.name, told(each.pounds, 2, "lb"), tr("goes in")), f"w{n}", each.pounds, "lb"
        )
        for n, each in enumerate(parts)
    )
    whole = sum_of(pounds)
    weighs = Working(
        "mix_weight",
        tr("Weight of the mix"),
        told(weight, 2, "lb"),
        tr("sum of what goes in"),
        put_in(whole, pounds),
        pounds,
        sources(),
        reckons(whole, "lb"),
    )
    return (weighs, *_mix_holds(parts, pounds))


def _mix_holds(parts: Sequence[Ingredient], pounds: tuple[Input, ...]) -> Iterator[Working]:
    whole = sum_of(pounds)
    held = analysis_of(Product(id="", name="", ingredients=tuple(parts)))
    for key, name, of_mix in (
        ("n_pct", "N", held.n_pct),
        ("p2o5_pct", "P₂O₅", held.p2o5_pct),
        ("k2o_pct", "K₂O", held.k2o_pct),
    ):
        shares = tuple(
            _pct(f"s{n}", f"{name}, {each.name}", getattr(each, key), tr("its own label or test"))
            for n, each in enumerate(parts)
        )
        if of_mix <= 0:
            continue
        carried = " + ".join(f"{{w{n}}} × {{s{n}}}" for n in range(len(parts)))
        formula = f"({carried}) ÷ ({whole})"
        yield Working(
            f"mix_{key}",
            tr("{name} of the mix", name=name),
            _percent(of_mix),
            tr("sum of (weight × {name} %) ÷ weight of the mix", name=name),
            put_in(formula, (*pounds, *shares)),
            (*pounds, *shares),
            sources("n-arithmetic"),
            reckons(formula, "%"),
        )


def _pct(symbol: str, name: str, pct: float, origin: str) -> Input:
    return numbered(given(name, _percent(pct), origin), symbol, pct, "%")


def _percent(pct: float) -> str:
    return f"{told_exactly(pct, 0)}\u00a0%"
