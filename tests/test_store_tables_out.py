"""Tables as other programs read them: CSV by its standard, workbooks, and no formula anywhere."""

import csv
import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pandas as pd
import pytest
from openpyxl import load_workbook

from lawnbook.store.cells import shielded, unshielded
from lawnbook.store.tables_columns import columns_of
from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_out import csv_bytes, table_csv, tables_csv, workbook_bytes, write_tables
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put, with_tables
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import TABLES, TITLES, Care, Feeding, Product, Spot, Watering, Zone
from tests.conftest import TODAY
from tests.small_book import in_child

SAMPLE = next(path for path in sample_yards() if path.stem == "larkspur_corner")

# The characters of OWASP's page on CSV injection, with what may stand before and behind them:
# https://owasp.org/www-community/attacks/CSV_Injection
DANGEROUS = (
    "=1+1",
    "+1",
    "-1",
    "@SUM(1)",
    "\t=1",
    "\ttab",
    "\nline",
    "\uff1d1",
    "\uff0b1",
    "\uff0d1",
    "\uff201",
    " =1",
    "'=1",
    "''-1",
    '=HYPERLINK("https://example.org";"here")',
    "=cmd|' /C calc'!A0",
)
TRICKY = (*DANGEROUS, 'a","=1', "a;=1", "_x0041_", "_xFFFF_", "\uffff", "x005F_", " ", "007", "1-2")


@pytest.fixture(scope="module")
def sample() -> Notebook:
    return load_any(SAMPLE, TODAY)


def _noted(text: str) -> Notebook:
    care = Care(id="c", date=date(2026, 1, 2), kind="mowing", note=text)
    spot = Spot(id="s", name="north", at_ft=(-12.5, -3.0))
    return with_tables(new_notebook("Home"), {"care": [care], "spots": [spot]})


@pytest.mark.parametrize("text", [*DANGEROUS, "\rreturn"])
def test_no_cell_of_csv_begins_as_a_formula(text: str) -> None:
    assert shielded(text).startswith("'")
    assert unshielded(shielded(text)) == text
    if "\r" in text:
        # A notebook holds no such letter.
        return
    for table in tables_csv(_noted(text)).values():
        for row in csv.reader(io.StringIO(table, newline="")):
            assert not any(
                cell.startswith(tuple("=@\t\r\n\uff1d\uff0b\uff0d\uff20")) for cell in row
            )
            # A minus begins a place or a figure, and nothing else.
            starts = [cell for cell in row if cell.startswith(("-", "+"))]
            assert all(set(each) <= set("-0123456789. ") for each in starts)


@pytest.mark.parametrize("text", DANGEROUS)
def test_no_cell_of_a_workbook_is_a_formula_and_words_stay_as_they_are(text: str) -> None:
    book = load_workbook(io.BytesIO(workbook_bytes(_noted(text))))
    cells = [cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row]
    assert {cell.data_type for cell in cells} <= {"s", "n", "d", "inlineStr"}
    assert text in [cell.value for cell in cells]


@pytest.mark.parametrize("text", TRICKY)
def test_dangerous_words_come_back_as_they_were(text: str, tmp_path: Path) -> None:
    before, after = _noted("fine"), _noted(text)
    for name in ("a.xlsx", "a.zip"):
        write_tables(after, tmp_path / name)
        read = read_tables(tmp_path / name, before, TODAY)
        assert apply(before, read.change).care == after.care


def test_negative_figures_stay_figures() -> None:
    yard = replace(new_notebook("Home").yard, latitude_deg=-33.5, elevation_ft=-12.0)
    notebook = Notebook(yard=yard)
    frame = pd.read_csv(io.StringIO(table_csv(notebook, "yard")))
    assert frame["Latitude, °"].tolist() == [-33.5]
    held = load_workbook(io.BytesIO(workbook_bytes(notebook)))["Yard"]
    values = dict(zip(*(list(each) for each in held.iter_rows(values_only=True)), strict=True))
    assert (values["Latitude, °"], values["Elevation, ft"]) == (-33.5, -12)


def test_every_heading_carries_the_unit_of_its_field() -> None:
    for table in TABLES:
        for column in columns_of(table):
            unit = column.info.rule.unit
            if unit and column.role == "value":
                assert column.heading.endswith(f", {unit}"), column.heading


def test_csv_keeps_to_its_standard_and_reads_in_other_programs(sample: Notebook) -> None:
    text = table_csv(sample, "zones")
    assert text.endswith("\r\n")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert len({len(row) for row in rows}) == 1
    frame = pd.read_csv(io.StringIO(table_csv(sample, "weather")), parse_dates=["Date"])
    assert len(frame) == len(sample.weather)
    first = next(iter(sample.weather.values()))
    assert frame["Date"][0].date() == first.date
    assert frame["Highest temperature, °F"][0] == first.tmax_f
    assert frame["Rain, in"].sum() == pytest.approx(
        sum(each.rain_in or 0 for each in sample.weather.values())
    )


