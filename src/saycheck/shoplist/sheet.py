"""The checklist of a machine kind as a spreadsheet, one row a line of the list."""

from collections.abc import Iterator
from pathlib import Path

from saycheck.shoplist.lines import ListError
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.origin import measured

HEADINGS = (
    "Zone", "Part", "Side", "Looked for", "Good", "Measured", "Only where fitted", "Can hurt", "Also called", "Caution",
)  # fmt: skip
WIDTHS = (18, 26, 8, 34, 50, 40, 20, 10, 50, 50)


def write_sheet(path: Path, vocabulary: Vocabulary) -> int:
    """Write the list as .xlsx or .csv; the number of lines. ListError where the file is there or cannot be."""
    if path.suffix.lower() not in (".xlsx", ".csv"):
        raise ListError(
            f"'{path.name}' is no sheet that can be written; give a name that ends in .xlsx or .csv"
        )
    if path.exists():
        raise ListError(f"'{path}' is there already and is left as it is; name another file with --out")
    rows = list(rows_of(vocabulary))
    try:
        (_write_xlsx if path.suffix.lower() == ".xlsx" else _write_csv)(path, rows, vocabulary)
    except OSError as error:
        raise ListError(
            f"'{path}' cannot be written ({error.strerror}); name another file with --out"
        ) from None
    return len(rows)


def rows_of(vocabulary: Vocabulary) -> Iterator[tuple[str, ...]]:
    """The rows below the headings, in walking order."""
    for line in vocabulary.lines:
        part = vocabulary.part(line.part)
        checks = [vocabulary.checks[name] for name in part.checks]
        yield (
            line.zone,
            part.name,
            "" if line.side == "none" else line.side,
            ", ".join(part.checks),
            "; ".join(dict.fromkeys(check.good for check in checks)),
            "; ".join(measured(measure) for measure in part.measures),
            line.option or "",
            "yes" if any(check.hurts for check in checks) else "",
            ", ".join(_also(part)),
            part.caution or "",
        )


def _also(part: Part) -> list[str]:
    return [saying for saying in part.sayings if saying != part.name.lower()]


def _write_csv(path: Path, rows: list[tuple[str, ...]], _: Vocabulary) -> None:
    import csv

    with path.open("x", encoding="utf-8-sig", newline="") as file:  # the mark that spreadsheets look for
        csv.writer(file).writerows([HEADINGS, *rows])


def _write_xlsx(path: Path, rows: list[tuple[str, ...]], vocabulary: Vocabulary) -> None:
    import openpyxl
    from openpyxl.styles import Alignment, Font

    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.title = vocabulary.kind[:31]
    sheet.append(HEADINGS)
    for row in rows:
        sheet.append(row)
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for column, width in zip("ABCDEFGHIJ", WIDTHS, strict=True):
        sheet.column_dimensions[column].width = width
    for cells in sheet.iter_rows():
        for cell in cells:
            cell.alignment = Alignment(wrap_text=True, vertical="top")
            cell.data_type = "s"  # words, never a formula
    sheet.freeze_panes = "A2"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    book.save(path)
