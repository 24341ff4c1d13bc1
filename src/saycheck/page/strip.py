"""The recording as a strip: where someone spoke, where it was too loud, where each zone and finding lies.

All places are hundredths of the width. A text has no time; its strip runs along its characters.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache

from saycheck.models.hearing import Passage
from saycheck.models.review import Standing
from saycheck.models.walk import Evidence, Finding, Walk, Word
from saycheck.page.once import Once
from saycheck.reporting.wording import STATE_WORDS, clock, length, with_side

BINS = 240
"""Columns of speech; about as many as can be told apart on a phone."""
HEIGHTS = {"writeup": 34, "watch": 26}
"""Pixels of a finding's mark; 16 for the others."""


@dataclass(frozen=True)
class Bar:
    """A column of speech: its place, and how much of its time someone spoke (0 to 1)."""

    x: float
    height: float


@dataclass(frozen=True)
class Stretch:
    """A stretch with a name: a zone, or why the sound there cannot be trusted."""

    x: float
    width: float
    name: str


@dataclass(frozen=True)
class Mark:
    """A finding on the strip."""

    key: str
    x: float
    height: int
    state: str
    title: str
    entry: str


@dataclass(frozen=True)
class Sound:
    """What no edit changes: speech, noise, ``ticks`` (times along it), ``base`` (the line that all stands on)."""

    bars: tuple[Bar, ...]
    noise: tuple[Stretch, ...]
    ticks: tuple[Stretch, ...]
    timed: bool
    seconds: float
    base: int


@dataclass(frozen=True)
class Strip:
    """The whole strip; ``told`` says in words what it shows."""

    sound: Sound
    zones: list[Stretch]
    marks: list[Mark]
    told: str


def strip(standing: Standing) -> Strip:
    """The strip of a walk as it stands."""
    walk = standing.walk
    seconds = walk.source.duration_s
    whole = seconds or len(walk.transcript.text) or 1
    timed = bool(seconds)

    def place(one: Evidence) -> float | None:
        if not timed:
            return 100 * one.char_start / whole
        return None if one.start_s is None else 100 * one.start_s / whole

    placed = [(x, one) for one in walk.findings if (x := _first(one, place)) is not None]
    marks = [_mark(finding, x) for x, finding in placed]
    return Strip(
        _sound(Once(walk.transcript.words), Once(walk.sound), seconds),
        _zones([(x, finding.zone) for x, finding in placed]),
        marks,
        _told(walk, len(marks)),
    )


def _mark(finding: Finding, x: float) -> Mark:
    state = finding.state
    title = f"{STATE_WORDS[state]}: {with_side(finding.part, finding.side)}"
    return Mark(f"m-{finding.id}", round(x, 2), HEIGHTS.get(state, 16), state, title, f"f-{finding.id}")


def _first(finding: Finding, place: Callable[[Evidence], float | None]) -> float | None:
    return min((x for one in finding.evidence if (x := place(one)) is not None), default=None)


@lru_cache(maxsize=4)
def _sound(words: Once[Word], sound: Once[Passage], seconds: float) -> Sound:
    noise = (
        Stretch(_at(p.start_s, seconds), _at(p.end_s - p.start_s, seconds), p.trouble or "noise")
        for p in sound.items
        if seconds and (p.trouble or p.kind == "noise")
    )
    bars = _bars(words.items, seconds) if seconds else ()
    return Sound(
        tuple(bars), tuple(noise), tuple(_ticks(seconds)), bool(seconds), seconds, 58 if seconds else 36
    )


def _bars(words: list[Word], seconds: float) -> Iterable[Bar]:
    spoken = [0.0] * BINS
    step = seconds / BINS
    for word in words:
        if word.start_s is None or word.end_s is None:
            continue
        for number in range(int(word.start_s / step), min(int(word.end_s / step), BINS - 1) + 1):
            share = min(word.end_s, (number + 1) * step) - max(word.start_s, number * step)
            spoken[number] += max(share, 0.0)
    for number, time in enumerate(spoken):
        if time:
            yield Bar(round(100 * number / BINS, 2), round(min(time / step, 1.0), 2))


def _zones(findings: Iterable[tuple[float, str]]) -> list[Stretch]:
    """Where the walker stood, as far as the findings tell: from the first of a zone to the first of the next."""
    starts: list[tuple[float, str]] = []
    placed = sorted(findings)
    for number, (x, zone) in enumerate(placed):
        following = [name for _, name in placed[number : number + 2]]
        lasting = len(following) < 2 or following[1] == zone  # one remark on another zone is no move there
        if (not starts or starts[-1][1] != zone) and lasting:
            starts.append((x, zone))
    ends = [x for x, _ in starts[1:]] + [100.0]
    return [
        Stretch(round(x, 2), round(end - x, 2), zone) for (x, zone), end in zip(starts, ends, strict=True)
    ]


def _ticks(seconds: float) -> Iterable[Stretch]:
    step = next((s for s in (10, 30, 60, 120, 300, 600, 900, 1800) if seconds / s <= 8), 3600)
    for at in range(0, int(seconds), step):
        yield Stretch(round(100 * at / seconds, 2), 0, clock(at))


@lru_cache(maxsize=4)
def _spoken_s(once: Once[Word]) -> float:
    return sum((word.end_s or 0) - (word.start_s or 0) for word in once.items if word.start_s is not None)


def _told(walk: Walk, marks: int) -> str:
    spoken = _spoken_s(Once(walk.transcript.words))
    sound = f"{length(walk.source.duration_s)} of sound, {length(spoken)} of it words" if spoken else "a text"
    return f"{sound}, with {marks} findings from start to end"


def _at(seconds: float, whole: float) -> float:
    return round(100 * seconds / whole, 2)
