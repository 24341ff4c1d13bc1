"""What each ear hears: word error rate, statements heard word-perfect, speed; at four noise levels.

    python bench/ears.py                                  all, some minutes for each ear and level
    python bench/ears.py --only w1-0 --voices slt-hts,rms --levels clean,10 --ears plain,biased
    python bench/ears.py --human                          the human speech in Debian's pocketsphinx-testdata

Ears: ``plain`` is the built-in ear as its library has it, ``unbiased`` our beam search without vocabulary,
``biased`` with it, ``trade`` the trade ear; ``both`` counts a statement that either of the last two heard
(and the smaller word error of the two for each phrase, which nobody reaches without knowing the answer).
Sound goes the way of a recording: cut into phrases by ``capture.phrases``, each phrase to each ear. Time is
processor time of one thread over the length of the sound, loading not counted. How words are compared is
told in ``heard.py``; rates are jiwer's.
"""

import argparse
import json
import sys
import time
import wave
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from heard import Score, score
from narrations import TUNE, Narration, narrations
from saycheck.capture.phrases import phrases
from saycheck.hearing.ear import SAMPLE_RATE, Ear, Phrase
from speak import VOICES, Samples, speak, with_noise

LEVELS = ("clean", "20", "10", "5")
EARS = ("plain", "unbiased", "biased", "trade", "both")
HUMAN = Path("/usr/share/pocketsphinx/test/data/librivox")
DEFAULT_VOICES = "slt-hts,slt,awb,rms,espeak-us"


def built(kind: str) -> dict[str, Callable[[], Ear]]:
    """How each ear is made for a machine kind; opened only when asked for."""
    from saycheck.hearing.builtin_ear import BuiltinEar, PlainBuiltinEar, biased_ear
    from saycheck.hearing.language.model import trade_language
    from saycheck.vocabulary.load import load

    def trade() -> Ear:
        from saycheck.hearing.trade_ear import TradeEar

        return TradeEar(trade_language(load(kind)))

    return {
        "plain": PlainBuiltinEar,
        "unbiased": BuiltinEar,
        "biased": lambda: biased_ear(load(kind)),
        "trade": trade,
    }


@dataclass
class Tally:
    """What one ear did over all narrations of a line of the table."""

    words: int = 0
    errors: int = 0
    perfect: list[bool] = field(default_factory=list)
    seconds: float = 0.0
    busy: float = 0.0

    def add(self, scored: Score, seconds: float, busy: float) -> None:
        """Count one narration in."""
        self.words += scored.words
        self.errors += scored.errors
        self.perfect += scored.perfect
        self.seconds += seconds
        self.busy += busy

    def row(self) -> dict[str, float]:
        """Word error rate, share of statements word-perfect, real-time factor."""
        return {
            "wer": self.errors / max(self.words, 1),
            "perfect": sum(self.perfect) / max(len(self.perfect), 1),
            "rtf": self.busy / max(self.seconds, 1e-9),
        }


def heard_by(ear: Ear, found: list[Phrase]) -> tuple[list[str], float]:
    """What an ear heard in each phrase, and the processor seconds it took."""
    before = time.process_time()
    texts = [" ".join(word.text for word in ear.hear(phrase).words) for phrase in found]
    return texts, time.process_time() - before


def cut(samples: Samples) -> list[Phrase]:
    """Phrases as a recording is cut, the sound given in blocks of a second."""
    return list(phrases(samples[at : at + SAMPLE_RATE] for at in range(0, len(samples), SAMPLE_RATE)))


class Opened:
    """The ears of the machine kind last asked for; a kind is loaded once for all its narrations."""

    def __init__(self) -> None:
        self._kind = ""
        self._ears: dict[str, Ear] = {}

    def ear(self, name: str, kind: str) -> Ear:
        """The ear ``name`` for ``kind``."""
        if kind != self._kind:
            self._kind = kind
            self._ears = {n: e for n, e in self._ears.items() if n in ("plain", "unbiased")}
        if name not in self._ears:
            self._ears[name] = built(kind)[name]()
        return self._ears[name]


