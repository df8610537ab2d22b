"""A notebook without names or without its place: what goes, what stays, and the plan of it."""

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.dormancy import BY_SPECIES, survival_watering
from lawnbook.agronomy.nitrogen import budget_for
from lawnbook.agronomy.salinity import salt_borne_ds_per_m
from lawnbook.agronomy.seasons import is_south
from lawnbook.agronomy.turf import SPECIES
from lawnbook.plan.cautions import is_reclaimed
from lawnbook.plan.handed_over import KINDS_KEPT, Kept, handed_over
from lawnbook.plan.make import make_plan
from lawnbook.plan.render import plan_json
from lawnbook.plan.spread import check_spread
from lawnbook.store.yardfile import write_yard_text
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import refused
from lawnbook.yard.records import Care, SpreaderRun, Tick
from lawnbook.yard.redacted import coarse_latitude_deg, without_names
from tests.desk_sample import DAY, sample
from tests.secret_book import COORDINATES, SECRET, secret_book

SAMPLES = ("larkspur_corner", "hollow_bank", "saltbush_court")
DAYS = (DAY, date(2026, 6, 15), date(2026, 4, 1), date(2025, 9, 20))
CLOCK = ("starts", "ends", "sunrise", "allowed_minutes")
"""What is told of a program only where the sun's times are known."""


