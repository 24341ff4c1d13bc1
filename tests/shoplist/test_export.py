"""The list of a machine kind as a spreadsheet, and back again."""

from pathlib import Path

import openpyxl
import pytest

from saycheck.shoplist.lines import ListError, read_list
from saycheck.shoplist.match import matched
from saycheck.shoplist.sheet import HEADINGS, write_sheet
from saycheck.vocabulary.load import kinds, load


@pytest.mark.parametrize("kind", kinds())
def test_list_comes_back(tmp_path: Path, kind: str) -> None:
    """Every part of an exported list is found again when the sheet is imported, and nothing is left."""
    vocabulary = load(kind)
    path = tmp_path / "list.csv"

    assert len(vocabulary.lines) == write_sheet(path, vocabulary)
    matches = matched(read_list(path), vocabulary)

    assert [] == [match.line.text for match in matches if not match.is_placed]
    assert {part.name for part in vocabulary.parts} == {
        part.name for match in matches for part in match.parts
    }


def test_sheet_can_be_opened(tmp_path: Path) -> None:
    """The spreadsheet has its headings and a row for every line."""
    vocabulary = load("generator-set")
    write_sheet(tmp_path / "list.xlsx", vocabulary)

    sheet = openpyxl.load_workbook(tmp_path / "list.xlsx").worksheets[0]

    assert list(HEADINGS) == [cell.value for cell in sheet[1]]
    assert len(vocabulary.lines) + 1 == sheet.max_row
    assert vocabulary.lines[0].part == sheet["B2"].value


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("there.csv", "is there already and is left as it is; name another file with --out"),
        ("list.ods", "is no sheet that can be written; give a name that ends in .xlsx or .csv"),
    ],
)
def test_sheet_is_refused(tmp_path: Path, name: str, sentence: str) -> None:
    """A file that is there is not written over, and other kinds of file are not made."""
    (tmp_path / "there.csv").write_text("mine", encoding="utf-8")

    with pytest.raises(ListError) as told:
        write_sheet(tmp_path / name, load("generator-set"))

    assert str(told.value).endswith(sentence)
    assert "mine" == (tmp_path / "there.csv").read_text(encoding="utf-8")
