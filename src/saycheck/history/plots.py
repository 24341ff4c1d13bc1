"""Trends as a picture: one small plot for each series, drawn by matplotlib (extra ``plots``)."""

from collections.abc import Sequence
from typing import IO, Any

from saycheck.errors import HistoryError
from saycheck.history.trends import Point, Series
from saycheck.history.wording import series_name
from saycheck.reporting.wording import plain

KINDS = (".svg", ".png", ".pdf")
WIDE, HEAD, ROW = 6.4, 0.4, 2.2
"""Inches: width of the picture, height of its title and of each plot."""
INK, SOFT = "#1a1a1a", "#8a8a8a"


def draw(series: Sequence[Series], title: str, out: IO[bytes], kind: str) -> None:
    """Draw the series one below the other; ``kind`` is ``svg``, ``png`` or ``pdf``.

    Black on white: readings as dots with what their words leave open, a ring where a new series begins, a
    dashed line for a published limit.

    Raises:
        HistoryError: there is nothing to draw, or matplotlib is not installed.
    """
    if not series:
        raise HistoryError("there is nothing to draw: no part was measured on two walks or more")
    try:
        from matplotlib import rc_context
        from matplotlib.figure import Figure
    except ModuleNotFoundError as error:
        raise HistoryError(
            'pictures need the package matplotlib; pip install "saycheck[plots]" brings it'
        ) from error
    settings: Any = {
        "svg.fonttype": "none",
        "svg.hashsalt": "saycheck",
        "font.family": "sans-serif",
        "font.size": 9,
    }
    with rc_context(settings):
        tall = HEAD + ROW * len(series)
        figure = Figure(figsize=(WIDE, tall))
        figure.suptitle(
            plain(title), x=0.01, y=1 - 0.1 / tall, ha="left", va="top", fontweight="bold", fontsize=10
        )
        # Places in inches, since a layout that is worked out takes as long as the drawing itself.
        figure.subplots_adjust(
            left=0.75 / WIDE,
            right=1 - 0.15 / WIDE,
            top=1 - (HEAD + 0.25) / tall,
            bottom=0.5 / tall,
            hspace=0.75,
        )
        axes = figure.subplots(len(series), 1, squeeze=False)[:, 0]
        for axis, one in zip(axes, series, strict=True):
            _draw(axis, one)
        figure.savefig(out, format=kind, dpi=150, metadata={"Date": None} if kind == "svg" else None)


def _draw(axis: Any, series: Series) -> None:
    points = series.points
    by_hours = all(point.hours is not None for point in points)
    along = [_along(point, by_hours) for point in points]
    for start, end in _runs(points):
        axis.plot(along[start:end], [p.value for p in points[start:end]], color=SOFT, linewidth=1, zorder=1)
    axis.errorbar(
        along, [p.value for p in points], yerr=[p.plus_minus for p in points],
        fmt="o", color=INK, markersize=4, elinewidth=1, capsize=2, zorder=2,
    )  # fmt: skip
    for at, point in zip(along, points, strict=True):
        if point.renewed:
            axis.plot([at], [point.value], marker="o", markersize=10, fillstyle="none", color=INK)
            axis.annotate(
                plain(point.renewed),
                (at, point.value),
                xytext=(8, -3),
                textcoords="offset points",
                fontsize=8,
            )
    low, high = series.limits
    for limit, word in ((low, "at least"), (high, "at most")):
        if limit is not None:
            axis.axhline(limit, color=INK, linestyle="--", linewidth=1)
            axis.annotate(
                f"{word} {limit:.4g} {plain(series.unit)}", (0.01, limit), xycoords=("axes fraction", "data"),
                xytext=(0, 3), textcoords="offset points", fontsize=8,
            )  # fmt: skip
    axis.set_title(series_name(series), loc="left", fontsize=9)
    axis.set_ylabel(plain(series.unit))
    axis.set_xlabel("hour meter, h" if by_hours else "day")
    if by_hours:
        axis.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    for edge in ("top", "right"):
        axis.spines[edge].set_visible(False)
    axis.margins(x=0.04, y=0.2)


def _along(point: Point, by_hours: bool) -> Any:
    from datetime import date

    return point.hours if by_hours else date.fromisoformat(point.day)


def _runs(points: Sequence[Point]) -> list[tuple[int, int]]:
    """Where each series begins and ends: a part that was renewed begins a new one."""
    starts = [0, *(place for place, point in enumerate(points) if point.renewed and place)]
    return list(zip(starts, [*starts[1:], len(points)], strict=True))
