"""Where each word is in the sound: forced alignment of known words by pocketsphinx.

The acoustic model and the pronouncing dictionary are those inside the ``pocketsphinx`` wheel. A word the
dictionary lacks is given sounds by rule; a word that stands for no sound takes no time. Noise is taken down
first: of words in 10 dB of engine noise 0.53 began within 100 ms of where they do without noise, 0.84 once it
was; at 5 dB 0.10 and 0.76 (2,613 words, two voices). Where alignment fails, times are shared out over the
speech by the length of the words.
"""

import logging
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from saycheck.errors import EarError
from saycheck.hearing.ear import SAMPLE_RATE, Samples
from saycheck.hearing.spoken import spoken

_FRAMES_PER_S = 100
_LOUDEST = 0.7
_SHORTEST_S = 0.2
"""Below this there is no room for a word's phonemes; times are shared out."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Placed:
    """One word's place: seconds from the start of the samples."""

    start_s: float
    end_s: float


class Aligner:
    """Aligns written words with sound; one instance keeps its decoder and the words it has learned."""

    def __init__(self, phones: Callable[[str], list[str]] | None = None) -> None:
        """``phones`` gives the ARPAbet phonemes of a word the dictionary lacks ("weeping" -> W IY P IH NG).

        Raises:
            EarError: pocketsphinx is missing or its model cannot be loaded.
        """
        self._phones = phones or _worked_out
        self._decoder = _decoder()
        self._unsayable: set[str] = set()

    def place(self, samples: Samples, words: Sequence[str]) -> list[Placed]:
        """Return a place for every word, in order, never overlapping, all inside the samples.

        ``samples`` are mono at 16 kHz in -1..1; ``words`` are as written ("80", "Bucket's,").
        """
        if not words:
            return []
        said = [[part for part in spoken(word) if self._sayable(part)] for word in words]
        found = self._aligned(samples, [part for parts in said for part in parts])
        length = len(samples) / SAMPLE_RATE
        if found is None:
            return shared_out(words, *_speech(samples))
        places: list[Placed] = []
        now, taken = 0.0, 0
        for parts in said:
            mine = found[taken : taken + len(parts)]
            taken += len(parts)
            start = mine[0].start_s if mine else now
            now = min(mine[-1].end_s if mine else now, length)
            places.append(Placed(min(start, now), now))
        return places

    def _aligned(self, samples: Samples, parts: list[str]) -> list[Placed] | None:
        if not parts or len(samples) < _SHORTEST_S * SAMPLE_RATE:
            return None
        decoder = self._decoder
        peak = float(np.max(np.abs(samples), initial=0.0))
        if not np.isfinite(peak) or peak == 0.0:
            return None
        sound = (_quiet(samples) * (_LOUDEST / peak) * 32767).clip(-32768, 32767).astype(np.int16).tobytes()
        try:
            decoder.set_align_text(" ".join(parts))
            decoder.start_utt()
            try:
                decoder.process_raw(sound, full_utt=True)
            finally:
                decoder.end_utt()
            if decoder.hyp() is None:
                return None
            segments = [s for s in decoder.seg() if not s.word.startswith(("<", "["))]
        except RuntimeError as error:
            _log.debug("alignment failed: %s", error)
            return None
        if len(segments) != len(parts):
            return None
        return [Placed(s.start_frame / _FRAMES_PER_S, (s.end_frame + 1) / _FRAMES_PER_S) for s in segments]

    def _sayable(self, part: str) -> bool:
        """Whether the decoder knows the word, or could be taught it."""
        if part in self._unsayable:
            return False
        if self._decoder.lookup_word(part) is not None:
            return True
        try:
            phones = self._phones(part)
            if phones and not any(mark in part for mark in " <>[]()"):
                self._decoder.add_word(part, " ".join(phones), False)
                return True
        except (RuntimeError, ValueError, KeyError, EarError) as error:
            _log.debug("no sounds for %r: %s", part, error)
        self._unsayable.add(part)
        return False


def shared_out(words: Sequence[str], start_s: float, end_s: float) -> list[Placed]:
    """Places by share: each word takes time by the number of its letters, at least one."""
    shares = np.array([max(1, len(word)) for word in words], float)
    edges = start_s + (end_s - start_s) * np.concatenate([[0.0], np.cumsum(shares) / shares.sum()])
    return [Placed(float(a), float(b)) for a, b in pairwise(edges)]


def _quiet(samples: Samples) -> Samples:
    """The samples with noise taken down, as they are where nothing can do that here."""
    from saycheck.hearing.denoise import denoised

    try:
        return denoised(samples)
    except EarError as error:
        _log.debug("aligned with its noise: %s", error)
        return samples


def _speech(samples: Samples) -> tuple[float, float]:
    """The stretch (seconds) from the first to the last frame within 30 dB of the loudest; all if silent."""
    frame = SAMPLE_RATE // _FRAMES_PER_S
    count = len(samples) // frame
    whole = (0.0, len(samples) / SAMPLE_RATE)
    if count == 0:
        return whole
    power = np.mean(samples[: count * frame].reshape(count, frame) ** 2, axis=1)
    loud = np.flatnonzero(power > max(float(power.max()) * 1e-3, 1e-12))
    return (loud[0] / _FRAMES_PER_S, (loud[-1] + 1) / _FRAMES_PER_S) if len(loud) else whole


def _decoder() -> Any:
    try:
        import pocketsphinx
    except ImportError as error:
        raise EarError("word times need pocketsphinx; run: pip install pocketsphinx") from error
    try:
        # Wide beams: a text is one path, so they cost little, and a hard passage still reaches the end.
        return pocketsphinx.Decoder(
            loglevel="FATAL",
            lm=None,
            samprate=float(SAMPLE_RATE),
            beam=1e-90,
            wbeam=1e-80,
            pbeam=1e-90,
        )
    except RuntimeError as error:
        raise EarError(f"pocketsphinx cannot load its English model ({error}); install it again") from error


def _worked_out(word: str) -> list[str]:
    from saycheck.hearing.sounds import phones  # reads the dictionary: only where a word is unknown

    return phones(word)
