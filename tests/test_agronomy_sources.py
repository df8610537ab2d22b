"""Every number has a source, and every source that is named exists."""

import importlib
import inspect
import pkgutil
import re
from types import ModuleType

import pytest

import lawnbook.agronomy
from lawnbook.agronomy.nitrogen import BUDGETS
from lawnbook.agronomy.sources import SOURCES, cite

MODULES = [
    importlib.import_module(f"lawnbook.agronomy.{found.name}")
    for found in pkgutil.iter_modules(lawnbook.agronomy.__path__)
]
NAMED = re.compile(r'[Ss]ources?:?\s((?:"[a-z0-9-]+"(?:,\s+|\sfor [^.,]*, )?)+)')


def named_sources(module: ModuleType) -> set[str]:
    """Keys that the module's docstrings name, as in: Source: "fao56"."""
    text = inspect.getsource(module)
    return {key for found in NAMED.findall(text) for key in re.findall(r'"([a-z0-9-]+)"', found)}


def test_keys_name_themselves_and_citations_say_something() -> None:
    for key, source in SOURCES.items():
        assert source.key == key
        assert len(source.citation) > 20
        assert source.citation == source.citation.strip()


def test_memory_and_practice_say_so() -> None:
    for source in SOURCES.values():
        practice, memory = source.basis == "practice", source.basis == "memory"
        assert source.citation.endswith("(common practice)") == practice, source.key
        assert ("common practice" in source.citation) == practice, source.key
        assert source.citation.endswith("(from memory)") == memory, source.key
        assert ("from memory" in source.citation) == memory, source.key


def test_citations_write_ranges_with_a_dash_and_break_no_word() -> None:
    for source in SOURCES.values():
        words = re.sub(r"doi \S+", "", source.citation)
        assert not re.search(r"\d-\d|-\s", words), source.key


@pytest.mark.parametrize("module", MODULES, ids=lambda module: str(module.__name__))
def test_named_sources_exist(module: ModuleType) -> None:
    assert named_sources(module) <= set(SOURCES)


@pytest.mark.parametrize(
    ("name", "keys"),
    [
        ("precipitation", {"rate-constant", "ia-catch-can", "multiplier"}),
        ("soil", {"ia-schedule", "usda-rate"}),
        ("evapotranspiration", {"fao56", "hargreaves"}),
        ("penman_monteith", {"fao56"}),
        ("turf", {"uc-kc", "fao56", "growth-potential", "va-dcr-n"}),
        ("water_balance", {"fao56"}),
        ("nitrogen", {"n-arithmetic", "uc-ipm", "va-dcr-n", "msu-n", "cornell-quick"}),
        ("trend", {"theil-sen"}),
    ],
)
def test_modules_name_their_sources(name: str, keys: set[str]) -> None:
    assert keys <= named_sources(importlib.import_module(f"lawnbook.agronomy.{name}"))


def test_budgets_name_their_source() -> None:
    assert {budget.source_key for budget in BUDGETS.values()} <= set(SOURCES)


def test_cite() -> None:
    assert "Paper 56" in cite("fao56")
    with pytest.raises(KeyError):
        cite("hearsay")


@pytest.mark.parametrize("module", MODULES, ids=lambda module: str(module.__name__))
def test_every_public_name_is_documented(module: ModuleType) -> None:
    assert module.__doc__
    own = [
        (name, value)
        for name, value in inspect.getmembers(module)
        if (inspect.isfunction(value) or inspect.isclass(value))
        and value.__module__ == module.__name__
        and not name.startswith("_")
    ]
    bare = [name for name, value in own if not (value.__doc__ or "").strip()]
    assert bare == []
