"""A shop's own list becomes a layer: every line is accounted for, nothing is overwritten."""

import tomllib
from collections.abc import Callable
from pathlib import Path

import docx
import openpyxl
import pytest

from saycheck.shoplist.lines import Line, ListError, bare, read_list
from saycheck.shoplist.match import matched
from saycheck.shoplist.write import write_layer
from saycheck.vocabulary.load import load

ITEMS = [
    "Front:",
    "1. Bucket teeth",
    "[ ] Check lift rams for leaks",
    "Tyres - condition & pressure",
    "Engine oil level",
    "Fire extinguisher in date",
    "Handbraek",
    "Site radio call sign displayed",
    "Nail magnet fitted",
]


def as_txt(path: Path) -> None:
    path.write_text("\n\n".join(ITEMS), encoding="utf-8")


def as_csv(path: Path) -> None:
    rows = [f'"{item}";OK;Repair;' for item in ITEMS]
    path.write_text("\n".join(["Item;OK;Repair;Notes", *rows]), encoding="cp1252")


def as_xlsx(path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.append(["Nr", "Item", "OK", None])
    for number, item in enumerate(ITEMS, 1):
        sheet.append([number, item, None, None])
    book.save(path)


def as_docx(path: Path) -> None:
    document = docx.Document()
    document.add_heading("Front")
    for item in ITEMS[1:5]:
        document.add_paragraph(item)
    table = document.add_table(rows=0, cols=2)
    for item in ITEMS[5:]:
        cells = table.add_row().cells
        cells[0].text, cells[1].text = item, "OK / not OK"
    document.save(str(path))


WRITERS: dict[str, Callable[[Path], None]] = {
    ".txt": as_txt, ".csv": as_csv, ".xlsx": as_xlsx, ".docx": as_docx
}  # fmt: skip


@pytest.mark.parametrize("ending", WRITERS)
def test_every_line_is_accounted_for(tmp_path: Path, ending: str) -> None:
    """Whatever the file, each of its lines stands in the layer, and the layer can be used."""
    given = tmp_path / f"yard list{ending}"
    WRITERS[ending](given)
    vocabulary = load("wheel-loader")
    lines = read_list(given)
    matches = matched(lines, vocabulary)

    path = write_layer(tmp_path / "words", given.name, matches, vocabulary)

    written = path.read_text(encoding="utf-8")
    assert [] == [line for line in lines if f"{line.place}: " not in written or line.text not in written]
    assert ["Site radio call sign displayed", "Nail magnet fitted"] == [
        match.line.text for match in matches if not match.is_placed
    ]
    lies_over = load("wheel-loader", [tmp_path / "words"])
    assert {None} == {line.option for line in lies_over.lines if line.part == "bucket teeth"}
    assert len(lies_over.parts) == len(vocabulary.parts)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("Engine oil level", ["engine oil"]),
        ("Check the horn works", ["horn"]),
        ("Tyres (pressure, cuts)", ["front tyre", "rear tyre"]),
        ("Front tires", ["front tyre"]),
        ("Handbrake", ["parking brake"]),
        ("Handbraek", ["parking brake"]),  # a slip of the pen
        ("Bucket, cutting edge and teeth", ["bucket", "cutting edge", "bucket teeth"]),
        ("L/H + R/H mirrors clean", ["mirrors"]),
        ("Radiator coolant level", ["radiator", "coolant"]),
        ("Air-con blows cold", ["air conditioning"]),
        ("Fire extinguisher charged / in date", ["fire extinguisher"]),
        ("Nail magnet", []),
        ("Toilet paper", []),
        ("Site gate shut", []),
    ],
)
def test_line_means_parts(text: str, parts: list[str]) -> None:
    """A line is matched by wording, sayings, and what is left when orders and conditions are taken off."""
    (match,) = matched([Line("line 1", text, text)], load("wheel-loader"))

    assert sorted(parts) == sorted(part.name for part in match.parts)


def test_what_is_left_of_a_line_is_told() -> None:
    """Where one part of a line is known and another not, the rest is left for a person."""
    (match,) = matched([Line("line 1", "Horn and nail magnet", "")], load("wheel-loader"))

    assert (["horn"], ("nail magnet",), False) == (
        [part.name for part in match.parts],
        match.left,
        match.is_placed,
    )


def test_unplaced_lines_can_be_placed_by_taking_marks_off(tmp_path: Path) -> None:
    """The block of an unknown line is a part once its marks are taken off and a zone is chosen."""
    vocabulary = load("wheel-loader")
    matches = matched([Line("line 1", "Nail magnet", "Nail magnet")], vocabulary)
    path = write_layer(tmp_path, "list", matches, vocabulary)
    text = path.read_text(encoding="utf-8")
    block = [
        line.removeprefix("# ")
        for line in text.splitlines()
        if line.startswith(("# [[", "# name", "# checks"))
    ]
    path.write_text(text + "\n".join(block), encoding="utf-8")

    assert {} != tomllib.loads(path.read_text(encoding="utf-8"))
    assert ("front",) == load("wheel-loader", [tmp_path]).part("nail magnet").zones


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    """A layer that is there stays as it is."""
    vocabulary = load("wheel-loader")
    path = write_layer(tmp_path, "list", [], vocabulary)
    path.write_text("# mine", encoding="utf-8")

    with pytest.raises(ListError) as told:
        write_layer(tmp_path, "list", [], vocabulary)

    assert f"'{path}' is there already and is left as it is; name another folder with --out" == str(
        told.value
    )
    assert "# mine" == path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        (
            "list.pdf",
            b"x",
            "'list.pdf' is no list that can be read; give one that ends in .xlsx, .csv, .txt, .docx",
        ),
        ("list.txt", b" \n\n", "'list.txt' holds no line of text; look whether it is the right file"),
        ("list.xlsx", b"x", "'list.xlsx' cannot be read as .xlsx (File is not a zip file); save it anew"),
    ],
)
def test_file_that_cannot_be_read(tmp_path: Path, name: str, content: bytes, sentence: str) -> None:
    """A file of another kind, an empty or a broken one is told in one sentence."""
    (tmp_path / name).write_bytes(content)

    with pytest.raises(ListError) as told:
        read_list(tmp_path / name)

    assert sentence == str(told.value)


def test_missing_file(tmp_path: Path) -> None:
    """A file that is not there is told."""
    with pytest.raises(ListError) as told:
        read_list(tmp_path / "gone.txt")

    assert f"there is no file '{tmp_path / 'gone.txt'}'; look at its name" == str(told.value)


@pytest.mark.parametrize(
    ("raw", "text"),
    [
        ("1. Bucket", "Bucket"), ("a) Bucket", "Bucket"), ("[ ] Bucket", "Bucket"), ("☐ Bucket", "Bucket"),
        ("- Bucket ......", "Bucket"), ("• Bucket ___", "Bucket"), ("12) Bucket:", "Bucket"),
        ("3rd function", "3rd function"), ("A frame", "A frame"),
    ],
)  # fmt: skip
def test_bullets_and_boxes_are_taken_off(raw: str, text: str) -> None:
    """Bullets, numbers, boxes and lines to fill in are no words."""
    assert text == bare(raw)
