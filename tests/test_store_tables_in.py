"""Tables of other programs taken in: their forms, their slips, and files that mean harm."""

import io
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest
from openpyxl import Workbook

from lawnbook.store.tables_files import MOST_MEMBERS
from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_out import write_tables
from lawnbook.store.tables_result import TablesRead
from lawnbook.yard.notebook import Notebook, apply, new_notebook, with_tables
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Spot, Watering, Zone
from tests.conftest import TODAY

RING = ((0.0, 0.0), (40.0, 0.0), (40.0, 25.5))
HOME = with_tables(
    new_notebook("Home"),
    {
        "zones": [
            Zone(id="zf", name="Front lawn", outline_ft=RING),
            Zone(id="zb", name="Back lawn", outline_ft=RING),
        ]
    },
)


def _read(folder: Path, data: str | bytes, name: str = "waterings.csv") -> TablesRead:
    path = folder / name
    path.write_bytes(data.encode() if isinstance(data, str) else data)
    return read_tables(path, HOME, TODAY)


def _minutes(read: TablesRead) -> list[float | None]:
    return [each.minutes for each in apply(HOME, read.change).waterings.values()]


def _days(read: TablesRead) -> list[str]:
    return [each.date.isoformat() for each in apply(HOME, read.change).waterings.values()]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_any_usual_delimiter_and_marked_encoding(
    delimiter: str, encoding: str, tmp_path: Path
) -> None:
    text = "Date,Zone,Minutes\r\n2026-05-01,Front lawn,12\r\n".replace(",", delimiter)
    assert _minutes(_read(tmp_path, text.encode(encoding))) == [12.0]


def test_a_line_that_names_the_delimiter_is_no_row(tmp_path: Path) -> None:
    read = _read(tmp_path, "sep=;\nDate;Zone;Minutes\n2026-05-01;Front lawn;x\n")
    assert [each.where for each in read.faults] == ["line 3"]


@pytest.mark.parametrize(
    ("cells", "minutes"),
    [
        (("12,5", "1,250"), [12.5, 1.25]),
        (("1.250,5", "1.250"), [1250.5, 1250.0]),
        (("1,250.5", "1,250"), [1250.5, 1250.0]),
        (("12.5", "1.125"), [12.5, 1.125]),
        (("12", "7"), [12.0, 7.0]),
    ],
)
def test_the_decimal_mark_is_that_of_the_whole_column(
    cells: tuple[str, str], minutes: list[float], tmp_path: Path
) -> None:
    first, second = cells
    text = f"Date;Zone;Minutes\n2026-05-01;Front lawn;{first}\n2026-05-02;Front lawn;{second}\n"
    read = _read(tmp_path, text)
    assert read.faults == ()
    assert _minutes(read) == minutes


def test_a_mark_that_may_be_either_is_explained(tmp_path: Path) -> None:
    read = _read(tmp_path, "Date;Zone;Minutes\n2026-05-01;Front lawn;1,250\n")
    assert not read.change
    assert read.faults[0].told == (
        'Waterings, line 2: Minutes "1,250" may be a thousand or a decimal; '
        "write it without a mark between the thousands."
    )


@pytest.mark.parametrize(
    ("cells", "days"),
    [
        (("5/16/2026", "5/3/2026"), ["2026-05-16", "2026-05-03"]),
        (("16/5/2026", "3/5/2026"), ["2026-05-16", "2026-05-03"]),
        (("16.5.2026", "3.5.2026"), ["2026-05-16", "2026-05-03"]),
        (("2026-05-16", "3.5.2026"), ["2026-05-16", "2026-05-03"]),
    ],
)
def test_days_are_read_by_the_whole_column(
    cells: tuple[str, str], days: list[str], tmp_path: Path
) -> None:
    rows = "".join(f"{each},Front lawn,9\n" for each in cells)
    assert _days(_read(tmp_path, f"Date,Zone,Minutes\n{rows}")) == days


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("3/5/2026,Front lawn,9", "may be month/day or day/month"),
        ("31.2.2026,Front lawn,9", "is no day"),
        ("2026-05-01,Frnt lawn,9", 'there is no "Frnt lawn" in the notebook; write Front lawn.'),
        ("2026-05-01,,9", "Zone is missing; enter it."),
        (",Front lawn,9", "Date is missing; enter it."),
        ("2026-05-01,Front lawn,nine", "is not a number; write it as 12.5."),
        ("2026-05-01,Front lawn,-9", "Minutes of -9 min is too little"),
        ("2030-05-01,Front lawn,9", "is in the future"),
        ("2026-05-01,Front lawn,9,9", "more cells than headings"),
    ],
)
def test_a_fault_names_line_and_mend_and_leaves_the_other_rows(
    row: str, told: str, tmp_path: Path
) -> None:
    read = _read(tmp_path, f"Date,Zone,Minutes\n2026-04-30,Back lawn,5\n{row}\n")
    assert _minutes(read) == [5.0]
    assert len(read.faults) == 1
    assert (read.faults[0].line, read.faults[0].where) == (3, "line 3")
    assert told in read.faults[0].told