def measure(
    chosen: list[Narration], voices: list[str], levels: list[str], ears: list[str], cache: Path | None
) -> Iterator[tuple[str, str, Tally]]:
    """Yield level, ear and tally, a line at a time."""
    opened = Opened()
    singles = [name for name in ears if name != "both"]
    if "both" in ears:
        singles += [name for name in ("biased", "trade") if name not in singles]
    for level in levels:
        tallies = {name: Tally() for name in [*singles, *(["both"] if "both" in ears else [])]}
        for number, narration in enumerate(sorted(chosen, key=lambda n: n.labels.machine)):
            said, quotes = narration.labels.text, [item.quote for item in narration.labels.gold]
            sound = speak(said, voices[number % len(voices)], cache=cache)
            found = cut(sound if level == "clean" else with_noise(sound, float(level), seed=number))
            seconds = len(sound) / SAMPLE_RATE
            scores: dict[str, Score] = {}
            busy: dict[str, float] = {}
            for name in singles:
                texts, busy[name] = heard_by(opened.ear(name, narration.labels.machine), found)
                scores[name] = score(said, " ".join(texts), quotes)
                tallies[name].add(scores[name], seconds, busy[name])
            if "both" in ears:
                one, two = scores["biased"], scores["trade"]
                either = tuple(a or b for a, b in zip(one.perfect, two.perfect, strict=True))
                least = Score(one.words, min(one.errors, two.errors), either)
                tallies["both"].add(least, seconds, busy["biased"] + busy["trade"])
            print(f"{level} {narration.name}", file=sys.stderr)
        for name in ears:
            yield level, name, tallies[name]


def human(ears: list[str]) -> Iterator[tuple[str, str, Tally]]:
    """The LibriVox passages with their transcripts; source: Debian's pocketsphinx-testdata."""
    lines = (HUMAN / "transcription").read_text(encoding="utf-8").splitlines()
    opened = Opened()
    for name in ears:
        if name == "both":
            continue
        tally = Tally()
        for line in lines:
            text, _, file = line.rpartition(" ")
            with wave.open(str(HUMAN / f"{file.strip('()')}.wav")) as sound:
                raw = np.frombuffer(sound.readframes(sound.getnframes()), "<i2")
            phrase = Phrase(np.asarray(raw / 32768, np.float32), 0.0)
            texts, busy = heard_by(opened.ear(name, "wheel-loader"), [phrase])
            said = text.replace("<s>", "").replace("</s>", "").strip()
            tally.add(score(said, texts[0], []), len(raw) / SAMPLE_RATE, busy)
        yield "human", name, tally


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--folder", type=Path, default=TUNE, help="labelled narrations")
    parser.add_argument("--only", help="names that begin so")
    parser.add_argument("--voices", default=DEFAULT_VOICES, help=f"of {', '.join(VOICES)}; taken in turn")
    parser.add_argument(
        "--levels", default=",".join(LEVELS), help="clean, or decibels of speech over engine noise"
    )
    parser.add_argument("--ears", default=",".join(EARS))
    parser.add_argument("--human", action="store_true", help="human read speech instead of narrations")
    parser.add_argument("--cache", type=Path, help="folder for the sound made")
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args()
    ears = asked.ears.split(",")
    lines = (
        human(ears)
        if asked.human
        else measure(
            narrations(asked.folder, asked.only),
            asked.voices.split(","),
            asked.levels.split(","),
            ears,
            asked.cache,
        )
    )
    rows = []
    if not asked.json:
        print(f"{'level':8}{'ear':10}{'word error':>12}{'perfect':>10}{'real time':>11}", flush=True)
    for level, name, tally in lines:
        row = tally.row()
        rows.append({"level": level, "ear": name, **row})
        if not asked.json:
            share = f"{row['perfect']:.3f}" if tally.perfect else "-"
            print(f"{level:8}{name:10}{row['wer']:12.3f}{share:>10}{row['rtf']:11.3f}", flush=True)
    if asked.json:
        print(json.dumps(rows, indent=1))
    return 0


if __name__ == "__main__":
    sys.exit(main())
