"""The right-hand pages of the window, each loaded when it is first turned to."""

from typing import TYPE_CHECKING, cast

from lawnbook.reading import tr
from lawnbook.yard.numbers import day

if TYPE_CHECKING:
    from lawnbook.desk.pages.feed import FeedPage
    from lawnbook.desk.pages.plugs import PlugsPage
    from lawnbook.desk.pages.season import SeasonPage
    from lawnbook.desk.pages.sectioned_page import SectionedPage
    from lawnbook.desk.pages.sheet import SheetPage
    from lawnbook.desk.pages.water import WaterPage
    from lawnbook.desk.pages.yard import YardPage
    from lawnbook.desk.printing import PageOut
    from lawnbook.desk.window import BookWindow

    Page = YardPage | PlugsPage | WaterPage | FeedPage | SeasonPage | SheetPage


def make_page(name: str, window: "BookWindow") -> "Page":
    """A page by name, imported here so that the window paints before the pages are loaded.

    KeyError for an unknown name.
    """
    book, settings = window.book, window.settings
    if name == "Yard":
        from lawnbook.desk.pages.yard import YardPage

        return YardPage(book, control=window.sketch.control, printed=lambda _: window.sketch_page())
    if name == "Plugs":
        from lawnbook.desk.pages.plugs import PlugsPage

        return PlugsPage(book, paper=lambda: settings.paper)
    if name == "Water":
        from lawnbook.desk.pages.water import WaterPage

        return WaterPage(book)
    if name == "Feed":
        from lawnbook.desk.pages.feed import FeedPage

        return FeedPage(book)
    if name == "Season":
        from lawnbook.desk.pages.season import SeasonPage

        return SeasonPage(book, settings)
    if name == "Sheet":
        from lawnbook.desk.pages.sheet import SheetPage

        return SheetPage(book, settings)
    raise KeyError(name)


def join_page(name: str, page: "Page", window: "BookWindow") -> None:
    """Have the window hear what a page of that name asks for, and the page what it needs of it."""
    if name == "Yard":
        cast("YardPage", page).asked.connect(window.lead_to)
    elif name == "Water":
        water = cast("WaterPage", page)
        water.asked.connect(window.lead_to)
        water.use_cans(window.sketch.cans)
    elif name in ("Season", "Sheet"):
        sectioned = cast("SectionedPage", page)
        sectioned.asked.connect(window.lead_to)
        sectioned.plug_asked.connect(window.begin_plug)
        sectioned.use_waits(lambda: window.waits)
    elif name == "Plugs":
        cast("PlugsPage", page).today_asked.connect(window.back_to_today)


def make_sketch_page(window: "BookWindow") -> "PageOut":
    """The sketch as it is seen now, as a page on the paper that is chosen for the sheet."""
    from lawnbook.desk.sketch.as_seen import seen_page

    by = window.sketch.scene.by
    colours = "" if by == "Nothing" else tr(", coloured by {by}", by=tr(by).lower())
    words = tr("The sketch for {on}{colours}", on=day(window.on), colours=colours)
    start = window.book.path.with_name(f"{window.book.path.stem}-sketch.pdf")
    title = window.book.notebook.yard.name or tr("Unnamed yard")
    return seen_page(window.sketch, title, words, start, window.settings.paper)
