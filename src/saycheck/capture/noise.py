"""How well can the speech be heard, along the recording? ``passages`` says it of every second.

Speech, silence and noise follow one another without gaps. A passage of speech ends where its trouble
does, so that a gust or a passing truck makes only those words unclear that it was blowing over.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby

import numpy as np

from saycheck.capture.levels import CELL, Levels, levels
from saycheck.capture.measures import Measures, Row
from saycheck.capture.voice import SURE, WINDOW, WINDOWS_A_SECOND, runs
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.models.hearing import Passage

UNTRUSTED_SNR_DB = 4.0
"""Speech less than this above the noise is not trusted; by judgement, on the demo recordings, not measured."""

CLIPPED_SHARE = 0.15
"""Share of the samples of speech at the limit from which it cannot be trusted. Speech turned up by 12 dB
over full scale (share 0.06) had 0.23 of its words wrong against 0.17, by 18 dB (0.21) 0.45, by 24 dB
(0.37) 0.62 (the built-in ear's plain decoder, two narrations)."""

WIND_OVER_SPEECH_DB = 25.0
"""How far what lies below speech must stand over it to be called wind; by judgement, not measured."""

NOISY = "noise as loud as the speech"
WINDY = "wind in the microphone"
CLIPPED = "too loud, clipped"

_HELP = {
    NOISY: "with the engine off, or the microphone close to the mouth",
    WINDY: "with a wind cover on the microphone, or your back to the wind",
    CLIPPED: "with the microphone farther from the mouth, or its level turned down",
}

MOSTLY = 0.5
"""Share of the speech from which a recording is called unusable."""

_AIR = round(0.3 * WINDOWS_A_SECOND)
_PAUSE = round(1.0 * WINDOWS_A_SECOND)
_SILENT = 1e-3  # 30 dB below the speech
_USUAL_SPEECH = 1e-3  # mean square above 300 Hz; stands in where a recording holds none
_RUMBLING = 10.0  # times the speech: noise with so much rumble is wind


def passages(measures: Measures) -> list[Passage]:
    """Return the passages of a recording, one after the other from its start to its end."""
    if not len(measures.chance):
        return []
    cells = levels(measures)
    spoken = measures.power[measures.chance >= SURE]
    speech = float(spoken.mean()) if len(spoken) else _USUAL_SPEECH
    found: list[Passage] = []
    done = 0
    for first, after in _speech(measures.chance):
        found += _without_speech(measures, speech, done, first)
        found += _with_speech(measures, cells, first, after)
        done = after
    return found + _without_speech(measures, speech, done, len(measures.chance))


def verdict(passages: Sequence[Passage]) -> str | None:
    """Return one sentence when most of the speech cannot be trusted, or when there is none; else None."""
    speech = [one for one in passages if one.kind == "speech"]
    total = sum(_length(one) for one in speech)
    if not total:
        return _nothing(passages)
    lost = {trouble: sum(_length(one) for one in speech if one.trouble == trouble) for trouble in _HELP}
    share = sum(lost.values()) / total
    if share < MOSTLY:
        return None
    worst = max(lost, key=lambda trouble: lost[trouble])
    return f"{share:.0%} of the speech cannot be made out ({worst}); record again {_HELP[worst]}"


def _nothing(passages: Sequence[Passage]) -> str:
    """The sentence for a recording in which nobody was found to speak."""
    trouble = next((one.trouble for one in passages if one.trouble), None)
    if trouble is None:
        return "no speech was found in the recording; hold the microphone closer, and check that it was on"
    return f"no speech can be made out in the recording ({trouble}); record again {_HELP[trouble]}"


def _speech(chance: Row) -> Iterator[tuple[int, int]]:
    """Yield the stretches of speech with some air round them, short pauses included."""
    held: tuple[int, int] | None = None
    for first, after in runs(chance):
        if held and first - held[1] <= _PAUSE:
            held = held[0], after
            continue
        if held:
            yield max(0, held[0] - _AIR), held[1] + _AIR
        held = first, after
    if held:
        yield max(0, held[0] - _AIR), min(held[1] + _AIR, len(chance))


def _with_speech(measures: Measures, cells: Levels, first: int, after: int) -> list[Passage]:
    """The passages of one stretch of speech, parted where the trouble changes."""
    numbers = range(first // CELL, -(-after // CELL))
    troubles = _bridged([_trouble(cells, number) for number in numbers])
    found = []
    for trouble, group in groupby(zip(numbers, troubles, strict=True), key=lambda pair: pair[1]):
        members = [number for number, _ in group]
        snr_db = cells.snr_db(members[0], members[-1] + 1)
        start, end = max(first, members[0] * CELL), min(after, (members[-1] + 1) * CELL)
        known = None if np.isnan(snr_db) else round(snr_db, 1)
        found.append(_passage(measures, start, end, "speech", known, trouble))
    return found


def _without_speech(measures: Measures, speech: float, first: int, after: int) -> list[Passage]:
    """The passage between two stretches of speech; in trouble where noise would have buried speech."""
    if first >= after:
        return []
    power, rumble = (float(np.median(row[first:after])) for row in (measures.power, measures.rumble))
    if power < _SILENT * speech:
        return [_passage(measures, first, after, "silence")]
    buried = power * 10 ** (UNTRUSTED_SNR_DB / 10) > speech
    trouble = (WINDY if rumble > _RUMBLING * power else NOISY) if buried else None
    return [_passage(measures, first, after, "noise", trouble=trouble)]


def _trouble(cells: Levels, cell: int) -> str | None:
    """Why the speech in a cell cannot be trusted, or None."""
    if cells.clipped[cell] >= CLIPPED_SHARE:
        return CLIPPED
    rumble = cells.rumble[cell] / max(cells.speech[cell], 1e-10)
    if rumble >= 10 ** (WIND_OVER_SPEECH_DB / 10):
        return WINDY
    if cells.snr_db(cell, cell + 1) < UNTRUSTED_SNR_DB:
        return WINDY if rumble > _RUMBLING else NOISY
    return None


def _bridged(troubles: list[str | None]) -> list[str | None]:
    """A half second between two with the same trouble has it too."""
    bridged = list(troubles)
    for place in range(1, len(troubles) - 1):
        if troubles[place] is None and troubles[place - 1] == troubles[place + 1]:
            bridged[place] = troubles[place - 1]
    return bridged


def _passage(
    measures: Measures,
    first: int,
    after: int,
    kind: str,
    snr_db: float | None = None,
    trouble: str | None = None,
) -> Passage:
    start_s, end_s = (min(place * WINDOW / SAMPLE_RATE, measures.seconds) for place in (first, after))
    return Passage(start_s=start_s, end_s=end_s, kind=kind, snr_db=snr_db, trouble=trouble)


def _length(passage: Passage) -> float:
    return passage.end_s - passage.start_s
