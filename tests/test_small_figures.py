"""What tools, single cans and the day of the next plug say opens how it came about."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.figures import hand_on
from lawnbook.desk.pages.cans import CansPanel
from lawnbook.desk.pages.convert_tool import ConvertTool
from lawnbook.desk.pages.next_rows import NextRow
from lawnbook.plan.arithmetic import worked_out
from lawnbook.plan.calibration_tank import tank_plan
from lawnbook.plan.convert_workings import UnitOf, converted_workings
from lawnbook.plan.make import make_plan
from lawnbook.plan.map_workings import one_can_workings
from lawnbook.plan.sensitivity import figure_told, numbers_of, reckoned, sensitivities_of
from lawnbook.plan.tasks_records import plug_day_workings
from lawnbook.plan.tool_workings import tank_workings
from lawnbook.plan.working_model import DATE, Working
from lawnbook.plan.zone_facts import setting_of
from lawnbook.yard.notebook import as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product, SprayerRun
from tests.cans_book import Zone, cans_book, cans_panel
from tests.desk_sample import samples
from tests.page_book import part, put_away, settle, type_into

ON = date(2026, 6, 15)
LIQUID = Product(id="l", name="Liquid", form="liquid", n_pct=20.0, density_lb_per_gal=10.0)
RUN = SprayerRun(id="s1", date=date(2026, 9, 1), sprayer="Backpack", area_sqft=200.0, used_gal=1.0,
                 tank_gal=4.0, seconds=60.0)  # fmt: skip


def base(working: Working) -> float:
    """The figure reckoned anew from its own numbers."""
    assert working.reckoning is not None
    return reckoned(working.reckoning, numbers_of(working))


def workings_on(widget: QWidget) -> tuple[Working, ...]:
    """What F1 on a widget opens."""
    hand = hand_on(widget)
    assert hand is not None
    return hand.workings()


def test_a_tank_and_the_area_take_their_time_at_the_walk_of_the_run() -> None:
    """200 sq ft in 60 s: a tank of 4 gal covers 800 sq ft in 4 min, 2,000 sq ft take 10 min."""
    plan = tank_plan(RUN, LIQUID, 2.0, 2000.0)
    by_label = {each.label: each for each in tank_workings(plan, RUN, 1.0, 2000.0)}
    tank, whole = by_label["A full tank lasts"], by_label["Time for the whole area"]
    assert (tank.value, whole.value) == ("4.0 min", "10.0 min")
    for each in (tank, whole):
        assert each.reckoning is not None
        assert figure_told(each.reckoning, base(each)) == each.value
        assert worked_out(each.filled) == pytest.approx(base(each), rel=1e-6)


@pytest.mark.parametrize(
    ("value", "of", "to", "measure", "told"),
    [
        # 231 cubic inches are 3.785411784 L; 16 tablespoons are a cup; a pound is 453.59237 g.
        (2.0, UnitOf("gal", 1.0), UnitOf("L", 1 / 3.785411784), "gal", "7.5708 L"),
        (1.0, UnitOf("cup", 1 / 16), UnitOf("tbsp", 1 / 256), "gal", "16.00 tbsp"),
        (100.0, UnitOf("g", 1 / 453.59237), UnitOf("lb", 1.0), "lb", "0.22046 lb"),
    ],
)
def test_a_measure_is_converted_by_definition(
    value: float, of: UnitOf, to: UnitOf, measure: str, told: str
) -> None:
    """What was typed, times one of its unit, by one of the other."""
    (made,) = converted_workings(value, of, to, measure)
    assert made.value == told
    assert worked_out(made.filled) == pytest.approx(base(made), rel=1e-4)
    (typed,) = sensitivities_of(made)
    assert typed.changes[0].share == pytest.approx(0.1)


def test_the_converters_fields_open(qapp: QApplication) -> None:
    """The one that was typed all others, any other its own; nothing while none is typed."""
    tool = ConvertTool()
    tool.show()
    cup, ounces = (part(tool, QLineEdit, f"convert_{each}") for each in ("cup", "fl_oz"))
    assert workings_on(cup) == ()
    type_into(tool, "convert_cup", "2")
    (made,) = workings_on(ounces)
    assert made.value.startswith(ounces.text())
    assert len(workings_on(cup)) == 6
    type_into(tool, "convert_cup", "some")
    assert workings_on(ounces) == ()
    put_away(tool)


def test_one_can_has_its_own_rate() -> None:
    """100 mL in a mouth of 10 sq in over 20 min: 3.6614 × 100 ÷ 200; half an inch in 15 min: 2."""
    (made,) = one_can_workings(3, 100.0, 20.0, 10.0, "typed")
    assert (made.label, made.value) == ("Rate at can 3", "1.83 in/h")
    assert worked_out(made.filled) == pytest.approx(base(made))
    (inches,) = one_can_workings(1, 0.5, 15.0, None, "typed")
    assert (inches.value, base(inches)) == ("2.00 in/h", 2.0)


@pytest.fixture
def panel(qapp: QApplication, tmp_path: Path) -> Iterator[CansPanel]:
    """The panel of a zone with heads."""
    for book in cans_book(tmp_path):
        yield from cans_panel(qapp, book, Zone(), CanDraft())


def test_a_cans_row_opens_its_rate(panel: CansPanel) -> None:
    """From the field that was typed into, and from its rate beside it."""
    type_into(panel, "catch_tests_run_minutes", "20")
    panel.rows.cells[1].setFocus(Qt.FocusReason.TabFocusReason)
    for at, depth in enumerate(("20", "25")):
        type_into(panel, f"can_{at + 1}", depth)
    type_into(panel, "catch_tests_can_mouth_sqin", "10")
    settle()
    (made,) = workings_on(panel.rows.cells[1])
    assert made.label == "Rate at can 2"
    assert made.value == "0.46 in/h"
    assert workings_on(panel.rows.cells[3]) == ()


def test_the_day_of_the_next_plug_opens(qapp: QApplication) -> None:
    """As the due list has it; with the days between plugs changed, by the same rule."""
    notebook = samples()["larkspur_corner"]
    plan = make_plan(notebook, ON)
    setting = setting_of(as_of(notebook, ON), ON)
    for each in plan.next_plugs:
        (made,) = plug_day_workings(setting, each.spot_id)
        assert made.value == day(each.due)
        assert made.reckoning is not None
        assert made.reckoning.unit == DATE
        assert base(made) == each.due.toordinal()
    plug = plan.next_plugs[0]
    row = NextRow(plug, (), ON)
    row.open_day_with(lambda: plug_day_workings(setting, plug.spot_id))
    assert workings_on(part(row, QWidget, f"next_{plug.spot_id}_due"))[0].figure == "plug_due"
    put_away(row)