def test_only_letters_beyond_ascii_have_a_mark_before_them() -> None:
    assert csv_bytes("Name\r\n") == b"Name\r\n"
    assert csv_bytes("Größe\r\n").startswith(b"\xef\xbb\xbf")
    assert pd.read_csv(io.BytesIO(csv_bytes("Größe\r\n1\r\n"))).columns.tolist() == ["Größe"]


def test_tables_without_a_row_are_left_out_of_csv_but_not_of_a_workbook(sample: Notebook) -> None:
    assert "backdrops.csv" not in tables_csv(sample)
    book = load_workbook(io.BytesIO(workbook_bytes(sample)))
    assert book.sheetnames == ["About", *TITLES.values()]


def test_a_workbook_has_true_days_figures_and_a_frozen_bold_heading(sample: Notebook) -> None:
    book = load_workbook(io.BytesIO(workbook_bytes(sample, TODAY)))
    sheet = book["Waterings"]
    assert sheet.freeze_panes == "A2"
    assert all(cell.font.bold for cell in sheet[1])
    held = dict(zip((cell.value for cell in sheet[1]), sheet[2], strict=True))
    first = next(iter(sample.waterings.values()))
    assert held["Date"].value == datetime.combine(first.date, datetime.min.time())
    assert held["Date"].number_format == "yyyy-mm-dd"
    assert held["Minutes, min"].value == first.minutes
    assert held["Zone"].value == sample.zones[first.zone].name
    about = [row[0] for row in book["About"].iter_rows(values_only=True)]
    assert about[0] == "Tables of the notebook: Larkspur Corner"
    assert f"Written on {TODAY.isoformat()}." in about
    frame = pd.read_excel(io.BytesIO(workbook_bytes(sample)), sheet_name="Waterings")
    assert len(frame) == len(sample.waterings)
    assert frame["Minutes, min"].sum() == sum(w.minutes or 0 for w in sample.waterings.values())


def test_lists_and_outlines_have_one_plain_form() -> None:
    zone = Zone(id="z", name="Side; east", outline_ft=((0.0, 0.0), (40.0, 0.0), (40.0, 25.5)))
    product = Product(id="p", name="Urea", n_pct=46)
    notebook = with_tables(new_notebook("Home"), {"zones": [zone], "products": [product]})
    feeding = Feeding(id="f", date=date(2026, 5, 1), product="p", pounds={"z": 3.2})
    notebook = apply(notebook, put(notebook, "feedings", feeding))
    zones = next(csv.DictReader(io.StringIO(table_csv(notebook, "zones"))))
    assert zones["Outline, ft"] == "0 0; 40 0; 40 25.5"
    feedings = next(csv.DictReader(io.StringIO(table_csv(notebook, "feedings"))))
    assert feedings["Pounds, lb"] == '"Side; east": 3.2'
    assert feedings["Product id"] == "p"


def test_no_picture_is_in_any_table(sample: Notebook) -> None:
    row = next(csv.DictReader(io.StringIO(table_csv(sample, "photos"))))
    assert "SHA-256" in row
    assert not any("icture" in heading for heading in row)


@pytest.mark.parametrize("name", ["all.xlsx", "all.zip", "waterings.csv"])
def test_a_full_disk_leaves_what_was_there(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(b"PK\x03\x04 as it was")
    refused = in_child(
        """
        import resource, sys
        from datetime import date, timedelta
        from pathlib import Path
        from lawnbook.store.tables_out import write_tables
        from lawnbook.yard.notebook import new_notebook, with_tables
        from lawnbook.yard.problems import OwnerError
        from lawnbook.yard.records import Watering

        days = [
            Watering(id=f"w{i:05}", date=date(2000, 1, 1) + timedelta(i), zone="z", minutes=i / 7)
            for i in range(4000)
        ]
        notebook = with_tables(new_notebook("Home"), {"waterings": days})
        resource.setrlimit(resource.RLIMIT_FSIZE, (8192, resource.RLIM_INFINITY))
        try:
            write_tables(notebook, Path(sys.argv[1]), "waterings")
        except OwnerError as error:
            print(error)
        """,
        path,
    )
    assert (refused.returncode, refused.stderr) == (0, "")
    assert refused.stdout.startswith(f"{name}: cannot be written here")
    assert path.read_bytes() == b"PK\x03\x04 as it was"
    assert [each.name for each in tmp_path.iterdir()] == [name]


def _days(count: int) -> Iterator[Watering]:
    for number in range(count):
        yield Watering(id=f"w{number}", date=date(2026, 1, 2), zone="z", minutes=number / 10)


def test_a_day_before_spreadsheets_count_is_written_as_words(tmp_path: Path) -> None:
    zone = Zone(id="z", name="Front", outline_ft=((0.0, 0.0), (40.0, 0.0), (40.0, 25.5)))
    old = replace(next(_days(1)), date=date(1850, 3, 4))
    notebook = with_tables(new_notebook("Home"), {"zones": [zone], "waterings": [old]})
    write_tables(notebook, tmp_path / "old.xlsx")
    assert not read_tables(tmp_path / "old.xlsx", notebook, TODAY).change
