"""Entries set as HTML. Everything that was heard or typed is escaped by the templates."""

from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape

from saycheck.models.walk import Walk
from saycheck.page.desk import Desk, Sheet
from saycheck.page.entry import Entry
from saycheck.page.strip import Mark
from saycheck.page.words import Paragraph
from saycheck.reporting.wording import clock, number, plain

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


@lru_cache(maxsize=8192)
def mark_html(mark: Mark, base: int) -> str:
    """One finding on the strip, which stands ``base`` pixels below its upper edge."""
    return environment().get_template("mark.html").render(m=mark, base=base).strip()


def strip_html(sheet: Sheet) -> str:
    """The strip along the recording."""
    marks = "".join(mark_html(one, sheet.strip.sound.base) for one in sheet.strip.marks)
    return environment().get_template("strip.html").render(s=sheet.strip, marks=marks)


def _strip_since(sheet: Sheet, known: int) -> dict[str, Any]:
    """What has changed on the strip; all of it where another recording is heard now."""
    strip, since = sheet.strip, sheet.since
    if since["sound"] > known:
        return {"strip": strip_html(sheet)}
    base = strip.sound.base
    marks = {one.key: mark_html(one, base) for one in strip.marks if since[one.key] > known}
    if since["zones"] <= known:
        return {"marks": marks}
    zones = {"told": strip.told, "html": environment().get_template("zones.html").render(s=strip)}
    return {"marks": marks, "zones": zones}


def version(desk: Desk, sheet: Sheet) -> str:
    """Names what a browser has: this run of the server, the hearing, and the sheet."""
    return f"{desk.run}.{desk.hearings}:{sheet.number}"


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
        "recordings": recordings(standing.walk),
        "decide": by_key["decide"],
        "skipped": by_key["skipped"],
        "share": round(100 * standing.reviewed_share),
        "told": progress(by_key["decide"], by_key["skipped"]),
        "undo": bool(standing.undo),
        "redo": bool(standing.redo),
        "writeup": sum(one.state == "writeup" for one in standing.walk.findings),
        "by": ", ".join(standing.by),
    }


def recordings(walk: Walk) -> str:
    """All that was heard, in order, and from when on where it was joined to the walk later."""
    names = [plain(walk.source.name)]
    for one in walk.joined:
        when = "" if one.start_s is None else f" from {clock(one.start_s)} on"
        names.append(f"{plain(one.source.name)}{when}")
    return f"from {', then '.join(names)}"


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


def changes(desk: Desk, has: str) -> dict[str, Any]:
    """What a browser that has the sheet ``has`` must change to have the present one: only what differs.

    All of it where it has none; ``again`` where it has another hearing and must begin anew.
    """
    sheet = desk.sheet()
    now: dict[str, Any] = {"version": version(desk, sheet), "seen": seen(sheet)}
    hearing, _, number_ = has.partition(":")
    if has and hearing != version(desk, sheet).partition(":")[0]:
        return now | {"again": True}
    known = int(number_) if number_.isdecimal() else 0
    if known == sheet.number:
        return now
    since = sheet.since
    return now | {
        "head": head(sheet),
        "sections": [one.key for one in sheet.sections],
        "order": [
            {"key": one.key, "title": one.title, "entries": [entry.key for entry in one.entries]}
            for one in sheet.sections
            if since[f"s-{one.key}"] > known
        ],
        "html": {
            one.key: entry_html(one)
            for section in sheet.sections
            for one in section.entries
            if since[one.key] > known
        },
        "words": {p.key: paragraph_html(p) for p in sheet.words if since[p.key] > known},
        **_strip_since(sheet, known),
    }
