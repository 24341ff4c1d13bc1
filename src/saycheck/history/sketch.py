"""A trend as a few lines of text: readings over hours, for the terminal."""

from saycheck.history.trends import Point, Series
from saycheck.reporting.wording import number

WIDTH, HEIGHT = 48, 6


def sketch(series: Series) -> str:
    """The readings as a plot of characters, the hour meter along it (days where it was not read).

    ``o`` is a reading, ``+`` the first of a new series (replaced, reversed), ``-`` the published limit.
    """
    points = list(series.points)
    hours = all(point.hours is not None for point in points)
    along = [_along(point, hours) for point in points]
    limit = next((one for one in series.limits if one is not None), None)
    values = [point.value for point in points] + ([limit] if limit is not None else [])
    low, high = min(values), max(values)
    rows = [[" "] * WIDTH for _ in range(HEIGHT)]
    if limit is not None:
        rows[_place(limit, low, high, HEIGHT)] = ["-"] * WIDTH
    for point, at in zip(points, along, strict=True):
        column = _place(at, min(along), max(along), WIDTH)
        rows[_place(point.value, low, high, HEIGHT)][column] = "+" if point.renewed else "o"
    labels = [""] * HEIGHT
    if low == high:
        labels[_place(low, low, high, HEIGHT)] = _short(low)
    else:
        labels[0], labels[-1] = _short(low), _short(high)
    if limit is not None:
        labels[_place(limit, low, high, HEIGHT)] = f"limit {_short(limit)}"
    wide = max(len(label) for label in labels)
    lines = [f"{label:>{wide}} │{''.join(row).rstrip()}" for label, row in zip(labels, rows, strict=True)]
    ends = (_end(points[0], hours), _end(points[-1], hours))
    axis = f"{' ' * wide} └{'─' * WIDTH}"
    under = f"{' ' * wide}  {ends[0]}{ends[1]:>{WIDTH - len(ends[0])}}"
    return "\n".join([*reversed(lines), axis, under])


def _along(point: Point, hours: bool) -> float:
    if hours:
        return point.hours or 0.0
    from datetime import date

    return float(date.fromisoformat(point.day).toordinal())


def _place(value: float, low: float, high: float, size: int) -> int:
    return round((value - low) / (high - low) * (size - 1)) if high > low else size // 2


def _short(value: float) -> str:
    return number(float(f"{value:.3g}"))


def _end(point: Point, hours: bool) -> str:
    return f"{number(round(point.hours or 0.0))} h" if hours else point.day
