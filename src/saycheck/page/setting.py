"""Entries set as HTML. Everything that was heard or typed is escaped by the templates."""

from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape

from saycheck.page.desk import Desk, Sheet
from saycheck.page.entries import Entry
from saycheck.page.strip import strip
from saycheck.page.words import Paragraph
from saycheck.reporting.wording import number

HERE = Path(__file__).parent


@cache
def environment() -> Environment:
    """The templates."""
    return Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


@lru_cache(maxsize=8192)
def entry_html(entry: Entry) -> str:
    """One entry."""
    return environment().get_template("entry.html").render(e=entry)


@lru_cache(maxsize=8192)
def paragraph_html(paragraph: Paragraph) -> str:
    """One paragraph of the transcript."""
    return environment().get_template("paragraph.html").render(p=paragraph)


def page(desk: Desk, who: str) -> str:
    """The whole page."""
    sheet = desk.sheet()
    given = {
        "head": head(sheet),
        "version": version(desk, sheet),
        "seen": seen(sheet),
        "sections": [
            (section.key, section.title, [(one.key, entry_html(one)) for one in section.entries])
            for section in sheet.sections
        ],
        "strip": strip_html(sheet),
        "paragraphs": [(one.key, paragraph_html(one)) for one in sheet.words],
        "sound": desk.sound.is_file(),
        "who": who,
    }
    return environment().get_template("page.html").render(given)


def strip_html(sheet: Sheet) -> str:
    """The strip along the recording."""
    return environment().get_template("strip.html").render(s=strip(sheet.standing))


def version(desk: Desk, sheet: Sheet) -> str:
    """Names what a browser has: this run of the server, and the sheet."""
    return f"{desk.run}:{sheet.number}"


def seen(sheet: Sheet) -> str:
    """The last edit on the page; empty where there is none."""
    return sheet.standing.edits[-1].id if sheet.standing.edits else ""


def head(sheet: Sheet) -> dict[str, Any]:
    """What stands at the top: the unit, and how far the review is."""
    standing = sheet.standing
    machine = standing.walk.machine
    by_key = {section.key: len(section.entries) for section in sheet.sections}
    return {
        "unit": machine.unit or "unit not named",
        "kind": machine.kind.replace("-", " "),
        "hours": "hours not read" if machine.hours is None else f"{number(machine.hours)} h",
        "decide": by_key["decide"],
        "skipped": by_key["skipped"],
        "share": round(100 * standing.reviewed_share),
        "told": progress(by_key["decide"], by_key["skipped"]),
        "undo": bool(standing.undo),
        "redo": bool(standing.redo),
        "writeup": sum(one.state == "writeup" for one in standing.walk.findings),
        "by": ", ".join(standing.by),
    }


def progress(decide: int, skipped: int) -> str:
    """How far the review is, in one sentence."""
    if not decide and not skipped:
        return "Reviewed. Nothing is left to decide."
    parts = []
    if decide:
        parts.append(f"{decide} to decide")
    if skipped:
        parts.append(f"{skipped} {'questions' if skipped > 1 else 'question'} about what was not spoken of")
    return ", ".join(parts) + "."


def changes(desk: Desk, since: str) -> dict[str, Any]:
    """What a browser that has the sheet ``since`` must change to have the present one."""
    sheet = desk.sheet()
    run, _, number_ = since.partition(":")
    known = int(number_) if run == desk.run and number_.isdecimal() else 0
    now = {"version": version(desk, sheet), "seen": seen(sheet)}
    if known == sheet.number:
        return now
    return now | {
        "head": head(sheet),
        "order": [[section.key, [one.key for one in section.entries]] for section in sheet.sections],
        "html": {
            one.key: entry_html(one)
            for section in sheet.sections
            for one in section.entries
            if sheet.since[one.key] > known
        },
        "words": {p.key: paragraph_html(p) for p in sheet.words if sheet.words_since[p.key] > known},
        "strip": strip_html(sheet),
    }
