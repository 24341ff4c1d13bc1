"""The history of a unit as the terminal shows it: what changed, what is open, what wears, what is due."""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.rule import Rule
from rich.text import Text

from saycheck.history.compare import Changed
from saycheck.history.derive import decision
from saycheck.history.troubles import Trouble
from saycheck.history.unit import UnitHistory
from saycheck.history.wording import day, days_between, hours_read, name, ordinal, series_name, short_day
from saycheck.models.decisions import CHOICE_WORDS
from saycheck.reporting.layout import margin_grid, print_plainly
from saycheck.reporting.wording import STATE_WORDS, number, plain, with_side

WIDEST = 100
STYLES = {"writeup": "bold magenta", "watch": "magenta"}
WALKS_SHOWN = 8


def show(history: UnitHistory, console: Console) -> None:
    """Print the whole view."""
    print_plainly(page(history), console, WIDEST)


def page(history: UnitHistory) -> RenderableType:
    """The whole view, to be printed at any width."""
    sections: list[RenderableType] = [header(history)]
    sections += _changes(history)
    sections += _open(history)
    sections += _came_back(history)
    sections += _trends(history)
    sections += _due(history)
    sections += _walks(history)
    return Group(*sections)


def heading(words: str) -> Iterator[RenderableType]:
    """A rule with words, after an empty line."""
    yield Text("")
    yield Rule(Text(words, style="bold"), align="left", characters="─", style="dim")


def header(history: UnitHistory) -> RenderableType:
    """Which unit, how far it has run, how often it was walked."""
    last = history.walks[-1]
    who = [plain(history.name), history.kind.replace("-", " "), hours_read(last.hours)]
    first = history.walks[0]
    count = len(history.walks)
    walked = f"walked once, on {day(last.day)}"
    if count > 1 and first.day == last.day:
        walked = f"walked {'twice' if count == 2 else f'{count} times'} on {day(first.day)}"
    elif count > 1:
        walked = f"{count} walks from {day(first.day)} to {day(last.day)}"
    if history.hours_per_day:
        walked += f", about {number(round(history.hours_per_day, 1))} h a day"
    return Group(Text(", ".join(who), style="bold"), Text(walked))


def _changes(history: UnitHistory) -> Iterator[RenderableType]:
    changes = [one for one in history.changes if one.change != "same"]
    if len(history.walks) < 2:
        return
    before = history.walks[-2]
    yield from heading(f"since the walk before, on {day(before.day)}")
    if not changes:
        yield Text("Nothing changed.")
        return
    grid = margin_grid()
    for one in changes:
        grid.add_row(_change(one), Text.assemble((name(one.trouble), "bold"), f": {_what_changed(one)}"))
    yield grid


def _change(one: Changed) -> Text:
    word = "not seen" if one.change == "not looked at" else one.change
    return Text(word, style="bold magenta" if one.change in ("worse", "back", "new") else "")


def _what_changed(one: Changed) -> str:
    said = plain(one.trouble.said.condition)
    now = STATE_WORDS[one.trouble.state]
    was = STATE_WORDS[one.was] if one.was else ""
    if one.change in ("worse", "better"):
        return f"{said}, was {was}, now {now}"
    if one.change == "gone":
        return f"{said}, was {was}, now said to be good"
    if one.change == "not looked at":
        why = {"hidden": "could not be seen", "later": "put off"}.get(one.trouble.answer, "not spoken of")
        return f"{said}, was {was}, {why} this time"
    if one.change == "back":
        return f"{said}, {now}, back for the {ordinal(one.trouble.spell)} time"
    return f"{said}, {now}"


def _open(history: UnitHistory) -> Iterator[RenderableType]:
    still = history.still_open
    on = f"still open on {day(history.walks[-1].day)}"
    yield from heading(f"{on} ({len(still)})" if still else on)
    if not still:
        yield Text("Nothing is open.")
        return
    grid = margin_grid(places=True)
    for one in still:
        margin = Text(STATE_WORDS[one.state], style=STYLES[one.state])
        words = Text.assemble((name(one), "bold"), f": {plain(one.said.condition)}")
        if one.flagged:
            words.append("\nnobody has looked yet whether this was heard rightly")
        if told := _decided(history, one):
            words.append(f"\n{told}")
        grid.add_row(margin, words, Text(how_long(history, one), style="dim"))
    yield grid


