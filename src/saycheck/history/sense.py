"""What goes with what on a machine kind: which check a condition answers, and what answers a trouble."""

import hashlib
from functools import lru_cache

from saycheck.errors import MachineError
from saycheck.vocabulary.compiled import Part
from saycheck.vocabulary.load import load, roots_of, shared_tables
from saycheck.vocabulary.schema import Check, Checks, Measure

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
    """The checks of one machine kind; of an unknown kind only those that all machines share."""

    def __init__(self, kind: str) -> None:
        self.parts: dict[str, Part] = {}
        try:
            vocabulary = load(kind)
            self.parts = {part.name: part for part in vocabulary.parts}
            self.checks: dict[str, Check] = dict(vocabulary.checks)
        except MachineError:
            tables = shared_tables("checks.toml", Checks)
            self.checks = {check.name: check for table in tables for check in table.check}
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
        for path in [*sorted((root / "machines").glob("*.toml")), *shared]:
            digest.update(path.name.encode("utf-8", "surrogateescape") + b"\0" + path.read_bytes())
    return digest.hexdigest()[:16]


@lru_cache(maxsize=64)
def sense_of(kind: str) -> Sense:
    """The sense of a kind, read once in the life of the program."""
    return Sense(kind)
