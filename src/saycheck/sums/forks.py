"""Wear of a lift truck's fork arms in percent of the new thickness, and how far a pair is out.

Formulas: wear = 100 · (1 − thickness / new thickness), measured at the heel or the thinnest place;
tips = 100 · height difference of the tips / blade length. Units: mm in, percent out. Limits: wear 10 %
(thickness 90 % of new), tips 3 % of the blade length, angle 3° off the original. A blade bends as its
thickness squared, so 10 % of wear leaves 81 % of the strength (section modulus of a rectangle).
Range: thickness 5 to 300 mm. Source: ISO 5057:1993 and ANSI/ITSDF B56.1, 6.2.8, limits as restated on pages
that were read, not the clauses themselves.
"""

from dataclasses import dataclass

from saycheck.errors import SumError
from saycheck.sums.limits import LimitCheck, Verdict, check_limit
from saycheck.sums.reading import Amount, Reading, Span, require
from saycheck.sums.wording import number, percent, said, spread

SOURCE = "ISO 5057:1993"
WEAR_LIMIT_PERCENT = 10.0
TIPS_LIMIT_PERCENT = 3.0
ANGLE_LIMIT_DEG = 3.0
CAUTION = (
    "Take the truck out of work when a fork is beyond its limit; forks go in pairs, and only their maker or a "
    "competent shop straightens or welds them. Never stand under raised forks to measure."
)
WORDS: dict[Verdict, str] = {
    "within": "within the limit",
    "beyond": "beyond the limit: take the pair out of use",
    "too close to call": "too close to call: measure again, finer",
}


@dataclass(frozen=True)
class ForkWear:
    """Wear of a fork arm in percent, held against the limit; thicknesses in mm."""

    thickness_mm: Reading
    new_mm: Reading
    wear_percent: Span
    check: LimitCheck
    strength_left: float
    source: str = SOURCE
    caution: str = CAUTION

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        return (
            f"The fork is worn {spread(self.wear_percent, '%', 2)} ({said(self.thickness_mm, 'mm')} of "
            f"{said(self.new_mm, 'mm')} new, about {percent(self.strength_left)} of its bending strength left), "
            f"against a limit of {WEAR_LIMIT_PERCENT:g} % ({self.source}): {WORDS[self.check.verdict]}."
        )


@dataclass(frozen=True)
class ForkTips:
    """Height difference of the two tips in percent of the blade length, held against the limit."""

    difference_mm: Reading
    blade_mm: float
    tips_percent: Span
    check: LimitCheck
    source: str = SOURCE
    caution: str = CAUTION

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        return (
            f"The tips differ by {said(self.difference_mm, 'mm')}, {spread(self.tips_percent, '%', 2)} of the "
            f"{number(self.blade_mm, 4)} mm blade, against a limit of {TIPS_LIMIT_PERCENT:g} % ({self.source}): "
            f"{WORDS[self.check.verdict]}."
        )


def fork_wear(thickness_mm: Amount, new_mm: Amount) -> ForkWear:
    """Wear of a fork arm from its thickness now and when new, both in mm at the same place.

    Raises :class:`SumError` where a thickness is out of range or the fork is thicker than new by more than
    the readings leave open.
    """
    now = require("a fork thickness", thickness_mm, 1, 300, "mm")
    new = require(
        "a new fork thickness", new_mm, 5, 300, "mm", "look it up on the fork's shank or in the manual"
    )
    if now.low > new.high:
        raise SumError(
            f"a fork of {said(now, 'mm')} cannot have been {said(new, 'mm')} when new; measure both at the same "
            "place, the shank above the heel for the new thickness"
        )
    worn = Span(
        100 * (1 - now.value / new.value), 100 * (1 - now.high / new.low), 100 * (1 - now.low / new.high)
    )
    return ForkWear(now, new, worn, _within(worn, WEAR_LIMIT_PERCENT), (now.value / new.value) ** 2)


def fork_tips(difference_mm: Amount, blade_mm: float) -> ForkTips:
    """How far the tips of a pair differ in height, from the difference and the blade length in mm."""
    apart = require("a tip difference", difference_mm, 0, 1000, "mm")
    length = require("a blade length", blade_mm, 300, 4000, "mm").value
    share = Span(*(100 * one / length for one in (apart.value, apart.low, apart.high)))
    return ForkTips(apart, length, share, _within(share, TIPS_LIMIT_PERCENT))


def fork_angle(off_deg: Amount) -> LimitCheck:
    """How far a fork's angle is off the original, in degrees, against the limit."""
    off = require("an angle off the original", off_deg, 0, 45, "°")
    return check_limit(off, at_most=ANGLE_LIMIT_DEG, unit="°", source=SOURCE)


def _within(span: Span, limit_percent: float) -> LimitCheck:
    return check_limit(Reading.between(span.low, span.high), at_most=limit_percent, unit="%", source=SOURCE)
