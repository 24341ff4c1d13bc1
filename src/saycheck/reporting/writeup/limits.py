"""A measurement against the limit of its part, and where that limit comes from."""

from collections.abc import Sequence

from saycheck.errors import SumError
from saycheck.models.walk import Finding, Measurement
from saycheck.reporting.wording import number, plain
from saycheck.reporting.writeup.document import Reading
from saycheck.sums.conversions import measured_in
from saycheck.sums.limits import LimitCheck, check_limit
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.schema import Measure

ASK = "look it up in the maker's manual"

_OF_THE_WHOLE = {
    "worn", "worn out", "glazed", "measured", "mentioned", "good", "watch", "needs work", "low", "high", "level",
    "charged", "not charged",
}  # fmt: skip
"""Conditions whose number measures the part; that of a crack or a cut measures the crack."""

_OF_PLAY = {"play", "loose", "slack"}


def readings(finding: Finding, vocabulary: Vocabulary) -> list[Reading]:
    """Each measurement of a finding in words, with limit and verdict where a published limit is known."""
    return [_reading(one, finding, vocabulary) for one in finding.measurements if one.unit != "count"]


def beyond(finding: Finding, vocabulary: Vocabulary) -> bool:
    """Whether a measurement is beyond its limit, whatever the words leave open."""
    checks = (held_against(one, finding, vocabulary) for one in finding.measurements)
    return any(check is not None and check.verdict == "beyond" for check in checks)


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


def _reading(measurement: Measurement, finding: Finding, vocabulary: Vocabulary) -> Reading:
    check = held_against(measurement, finding, vocabulary)
    value = plain(_said(measurement))
    if check is None:
        return Reading(value=value, limit=ASK, verdict=measurement.judged or "")
    verdict = {"within": "within the limit", "beyond": "beyond the limit"}.get(check.verdict)
    return Reading(
        value=value,
        limit=check.limit,
        verdict=verdict or "too close to call: measure again, finer",
        source=check.source,
    )


def _said(measurement: Measurement) -> str:
    """A measurement as it was said, with what its words leave open: "14 ± 0.5 mm or thou"."""
    units = " or ".join(dict.fromkeys([measurement.unit, *measurement.other_units]))
    open_by = f" ± {number(measurement.plus_minus)}" if measurement.plus_minus else ""
    return f"{number(measurement.value)}{open_by} {units}"
