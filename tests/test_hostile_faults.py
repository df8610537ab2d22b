"""What the fuzzers found, each fault by itself, and some of their cases at every run."""

import base64
import io
import json
import random
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.store.feed_csv import read_feedings
from lawnbook.store.photo_reading import take_in_bytes
from lawnbook.store.tables_in import read_tables
from lawnbook.store.weather_reading import weather_from_text
from lawnbook.store.yardfile import read_yard_text
from lawnbook.yard.problems import OwnerError, in_plain_sight
from tests.conftest import TODAY
from tests.fuzz.running import Outcome, case_of, run_case
from tests.fuzz.targets import TARGETS
from tests.small_book import small_notebook

CASES = {
    "yard": 60,
    "csv": 20,
    "csv-zip": 8,
    "xlsx": 8,
    "weather": 10,
    "handover": 20,
    "rows": 8,
    "heic": 3,
}
"""Cases of each reader at every run, the rest of them 40."""


@pytest.mark.parametrize("name", TARGETS)
def test_broken_files_are_read_or_refused_in_a_sentence(tmp_path: Path, name: str) -> None:
    """The long run is `python -m tests.fuzz 20000`, each reader in a process of its own."""
    outcome = Outcome()
    for number in range(CASES.get(name, 40)):
        data = case_of(TARGETS[name], name, 1, number)
        run_case(TARGETS[name], data, tmp_path, outcome, f"case {number}")
    assert outcome.faults == []
    assert outcome.refused or outcome.read


def test_the_same_number_is_the_same_case() -> None:
    for name, target in TARGETS.items():
        assert case_of(target, name, 3, 5) == case_of(target, name, 3, 5), name


def test_a_sentence_about_what_a_stranger_wrote_is_one_line_in_plain_sight() -> None:
    told = str(OwnerError('catch_tests[0] is the text "a\nb\u202ec\0" here;\r\n mend it.'))
    assert told == 'catch_tests[0] is the text "a b\\u202ec\\x00" here; mend it.'
    assert in_plain_sight("2 × 3 in — “Ørsted” 庭") == "2 × 3 in — “Ørsted” 庭"


def test_a_sentence_that_a_strangers_word_makes_endless_keeps_its_start_and_its_mend() -> None:
    told = str(OwnerError(f"x.lawnbook: the day {'9' * 5_000} is none; take another."))
    assert len(told) < 1_000
    assert told.startswith("x.lawnbook: the day 99")
    assert told.endswith("99 is none; take another.")


def test_a_text_with_line_breaks_in_a_yard_file_is_told_in_one_line() -> None:
    text = '{"format": "lawnbook-yard", "version": 1, "yard": {"name": "Y"}, "care": ["a\\nb"]}'
    with pytest.raises(OwnerError) as refused:
        read_yard_text(text, TODAY, None)
    assert "\n" not in str(refused.value)


def test_a_column_of_feedings_that_turns_its_letters_about_is_told_as_it_is_written() -> None:
    read = read_feedings("date,product,zone,pounds,\u202ednuop\n", small_notebook(), TODAY)
    assert any("\\u202ednuop" in each for each in read.problems)
    assert all(each.isprintable() for each in read.problems)


def test_a_station_table_without_its_last_columns_is_read() -> None:
    """GHCN-Daily's columns after the value may all be empty, and some tools leave them out."""
    rows = "USC00110338,20250701,TMAX,320\nUSC00110338,20250701,TMIN,160\n"
    (day,) = weather_from_text(rows).days
    assert (day.date, day.tmax_f, day.tmin_f) == (date(2025, 7, 1), 89.6, 60.8)


@pytest.mark.parametrize("figure", ["1e308", "-1e300", "9" * 400])
def test_weather_beyond_all_figures_is_a_fault_of_its_line(figure: str) -> None:
    reading = weather_from_text(f"date,tmin_c,tmax_c\n2025-07-01,{figure},30\n2025-07-02,15,29\n")
    assert [each.line for each in reading.faults] == [2]
    assert [each.date for each in reading.days] == [date(2025, 7, 2)]


def test_a_line_of_commas_makes_no_table_of_gigabytes() -> None:
    text = "date,tmin_c\n" + "2025-07-01,5\n" * 10_000 + "," * 10_000
    with pytest.raises(OwnerError, match="far more commas"):
        weather_from_text(text)


@pytest.mark.parametrize("value", ["1e308", "-1e10", "1" + "0" * 30])
def test_a_number_beyond_all_that_a_yard_has_is_refused(value: str) -> None:
    text = '{"format": "lawnbook-yard", "version": 1, "yard": {"name": "Y", "max_gpm": @}}'
    with pytest.raises(OwnerError, match=r"yard\.max_gpm: .*beyond all that a yard has"):
        read_yard_text(text.replace("@", value), TODAY, None)


