"""A small tornado plot: which number moves the verdict on waiting most, as SVG and in words."""

from xml.sax.saxutils import escape

from saycheck.reporting.writeup.document import Plot
from saycheck.sums.tornado import Bar, bars_of, ends_of
from saycheck.sums.waiting import GUESSED, Waiting
from saycheck.sums.wording import amount, percent

MOST = 4
"""Rows shown, the longest bars."""

WIDTH, ROW, TOP = 264.0, 13.0, 16.0
_NAMES = 108.0
_INK, _SOFT, _BAR, _GUESSED = "#1c1b19", "#5d5a55", "#a9a59d", "#ffffff"
_FONT = 'font-family="Libertinus Serif, Palatino, Georgia, serif" font-size="8.5"'


def tornado(result: Waiting) -> Plot | None:
    """The plot of the numbers that matter most; None where none of them moves anything."""
    rows = bars_of(result, MOST)
    if not rows:
        return None
    guessed = (
        f"; a number given without a width counts ± {percent(GUESSED)}, its bar is white"
        if any(r.guessed for r in rows)
        else ""
    )
    named = ", ".join(
        f"{row.name} ({amount(row.low, '', 3)} to {amount(row.high, result.money, 3)})" for row in rows
    )
    words = f"What waiting costs more than doing it now, and what moves that most: {named}{guessed}."
    return Plot(svg=_svg(rows), words=words, caption=words)


def _svg(rows: list[Bar]) -> str:
    low, high = ends_of(rows)
    height = TOP + ROW * len(rows)

    def x(value: float) -> float:
        return round(_NAMES + 4 + (value - low) / ((high - low) or 1.0) * (WIDTH - _NAMES - 8), 2)

    zero = x(0)
    left = f'<text x="{zero - 3}" y="8" text-anchor="end" fill="{_SOFT}" {_FONT}>waiting is cheaper</text>'
    right = f'<text x="{zero + 3}" y="8" fill="{_SOFT}" {_FONT}>now is cheaper</text>'
    room = 74
    heads = (left if zero - room > 0 else "") + (right if zero + room < WIDTH else "")
    bars = "".join(_row(row, TOP + ROW * place, x(row.low), x(row.high)) for place, row in enumerate(rows))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:g}pt" height="{height:g}pt" '
        f'viewBox="0 0 {WIDTH:g} {height:g}">{heads}{bars}'
        f'<line x1="{zero}" y1="{TOP - 3}" x2="{zero}" y2="{height:g}" stroke="{_INK}" stroke-width="0.8"/></svg>'
    )


def _row(row: Bar, y: float, start: float, end: float) -> str:
    wide, fill = max(end - start, 0.8), _GUESSED if row.guessed else _BAR
    return (
        f'<text x="{_NAMES:g}" y="{y + 7.5:g}" text-anchor="end" fill="{_INK}" {_FONT}>{escape(row.name)}</text>'
        f'<rect x="{start:g}" y="{y:g}" width="{wide:g}" height="{ROW - 4:g}" fill="{fill}" '
        f'stroke="{_INK}" stroke-width="0.6"/>'
    )
