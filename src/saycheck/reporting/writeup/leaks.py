"""The class of a leak from the words said of it, and what that means; where they do not tell, what to look for."""

from saycheck.leaking import leaks, question_of, told_leak
from saycheck.models.review import Standing
from saycheck.models.walk import Finding
from saycheck.reporting.writeup.document import Reading
from saycheck.sums.leaks import MEANING, Leak

LABEL = "leak"
NOT_TOLD = "class not told; look whether it is only wet (I), drops hang (II) or drops fall (III)"


def leak_of(finding: Finding, there: Standing) -> Leak | None:
    """The leak as it was said, or as it was answered when its class was asked for."""
    answer = there.answers.get(question_of(finding), "")
    return told_leak(finding, there.walk.transcript.text, answer)


def leaked(finding: Finding, there: Standing) -> list[Reading]:
    """One line on a leak, none on anything else."""
    if not leaks(finding):
        return []
    found = leak_of(finding, there)
    if found is None:
        return [Reading(label=LABEL, value=NOT_TOLD)]
    said = f"class {found.leak_class}, as said: {MEANING[found.leak_class]}"
    return [Reading(label=LABEL, value=said, verdict=found.to_do, source=found.source)]
