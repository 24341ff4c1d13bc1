"""Whether a finding is a leak, and which class of leak its words tell."""

import re

from saycheck.models.walk import Finding
from saycheck.sums.leaks import Leak, leak_in_words

ASKED = "measure-leak"
"""How the id of a question for the class of a leak begins."""


def leaks(finding: Finding) -> bool:
    """Whether a liquid leaks there; air and gas that leak have no class."""
    return finding.condition == "leak" and not finding.denied and "air" not in _names(finding)


def told_leak(finding: Finding, text: str, answer: str = "") -> Leak | None:
    """The leak as it was said, ``answer`` being what was answered when its class was asked for
    (up to a colon, behind which the answer's own words stand).

    None where nothing leaks, and where nobody said whether drops form or fall. ``text`` is the transcript.
    """
    if not leaks(finding):
        return None
    fluid = "fuel" if "fuel" in _names(finding) else ""
    words = " … ".join(text[one.char_start : one.char_end] for one in finding.evidence)
    return leak_in_words(answer.partition(": ")[0], fluid=fluid) or leak_in_words(words, fluid=fluid)


def at_once(part: str, line: str, words: str) -> bool:
    """Whether words tell of a leak that is reported before the machine does anything else."""
    fluid = "fuel" if "fuel" in f"{part} {line}".split() else ""
    found = leak_in_words(words, fluid=fluid)
    return found is not None and found.report_at_once


def question_of(finding: Finding) -> str:
    """The id of the question for the class of a leak."""
    words = re.findall(r"[a-z0-9]+", f"{finding.zone} {finding.side} {finding.part}".lower())
    return "-".join([ASKED, *words])


def _names(finding: Finding) -> list[str]:
    return f"{finding.part} {finding.line or ''}".split()
