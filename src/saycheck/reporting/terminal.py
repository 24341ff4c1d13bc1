"""A walk as the terminal shows it: what must be decided first, then questions, the list, what was unclear.

States stand as words in a margin of their own, and colour only supports them, so that the page says the
same on paper, through a pipe and to someone who sees no colour.
"""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.rule import Rule
from rich.text import Text

from saycheck.models.walk import Finding, Span, Walk
from saycheck.reporting.layout import margin_grid, merged, print_plainly
from saycheck.reporting.wording import STATE_WORDS, clock, length, listed, number, plain, said_of, with_side

WIDEST = 100
"""Columns beyond which lines are no longer easy to read."""

_QUOTE = 160

_STYLES = {
    "writeup": "bold magenta",
    "watch": "magenta",
    "hidden": "blue",
    "later": "blue",
    "unclear": "blue",
    "unsaid": "dim",
}


def show(walk: Walk, console: Console) -> None:
    """Print the whole view."""
    print_plainly(page(walk), console, WIDEST)


def page(walk: Walk) -> RenderableType:
    """The whole view, to be printed at any width."""
    sections: list[RenderableType] = [_header(walk)]
    sections += _findings("to decide", walk, ["writeup"], "Nothing to write up was heard.")
    sections += _findings("to watch", walk, ["watch"])
    sections += _findings("hidden or put off", walk, ["hidden", "later"])
    sections += _questions(walk)
    sections += _checklist(walk)
    sections += _unclear(walk)
    return Group(*sections)


def _header(walk: Walk) -> RenderableType:
    machine = walk.machine
    who = [plain(machine.unit or "unit not named"), machine.kind.replace("-", " ")]
    who.append("hours not read" if machine.hours is None else f"{number(machine.hours)} h")
    lines = [Text(", ".join(who), style="bold"), Text(_heard(walk))]
    lines += [Text(line) for line in [_trouble(walk), _accounted(walk)] if line]
    return Group(*lines)


def _heard(walk: Walk) -> str:
    source = plain(walk.source.name)
    if not walk.source.duration_s:
        return f"read from {source}"
    ears = f", heard by {listed(walk.made_by.ears)}" if walk.made_by.ears else ""
    return f"walk of {length(walk.source.duration_s)} from {source}{ears}"


def _trouble(walk: Walk) -> str:
    """How much of the speech could not be trusted, and why."""
    speech = [passage for passage in walk.sound if passage.kind == "speech"]
    bad = [passage for passage in speech if passage.trouble]
    if not bad:
        return "all speech was clear enough to trust" if speech else ""
    lost = sum(passage.end_s - passage.start_s for passage in bad)
    whole = sum(passage.end_s - passage.start_s for passage in speech)
    why = listed(list(dict.fromkeys(passage.trouble or "" for passage in bad)))
    return f"{length(lost)} of {length(whole)} of speech could not be trusted: {why}"


def _accounted(walk: Walk) -> str:
    """What became of the words, in hundredths of their characters."""
    text = walk.transcript.text
    shares: dict[str, int] = {}
    for span in walk.transcript.spans:
        solid = sum(not letter.isspace() for letter in text[span.char_start : span.char_end])
        shares[span.disposition] = shares.get(span.disposition, 0) + solid
    whole = sum(shares.values())
    if not whole:
        return ""
    said = [f"{name.replace('-', ' ')} {count / whole:.0%}" for name, count in shares.items() if count]
    words = len(walk.transcript.words)
    return f"of {words:,} word{'s' if words != 1 else ''}: {', '.join(said)}"


def _heading(words: str) -> Iterator[RenderableType]:
    yield Text("")
    yield Rule(Text(words, style="bold"), align="left", characters="─", style="dim")


def _findings(heading: str, walk: Walk, states: list[str], nothing: str = "") -> Iterator[RenderableType]:
    found = [one for state in states for one in walk.findings if one.state == state]
    if not found and not nothing:
        return
    yield from _heading(f"{heading} ({len(found)})" if found else heading)
    if not found:
        yield Text(nothing)
        return
    grid = margin_grid(places=True)
    warned: set[str] = set()
    for finding in found:
        margin = Text(STATE_WORDS[finding.state], style=_STYLES.get(finding.state, ""))
        grid.add_row(
            margin, Text("\n").join(_finding(finding, warned, walk.transcript.text)), _where(finding)
        )
    yield grid


def _finding(finding: Finding, warned: set[str], text: str) -> Iterator[Text]:
    """The lines of one finding; a caution that stands above already (``warned``) is not said again."""
    part, said = with_side(plain(finding.part), finding.side), plain(said_of(finding))
    # "hidden" and "later" stand in the margin already
    yield Text.assemble((part, "bold"), "" if said == finding.state else f": {said}")
    words = " … ".join(text[one.char_start : one.char_end] for one in finding.evidence)
    yield Text(f"“{_cut(plain(words))}”", style="italic")
    if finding.state == "writeup" and finding.caution and finding.caution not in warned:
        warned.add(finding.caution)
        yield Text(f"Take care: {plain(finding.caution)}")
    if finding.needs_review:
        yield Text(f"look again: {plain(listed(finding.review_reasons)) or 'not sure'}")


def _where(finding: Finding) -> Text:
    start = next((one.start_s for one in finding.evidence if one.start_s is not None), None)
    place = plain(finding.zone)
    return Text(place if start is None else f"{place} {clock(start):>5}", style="dim")


def _questions(walk: Walk) -> Iterator[RenderableType]:
    if not walk.questions:
        return
    yield from _heading(f"questions, in walking order ({len(walk.questions)})")
    grid = margin_grid()
    for place, question in enumerate(walk.questions, 1):
        grid.add_row(str(place), Text(plain(question.text)))
    yield grid


def _checklist(walk: Walk) -> Iterator[RenderableType]:
    if not walk.checklist:
        return
    said = sum(line.state != "unsaid" for line in walk.checklist)
    yield from _heading(f"checklist ({said} of {len(walk.checklist)} lines spoken of)")
    grid = margin_grid()
    for zone in dict.fromkeys(line.zone for line in walk.checklist):
        lines = [line for line in walk.checklist if line.zone == zone]
        grid.add_row("", Text(plain(zone), style="bold"))
        for state, word in STATE_WORDS.items():
            names = list(merged(line for line in lines if line.state == state))
            if names:
                style = _STYLES.get(state, "")
                grid.add_row(Text(word, style=style), Text(", ".join(names)))
    yield grid


def _unclear(walk: Walk) -> Iterator[RenderableType]:
    spans = [span for span in walk.transcript.spans if span.disposition == "unclear"]
    if not spans:
        return
    yield from _heading(f"not understood ({len(spans)})")
    grid = margin_grid()
    for span in spans:
        words = plain(walk.transcript.passage(span.char_start, span.char_end))
        why = f" ({plain(span.why)})" if span.why else ""
        grid.add_row(_when(span, walk), Text(f"“{_cut(words)}”{why}"))
    yield grid


def _when(span: Span, walk: Walk) -> str:
    for word in walk.transcript.words:
        if word.char_end > span.char_start and word.start_s is not None:
            return clock(word.start_s)
    return "unclear"


def _cut(words: str) -> str:
    """Words short enough for the page; the walk itself holds them whole."""
    if len(words) <= _QUOTE:
        return words
    return words[:_QUOTE].rsplit(" ", 1)[0] + " …"
