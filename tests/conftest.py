"""What every test shares: Qt without a screen, and a settled idea of today."""

import gc
import os
from collections.abc import Generator
from datetime import date

import pytest
from hypothesis import settings
from PySide6.QtWidgets import QApplication

from lawnbook.reading import read_as, reading

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

TODAY = date(2026, 6, 15)

# A shared machine may stall a single example; in CI the examples are the same at every run, so
# that a red run can be had again, while a contributor's machine goes on looking for new ones.
settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")


def pytest_collection() -> None:
    """No garbage is looked for while the tests are found: there is none, and a third of the time.

    What stands afterwards (the tests, the libraries) stays to the end, so it is set aside, and
    each collecting looks only at what the tests themselves made.
    """
    gc.disable()


def pytest_collection_finish() -> None:
    """All tests are found: garbage is looked for again, among what comes from now on."""
    set_aside()
    gc.enable()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(
    item: pytest.Item, nextitem: pytest.Item | None
) -> Generator[None, object, object]:
    """What a module leaves standing (libraries loaded on its way, caches) is set aside too.

    Only once its last test is over and has let go of all its fixtures.
    """
    outcome = yield
    if nextitem is not None and nextitem.path != item.path:
        set_aside()
    return outcome


def set_aside() -> None:
    """Collect what is garbage now, then look no more at what is left."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True, scope="session")
def _one_application(qapp: QApplication) -> QApplication:
    """One application for all: else the first sheet drawn would start one without widgets."""
    return qapp


@pytest.fixture
def today() -> date:
    """The day on which the tests take place."""
    return TODAY


@pytest.fixture(autouse=True)
def _read_as_before() -> Generator[None, None, None]:
    """What a test reads in other units or another language, the next does not."""
    held = reading()
    yield
    read_as(held)
