"""Amounts as a person types them: "17", "17±0.5", "17 +- 0.5 mm", "50 psi", "1/2 in".

A number with an optional half width and an optional unit; where a unit stands, it is turned into the one
that the sum wants. Numbers are written with a point; a comma parts thousands.
"""

import re

from saycheck.errors import SumError
from saycheck.sums.reading import Reading

NUMBER = r"[-−+]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d+)?"
AMOUNT = re.compile(
    rf"\s*(?P<value>{NUMBER})(?:\s*/\s*(?P<below>\d+))?\s*(?:(?:±|\+/?-)\s*(?P<wide>{NUMBER}))?\s*(?P<unit>[^\d\s±,.].*?)?\s*"
)


def amount_of(text: str, unit: str = "") -> Reading:
    """The reading that a text gives, in ``unit``; a bare number is taken to be in it.

    Raises :class:`SumError` for what is no number, and for a unit of another kind.
    """
    value, there = measured(text)
    if not there or there == unit:
        return value
    if not unit:
        raise SumError(f"'{text}' has a unit where a bare number is wanted; leave '{there}' out")
    from saycheck.sums.conversions import convert

    return convert(value, there, unit).result


def measured(text: str) -> tuple[Reading, str]:
    """The reading that a text gives as it stands, and its unit, empty where it has none."""
    found = AMOUNT.fullmatch(text)
    if found is None or not re.search(r"\d", found["value"]):
        raise SumError(f"'{text}' is no amount; write it as 17, 17±0.5 or 17±0.5mm")
    value, wide = _number(found["value"]), _number(found["wide"] or "0")
    if found["below"]:
        if not int(found["below"]):
            raise SumError(f"'{text}' divides by nothing; write the number out")
        value /= int(found["below"])
    return Reading(value, wide), found["unit"] or ""


def _number(text: str) -> float:
    try:
        return float(text.replace(",", "").replace("−", "-"))
    except ValueError as error:
        raise SumError(f"'{text}' is no number; write it as 17 or 17.5") from error
