"""The recording as a strip: where someone spoke, where it was too loud, where each zone and finding lies.

All places are hundredths of the width. A text has no time; its strip runs along its characters.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from saycheck.models.review import Standing
from saycheck.models.walk import Evidence, Finding, Walk
from saycheck.page.once import Once
from saycheck.reporting.wording import STATE_WORDS, clock, length, with_side

BINS = 240
"""Columns of speech; about as many as can be told apart on a phone."""


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

    x: float
    state: str
    title: str
    key: str


@dataclass(frozen=True)
class Strip:
    """The whole strip; ``told`` says in words what it shows, ``ticks`` are times along it."""

    bars: list[Bar]
    noise: list[Stretch]
    zones: list[Stretch]
    marks: list[Mark]
    ticks: list[Stretch]
    told: str
    timed: bool
    seconds: float


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

    marks = [_mark(finding, x) for finding in walk.findings if (x := _first(finding, place)) is not None]
    noise = [
        Stretch(_at(p.start_s, whole), _at(p.end_s - p.start_s, whole), p.trouble or "noise")
        for p in walk.sound
        if p.trouble or p.kind == "noise"
    ]
    return Strip(
        bars=_bars(walk, seconds) if timed else [],
        noise=noise,
        zones=_zones(walk, place),
        marks=marks,
        ticks=_ticks(seconds),
        told=_told(walk, len(marks)),
        timed=timed,
        seconds=seconds,
    )


def _mark(finding: Finding, x: float) -> Mark:
    title = f"{STATE_WORDS[finding.state]}: {with_side(finding.part, finding.side)}"
    return Mark(round(x, 2), finding.state, title, f"f-{finding.id}")


def _first(finding: Finding, place: Callable[[Evidence], float | None]) -> float | None:
    return min((x for one in finding.evidence if (x := place(one)) is not None), default=None)


def _bars(walk: Walk, seconds: float) -> list[Bar]:
    return list(_bars_of(Once(walk.transcript.words), seconds))


@lru_cache(maxsize=4)
def _bars_of(once: Once, seconds: float) -> tuple[Bar, ...]:
    spoken = [0.0] * BINS
    step = seconds / BINS
    for word in once.words:
        if word.start_s is None or word.end_s is None:
            continue
        for number in range(int(word.start_s / step), min(int(word.end_s / step), BINS - 1) + 1):
            share = min(word.end_s, (number + 1) * step) - max(word.start_s, number * step)
            spoken[number] += max(share, 0.0)
    return tuple(
        Bar(round(100 * number / BINS, 2), round(min(time / step, 1.0), 2))
        for number, time in enumerate(spoken)
        if time
    )


def _zones(walk: Walk, place: Callable[[Evidence], float | None]) -> list[Stretch]:
    """Where the walker stood, as far as the findings tell: from the first of a zone to the first of the next."""
    starts: list[tuple[float, str]] = []
    placed = sorted(
        (x, finding.zone) for finding in walk.findings if (x := _first(finding, place)) is not None
    )
    for number, (x, zone) in enumerate(placed):
        following = [name for _, name in placed[number : number + 2]]
        lasting = len(following) < 2 or following[1] == zone  # one remark on another zone is no move there
        if (not starts or starts[-1][1] != zone) and lasting:
            starts.append((x, zone))
    ends = [x for x, _ in starts[1:]] + [100.0]
    return [
        Stretch(round(x, 2), round(end - x, 2), zone) for (x, zone), end in zip(starts, ends, strict=True)
    ]


def _ticks(seconds: float) -> list[Stretch]:
    if not seconds:
        return []
    step = next((s for s in (10, 30, 60, 120, 300, 600, 900, 1800) if seconds / s <= 8), 3600)
    return [Stretch(round(100 * at / seconds, 2), 0, clock(at)) for at in range(0, int(seconds), step)]


@lru_cache(maxsize=4)
def _spoken_s(once: Once) -> float:
    return sum((word.end_s or 0) - (word.start_s or 0) for word in once.words if word.start_s is not None)


def _told(walk: Walk, marks: int) -> str:
    spoken = _spoken_s(Once(walk.transcript.words))
    sound = f"{length(walk.source.duration_s)} of sound, {length(spoken)} of it words" if spoken else "a text"
    return f"{sound}, with {marks} findings from start to end"


def _at(seconds: float, whole: float) -> float:
    return round(100 * seconds / whole, 2)
