"""The lines of a shop's checklist, from a spreadsheet, a text or a document, each with its place.

Nothing is judged here but what is plainly no line of the list: empty rows. Bullets, numbers and boxes to tick
are taken off the words and stay in ``raw``.
"""

import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from saycheck.errors import SaycheckError

KINDS = (".xlsx", ".csv", ".txt", ".docx")

_LEAD = re.compile(r"^[\s\-–—*•·▪◦☐☑☒□■○●>_]*(?:\[[ xX_]?\]|\(\s?\))?\s*(?:\d{1,3}[.):]\s*|[a-zA-Z][.)]\s+)?")
_TRAIL = re.compile(r"[\s_.…:☐□]*$")
_ANSWERS = frozenset(
    "ok okay yes no na n/a pass passed fail failed good bad repair attention comments comment notes note "
    "remarks initials date signature defect defective y n x tick satisfactory unsatisfactory".split()
)
_NOT_TEXT = re.compile(r"[^a-z]")


class ListError(SaycheckError):
    """A checklist that cannot be read or written."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the list: ``place`` in its file ("row 7"), its words, all of it as it stood.

    ``zone`` is what the file says of the place on the machine, where it has a column for that.
    ``is_heading`` where the file itself marks it so.
    """

    place: str
    text: str
    raw: str
    zone: str = ""
    is_heading: bool = False


def read_list(path: Path) -> list[Line]:
    """The lines of a checklist in their order; ListError where it cannot be read or holds none."""
    readers: dict[str, Callable[[Path], Iterator[Line]]] = {
        ".xlsx": _xlsx, ".csv": _csv, ".txt": _txt, ".docx": _docx
    }  # fmt: skip
    reader = readers.get(path.suffix.lower())
    if reader is None:
        raise ListError(
            f"'{path.name}' is no list that can be read; give one that ends in {', '.join(KINDS)}"
        )
    if not path.is_file():
        raise ListError(f"there is no file '{path}'; look at its name")
    try:
        lines = list(reader(path))
    except SaycheckError:
        raise
    except Exception as error:  # the libraries raise many kinds for a broken file
        raise ListError(f"'{path.name}' cannot be read as {path.suffix} ({error}); save it anew") from error
    if not lines:
        raise ListError(f"'{path.name}' holds no line of text; look whether it is the right file")
    return lines


def bare(text: str) -> str:
    """Words without bullets, numbers, boxes and what follows a line to fill in."""
    return _TRAIL.sub("", _LEAD.sub("", text.strip(), count=1)).strip()


def _text_of(path: Path) -> str:
    data = path.read_bytes()
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _txt(path: Path) -> Iterator[Line]:
    for number, raw in enumerate(_text_of(path).splitlines(), 1):
        if text := bare(raw):
            yield Line(f"line {number}", text, raw.strip(), is_heading=_looks_like_heading(raw))


def _looks_like_heading(raw: str) -> bool:
    """A line of a text that ends in a colon, or stands in capitals throughout."""
    words = raw.strip()
    return words.endswith(":") or (words.isupper() and len(words.split()) <= 4 and len(words) > 4)


def _csv(path: Path) -> Iterator[Line]:
    text = _text_of(path)
    try:
        dialect: type[csv.Dialect] | csv.Dialect = csv.Sniffer().sniff(text[:4096], ",;\t|")
    except csv.Error:
        dialect = csv.excel
    yield from _rows(csv.reader(io.StringIO(text), dialect), "row")


def _xlsx(path: Path) -> Iterator[Line]:
    import openpyxl

    book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    many = len(book.worksheets) > 1
    for sheet in book.worksheets:
        rows = ([str(cell) if cell is not None else "" for cell in row] for row in sheet.values)
        yield from _rows(rows, f"{sheet.title}, row" if many else "row")


def _docx(path: Path) -> Iterator[Line]:
    import docx
    from docx.table import Table

    document = docx.Document(str(path))
    tables = 0
    for number, block in enumerate(document.iter_inner_content(), 1):
        if isinstance(block, Table):
            tables += 1
            yield from _rows(
                ([cell.text for cell in row.cells] for row in block.rows), f"table {tables}, row"
            )
        elif text := bare(block.text):
            style = block.style.name if block.style and block.style.name else ""
            heading = style.startswith(("Heading", "Title")) or _looks_like_heading(block.text)
            yield Line(f"paragraph {number}", text, block.text.strip(), is_heading=heading)


def _rows(rows: "Iterator[list[str]] | csv._reader", place: str) -> Iterator[Line]:  # type: ignore[name-defined]
    """The lines of a table: of each row the cell with the item, by its heading or as the first with words."""
    item: int | None = None
    zone: int | None = None
    for number, cells in enumerate(rows, 1):
        cells = [" ".join(cell.split()) for cell in cells]
        raw = " | ".join(dict.fromkeys(cell for cell in cells if cell))
        if not raw:
            continue
        heads = [cell.lower() for cell in cells]
        if item is None and (found := [n for n, cell in enumerate(heads) if cell in _ITEM]):
            item = found[0]
            zone = next((n for n, cell in enumerate(heads) if cell in _ZONE), None)
            yield Line(f"{place} {number}", bare(cells[item]), raw, is_heading=True)
            continue
        where = cells[zone] if zone is not None and zone < len(cells) else ""
        wanted = cells[item] if item is not None and item < len(cells) else ""
        text = wanted or next((cell for cell in cells if _is_text(cell)), "")
        filled = [cell for cell in dict.fromkeys(cells) if cell]
        heading = len(filled) == 1 and len(cells) > 2 and _looks_like_heading(text)
        yield Line(f"{place} {number}", bare(text) or raw, raw, where, heading)


_ITEM = frozenset(
    ["part", "item", "component", "check", "inspection item", "description", "what", "what to check"]
)
_ZONE = frozenset(["zone", "area", "section", "place", "location", "where", "position"])


def _is_text(cell: str) -> bool:
    """Whether a cell holds words that are no answer to tick."""
    return bool(_NOT_TEXT.sub("", cell.lower())) and cell.lower().strip(" .:") not in _ANSWERS
