"""A small plot of a measurement over time, as SVG in one colour, with the same said in words."""

from xml.sax.saxutils import escape

from saycheck.reporting.wording import number
from saycheck.reporting.writeup.document import Plot
from saycheck.reporting.writeup.given import Point, Series

WIDTH, HEIGHT = 113.0, 64.0
"""In points; as wide as the right column of the page."""

_LEFT, _RIGHT, _TOP, _BOTTOM = 4.0, 4.0, 16.0, 16.0
_INK, _SOFT = "#1c1b19", "#5d5a55"
_FONT = 'font-family="Libertinus Serif, Palatino, Georgia, serif" font-size="8.5"'


def trend(series: Series) -> Plot | None:
    """The plot of two measurements or more; None where there are fewer, since one point is no trend."""
    points = sorted(series.points, key=lambda one: one.at)
    if len(points) < 2:
        return None
    first, last = points[0], points[-1]
    words = (
        f"{_said(first, series)} at {number(first.at)} {series.axis}, {_said(last, series)} at {number(last.at)} "
        f"{series.axis}; {len(points)} measurements."
    )
    caption = series.saying or f"{len(points)} measurements"
    return Plot(svg=_svg(points, series), words=f"{words} {series.saying}".strip(), caption=caption)


def _said(point: Point, series: Series) -> str:
    return f"{number(round(point.value, 4))} {series.unit}"


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
        f'x2="{x(one.at)}" y2="{y(one.value + one.plus_minus)}" stroke="{_SOFT}" stroke-width="2.4"/>'
        for one in points
        if one.plus_minus
    )
    dots = "".join(f'<circle cx="{x(one.at)}" cy="{y(one.value)}" r="2" fill="{_INK}"/>' for one in points)
    marks = "".join(
        f'<line x1="0" y1="{y(one)}" x2="{WIDTH:g}" y2="{y(one)}" stroke="{_INK}" stroke-width="0.7" '
        'stroke-dasharray="3 2"/>'
        for one in limits
    )
    first, last = points[0], points[-1]
    texts = [
        _text(0, 8, "start", _said(first, series)),
        _text(WIDTH, 8, "end", _said(last, series), "bold"),
        _text(0, HEIGHT - 1, "start", f"{number(first.at)} {series.axis}"),
        _text(WIDTH, HEIGHT - 1, "end", f"{number(last.at)} {series.axis}"),
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:g}pt" height="{HEIGHT:g}pt" '
        f'viewBox="0 0 {WIDTH:g} {HEIGHT:g}">{marks}{bars}'
        f'<polyline points="{line}" fill="none" stroke="{_INK}" stroke-width="1"/>{dots}{"".join(texts)}</svg>'
    )


def _text(x: float, y: float, anchor: str, words: str, weight: str = "normal") -> str:
    return (
        f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}" font-weight="{weight}" fill="{_INK}" {_FONT}>'
        f"{escape(words)}</text>"
    )