def test_new_rows_are_not_doubled_by_taking_them_in_again(tmp_path: Path) -> None:
    text = "Date,Zone,Minutes\n2026-05-01,Front lawn,9\n2026-05-01,Front lawn,9\n"
    once = apply(HOME, _read(tmp_path, text).change)
    assert len(once.waterings) == 2
    again = read_tables(tmp_path / "waterings.csv", once, TODAY)
    assert not again.change
    assert again.notes == (
        "Waterings: 2 rows without an id are in the notebook already and left out.",
    )


def test_what_is_left_out_stays_and_what_is_emptied_goes(tmp_path: Path) -> None:
    text = "Name,Soil,Id\nFront lawn,,zf\n"
    book = apply(HOME, _read(tmp_path, "Soil,Id\nloam,zf\nclay,zb\n", "zones.csv").change)
    assert [each.soil for each in book.zones.values()] == ["loam", "clay"]
    path = tmp_path / "zones.csv"
    path.write_text(text)
    after = apply(book, read_tables(path, book, TODAY).change)
    assert [each.soil for each in after.zones.values()] == [None, "clay"]
    assert [each.outline_ft for each in after.zones.values()] == [RING, RING]


def test_a_new_row_may_name_another_new_row_of_the_file(tmp_path: Path) -> None:
    path = tmp_path / "new.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("spots.csv", "Name,Zone\ngate,Orchard\n")
        archive.writestr("zones.csv", 'Name,"Outline, ft"\nOrchard,0 0; 9 0; 9 9\n')
    after = apply(HOME, read_tables(path, HOME, TODAY).change)
    orchard = next(each for each in after.zones.values() if each.name == "Orchard")
    assert [(each.name, each.zone) for each in after.spots.values()] == [("gate", orchard.id)]


def test_a_name_decides_over_the_id_beside_it(tmp_path: Path) -> None:
    book = with_tables(HOME, {"spots": [Spot(id="s", name="gate", zone="zf")]})
    path = tmp_path / "spots.csv"
    for row, zone in (("Back lawn,zf", "zb"), (",zf", None), ("Front lawn,zb", "zb")):
        path.write_text(f"Name,Zone,Zone id,Id\ngate,{row},s\n")
        after = apply(book, read_tables(path, book, TODAY).change)
        assert after.spots["s"].zone == zone, row


def test_another_unit_in_a_heading_is_never_read_as_ours(tmp_path: Path) -> None:
    read = _read(tmp_path, 'Date,Zone,"Depth, mm"\n2026-05-01,Front lawn,12\n')
    assert not read.change
    assert "has another unit" in read.faults[0].told


def test_an_unknown_heading_is_told_and_passed_over(tmp_path: Path) -> None:
    read = _read(tmp_path, "Date,Zone,Minute,Who\n2026-05-01,Front lawn,9,me\n")
    assert [each for each in read.notes if "Who" in each]
    assert any('did you mean "Minutes, min"?' in each for each in read.notes)


def test_a_table_is_known_by_its_headings_or_asked_for(tmp_path: Path) -> None:
    text = "Date,Zone,Minutes\n2026-05-01,Front lawn,9\n"
    assert [each.table for each in _read(tmp_path, text, "mine.csv").tables] == ["waterings"]
    with pytest.raises(OwnerError, match=r"mine.csv: this may be .* or .*; name the file"):
        _read(tmp_path, "Date,Zone\n2026-05-01,Front lawn\n", "mine.csv")
    with pytest.raises(OwnerError, match="no heading in the first line is known"):
        _read(tmp_path, "Roses are red\n", "mine.csv")
    with pytest.raises(OwnerError, match="no heading"):
        _read(tmp_path, "", "mine.csv")


