"""Whether a finding is a leak, and which class of leak its words tell."""

import re

from saycheck.models.walk import Finding
from saycheck.sums.leaks import Leak, leak_in_words

ASKED = "measure-leak"
"""How the id of a question for the class of a leak begins."""


def leaks(finding: Finding) -> bool:
    """Whether a liquid leaks there; air and gas that leak have no class."""
    return (
        finding.condition == "leak" and not finding.denied and "air" not in _names(finding.part, finding.line)
    )


def told_leak(finding: Finding, text: str, answer: str = "") -> Leak | None:
    """The leak as it was said, ``answer`` being what was answered when its class was asked for
    (up to a colon, behind which the answer's own words stand).

    None where nothing leaks, and where nobody said whether drops form or fall. ``text`` is the transcript.
    """
    if not leaks(finding):
        return None
    fluid = _fluid(finding.part, finding.line)
    words = " … ".join(text[one.char_start : one.char_end] for one in finding.evidence)
    return leak_in_words(answer.partition(": ")[0], fluid=fluid) or leak_in_words(words, fluid=fluid)


def at_once(part: str, line: str, words: str) -> bool:
    """Whether words tell of a leak that is reported before the machine does anything else."""
    found = leak_in_words(words, fluid=_fluid(part, line))
    return found is not None and found.report_at_once


def question_of(finding: Finding) -> str:
    """The id of the question for the class of a leak."""
    words = re.findall(r"[a-z0-9]+", f"{finding.zone} {finding.side} {finding.part}".lower())
    return "-".join([ASKED, *words])


def _fluid(part: str, line: str | None) -> str:
    """What leaks there where it makes a leak worse: fuel, else nothing."""
    return "fuel" if "fuel" in _names(part, line) else ""


def _names(part: str, line: str | None) -> list[str]:
    return f"{part} {line or ''}".split()
