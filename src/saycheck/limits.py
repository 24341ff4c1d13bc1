"""Which published limit a measurement of a walk is held against, and what that limit says of it.

A limit is only used where it is clear that the number measures the part: not where a number is that of a crack,
not where its unit may be two things, not where two limits would fit. What is judged is written into the
measurement, so that the checklist, the questions, the write-up and the history say the same.
"""

from collections.abc import Sequence

from saycheck.errors import SumError
from saycheck.models.walk import Finding, Measurement
from saycheck.sums.conversions import measured_in
from saycheck.sums.limits import LimitCheck, check_limit
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.schema import Measure

_OF_THE_WHOLE = {
    "worn", "worn out", "glazed", "measured", "mentioned", "good", "watch", "needs work", "low", "high", "level",
    "charged", "not charged",
}  # fmt: skip
"""Conditions whose number measures the part; that of a crack or a cut measures the crack."""

_OF_PLAY = {"play", "loose", "slack"}


def judged(findings: Sequence[Finding], vocabulary: Vocabulary) -> list[Finding]:
    """The findings with ``judged`` set on each measurement that a published limit speaks of, None on the others."""
    return [_judged(finding, vocabulary) for finding in findings]


def doubted(findings: Sequence[Finding], vocabulary: Vocabulary) -> list[Finding]:
    """The findings, those for the reviewer that were called good and are beyond a limit: word against number."""
    return [_doubted(finding, vocabulary) for finding in findings]


def _judged(finding: Finding, vocabulary: Vocabulary) -> Finding:
    if not finding.measurements:
        return finding
    checks = [held_against(one, finding, vocabulary) for one in finding.measurements]
    measurements = [
        one.model_copy(update={"judged": check.verdict if check else None})
        for one, check in zip(finding.measurements, checks, strict=True)
    ]
    # A finding that stays as it is stays the same object: what is known of it is found again.
    same = measurements == finding.measurements
    return finding if same else finding.model_copy(update={"measurements": measurements})


def _doubted(finding: Finding, vocabulary: Vocabulary) -> Finding:
    checks = (held_against(one, finding, vocabulary) for one in finding.measurements)
    broken = next((check for check in checks if check and check.verdict == "beyond"), None)
    if broken is None or finding.state != "good":
        return finding
    why = f"called good, but beyond the published limit of {broken.limit}"
    return finding.model_copy(update={"needs_review": True, "review_reasons": [*finding.review_reasons, why]})


def held_against(measurement: Measurement, finding: Finding, vocabulary: Vocabulary) -> LimitCheck | None:
    """What the published limit says of a measurement; None where none is known or it is not clear which."""
    if measurement.other_units or measurement.unit == "count":
        return None
    fitting = [one for one in limits(finding, vocabulary) if _measures(one, measurement)]
    if len(fitting) != 1:
        return None
    limit = fitting[0]
    return check_limit(
        measured_in(measurement, limit.unit),
        at_least=limit.at_least,
        at_most=limit.at_most,
        unit=limit.unit,
        source=limit.source or "",
    )


WORN_AWAY = {"thickness left": "thickness worn away"}
"""What people say instead of a measure in percent, being the rest of it."""


def choices_of(measurement: Measurement, finding: Finding, vocabulary: Vocabulary) -> list[str]:
    """What a number may be of that could be held against several limits; empty where it is clear or has none."""
    if measurement.other_units or measurement.unit == "count":
        return []
    fitting = [one.attribute for one in limits(finding, vocabulary) if _measures(one, measurement)]
    if len(fitting) < 2:
        return []
    return [name for one in dict.fromkeys(fitting) for name in (one, WORN_AWAY.get(one)) if name]


def limits(finding: Finding, vocabulary: Vocabulary) -> list[Measure]:
    """The measures with a published limit that a number said in this finding can be about."""
    known = [
        one
        for one in _measures_of(finding, vocabulary)
        if one.at_least is not None or one.at_most is not None
    ]
    if finding.condition in _OF_PLAY:
        return [one for one in known if one.attribute in ("gap", "play", "sag", "deflection")]
    return known if finding.condition in _OF_THE_WHOLE else []


def part_of(finding: Finding, vocabulary: Vocabulary) -> Part | None:
    """The part of the checklist that a finding belongs to; None where it has no line."""
    name = finding.line or finding.part
    return next((part for part in vocabulary.parts if part.name == name), None)


def _measures_of(finding: Finding, vocabulary: Vocabulary) -> Sequence[Measure]:
    part = part_of(finding, vocabulary)
    if part is None:
        return []
    if finding.part == part.name:
        return part.measures
    component = next((name for name in part.components if finding.part.endswith(name)), None)
    shared = vocabulary.shared.get(component) if component else None
    return shared.measures if shared else []


def _measures(limit: Measure, measurement: Measurement) -> bool:
    """Whether a limit is of the same quantity, and of the same attribute where one was said."""
    if measurement.attribute is not None and measurement.attribute != limit.attribute:
        return False
    if limit.unit == measurement.unit:
        return True
    if {"percent", "degree"} & {limit.unit, measurement.unit}:  # plain numbers both, and still not the same
        return False
    try:
        measured_in(measurement, limit.unit)
    except SumError:
        return False
    return True


def names_of(finding: Finding, vocabulary: Vocabulary) -> list[str]:
    """What a finding's part is called: as it was found, its line, and the shared part behind it."""
    part = part_of(finding, vocabulary)
    return [finding.part, *([part.name, *([part.like] if part.like else [])] if part else [])]
