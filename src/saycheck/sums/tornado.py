"""The tornado plot of now against later: which number moves the verdict most.

One bar a number, the longest on top, from what waiting costs more (right) or less (left) than doing it now
with that number at its low end to the same at its high end. Bars of numbers given without a width stand for
±25 % and say so. As lines of text for a terminal, and as a picture for a page (matplotlib, extra ``plots``).
"""

import io
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


def sketch(result: Waiting) -> str:
    """The plot as lines of text, at most 80 columns wide."""
    rows = result.rows[:MOST_ROWS]
    if not rows:
        return "No number moves the verdict."
    ends = [end for row in rows for end in (row.at_low, row.at_high)]
    least, most = min(*ends, 0.0), max(*ends, 0.0)
    scale = (BAR - 1) / (most - least)
    zero = round((0 - least) * scale)
    wide = max(len(_name(row)) for row in rows)
    lines = [f"{_name(row):<{wide}} {_bar(row, least, scale, zero)}" for row in rows]
    left, right = number(least, 2), number(most, 2)
    under = f"{' ' * wide} {left}{right:>{BAR - len(left)}}"
    told = f"waiting costs less than now │ more ({result.money or 'money'}); * taken as ±25 %"
    return "\n".join([*lines, under, told])


def _name(row: TornadoRow) -> str:
    return f"{row.name}{' *' if row.guessed else ''}"


def _bar(row: TornadoRow, least: float, scale: float, zero: int) -> str:
    first, last = sorted(round((end - least) * scale) for end in (row.at_low, row.at_high))
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
    rows = list(reversed(result.rows[:MOST_ROWS]))
    if not rows:
        raise SumError("no number moves the verdict, so there is nothing to draw; give half widths")
    try:
        from matplotlib import rc_context
        from matplotlib.figure import Figure
    except ImportError as error:
        raise SumError(
            'pictures need the package matplotlib; pip install "saycheck[plots]" brings it'
        ) from error
    ends = [end for row in rows for end in (row.at_low, row.at_high)]
    least, most = min(*ends, 0.0), max(*ends, 0.0)
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


def _draw_row(axes: Any, at: int, row: TornadoRow) -> None:
    """A bar with what the number is at either end of it."""
    ends = sorted(((row.at_low, row.low_input), (row.at_high, row.high_input)))
    colour = "white" if row.guessed else "0.6"
    left, right = ends[0][0], ends[1][0]
    axes.barh(at, right - left, left=left, height=0.6, color=colour, edgecolor="black", linewidth=0.7)
    for (place, value), side, shift in zip(ends, ("right", "left"), (-3, 3), strict=True):
        shown = percent(value) if row.name == CHANCE else number(value, 3)
        axes.annotate(
            shown, (place, at), (shift, 0), textcoords="offset points", ha=side, va="center", fontsize=8,
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.6}, zorder=4,
        )  # fmt: skip


def _axis(result: Waiting) -> str:
    unit = f" ({result.money})" if result.money else ""
    guessed = "; white bars: taken as ±25 %" if any(row.guessed for row in result.rows[:MOST_ROWS]) else ""
    return f"what waiting costs more{unit}{guessed}; dotted: as given"
