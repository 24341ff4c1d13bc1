"""Leak classes I to III: how bad a leak is, and what to do about it.

Class I: wet or discoloured, no drops form. Class II: drops form and hang. Class III: drops fall, or worse.
Fuel that leaks is reported at once whatever its class. Range: liquids; a hiss of air or gas has no class.
Source: US Army operator manuals TM 5-3895-383-24 (paragraph 1-10), TM 10-3930-671-10 (3-3),
TM 5-3895-360-13 (3-6) and TM 5-2330-325-13&P (WP 0032), as restated on pages that were read. They differ on
class III: one lets a truck work on while its level stays between the marks, one counts any class III as not
ready for work; the stricter is what this says. The words for each class are common practice, no source.
"""

import re
from dataclasses import dataclass
from typing import Literal

from saycheck.errors import SumError

Class = Literal["I", "II", "III"]
Level = Literal["in range", "below the mark", "not looked at"]
LEVELS: tuple[Level, ...] = ("in range", "below the mark", "not looked at")

MEANING: dict[Class, str] = {
    "I": "wet or discoloured, but no drops form",
    "II": "drops form but do not fall",
    "III": "drops form and fall",
}
# The stronger class stands first: a part that weeps and drips is class III.
WORDS: tuple[tuple[Class, str], ...] = (
    (
        "III",
        r"drip\w*|dribbl\w*|pour\w*|spray\w*|squirt\w*|stream\w*|puddl\w*|gush\w*|pissing|soak\w*|losing (?!air)\w+",
    ),
    (
        "III",
        r"(?:running|runs|coming|comes) (?:down|out|off)|running oil|(?:throwing|pushing) oil|covered in",
    ),
    (
        "III",
        r"drops? (?:that )?(?:are |is )?fall\w*|falling drops?|on the (?:ground|floor)|drops? every|drops? a minute",
    ),
    (
        "II",
        r"drops? (?:that )?(?:are |is |just )?(?:form\w*|hang\w*|build\w*)|hanging drops?|forming drops?|a drop|beads?",
    ),
    ("I", r"weep\w*|seep\w*|sweat\w*|damp\w*|moist|mist\w*|film|wet\w*|stain\w*|greasy|oily|discolou?r\w*"),
)
STREAM = r"pour\w*|spray\w*|squirt\w*|stream\w*|gush\w*|pissing"
DENIED = r"(?:no|not|never|nothing|without|isn't|doesn't|don't|aren't|ain't)\s+(?:\w+\s+){0,2}"
FUELS = frozenset(["fuel", "diesel", "petrol", "gasoline", "gas", "lpg", "kerosene"])
CAUTION = (
    "Never feel for a leak by hand: a jet under pressure goes through gloves and skin, and that is an emergency "
    "even where it looks like a pinprick. Stop the engine, relieve the pressure, use a piece of card."
)


@dataclass(frozen=True)
class Leak:
    """The class of a leak, what it means and what to do."""

    leak_class: Class
    fluid: str
    level: Level
    stream: bool = False
    source: str = "US Army TM 5-3895-383-24"
    caution: str = CAUTION

    @property
    def report_at_once(self) -> bool:
        """Whether it is reported before the machine does anything else."""
        return self.leak_class == "III" or self.is_fuel or self.level == "below the mark"

    @property
    def is_fuel(self) -> bool:
        """Whether what leaks can burn as fuel does."""
        return bool(FUELS & set(self.fluid.lower().split()))

    @property
    def to_do(self) -> str:
        """What to do, in words."""
        if self.stream:
            return "shut it down now and report it"
        if self.level == "below the mark":
            return "do not run it until it is repaired and filled"
        if self.is_fuel:
            return "report it at once, fuel of any class, and keep flames and sparks away"
        if self.leak_class == "III":
            return "report it at once; it does not go to work until the person in charge has decided"
        return "it may work on; watch the level and check it more often than usual"

    @property
    def plainly(self) -> str:
        """One sentence for the foreman."""
        fluid = f" of {self.fluid}" if self.fluid else ""
        return f"Class {self.leak_class} leak{fluid} ({MEANING[self.leak_class]}): {self.to_do}."


def leak(leak_class: Class, *, fluid: str = "", level: Level = "not looked at", stream: bool = False) -> Leak:
    """What a leak of a class means; ``fluid`` in the trade's words ("fuel", "hydraulic oil")."""
    if leak_class not in MEANING:
        raise SumError(f"there is no leak class '{leak_class}'; it is I, II or III")
    if level not in LEVELS:
        raise SumError(f"there is no fluid level '{level}'; it is one of: {', '.join(LEVELS)}")
    return Leak(leak_class, fluid.strip(), level, stream and leak_class == "III")


def leak_in_words(words: str, *, fluid: str = "", level: Level = "not looked at") -> Leak | None:
    """The leak that words tell of, or None where they do not say whether drops form or fall ("leaking").

    What is denied ("not dripping") counts for nothing. None is a question, not a clean bill.
    """
    told = re.sub(DENIED + r"\w+", " ", words.lower().replace("’", "'"))
    for leak_class, pattern in WORDS:
        if re.search(rf"\b(?:{pattern})\b", told):
            return leak(
                leak_class, fluid=fluid, level=level, stream=bool(re.search(rf"\b(?:{STREAM})\b", told))
            )
    return None
