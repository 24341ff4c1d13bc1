"""Listening live, measured: how soon what was said is understood, how much work it is, how much memory.

    python bench/listen.py [--ears both] [--minutes 3] [--voice slt-hts]     delay and work, in real time
    python bench/listen.py --hours 8 [--pace 200]                            memory over simulated hours

The first plays narrations at the pace at which they are spoken into the recorder, with every part of
``saycheck listen`` at work but the sound card. Delay is from the end of the speech of an utterance until
what it means is in the view. Work is seconds of processor for each second of sound, over all processes, once
the ears have loaded. The second plays hours of speech many times as fast, with ears that answer at once, and
looks at the memory of the program and of its recorder every simulated hour. Status 1 where an aim is missed:
1.5 s for 95 of 100 utterances, 0.6 of one core (built-in ear alone), 1 MB more memory an hour. Linux only.
"""

import argparse
import os
import sys
import tempfile
import time
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from itertools import cycle
from pathlib import Path
from statistics import median
from types import TracebackType
from typing import Any, Self, cast

import numpy as np

from saycheck.capture.recorder import Recorder
from saycheck.hearing.choose import chosen
from saycheck.hearing.ear import Phrase
from saycheck.hearing.side_by_side import EarProcess
from saycheck.live.commands import LEAD, lead_words, sayings
from saycheck.live.ears import quick_ears
from saycheck.live.listener import Listener, Wishes
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.vocabulary.load import load
from sources import Played
from speak import SAMPLE_RATE, Samples, speak, write_wav

MACHINE = "wheel-loader"
MOST_DELAY_S, MOST_WORK, MOST_GROWTH_MB = 1.5, 0.6, 1.0
MATERIAL = Path(__file__).with_name("material")
READY_S = 40.0


class Ready:
    """Stands in for an ear's process: has an answer at once, words of a narration at two a second."""

    def __init__(self, name: str, texts: Sequence[str]) -> None:
        self.name = name
        self.pid: int | None = None
        self._words = cycle(" ".join(texts).split())
        self._given: deque[Phrase] = deque()

    def __enter__(self) -> Self:
        return self

    def give(self, phrase: Phrase) -> None:
        self._given.append(phrase)

    def answer(self) -> Hearing:
        phrase = self._given.popleft()
        words = []
        if self.name != "commands" and phrase.start_s >= 0:
            for half in range(int((phrase.end_s - phrase.start_s) * 2)):
                start_s = phrase.start_s + half / 2
                words.append(
                    HeardWord(text=next(self._words), start_s=start_s, end_s=start_s + 0.4, confidence=0.9)
                )
        return Hearing(ear=self.name, words=words)

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Nothing to end."""


@contextmanager
def listening(
    wav: Path,
    quick: Sequence[EarProcess],
    careful: Sequence[EarProcess],
    pace: float = 1.0,
    again: bool = False,
) -> Iterator[tuple[Listener, Recorder]]:
    """A listener and its recorder at work on a recording."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "recording.wav"
        with Recorder(path, partial(Played, wav, pace, again)) as recorder:
            listener = Listener(load(MACHINE), Wishes(LEAD), _nobody)
            listener.follow(path, lambda: recorder.ended, quick, careful)
            yield listener, recorder


def _nobody(_: object) -> None:
    """Events are not looked at here."""


def work_s(processes: Sequence[int]) -> float:
    """Processor time of processes so far, seconds."""
    ticks = 0
    for process in processes:
        fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
        ticks += int(fields[11]) + int(fields[12])
    return ticks / os.sysconf("SC_CLK_TCK")


def memory_mb(process: int) -> float:
    """Memory of a process that is its own, MB."""
    lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
    return sum(int(line.split()[1]) for line in lines if line.startswith("Private_")) / 1000


def turns(listener: Listener, recorder: Recorder, over: Callable[[], bool], each_s: float = 0.1) -> None:
    """Let the listener work until it is over."""
    while not over():
        listener.turn(recorder.kept / SAMPLE_RATE)
        if listener.failed is not None:
            raise listener.failed.error
        time.sleep(each_s)


