"""The terminal while listening: to be read at two metres, with what matters in big letters."""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.text import Text

from saycheck.live.letters import big, fitting
from saycheck.live.view import View
from saycheck.reporting.wording import clock, plain

WIDEST = 100

BEHIND_S, SETTLING_S = 5.0, 90.0
"""So far behind may hearing and its corrections be before it is told, seconds; a phrase has up to 25."""

_QUIETEST_DB, _LOUDEST_DB = -70.0, -10.0
_STYLES = {"writeup": "bold magenta", "watch": "magenta", "hidden": "blue", "later": "blue"}


def page(view: View, console: Console) -> RenderableType:
    """Everything, as lines that fit the width of the terminal; 24 rows are enough."""
    width = min(console.width, WIDEST)
    return Group(*_lines(view, width))


def _lines(view: View, width: int) -> Iterator[RenderableType]:
    yield _line(_head(view), width, "dim")
    yield from _big(view.zone or "walk up and talk", width, "")
    yield Text("")
    if view.trouble:
        yield from _big(fitting(view.trouble.split(":")[0], width), width, "reverse")
        yield _line(view.trouble, width, "bold")
    elif view.part:
        yield from _big(view.part, width, "bold")
        yield from _big(view.said, width, _STYLES.get(view.state, ""))
    else:
        yield _line("nothing found yet", width, "")
    yield _line(f"heard: “{view.quote}”" if view.quote else "", width, "italic")
    yield _line(view.corrected, width, "")
    yield _level(view, width)
    yield _line(_signal(view), width, "")
    yield Text("")
    yield _line(_open(view), width, "bold")
    if view.answer:
        yield Text(plain(view.answer), style="bold", overflow="fold")
    for notice in view.notices[-3:]:
        yield _line(notice, width, "")


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


def _open(view: View) -> str:
    if not view.lines:
        return ""
    here = f"open here: {', '.join(view.open_here)}" if view.open_here else "nothing open here"
    return f"{here}   (open in all: {view.open_in_all} of {view.lines})"


def _level(view: View, width: int) -> Text:
    """The level of the sound as a bar, with a mark where the noise is."""
    room = max(width - 10, 10)
    share = (view.level_db - _QUIETEST_DB) / (_LOUDEST_DB - _QUIETEST_DB)
    filled = round(min(max(share, 0.0), 1.0) * room)
    bar = ["█" if place < filled else "·" for place in range(room)]
    if view.noise_db is not None:
        share = (view.noise_db - _QUIETEST_DB) / (_LOUDEST_DB - _QUIETEST_DB)
        bar[min(max(round(share * room), 0), room - 1)] = "│"
    return Text(
        ("voice  " if view.speaking else "sound  ") + "".join(bar), style="bold" if view.speaking else ""
    )


def _signal(view: View) -> str:
    if view.over_noise_db is None:
        return "│ marks the noise; say something"
    return f"you are {view.over_noise_db:.0f} dB over the noise (│); 10 and more is good"


def _big(text: str, width: int, style: str) -> Iterator[Text]:
    for row in big(fitting(plain(text), width), width):
        yield Text(row.rstrip(), style=style, no_wrap=True)


def _line(text: str, width: int, style: str) -> Text:
    line = Text(plain(text), style=style, no_wrap=True, overflow="ellipsis")
    line.truncate(width, overflow="ellipsis")
    return line
