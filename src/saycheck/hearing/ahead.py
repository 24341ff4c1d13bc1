"""What the beginning of a word promises: letters that begin words of the trade more than words in general.

A search that rewards only whole words loses many on the way: "gl" must stay in the beam before "gland" can
gain anything. So the letters so far are worth log10 of the share of trade talk that goes to words with
that beginning over their share of general talk, again never below nought; the whole word's own gain takes
its place once the word is written. (The best gain of any word with that beginning would promise too much:
measured, it does harm. Word error on five narrations in five voices: 0.171 without, 0.155 with; 0.208 with
the best gain.)
"""

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence

from saycheck.hearing.bias import MOST, WordModel

_LEAST = 1e-7
"""No beginning is rarer than this in general talk."""


def promises(
    trade: WordModel,
    words: Iterable[str],
    general: Mapping[str, float],
    folded: Callable[[Sequence[str]], Sequence[str]],
) -> dict[str, float]:
    """The worth, in tenfolds, of each beginning that is worth anything.

    ``words`` are those of the trade, ``general`` the share of general talk that each word has by itself.
    ``folded`` brings a word to the trade model's spelling: "tire" has the share of "tyre".
    """
    in_trade: defaultdict[str, float] = defaultdict(float)
    for word in {*words, *general}:
        spelling = [word] if trade.knows(word) else folded([word])
        if len(spelling) == 1 and trade.knows(spelling[0]):
            share = 10 ** trade.logp10((), spelling[0])
            for length in range(1, len(word) + 1):
                in_trade[word[:length]] += share
    in_general: defaultdict[str, float] = defaultdict(float)
    for word, share in general.items():
        for length in range(1, len(word) + 1):
            if word[:length] not in in_trade:
                break
            in_general[word[:length]] += share
    worth = {
        beginning: min(math.log10(share / max(in_general[beginning], _LEAST)), MOST)
        for beginning, share in in_trade.items()
    }
    return {beginning: gain for beginning, gain in worth.items() if gain > 0}
