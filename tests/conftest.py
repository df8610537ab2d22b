"""What every test shares: Qt without a screen, and a settled idea of today."""

import os
from datetime import date

import pytest
from hypothesis import settings
from PySide6.QtWidgets import QApplication

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

TODAY = date(2026, 6, 15)

# A shared machine may stall a single example; in CI the examples are the same at every run, so
# that a red run can be had again, while a contributor's machine goes on looking for new ones.
settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")


@pytest.fixture(autouse=True, scope="session")
def _one_application(qapp: QApplication) -> QApplication:
    """One application for all: else the first sheet drawn would start one without widgets."""
    return qapp


@pytest.fixture
def today() -> date:
    """The day on which the tests take place."""
    return TODAY