def spoken(minutes: float, voice: str) -> Samples:
    """Narrations of this length."""
    sounds: list[Samples] = []
    for path in sorted(MATERIAL.glob("*.txt")):
        if sum(map(len, sounds)) >= minutes * 60 * SAMPLE_RATE:
            break
        sounds.append(speak(path.read_text(encoding="utf-8"), voice))
    return np.concatenate(sounds)[: round(minutes * 60 * SAMPLE_RATE)]


def delay_and_work(ears: str, minutes: float, voice: str, folder: Path) -> bool:
    """Print both; True where an aim is missed."""
    vocabulary = load(MACHINE)
    wav = folder / "walk.wav"
    lead_in = np.zeros(round(READY_S * SAMPLE_RATE), np.float32)
    sound = spoken(minutes, voice)
    write_wav(wav, np.concatenate([lead_in, sound]))
    quick = quick_ears(vocabulary.kind, lead_words(LEAD), sayings(vocabulary))
    careful = chosen(ears, vocabulary.kind)
    with listening(wav, quick, careful) as (listener, recorder):
        turns(listener, recorder, lambda: recorder.kept / SAMPLE_RATE > READY_S - 1)
        processes = [os.getpid(), *(one.pid or 0 for one in [*quick, *careful]), recorder.pid or 0]
        before = [work_s([one]) for one in processes]
        end_s = READY_S + len(sound) / SAMPLE_RATE
        turns(listener, recorder, lambda: recorder.kept / SAMPLE_RATE > end_s + 10)
        seconds = len(sound) / SAMPLE_RATE
        parts = [(work_s([one]) - was) / seconds for one, was in zip(processes, before, strict=True)]
        recorder.stop()
    delays = sorted(listener.delays_s)
    late = delays[min(int(len(delays) * 0.95), len(delays) - 1)]
    print(f"ears: {ears}; utterances: {len(delays)}; load of the machine: {os.getloadavg()[0]:.1f}")
    print(
        f"from the end of an utterance to the screen: median {median(delays):.2f} s, 95 of 100 within {late:.2f} s"
    )
    work = sum(parts)
    names = ["program", *(one.name for one in [*quick, *careful]), "recorder"]
    listed = ", ".join(f"{name} {part:.2f}" for name, part in zip(names, parts, strict=True))
    print(f"work: {work:.2f} s of processor for a second of sound ({listed})")
    return late > MOST_DELAY_S or (ears == "builtin" and work > MOST_WORK)


def memory(hours: int, pace: float, folder: Path) -> bool:
    """Print memory hour by hour; True where it grows too fast."""
    wav = folder / "talk.wav"
    write_wav(wav, spoken(10, "kal16"))
    texts = [path.read_text(encoding="utf-8") for path in sorted(MATERIAL.glob("*.txt"))]
    quick = cast(Any, [Ready("quick", texts), Ready("commands", texts)])
    careful = cast(Any, [Ready("builtin", texts), Ready("trade", texts)])
    sizes: list[float] = []
    with listening(wav, quick, careful, pace, again=True) as (listener, recorder):
        for hour in range(1, hours + 1):
            turns(listener, recorder, lambda: listener.heard_s >= hour * 3600)  # noqa: B023
            sizes.append(memory_mb(os.getpid()))
            print(
                f"after {hour} h: program {sizes[-1]:.0f} MB, recorder {memory_mb(recorder.pid or 0):.0f} MB, "
                f"{listener.view.found} findings, recorded {recorder.kept / SAMPLE_RATE / 3600:.1f} h",
                flush=True,
            )
        recorder.stop()
        os._exit(_judged(sizes)) if hours > 1 else None
    return False


def _judged(sizes: Sequence[float]) -> int:
    growth = (sizes[-1] - sizes[0]) / (len(sizes) - 1)
    print(f"growth: {growth:.1f} MB an hour", flush=True)
    return int(growth > MOST_GROWTH_MB)


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--ears", default="both")
    parser.add_argument("--minutes", type=float, default=3.0)
    parser.add_argument("--voice", default="slt-hts")
    parser.add_argument("--hours", type=int)
    parser.add_argument("--pace", type=float, default=200.0)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        if asked.hours:
            return int(memory(asked.hours, asked.pace, Path(folder)))
        return int(delay_and_work(asked.ears, asked.minutes, asked.voice, Path(folder)))


if __name__ == "__main__":
    sys.exit(main())
