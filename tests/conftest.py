"""What every test shares: Qt without a screen, and a settled idea of today."""

import os
from datetime import date

import pytest
from PySide6.QtWidgets import QApplication

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

TODAY = date(2026, 6, 15)


@pytest.fixture(autouse=True, scope="session")
def _one_application(qapp: QApplication) -> QApplication:
    """One application for all: else the first sheet drawn would start one without widgets."""
    return qapp


@pytest.fixture
def today() -> date:
    """The day on which the tests take place."""
    return TODAY
