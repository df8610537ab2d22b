"""Hypothesis strategies for whole valid notebooks: small, every table, every field, all ids valid.

Values are drawn from the fields' own rules, so that a new field is covered as soon as it exists.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import is_dataclass, replace
from datetime import date, timedelta
from types import MappingProxyType, NoneType
from typing import Any, Literal, TypeVar, get_args, get_origin

from hypothesis import strategies as st

from lawnbook.yard.fields import FieldInfo, Outline, Rule, fields_of, is_number_by_zone
from lawnbook.yard.geometry import area_sqft, crosses_itself, distance_to_edge_ft, label_point_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import (
    SINGLES,
    TABLES,
    Backdrop,
    Care,
    CatchTest,
    ClimateMonth,
    Core,
    Head,
    Photo,
    Product,
    Record,
    SprayerRun,
    SpreaderRun,
    Watering,
    WeatherDay,
    Yard,
)
from tests.conftest import TODAY

R = TypeVar("R", bound=Record)
Refs = Mapping[str, Sequence[str]]

_LETTERS = st.characters(exclude_categories=("Cs", "Cc"))
_ID = st.text("abcdefghijklmnopqrstuvwxyz234567", min_size=16, max_size=16)
_SMALL = 3

texts = st.text(_LETTERS, max_size=12)
"""Any text that may be kept."""

names = st.text(_LETTERS, min_size=1, max_size=12).filter(
    lambda text: bool(text.strip()) and len(text.splitlines()) == 1
)
"""Names of one line that are not blank."""

past_days = st.dates(date(1990, 1, 1), TODAY)
"""Days on which something can have happened."""


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """Outlines that do not cross themselves, of 3 to 9 corners, round any middle."""
    x, y = draw(st.tuples(st.integers(-500, 500), st.integers(-500, 500)))
    count = draw(st.integers(3, 9))
    radii = draw(st.lists(st.integers(20, 300), min_size=count, max_size=count))
    turn = 2 * math.pi / count
    ring = tuple(
        (round(x + r * math.cos(i * turn), 2), round(y + r * math.sin(i * turn), 2))
        for i, r in enumerate(radii)
    )
    square = ((x, y), (x + 40.0, y), (x + 40.0, y + 25.5), (x * 1.0, y + 25.5))
    return square if crosses_itself(ring) or area_sqft(ring) < 1 else ring


@st.composite
def holes_of(draw: st.DrawFn, outline: Outline) -> tuple[Outline, ...]:
    """No hole, or a square well inside an outline."""
    x, y = label_point_ft(outline)
    half = distance_to_edge_ft(outline, (x, y)) / 2
    if half < 0.5 or not draw(st.booleans()):
        return ()
    return (
        ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)),
    )


@st.composite
def notebooks(draw: st.DrawFn) -> Notebook:
    """Whole notebooks that `check_notebook` does not refuse, ranks 0 to n − 1 in every table."""
    rows: dict[str, list[Record]] = {}
    refs: dict[str, list[str]] = {}
    for table in TABLES:
        if table in SINGLES:
            rows[table] = [draw(_of_kind(TABLES[table], refs, table))]
            continue
        count = draw(st.integers(0, _SMALL)) if _can_exist(table, refs) else 0
        ids = draw(st.lists(_ID, min_size=count, max_size=count, unique=True))
        made = [draw(_of_kind(TABLES[table], refs, record_id)) for record_id in ids]
        kept = _without_twins(made)
        rows[table] = [replace(each, rank=rank) for rank, each in enumerate(kept)]
        refs[table] = [each.id for each in kept]
    return with_tables(new_notebook("Blank"), rows)


def records_of(kind: type[R], refs: Refs, record_id: str = "r") -> st.SearchStrategy[R]:
    """One valid record of a kind, its references drawn from `refs` by table."""
    return _of_kind(kind, refs, record_id)


def _can_exist(table: str, refs: Refs) -> bool:
    """Whether everything a table's records must refer to is there."""
    return all(
        refs.get(info.rule.refers_to)
        for info in fields_of(TABLES[table])
        if info.rule.refers_to and info.required
    )


def _without_twins(rows: list[Record]) -> list[Record]:
    kept: dict[tuple[object, ...], Record] = {}
    for row in rows:
        if isinstance(row, WeatherDay | ClimateMonth):
            kept[(row.id,)] = row
        else:
            name = getattr(row, "name", None)
            key = (str(name).strip().casefold(),) if name else (row.id, "")
            kept.setdefault(key, row)
    return list(kept.values())


@st.composite
def _of_kind(draw: st.DrawFn, kind: type[R], refs: Refs, record_id: str) -> R:
    values = {info.name: draw(_field(info, refs)) for info in fields_of(kind)}
    if "outline_ft" in values:
        values["outline_ft"] = draw(outlines())
    if "holes_ft" in values:
        values["holes_ft"] = draw(holes_of(values["outline_ft"]))
    if kind is Head:
        values["profile"] = draw(_PROFILES)
    record = kind(id=record_id, **values)
    mend = _MENDS.get(kind)
    return mend(draw, record) if mend is not None else record


