"""The line of plain words in Spanish: every kind is read in it, and English beside it."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from lawnbook.languages import PSEUDO, words_of
from lawnbook.plan.quick_kinds import starters
from lawnbook.plan.quick_tongue import any_of, spoken
from lawnbook.plan.quick_words import HELP, help_lines, read_quick
from lawnbook.reading import Reading, reading_as
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Care, Product, Spot
from tests.test_quick_words import TODAY, kept, yard

LANGUAGES = Path(__file__).resolve().parent.parent / "resources" / "languages"
SPANISH = Reading(language="es", words=words_of("es", LANGUAGES))


def garden(units: Any = "us") -> Notebook:
    """A yard whose names are Spanish."""
    held = yard("Césped delantero", "Césped trasero", "Franja de la entrada", units=units)
    for table, record in (
        ("spots", Spot(id="s2", name="Poste")),
        ("products", Product(id="p2", name="Harina de plumas 12-0-0", n_pct=12.0, bag_lb=40.0)),
        ("care", Care(id="c0", date=TODAY, kind="perfilado")),
    ):
        held = apply(held, put(held, table, record))
    return held


BOOK = garden()


@pytest.fixture(autouse=True)
def in_spanish() -> Iterator[None]:
    """Everything here is read in Spanish."""
    with reading_as(SPANISH):
        yield


def alike(told: str, english: str) -> list[Any]:
    """What a Spanish line keeps, which has to be what the English one keeps but for its ids."""
    here = [replace(each, id="") for each in kept(told, BOOK)]
    assert here == [replace(each, id="") for each in kept(english, BOOK)], told
    return here


@pytest.mark.parametrize(
    ("told", "english"),
    [
        ("regar trasero 20 min ayer", "watered Césped trasero 20 min yesterday"),
        ("regué el césped trasero 1 hora y 10 minutos", "Césped trasero 1 h 10 min"),
        ("riego 30 minutos en 3 ciclos delantero", "ran 30 min in 3 cycles Césped delantero"),
        ("0.5 pulgadas zona 2", "0.5 in zone 2"),
        ("12 milímetros en las zonas 2 y 3", "12 mm zones 2 and 3"),
        ("riego todo el jardín 15 min", "watered everywhere 15 min"),
        ("aboné 5 libras harina de plumas delantero", "fed 5 lb harina Césped delantero"),
        ("abono 2 costales harina trasero", "fed 2 bags harina Césped trasero"),
        ("fertilicé 3 kilos harina zonas 1 y 2 cada una", "fed 3 kg harina zones 1 and 2 each"),
        ("cortar 3 in trasero", "cut 3 in Césped trasero"),
        ("Podé el pasto a 60 mm, costo 25", "mowed 60 mm cost 25"),
        ("lluvia 12 mm", "rain 12 mm"),
        ("llovió 0.4 pulgadas antier", "rain 0.4 in the day before yesterday"),
        ("pluviómetro 0.4", "rain 0.4"),
        ("aireado delantero costó 80", "aeration Césped delantero cost 80"),
        ("aireacion delantero coste: 80", "aeration Césped delantero cost 80"),
        ("resiembra trasero", "overseeding Césped trasero"),
        ("perfilado delantero", "care perfilado Césped delantero"),
        ("cuidado bordes nuevos", "care bordes nuevos"),
        (
            "análisis de suelo delantero ph de 6.4 materia orgánica 3 fósforo 25 potasio 140",
            "soil test Césped delantero ph 6.4 om 3 p 25 k 140",
        ),
        (
            "analisis de suelo delantero profundidad 4 pulgadas",
            "soil test Césped delantero depth 4 in",
        ),
        (
            "testigo poste fieltro 5/8 3/4 raices de 4.5 lombrices 3 esponja 2 hora 4 apretado",
            "plug poste thatch 5/8 3/4 roots 4.5 worms 3 sponge 2 clock 4 pressed",
        ),
        (
            "testigo poste fieltro 16 mm 19 mm raíces 115 mm",
            "plug poste thatch 16 mm 19 mm roots 115 mm",
        ),
        (
            "prueba de pluviómetros trasero 15 min 5 6 4.5 milímetros",
            "catch test Césped trasero 15 min 5 6 4.5 mm",
        ),
        ("nota setas junto al olmo", "note setas junto al olmo"),
    ],
)  # fmt: skip
def test_every_kind_is_read_in_spanish_as_in_english(told: str, english: str) -> None:
    assert alike(told, english)


@pytest.mark.parametrize(
    ("told", "on"),
    [
        ("hoy", TODAY),
        ("esta mañana", TODAY),
        ("ayer por la tarde", date(2026, 6, 11)),
        ("anteayer", date(2026, 6, 10)),
        ("hace 3 días", date(2026, 6, 9)),
        ("hace una semana", date(2026, 6, 5)),
        ("hace dos semanas", date(2026, 5, 29)),
        ("el miércoles", date(2026, 6, 10)),
        ("el miercoles pasado", date(2026, 6, 10)),
        ("el viernes pasado", date(2026, 6, 5)),
        ("el 3 de mayo", date(2026, 5, 3)),
        ("3 may", date(2026, 5, 3)),
        ("1.º de abril de 2025", date(2025, 4, 1)),
        ("4 de ago de 2025", date(2025, 8, 4)),
        ("3 days ago", date(2026, 6, 9)),
        ("2026-05-03", date(2026, 5, 3)),
    ],
)
def test_days_are_read_in_spanish(told: str, on: date) -> None:
    (record,) = kept(f"riego 20 min trasero {told}", BOOK)
    assert record.date == on
    (record,) = kept(f"{told} riego 20 min trasero", BOOK)
    assert record.date == on


def test_a_day_that_may_be_two_is_asked_in_words_that_are_understood() -> None:
    for typed in ("viernes", "5/3"):
        quick = read_quick(f"riego 20 min trasero {typed}", BOOK, TODAY)
        assert not quick.is_whole
        instead = [line for line in quick.proposals if read_quick(line, BOOK, TODAY).is_whole]
        assert len(instead) == 2, quick.proposals


@pytest.mark.parametrize("line", [line for line, _ in HELP[:-1]])
def test_english_is_understood_beside_it(line: str) -> None:
    english = yard("Front lawn", "Back lawn", "Zone 7")
    assert read_quick(line, english, TODAY).is_whole


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_examples_are_spanish_and_understood(units: Any) -> None:
    with reading_as(replace(SPANISH, units=units, point=",", group=".")):
        lines = [line for line, _ in help_lines()]
        assert not set(lines) & {line for line, _ in HELP}
        for line in lines[:-1]:
            wanting = read_quick(line, garden(units), TODAY).faults
            assert wanting == (), line


def test_what_is_proposed_is_spanish_and_near_spellings_are_asked_about() -> None:
    assert read_quick("", BOOK, TODAY).proposals == starters()[:6]
    assert starters()[:4] == ("riego", "abono", "siega", "lluvia")
    assert "siega" in read_quick("sie", BOOK, TODAY).proposals
    assert "riego 20 min Césped trasero" in read_quick("riego 20 min tras", BOOK, TODAY).proposals
    slip = read_quick("lluvis 12 mm", BOOK, TODAY)
    assert "lluvia 12 mm" in slip.proposals
    assert "¿Quiso decir lluvia" in slip.faults[0]
    assert read_quick("abne 5 lb harina trasero", BOOK, TODAY).proposals[0].startswith("aboné ")


def test_words_that_begin_several_names_are_asked_about() -> None:
    fault = read_quick("riego 20 min césped", BOOK, TODAY).faults[0]
    assert "Césped delantero" in fault
    assert "Césped trasero" in fault


def test_the_made_up_language_has_no_brackets_to_be_typed() -> None:
    with reading_as(Reading(language=PSEUDO, words=words_of(PSEUDO, LANGUAGES))):
        words = spoken("yesterday, last night")
        assert words == ("ýéstérdáý", "lást ñíght", "yesterday", "last night")
        assert "«" not in any_of("yesterday, last night")