def numbers_of(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every number, yes, no and day of a plan by its place; words and ids are left out."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from numbers_of(each, f"{path}.{key}")
    elif isinstance(value, list):
        for place, each in enumerate(value):
            yield from numbers_of(each, f"{path}[{place}]")
    elif not isinstance(value, str) or _is_day(value):
        yield path, value


def _is_day(words: str) -> bool:
    try:
        date.fromisoformat(words[:10])
    except ValueError:
        return False
    return True


def plan_numbers(notebook: Notebook, on: date, *, timed: bool) -> dict[str, Any]:
    found = dict(numbers_of(plan_json(make_plan(notebook, on))))
    return {
        path: value
        for path, value in found.items()
        if "eto_days" not in path
        and not path.endswith("_id")
        and (timed or not path.endswith(CLOCK))
    }


@pytest.mark.parametrize("stem", SAMPLES)
@pytest.mark.parametrize("on", DAYS)
def test_the_plan_keeps_every_number(stem: str, on: date) -> None:
    notebook = sample(stem)
    assert plan_numbers(notebook, on, timed=True) == plan_numbers(
        handed_over(notebook, Kept(names=False)), on, timed=True
    )
    bare = handed_over(notebook, Kept(names=False, place=False, pictures=False))
    assert plan_numbers(notebook, on, timed=False) == plan_numbers(bare, on, timed=False)


@pytest.mark.parametrize("stem", SAMPLES)
def test_what_is_handed_over_passes_every_check(stem: str) -> None:
    bare = handed_over(secret_book(stem), Kept(names=False, place=False))
    assert refused(check_notebook(bare, DAY)) == ()


@pytest.mark.parametrize("stem", SAMPLES)
def test_no_secret_word_id_or_coordinate_is_left(stem: str) -> None:
    notebook = secret_book(stem)
    assert write_yard_text(notebook).count(SECRET) > 50
    bare = write_yard_text(handed_over(notebook, Kept(names=False, place=False)))
    assert SECRET not in bare
    assert SECRET.casefold() not in bare.casefold()
    for coordinate in COORDINATES:
        assert coordinate not in bare.partition('"zones"')[0]


def test_all_kept_is_the_very_same_notebook() -> None:
    notebook = sample("larkspur_corner")
    assert handed_over(notebook, Kept()) is notebook


def test_without_the_place_only_the_place_goes() -> None:
    notebook = secret_book()
    bare = handed_over(notebook, Kept(place=False))
    yard = bare.yard
    assert (yard.longitude_deg, yard.elevation_ft, yard.time_zone) == (None, None, None)
    assert (yard.origin_latitude_deg, yard.origin_longitude_deg) == (None, None)
    assert yard.latitude_deg == 40.0
    assert not bare.backdrops
    assert bare.zones.keys() == notebook.zones.keys()
    assert yard.name == notebook.yard.name
    assert bare.n_rules.name == "Local rule"


def test_reckoned_eto_stands_in_the_days_and_reported_stays() -> None:
    notebook = sample("saltbush_court")
    bare = handed_over(notebook, Kept(place=False))
    reported = {k: d.reported_eto_in for k, d in notebook.weather.items()}
    assert any(each is None for each in reported.values())
    for key, told in reported.items():
        assert told is None or bare.weather[key].reported_eto_in == told
    assert all(
        each.reported_eto_in is not None
        for each in bare.weather.values()
        if each.tmin_f is not None and each.tmax_f is not None
    )


@given(st.floats(-90, 90))
def test_a_coarse_latitude_is_near_and_on_its_own_side(latitude: float) -> None:
    coarse = coarse_latitude_deg(latitude)
    assert coarse is not None
    assert is_south(coarse) == is_south(latitude)
    assert abs(coarse) % 5 == 0
    assert 5 <= abs(coarse) <= 90
    assert abs(coarse - latitude) <= 5


def test_no_latitude_stays_none() -> None:
    assert coarse_latitude_deg(None) is None
    assert handed_over(new_notebook("Home"), Kept(place=False)).yard.latitude_deg is None


@pytest.mark.parametrize("species", [*SPECIES, *BY_SPECIES, "Miller's own mix", ""])
@pytest.mark.parametrize("grass", ["cool", "warm"])
def test_a_species_stays_where_a_table_knows_it(species: str, grass: str) -> None:
    zone = replace(next(iter(sample("larkspur_corner").zones.values())), species=species)
    notebook = apply(new_notebook("Home"), put(new_notebook("Home"), "zones", zone))
    bare = next(iter(without_names(notebook, KINDS_KEPT).zones.values()))
    assert bare.species in (species, "")
    assert budget_for(grass, bare.species) == budget_for(grass, species)
    assert survival_watering(bare.species, grass) == survival_watering(species, grass)
    assert salt_borne_ds_per_m(bare.species, grass) == salt_borne_ds_per_m(species, grass)


@pytest.mark.parametrize(
    ("source", "kept"),
    [
        ("Reclaimed water of the Tell Valley works", "reclaimed"),
        ("GREY water from the Smiths", "grey"),
        ("Tell City", "city"),
        ("the Millers' pipe", ""),
        ("", ""),
    ],
)
def test_a_source_of_water_keeps_what_decides_a_caution(source: str, kept: str) -> None:
    home = new_notebook("Home")
    notebook = replace(home, yard=replace(home.yard, water_source=source))
    for wish in (Kept(names=False), Kept(place=False)):
        bare = handed_over(notebook, wish)
        assert bare.yard.water_source == kept
        assert is_reclaimed(bare) == is_reclaimed(notebook)


def test_kinds_of_care_that_are_no_common_words_are_numbered_alike() -> None:
    book = new_notebook("Home")
    kinds = ("Mowing", "Bob came", "aeration", "bob  came", "Ann came")
    cares = [Care(id=f"c{n}", date=DAY, kind=kind, note="Bob") for n, kind in enumerate(kinds)]
    bare = without_names(apply(book, put(book, "care", *cares)), KINDS_KEPT)
    told = [each.kind for each in bare.care.values()]
    assert told == ["Mowing", "Other care 1", "aeration", "Other care 1", "Other care 2"]
    assert "Bob" not in json.dumps(told)


def test_settings_in_words_stay_apart_and_figures_stay() -> None:
    notebook = sample("larkspur_corner")
    product = next(iter(notebook.products))
    runs = [
        SpreaderRun(
            id=f"r{n}",
            date=DAY,
            product=product,
            spreader=spreader,
            setting=setting,
            strip_ft=100,
            width_ft=5,
            used_lb=1.0 + n,
        )
        for n, (spreader, setting) in enumerate(
            [("Ann's", "4 1/2"), ("ann's ", "wide open"), ("Bob's", "half open"), ("Bob's", "M")]
        )
    ]
    full = apply(notebook, put(notebook, "spreader_runs", *runs))
    bare = without_names(full, KINDS_KEPT)
    told = [(each.spreader, each.setting) for each in bare.spreader_runs.values()][-4:]
    assert [setting for _, setting in told] == ["4 1/2", "Setting A", "Setting B", "M"]
    assert told[0][0] == told[1][0] != told[2][0] == told[3][0]
    zones = dict.fromkeys(notebook.zones, 5.0)
    true = check_spread(full, product, zones, DAY)
    told_bare = check_spread(
        bare,
        next(iter(bare.products)),
        dict.fromkeys(bare.zones, 5.0),
        DAY,
    )
    assert [each.max_lb for each in true.zones] == [each.max_lb for each in told_bare.zones]
    assert len(true.settings) == len(told_bare.settings)


def test_steps_of_checklists_stay_and_words_of_ones_own_go() -> None:
    notebook = new_notebook("Yard")
    for number, step in enumerate(("slow fill", "valve by the mill")):
        tick = Tick(
            id=f"t{number}", date=DAY, checklist="spring start-up", step=step, found="a drip"
        )
        notebook = apply(notebook, put(notebook, "ticks", tick))
    bare = handed_over(notebook, Kept(names=False))
    assert [(each.step, each.found) for each in bare.ticks.values()] == [
        ("slow fill", ""),
        ("step", ""),
    ]


def test_two_yards_without_names_share_no_id_and_one_keeps_its_own() -> None:
    """An adviser has many of them: entries of one calendar must not replace another yard's."""
    first, second = (
        handed_over(sample(stem), Kept(names=False)) for stem in ("larkspur_corner", "hollow_bank")
    )
    assert not set(first.zones) & set(second.zones)
    assert not set(first.spots) & set(second.spots)
    again = handed_over(sample("larkspur_corner"), Kept(names=False))
    assert set(again.zones) == set(first.zones)