def _field(info: FieldInfo, refs: Refs) -> st.SearchStrategy[Any]:
    drawn = _value(info.type, info.rule, refs)
    if info.rule.label in {"Name", "Kind"} and info.type is str:
        drawn = names if info.required else st.just("") | names
    return drawn if info.required else st.one_of(st.just(info.default), drawn)


def _value(kind: Any, rule: Rule, refs: Refs) -> st.SearchStrategy[Any]:
    parts = get_args(kind)
    if rule.refers_to:
        return _reference(kind, rule, refs)
    if NoneType in parts:
        inner = next(each for each in parts if each is not NoneType)
        return st.none() | _value(inner, rule, refs)
    if get_origin(kind) is Literal:
        return st.sampled_from(parts)
    if get_origin(kind) is tuple and parts[-1] is Ellipsis:
        least = rule.count if rule.count is not None else 0
        most = rule.count if rule.count is not None else _SMALL
        return st.lists(_value(parts[0], rule, refs), min_size=least, max_size=most).map(tuple)
    if get_origin(kind) is tuple:
        return st.tuples(*(_value(part, rule, refs) for part in parts))
    if is_dataclass(kind) and isinstance(kind, type):
        return st.fixed_dictionaries(
            {info.name: _field(info, refs) for info in fields_of(kind)}
        ).map(lambda values: kind(**values))
    return _scalar(kind, rule)


def _reference(kind: Any, rule: Rule, refs: Refs) -> st.SearchStrategy[Any]:
    known = refs.get(rule.refers_to, ())
    if is_number_by_zone(kind):
        if not known:
            return st.just(MappingProxyType({}))
        amounts = _numbers(rule)
        tables = st.dictionaries(st.sampled_from(known), amounts, min_size=1, max_size=_SMALL)
        return tables.map(MappingProxyType)
    if get_origin(kind) is tuple:
        lists = st.lists(st.sampled_from(known), unique=True) if known else st.just([])
        return lists.map(tuple)
    one: st.SearchStrategy[Any] = st.sampled_from(known) if known else st.nothing()
    return st.none() | one if NoneType in get_args(kind) else one


def _scalar(kind: Any, rule: Rule) -> st.SearchStrategy[Any]:
    if kind is bool:
        return st.booleans()
    if kind is int:
        return st.integers(int(rule.low or 0), int(rule.high or 100))
    if kind is float:
        return _numbers(rule)
    if kind is date:
        return past_days
    if kind is Picture:
        return st.just(Picture.of(b"a picture"))
    return _SPELLED.get(rule.kind, texts)


def _numbers(rule: Rule) -> st.SearchStrategy[float]:
    """Any number the rule allows; extremes as well as the round numbers people enter."""
    least = rule.above if rule.low is None else rule.low
    least, most = least if least is not None else -1e6, rule.high if rule.high is not None else 1e6
    any_float = st.floats(least, most, exclude_min=rule.low is None and rule.above is not None)
    plain = st.integers(math.ceil(least * 8), math.floor(most * 8)).map(lambda n: n / 8)
    return any_float | (plain.filter(lambda n: n > least) if most - least > 1 else any_float)


_DAY_OF_LEAP_YEAR = st.integers(0, 365).map(
    lambda n: (date(2024, 1, 1) + timedelta(days=n)).strftime("%m-%d")
)
_TIME = st.times().map(lambda time: time.strftime("%H:%M"))
_SPELLED: Mapping[str, st.SearchStrategy[Any]] = {
    "month_day": _DAY_OF_LEAP_YEAR,
    "clock": st.lists(_TIME, min_size=2, max_size=2, unique=True).map("-".join),
    "time_zone": st.sampled_from(["America/Denver", "Australia/Hobart", "UTC"]),
    "sha256": st.just("0" * 64),
}
_PROFILES: st.SearchStrategy[Any] = st.one_of(
    st.none(),
    st.sampled_from(["cone", "flat", "doughnut"]),
    st.lists(st.floats(0.25, 2), min_size=2, max_size=5).map(tuple),
)


_SHARES = st.floats(0, 1)
_SIDES_PX = st.integers(10, 20_000)


def _mend_catch_test(draw: st.DrawFn, test: CatchTest) -> CatchTest:
    cans = draw(st.lists(st.floats(0.125, 6), min_size=1, max_size=5).map(tuple))
    places = draw(st.sampled_from([(), tuple((float(i), 1.5) for i in range(len(cans)))]))
    if draw(st.booleans()):
        return replace(test, volumes_ml=(), depths_in=cans, at_ft=places)
    mouth = draw(st.floats(0.125, 200))
    return replace(test, volumes_ml=cans, depths_in=(), can_mouth_sqin=mouth, at_ft=places)


