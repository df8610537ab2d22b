"""Waiting in tests for what a page has had done beside the window."""

import time

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication

from lawnbook.desk.wait_line import WaitLine

LONG_S = 60.0


def until_done(page: QObject) -> None:
    """Until nothing is made any more that a line of a page waits for."""
    lines, deadline = page.findChildren(WaitLine), time.monotonic() + LONG_S
    while any(each.runs for each in lines):
        assert time.monotonic() < deadline, "it takes too long"
        # Asleep, so that the one beside has the processor.
        time.sleep(0.005)
        QApplication.processEvents()
