"""What goes into a write-up: the walk as it stands, and what others know of the unit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from saycheck.models.decisions import Decision
from saycheck.models.review import Standing
from saycheck.reporting.writeup.costs import Cost
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.waiting import Waiting


@dataclass(frozen=True)
class Point:
    """One measurement of an earlier walk: ``value`` ± ``plus_minus`` in the unit of its series.

    ``at`` is the hour-meter reading in h where every walk has one, else days since the first walk.
    """

    at: float
    value: float
    plus_minus: float = 0.0


@dataclass(frozen=True)
class Series:
    """What was measured on a part over time, oldest first; ``axis`` is "h" or "days"."""

    points: Sequence[Point]
    unit: str
    axis: str = "h"
    at_least: float | None = None
    at_most: float | None = None
    saying: str = ""


@dataclass(frozen=True)
class Given:
    """All that a write-up may show; nothing else gets into it.

    ``made`` is when it is made. ``walker`` and ``owner`` are names that the walk does not hold. By finding id
    go ``series`` (measurements over time), ``since`` (when a trouble was first seen, on an earlier walk) and
    ``costs`` (what waiting costs). ``pictures`` are the bytes of photographs by file name.
    """

    standing: Standing
    vocabulary: Vocabulary
    waiting: Sequence[Waiting]
    made: datetime
    version: str
    walk_sha256: str = ""
    decisions: Sequence[Decision] = ()
    walker: str = ""
    owner: str = ""
    series: Mapping[str, Series] = field(default_factory=dict)
    since: Mapping[str, str] = field(default_factory=dict)
    costs: Mapping[str, Cost] = field(default_factory=dict)
    pictures: Mapping[str, bytes] = field(default_factory=dict)
