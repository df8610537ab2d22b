"""What every test shares: Qt without a screen, and a settled idea of today."""

import os
from datetime import date

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

TODAY = date(2026, 6, 15)


@pytest.fixture
def today() -> date:
    """The day on which the tests take place."""
    return TODAY
