"""In which order findings are to be decided: the urgent first, among them those that can injure, then by the walk."""

from collections.abc import Mapping

from saycheck.limits import part_of
from saycheck.models.walk import Finding
from saycheck.reporting.writeup.limits import beyond
from saycheck.sums.leaks import Leak
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.schema import Check

URGENCIES = ("before work", "this week", "next service")


def checks_of(finding: Finding, vocabulary: Vocabulary) -> list[Check]:
    """The checks that a finding answers, the gravest first: its own, and those of its part that know its condition.

    A chafed hose answers "chafed" and, being a hose under pressure, "hose sound": the graver one counts.
    """
    part = part_of(finding, vocabulary)
    said = "inoperative" if finding.condition.startswith("not ") else finding.condition
    own = [vocabulary.checks[name] for name in part.checks if name in vocabulary.checks] if part else []
    known = [check for check in own if said in check.conditions]
    named = vocabulary.checks.get(finding.check) or vocabulary.check_of(part, said)
    found = {check.name: check for check in [*known, *([named] if named else [])]}
    return sorted(found.values(), key=lambda check: (URGENCIES.index(check.urgency), not check.hurts))


def urgency(finding: Finding, vocabulary: Vocabulary, leak: Leak | None = None) -> str:
    """How soon it wants attention; "this week" where no check says, "before work" for the worst leaks."""
    if leak is not None and leak.report_at_once:
        return URGENCIES[0]
    checks = checks_of(finding, vocabulary)
    return checks[0].urgency if checks else "this week"


def injures(finding: Finding, vocabulary: Vocabulary) -> bool:
    """Whether a failure can hurt someone, as far as the vocabulary knows."""
    return any(check.hurts for check in checks_of(finding, vocabulary))


def in_order(
    findings: list[Finding], vocabulary: Vocabulary, leaks: Mapping[str, Leak] | None = None
) -> list[Finding]:
    """The findings, most urgent first; of equally urgent the dangerous, then what is beyond its limit.

    ``leaks`` are those whose class is known, by finding id.
    """
    known = leaks or {}

    def rank(finding: Finding) -> tuple[int, bool, bool]:
        return (
            URGENCIES.index(urgency(finding, vocabulary, known.get(finding.id))),
            not injures(finding, vocabulary),
            not beyond(finding, vocabulary),
        )

    return sorted(findings, key=rank)
