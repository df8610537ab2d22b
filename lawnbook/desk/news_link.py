"""A quiet link at the foot of the page, once after an update: what is new."""

from typing import TYPE_CHECKING

from lawnbook import __version__
from lawnbook.desk.leaves import open_leaf
from lawnbook.desk.widgets import LinkButton
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow


def offer_news(window: "BookWindow", version: str = __version__) -> LinkButton | None:
    """Offer the news of a version that was not told of yet, and take it as told.

    Nobody is told of news at the first start of all: everything is new then.
    """
    before = window.settings.version_seen
    window.settings.version_seen = version
    if before in ("", version):
        return None
    link = LinkButton(tr("What’s new in {version}", version=version), "status_news", window.status)

    def show() -> None:
        link.hide()
        open_leaf(window, "news", version)

    link.clicked.connect(show)
    window.status.offer(link)
    return link
