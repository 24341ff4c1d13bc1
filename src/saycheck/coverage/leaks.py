"""Questions about leaks of which nobody said whether drops form or fall."""

from collections.abc import Iterable, Sequence

from saycheck.coverage.wording import called, sentence
from saycheck.leaking import leaks, question_of, told_leak
from saycheck.models.walk import About, Finding, Question


def leak_classes(findings: Sequence[Finding], text: str) -> Iterable[Question]:
    """A question for each leak whose words tell no class; ``text`` is the transcript.

    A part of which several things were said is asked for once, and not where one of them tells.
    """
    told = {_place(one) for one in findings if told_leak(one, text)}
    for finding in findings:
        if not leaks(finding) or finding.state not in ("watch", "writeup") or _place(finding) in told:
            continue
        if not finding.evidence:
            continue  # typed or answered by someone who has looked meanwhile
        told.add(_place(finding))
        name = sentence(called(finding.part, finding.side))
        yield Question(
            id=question_of(finding),
            about=About(zone=finding.zone, part=finding.part, side=finding.side),
            kind="measure",
            text=f"{name}, leak: only wet, drops that hang, or drops that fall?",
            evidence=finding.evidence,
        )


def _place(finding: Finding) -> tuple[str, str]:
    return finding.part, finding.side
