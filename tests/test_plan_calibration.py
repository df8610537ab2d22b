"""The spreader's setting for a rate, and how a spray is mixed, from the owner's calibrations."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.calibration import WEIGH_AGAIN, setting_number, spreader_advice
from lawnbook.plan.calibration_tank import NO_DENSITY, tank_plan, volume_words
from lawnbook.plan.feed_model import SpreaderAdvice, TankPlan
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Ingredient, Product, SprayerRun, SpreaderRun
from tests.plan_yards import product, yard

MAY = date(2026, 5, 1)
LIQUID = Product(id="p1", name="Green", form="liquid", n_pct=18.0, density_lb_per_gal=10.0)
# 1 gal on 200 sq ft in 40 s: 5 gal per 1,000 sq ft, and 10 gal cover 2,000.
RUN = SprayerRun(
    id="s1", date=MAY, sprayer="Backpack", area_sqft=200, used_gal=1, tank_gal=10, seconds=40
)


def run(setting: str, rate: float, days: int = 0, **values: Any) -> SpreaderRun:
    """A calibration over 100 ft by 10 ft, so that the pounds used are those per 1,000 sq ft."""
    plain = SpreaderRun(
        id=f"{values.get('spreader', '')}{setting}{days}",
        date=MAY + timedelta(days=days),
        product="p1",
        spreader="Drop",
        setting=setting,
        strip_ft=100.0,
        width_ft=10.0,
        used_lb=rate,
    )
    return replace(plain, **values)


def book(*runs: SpreaderRun) -> Notebook:
    """A notebook with one product and some calibrations."""
    return yard(products=[product()], spreader_runs=runs)


def advice(wanted: float, *runs: SpreaderRun) -> SpreaderAdvice:
    """The only advice for a rate."""
    (only,) = spreader_advice(book(*runs), "p1", wanted)
    return only


def test_nothing_weighed_nothing_proposed() -> None:
    assert spreader_advice(book(), "p1", 3.0) == ()
    assert spreader_advice(book(run("5", 3.0, product="other")), "p1", 3.0) == ()
    assert spreader_advice(book(run("5", 3.0)), "p1", 0.0) == ()


def test_the_same_rate() -> None:
    found = advice(3.0, run("5", 3.01), run("7", 4.0))
    assert (found.basis, found.setting, found.runs) == ("same", "5", 2)
    assert found.lb_per_1000 == pytest.approx(3.01)
    assert found.words.startswith("Setting 5 gave 3.01 lb per 1,000 sq ft on 1 May 2026.")
    assert found.words.endswith(WEIGH_AGAIN)


def test_the_latest_run_counts_for_its_setting() -> None:
    earlier, later = run("5", 2.0), run("5.0", 3.0, days=30)
    assert advice(3.0, later, earlier).basis == "same"
    assert advice(2.0, later, earlier).basis == "nearest"


def test_between_two_settings() -> None:
    found = advice(3.0, run("4", 2.0), run("6", 4.0), run("9", 8.0))
    assert (found.basis, found.setting) == ("between", "5")
    assert found.lb_per_1000 == pytest.approx(3.0)
    assert found.wanted_lb_per_1000 == 3.0
    assert found.fits
    assert "Setting 5 lies between 4, which gave 2.00 lb per 1,000 sq ft, and 6" in found.words
    assert "about 3.00 lb per 1,000 sq ft is to be expected of it" in found.words
    assert found.words.endswith(WEIGH_AGAIN)


def test_what_is_told_of_a_rounded_setting_is_what_it_gives() -> None:
    found = advice(2.5, run("4", 2.0), run("7", 4.0))  # exactly 4.75
    assert found.setting == "4.8"
    assert found.lb_per_1000 == pytest.approx(2.0 + 0.8 * 2 / 3)


def test_settings_in_halves() -> None:
    found = advice(3.0, run("4 1/2", 2.0), run("5½", 4.0))
    assert (found.basis, found.setting) == ("between", "5")


@pytest.mark.parametrize(
    ("wanted", "setting", "side", "next_one"),
    [(1.0, "4", "more", "smaller"), (9.0, "6", "less", "larger"), (1.5, "4", "more", "smaller")],
)
def test_a_setting_that_is_far_off_is_not_proposed(
    wanted: float, setting: str, side: str, next_one: str
) -> None:
    found = advice(wanted, run("4", 2.0), run("6", 4.0))
    assert (found.basis, found.setting, found.fits) == ("nearest", setting, False)
    off = abs(found.lb_per_1000 - wanted)
    assert found.words == (
        f"None of your settings gives {wanted:.2f} lb per 1,000 sq ft: the nearest, {setting}, "
        f"gives {found.lb_per_1000:.2f}, that is {off:.2f} lb ({100 * off / wanted:.0f}\u00a0%) "
        f"{side} than wanted. Weigh a run at a {next_one} setting."
    )


@pytest.mark.parametrize(("wanted", "setting"), [(1.6, "4"), (1.75, "4"), (4.5, "6"), (5.3, "6")])
def test_a_setting_within_a_quarter_will_do(wanted: float, setting: str) -> None:
    found = advice(wanted, run("4", 2.0), run("6", 4.0))
    assert (found.basis, found.setting, found.fits) == ("nearest", setting, True)
    assert found.words.startswith(f"The nearest of your settings, {setting}, gives ")
    assert found.words.endswith(WEIGH_AGAIN)


def test_letters_are_no_numbers() -> None:
    found = advice(3.0, run("F", 2.0), run("H", 4.5))
    assert (found.basis, found.setting) == ("nearest", "F")
    assert advice(4.5, run("F", 2.0), run(" h", 4.5)).basis == "same"
    # Nothing lies between a letter and a number either.
    assert advice(3.0, run("F", 2.0), run("6", 4.5)).basis == "nearest"


def test_one_advice_for_each_spreader() -> None:
    runs = run("5", 3.0), run("12", 3.0, days=9, spreader="Rotary")
    both = spreader_advice(book(*runs), "p1", 3.0)
    assert [each.spreader for each in both] == ["Rotary", "Drop"]
    (drop,) = spreader_advice(book(*runs), "p1", 3.0, "  drop ")
    assert (drop.spreader, drop.setting) == ("Drop", "5")
    assert spreader_advice(book(*runs), "p1", 3.0, "Borrowed") == ()


def test_settings_that_contradict_each_other_are_named() -> None:
    found = advice(3.0, run("4", 2.0), run("5", 1.8), run("6", 4.0))
    assert found.basis == "between"
    assert "Setting 5 should give more than 4, and by your runs it does not" in found.words
    # Nothing lies between a falling pair.
    assert advice(2.5, run("4", 3.0), run("5", 2.0)).basis == "nearest"


@given(
    st.lists(st.tuples(st.integers(1, 20), st.floats(0.5, 20.0)), min_size=1, max_size=6),
    st.floats(0.2, 25.0),
)
def test_advice_stays_within_what_was_weighed(dial: list[tuple[int, float]], wanted: float) -> None:
    found = advice(wanted, *(run(str(s), rate, days=n) for n, (s, rate) in enumerate(dial)))
    latest = {str(s): rate for s, rate in dial}
    assert found.runs == len(dial)
    assert min(latest.values()) - 1e-9 <= found.lb_per_1000 <= max(latest.values()) + 1e-9
    if found.basis == "between":
        assert min(s for s, _ in dial) <= float(found.setting) <= max(s for s, _ in dial)
    else:
        assert found.lb_per_1000 == pytest.approx(latest[found.setting])


@pytest.mark.parametrize(
    ("setting", "number"),
    [
        ("5", 5.0),
        ("7.5", 7.5),
        ("4 1/2", 4.5),
        ("4-1/2", 4.5),
        ("4½", 4.5),
        ("G", None),
        ("5 o'clock", None),
        ("", None),
    ],
)
def test_settings_as_numbers(setting: str, number: float | None) -> None:
    assert setting_number(setting) == number


def test_tanks_by_hand() -> None:
    # 5,000 sq ft take 25 gal: two tanks of 10 and one of 5. 10 lb of product weigh a gallon.
    plan = tank_plan(RUN, LIQUID, 10.0, 5000.0)
    assert plan.sprayer == "Backpack"
    assert (plan.gal_per_1000, plan.covers_sqft) == pytest.approx((5.0, 2000.0))
    assert (plan.full_tanks, plan.tank_gal) == (2, 10.0)
    assert (plan.product_lb, plan.last_lb) == pytest.approx((4.0, 2.0))
    assert plan.product_fl_oz == pytest.approx(51.2)
    assert plan.last_fl_oz == pytest.approx(25.6)
    assert plan.last_spray_gal == pytest.approx(5.0)
    assert plan.walk_seconds_per_1000 == pytest.approx(200.0)
    for words in (
        "5.00 gal per 1,000 sq ft, so a tank of 10 gal covers 2,000 sq ft.",
        "2 full tanks: 51.2 fl oz (1.5 L), which is 4.00 lb each, fill up to 10 gal.",
        "Last tank: 25.6 fl oz (757 mL), which is 2.00 lb, fill up to 5 gal (18.9 L) of spray.",
        "1,000 sq ft take 3 min 20 s, a full tank 6 min 40 s, the whole area 17 min.",
        "spray the measured area again with plain water",
    ):
        assert words in plan.words


def test_less_than_a_tank() -> None:
    plan = tank_plan(RUN, LIQUID, 0.1, 400.0)
    assert plan.full_tanks == 0
    assert plan.last_lb == pytest.approx(0.1)
    assert "One tank, not full: 2.6 tbsp (38 mL)" in plan.words
    assert "full tank:" not in plan.words


def test_whole_tanks_leave_none_over() -> None:
    plan = tank_plan(RUN, LIQUID, 8.0, 4000.0)
    assert (plan.full_tanks, plan.last_spray_gal, plan.last_lb) == (2, 0.0, 0.0)
    assert plan.last_fl_oz == 0.0
    assert "Last tank" not in plan.words


def test_a_liquid_without_density_is_told_by_weight() -> None:
    plan = tank_plan(RUN, replace(LIQUID, density_lb_per_gal=None), 10.0, 5000.0)
    assert plan.product_fl_oz is None
    assert plan.last_fl_oz is None
    assert NO_DENSITY in plan.words
    assert "2 full tanks: 4.00 lb each" in plan.words


def test_a_dry_product_is_weighed() -> None:
    plan = tank_plan(RUN, product(density_lb_per_gal=10.0), 10.0, 5000.0)
    assert plan.product_fl_oz is None
    assert "A dry product is weighed out and dissolved" in plan.words
    assert NO_DENSITY not in plan.words


def test_a_run_that_was_not_timed() -> None:
    plan = tank_plan(replace(RUN, seconds=None), LIQUID, 10.0, 5000.0)
    assert plan.walk_seconds_per_1000 is None
    assert "was not timed" in plan.words


# RUN covers 2,000 sq ft with 10 gal: 100 lb at 10 lb/gal, or 83.45 lb of water, fill the tank.
DRY = product()
UNWEIGHED = replace(LIQUID, density_lb_per_gal=None)
MIX = replace(UNWEIGHED, ingredients=(Ingredient(name="Tea", pounds=5.0),))


@pytest.mark.parametrize(
    ("sprayed", "pounds", "too_much"),
    [
        (LIQUID, 250.0, False),
        (LIQUID, 251.0, True),
        (UNWEIGHED, 208.0, False),
        (UNWEIGHED, 209.0, True),
        (MIX, 209.0, True),
        (DRY, 208.0, False),
        (DRY, 209.0, True),
    ],
)
def test_more_product_than_the_tank_holds(sprayed: Product, pounds: float, too_much: bool) -> None:
    """By volume, or by the weight of water (8.345 lb/gal) where a gallon's is not known."""
    plan = tank_plan(RUN, sprayed, pounds, 5000.0)
    assert plan.too_much is too_much
    assert plan.words.startswith("This cannot be mixed: ") is too_much
    assert ("more than the tank of 10 gal holds" in plan.words) is too_much


