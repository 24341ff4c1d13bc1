"""Words that sound like a number: "to", "too" and "for" where "two" or "four" was meant, by what stands around.

No ear can tell them by their sound, and both ears may agree on the wrong one. The trade's language model
weighs the words before and after; where it leaves it open, both are kept.
"""

from collections.abc import Callable, Sequence

from saycheck.hearing.joining import Other
from saycheck.hearing.spoken import plain, spoken
from saycheck.models.hearing import HeardWord

NUMBERS = {"to": "two", "too": "two", "for": "four"}

SURELY = 0.5
"""Decades of probability by which the number must fit better to be taken."""

OPEN = -1.0
"""Decades from which the number is at least kept as another reading."""

UNSURE = 0.7
"""Confidence of a word that is left open."""

Fit = Callable[[tuple[str, ...], str, str], float]
"""log10 of the probability of a word and the one after it: words before, the word, the word after."""


def with_numbers(
    words: Sequence[HeardWord], others: Sequence[Other], fit: Fit, ear: str
) -> tuple[list[HeardWord], list[Other]]:
    """The words with numbers where the model is sure of them; what was not taken is added to the others."""
    taken, kept = list(words), list(others)
    for place, word in enumerate(words):
        heard = plain(word.text)
        number = NUMBERS.get(heard)
        if number is None:
            continue
        before = (
            *("<s>", "<s>"),
            *(said for one in taken[max(0, place - 2) : place] for said in spoken(one.text)),
        )
        following = spoken(words[place + 1].text) if place + 1 < len(words) else []
        after = following[0] if following else "</s>"
        better = fit(before[-2:], number, after) - fit(before[-2:], heard, after)
        if better <= OPEN:
            continue
        sure = min(word.confidence, UNSURE)
        text = word.text.lower().replace(heard, number) if better > SURELY else word.text
        taken[place] = word.model_copy(update={"text": text, "confidence": sure})
        kept.append(Other(place, place + 1, heard if better > SURELY else number, ear, 0.5))
    return taken, sorted(kept, key=lambda one: one.first)
