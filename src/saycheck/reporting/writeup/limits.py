"""A measurement against the limit of its part, and where that limit comes from."""

from saycheck.limits import held_against
from saycheck.models.walk import Finding, Measurement
from saycheck.reporting.wording import number, plain
from saycheck.reporting.writeup.document import Reading
from saycheck.vocabulary.compiled import Vocabulary

ASK = "look it up in the maker’s manual"


def readings(finding: Finding, vocabulary: Vocabulary) -> list[Reading]:
    """Each measurement of a finding in words, with limit and verdict where a published limit is known."""
    return [_reading(one, finding, vocabulary) for one in finding.measurements if one.unit != "count"]


def beyond(finding: Finding, vocabulary: Vocabulary) -> bool:
    """Whether a measurement is beyond its limit, whatever the words leave open."""
    checks = (held_against(one, finding, vocabulary) for one in finding.measurements)
    return any(check is not None and check.verdict == "beyond" for check in checks)


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