def test_a_part_of_a_tank_holds_no_more_than_a_whole_one() -> None:
    assert tank_plan(RUN, LIQUID, 51.0, 1000.0).too_much
    assert not tank_plan(RUN, LIQUID, 50.0, 1000.0).too_much


def test_a_mix_without_density_is_to_be_weighed_not_looked_up() -> None:
    words = tank_plan(RUN, MIX, 10.0, 5000.0).words
    assert "Weigh a gallon of it." in words
    assert "label" not in words


@given(
    st.floats(0.0, 500.0),
    st.floats(1.0, 50_000.0),
    st.floats(10.0, 5000.0),
    st.floats(0.05, 20.0),
    st.floats(0.2, 60.0),
)
def test_all_tanks_hold_all_the_product(
    pounds: float, area: float, run_area: float, used: float, tank: float
) -> None:
    calibrated = replace(RUN, area_sqft=run_area, used_gal=used, tank_gal=tank)
    plan: TankPlan = tank_plan(calibrated, LIQUID, pounds, area)
    whole = plan.full_tanks * plan.product_lb + plan.last_lb
    assert whole == pytest.approx(pounds, rel=1e-6, abs=1e-9)
    assert plan.product_fl_oz is not None
    assert plan.last_fl_oz is not None
    ounces = plan.full_tanks * plan.product_fl_oz + plan.last_fl_oz
    assert ounces == pytest.approx(pounds / 10.0 * 128.0, rel=1e-6, abs=1e-9)
    spray = plan.full_tanks * plan.tank_gal + plan.last_spray_gal
    assert spray == pytest.approx(area * plan.gal_per_1000 / 1000.0, rel=1e-6)


def test_tanks_out_of_domain() -> None:
    with pytest.raises(ValueError, match="area_sqft must be above zero"):
        tank_plan(RUN, LIQUID, 1.0, 0.0)
    with pytest.raises(ValueError, match="pounds must be zero or more"):
        tank_plan(RUN, LIQUID, -1.0, 100.0)


@pytest.mark.parametrize(
    ("gallons", "words"),
    [
        (1.25, "1.25 gal (4.7 L)"),
        (4 / 128, "4 fl oz (118 mL)"),
        (0.5, "64 fl oz (1.9 L)"),
        (1.5 / 256, "1.5 tbsp (22 mL)"),
        (0.5 / 256, "0.5 tbsp (7.4 mL)"),
        (0.0, "0 fl oz"),
    ],
)
def test_volumes_in_words(gallons: float, words: str) -> None:
    assert volume_words(gallons) == words
