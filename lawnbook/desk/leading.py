"""Where a page leads to by a name: "First steps: size", "Water: cans", "Sheet: save"."""

from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from lawnbook.desk.pages.plugs import PlugsPage
    from lawnbook.desk.pages.water import WaterPage
    from lawnbook.desk.pages.yard import YardPage
    from lawnbook.desk.window import BookWindow

FIRST_STEPS = "First steps"


def lead(window: "BookWindow", name: str) -> None:
    """Turn to a page, or to a part of one behind its name; of "Plugs" a part is a spot's id.

    KeyError for a page that is none.
    """
    page, _, part = name.partition(": ")
    if page == FIRST_STEPS:
        window.open_at("Yard")
        cast("YardPage", window.page("Yard")).begin_first_steps(part)
    elif page == "Sheet" and part:
        window.with_plan(lambda _: _put_out(window, part))
    elif page == "Plugs" and part:
        window.select("spots", part)
        window.turn_to("Plugs")
        plugs = cast("PlugsPage", window.page("Plugs"))
        plugs.begin_plug(part, min(window.on, window.book.today))
    else:
        window.turn_to(page)
        if page == "Water" and part:
            _open_water(cast("WaterPage", window.page("Water")), part)


def _open_water(water: "WaterPage", part: str) -> None:
    """Open the catch tests, or the zone's settings."""
    if part == "zone":
        water.reveal_zone()
    else:
        water.reveal_tests()


def _put_out(window: "BookWindow", part: str) -> None:
    """Turn to the sheet, and save or print it as the owner answers."""
    sheet = window.open_sheet()
    if part == "save":
        sheet.ask_save()
    else:
        sheet.ask_print()
