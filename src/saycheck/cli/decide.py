"""``saycheck decide``: the owner's choice about each finding that is written up."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from saycheck.cli.walks import WalkFolder

if TYPE_CHECKING:
    from saycheck.models.decisions import Choice, Decision
    from saycheck.reporting.writeup.document import Entry
    from saycheck.reporting.writeup.given import Given


class Choices(StrEnum):
    """What ``--choice`` takes."""

    now = "now"
    later = "later"
    never = "never"
    undecided = "undecided"


def decide(
    walk: WalkFolder,
    finding: Annotated[
        str | None, typer.Option(metavar="ID", help="The finding, by its number in the write-up or its id.")
    ] = None,
    choice: Annotated[Choices | None, typer.Option(help="What is decided about it.")] = None,
    by: Annotated[str | None, typer.Option(metavar="NAME", help="Who decides.")] = None,
    note: Annotated[str, typer.Option(metavar="WORDS", help="Why, or until when.")] = "",
    listing: Annotated[
        bool, typer.Option("--list", help="Only print what is decided and what is not.")
    ] = False,
) -> None:
    """Record the owner's choices: now, later or not at all; without options one finding after the other."""
    from saycheck.errors import WriteUpError
    from saycheck.writing import given_of

    given = given_of(walk, bare=True)
    if listing:
        _show(given)
        return
    if (finding is None) != (choice is None):
        raise WriteUpError("--finding and --choice go together; name both, or neither to be asked one by one")
    if finding is not None and choice is not None:
        if not (by or "").strip():
            raise WriteUpError("nobody is named who decides; say --by NAME")
        _record(walk, given, _entry(given, finding), choice, by or "", note)
        return
    try:
        _one_by_one(walk, given, by)
    except typer.Abort:  # Ctrl-C, or nobody there to answer
        typer.echo("\nstopped; what was decided so far counts", err=True)
        raise typer.Exit(130) from None


def _entries(given: "Given") -> "list[Entry]":
    from saycheck.reporting.writeup.entries import to_decide

    return [one for group in to_decide(given) for one in group.entries]


def _entry(given: "Given", name: str) -> "Entry":
    from saycheck.errors import WriteUpError

    entries = _entries(given)
    for one in entries:
        if name in (one.finding, str(one.number)):
            return one
    known = ", ".join(f"{one.number} ({one.finding})" for one in entries) or "none"
    raise WriteUpError(f"no finding '{name}' is written up; those are {known}")


def _record(walk: Path, given: "Given", entry: "Entry", choice: Choices, who: str, note: str) -> "Decision":
    from saycheck import decisions

    finding = next(one for one in given.standing.walk.findings if one.id == entry.finding)
    decision = decisions.decide(finding, _CHOSEN[choice], who.strip(), note.strip())
    decisions.append(walk if walk.is_dir() else walk.parent, [decision])
    typer.echo(f"{entry.part}: {_word(choice)}, by {decision.who}", err=True)
    return decision


_CHOSEN: "dict[Choices, Choice | None]" = {
    Choices.now: "now",
    Choices.later: "later",
    Choices.never: "never",
    Choices.undecided: None,
}


def _word(choice: Choices) -> str:
    from saycheck.models.decisions import CHOICE_WORDS

    return CHOICE_WORDS.get(choice.value, "undecided")


def _show(given: "Given") -> None:
    for one in _entries(given):
        said = f"{one.decided.choice}, {one.decided.who}, {one.decided.when}" if one.decided else "undecided"
        typer.echo(f"{one.number:>3}  {one.part}: {one.said or one.state}: {said}")


_KEYS = {"n": Choices.now, "l": Choices.later, "x": Choices.never}


def _one_by_one(walk: Path, given: "Given", by: str | None) -> None:
    """Ask about each finding that is not decided yet; what was answered counts at once."""
    left = [one for one in _entries(given) if not one.decided]
    if not left:
        typer.echo("nothing is left to decide", err=True)
        return
    who = by or typer.prompt("Who decides", err=True)
    for place, one in enumerate(left, 1):
        _tell(one, place, len(left))
        key = _asked()
        if key == "q":
            break
        if key in _KEYS:
            _record(
                walk,
                given,
                one,
                _KEYS[key],
                who,
                typer.prompt("note", default="", show_default=False, err=True),
            )
    undecided = sum(not one.decided for one in _entries(_again(walk)))
    typer.echo(f"{undecided} left to decide" if undecided else "all is decided", err=True)


def _again(walk: Path) -> "Given":
    from saycheck.writing import given_of

    return given_of(walk, bare=True)


def _asked() -> str:
    while True:
        key: str = typer.prompt("n now, l later, x not at all, s skip, q quit", err=True)
        if key.strip().lower()[:1] in (*_KEYS, "s", "q"):
            return key.strip().lower()[:1]


def _tell(one: "Entry", place: int, of: int) -> None:
    _say(f"{place} of {of}  {one.part}: {one.said or one.state} ({one.urgency})", start="\n")
    if one.quote:
        _say(f"“{one.quote}”", indent="  ")
    if one.injures:
        _say("A failure here can injure someone.", indent="  ")
    for reading in one.readings:
        limit = f"limit: {reading.limit}" if reading.limit else ""
        _say("; ".join(one for one in (reading.value, limit, reading.verdict) if one), indent="  ")
    if one.waiting:
        _say(f"If it waits: {one.waiting}", indent="  ")


def _say(words: str, indent: str = "", start: str = "") -> None:
    """Words on standard error, broken between words where the terminal ends."""
    import shutil
    import textwrap

    width = min(shutil.get_terminal_size().columns, 100)
    typer.echo(start + textwrap.fill(words, width, initial_indent=indent, subsequent_indent=indent), err=True)
