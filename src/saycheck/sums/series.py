"""The readings of one part along the hours of its unit, and where a new series begins.

A replaced part or a reversed edge starts a new series: what was measured before says nothing of what is on
the machine now. Units: hours of the unit's meter, readings in one unit.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from saycheck.errors import SumError
from saycheck.sums.reading import Reading
from saycheck.sums.wording import amount, said

JUMP_SHARE = 0.5
"""A step back by more than this share of all that the series has moved is no wear; common practice, no source."""
LEAST_JUMP = 0.05
"""Steps back by less than this share of the reading are left to chance; common practice, no source."""


@dataclass(frozen=True)
class WearPoint:
    """One reading at an hour-meter reading; ``renewed`` says why it is the first of a new series.

    ``renewed`` is empty, "part replaced", "edge reversed" or other words for the same.
    """

    hours: float
    value: Reading
    on: date | None = None
    renewed: str = ""


def latest_series(points: Sequence[WearPoint]) -> list[WearPoint]:
    """The readings since the part was last renewed, in the order of hours.

    Raises :class:`SumError` for hours below nothing or no number.
    """
    for point in points:
        if not (math.isfinite(point.hours) and point.hours >= 0):
            raise SumError(f"an hour-meter reading of {point.hours:g} cannot be; read the meter again")
    ordered = sorted(points, key=lambda point: (point.hours, point.on or date.min))
    starts = [at for at, point in enumerate(ordered) if point.renewed]
    return ordered[starts[-1] :] if starts else ordered


def contradiction(points: Sequence[WearPoint], toward: int, unit: str) -> str:
    """Why a series cannot be wear of one part, as a question to the owner; empty where it can.

    ``toward`` is −1 where wear makes the reading fall, 1 where it makes it rise.
    """
    dated = [point for point in points if point.on]
    for before, after in pairwise(dated):
        if before.on and after.on and before.on > after.on:
            return (
                f"{amount(after.hours, 'h', 6)} on {after.on.isoformat()} lie before {amount(before.hours, 'h', 6)} "
                f"on {before.on.isoformat()}: was the hour meter replaced or misread?"
            )
    values = [point.value.value for point in points]
    moved = max(values) - min(values) if values else 0.0
    for before, after in pairwise(points):
        back = -toward * (after.value.value - before.value.value)
        open_to = before.value.plus_minus + after.value.plus_minus
        least = max(JUMP_SHARE * moved, LEAST_JUMP * abs(before.value.value))
        if back > open_to and back > least:
            return (
                f"it went from {said(before.value, unit)} at {amount(before.hours, 'h', 6)} to "
                f"{said(after.value, unit)} at {amount(after.hours, 'h', 6)}, which wear cannot do: was the part "
                "replaced, the edge reversed, or one of them misread?"
            )
    return ""