@pytest.mark.parametrize(
    ("data", "told"),
    [
        ("Größe".encode("cp1252"), "is not UTF-8 text; save it as CSV UTF-8"),
        ("Date".encode("utf-16-le"), "is not UTF-8 text"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "older or protected workbook"),
        (b"PK\x03\x04 cut off", "the file is damaged"),
        ('Date,Zone,Minutes\n2026-05-01,"Front,9\n', "line 2: a quotation mark stands alone"),
    ],
)
def test_what_cannot_be_read_is_explained(data: str | bytes, told: str, tmp_path: Path) -> None:
    with pytest.raises(OwnerError, match=told):
        _read(tmp_path, data)


def _zipped(members: Mapping[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in members.items():
            archive.writestr(name, data)
    return out.getvalue()


def test_bombs_are_refused_before_they_are_unpacked(tmp_path: Path) -> None:
    flat = _zipped({"zones.csv": bytes(300 * 2**20)})
    dense = _zipped({"zones.csv": b"a" * (20 * 2**20)})
    many = _zipped({f"{number}.csv": b"" for number in range(MOST_MEMBERS + 1)})
    for data, told in ((flat, "300 MB"), (dense, "20 MB"), (many, "more than 500 files")):
        with pytest.raises(OwnerError, match=told):
            _read(tmp_path, data, "bomb.zip")


def _workbook(rows: list[list[object]], title: str = "Waterings") -> bytes:
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = title
    for row in rows:
        sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _with_part(data: bytes, part: str, old: str, new: str) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        members = {name: archive.read(name) for name in archive.namelist()}
    text = members[part].decode()
    assert old in text
    return _zipped(members | {part: text.replace(old, new, 1).encode()})


SHEET = "xl/worksheets/sheet1.xml"


def test_a_workbook_that_would_grow_is_refused(tmp_path: Path) -> None:
    data = _workbook([["Date", "Zone", "Minutes"]])
    far = _with_part(data, SHEET, '<row r="1"', '<row r="99999999"')
    with pytest.raises(OwnerError, match="rows; take it in in parts"):
        _read(tmp_path, far, "far.xlsx")
    entity = '<!DOCTYPE a [<!ENTITY b "boo"><!ENTITY c "&b;&b;&b;">]>'
    part = _with_part(data, SHEET, "<worksheet", f"{entity}<worksheet")
    with pytest.raises(OwnerError, match="damaged or of another kind"):
        _read(tmp_path, part, "entity.xlsx")
    claimed = _with_part(data, SHEET, 'ref="A1:C1"', 'ref="A1:XFD1048576"')
    assert not _read(tmp_path, claimed, "claimed.xlsx").change


def test_formulas_are_not_reckoned_out(tmp_path: Path) -> None:
    rows: list[list[object]] = [
        ["Date", "Zone", "Minutes"],
        ["2026-05-01", "Front lawn", "=1+1"],
        ["2026-05-02", "Front lawn", 8],
    ]
    read = _read(tmp_path, _workbook(rows), "waterings.xlsx")
    assert _minutes(read) == [8.0]
    assert read.faults[0].told == (
        'Waterings, row 2, column "Minutes, min": A formula is not reckoned out here; '
        "paste its value in its place."
    )


def test_other_sheets_of_a_workbook_are_passed_over(tmp_path: Path) -> None:
    write_tables(HOME, tmp_path / "all.xlsx")
    read = read_tables(tmp_path / "all.xlsx", HOME, TODAY)
    assert (read.notes, read.faults, dict(read.change)) == ((), (), {})


def test_ids_are_kept_and_stand_once(tmp_path: Path) -> None:
    text = "Date,Zone,Minutes,Id\n2026-05-01,Front lawn,9,w1\n2026-05-02,Front lawn,9,w1\n"
    read = _read(tmp_path, text)
    assert list(apply(HOME, read.change).waterings) == ["w1"]
    assert "stands in line 2 already" in read.faults[0].told
    assert "1 row has an id that this notebook does not know" in read.notes[0]


def test_a_figure_that_a_spreadsheet_rounded_is_no_change(tmp_path: Path) -> None:
    watering = Watering(id="w", date=TODAY, zone="zf", depth_in=22 / 25.4)
    book: Notebook = with_tables(HOME, {"waterings": [watering]})
    path = tmp_path / "waterings.csv"
    for figure, changes in (("0.866141732", 0), ("0.8661417323", 0), ("0.866141733", 1)):
        path.write_text(f'"Depth, in",Id\n{figure},w\n')
        assert len(read_tables(path, book, TODAY).change) == changes, figure