def test_a_webp_that_claims_hundreds_of_megapixels_is_refused_as_such() -> None:
    """Pillow's reader of WebP looks at the size before ours can, by an error of its own."""
    from PIL import Image

    written = io.BytesIO()
    Image.new("RGB", (16, 16)).save(written, "WEBP", lossless=True)
    data = bytearray(written.getvalue())
    size = (15_000 - 1) | (15_000 - 1) << 14
    held = int.from_bytes(data[21:25], "little") & ~0xFFFFFFF
    data[21:25] = (held | size).to_bytes(4, "little")
    with pytest.raises(OwnerError, match="megapixels"):
        take_in_bytes(bytes(data), "theirs.webp", TODAY)


def refusal(read: Callable[[], object]) -> str:
    """What a reader says where it refuses; empty where it reads."""
    try:
        read()
    except OwnerError as error:
        return str(error)
    return ""


few = settings(max_examples=40)
CRASHING_HEIC = base64.b64decode(
    "AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAeFtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAA"
    "AAAAAAAAAA5waXRtAAAAAAACAAAAEGlkYXQAAAAAAEAAMAAAAExpbG9jAQAAAERAAAMAAQAAAAAAAAIFAAEAAAAAAAAA"
    "KgACAAEAAAAAAAAAAQAAAAAAAAAIAAMAAAAAAAACLwABAAAAAAAAAFYAAABNaWluZgAAAAAAAwAAABVpbmZlAgAAAQAB"
    "AABodmMxAAAAABVpbmZlAgAAAAACAABncmlkAAAAABVpbmZlAgAAAQADAABFeIBmAAAAANVpcHJwAAAAs2lwY28AAABz"
    "aHZjQwEDcAAAAAAAAAAAAB7wAPz9+PgAAA8DIAABABhAAQwB//8DcAAAAwCQAAADAAADAB66AkAhAAEAJ0IBAQNwAAAD"
    "AJAAAAMAAAMAHqAggQWW6uSmubAgAAADACAAAAMAISIAAQAGRAHBc8CJAAAAFGlzcGUAAAAAAAAAQAAAAEAAAAAUaXNw"
    "ZQAAAAAAAABAAAAAMAAAABBwaXhpAAAAAAMICAgAAAAaaXBtYQAAAAAAAAACAAECgQIAAgIDhAAAAChpcmVmAAAAAAAA"
    "AA5kaW1nAAIAAQABAAAADmNkc2MAAwABAAIAAACIbWRhdAAAACYoAa8ZgO9Jpb//3DAwn/U2L/hfvNrSbK2PUZYtZFN/"
    "T8cCZgP7cYAAAAAATU0AKgAAAAgAAgEPAAIAAAAGAAAAJodpAAQAAAABAAAALAAAAABNYWtlcgAAAZADAAIAAAAUAAAA"
    "PgAAAAAyMDI2OjA1OjA4IDA5OjAwOjAwAA=="
)
"""What the fuzzer made of a phone's photograph, and pi-heif 1.4.0 ended the process over."""


def test_a_heic_that_ends_its_reader_does_not_end_the_program() -> None:
    told = refusal(lambda: take_in_bytes(CRASHING_HEIC, "theirs.heic", TODAY))
    assert "theirs.heic: this photograph cannot be read" in told


def test_a_zip_whose_directory_lies_about_its_place_is_damaged(tmp_path: Path) -> None:
    """The member's place then lies before the file's beginning."""
    data = bytearray(TARGETS["csv-zip"].seeds()[0])
    at = data.rfind(b"PK\5\6") + 16
    wrong = int.from_bytes(data[at : at + 4], "little") + 1_000
    data[at : at + 4] = wrong.to_bytes(4, "little")
    path = tmp_path / "theirs.zip"
    path.write_bytes(data)
    assert "theirs.zip: the file is damaged" in refusal(
        lambda: read_tables(path, small_notebook(), TODAY)
    )


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=9), inner),
    max_leaves=12,
)


@few
@given(st.sampled_from(["yard", "zones", "cores", "feedings", "weather", "photos"]), json_values)
def test_any_json_in_the_place_of_a_table_is_refused_or_read(table: str, value: object) -> None:
    whole = {"format": "lawnbook-yard", "version": 1, "yard": {"name": "Y"}, table: value}
    assert refusal(lambda: read_yard_text(json.dumps(whole), TODAY, None)).isprintable()


@few
@given(st.text())
def test_any_text_as_a_table_of_weather_or_feedings_is_refused_or_read(text: str) -> None:
    read_feedings(text, small_notebook(), TODAY)
    assert refusal(lambda: weather_from_text(text)).isprintable()


@few
@given(st.binary(max_size=300), st.sampled_from(["jpeg", "png", "webp", "kml", "geojson", "csv"]))
def test_any_bytes_are_refused_or_read(
    tmp_path_factory: pytest.TempPathFactory, data: bytes, name: str
) -> None:
    seed = random.Random(data).choice(TARGETS[name].seeds())
    outcome = Outcome()
    folder = tmp_path_factory.getbasetemp()
    for each in (data, seed[: len(data)] + data):
        run_case(TARGETS[name], each, folder, outcome, "any bytes")
    assert outcome.faults == []
