"""What goes with what on a machine kind: which check a condition answers, and what answers a trouble."""

import hashlib
from collections.abc import Callable
from functools import lru_cache

from saycheck.errors import MachineError, VocabularyError
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.load import load, roots_of, shared_tables
from saycheck.vocabulary.schema import Check, Checks, Measure
from saycheck.vocabulary.unit import has_file

SHARED = ("checks.toml", "parts.toml", "units.toml")
"""The shared files that matter here."""
WHOLE = "good"
"""The condition that speaks of a part as a whole ("bucket is good")."""

PROVES = {"works": frozenset(["inoperative", "broken"]), "tight": frozenset(["loose", "play"])}
"""Good words that end a trouble although no general check lists both; common practice, no source."""

GROWS = {
    "chipped": frozenset(["crack", "broken", "missing"]),
    "crack": frozenset(["broken", "missing"]),
    "damaged": frozenset(["broken", "missing"]),
    "bent": frozenset(["broken", "missing"]),
    "broken": frozenset(["missing"]),
    "loose": frozenset(["missing"]),
    "chafed": frozenset(["cut", "split", "leak"]),
    "perished": frozenset(["split", "leak"]),
}
"""What a trouble may have become: a chip a crack, a loose bolt a missing one; common practice, no source."""


class Sense:
    """The checks of one machine kind, or of a unit of it that has words of its own.

    Of an unknown kind only those that all machines share. ``words`` is the whole vocabulary, None there.
    """

    def __init__(self, kind: str, unit: str = "") -> None:
        self.words = _words(kind, unit)
        self.parts: dict[str, Part] = {part.name: part for part in self.words.parts} if self.words else {}
        self.checks: dict[str, Check] = dict(self.words.checks) if self.words else _shared_checks()
        general = [set(check.conditions) for check in self.checks.values() if WHOLE not in check.conditions]
        self._together = {(one, other) for found in general for one in found for other in found}
        self._general: dict[str, str] = {}
        self._check_of: dict[tuple[str, str], Check | None] = {}

    def check(self, condition: str) -> str:
        """The general check that a condition answers, the condition itself where none does.

        "Worn" and "worn out" are one trouble that grows; "cut" and "worn" are two, although one check of a
        tyre asks for both.
        """
        name = self._general.get(condition)
        if name is None:
            check = self._check("", condition)
            name = self._general[condition] = check.name if check else condition
        return name

    def is_same(self, before: str, now: str) -> bool:
        """Whether what is said now is the trouble of before, as it was or grown."""
        return self.check(before) == self.check(now) or now in GROWS.get(before, ())

    def urgency(self, line: str, condition: str) -> str:
        """``before work``, ``this week`` or ``next service``."""
        check = self._check(line, condition)
        return check.urgency if check else "this week"

    def hurts(self, line: str, condition: str) -> bool:
        """Whether a failure can injure someone."""
        check = self._check(line, condition)
        return bool(check and check.hurts)

    def answers(self, good: str, bad: str) -> bool:
        """Whether a good word on a part ends a trouble of it: "dry" a leak, "good" any."""
        return good == WHOLE or bad in PROVES.get(good, ()) or (good, bad) in self._together

    def measures(self, line: str) -> tuple[Measure, ...]:
        """What can be measured on a part."""
        part = self.parts.get(line)
        return tuple(part.measures) if part else ()

    def has_limit(self, line: str) -> bool:
        """Whether a published limit is known for anything measured on a part."""
        return any(m.at_least is not None or m.at_most is not None for m in self.measures(line))

    def zone(self, line: str) -> str:
        """Where one stands to look at a part; empty where nobody knows."""
        part = self.parts.get(line)
        return part.zones[0] if part else ""

    def _check(self, line: str, condition: str) -> Check | None:
        key = (line, condition)
        if key not in self._check_of:
            part = self.parts.get(line)
            own = [self.checks[name] for name in part.checks if name in self.checks] if part else []
            found = (check for check in [*own, *self.checks.values()] if condition in check.conditions)
            self._check_of[key] = next(found, None)
        return self._check_of[key]


def words_version() -> str:
    """What changes when a vocabulary file that this module reads does, the shop's own included."""
    digest = hashlib.sha256()
    for root in roots_of(()):
        shared = [path for name in SHARED if (path := root / "shared" / name).is_file()]
        own = [path for folder in ("machines", "units") for path in sorted((root / folder).glob("*.toml"))]
        for path in [*own, *shared]:
            digest.update(path.name.encode("utf-8", "surrogateescape") + b"\0" + path.read_bytes())
    return digest.hexdigest()[:16]


def sense_of(kind: str, unit: str | None = None) -> Sense:
    """The sense of a kind, or of a unit that has a file of its own; each is read once in the life of the program."""
    return _sense(kind, unit if unit and _has_file()(unit) else "")


def read_again() -> None:
    """Forget what was read, so that edited words count."""
    _sense.cache_clear()
    _has_file.cache_clear()


@lru_cache(maxsize=64)
def _sense(kind: str, unit: str) -> Sense:
    return Sense(kind, unit)


@lru_cache(maxsize=1)
def _has_file() -> Callable[[str], bool]:
    return has_file(roots_of(()))


def _words(kind: str, unit: str) -> Vocabulary | None:
    """The words of a unit; of its kind alone where its file says that it is of another; None of no known kind."""
    for wanted in dict.fromkeys((unit, "")):
        try:
            return load(kind, unit=wanted)
        except MachineError:
            return None
        except VocabularyError:
            if not wanted:
                raise
    return None


def _shared_checks() -> dict[str, Check]:
    tables = shared_tables("checks.toml", Checks)
    return {check.name: check for table in tables for check in table.check}
