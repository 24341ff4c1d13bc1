"""What both ears heard of the openings of narrations, kept in a folder, so that it is heard once only.

    python bench/hearings.py FOLDER --narrations tests/narrations/tune --every 4 --levels clean,10
    python bench/hearings.py FOLDER --narrations tests/narrations/aside --voices heart,joe --levels clean,20,10,5

Of each narration one stretch of some 60 words is spoken, from its start, from a third of it or from two
thirds in turn, so that in the same time more writers and machines are heard. ``train_agreement.py`` learns
from what is kept here, ``hear_figures.py`` prints figures of it. The files are pickles, for this use only.
"""

import argparse
import pickle
import re
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from narrations import TUNE, Narration, narrations
from saycheck.capture.measures import Meter
from saycheck.capture.noise import passages
from saycheck.capture.phrases import phrases
from saycheck.hearing.ear import SAMPLE_RATE, Ear, Phrase
from saycheck.models.hearing import Hearing, Passage
from saycheck.scoring.labels import Item
from speak import speak, with_noise
from spoilt import WAYS

TUNED_VOICES = "rms,slt-hts,awb,kal16,slt,espeak-us"
WORDS = 60
TERSE = 10.0
"""Statements in a hundred words from which a narration counts as terse (a third of them)."""


@dataclass
class Heard:
    """One stretch of a narration as the ears heard it, phrase by phrase; ``busy`` is processor time, s."""

    name: str
    kind: str
    level: str
    voice: str
    text: str
    gold: list[Item]
    terse: bool
    phrases: list[tuple[Hearing, Hearing]]
    plain: list[Hearing]
    passages: list[Passage]
    seconds: float
    busy: dict[str, float]

    @property
    def quotes(self) -> list[str]:
        """The statements of the stretch."""
        return [item.quote for item in self.gold]


def stretch(narration: Narration, words: int, number: int) -> tuple[str, list[Item]]:
    """Some ``words`` words of a narration that end with a sentence, and the labels wholly inside."""
    text = narration.labels.text
    starts = [0, *(match.end() for match in re.finditer(r"[.!?]\s+", text))]
    first = starts[len(starts) * (number % 3) // 3]
    after = next((end for end in starts if len(text[first:end].split()) >= words), len(text))
    said = text[first:after].strip()
    return said, [item for item in narration.labels.gold if said.count(item.quote) == 1]


def hear(
    chosen: Sequence[Narration],
    levels: Sequence[str],
    voices: Sequence[str],
    folder: Path,
    noise: str = "engine",
    plain: bool = False,
) -> None:
    """Hear each narration in one of the voices at each level and keep what was heard."""
    folder.mkdir(parents=True, exist_ok=True)
    ears: dict[str, Ear] = {}
    loaded = ""
    for level in levels:
        for number, narration in sorted(enumerate(chosen), key=lambda pair: pair[1].labels.machine):
            path = folder / f"{narration.name}-{level}.pickle"
            if path.exists():
                continue
            kind = narration.labels.machine
            ears, loaded = (ears if kind == loaded else opened(kind, plain)), kind
            voice = voices[number % len(voices)]
            said, gold = stretch(narration, WORDS, number)
            sound = speak(said, voice)
            if level in WAYS:
                sound = WAYS[level](sound)
            elif level != "clean":
                sound = with_noise(sound, float(level), noise, seed=number)
            meter = Meter()
            found = list(phrases([sound], meter.add))
            busy: dict[str, float] = {}
            heard = {name: _heard(ear, name, found, busy) for name, ear in ears.items()}
            kept = Heard(
                name=narration.name,
                kind=kind,
                level=level,
                voice=voice,
                text=said,
                gold=gold,
                terse=100 * len(gold) / len(said.split()) >= TERSE,
                phrases=list(zip(heard["biased"], heard["trade"], strict=True)),
                plain=heard.get("plain", []),
                passages=passages(meter.measures()),
                seconds=len(sound) / SAMPLE_RATE,
                busy=busy,
            )
            path.write_bytes(pickle.dumps(kept))
            print(f"{path.name} {voice} {sum(busy.values()):.0f} s", file=sys.stderr, flush=True)


def opened(kind: str, plain: bool) -> dict[str, Ear]:
    """Both ears of a machine kind, and the plain library too where wanted."""
    from saycheck.hearing.builtin_ear import PlainBuiltinEar, biased_ear
    from saycheck.hearing.language.model import trade_language
    from saycheck.hearing.trade_ear import TradeEar
    from saycheck.vocabulary.load import load

    vocabulary = load(kind)
    ears: dict[str, Ear] = {"biased": biased_ear(vocabulary), "trade": TradeEar(trade_language(vocabulary))}
    return ears | ({"plain": PlainBuiltinEar()} if plain else {})


def _heard(ear: Ear, name: str, found: Sequence[Phrase], busy: dict[str, float]) -> list[Hearing]:
    before = time.process_time()
    hearings = [ear.hear(phrase) for phrase in found]
    busy[name] = time.process_time() - before
    return hearings


def order(level: str) -> tuple[float, str]:
    """Clean first, then less and less speech over noise, then what else was done to it."""
    if level == "clean":
        return -1000.0, level
    return (-float(level), level) if is_noise(level) else (1000.0, level)


def is_noise(level: str) -> bool:
    """Whether a level is a number of decibels."""
    return level.lstrip("-").isdigit()


def read(folder: Path) -> list[Heard]:
    """What ``hear`` kept; the folder is one's own, so unpickling it is safe."""
    return [pickle.loads(path.read_bytes()) for path in sorted(folder.glob("*.pickle"))]


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", type=Path, help="where what was heard is kept")
    parser.add_argument("--narrations", type=Path, default=TUNE, help="folder of labelled narrations")
    parser.add_argument("--only", help="names that begin so")
    parser.add_argument("--without", default="", help="writers to leave out: w36,w38")
    parser.add_argument("--every", type=int, default=1, help="hear only every so many of them")
    parser.add_argument("--first", type=int, default=0, help="how many are passed over at the start")
    parser.add_argument(
        "--levels",
        default="clean,10",
        help="clean, decibels of speech over noise, or what ``spoilt.py`` does to it",
    )
    parser.add_argument("--noise", default="engine")
    parser.add_argument("--voices", default=TUNED_VOICES, help="taken in turn")
    parser.add_argument("--plain", action="store_true", help="the plain library as a third ear")
    asked = parser.parse_args()
    without = set(asked.without.split(","))
    kept = [one for one in narrations(asked.narrations, asked.only) if one.writer not in without]
    chosen = kept[asked.first :: asked.every]
    hear(
        chosen, asked.levels.split(","), asked.voices.split(","), asked.folder, asked.noise, plain=asked.plain
    )
    return 0


if __name__ == "__main__":
    import hearings  # what is pickled must be known by this module's name, not as part of a script

    sys.exit(hearings.main())
