"""The terminal while listening: to be read at two metres, with what matters in big letters."""

from collections.abc import Iterator
from textwrap import wrap

from rich.console import Console, Group, RenderableType
from rich.text import Text

from saycheck.live.letters import big, fitting, wrapped
from saycheck.live.view import View
from saycheck.reporting.wording import clock, plain

WIDEST = 100

NARROW, LOW = 80, 24
"""Columns and rows for which letters are made; in a terminal twice as large they are twice as large."""

BEHIND_S, SETTLING_S = 5.0, 90.0
"""So far behind may hearing and its corrections be before it is told, seconds; a phrase has up to 25."""

_QUIETEST_DB, _LOUDEST_DB = -70.0, -10.0
_STYLES = {"writeup": "bold magenta", "watch": "magenta", "hidden": "blue", "later": "blue"}


def page(view: View, console: Console) -> RenderableType:
    """Everything, as lines that fit the width of the terminal; 24 rows are enough."""
    times = max(min(console.width // NARROW, console.height // LOW), 1)
    width = min(console.width, WIDEST * times)
    return Group(
        *[line for line, _ in zip(_lines(view, width, times), range(console.height - 1), strict=False)]
    )


def _lines(view: View, width: int, times: int) -> Iterator[RenderableType]:
    yield _line(_head(view), width, "dim")
    yield from _big(view.zone or "walk up and talk", width, "", times)
    if view.answer_is_new:
        yield from _answer(view, width, times)
    elif view.trouble:
        for row in wrapped(plain(view.trouble.split(":")[0]), width // times)[:2]:
            yield from _big(row, width, "reverse", times)
        for line in wrap(plain(view.trouble), width)[:2]:  # its end says what to do
            yield _line(line, width, "bold")
    elif view.part:
        yield from _big(view.part, width, "bold", times)
        yield from _big(view.said, width, _STYLES.get(view.state, ""), times)
    else:
        yield _line("nothing found yet", width, "")
    yield _line(_heard(view), width, "italic")
    yield _line(view.corrected, width, "")
    yield from _level(view, width)
    yield _line(_signal(view), width, "")
    if not view.answer_is_new:
        yield from _open(view, width, times)
        yield _line(view.answer, width, "bold")
    for notice in reversed(view.notices):
        yield _line(notice, width, "")


def _answer(view: View, width: int, times: int) -> Iterator[Text]:
    """What was just answered: the parts that it names one below the other, else as much as three rows hold."""
    for part in view.answer_parts:
        yield from _big(part, width, "bold", times)
    rows = [] if view.answer_parts else wrapped(plain(view.answer), width // times)
    for row in rows[:3]:
        yield from _big(row, width, "bold", times)
    for line in wrap(plain(view.answer), width):
        yield _line(line, width, "bold")


def _heard(view: View) -> str:
    if view.draft:
        return f"hearing: {view.draft} …"
    return f"heard: “{view.quote}”" if view.quote else ""


def _head(view: View) -> str:
    return f"{view.unit}   {clock(view.recorded_s)}   {_state(view)}   {view.device}"


def _state(view: View) -> str:
    if view.ending:
        return f"finishing, heard up to {clock(view.heard_s)}"
    if not view.ready:
        return "the ears are loading, sound is kept already"
    state = "PAUSED, sound is kept" if view.paused else "listening"
    if view.behind_s > BEHIND_S:
        return f"{state}, hearing is {view.behind_s:.0f} s behind, nothing is lost"
    if view.settling_s > SETTLING_S:
        return f"{state}, corrections come {view.settling_s / 60:.0f} min late"
    return state


def _open(view: View, width: int, times: int) -> Iterator[Text]:
    """What is open where the walker stands, the first of it big, and how much in all."""
    here = view.open_here
    if here:
        yield from _big(f"open: {here[0]}", width, "", times)
    more = f"also here: {', '.join(here[1:])}" if here[1:] else "" if here else "nothing open here"
    yield _line(f"{view.open_in_all} open in all; {more}" if view.zone else "", width, "bold")


def _level(view: View, width: int) -> Iterator[Text]:
    """The level of the sound as a bar of two rows, with a mark where the noise is."""
    room = max(width - 10, 10)
    share = (view.level_db - _QUIETEST_DB) / (_LOUDEST_DB - _QUIETEST_DB)
    filled = round(min(max(share, 0.0), 1.0) * room)
    bar = ["█" if place < filled else "·" for place in range(room)]
    if view.noise_db is not None:
        share = (view.noise_db - _QUIETEST_DB) / (_LOUDEST_DB - _QUIETEST_DB)
        bar[min(max(round(share * room), 0), room - 1)] = "│"
    name, style = ("voice  ", "bold") if view.speaking else ("sound  ", "")
    yield Text(name + "".join(bar), style=style)
    yield Text(" " * len(name) + "".join(bar), style=style)


def _signal(view: View) -> str:
    if view.over_noise_db is None:
        return "│ marks the noise; say something"
    return f"you are {view.over_noise_db:.0f} dB over the noise (│); 10 and more is good"


def _big(text: str, width: int, style: str, times: int) -> Iterator[Text]:
    before, both, name = text.partition("left and right ")
    short = f"{before}{name}, both" if both else text
    for row in big(fitting(plain(short), width // times), width, times):
        yield Text(row.rstrip(), style=style, no_wrap=True)


def _line(text: str, width: int, style: str) -> Text:
    line = Text(plain(text), style=style, no_wrap=True, overflow="ellipsis")
    line.truncate(width, overflow="ellipsis")
    return line