def _mend_core(draw: st.DrawFn, core: Core) -> Core:
    if core.thatch_in or core.root_depth_in is not None:
        return core
    return replace(core, root_depth_in=draw(st.floats(0, 60)))


def _mend_product(draw: st.DrawFn, product: Product) -> Product:
    n = draw(st.floats(0, 50))
    rest, slow = (100 - n) / 2, draw(st.floats(0, 1)) * n
    parts = tuple(
        replace(
            each,
            pounds=each.pounds + 1,
            n_pct=n,
            p2o5_pct=rest / 2,
            k2o_pct=rest / 2,
            slow_n_pct=min(each.slow_n_pct, n),
        )
        for each in product.ingredients
    )
    phosphate = min(product.p2o5_pct, rest)
    potash = min(product.k2o_pct, rest)
    return replace(
        product,
        n_pct=n,
        slow_n_pct=slow,
        p2o5_pct=phosphate,
        k2o_pct=potash,
        ingredients=tuple(replace(each, pounds=min(each.pounds, 10000.0)) for each in parts),
    )


def _mend_feeding(draw: st.DrawFn, feeding: Any) -> Any:
    areas = {zone: draw(st.floats(0.5, 5e6)) for zone in feeding.pounds if draw(st.booleans())}
    return replace(feeding, treated_area_sqft=MappingProxyType(areas))


def _mend_spreader_run(draw: st.DrawFn, run: SpreaderRun) -> SpreaderRun:
    return replace(run, spreader=draw(names), setting=draw(names))


def _mend_sprayer_run(draw: st.DrawFn, run: SprayerRun) -> SprayerRun:
    return replace(run, sprayer=draw(names))


def _mend_care(draw: st.DrawFn, care: Care) -> Care:
    if care.no_seed_until is None:
        return care
    return replace(care, no_seed_until=care.date + timedelta(days=draw(st.integers(0, 400))))


def _mend_watering(draw: st.DrawFn, watering: Watering) -> Watering:
    if draw(st.booleans()):
        return replace(watering, minutes=draw(st.floats(0, 1440)), depth_in=None)
    return replace(watering, minutes=None, depth_in=draw(st.floats(0, 12)))


def _mend_weather(draw: st.DrawFn, day: WeatherDay) -> WeatherDay:
    low, high = sorted(draw(st.tuples(st.floats(-80, 120), st.floats(-80, 120))))
    one_known = draw(st.booleans())
    return replace(day, id=day.date.isoformat(), tmin_f=low, tmax_f=high if one_known else None)


def _mend_climate(_: st.DrawFn, month: ClimateMonth) -> ClimateMonth:
    return replace(month, id=f"{month.month:02d}")


def _mend_backdrop(draw: st.DrawFn, backdrop: Backdrop) -> Backdrop:
    picture = backdrop.data_b64
    ends = draw(st.none() | st.just(((0.25, 0.5), (0.75, draw(_SHARES)))))
    known_ft = None if ends is None else draw(st.floats(0.125, 5000))
    return replace(backdrop, sha256=picture.sha256, scale_ends=ends, scale_ft=known_ft)


def _mend_yard(draw: st.DrawFn, yard: Yard) -> Yard:
    if yard.origin_latitude_deg is None:
        return replace(yard, origin_longitude_deg=None)
    return replace(yard, origin_longitude_deg=draw(st.floats(-180, 180)))


def _mend_photo(draw: st.DrawFn, photo: Photo) -> Photo:
    data = draw(st.binary(min_size=1, max_size=40))
    picture = Picture.of(data)
    ruler, sides = photo.ruler, (photo.width_px, photo.height_px)
    if ruler is not None:
        # The two ends of what is known lie well apart on a picture whose size is known.
        ruler = replace(ruler, scale=((draw(_SHARES), 0.0), (draw(_SHARES), 1.0)))
    if ruler is not None or None in sides:
        sides = (draw(_SIDES_PX), draw(_SIDES_PX))
    return replace(
        photo,
        data_b64=picture,
        sha256=picture.sha256,
        ruler=ruler,
        width_px=sides[0],
        height_px=sides[1],
    )


_MENDS: Mapping[type[Record], Any] = {
    CatchTest: _mend_catch_test,
    Core: _mend_core,
    Product: _mend_product,
    TABLES["feedings"]: _mend_feeding,
    SpreaderRun: _mend_spreader_run,
    SprayerRun: _mend_sprayer_run,
    Care: _mend_care,
    Watering: _mend_watering,
    WeatherDay: _mend_weather,
    ClimateMonth: _mend_climate,
    Photo: _mend_photo,
    Backdrop: _mend_backdrop,
    Yard: _mend_yard,
}
