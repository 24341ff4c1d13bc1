"""A small plot of a measurement over time, as SVG in one colour, with the same said in words."""

from saycheck.reporting.wording import number
from saycheck.reporting.writeup.document import Trend
from saycheck.reporting.writeup.given import Point, Series

WIDTH, HEIGHT = 132.0, 34.0
"""In points; the plot stands beside text of ten points."""

_LEFT, _RIGHT, _TOP, _BOTTOM = 3.0, 3.0, 4.0, 4.0
_INK = "#1c1b19"


def trend(series: Series, part: str) -> Trend | None:
    """The plot of two measurements or more; None where there are fewer, since one point is no trend."""
    points = sorted(series.points, key=lambda one: one.at)
    if len(points) < 2:
        return None
    first, last = points[0], points[-1]
    words = (
        f"{part}: {_said(first, series)} at {number(first.at)} {series.axis}, "
        f"{_said(last, series)} at {number(last.at)} {series.axis}, {len(points)} measurements"
    )
    return Trend(svg=_svg(points, series), words=f"{words}; {series.saying}" if series.saying else words)


def _said(point: Point, series: Series) -> str:
    return f"{number(point.value)} {series.unit}"


def _svg(points: list[Point], series: Series) -> str:
    limits = [one for one in (series.at_least, series.at_most) if one is not None]
    ends = [end for one in points for end in (one.value - one.plus_minus, one.value + one.plus_minus)]
    low, high = min(ends + limits), max(ends + limits)
    start, width = points[0].at, (points[-1].at - points[0].at) or 1.0
    tall = (high - low) or 1.0

    def x(at: float) -> float:
        return round(_LEFT + (at - start) / width * (WIDTH - _LEFT - _RIGHT), 2)

    def y(value: float) -> float:
        return round(HEIGHT - _BOTTOM - (value - low) / tall * (HEIGHT - _TOP - _BOTTOM), 2)

    line = " ".join(f"{x(one.at)},{y(one.value)}" for one in points)
    bars = "".join(
        f'<line x1="{x(one.at)}" y1="{y(one.value - one.plus_minus)}" '
        f'x2="{x(one.at)}" y2="{y(one.value + one.plus_minus)}" stroke="{_INK}" stroke-width="0.5"/>'
        for one in points
        if one.plus_minus
    )
    dots = "".join(f'<circle cx="{x(one.at)}" cy="{y(one.value)}" r="1.6" fill="{_INK}"/>' for one in points)
    marks = "".join(
        f'<line x1="0" y1="{y(one)}" x2="{WIDTH}" y2="{y(one)}" stroke="{_INK}" stroke-width="0.7" '
        'stroke-dasharray="3 2"/>'
        for one in limits
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:g}pt" height="{HEIGHT:g}pt" '
        f'viewBox="0 0 {WIDTH:g} {HEIGHT:g}">{marks}'
        f'<polyline points="{line}" fill="none" stroke="{_INK}" stroke-width="1"/>{bars}{dots}</svg>'
    )
