"""The tornado plot of now against later: which number moves the verdict most.

One bar a number, the longest on top, from what waiting costs more (right) or less (left) than doing it now
with that number at its low end to the same at its high end. Bars of numbers given without a width stand for
±25 % and say so. As lines of text for a terminal, and as a picture for a page (matplotlib, extra ``plots``).
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from saycheck.errors import SumError
from saycheck.sums.waiting import NAMES, TornadoRow, Waiting
from saycheck.sums.wording import number, percent

Form = Literal["svg", "png"]
FORMS: dict[str, Form] = {".svg": "svg", ".png": "png"}
MOST_ROWS = 8
CHANCE = NAMES["chance"]
BAR = 34


@dataclass(frozen=True)
class Bar:
    """A bar from ``low`` to ``high`` (money), and in words what its number is at either end."""

    name: str
    low: float
    high: float
    said_low: str
    said_high: str
    guessed: bool


def bars_of(result: Waiting, most: int = MOST_ROWS) -> list[Bar]:
    """The longest bars, the longest first, each with its ends in order."""
    return [_bar_of(row) for row in result.rows[:most]]


def ends_of(bars: Sequence[Bar]) -> tuple[float, float]:
    """Where the plot begins and ends: all bars, and nothing (0) as well."""
    return min(0.0, *(bar.low for bar in bars)), max(0.0, *(bar.high for bar in bars))


def _bar_of(row: TornadoRow) -> Bar:
    (low, at_low), (high, at_high) = sorted(((row.at_low, row.low_input), (row.at_high, row.high_input)))
    said = percent if row.name == CHANCE else number
    return Bar(row.name, low, high, said(at_low), said(at_high), row.guessed)


def sketch(result: Waiting) -> str:
    """The plot as lines of text, at most 80 columns wide."""
    rows = bars_of(result)
    if not rows:
        return "No number moves the verdict."
    least, most = ends_of(rows)
    scale = (BAR - 1) / (most - least)
    zero = round((0 - least) * scale)
    wide = max(len(_name(row)) for row in rows)
    lines = [f"{_name(row):<{wide}} {_cells(row, least, scale, zero)}" for row in rows]
    left, right = number(least, 2), number(most, 2)
    under = f"{' ' * wide} {left}{right:>{BAR - len(left)}}"
    told = f"waiting costs less than now │ more ({result.money or 'money'}); * taken as ±25 %"
    return "\n".join([*lines, under, told])


def _name(row: Bar) -> str:
    return f"{row.name}{' *' if row.guessed else ''}"


def _cells(row: Bar, least: float, scale: float, zero: int) -> str:
    first, last = (round((end - least) * scale) for end in (row.low, row.high))
    cells = ["█" if first <= at <= last else " " for at in range(BAR)]
    if cells[zero] == " ":
        cells[zero] = "│"
    return "".join(cells).rstrip()


def picture_form(file: Path) -> Form:
    """The form of picture that a file name asks for; a :class:`SumError` for any but .svg and .png."""
    if file.suffix.lower() not in FORMS:
        raise SumError(f"'{file}' is no picture that can be drawn; end its name in .svg or .png")
    return FORMS[file.suffix.lower()]


def draw(result: Waiting, form: Form = "svg", title: str = "") -> bytes:
    """The plot as a picture, legible in black and white, the same bytes for the same result.

    Raises :class:`SumError` where matplotlib is not installed or nothing moves the verdict.
    """
    rows = list(reversed(bars_of(result)))
    if not rows:
        raise SumError("no number moves the verdict, so there is nothing to draw; give half widths")
    try:
        from matplotlib import rc_context
        from matplotlib.figure import Figure
    except ImportError as error:
        raise SumError(
            'pictures need the package matplotlib; pip install "saycheck[plots]" brings it'
        ) from error
    least, most = ends_of(rows)
    room = 0.14 * (most - least)
    with rc_context({"svg.hashsalt": "saycheck", "svg.fonttype": "none", "font.size": 9}):
        figure = Figure(figsize=(7, 1.15 + 0.34 * len(rows)), layout="constrained")
        axes = figure.add_subplot()
        axes.axvline(0, color="black", linewidth=0.9, zorder=3)
        axes.axvline(result.difference, color="black", linewidth=0.9, linestyle=":", zorder=3)
        for at, row in enumerate(rows):
            _draw_row(axes, at, row)
        axes.set_yticks(range(len(rows)), [row.name for row in rows])
        axes.set_xlim(least - room, most + room)
        axes.xaxis.set_major_formatter(lambda value, _: number(value, 3))
        axes.set_xlabel(_axis(result))
        for side, words, place in (
            ("right", "waiting is cheaper ", 0),
            ("left", " doing it now is cheaper", 0),
        ):
            axes.annotate(
                words, (place, 1), xycoords=("data", "axes fraction"), ha=side, va="bottom", style="italic"
            )
        axes.spines[["top", "right", "left"]].set_visible(False)
        axes.tick_params(axis="y", length=0)
        if title:
            figure.suptitle(title, x=0.01, ha="left", fontsize=10)
        picture = io.BytesIO()
        figure.savefig(picture, format=form, dpi=200, metadata={"Date": None} if form == "svg" else None)
    return picture.getvalue()


def _draw_row(axes: Any, at: int, row: Bar) -> None:
    """A bar with what the number is at either end of it."""
    colour = "white" if row.guessed else "0.6"
    axes.barh(
        at, row.high - row.low, left=row.low, height=0.6, color=colour, edgecolor="black", linewidth=0.7
    )
    for place, shown, side, shift in (
        (row.low, row.said_low, "right", -3),
        (row.high, row.said_high, "left", 3),
    ):
        axes.annotate(
            shown, (place, at), (shift, 0), textcoords="offset points", ha=side, va="center", fontsize=8,
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.6}, zorder=4,
        )  # fmt: skip


def _axis(result: Waiting) -> str:
    unit = f" ({result.money})" if result.money else ""
    guessed = "; white bars: taken as ±25 %" if any(row.guessed for row in result.rows[:MOST_ROWS]) else ""
    return f"what waiting costs more{unit}{guessed}; dotted: as given"
