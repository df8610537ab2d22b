"""A walk through a page by Tab alone, for the tests of access by keyboard."""

from itertools import pairwise

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QButtonGroup, QScrollArea, QWidget

from lawnbook.desk.pages.photo_handles import Handle
from tests.access_walk import settle, shown_in, told

MOST_STOPS = 600
ROUND_PX = 5
"""How far round a control its ring may stand."""
NONE_CHOSEN = -1
SAME_LINE_PX = 14


def round_of(page: QWidget) -> tuple[list[QWidget], list[QWidget]]:
    """Where Tab stops in a page from its first control to its last, and Shift+Tab on the way back.

    AssertionError where it goes on for ever, or is held.
    """
    if not wanted_in(page):
        return [], []
    first = _until_out(page, wanted_in(page)[0], Qt.Key.Key_Backtab)[-1]
    forth = _until_out(page, first, Qt.Key.Key_Tab)
    return forth, _until_out(page, forth[-1], Qt.Key.Key_Backtab)


def _until_out(page: QWidget, start: QWidget, key: Qt.Key) -> list[QWidget]:
    """The stops from one of a page to where the keyboard leaves it."""
    start.setFocus(Qt.FocusReason.TabFocusReason)
    stops: list[QWidget] = []
    for _ in range(MOST_STOPS):
        at = QApplication.focusWidget()
        assert at is not None, f"the keyboard is nowhere after {told(stops[-1])}"
        if not page.isAncestorOf(at):
            assert stops, f"{told(start)} does not take the keyboard, {told(at)} has it"
            return stops
        assert at not in stops, f"{told(at)} comes again after {told(stops[-1])}"
        stops.append(at)
        QTest.keyClick(at, key)
    raise AssertionError(f"Tab never leaves the page; the last stop is {told(stops[-1])}")


def wanted_in(page: QWidget) -> list[QWidget]:
    """What Tab has to reach: all that takes the keyboard, one of each exclusive group."""
    by_arrows = {
        button
        for group in page.findChildren(QButtonGroup)
        if group.exclusive() and group.checkedId() != NONE_CHOSEN
        for button in group.buttons()
        if button is not group.checkedButton()
    }
    return [
        each
        for each in shown_in(page)
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus
        and each.isEnabled()
        and each not in by_arrows
    ]


def out_of_order(stops: list[QWidget], page: QWidget) -> list[str]:
    """The stops of a page that stand before the one they follow, as it is read."""
    wrong = []
    # The marks of a photograph come in the order of the steps, wherever they lie on the picture.
    placed = [each for each in stops if not isinstance(each, Handle)]
    for before, after in pairwise(placed):
        first, second = (each.mapTo(page, QPoint(0, 0)) for each in (before, after))
        beside = abs(first.y() - second.y()) < SAME_LINE_PX
        if second.x() <= first.x() if beside else second.y() < first.y():
            wrong.append(f"{told(after)} after {told(before)}")
    return wrong


def faults_by_keys(page: QWidget) -> list[str]:
    """What Tab does not reach, reaches out of order, or reaches on one way only."""
    forth, back = round_of(page)
    missed = [f"{told(each)} is not reached" for each in wanted_in(page) if each not in forth]
    one_way = [f"{told(each)} is reached one way only" for each in set(forth) ^ set(back)]
    return [*missed, *out_of_order(forth, page), *one_way]


def unseen_in(page: QWidget) -> list[str]:
    """The controls that look alike with the keyboard and without it."""
    page.window().activateWindow()
    settle()
    return [told(each) for each in wanted_in(page) if not looks_focused(each)]


def looks_focused(widget: QWidget) -> bool:
    """Whether a control, and the ring round it, looks otherwise with the keyboard than without."""
    window = widget.window()
    widget.setFocus(Qt.FocusReason.TabFocusReason)
    QApplication.processEvents()
    _bring(widget)
    corner = widget.mapTo(window, QPoint(0, 0))
    box = QRect(corner, widget.size()).adjusted(-ROUND_PX, -ROUND_PX, ROUND_PX, ROUND_PX)
    box = box.intersected(window.rect())
    with_it = _picture(window, box)
    widget.clearFocus()
    window.setFocus(Qt.FocusReason.OtherFocusReason)
    QApplication.processEvents()
    return with_it != _picture(window, box)


def _bring(widget: QWidget) -> None:
    """Scroll a control into sight: a page that is laid out late may have left it below."""
    around = widget.parentWidget()
    while around is not None:
        if isinstance(around, QScrollArea):
            around.ensureWidgetVisible(widget)
        around = around.parentWidget()
    QApplication.processEvents()


def _picture(window: QWidget, box: QRect) -> QImage:
    return window.grab(box).toImage()
