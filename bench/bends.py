"""Would it help to fit the trade ear to the speaker? Bends of the spectrum for the length of the vocal tract.

    python bench/bends.py --every 24                         8 voices in turn, minutes for each narration
    python bench/bends.py --only w35 --voices heart,joe

pocketsphinx applies a transform of the means to a speaker (MLLR) but cannot find one; what it can do is bend the
spectrum (``warp_params``). Each stretch is heard with every bend. Printed for each voice: words wrong of the trade
ear as it is, with the bend of which it is surest by its own confidence, with the best one as nobody could know it
without the answer; and the same of the fused reading. Word error is Levenshtein's over said words.
"""

import argparse
import sys
from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import lru_cache
from pathlib import Path

import numpy as np
from rapidfuzz.distance import Levenshtein

from hearings import WORDS, opened, stretch
from narrations import TUNE, Narration, narrations
from saycheck.capture.measures import Meter
from saycheck.capture.phrases import phrases
from saycheck.hearing.ear import Ear
from saycheck.hearing.joining import Fuse, fuse_for
from saycheck.hearing.spoken import spoken
from saycheck.hearing.trade_ear import TradeEar
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.vocabulary.load import load
from speak import speak

VOICES = "rms,slt-hts,awb,kal16,slt,espeak-us,joe,heart"
BENDS = (0.86, 0.93, 1.0, 1.07, 1.14)
MOST_WORDS = 130
"""Stretches without a full stop run on; longer ones are left out."""


def bend(ear: TradeEar, by: float) -> None:
    """Have the ear hear with its spectrum bent."""
    decoder = ear._decoder
    decoder.config["warp_type"], decoder.config["warp_params"] = "inverse_linear", str(by)
    decoder.reinit_feat(decoder.config)


def pieces(words: Iterable[str]) -> list[str]:
    """Words as they are said."""
    return [piece for word in words for piece in spoken(word)]


def wrong(said: Sequence[str], words: Sequence[HeardWord]) -> int:
    """How many words of ``words`` are wrong."""
    return int(Levenshtein.distance(said, pieces(word.text for word in words)))


@lru_cache(maxsize=1)
def ears_and_fuse(kind: str) -> tuple[Ear, TradeEar, Fuse]:
    """The general ear, the trade ear and what makes them one, of the machine kind last asked for."""
    ears = opened(kind, plain=False)
    trade = ears["trade"]
    assert isinstance(trade, TradeEar)
    return ears["biased"], trade, fuse_for(load(kind))


def heard_with(
    narration: Narration, number: int, voice: str
) -> tuple[int, list[int], list[float], list[int]] | None:
    """Words said; for each bend words wrong of the trade ear, its mean confidence, words wrong when fused."""
    text, _ = stretch(narration, WORDS, number)
    if len(text.split()) > MOST_WORDS:
        return None
    said = pieces(text.split())
    general_ear, trade, fuse = ears_and_fuse(narration.labels.machine)
    found = list(phrases([speak(text, voice)], Meter().add))
    general = [general_ear.hear(phrase) for phrase in found]
    trade_wrong, sure, fused_wrong = [], [], []
    for by in BENDS:
        bend(trade, by)
        hearings: list[Hearing] = [trade.hear(phrase) for phrase in found]
        words = [word for hearing in hearings for word in hearing.words]
        trade_wrong.append(wrong(said, words))
        sure.append(float(np.mean([word.confidence for word in words])) if words else 0.0)
        fused = [word for pair in zip(general, hearings, strict=True) for word in fuse(pair)[0]]
        fused_wrong.append(wrong(said, fused))
    return len(said), trade_wrong, sure, fused_wrong


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--narrations", type=Path, default=TUNE, help="folder of labelled narrations")
    parser.add_argument("--only", help="names that begin so")
    parser.add_argument("--every", type=int, default=1, help="hear only every so many of them")
    parser.add_argument("--voices", default=VOICES, help="taken in turn")
    asked = parser.parse_args()
    voices = asked.voices.split(",")
    sums: dict[str, np.ndarray] = defaultdict(lambda: np.zeros(7))
    plain = BENDS.index(1.0)
    for number, narration in enumerate(narrations(asked.narrations, asked.only)[:: asked.every]):
        voice = voices[number % len(voices)]
        told = heard_with(narration, number, voice)
        if told is None:
            continue
        count, trade, sure, fused = told
        surest = int(np.argmax(sure))
        row = [count, trade[plain], trade[surest], min(trade), fused[plain], fused[surest], min(fused)]
        sums[voice] += row
        print(f"{narration.name} {voice} surest at {BENDS[surest]}", file=sys.stderr, flush=True)
    sums["all"] = sum(sums.values(), np.zeros(7))
    print(f"{'':10} {'words':>6}  trade: as it is  surest  best   fused: as it is  surest  best")
    for voice, row in sums.items():
        shares = row[1:] / max(row[0], 1)
        print(f"{voice:10} {int(row[0]):6}  " + "   ".join(f"{share:10.3f}" for share in shares))
    return 0


if __name__ == "__main__":
    sys.exit(main())
