"""Notebooks and pieces of plans, invented for the tests of pictures and pages."""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.plug_model import PlugColumn, SpotThatch
from lawnbook.yard.fields import Outline
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import (
    ClimateMonth,
    Core,
    Feature,
    Feeding,
    Head,
    Product,
    Spot,
    Yard,
    Zone,
)

ON = date(2026, 6, 15)
_ETO_IN = (0.03, 0.05, 0.09, 0.14, 0.19, 0.23, 0.25, 0.22, 0.16, 0.10, 0.05, 0.03)
_MEAN_F = (28.0, 33.0, 41.0, 49.0, 58.0, 67.0, 75.0, 73.0, 64.0, 52.0, 39.0, 30.0)


def plug(number: int, on: date, thatch_in: float | None, **told: object) -> PlugColumn:
    """One plug's column: three readings, a spread of 0.06 in, roots of 3 in unless told."""
    values: dict[str, object] = {
        "spread_in": None if thatch_in is None else 0.06,
        "readings": 3,
        "pressed": False,
        "root_depth_in": 3.0,
        "sponge": 2,
        "soil_in_thatch": 1,
        "worms": 1,
        "note": "",
        **told,
    }
    spread, roots = values["spread_in"], values["root_depth_in"]
    soil, worms, sponge = values["soil_in_thatch"], values["worms"], values["sponge"]
    return PlugColumn(
        core_id=f"core{number}",
        date=on,
        thatch_in=thatch_in,
        spread_in=spread if isinstance(spread, float) else None,
        readings=3,
        pressed=bool(values["pressed"]),
        root_depth_in=roots if isinstance(roots, float) else None,
        sponge=sponge if isinstance(sponge, int) else None,
        soil_in_thatch=soil if isinstance(soil, int) else None,
        worms=worms if isinstance(worms, int) else None,
        note=str(values["note"]),
    )


def plugs(count: int) -> tuple[PlugColumn, ...]:
    """Plugs of spring and autumn from 2017 on, thinning by 0.04 in each to 0.2 in."""
    return tuple(
        plug(
            number,
            date(2017 + number // 2, 5 if number % 2 == 0 else 9, 3),
            max(0.2, 1.2 - 0.04 * number),
            root_depth_in=2.0 + 0.25 * number,
        )
        for number in range(count)
    )


def spot_of(columns: Sequence[PlugColumn], name: str = "gate") -> SpotThatch:
    """A spot with these plugs, and the straight line through its first and last thatch."""
    read = [(each.date, each.thatch_in) for each in columns if each.thatch_in is not None]
    ends = (read[0], read[-1]) if len(read) >= 2 else None
    return SpotThatch(
        spot=name,
        spot_id="spot0",
        zone="Lawn 1",
        plugs=len(columns),
        latest_in=read[-1][1] if read else None,
        first_in=read[0][1] if read else None,
        change_in=None,
        slope_in_per_year=None,
        ci95=None,
        half_inch_between=None,
        verdict="Thinning: 0.08 in a year (95 %: 0.05 to 0.11).",
        line=ends,
        columns=tuple(columns),
        workings=(),
    )


def nitrogen_of(
    applied: dict[int, float], quick: dict[int, float], budget: dict[int, float], label: str
) -> ZoneNitrogen:
    """A zone's nitrogen from months (1 to 12) with pounds; the others are 0."""
    by_month = [
        tuple(held.get(month, 0.0) for month in range(1, 13)) for held in (applied, quick, budget)
    ]
    return ZoneNitrogen(
        zone="Lawn 1",
        zone_id="zone0",
        number=1,
        area_sqft=1000.0,
        year=2026,
        year_label=label,
        budget_name="own",
        budget_source="own",
        applied_by_month=by_month[0],
        quick_by_month=by_month[1],
        budget_by_month=by_month[2],
        applied_year=sum(by_month[0]),
        budget_year=sum(by_month[2]),
        rolling_30_days=0.0,
        left_this_month=0.0,
        left_this_year=sum(by_month[2]) - sum(by_month[0]),
        next_feeding=None,
        reason="",
        workings=(),
    )


def square(left: float, top: float, side: float) -> Outline:
    """A square outline in feet."""
    right, low = left + side, top - side
    return ((left, top), (right, top), (right, low), (left, low))


def yard_of(zones: int, *, latitude_deg: float = 41.0, name: str = "Wren Hollow") -> Notebook:
    """A yard of so many square zones in rows of eight, each with heads, a spot and plugs."""
    lawns, heads, spots, cores = [], [], [], []
    for number in range(zones):
        left, top = 46.0 * (number % 8), -46.0 * (number // 8)
        lawns.append(
            Zone(
                id=f"zone{number}",
                rank=number,
                name=f"Lawn {number + 1}",
                outline_ft=square(left, top, 40),
                soil="loam",
                precipitation_in_per_h=0.5 + 0.02 * number,
            )
        )
        heads.append(
            Head(
                id=f"head{number}",
                rank=number,
                zone=f"zone{number}",
                at_ft=(left, top),
                radius_ft=20,
                start_deg=90,
                sweep_deg=90,
            )
        )
        spots.append(
            Spot(
                id=f"spot{number}",
                rank=number,
                name=f"peg {number + 1}",
                at_ft=(left + 10, top - 30),
                zone=f"zone{number}",
            )
        )
        cores += _cores(number)
    house = Feature(id="house", kind="house", outline_ft=square(0, 60, 40))
    return with_tables(
        new_notebook(name),
        {
            "yard": [Yard(id="yard", name=name, latitude_deg=latitude_deg)],
            "zones": lawns,
            "heads": heads,
            "spots": spots,
            "cores": cores,
            "features": [house] if zones else [],
            "climate": _climate(),
            "products": [_product()],
            "feedings": _feedings(zones),
        },
    )


def _cores(number: int) -> list[Core]:
    return [
        Core(
            id=f"core{number}-{turn}",
            rank=number * 5 + turn,
            spot=f"spot{number}",
            date=date(2024 + turn // 2, 5 if turn % 2 == 0 else 9, 4),
            thatch_in=(1.1 - 0.1 * turn + 0.005 * number, 1.2 - 0.1 * turn),
            root_depth_in=3.0 + turn,
        )
        for turn in range(5)
    ]


def _climate() -> list[ClimateMonth]:
    return [
        ClimateMonth(
            id=f"{month:02d}",
            rank=month - 1,
            month=month,
            tmean_f=_MEAN_F[month - 1],
            eto_in_per_day=_ETO_IN[month - 1],
            rain_in=1.0,
        )
        for month in range(1, 13)
    ]


def _product() -> Product:
    return Product(
        id="bag", name="Slow Twenty", n_pct=20.0, k2o_pct=5.0, slow_n_pct=10.0, bag_lb=50.0
    )


def _feedings(zones: int) -> list[Feeding]:
    if not zones:
        return []
    area = 1600.0
    pounds = {f"zone{number}": 3.0 for number in range(zones)}
    return [
        Feeding(
            id="feed0",
            date=date(2026, 5, 2),
            product="bag",
            pounds=pounds,
            treated_area_sqft=dict.fromkeys(pounds, area),
        )
    ]