def _decided(history: UnitHistory, trouble: Trouble) -> str:
    """What the owner decided about it, empty where nothing is decided."""
    choice = decision(trouble, history.walks)
    if choice is None:
        return ""
    word = CHOICE_WORDS.get(choice.choice, choice.choice)
    who = f" by {plain(choice.who)}" if choice.who else ""
    note = f": {plain(choice.note)}" if choice.note else ""
    return f"decided: {word}{',' if who else ''}{who} on {day(choice.day)}{note}"


def how_long(history: UnitHistory, trouble: Trouble) -> str:
    """How long a trouble has been open: "38 days, 212 h", or that it is new."""
    if trouble.opened == len(history.walks) - 1:
        return "new"
    days = days_between(history.walks[trouble.opened].day, history.walks[-1].day)
    hours = history.hours_open(trouble)
    open_for = f"{days:,} day{'s' if days != 1 else ''}"
    return f"{open_for}, {number(round(hours, 1))} h" if hours is not None else f"{open_for}, hours unknown"


def _came_back(history: UnitHistory) -> Iterator[RenderableType]:
    back = history.came_back
    if not back:
        return
    yield from heading(f"came back after it was good ({len(back)})")
    grid = margin_grid()
    for one in back:
        spells = [t for t in history.troubles if _alike(t, one)]
        when = "; ".join(_spell(history, t) for t in spells)
        grid.add_row(
            f"{one.spell} times",
            Text.assemble((name(one), "bold"), f": {plain(one.said.condition)} ({when})"),
        )
    yield grid


def _alike(one: Trouble, other: Trouble) -> bool:
    same = (one.said.line, one.said.part, one.check, one.said.side)
    return same == (other.said.line, other.said.part, other.check, other.said.side)


def _spell(history: UnitHistory, one: Trouble) -> str:
    start = day(history.walks[one.opened].day)
    return f"since {start}" if one.closed is None else f"{start} to {day(history.walks[one.closed].day)}"


def _trends(history: UnitHistory) -> Iterator[RenderableType]:
    if not history.trends:
        return
    from saycheck.history.sketch import sketch

    yield from heading(f"measured before ({len(history.trends)})")
    for place, series in enumerate(history.trends):
        if place:
            yield Text("")
        yield Text(series_name(series), style="bold")
        yield Text(sketch(series), no_wrap=True)
        found = series.wear(history.hours_per_day, history.walks[-1].hours)
        if found:
            yield Text(found.plainly)


def _due(history: UnitHistory) -> Iterator[RenderableType]:
    items = [item for item in history.due if item.trouble.state == "writeup" or item.day]
    worn = history.forecasts
    if not items and not worn:
        return
    yield from heading(f"due ({len(items) + len(worn)})")
    grid = margin_grid(places=True)
    for one in worn:
        words = Text.assemble((with_side(plain(one.series.line), one.series.side), "bold"), ": at its limit")  # type: ignore[arg-type]
        grid.add_row(short_day(one.day), words, Text("wear", style="dim"))
    for item in items:
        words = Text.assemble((name(item.trouble), "bold"), f": {plain(item.trouble.said.condition)}")
        grid.add_row(short_day(item.day) if item.day else "no day", words, Text(item.why, style="dim"))
    yield grid


def _walks(history: UnitHistory) -> Iterator[RenderableType]:
    shown = history.walks[::-1][:WALKS_SHOWN]
    more = len(history.walks) - len(shown)
    yield from heading(f"walks ({len(history.walks)})")
    grid = margin_grid(places=True)
    for walk in shown:
        states = [one.state for one in {(s.line, s.side, s.condition): s for s in walk.said}.values()]
        counts = f"{states.count('writeup')} to write up, {states.count('watch')} to watch"
        grid.add_row(
            short_day(walk.day),
            Text(f"{hours_read(walk.hours)}: {counts}"),
            Text(plain(walk.folder), style="dim"),
        )
    yield grid
    if more:
        yield Text(f"and {more:,} earlier")
